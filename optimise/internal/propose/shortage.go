package propose

import (
	"context"
	"time"

	"mediabuy/optimise/internal/model"
	"mediabuy/quotes"
)

// Shortage answers how short the beds of one site stay with the litres that came:
// what is there is laid in the way that leaves least short, within every weight and
// share.
type Shortage struct {
	p       *model.Program
	pl      *placer
	cols    [][2]int        // columns of v there, each with the index of its class; in order, so that sums repeat
	classOf map[[2]int]int  // (quote, site) → index of class
	supply  map[int]float64 // litres by class, while asking
	site    int
}

// Shortages readies the question for every site of a job. Close them.
func Shortages(p *model.Program) ([]*Shortage, error) {
	var out []*Shortage
	for site := range p.In.Sites {
		pl, err := newPlacer(p, site)
		if err != nil {
			for _, s := range out {
				s.Close()
			}
			return nil, err
		}
		s := &Shortage{p: p, pl: pl, classOf: map[[2]int]int{}, site: site, supply: map[int]float64{}}
		for i, k := range pl.classes {
			for _, qi := range p.In.Classes[k].Quotes {
				s.classOf[[2]int{qi, site}] = i
			}
			for u := range p.In.Suits {
				if v, ok := p.V[[2]int{k, u}]; ok {
					if j, ok := pl.cols[v]; ok {
						s.cols = append(s.cols, [2]int{j, i})
					}
				}
			}
		}
		out = append(out, s)
	}
	return out, nil
}

// Close frees the linear program.
func (s *Shortage) Close() { s.pl.lp.Close() }

// Classes is how many kinds of goods are told apart at the site.
func (s *Shortage) Classes() int { return len(s.pl.classes) }

// ClassOf is the kind that goods of a quote for a site are; ok is false where they
// go elsewhere or nowhere.
func (s *Shortage) ClassOf(q *quotes.Quote, site string) (class int, ok bool) {
	if s.p.In.Sites[s.site] != site {
		return 0, false
	}
	for qi, other := range s.p.In.Job.Quotes {
		if other.Name == q.Name {
			class, ok = s.classOf[[2]int{qi, s.site}]
			return class, ok
		}
	}
	return 0, false
}

// Short is the least shortage in litres when litres[i] of kind i came. Where it is
// above nothing, weights and rhs are a row Σ weights·litres ≥ rhs that all litres
// which fill the beds keep and by which these are short exactly that much; else
// placed is what of each kind goes into the beds.
func (s *Shortage) Short(ctx context.Context, litres []float64) (short float64, weights []float64, rhs float64, placed []float64, err error) {
	for i, k := range s.pl.classes {
		s.supply[k] = litres[i]
	}
	s.pl.fitted = false
	short, weights, rhs, err = s.pl.place(ctx, time.Time{}, func(k int) float64 { return s.supply[k] })
	if err != nil || short > 0 {
		return short, weights, rhs, nil, err
	}
	placed = make([]float64, len(litres))
	for _, c := range s.cols {
		placed[c[1]] += s.pl.res.X[c[0]]
	}
	return 0, nil, 0, placed, nil
}
