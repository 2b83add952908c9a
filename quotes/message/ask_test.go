package message

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAsk reads messages with two readings: nothing of them is in a row before it is answered, and each answer sets the
// cells that it promised.
func TestAsk(t *testing.T) {
	for _, c := range []struct {
		name, text string
		cells      []map[string]string // of the only question
		costly     map[string]string
	}{
		{"over a number", "Low Ford Quarry: lava 3/4 in, $78 a yard, over 10 yards 71",
			[]map[string]string{{"breaks": "10: 71"}, {"breaks": "11: 71"}}, map[string]string{"price": "$78", "breaks": "11: 71"}},
		{"an amount over a number", "river gravel at £48.50 per tonne or £44 over 10 tonnes",
			[]map[string]string{{"breaks": "10: £44"}, {"breaks": "11: £44"}}, map[string]string{"price": "£48.50", "breaks": "11: £44"}},
		{"a price over a number", "lava 50 L bags, 12.50 each, 11.00 each for over 20 bags",
			[]map[string]string{{"breaks": "20: 11.00"}, {"breaks": "21: 11.00"}}, map[string]string{"price": "12.50", "breaks": "21: 11.00"}},
		{"a pallet", "lava 100 L bag for $22.00. Per pallet (24 bags) $480.00",
			[]map[string]string{{"breaks": "24: $20.00"}, {"form": "bag", "item": "lava", "medium": "lava rock", "pack": "2400 L", "price": "$480.00"}}, map[string]string{"price": "$22.00", "breaks": ""}},
		{"several for a sum", "perlite 100 L bags, £18.99 each or 3 for £51. Pumice 50 L bags, £12 each",
			[]map[string]string{{"breaks": "3: £17.00"}, {"form": "bag", "item": "perlite", "medium": "perlite", "pack": "300 L", "price": "£51"}}, map[string]string{"price": "£18.99", "breaks": ""}},
		{"a pallet alone", "pumice 2 cu ft bags, pallet of 40 for $480",
			[]map[string]string{{"form": "bag", "item": "pumice", "medium": "pumice", "pack": "2 cu ft", "price": "$12.00", "step": "40"}, {"form": "bag", "item": "pumice", "medium": "pumice", "pack": "80 cu ft", "price": "$480"}}, map[string]string{"price": "$480", "step": ""}},
		{"two prices in two lines", "lava 2 cu ft bag $17.50\nlava 2 cu ft bag $16.90",
			[]map[string]string{{"form": "bag", "pack": "2 cu ft", "price": "$17.50"}, {"form": "bag", "pack": "2 cu ft", "price": "$16.90"}}, map[string]string{"price": "$17.50"}},
		{"three prices", "lava $78 a yard, $82 a yard, $84 a yard",
			[]map[string]string{{"pack": "1 yd3", "price": "$78"}, {"pack": "1 yd3", "price": "$82"}, {"pack": "1 yd3", "price": "$84"}}, map[string]string{"price": "$84"}},
		{"fetched or brought", "lava 68 a yard collected or 79 a yard delivered",
			[]map[string]string{{"pack": "1 yd3", "price": "68", "notes": "you collect"}, {"pack": "1 yd3", "price": "79", "delivery": "0"}}, map[string]string{"price": "79"}},
		{"cash or card", "lava is $91 a yard cash or check, $94 if you use a card",
			[]map[string]string{{"pack": "1 yd3", "price": "$91"}, {"pack": "1 yd3", "price": "$94"}}, map[string]string{"price": "$94"}},
		{"members", "members $31.00 / non-members $34.00, perlite 4 cu ft bags",
			[]map[string]string{{"price": "$31.00"}, {"price": "$34.00"}}, map[string]string{"price": "$34.00"}},
		{"two prices", "lava 3/4 in, $95 a yard. $92 a yard.",
			[]map[string]string{{"pack": "1 yd3", "price": "$95"}, {"pack": "1 yd3", "price": "$92"}}, map[string]string{"price": "$95"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireSound(t, p)
			require.Len(t, p.Asked, 1, summary(p))
			q := p.Asked[0]
			for _, row := range p.Rows {
				for _, caution := range row.Cautions {
					assert.NotContains(t, caution, "not understood", "what is asked is understood")
				}
			}
			assert.Equal(t, c.text[q.From:q.To], q.Text)
			require.Len(t, q.Readings, len(c.cells))
			for i, want := range c.cells {
				assert.Equal(t, want, q.Readings[i].Cells)
				assert.Equal(t, want["medium"] != "", q.Readings[i].New, "a row of its own says what is sold")
				for column := range want {
					if q.Readings[i].New {
						break
					}
					assert.Empty(t, p.Rows[q.Readings[i].Row-1].Text(column), "nothing asked is in a row")
				}
				got, err := p.Answer(0, i)
				require.NoError(t, err)
				requireWhole(t, got)
				requireReadsBack(t, got) // a number above ten is in no word of the message, but in the answer
				assert.Empty(t, got.Asked)
				for column, text := range want {
					assert.Equal(t, text, got.Rows[q.Readings[i].Row-1].Text(column), summary(got))
				}
			}
			got, err := p.Cautious()
			require.NoError(t, err)
			assert.Empty(t, got.Asked)
			for column, text := range c.costly {
				assert.Equal(t, text, got.Rows[0].Text(column))
			}
			for _, bad := range [][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, len(c.cells)}} {
				_, err := p.Answer(bad[0], bad[1])
				require.ErrorIs(t, err, ErrNoSuchAnswer)
			}
		})
	}
}

