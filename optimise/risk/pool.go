package risk

import (
	"cmp"
	"context"
	"slices"
)

// placing answers, for one site, how short its beds stay when item i of what is
// bought places litres[i] there.
type placing interface {
	// short is the least shortage in litres. Where it is above nothing, weights
	// and rhs are a row Σ weights·litres ≥ rhs that all litres which fill the beds
	// keep, and by which these are short exactly that much; else placed is what of
	// each item goes into the beds.
	short(ctx context.Context, litres []float64) (short float64, weights []float64, rhs float64, placed []float64, err error)
}

// pool works out the shortage of many draws of one site with few linear
// programs. The shortage is convex in the litres and the least of all functions
// above its rows, so each row found bounds it for every draw, and a draw of no
// less than what some filling places is not short.
type pool struct {
	of   placing
	rows []poolRow
	full [][]float64 // litres placed by fillings, each enough
	lps  int         // linear programs solved
}

type poolRow struct {
	weights []float64
	rhs     float64
}

// tol is when litres count as short: a thimbleful, above the linear solver's noise.
const tol = 1e-4

// settled is how many linear programs in a row must teach nothing new before the
// rows found are taken for all there are. They are asked of the draws nearest
// to the edge between short and full, where a row that is missing would show.
const settled = 60

// bound is the shortage that the rows found prove for litres, above 0 if they are
// short; below it, by how much the nearest row is kept.
func (p *pool) bound(litres []float64) float64 {
	most := -1e300
	for _, r := range p.rows {
		s := r.rhs
		for i, w := range r.weights {
			s -= w * litres[i]
		}
		most = max(most, s)
	}
	return most
}

// enough reports whether litres are at least what some filling places.
func (p *pool) enough(litres []float64) bool {
	return slices.ContainsFunc(p.full, func(f []float64) bool {
		for i, l := range f {
			if litres[i] < l {
				return false
			}
		}
		return true
	})
}

// learn asks the linear program about one draw and keeps what it teaches.
func (p *pool) learn(ctx context.Context, litres []float64) (short float64, err error) {
	p.lps++
	short, weights, rhs, placed, err := p.of.short(ctx, litres)
	if err != nil {
		return 0, err
	}
	if short <= tol {
		p.full = append(p.full, placed)
		return 0, nil
	}
	p.rows = append(p.rows, poolRow{slices.Clone(weights), rhs})
	return short, nil
}

// shorts is the shortage of every draw; draw d has the litres at(d, buf).
func (p *pool) shorts(ctx context.Context, n int, at func(d int, buf []float64) []float64, out []float64) error {
	var buf []float64
	bounds := func() {
		for d := range n {
			buf = at(d, buf)
			out[d] = p.bound(buf)
		}
	}
	bounds()
	order := make([]int, n)
	for d := range order {
		order[d] = d
	}
	dull := 0
	asked := make([]bool, n)
	for dull < settled {
		// Nearest to the edge first, those thought full and those thought short in turn.
		slices.SortFunc(order, func(a, b int) int {
			return cmp.Or(cmp.Compare(abs(out[a]), abs(out[b])), cmp.Compare(a, b))
		})
		news := false
		for _, d := range order {
			if asked[d] || dull >= settled {
				continue
			}
			buf = at(d, buf)
			if out[d] <= tol && p.enough(buf) {
				continue
			}
			asked[d] = true
			short, err := p.learn(ctx, buf)
			if err != nil {
				return err
			}
			if short > max(0, out[d])+tol {
				news = true
				break
			}
			dull++
		}
		if !news {
			break
		}
		dull = 0
		bounds()
	}
	for d := range out[:n] {
		if out[d] <= tol {
			out[d] = 0
		}
	}
	return nil
}

func abs(x float64) float64 { return max(x, -x) }
