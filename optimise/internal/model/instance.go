package model

import (
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

// Atom is one layer of one row of beds: every one of its count together.
type Atom struct {
	Bed    int // index into Job.Beds
	Layer  quotes.Layer
	Site   int
	Litres float64 // placed
	below  float64 // share below the water line
	Suit   int     // index into instance.suits
}

// suit is a set of quotes that may fill something at one site, with all that it
// may fill there.
type suit struct {
	Name    string
	Site    int
	quotes  []bool
	Classes []int // what the set is made of
	Grades  []int
	Litres  float64 // of all its atoms
	layer   quotes.Layer
	Layers  int   // how many they are
	Slots   []int // what it fills
}

// grade is the classes of all suppliers that place alike at one site: same
// medium, same weight, welcome in the same layers. A bed does not care who sold the stone.
type grade struct {
	name    string
	Site    int
	Medium  *quotes.Medium
	quote   *quotes.Quote // the first, which weighs as they all do
	Classes []int
}

// class is the quotes of one supplier that nobody placing stone can tell apart:
// same medium, same site, welcome in the same layers, carried by the same drops.
// What they place adds up. Where quotes stand apart a class is one of them, with the
// goods of it that are there already, which another supplier and another drop carry.
type class struct {
	Name     string
	Site     int
	supplier string
	drops    []int // indexes into instance.drops
	medium   *quotes.Medium
	Grade    int
	Quotes   []int
}

// slot is a demand for placed litres: one atom, or several that are
// interchangeable.
type slot struct {
	Name   string
	Site   int
	Litres float64
	Below  float64 // only meaningful inside a unit that is weighed
	Suit   int
	Atoms  []int
	Unit   int // index into instance.units, -1 for a slot that nothing ties to another
}

// Unit is slots tied together by a weight limit or by shares of a bed.
type Unit struct {
	Name     string
	Slots    []int
	Weighed  bool
	Headroom float64 // kg left for media and water
	Shares   []ShareRow
	Tables   []string  // tables or beds it stands for, for messages
	Table    []bool    // which of them are tables
	litres   []float64 // placed in each of them
	Parts    []float64 // litres as shares of their sum
}

// ShareRow is Σ of medium over the slots ≤ most litres.
type ShareRow struct {
	Name      string
	Medium    *quotes.Medium
	Slots     []int
	most      float64
	mostShare float64
	Beds      []int // the beds it stands for
}

// Instance is a job made ready for the model: what must be filled, by what, and
// how it gets there.
type Instance struct {
	Job     *quotes.Job
	Fit     *suitability.Fit
	Sites   []string
	Drops   []bill.Drop
	DropAt  map[[2]int][]int // (quote, site) → drops that carry it
	Atoms   []Atom
	Suits   []suit
	Classes []class
	Grades  []grade
	Slots   []slot
	Units   []Unit
	Pools   []*bill.Pool
	// apart keeps every layer, quote and unit by itself, as in the files.
	apart bool
	// Mixing says that layers are not filled freely: each by one quote, or by none
	// for less than a share of it.
	Mixing bool
	// Same says that a layer is filled alike in every bed, so that what lies in a bed
	// is its part of what lies in all of them: see same.go.
	Same bool
	// grouped layers of one size that nothing ties down are counted together, each
	// still filled by one quote.
	grouped bool
}

// NewInstance aggregates the job exactly; with plain set, every layer, quote and
// rule stands by itself, as it does in the files.
func NewInstance(job *quotes.Job, fit *suitability.Fit, plain bool) *Instance {
	mixing := job.Settings.LayerMix == quotes.OneMix || job.Settings.LeastShare > 0
	in := &Instance{Job: job, Fit: fit, Sites: quotes.Sites(job), DropAt: map[[2]int][]int{}, Pools: bill.Pools(job), apart: plain || mixing, Mixing: mixing, Same: job.Settings.SameMix,
		grouped: mixing && !plain && job.Settings.LayerMix == quotes.OneMix && !job.Settings.SameMix}
	in.findDrops()
	in.findAtoms()
	in.findClasses()
	in.findUnits()
	for i := range in.Units {
		in.Units[i].share()
	}
	for t, sl := range in.Slots {
		in.Suits[sl.Suit].Slots = append(in.Suits[sl.Suit].Slots, t)
	}
	return in
}

// Columns is about how many columns the model will have: those of placing, which
// outnumber the others where it is large.
func (in *Instance) Columns() int {
	n := 0
	for _, su := range in.Suits {
		n += len(su.Classes)
	}
	return n
}

// findDrops lists every way a quote can reach a site.
func (in *Instance) findDrops() {
	index := map[[2]string][]int{}
	for qi, q := range in.Job.Quotes {
		for s, site := range in.Sites {
			key := [2]string{q.Supplier, site}
			ds, ok := index[key]
			if !ok {
				for _, d := range bill.DropsTo(in.Job, q.Supplier, site) {
					ds = append(ds, len(in.Drops))
					in.Drops = append(in.Drops, d)
				}
				index[key] = ds
			}
			for _, d := range ds {
				if in.Drops[d].Carries(q.Form) {
					in.DropAt[[2]int{qi, s}] = append(in.DropAt[[2]int{qi, s}], d)
				}
			}
		}
	}
}

// findAtoms lists the layers to fill and the set of quotes that may fill each.
func (in *Instance) findAtoms() {
	type kind struct {
		p    *suitability.Profile
		l    quotes.Layer
		site int
	}
	byKind, bySet := map[kind]int{}, map[string]int{}
	for b, bed := range in.Job.Beds {
		site := slices.Index(in.Sites, bed.Site)
		for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
			litres := float64(bed.LayerLitres(l)) * float64(bed.Count)
			if litres <= 0 {
				continue
			}
			k := kind{in.Fit.OfBed[b], l, site}
			id, ok := byKind[k]
			if !ok {
				set := make([]bool, len(in.Job.Quotes))
				key := make([]byte, len(set)+8)
				key = fmt.Appendf(key[:0], "%d|", site)
				switch {
				case in.Same:
					key = fmt.Appendf(key, "%s|", l)
				case in.grouped && bed.Limit == nil && len(bed.MaxShare) == 0:
					key = fmt.Appendf(key, "%g L|", litres)
				case in.apart:
					key = fmt.Appendf(key, "%d|", len(in.Atoms))
				}
				for q := range set {
					set[q] = in.welcome(q, b, l, site)
					if set[q] {
						key = append(key, '1')
					} else {
						key = append(key, '0')
					}
				}
				if id, ok = bySet[string(key)]; !ok {
					id = len(in.Suits)
					in.Suits = append(in.Suits, suit{Name: bed.Name + "/" + string(l), Site: site, layer: l, quotes: set})
					bySet[string(key)] = id
				}
				if !in.apart {
					byKind[k] = id
				}
			}
			in.Suits[id].Litres += litres
			if !in.Same || in.Suits[id].Layers == 0 {
				in.Suits[id].Layers++ // what is filled alike is one choice
			}
			in.Atoms = append(in.Atoms, Atom{b, l, site, litres, bed.Below(l), id})
		}
	}
}

