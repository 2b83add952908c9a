package optimise

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// LayerFill is what goes into one layer of one bed.
type LayerFill struct {
	Layer  quotes.Layer
	Demand units.Litres // placed litres, spare volume included
	Parts  []FillPart   // by quote name
}

// FillPart is the placed litres of one quote in a layer of one bed.
type FillPart struct {
	Quote  *quotes.Quote
	Litres units.Litres
}

// BedFill is what goes into one bed; beds of a count are all filled alike.
type BedFill struct {
	Bed     *quotes.Bed
	Layers  []LayerFill     // top first
	Flooded units.Kilograms // of one bed at the worst moment, its own weight included
}

// TableLoad is what one table carries at the worst moment.
type TableLoad struct {
	Name    string
	Beds    []string // sorted
	Flooded units.Kilograms
	Limit   *units.Kilograms
}

// Leftover is placed volume bought and not needed.
type Leftover struct {
	Quote  *quotes.Quote
	Site   string
	Litres units.Litres
}

// purchase reads the counts of packs and the drops chosen out of an answer.
func purchaseOf(p *program, x []float64) (Purchase, error) {
	buy := Purchase{Carry: map[Carry]*quotes.Delivery{}}
	job := p.in.job
	for qi, q := range job.Quotes {
		pl := p.in.pools[p.poolOf[qi][0]]
		for s, site := range p.in.sites {
			col, ok := p.n[[2]int{qi, s}]
			if !ok {
				continue
			}
			n, err := whole(p, x, col)
			if err != nil {
				return buy, err
			}
			if n == 0 {
				continue
			}
			it := Item{Quote: q, Site: site, Steps: n}
			if pl.kind == quotes.Incremental && len(pl.levels) > 1 && (len(pl.members) > 1 || len(p.in.sites) > 1) {
				for l := range pl.levels {
					m, err := whole(p, x, p.m[[3]int{qi, s, l}])
					if err != nil {
						return buy, err
					}
					it.Tiers = append(it.Tiers, m)
				}
			}
			buy.Items = append(buy.Items, it)
			drops := p.in.dropAt[[2]int{qi, s}]
			chosen := drops[0]
			if len(drops) > 1 {
				chosen = slices.MaxFunc(drops, func(a, b int) int {
					return cmp.Compare(x[p.c[[2]int{qi, a}]], x[p.c[[2]int{qi, b}]])
				})
			}
			buy.Carry[Carry{q.Supplier, site, q.Form}] = p.in.drops[chosen].row
		}
	}
	return buy, nil
}

// dust is the placed volume below which a share of a layer is noise of the
// solver and not something to shovel: a spoonful.
const dust = 1e-4

