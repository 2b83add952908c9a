package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// said is a message with parts of what is read and asked of it, and with what is no part of that.
type said struct {
	name, text string
	has        []string
	not        string
}

func requireSaid(t *testing.T, all []said) {
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			got := summary(p)
			for _, part := range c.has {
				assert.Contains(t, got, part)
			}
			if c.not != "" {
				assert.NotContains(t, got, c.not)
			}
		})
	}
}

// TestPalletHas takes the number in front of "per pallet" for a count, and an amount behind it for the price of one only near that.
func TestPalletHas(t *testing.T) {
	broken := []string{"pack=40 L | price=8.40 | breaks=60: $7.20"}
	requireSaid(t, []said{
		{"behind a stroke", "Low Ford Quarry\nPerlite 100 L bag $19.50\nPumice 50 L bag $12.00\nLava 40 L bags 8.40 ea, 60/pallet $7.20", broken, "asked"},
		{"per pallet at", "Low Ford Quarry: lava 40 L bags 8.40 each, 60 per pallet at $7.20", broken, "asked"},
		{"to a pallet", "Low Ford Quarry: lava 40 L bags 8.40 each, 60 bags to a pallet: $7.20", broken, "asked"},
		{"in brackets", "Low Ford Quarry: lava 40 L bags 8.40 each, pallet (60) $7.20", broken, "asked"},
		{"by the pallet of", "Low Ford Quarry: lava 40 L bags 8.40 each, $7.20 by the pallet of 60", broken, "asked"},
		{"no price behind", "Low Ford Quarry: lava 40 L bags $8.40 each, 60/pallet", []string{"price=$8.40"}, "60 for"},
		{"for all of them", "Low Ford Quarry: lava 40 L bags $8.40 each, 60/pallet $450", []string{"$7.50 each: row 1 of quotes.csv: map[breaks:60: $7.50]", "one pack of 60"}, "breaks=60"},
		{"far below", "Low Ford Quarry: lava 40 L bags $8.40 each, 60/pallet $3", []string{"$3 each, by the pallet of 60", "$3 for 60 together", leftOut}, "breaks=60"},
		{"alone", "Low Ford Quarry: lava 40 L bags, pallet of 60: 7.20", []string{"7.20 each, by the pallet of 60: row 1 of quotes.csv: map[form:bag item:lava medium:lava rock pack:40 L price:7.20 step:60 supplier:Low Ford Quarry]\n  7.20 for 60 together"}, "\nrow:"},
		{"a pallet of", "Low Ford Quarry: lava $6.50 a bag (20 L), $300 a pallet of 50", []string{"$6.00 each: row 1 of quotes.csv: map[breaks:50: $6.00]", "one pack of 50"}, "breaks=50"},
		{"in a sentence of its own", "Low Ford Quarry: lava $6.50 a bag (20 L). A pallet of 50 bags is $300.", []string{"$6.00 each: row 1 of quotes.csv: map[breaks:50: $6.00]", "one pack of 50: row 2 of quotes.csv"}, "breaks=50"},
		{"in no whole cents", "Low Ford Quarry: lava $21 a bag (50 L). A pallet is 30 bags, $560.", []string{"is it sold as one pack of 30?", "pack:1500 L price:$560", leftOut}, "breaks=30"},
		{"what bringing costs", "Low Ford Quarry: lava 40 L bags $8.40, 60 per pallet $25 delivery", []string{"price=$8.40 | delivery=$25"}, "breaks="},
	})
}

// TestPerMile takes no amount for a mile for one of an order.
func TestPerMile(t *testing.T) {
	requireSaid(t, []said{
		{"with a least", "Low Ford Quarry: lava $84/yd. Trucking is $4.25 a loaded mile, min $95.", []string{"$95 for each order"}, "$4.25 for each"},
		{"alone", "Low Ford Quarry: lava $84/yd. Trucking is $4.25 a loaded mile.", []string{"price=$84"}, "$4.25 for each"},
	})
}

// TestWritten reads amounts by how they are written: with a code for their money, or with a comma before their cents.
func TestWritten(t *testing.T) {
	requireSaid(t, []said{
		{"a code beside signs", "Low Ford Quarry\nPerlite 100 L bag £19.50\nPumice 50 L bag £12.00\nLava 40 L bag GBP 8.40", []string{"pack=40 L | price=GBP 8.40"}, "no sign"},
		{"euros behind", "Low Ford Quarry\nBlähton 8/16 per 40 l sack 12,60 EUR; ab 30 sack 11,20", []string{"pack=40 L | price=EUR 12.60 | breaks=30: 11.20"}, "column"},
		{"a word behind", "Low Ford Quarry\nBlähton 8/16 40 l sack 12,60 each, pallet (30) 11,20 each", []string{"pack=40 L | price=12.60 | breaks=30: 11.20"}, "column"},
		{"a table still", "Low Ford Quarry\npumice 8/16,50 L,14.90\nlava 8/16,50 L,12.90", []string{"column 3: price", "price=14.90", "price=12.90"}, ""},
	})
}

