package model_test

import (
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