// TestNotAsked reads what only looks like two readings: words that are not known may tell them apart, so if it is asked about,
// then with the answer that it is none of them.
func TestNotAsked(t *testing.T) {
	for _, text := range []string{
		"lava 66 a yard, double washed 74 a yard",
		"lava $78 a yard, over 10 81", // dearer by the number is no break
		"lava $78 a yard. If over 10 yards 71",
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		for _, q := range p.Asked {
			assert.Empty(t, q.Readings[len(q.Readings)-1].Cells, "%s\n%s", text, summary(p))
		}
	}
}

// TestDoubtful reads numbers that a person may know to hold: each is asked about, with the answer that it is none, which is the
// cautious one and enters nothing.
func TestDoubtful(t *testing.T) {
	for _, c := range []struct {
		name, text string
		cells      []map[string]string // of the first question, but for the last answer
	}{
		{"rough", "Moor End Quarry: pumice about 70 a yard", []map[string]string{{"item": "pumice", "medium": "pumice", "pack": "1 yd3", "price": "70", "supplier": "Moor End Quarry"}}},
		{"on a condition", "Lava 68 a yard if ordered by 30 June 2026", []map[string]string{{"item": "Lava", "medium": "lava rock", "pack": "1 yd3", "price": "68"}}},
		{"one of two", "Expanded shale: $134/yd through May, $139/yd after.", []map[string]string{
			{"item": "Expanded shale", "medium": "expanded shale", "pack": "1 yd3", "price": "$134"}, {"item": "Expanded shale", "medium": "expanded shale", "pack": "1 yd3", "price": "$139"}}},
		{"a break", "lava 36 a ton but 33 a ton if you can take 20", []map[string]string{{"breaks": "20: 33"}}},
		{"so many of them", "lava is $96 per yard. If you take 20 yds it is $88.", []map[string]string{{"breaks": "20: $88"}}},
		{"one without its pack", "Lava is 90 a yard if you order before the 15th. Regular is 96.", []map[string]string{
			{"item": "Lava", "medium": "lava rock", "pack": "1 yd3", "price": "90"}, {"item": "Lava", "medium": "lava rock", "pack": "1 yd3", "price": "96"}}},
		{"where it holds", "Pumice 74 a yard. Delivery: 60 to Wick Lane, 90 to Low Ford.", []map[string]string{{"order_fee": "60"}, {"order_fee": "90"}}},
		{"to bring it", "Lava 89 a yard but 130 to bring it.", []map[string]string{{"order_fee": "130"}, {"load_fee": "130"}}},
		{"a number alone", "Lava's 68. Both per yard.", []map[string]string{{"item": "Lava", "medium": "lava rock", "pack": "1 yd3", "price": "68"}}},
		{"denied behind it", "lava 68 a yard not on sale", []map[string]string{{"item": "lava", "medium": "lava rock", "pack": "1 yd3", "price": "68"}}},
		{"with what hangs on it", "The lava is what I believe you want. $8 a 1 cu ft bag, $7 each for 30 or more", []map[string]string{
			{"item": "lava", "medium": "lava rock", "pack": "1 cu ft", "form": "bag", "price": "$8", "breaks": "30: $7"}}},
		{"free, perhaps", "Low Ford Quarry: lava 68 a yard. Delivery is $15, nothing if it's over $300", []map[string]string{{"free_over": "$300"}}},
		{"an order", "Low Ford Quarry: lava 68 a yard. Handling by our man is $15 per order", []map[string]string{{"order_fee": "$15", "supplier": "Low Ford Quarry"}}},
		{"counted from the day of the quote", "Low Ford Quarry, May 4, 2026: lava 68 a yard. Quote valid 30 days.", []map[string]string{{"valid_until": "2026-06-03"}}},
		{"on a pallet", "Low Ford Quarry: lava 5 kg bag, $8. One pallet has 54 bags, by full pallet $7 the bag", []map[string]string{{"breaks": "54: $7"}}},
		{"a name", "Lava 68 a yard. Pumice 74 a yard.\nMoira Tait, Ardlour West", []map[string]string{{"supplier": "Ardlour West"}}},
		{"a bag by its weight", "14 mm limestone £38 a tonne bag", []map[string]string{{"pack": "1 tonne"}}},
		{"pebbles by the litre", "Low Ford Supply: pebbles, 50 L bag, $30", []map[string]string{{"medium": "expanded clay"}, {"medium": "river gravel"}}},
		{"of bags named before", "Lava in bulk bags of 0.7 m3 at £74 each, and lava in 20 kg bags at £5. From 3 bulk bags the price falls to £69 each.", []map[string]string{{"breaks": "3: £69"}}},
		{"an acid drop of last month", "Low Ford Quarry: river gravel £48 a tonne. You asked about limestone: we dropped acid on last month's sample and there was no reaction.", []map[string]string{{"carbonate": "none"}}},
		{"the most of a load behind a fee", "clay pebbles, big bag of 1 m3 €189, transport €65 (max 3 big bags)", []map[string]string{{"load_fee": "€65", "load_volume": "3 m3"}, {"order_fee": "€65"}}},
		{"a truck", "Lava 8/16: 43.50 EUR per m3. Lorry (walking floor) 85 m³ 430 EUR.", []map[string]string{{"load_fee": "EUR 430", "load_volume": "85 m3"}, {"order_fee": "EUR 430"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			requireWhole(t, p)
			requireAnswers(t, p)
			require.NotEmpty(t, p.Asked, summary(p))
			q := p.Asked[0]
			require.Len(t, q.Readings, len(c.cells)+1, summary(p))
			for i, want := range c.cells {
				assert.Equal(t, want, q.Readings[i].Cells, summary(p))
			}
			none := q.Readings[len(c.cells)]
			assert.Equal(t, leftOut, none.Label)
			assert.Empty(t, none.Cells)
			got, err := p.Answer(0, len(c.cells))
			require.NoError(t, err)
			assert.Empty(t, got.Asked, "what was left out is not asked again")
			assert.True(t, slices.EqualFunc(p.Rows, got.Rows, equalCells), "nothing doubtful enters by itself")
			assert.True(t, slices.EqualFunc(p.Delivery, got.Delivery, equalCells))
			careful, err := p.Cautious()
			require.NoError(t, err)
			assert.True(t, slices.EqualFunc(p.Rows, careful.Rows, func(a, b Row) bool {
				return !slices.ContainsFunc([]string{"medium", "pack", "price", "breaks", "step", "free_over"}, func(column string) bool { return a.Text(column) != b.Text(column) })
			}), "no doubtful price enters by itself, and nothing that spares")
		})
	}
}

// TestAskOfSeveralRows sets the same in all rows that an answer is about.
func TestAskOfSeveralRows(t *testing.T) {
	p, err := Parse("Lava 68 a yard. Pumice 74 a yard. Delivery is $60, or $90 a load.\nMoira Tait, Ardlour West", Options{Delivery: true})
	require.NoError(t, err)
	q := p.Asked[len(p.Asked)-1]
	assert.Equal(t, 1, q.Readings[0].Row, summary(p))
	assert.Equal(t, []int{2}, q.Readings[0].Also)
	assert.Equal(t, "in rows 1, 2 for quotes.csv", q.Readings[0].Place())
	got, err := p.Answer(len(p.Asked)-1, 0)
	require.NoError(t, err)
	requireWhole(t, got)
	for i := range got.Rows {
		assert.Equal(t, "Ardlour West", got.Rows[i].Text("supplier"))
	}
	none, err := p.Answer(len(p.Asked)-1, 1)
	require.NoError(t, err)
	assert.Len(t, none.Asked, len(p.Asked)-1)
	assert.Empty(t, none.Rows[0].Text("supplier"))
}

// TestDoubtfulOfItsSupplier asks about what one supplier says in no row of another.
func TestDoubtfulOfItsSupplier(t *testing.T) {
	p, err := Parse("Ashby Rock: lava 91 a yard.\nCorbin Sand: lava about 87 a yard.\n", Options{Delivery: true})
	require.NoError(t, err)
	require.Len(t, p.Asked, 1, summary(p))
	assert.Equal(t, map[string]string{"item": "lava", "medium": "lava rock", "pack": "1 yd3", "price": "87", "supplier": "Corbin Sand"}, p.Asked[0].Readings[0].Cells)

	p, err = Parse("Ashby Rock: lava 91 a yard.\nCorbin Sand: lava, 84 a yard if you can take 20.\n", Options{Delivery: true})
	require.NoError(t, err)
	for _, q := range p.Asked {
		for _, one := range q.Readings {
			assert.Empty(t, one.Cells["breaks"], "no break of another's price: %s", summary(p))
		}
	}
}

// TestDoubtfulNoName takes no number that a thing is called by.
func TestDoubtfulNoName(t *testing.T) {
	p, err := Parse("90 90 per 50 L bag\n90 per 50 L bag.  50 L: $36 90 per 50 L bag and ", Options{})
	require.NoError(t, err)
	requireSound(t, p)
}

// TestDoubtfulNever leaves to a person what no answer makes a price of this supplier.
func TestDoubtfulNever(t *testing.T) {
	for _, text := range []string{
		"is the lava still 68 a yard?",
		"lava is not 68 a yard",
		"their lava is 68 a yard",
		"> lava 68 a yard",
		"lava. Total 680 for 10 yards.",
		"lava, price on asking. Delivery 60.",
		"lava 68 a yard. We need 2 days notice.",
		"lava $68 a yard. $50 off if ordering 10+ yards.",
		"lava $68 a yard. 10% discount over $1000.",
	} {
		p, err := Parse(text, Options{Delivery: true})
		require.NoError(t, err)
		assert.Empty(t, p.Asked, "%s\n%s", text, summary(p))
	}
}

// TestAskInTurn answers two questions one after the other, whichever comes first.
func TestAskInTurn(t *testing.T) {
	p, err := Parse("Low Ford Quarry: lava $78 a yard, over 10 yards 71, over 20 yards 65", Options{})
	require.NoError(t, err)
	require.Len(t, p.Asked, 2, summary(p))
	for _, first := range []int{0, 1} {
		got, err := p.Answer(first, 0)
		require.NoError(t, err)
		require.Len(t, got.Asked, 1)
		got, err = got.Answer(0, 1)
		require.NoError(t, err)
		assert.Empty(t, got.Asked)
		assert.Equal(t, []string{"10: 71; 21: 65", "11: 71; 20: 65"}[first], got.Rows[0].Text("breaks"))
	}
}

// TestSamePriceFollowsTheAnswer gives "same price" the price that holds, whichever of two that is.
func TestSamePriceFollowsTheAnswer(t *testing.T) {
	p, err := Parse("Pumice 3/8 in is $88 a yard, and there's a $90, same price for the black", Options{})
	require.NoError(t, err)
	require.Len(t, p.Asked, 1, summary(p))
	for i, want := range []string{"$88", "$90"} {
		got, err := p.Answer(0, i)
		require.NoError(t, err)
		requireWhole(t, got)
		require.Len(t, got.Rows, 2)
		assert.Equal(t, want, got.Rows[0].Text("price"))
		assert.Equal(t, want, got.Rows[1].Text("price"))
	}
}

// TestBulkBagForShort gives each size the bulk bags that the line above them names, though its price is "per bag".
func TestBulkBagForShort(t *testing.T) {
	p, err := Parse("Pea shingle in bulk bags of 850kg:\n\n20mm  £62.00 per bag\n10mm  £64.00 per bag", Options{})
	require.NoError(t, err)
	require.Len(t, p.Rows, 2, summary(p))
	for _, r := range p.Rows {
		assert.Equal(t, "850 kg", r.Text("pack"))
		assert.Equal(t, "sack", r.Text("form"))
	}
}

// TestWeighsAll gives a density that is said once to every size of the medium, and one that is said of a size to that alone.
func TestWeighsAll(t *testing.T) {
	for text, want := range map[string][2]string{
		"14 mm granite, $34.50/tonne\n20 mm granite, $32.00/tonne\nLoose density, both: 1480 kg/m3":             {"1480 kg/m3", "1480 kg/m3"},
		"10 mm granite is $58 a tonne and 20 mm granite is $54 a tonne. It comes to 1.5 t/m3 loose.":            {"1.5 t/m3", "1.5 t/m3"},
		"14 mm granite, $34.50/tonne\n20 mm granite, $32.00/tonne. The 20 mm has a loose density of 1480 kg/m3": {"", "1480 kg/m3"},
	} {
		p, err := Parse(text, Options{})
		require.NoError(t, err)
		requireSound(t, p)
		require.Len(t, p.Rows, 2, summary(p))
		assert.Equal(t, want, [2]string{p.Rows[0].Text("density"), p.Rows[1].Text("density")}, summary(p))
	}
}

// TestPriceOfTwoSizes leaves a size the price that both have where another is answered to be the other's.
func TestPriceOfTwoSizes(t *testing.T) {
	p, err := Parse("Both the 3/8 lava and the 3/4 lava are $92 a yard, - 3/4\": $66/yd, ", Options{})
	require.NoError(t, err)
	require.Len(t, p.Asked, 1, summary(p))
	requireAnswers(t, p)
	got, err := p.Answer(0, 1)
	require.NoError(t, err)
	assert.Equal(t, []string{"$92", "$66"}, []string{got.Rows[0].Text("price"), got.Rows[1].Text("price")})
}

// TestFewestBesidePrice makes no break at the fewest sold a price where a price stands before it that was left to a person.
func TestFewestBesidePrice(t *testing.T) {
	p, err := Parse("lava, members only, 20 a yard about 30, 3 yards or more 5, three yard minimum", Options{})
	require.NoError(t, err)
	require.Len(t, p.Rows, 1, summary(p))
	assert.Empty(t, p.Rows[0].Text("price"), summary(p))
}

// TestFromDoubt takes nothing from words that were left to a person, however many others lie between.
func TestFromDoubt(t *testing.T) {
	p, err := Parse("first 5 at $88, Pumice 3/8 in is $88 a yard, after that $79, pumice 3/8\" $75/yd, Lava 88 a yard, same price for the black\n", Options{})
	require.NoError(t, err)
	requireSound(t, p)
	require.NotEmpty(t, p.Asked)
	for i, q := range p.Asked {
		for j := range q.Readings {
			got, err := p.Answer(i, j)
			require.NoError(t, err)
			requireWhole(t, got)
		}
	}
}