// fills splits the litres of each slot back to the layers it stands for, and
// the litres of each grade to the quotes bought.
//
// A slot that nothing ties down is filled layer by layer, so that as many layers
// as possible hold one medium; a slot of a unit is split in proportion, which
// keeps every weight and share of the unit (see the package comment).
func fillsOf(p *program, x []float64, buy Purchase) ([]BedFill, error) {
	type key struct{ grade, atom int }
	placed := map[key]float64{}
	value := func(terms []mip.Term) (sum float64) {
		for _, t := range terms {
			sum += t.Coef * x[t.Col]
		}
		return sum
	}
	for u, su := range p.in.suits {
		for _, g := range su.grades {
			free := value(p.gradeOf(g, u, 1))
			for _, t := range su.slots {
				if sl := p.in.slots[t]; sl.unit >= 0 {
					litres := value(p.gradeIn(g, t, 1))
					free -= litres
					for _, a := range sl.atoms {
						if litres > dust {
							placed[key{g, a}] += litres * p.in.atoms[a].litres / sl.litres
						}
					}
				}
			}
			for _, t := range su.slots {
				if p.in.slots[t].unit >= 0 {
					continue
				}
				for _, a := range p.in.slots[t].atoms {
					room := p.in.atoms[a].litres
					for _, h := range su.grades {
						room -= placed[key{h, a}]
					}
					if part := min(room, free); part > dust {
						placed[key{g, a}] += part
						free -= part
					}
				}
			}
		}
	}

	// Litres left in the packs of each grade, quote by quote.
	type pile struct {
		quote *quotes.Quote
		left  float64
	}
	stock := make([][]*pile, len(p.in.grades))
	for g, gr := range p.in.grades {
		for _, k := range gr.classes {
			for _, qi := range p.in.classes[k].quotes {
				for _, it := range buy.Items {
					if it.Quote == p.in.job.Quotes[qi] && it.Site == p.in.sites[gr.site] {
						stock[g] = append(stock[g], &pile{it.Quote, it.Packs().Float() * float64(it.Quote.Placed())})
					}
				}
			}
		}
	}
	out := make([]BedFill, len(p.in.job.Beds))
	for b, bed := range p.in.job.Beds {
		out[b] = BedFill{Bed: bed}
	}
	for a, at := range p.in.atoms {
		bed := p.in.job.Beds[at.bed]
		count := float64(bed.Count)
		lf := LayerFill{Layer: at.layer, Demand: units.Litres(at.litres / count)}
		got := map[*quotes.Quote]float64{}
		sum := 0.0
		for _, g := range p.in.suits[at.suit].grades {
			need := placed[key{g, a}]
			sum += need
			for _, pile := range stock[g] {
				if part := min(need, pile.left); part > 0 {
					got[pile.quote] += part
					pile.left -= part
					need -= part
				}
			}
			if need > 1e-6*at.litres+dust {
				return nil, fmt.Errorf("bed %q %s: %.3f L of %s are placed and not bought", bed.Name, at.layer, need, p.in.grades[g].medium.Name)
			}
		}
		if diff := sum - at.litres; diff > 1e-5*at.litres+dust || diff < -1e-5*at.litres-dust {
			return nil, fmt.Errorf("bed %q %s: %.3f L are placed, want %.3f", bed.Name, at.layer, sum, at.litres)
		}
		for q, v := range got {
			if v > dust {
				lf.Parts = append(lf.Parts, FillPart{q, units.Litres(v / count)})
			}
		}
		slices.SortFunc(lf.Parts, func(x, y FillPart) int { return cmp.Compare(x.Quote.Name, y.Quote.Name) })
		out[at.bed].Layers = append(out[at.bed].Layers, lf)
	}
	for i := range out {
		out[i].Flooded = flooded(&out[i])
	}
	return out, nil
}

// flooded is the weight of one bed at the worst moment: what fills it and its
// own weight.
func flooded(f *BedFill) units.Kilograms {
	w := float64(f.Bed.OwnWeight)
	for _, l := range f.Layers {
		below := f.Bed.Below(l.Layer)
		for _, part := range l.Parts {
			w += float64(part.Litres) * part.Quote.Medium.Flooded(below)
		}
	}
	return units.Kilograms(w)
}

// tableLoads adds up the beds of each table, by name.
func tableLoads(fills []BedFill) []TableLoad {
	var out []TableLoad
	at := map[string]int{}
	for _, f := range fills {
		if f.Bed.Table == "" {
			continue
		}
		i, ok := at[f.Bed.Table]
		if !ok {
			i = len(out)
			at[f.Bed.Table] = i
			out = append(out, TableLoad{Name: f.Bed.Table, Limit: f.Bed.Limit})
		}
		out[i].Beds = append(out[i].Beds, f.Bed.Name)
		out[i].Flooded += f.Flooded * units.Kilograms(f.Bed.Count)
	}
	for i := range out {
		slices.Sort(out[i].Beds)
	}
	slices.SortFunc(out, func(a, b TableLoad) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// leftovers is what each line of the bill places less what the beds hold.
func leftovers(bill *Bill, fills []BedFill) []Leftover {
	type key struct {
		q    *quotes.Quote
		site string
	}
	used := map[key]float64{}
	for _, f := range fills {
		for _, l := range f.Layers {
			for _, part := range l.Parts {
				used[key{part.Quote, f.Bed.Site}] += float64(part.Litres) * float64(f.Bed.Count)
			}
		}
	}
	var out []Leftover
	for _, line := range bill.Lines {
		left := float64(line.Placed) - used[key{line.Quote, line.Site}]
		if left > 1e-3 {
			out = append(out, Leftover{line.Quote, line.Site, units.Litres(left)})
		}
	}
	return out
}

// wholeTol is how far from whole a count of packs or loads may come back from a
// solver: counts are at most millions, its own tolerance is 1e-9 of them.
const wholeTol = 1e-5

// whole is a column's value as a whole number, or an error when it is not one.
func whole(p *program, x []float64, col int) (int64, error) {
	v := math.Round(x[col])
	if math.Abs(x[col]-v) > wholeTol*max(1, math.Abs(v)) {
		return 0, fmt.Errorf("solver's answer for %q is %v, want a whole number", p.Cols[col].Name, x[col])
	}
	return int64(v), nil
}