// findClasses groups, for each site, the quotes that place alike, by supplier
// into classes and over all suppliers into grades.
func (in *Instance) findClasses() {
	for s := range in.Sites {
		var mine []int // suits of the site
		for i, su := range in.Suits {
			if su.Site == s {
				mine = append(mine, i)
			}
		}
		classes, grades := map[string]int{}, map[string]int{}
		for qi, q := range in.Job.Quotes {
			sign := make([]byte, len(mine))
			used := false
			for i, su := range mine {
				sign[i] = '0'
				if in.Suits[su].quotes[qi] {
					sign[i], used = '1', true
				}
			}
			if !used {
				continue
			}
			key := fmt.Sprintf("%s|%s|%g", q.Medium.Name, sign, q.Flooded(0, in.Job.Settings.Weights))
			switch {
			case in.Same:
				key += fmt.Sprintf("|%d", qi)
			case in.apart:
				key += "|" + q.Thing()
			}
			g, ok := grades[key]
			if !ok {
				g = len(in.Grades)
				grades[key] = g
				in.Grades = append(in.Grades, grade{name: q.Name, Site: s, Medium: q.Medium, quote: q})
				for i, su := range mine {
					if sign[i] == '1' {
						in.Suits[su].Grades = append(in.Suits[su].Grades, g)
					}
				}
			}
			drops := in.DropAt[[2]int{qi, s}]
			if !in.apart {
				key += fmt.Sprintf("|%s|%v", q.Supplier, drops)
				if in.choice(q.Supplier, in.Sites[s]) {
					key += "|" + string(q.Form) // each form chooses its drop
				}
			}
			c, ok := classes[key]
			if !ok {
				c = len(in.Classes)
				classes[key] = c
				in.Classes = append(in.Classes, class{Name: q.Name, Site: s, supplier: q.Supplier, drops: drops, medium: q.Medium, Grade: g})
				in.Grades[g].Classes = append(in.Grades[g].Classes, c)
				for i, su := range mine {
					if sign[i] == '1' {
						in.Suits[su].Classes = append(in.Suits[su].Classes, c)
					}
				}
			}
			in.Classes[c].Quotes = append(in.Classes[c].Quotes, qi)
		}
	}
	for i := range in.Classes {
		c := &in.Classes[i]
		if n := len(c.Quotes) - 1; n > 0 {
			c.Name += fmt.Sprintf("+%d", n)
		}
		if len(in.Sites) > 1 {
			c.Name += "@" + in.Sites[c.Site]
		}
	}
}

// Weight is what one placed litre of a grade weighs in a layer of which the share
// below stands under water, at the weights that frames are held to.
func (in *Instance) Weight(g int, below float64) float64 {
	return in.Grades[g].quote.Flooded(below, in.Job.Settings.Weights)
}

// Heaviest is the most one placed litre can weigh in a layer.
func (in *Instance) Heaviest(su int, below float64) float64 {
	w := 0.0
	for _, g := range in.Suits[su].Grades {
		w = max(w, in.Weight(g, below))
	}
	return w
}

// Lightest is the least one placed litre can weigh in a layer.
func (in *Instance) Lightest(su int, below float64) float64 {
	w := math.Inf(1)
	for _, g := range in.Suits[su].Grades {
		w = min(w, in.Weight(g, below))
	}
	return w
}

// slotName names a slot after its first atom.
func (in *Instance) slotName(a int) string {
	bed := in.Job.Beds[in.Atoms[a].Bed]
	return bed.Name + "/" + string(in.Atoms[a].Layer)
}

// choice reports whether some form of a supplier's goods can reach the site by
// more than one drop.
func (in *Instance) choice(supplier, site string) bool {
	for _, f := range quotes.Forms {
		n := 0
		for _, d := range in.Drops {
			if d.Supplier == supplier && d.Site == site && d.Carries(f) {
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
func (in *Instance) demands() map[[2]int]float64 {
	byClass := make([]float64, len(in.Classes))
	for _, su := range in.Suits {
		for _, c := range su.Classes {
			byClass[c] += su.Litres
		}
	}
	out := map[[2]int]float64{}
	for i, c := range in.Classes {
		for _, q := range c.Quotes {
			out[[2]int{q, c.Site}] = byClass[i]
		}
	}
	return out
}
