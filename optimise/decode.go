package optimise

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
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
	Flooded units.Kilograms // of one bed at the worst moment, its own weight included, at the weights frames are held to
	// Usual and Heavy are the same at usual and at heavy weights.
	Usual, Heavy units.Kilograms
}

// TableLoad is what one table carries at the worst moment.
type TableLoad struct {
	Name         string
	Beds         []string // sorted
	Flooded      units.Kilograms
	Usual, Heavy units.Kilograms
	Limit        *units.Kilograms
}

// Leftover is placed volume bought and not needed.
type Leftover struct {
	Quote  *quotes.Quote
	Site   string
	Litres units.Litres
}

// purchase reads the counts of packs and the drops chosen out of an answer.
func purchaseOf(p *model.Program, x []float64) (bill.Purchase, error) {
	buy := bill.Purchase{Carry: map[bill.Carry]*quotes.Delivery{}}
	job := p.In.Job
	for qi, q := range job.Quotes {
		pl := p.In.Pools[p.PoolOf[qi][0]]
		for s, site := range p.In.Sites {
			col, ok := p.N[[2]int{qi, s}]
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
			it := bill.Item{Quote: q, Site: site, Steps: n}
			if pl.Kind == quotes.Incremental && len(pl.Levels) > 1 && (len(pl.Members) > 1 || len(p.In.Sites) > 1) {
				for l := range pl.Levels {
					m, err := whole(p, x, p.M[[3]int{qi, s, l}])
					if err != nil {
						return buy, err
					}
					it.Tiers = append(it.Tiers, m)
				}
			}
			buy.Items = append(buy.Items, it)
			drops := p.In.DropAt[[2]int{qi, s}]
			chosen := drops[0]
			if len(drops) > 1 {
				chosen = slices.MaxFunc(drops, func(a, b int) int {
					return cmp.Compare(x[p.C[[2]int{qi, a}]], x[p.C[[2]int{qi, b}]])
				})
			}
			buy.Carry[bill.Carry{Supplier: q.Supplier, Site: site, Form: q.Form}] = p.In.Drops[chosen].Row
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
func fillsOf(p *model.Program, x []float64, buy bill.Purchase) ([]BedFill, error) {
	type key struct{ grade, atom int }
	placed := map[key]float64{}
	value := func(terms []mip.Term) (sum float64) {
		for _, t := range terms {
			sum += t.Coef * x[t.Col]
		}
		return sum
	}
	for u, su := range p.In.Suits {
		for _, g := range su.Grades {
			if p.In.Same {
				for _, t := range su.Slots {
					for _, a := range p.In.Slots[t].Atoms {
						if litres := value(p.GradeOf(g, u, p.In.Atoms[a].Litres/su.Litres)); litres > dust {
							placed[key{g, a}] = litres
						}
					}
				}
				continue
			}
			free := value(p.GradeOf(g, u, 1))
			for _, t := range su.Slots {
				if sl := p.In.Slots[t]; sl.Unit >= 0 {
					litres := value(p.GradeIn(g, t, 1))
					free -= litres
					for _, a := range sl.Atoms {
						if litres > dust {
							placed[key{g, a}] += litres * p.In.Atoms[a].Litres / sl.Litres
						}
					}
				}
			}
			for _, t := range su.Slots {
				if p.In.Slots[t].Unit >= 0 {
					continue
				}
				for _, a := range p.In.Slots[t].Atoms {
					room := p.In.Atoms[a].Litres
					for _, h := range su.Grades {
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
	stock := make([][]*pile, len(p.In.Grades))
	for g, gr := range p.In.Grades {
		for _, k := range gr.Classes {
			for _, qi := range p.In.Classes[k].Quotes {
				for _, it := range buy.Items {
					if it.Quote == p.In.Job.Quotes[qi] && it.Site == p.In.Sites[gr.Site] {
						stock[g] = append(stock[g], &pile{it.Quote, it.Packs().Float() * float64(p.In.Job.Yield(it.Quote))})
					}
				}
			}
		}
	}
	out := make([]BedFill, len(p.In.Job.Beds))
	for b, bed := range p.In.Job.Beds {
		out[b] = BedFill{Bed: bed}
	}
	for a, at := range p.In.Atoms {
		bed := p.In.Job.Beds[at.Bed]
		count := float64(bed.Count)
		lf := LayerFill{Layer: at.Layer, Demand: units.Litres(at.Litres / count)}
		got := map[*quotes.Quote]float64{}
		sum := 0.0
		for _, g := range p.In.Suits[at.Suit].Grades {
			need := placed[key{g, a}]
			sum += need
			for _, pile := range stock[g] {
				if part := min(need, pile.left); part > 0 {
					got[pile.quote] += part
					pile.left -= part
					need -= part
				}
			}
			if need > 1e-6*at.Litres+dust {
				return nil, fmt.Errorf("bed %q %s: %.3f L of %s are placed and not bought", bed.Name, at.Layer, need, p.In.Grades[g].Medium.Name)
			}
		}
		if diff := sum - at.Litres; diff > 1e-5*at.Litres+dust || diff < -1e-5*at.Litres-dust {
			return nil, fmt.Errorf("bed %q %s: %.3f L are placed, want %.3f", bed.Name, at.Layer, sum, at.Litres)
		}
		for q, v := range got {
			if v > dust {
				lf.Parts = append(lf.Parts, FillPart{q, units.Litres(v / count)})
			}
		}
		slices.SortFunc(lf.Parts, func(x, y FillPart) int { return cmp.Compare(x.Quote.Name, y.Quote.Name) })
		out[at.Bed].Layers = append(out[at.Bed].Layers, lf)
	}
	for i := range out {
		out[i].weigh(p.In.Job.Settings.Weights)
	}
	return out, nil
}

// weigh works out what the bed weighs: at the weights that frames are held to, at
// the usual and at the heavy ones.
func (f *BedFill) weigh(by quotes.Weights) {
	f.Flooded, f.Usual, f.Heavy = flooded(f, by), flooded(f, quotes.UsualWeights), flooded(f, quotes.HeavyWeights)
}

// flooded is the weight of one bed at the worst moment: what fills it and its
// own weight.
func flooded(f *BedFill, by quotes.Weights) units.Kilograms {
	w := float64(f.Bed.OwnWeight)
	for _, l := range f.Layers {
		below := f.Bed.Below(l.Layer)
		for _, part := range l.Parts {
			w += float64(part.Litres) * part.Quote.Flooded(below, by)
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
		count := units.Kilograms(f.Bed.Count)
		out[i].Flooded += f.Flooded * count
		out[i].Usual += f.Usual * count
		out[i].Heavy += f.Heavy * count
	}
	for i := range out {
		slices.Sort(out[i].Beds)
	}
	slices.SortFunc(out, func(a, b TableLoad) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// leftovers is what each line of the bill places less what the beds hold.
func leftovers(bill *bill.Bill, fills []BedFill) []Leftover {
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
func whole(p *model.Program, x []float64, col int) (int64, error) {
	v := math.Round(x[col])
	if math.Abs(x[col]-v) > wholeTol*max(1, math.Abs(v)) {
		return 0, fmt.Errorf("solver's answer for %q is %v, want a whole number", p.Cols[col].Name, x[col])
	}
	return int64(v), nil
}
