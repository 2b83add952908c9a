package quotes

import (
	"slices"
	"strings"
)

// Suppliers lists the suppliers that have a quote, sorted by name.
func Suppliers(j *Job) []string {
	var out []string
	for _, q := range j.Quotes {
		out = append(out, q.Supplier)
	}
	return sorted(out)
}

// Sites lists the sites of the beds, sorted by name. A job that names no site
// has one, the empty name; a job without beds has none.
func Sites(j *Job) []string {
	var out []string
	for _, b := range j.Beds {
		out = append(out, b.Site)
	}
	return sorted(out)
}

// Members lists those who pay for beds, sorted by name; none if no bed names one.
func Members(j *Job) []string {
	var out []string
	for _, b := range j.Beds {
		for _, p := range b.Member {
			out = append(out, p.Member)
		}
	}
	return sorted(out)
}

func sorted(names []string) []string {
	slices.Sort(names)
	return slices.Compact(names)
}

// BedNamed is "bed Long" in a sentence, and a name that has the word already as it is: "bed 1", "long bed".
func BedNamed(name string) string {
	if slices.Contains(strings.Fields(strings.ToLower(name)), "bed") {
		return name
	}
	return "bed " + name
}