// TestBulkBagSaid reads bulk bags by the words in front of what they hold, and asks what is said roughly or not at all.
func TestBulkBagSaid(t *testing.T) {
	requireSaid(t, []said{
		{"roughly", "Low Ford Quarry\nGranite 6-10mm loose £44 per tonne\nBulk bag 20mm river gravel approx 900kg £72 each, 3 or more £66",
			[]string{"form=sack | price=£72 | breaks=3: £66", "does a bulk bag hold 900 kg?", "900 kg: row 2 of quotes.csv: map[pack:900 kg]"}, "1 tonne: row"},
		{"roughly, in brackets", "Low Ford Quarry: granite in bulk bags (ca. 0.7 m3) £72", []string{"form=sack | price=£72", "does a bulk bag hold 0.7 m3?"}, "pack=0.7"},
		{"for certain", "Low Ford Quarry\nGranite 6-10mm loose £44 per tonne\nBulk bag 20mm river gravel 900kg £72 each, 3 or more £66", []string{"form=sack | pack=900 kg | price=£72 | breaks=3: £66"}, "asked"},
		{"a bag of that weight", "Low Ford Quarry: one bag of lava, 700 kg, £55", []string{"form=sack | pack=700 kg | price=£55"}, ""},
		{"no word for it", "Low Ford Quarry: lava 700 kg £55 each", []string{"pack=700 kg | price=£55", "a bulk bag: row 1 of quotes.csv: map[form:sack]", "loose: row 1 of quotes.csv: map[form:bulk]"}, "form=bag"},
		{"a hand bag", "Low Ford Quarry: lava 40 kg £5.50 each", []string{"pack=40 kg | price=£5.50"}, "asked"},
		{"brought by the bag", "Low Ford Quarry\n10mm pea gravel:\n- bulk bag (approx 900kg) £72\n- loose, per tonne, £41\nBulk bags £20 delivered", []string{"does a bulk bag hold 900 kg?"}, "£20 for 1 tonne"},
		{"so many in words", "Low Ford Quarry: pumice. Thirty bags minimum, 30L bag, $13 a bag", []string{"pack=30 L | price=$13", "are 30 packs the fewest sold?"}, ""},
		{"loose beside it", "Low Ford Quarry: bulk bags or loose, 700 kg £55", []string{severalReason}, "form=sack | pack"},
	})
}

// TestOneHad asks whether one pack is all there is.
func TestOneHad(t *testing.T) {
	for _, text := range []string{
		"Low Ford Quarry. I have 1 bulk bag of lava 10-20mm, 700 kg, £55", "Low Ford Quarry. I've got one bulk bag of lava, 700 kg, £55", "Low Ford Quarry. Lava, 700 kg bag, £55. Just the one.",
		"Low Ford Quarry. Lava, 700 kg bag, £55. There is just one of these.", "Low Ford Quarry. Lava, 700 kg bag, £55, got one only", "Low Ford Quarry. Lava, 700 kg bag, £55. It's the last one.",
	} {
		requireSaid(t, []said{{text, text, []string{"form=sack | pack=700 kg | price=£55", "is 1 pack all there is?\n  1: row 1 of quotes.csv: map[max_qty:1]"}, "max_qty=1"}})
	}
	requireSaid(t, []said{
		{"left", "Low Ford Quarry. Lava, 700 kg bag, £55, one left", []string{"max_qty=1"}, "asked"},
		{"what one bag does", "Low Ford Quarry. Lava 50 L bags £9. I have one bag to a bed in mine.", []string{"price=£9"}, "asked"},
		{"a question", "Low Ford Quarry. Lava 50 L bags £9. I have one question about the site", []string{"price=£9"}, "max_qty"},
	})
}

// TestFarthest keeps how far a fee is said to hold.
func TestFarthest(t *testing.T) {
	for _, text := range []string{"We deliver for £25 per load, within 12 miles", "Delivery £25, up to 12 miles, free over £200.", "Delivery £25 (within 12 miles), min order £50.", "Delivery within 12 miles £25."} {
		requireSaid(t, []said{{text, "Low Ford Quarry\nPerlite 100 L bags £14.00\n" + text, []string{"12 miles; make sure that the beds are there"}, ""}})
	}
	requireSaid(t, []said{
		{"another fee's", "Low Ford Quarry\nPerlite 100 L bags £14.00\nDelivery £25 per load", []string{"£25"}, "make sure"},
		{"free so far", "Low Ford Quarry\nPerlite 100 L bags £14.00\nDelivery £25, free within 12 miles", []string{"delivery=£25"}, "make sure"},
		{"two of them", "Low Ford Quarry\nPerlite 100 L bags £14.00\nDelivery within 12 miles £25, past that £40", []string{"£25"}, "hold within 12 miles £"},
		{"no break", "Low Ford Quarry\nGravel £54 per tonne loose. We can drop it off for £45 if you're within 12 miles", []string{"is it what delivery costs?"}, "from 12 on"},
	})
}
