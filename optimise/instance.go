package optimise

import (
	"fmt"
	"math"
	"slices"

	"mediabuy/quotes"
)

// atom is one layer of one row of beds: every one of its count together.
type atom struct {
	bed    int // index into Job.Beds
	layer  quotes.Layer
	site   int
	litres float64 // placed, spare volume included
	below  float64 // share below the water line
	suit   int     // index into instance.suits
}

// suit is a set of quotes that may fill something at one site, with all that it
// may fill there.
type suit struct {
	name    string
	site    int
	quotes  []bool
	classes []int // what the set is made of
	grades  []int
	litres  float64 // of all its atoms
	slots   []int   // what it fills
}

// grade is the classes of all suppliers that place alike at one site: same
// medium, welcome in the same layers. A bed does not care who sold the stone.
type grade struct {
	name    string
	site    int
	medium  *quotes.Medium
	classes []int
}

// class is the quotes of one supplier that nobody placing stone can tell apart:
// same medium, same site, welcome in the same layers, carried by the same drops.
// What they place adds up.
type class struct {
	name     string
	site     int
	supplier string
	drops    []int // indexes into instance.drops
	medium   *quotes.Medium
	grade    int
	quotes   []int
}

// slot is a demand for placed litres: one atom, or several that are
// interchangeable.
type slot struct {
	name   string
	site   int
	litres float64
	below  float64 // only meaningful inside a unit that is weighed
	suit   int
	atoms  []int
	unit   int // index into instance.units, -1 for a slot that nothing ties to another
}

// unit is slots tied together by a weight limit or by shares of a bed.
type unit struct {
	name     string
	slots    []int
	weighed  bool
	headroom float64 // kg left for media and water
	shares   []shareRow
	tables   []string  // tables or beds it stands for, for messages
	table    []bool    // which of them are tables
	litres   []float64 // placed in each of them
	parts    []float64 // litres as shares of their sum
}

// shareRow is Σ of medium over the slots ≤ most litres.
type shareRow struct {
	name      string
	medium    *quotes.Medium
	slots     []int
	most      float64
	mostShare float64
	beds      []int // the beds it stands for
}

// instance is a job made ready for the model: what must be filled, by what, and
// how it gets there.
type instance struct {
	job     *quotes.Job
	fit     *Fit
	sites   []string
	drops   []drop
	dropAt  map[[2]int][]int // (quote, site) → drops that carry it
	atoms   []atom
	suits   []suit
	classes []class
	grades  []grade
	slots   []slot
	units   []unit
	pools   []*pool
	plain   bool
}

// newInstance aggregates the job exactly; with plain set, every layer, quote and
// rule stands by itself, as it does in the files.
func newInstance(job *quotes.Job, fit *Fit, plain bool) *instance {
	in := &instance{job: job, fit: fit, sites: job.Sites(), dropAt: map[[2]int][]int{}, pools: poolsOf(job), plain: plain}
	in.findDrops()
	in.findAtoms()
	in.findClasses()
	in.findUnits()
	for i := range in.units {
		in.units[i].share()
	}
	for t, sl := range in.slots {
		in.suits[sl.suit].slots = append(in.suits[sl.suit].slots, t)
	}
	return in
}

// findDrops lists every way a quote can reach a site.
func (in *instance) findDrops() {
	index := map[[2]string][]int{}
	for qi, q := range in.job.Quotes {
		for s, site := range in.sites {
			key := [2]string{q.Supplier, site}
			ds, ok := index[key]
			if !ok {
				for _, d := range dropsTo(in.job, q.Supplier, site) {
					ds = append(ds, len(in.drops))
					in.drops = append(in.drops, d)
				}
				index[key] = ds
			}
			for _, d := range ds {
				if in.drops[d].carries(q.Form) {
					in.dropAt[[2]int{qi, s}] = append(in.dropAt[[2]int{qi, s}], d)
				}
			}
		}
	}
}

