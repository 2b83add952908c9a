package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/internal/plaintext"
)

// TestSeveralSpeak reads what several suppliers say in one paste: each keeps its own terms, and where it is not plain whose they are
// none is entered.
func TestSeveralSpeak(t *testing.T) {
	for _, one := range []struct {
		name, text string
		rows       [][3]string // supplier, price, delivery
		ways       []string    // suppliers of rows of delivery.csv
	}{
		{"a preface, and who wrote each", "Two answers on lava. Vote by Thursday - Wen\n\n---- Low Ford Quarry wrote:\nLava is $68 a yard, truck $85.\n\n---- Tamarack Stone Yard wrote:\nLava $71/yd, delivery $60.\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"says, in paragraphs, with words behind them", "Low Ford Quarry says: lava $68 a yard, delivery $85.\n\nTamarack Stone Yard says: lava $71 a yard, delivery $60.\n\nCommittee meets Wed 7pm at no. 18.\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"heads of two mails, signed", "Both are below. Bev\n\nFrom: Ansel Draper\nLava $68/yd. Delivery $85.\nAnsel Draper\nLow Ford Quarry\n\nFrom: Order Desk\nLava $71/yd. Delivery $60.\nThank you!\nTamarack Stone Yard\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"numbered messages", "Two answers on lava. Wen\n\nMessage 1, Low Ford Quarry:\nLava is $68 a yard, delivery $85.\n\nMessage 2, Tamarack Stone Yard:\nLava $71/yd, delivery $60.\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"numbers between rules, of which one names nobody", "Three answers. Wen\n\n--- 1 ---\nLava is $68 a yard, delivery $85.\nLow Ford Quarry\n\n--- 2 ---\nLava $70 a yard, delivery $40.\n\n--- 3 ---\nLava $71/yd, delivery $60.\nTamarack Stone Yard\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"", "$70", "$40"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"numbers in lines of their own", "#1\nLava is $68 a yard, delivery $85.\nLow Ford Quarry\n#2\nLava $71/yd, delivery $60.\nTamarack Stone Yard\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"ordinals, in other words", "First email - Low Ford Quarry\nLava is $68 a yard, delivery $85.\n\nSecond email - Tamarack Stone Yard\nLava $71/yd, delivery $60.\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"heads of two mails below a request", "Fwd: lava for the five of us\n\nBoth below, check my math. Bev\n\nFrom: sales\nLava $68/yd, delivery $85 per load (8 yards).\nThanks, Ansel\nLow Ford Quarry\n\nFrom: Kit\nHi! Lava $71/yd. Delivery $60 per load, 12 yards.\nKit Sole\nTamarack Stone Yard\n",
			[][3]string{{"Low Ford Quarry", "$68", ""}, {"Tamarack Stone Yard", "$71", ""}}, []string{"Low Ford Quarry", "Tamarack Stone Yard"}},
		{"quoted and passed on", "Both answers are here so nobody has to dig. Wen\n\n> Lava is $68 a yard. Delivery is $85.\n> Ansel\n> Low Ford Quarry\n\n> Hi Wen, lava $71/yd. Delivery $60.\n> Tamarack Stone Yard\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"quoted, with no company", "That works for us. Wen\n\n> I could pay $68 a yard for lava.\n", nil, nil},
		{"quoted, and asked", "Sorry, no.\n\n> Could you do lava for $68 a yard?\n> Low Ford Quarry\n", nil, nil},
		{"sentences", "First place, Low Ford Quarry: lava $68 a yard, delivery $85. Second place, Tamarack Stone Yard: lava $71 a yard, delivery $60.",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"a fee of one of two", "Low Ford Quarry has pumice at $52 a yard, $90 to deliver. High Fell Stone has lava at $61 a yard and delivers free.",
			[][3]string{{"Low Ford Quarry", "$52", "$90"}, {"High Fell Stone", "$61", "0"}}, nil},
		{"what holds for both is in neither", "Low Ford Quarry has lava at $68 a yard. Tamarack Yard has pumice for $71 a yard. Delivery is $60 from either.",
			[][3]string{{"", "$68", ""}, {"", "$71", ""}}, nil},
		{"a third with no word of a company", "Low Ford Quarry has lava at $68 a yard. Sandy has pumice at $74 a yard. Tamarack Stone Yard has scoria at $71 a yard.",
			[][3]string{{"", "$68", ""}, {"", "$74", ""}, {"", "$71", ""}}, nil},
		{"each with its truck", "Low Ford Quarry is $68/yd lava, delivery $85 a load, 6 yards a load. Tamarack Stone Yard is $71/yd lava, delivery $60 a load, 8 yards a load.",
			[][3]string{{"Low Ford Quarry", "$68", ""}, {"Tamarack Stone Yard", "$71", ""}}, []string{"Low Ford Quarry", "Tamarack Stone Yard"}},
		{"parted by stars", "Lava is $68 a yard, delivery $85.\nRegards,\nLow Ford Quarry\n\n* * *\n\nLava $71/yd, delivery $60.\nTamarack Stone Yard\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"forwarded, each below a line of the program", "Both below. Wen\n\n-----Original Message-----\nFrom: Low Ford Quarry [sales@lowford.example]\nSent: Monday\n\nLava is $68 a yard, delivery $85.\nTam\n\n-----Original Message-----\nFrom: Tamarack Stone Yard [yard@tamarack.example]\nSent: Tuesday\n\nLava $71/yd, delivery $60.\n",
			[][3]string{{"Low Ford Quarry", "$68", "$85"}, {"Tamarack Stone Yard", "$71", "$60"}}, nil},
		{"the buyer's letter below", "Jo,\n\nlava is $68 a yard.\n\nRay Pell\nLow Ford Quarry\n\n____\nFrom: Jo Medina\nSent: Tuesday 7:51 AM\nTo: Ray Pell\nSubject: lava\n\nRay, what is lava? Budget is $600.\n",
			[][3]string{{"", "$68", ""}}, nil},
		{"the letter that is answered", "Lava is $68 a yard.\nTam\nTamarack Stone Yard\n\nOn 2 May Low Ford Quarry wrote:\n> what is lava?\n", [][3]string{{"Tamarack Stone Yard", "$68", ""}}, nil},
	} {
		t.Run(one.name, func(t *testing.T) {
			p, err := Parse(one.text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			var got [][3]string
			for _, row := range p.Rows {
				got = append(got, [3]string{row.Text("supplier"), row.Text("price"), row.Text("delivery")})
			}
			assert.Equal(t, one.rows, got)
			var ways []string
			for _, row := range p.Delivery {
				ways = append(ways, row.Text("supplier"))
			}
			assert.Equal(t, one.ways, ways)
		})
	}
}

// With no job, what is said in two currencies is read as one message, as rows of both are in no file.
func TestLettersOfTwoCurrencies(t *testing.T) {
	for text, want := range map[string]bool{"$5 and £6": true, "5 euros, then $6": true, "5 dollars or $6": false, "EUR 5 a bag, £6 a sack": true, "a dollar more": false} {
		assert.Equal(t, want, plaintext.Mixed(text), text)
	}
	p, err := Parse("Quenby Rock Yard, Pumice 5-15 mm: 1 m3 big bag 210 euros\n\nOrrin Valley Horticultural\nLava 3/8 in is $88 a yard", Options{Delivery: true})
	require.NoError(t, err)
	for _, row := range p.Rows {
		assert.NotContains(t, row.Text("price"), "$")
	}
}

// TestNameBehindNumber finds where the name begins behind the number that ends the sentence in front of it, however wide the gap is.
func TestNameBehindNumber(t *testing.T) {
	p, err := Parse(" delivery from 90.  Low Ford Rock Yard, Pumice 3/8 in is $88 a yard, Pumice 3/8 in is $88 a yard,  Low Ford Rock Yard, ", Options{})
	require.NoError(t, err)
	requireSound(t, p)
}
