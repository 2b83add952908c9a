package breakeven

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
)

// Clay 0.20 a litre, lava 0.10, granite 0.04; a litre of granite weighs 1 kg, of the
// others 0.5 kg, wet or dry. A bed of 1 m by 1 m takes 100 L of clay above 300 L.
const (
	smallQuotes = `quote,supplier,medium,form,pack,price,max_qty,size,carbonate
clay,Aldermoor,expanded clay,bag,25 L,5.00,,8-16 mm,none
lava,Brackwell,lava rock,bag,10 L,1.00,,8-16 mm,none
granite,Colne End,crushed granite,bag,10 L,0.40,,8-16 mm,none
`
	smallMedia = "medium,rinse_loss,settle,rinse_minutes,dry_density,held_water,voids\n" +
		"expanded clay,0,0,0,0.5 kg/L,0,0\nlava rock,0,0,0,0.5 kg/L,0,0\ncrushed granite,0,0,0,1 kg/L,0,0\n"
)

func smallChanges(t *testing.T, quotesCSV, beds string) (total string, changes []Other) {
	t.Helper()
	job := withMedia(t, quotesCSV, beds, "", "currency = \"EUR\"\n", smallMedia)
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, plan.Status)
	changes, err = SmallChanges(context.Background(), job, plan, Options{})
	require.NoError(t, err)
	return plan.Bill.Total.Text(2), changes
}

// Held to 250 kg the bed takes 50 kg of clay and g litres of granite with 300 − g of
// lava, 150 + g/2 kg: g = 100, for 20 + 4 + 20 = 44.00.
//
//	10 kg more       g = 120: 20 + 4.80 + 18 = 42.80, saves 1.20, 2.7 %
//	25 mm less top   75 L of clay, 37.5 kg; 325 L below, 162.5 + g/2: g = 100, 225 L
//	                 of lava in 23 bags: 15 + 4 + 23 = 42.00, saves 2.00, 4.5 %
func TestSmallChangesByHand(t *testing.T) {
	total, changes := smallChanges(t, smallQuotes, "bed,length,width,depth,top,limit,water_line\none,1 m,1 m,400 mm,100 mm,250 kg,none\n")
	require.Equal(t, "44.00", total)
	require.Len(t, changes, 2)
	assert.Equal(t, [2]string{"the top layer of one 25 mm thinner", "-2.00"}, told(changes[0]))
	assert.Equal(t, [2]string{"10 kg more on bed one", "-1.20"}, told(changes[1]))
}

// Ten bags of granite are there and fill 100 of 300 L: 20 + 4 + 20. An eleventh saves
// 0.60, 1.4 %, which is not worth telling; of packs of 50 L at 2.00 the third would
// save 3.00.
func TestSmallChangesOfStock(t *testing.T) {
	const beds = "bed,volume,top_volume\none,400 L,100 L\n"
	total, changes := smallChanges(t, "quote,supplier,medium,form,pack,price,max_qty,size,carbonate\n"+
		"clay,Aldermoor,expanded clay,bag,25 L,5.00,,8-16 mm,none\nlava,Brackwell,lava rock,bag,10 L,1.00,,8-16 mm,none\n"+
		"granite,Colne End,crushed granite,bag,10 L,0.40,10,8-16 mm,none\n", beds)
	require.Equal(t, "44.00", total)
	assert.Empty(t, changes)
	total, changes = smallChanges(t, "quote,supplier,medium,form,pack,price,max_qty,size,carbonate\n"+
		"clay,Aldermoor,expanded clay,bag,25 L,5.00,,8-16 mm,none\nlava,Brackwell,lava rock,bag,10 L,1.00,,8-16 mm,none\n"+
		"granite,Colne End,crushed granite,bag,50 L,2.00,2,8-16 mm,none\n", beds)
	require.Equal(t, "44.00", total)
	require.Len(t, changes, 1)
	assert.Equal(t, [2]string{"1 × 50 L more of granite than is in stock", "-3.00"}, told(changes[0]))
}

// Of two beds alike each by itself is told beside both together, most first.
func TestSmallChangesOfSeveral(t *testing.T) {
	_, changes := smallChanges(t, smallQuotes, "bed,length,width,depth,top,limit,water_line\none,1 m,1 m,400 mm,100 mm,250 kg,none\ntwo,1 m,1 m,400 mm,100 mm,250 kg,none\n")
	var names []string
	for i, c := range changes {
		names = append(names, c.Name)
		if i > 0 {
			assert.LessOrEqual(t, changes[i-1].Difference.Cmp(c.Difference), 0)
		}
	}
	assert.Contains(t, names, "every top layer 25 mm thinner")
	assert.Contains(t, names, "10 kg more on every limit")
	assert.Contains(t, names, "the top layer of one 25 mm thinner")
}
