package suitability

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// mostNamed is how many beds are named before they are counted.
const mostNamed = 4

// Where says in words which layers of which beds of a job, named by its rows, refusals are about.
func Where(job *quotes.Job, layers map[quotes.Layer]bool, beds []string) string {
	layer := "top and base"
	if len(layers) == 1 {
		layer = "base"
		if layers[quotes.Top] {
			layer = "top"
		}
	}
	switch {
	case len(beds) == len(job.Beds):
		return layer + " of every bed"
	case len(beds) > mostNamed:
		return layer + " of " + units.Several(counted(job, beds), "bed")
	}
	return layer + " of " + strings.Join(beds, ", ")
}

// SomeBeds names beds where they are not all that have such layers; "" for all or none, which
// need no name.
func SomeBeds(job *quotes.Job, layers []quotes.Layer, beds []string) string {
	all := 0
	for _, b := range job.Beds {
		if slices.ContainsFunc(layers, func(l quotes.Layer) bool { return b.LayerLitres(l) > 0 }) {
			all++
		}
	}
	switch {
	case len(beds) == 0 || len(beds) == all:
		return ""
	case len(beds) == 1:
		return "bed " + beds[0]
	case len(beds) > mostNamed:
		return units.Several(counted(job, beds), "bed")
	}
	return "beds " + units.Listed(beds)
}

// counted is how many beds some rows are.
func counted(job *quotes.Job, names []string) (n int) {
	for _, b := range job.Beds {
		if slices.Contains(names, b.Name) {
			n += b.Count
		}
	}
	return n
}
