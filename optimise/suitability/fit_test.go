package suitability_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// media has one of each kind that a rule looks at, and two that no rule minds.
const media = jobtest.PlainMedia + `chalk,1 kg/L,0,0,smooth,yes,no,0%,0%,0
tuff,1 kg/L,0,0,smooth,suspect,no,0%,0%,0
husk,0.5 kg/L,0,0,smooth,none,yes,0%,0%,0
`

// Each reason of refusal by itself: one quote, one bed of a top and a base layer, and the
// words for the layers that refuse it.
func TestEachReason(t *testing.T) {
	const plain = "bed,length,width,depth,top\none,1 m,1 m,300 mm,50 mm\n"
	for _, c := range []struct {
		name, quote, beds, settings string
		rule                        suitability.Rule
		layers                      []quotes.Layer
		reason                      string
	}{
		{name: "nothing to refuse", quote: "supplier,medium,pack,price\nYard,grit,50 L,1\n"},
		{
			name: "breaks down", quote: "supplier,medium,pack,price\nYard,husk,50 L,1\n", rule: suitability.RuleBreaksDown, layers: quotes.Layers,
			reason: "husk breaks down in water; want a medium that does not",
		},
		{
			name: "lime by its kind", quote: "supplier,medium,pack,price\nYard,chalk,50 L,1\n", rule: suitability.RuleCarbonate, layers: quotes.Layers,
			reason: "chalk is lime or carries it and raises pH; want none",
		},
		{
			name: "lime by its sample", quote: "supplier,medium,pack,price,carbonate\nYard,grit,50 L,1,fizzed\n", rule: suitability.RuleCarbonate, layers: quotes.Layers,
			reason: "the sample fizzed under an acid drop, so it carries lime and raises pH; want none",
		},
		{
			name: "may be lime, untested", quote: "supplier,medium,pack,price\nYard,tuff,50 L,1\n", rule: suitability.RuleCarbonate, layers: quotes.Layers,
			reason: "tuff may carry lime and this sample is untested; want an acid drop on several stones that shows none",
		},
		{name: "may be lime, tested", quote: "supplier,medium,pack,price,carbonate\nYard,tuff,50 L,1,none\n"},
		{name: "may be lime, allowed", quote: "supplier,medium,pack,price\nYard,tuff,50 L,1\n", settings: "allow_untested = true\n"},
		{
			name: "ended", quote: "supplier,medium,pack,price,valid_until\nYard,grit,50 L,1,2026-03-31\n", rule: suitability.RuleDate, layers: quotes.Layers,
			reason: "the quote ended on 2026-03-31 and the pricing day is 2026-04-01",
		},
		{name: "holds on its last day", quote: "supplier,medium,pack,price,valid_until\nYard,grit,50 L,1,2026-04-01\n"},
		{
			name: "ready too late", quote: "supplier,medium,pack,price,ready_by\nYard,grit,50 L,1,2026-05-16\n", settings: "need_by = 2026-05-15\n", rule: suitability.RuleDate, layers: quotes.Layers,
			reason: "it is ready on 2026-05-16 and needed by 2026-05-15",
		},
		{
			name: "size not stated", quote: "supplier,medium,pack,price\nYard,grit,50 L,1\n", beds: "bed,volume,min_size\none,100 L,5 mm\n", rule: suitability.RuleUnknownSize, layers: []quotes.Layer{quotes.Base},
			reason: "its grain size is not stated and the bed asks for at least 5 mm",
		},
		{name: "size not stated, allowed", quote: "supplier,medium,pack,price\nYard,grit,50 L,1\n", beds: "bed,volume,min_size\none,100 L,5 mm\n", settings: "allow_unknown_size = true\n"},
		{
			name: "too fine", quote: "supplier,medium,pack,price,size\nYard,grit,50 L,1,4-16 mm\n", beds: "bed,volume,min_size\none,100 L,5 mm\n", rule: suitability.RuleMinSize, layers: []quotes.Layer{quotes.Base},
			reason: "its smallest grain is 4 mm (4-16 mm) and the bed asks for at least 5 mm",
		},
		{
			name: "too coarse", quote: "supplier,medium,pack,price,size\nYard,grit,50 L,1,4-16 mm\n", beds: "bed,volume,max_size\none,100 L,12 mm\n", rule: suitability.RuleMaxSize, layers: []quotes.Layer{quotes.Base},
			reason: "its largest grain is 16 mm (4-16 mm) and the bed asks for at most 12 mm",
		},
		{name: "just within both", quote: "supplier,medium,pack,price,size\nYard,grit,50 L,1,5-12 mm\n", beds: "bed,volume,min_size,max_size\none,100 L,5 mm,12 mm\n"},
		{
			name: "rough in the top layer", quote: "supplier,medium,pack,price\nYard,rock,50 L,1\n", beds: "bed,length,width,depth,top,top_media\none,1 m,1 m,300 mm,50 mm,fluff; grit\n", rule: suitability.RuleTop, layers: []quotes.Layer{quotes.Top},
			reason: "rock is rough and the top layer takes only fluff, grit",
		},
		{
			name: "what no bed takes is not named as taken", quote: "supplier,medium,pack,price\nYard,rock,50 L,1\n", beds: "bed,length,width,depth,top,top_media\none,1 m,1 m,300 mm,50 mm,coconut coir; grit; limestone\n", rule: suitability.RuleTop, layers: []quotes.Layer{quotes.Top},
			reason: "rock is rough and the top layer takes only grit",
		},
		{
			name: "only what no bed takes", quote: "supplier,medium,pack,price\nYard,rock,50 L,1\n", beds: "bed,volume,only\none,100 L,coir\n", rule: suitability.RuleOnly, layers: []quotes.Layer{quotes.Base},
			reason: "it is rock and the bed takes only coconut coir, which no bed takes",
		},
		{
			name: "not of those the bed takes", quote: "supplier,medium,pack,price\nYard,grit,50 L,1\n", beds: "bed,volume,only\none,100 L,fluff\n", rule: suitability.RuleOnly, layers: []quotes.Layer{quotes.Base},
			reason: "it is grit and the bed takes only fluff",
		},
		{
			name: "of those the bed avoids", quote: "supplier,medium,pack,price\nYard,grit,50 L,1\n", beds: "bed,volume,avoid\none,100 L,grit\n", rule: suitability.RuleAvoid, layers: []quotes.Layer{quotes.Base},
			reason: "it is grit, which the bed avoids",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			beds := c.beds
			if beds == "" {
				beds = plain
			}
			job := jobtest.Files{Quotes: c.quote, Beds: beds, Media: media, Settings: c.settings}.Job(t)
			fit := suitability.New(job)
			var layers []quotes.Layer
			for r := range fit.Refusals {
				assert.Equal(t, c.rule, r.Rule)
				assert.Equal(t, c.reason, r.Reason)
				layers = append(layers, r.Layer)
			}
			assert.Equal(t, c.layers, layers)
			refused := map[quotes.Layer]bool{}
			for _, l := range c.layers {
				refused[l] = true
			}
			usable := false
			for _, l := range quotes.Layers {
				assert.Equal(t, !refused[l] || job.Beds[0].LayerLitres(l) <= 0, fit.OK(0, 0, l) || job.Beds[0].LayerLitres(l) <= 0, l)
				usable = usable || !refused[l] && job.Beds[0].LayerLitres(l) > 0
			}
			assert.Equal(t, usable, fit.Usable(0))
		})
	}
}

// Several rules broken are each told, once and in order; beds that ask for the same share
// one look.
func TestBrokenTellsEachRule(t *testing.T) {
	job := jobtest.Files{Quotes: "supplier,medium,pack,price,valid_until\nYard,chalk,50 L,1,2026-03-31\n", Beds: "bed,volume,avoid,only\none,100 L,chalk,grit\ntwo,50 L,chalk,grit\nthree,50 L,,\n", Media: media}.Job(t)
	fit := suitability.New(job)
	broken := fit.Broken(0)
	var rules []suitability.Rule
	for _, r := range broken(0, quotes.Base) {
		rules = append(rules, r.Rule)
	}
	assert.Equal(t, []suitability.Rule{suitability.RuleAvoid, suitability.RuleCarbonate, suitability.RuleDate, suitability.RuleOnly}, rules)
	assert.Same(t, fit.OfBed[0], fit.OfBed[1])
	require.NotSame(t, fit.OfBed[0], fit.OfBed[2])
	assert.Len(t, broken(2, quotes.Base), 2, "what holds for every bed")
}
