package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNoPriceOfAHouse takes no number of a house, of a time or of a yard's place for a price, and no name of those written to for
// that of a supplier.
func TestNoPriceOfAHouse(t *testing.T) {
	for _, text := range []string{
		"Lava is $82 a yard.\n\nOur yard is at 1410 Pumice Mill Road.\n\nBest,\nLou Reed\nLow Ford Quarry",
		"Lava is $82 a yard.\n\nOur yard is at 1410 Pumice Flats.\n\nBest,\nLou Reed\nLow Ford Quarry",
		"Phone message for Kit, 16.20\n\nLow Ford Quarry. Lava is $82 a yard.",
		"May 1, 2026\n\nMrs. Ada Pell\nCinder Lane Community Gardens\n\nDear Mrs. Pell:\n\nLava is $82 a yard.\n\nYours truly,\nLou Reed\nLow Ford Quarry",
		"[chat with Low Ford Quarry]\nKit: do you have lava?\nLow Ford Quarry: $82 a yard\nKit: thanks\nLow Ford Quarry: cheers",
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 1, summary(p))
		for heading, want := range map[string]string{"medium": "lava rock", "price": "$82", "supplier": "Low Ford Quarry"} {
			assert.Equal(t, want, p.Rows[0].Text(heading), summary(p))
		}
	}
}

// TestWhoBeginsALongName asks whether the first of many words at the end of a message in small letters is who writes.
func TestWhoBeginsALongName(t *testing.T) {
	for text, asked := range map[string]bool{"lava is $82 a yard. Lou Pennick Flat Stone": true, "lava is $82 a yard. Lou, Pennick Flat Stone": false, "Lava is $82 a yard. Upper Pennick Flat Stone": false} {
		p, err := Parse(text, Options{})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 1, summary(p))
		assert.Equal(t, asked, p.Rows[0].Text("supplier") == "" && len(p.Asked) == 1, summary(p))
	}
}

// TestFeesOfOneKind leaves a fee to a person that its words say is for one kind of pack, where others are offered, and reads what a
// list of trucks in brackets costs.
func TestFeesOfOneKind(t *testing.T) {
	p, err := Parse("Low Ford Quarry. Pumice bulk bags of 1.5 yd, $180 each. Loose lava $70 a yard. Loose stone comes by trailer at $310 a load of 40 yards. Bulk bags ship by carrier at $95 per order.", Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 2, summary(p))
	for i := range p.Rows {
		assert.Empty(t, p.Rows[i].Text("delivery"), summary(p))
	}
	assert.Empty(t, p.Delivery, summary(p))
	assert.Len(t, p.Asked, 2, summary(p))

	for words, fees := range map[string][]string{"Delivery: trailer (1 yd) $35, tipper (5 yd) $80": {"$35", "$80"}, "Delivery is 55 for up to 5 yds, 85 for up to 10": {"55", "85"}, "deliverin is $85": nil, "shippin is $85, free once ur order hits $400": {""}} {
		p, err := Parse("Low Ford Quarry: lava $70 a yard. "+words+".", Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		var got []string
		for i := range p.Delivery {
			got = append(got, p.Delivery[i].Text("load_fee"))
		}
		if len(fees) == 1 && fees[0] == "" {
			require.Len(t, p.Rows, 1, summary(p))
			assert.Equal(t, "$85", p.Rows[0].Text("delivery"), summary(p))
			fees = nil
		}
		assert.Equal(t, fees, got, summary(p))
	}
}