// findAtoms lists the layers to fill and the set of quotes that may fill each.
func (in *instance) findAtoms() {
	type kind struct {
		p    *profile
		l    quotes.Layer
		site int
	}
	byKind, bySet := map[kind]int{}, map[string]int{}
	extra := 1 + in.job.Settings.Extra.Float()
	for b, bed := range in.job.Beds {
		site := slices.Index(in.sites, bed.Site)
		for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
			litres := float64(bed.LayerLitres(l)) * extra * float64(bed.Count)
			if litres <= 0 {
				continue
			}
			k := kind{in.fit.ofBed[b], l, site}
			id, ok := byKind[k]
			if !ok {
				set := make([]bool, len(in.job.Quotes))
				key := make([]byte, len(set)+8)
				key = fmt.Appendf(key[:0], "%d|", site)
				if in.plain {
					key = fmt.Appendf(key, "%d|", len(in.atoms))
				}
				for q := range set {
					set[q] = in.fit.OK(q, b, l) && len(in.dropAt[[2]int{q, site}]) > 0
					if set[q] {
						key = append(key, '1')
					} else {
						key = append(key, '0')
					}
				}
				if id, ok = bySet[string(key)]; !ok {
					id = len(in.suits)
					in.suits = append(in.suits, suit{name: bed.Name + "/" + string(l), site: site, quotes: set})
					bySet[string(key)] = id
				}
				if !in.plain {
					byKind[k] = id
				}
			}
			in.suits[id].litres += litres
			in.atoms = append(in.atoms, atom{b, l, site, litres, bed.Below(l), id})
		}
	}
}

// findClasses groups, for each site, the quotes that place alike, by supplier
// into classes and over all suppliers into grades.
func (in *instance) findClasses() {
	for s := range in.sites {
		var mine []int // suits of the site
		for i, su := range in.suits {
			if su.site == s {
				mine = append(mine, i)
			}
		}
		classes, grades := map[string]int{}, map[string]int{}
		for qi, q := range in.job.Quotes {
			sign := make([]byte, len(mine))
			used := false
			for i, su := range mine {
				sign[i] = '0'
				if in.suits[su].quotes[qi] {
					sign[i], used = '1', true
				}
			}
			if !used {
				continue
			}
			key := q.Medium.Name + "|" + string(sign)
			if in.plain {
				key += fmt.Sprintf("|%d", qi)
			}
			g, ok := grades[key]
			if !ok {
				g = len(in.grades)
				grades[key] = g
				in.grades = append(in.grades, grade{name: q.Name, site: s, medium: q.Medium})
				for i, su := range mine {
					if sign[i] == '1' {
						in.suits[su].grades = append(in.suits[su].grades, g)
					}
				}
			}
			drops := in.dropAt[[2]int{qi, s}]
			key += fmt.Sprintf("|%s|%v", q.Supplier, drops)
			if in.choice(q.Supplier, in.sites[s]) {
				key += "|" + string(q.Form) // each form chooses its drop
			}
			c, ok := classes[key]
			if !ok {
				c = len(in.classes)
				classes[key] = c
				in.classes = append(in.classes, class{name: q.Name, site: s, supplier: q.Supplier, drops: drops, medium: q.Medium, grade: g})
				in.grades[g].classes = append(in.grades[g].classes, c)
				for i, su := range mine {
					if sign[i] == '1' {
						in.suits[su].classes = append(in.suits[su].classes, c)
					}
				}
			}
			in.classes[c].quotes = append(in.classes[c].quotes, qi)
		}
	}
	for i := range in.classes {
		c := &in.classes[i]
		if n := len(c.quotes) - 1; n > 0 {
			c.name += fmt.Sprintf("+%d", n)
		}
		if len(in.sites) > 1 {
			c.name += "@" + in.sites[c.site]
		}
	}
}

// heaviest is the most one placed litre can weigh in a layer.
func (in *instance) heaviest(su int, below float64) float64 {
	w := 0.0
	for _, g := range in.suits[su].grades {
		w = max(w, in.grades[g].medium.Flooded(below))
	}
	return w
}

// lightest is the least one placed litre can weigh in a layer.
func (in *instance) lightest(su int, below float64) float64 {
	w := math.Inf(1)
	for _, g := range in.suits[su].grades {
		w = min(w, in.grades[g].medium.Flooded(below))
	}
	return w
}

// slotName names a slot after its first atom.
func (in *instance) slotName(a int) string {
	bed := in.job.Beds[in.atoms[a].bed]
	return bed.Name + "/" + string(in.atoms[a].layer)
}

// choice reports whether some form of a supplier's goods can reach the site by
// more than one drop.
func (in *instance) choice(supplier, site string) bool {
	for _, f := range quotes.Forms {
		n := 0
		for _, d := range in.drops {
			if d.supplier == supplier && d.site == site && d.carries(f) {
				n++
			}
		}
		if n > 1 {
			return true
		}
	}
	return false
}

// demands is the placed litres that each quote could fill at each site.
func (in *instance) demands() map[[2]int]float64 {
	byClass := make([]float64, len(in.classes))
	for _, su := range in.suits {
		for _, c := range su.classes {
			byClass[c] += su.litres
		}
	}
	out := map[[2]int]float64{}
	for i, c := range in.classes {
		for _, q := range c.quotes {
			out[[2]int{q, c.site}] = byClass[i]
		}
	}
	return out
}
