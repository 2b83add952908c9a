package model_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes/files/jobtest"
)

// 100 L of grit at 1 kg/L weigh 100 kg and of fluff at a half 50 kg; the frame itself weighs 10. Two such beds on one table
// weigh at least 120 kg.
func TestHopeless(t *testing.T) {
	for name, c := range map[string]struct {
		beds string
		want bool
	}{
		"no limit":                 {"one,100 L,,,\n", false},
		"the lightest is too much": {"one,100 L,59 kg,10 kg,\n", true},
		"the lightest just fits":   {"one,100 L,60 kg,10 kg,\n", false},
		"too much for the table":   {"one,100 L,119 kg,10 kg,T\ntwo,100 L,119 kg,10 kg,T\n", true},
		"just fits the table":      {"one,100 L,120 kg,10 kg,T\ntwo,100 L,120 kg,10 kg,T\n", false},
	} {
		job := jobtest.Files{
			Quotes: "quote,supplier,medium,pack,price\ng,Yard,grit,50 L,10\nf,Yard,fluff,50 L,20\n",
			Beds:   "bed,volume,limit,own_weight,table\n" + c.beds, Media: jobtest.PlainMedia,
		}.Job(t)
		for _, plain := range []bool{false, true} {
			assert.Equal(t, c.want, built(job, plain).Hopeless(), "%s, plain %v", name, plain)
		}
	}
}

// Grit and fluff each have so many bags of 50 L for the beds of all sites together; a coarse bed takes grit alone.
func TestHopelessStocks(t *testing.T) {
	const beds = "bed,volume,min_size,site\n"
	for name, c := range map[string]struct {
		grit, fluff, beds string
		want              []float64 // litres short
	}{
		"no stock is stated":         {"", "", "one,1000 L,,a\n", nil},
		"just enough for two sites":  {"4", "2", "one,150 L,,a\ntwo,150 L,,b\n", nil},
		"too little for two sites":   {"4", "2", "one,150 L,,a\ntwo,170 L,,b\n", []float64{20}},
		"one has no limit":           {"4", "", "one,150 L,,a\ntwo,1700 L,,b\n", nil},
		"the coarse one comes first": {"4", "2", "fine,100 L,,a\ncoarse,200 L,15 mm,b\n", nil},
		"the coarse one is short":    {"4", "", "fine,100 L,,a\ncoarse,230 L,15 mm,b\n", []float64{30}},
		"both are":                   {"4", "1", "fine,100 L,,a\ncoarse,230 L,15 mm,b\n", []float64{30, 50}},
	} {
		job := jobtest.Files{
			Quotes: "quote,supplier,medium,pack,price,size,max_qty\ng,Yard,grit,50 L,10,20-30 mm," + c.grit + "\nf,Yard,fluff,50 L,20,10-20 mm," + c.fluff + "\n",
			Beds:   beds + c.beds, Media: jobtest.PlainMedia,
		}.Job(t)
		for _, plain := range []bool{false, true} {
			p := built(job, plain)
			var got []float64
			for _, l := range p.Scarce() {
				got = append(got, l.Litres)
			}
			slices.Sort(got)
			assert.InDeltaSlice(t, c.want, got, 1e-6, "%s, plain %v", name, plain)
			assert.Equal(t, c.want != nil, p.Hopeless(), "%s, plain %v", name, plain)
		}
	}
}
