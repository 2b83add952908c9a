package risk

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"time"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Point is a purchase with what it costs and how sure it fills every bed.
type Point struct {
	Plan *optimise.Plan
	Sure float64 // 0 to 1
	// Chosen marks the plan that the curve was drawn for.
	Chosen bool
}

// Total is what the purchase costs.
func (p Point) Total() units.Money { return p.Plan.Bill.Total }

// Curve is cost against sureness.
type Curve struct {
	// Points are in order of cost. Each is the cheapest found that is as sure, but
	// for the chosen one, which stands here even where another beats it.
	Points []Point
	// Cut is true where time was up before every reserve was tried.
	Cut bool
}

// held are the reserves of a curve: the share of draws of each quote that stay below
// what it is counted on for.
var held = []float64{0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1, 0.07, 0.05, 0.03, 0.02, 0.01, 0.005, 0.001, 0}

// NewCurve finds what more sureness costs, and where the chosen plan of a job stands
// on it. The job is the one that was read, without any reserve. It is the same search
// as that for a sureness, see [Reach], with reserves from none to the worst of all
// draws; nothing is proven of it. The limit of opt, or else of the job, is for all of
// it; what was found until then is the curve.
func NewCurve(ctx context.Context, job *quotes.Job, chosen *optimise.Plan, opt optimise.Options) (*Curve, error) {
	begun := time.Now()
	a, err := NewAssessor(job)
	if err != nil {
		return nil, err
	}
	defer a.Close()
	limit := cmp.Or(opt.TimeLimit, job.Settings.TimeLimit)
	within := ctx
	if limit > 0 {
		var cancel context.CancelFunc
		within, cancel = context.WithDeadline(ctx, begun.Add(limit))
		defer cancel()
	}
	s := &reserve{ctx: within, a: a, job: job, opt: opt, best: &Reached{}}
	if limit > 0 {
		s.until = begun.Add(limit)
	}
	out := &Curve{}
	upTo := func(err error) (bool, error) {
		if err != nil && ctx.Err() == nil && (errors.Is(err, errTimeUp) || within.Err() != nil) {
			out.Cut = true
			return true, nil
		}
		return err != nil, err
	}
	sure, err := a.Sure(within, chosen.Purchase)
	if stop, err := upTo(err); stop {
		return out, err
	}
	found := []Point{{Plan: chosen, Sure: sure, Chosen: true}}
	s.each = func(p *optimise.Plan, sure float64) { found = append(found, Point{Plan: p, Sure: sure}) }
	for _, p := range held {
		_, err := s.try(s.above(p))
		if stop, err := upTo(err); err != nil {
			return nil, err
		} else if stop {
			break
		}
	}
	out.Points = frontier(found)
	return out, nil
}

// frontier keeps of the points those that none beats, and the chosen one, in order of
// cost. A point is beaten by one that costs no more and is no less sure.
func frontier(found []Point) []Point {
	slices.SortStableFunc(found, func(x, y Point) int {
		chosen := func(p Point) int {
			if p.Chosen {
				return 0
			}
			return 1
		}
		return cmp.Or(x.Total().Cmp(y.Total()), cmp.Compare(y.Sure, x.Sure), cmp.Compare(chosen(x), chosen(y)))
	})
	var out []Point
	most := -1.0
	for _, p := range found {
		if p.Sure > most || p.Chosen {
			out = append(out, p)
			most = max(most, p.Sure)
		}
	}
	return out
}

// Chosen is the place of the chosen plan among the points; -1 where there are none.
func (c *Curve) Chosen() int {
	return slices.IndexFunc(c.Points, func(p Point) bool { return p.Chosen })
}

// AtLeast is the cheapest point that is so sure; ok is false where none is.
func (c *Curve) AtLeast(target float64) (p Point, ok bool) {
	i := slices.IndexFunc(c.Points, func(p Point) bool { return p.Sure >= target })
	if i < 0 {
		return Point{}, false
	}
	return c.Points[i], true
}

// Next is the cheapest point that is surer than one; ok is false where none is.
func (c *Curve) Next(than Point) (p Point, ok bool) {
	i := slices.IndexFunc(c.Points, func(p Point) bool { return p.Sure > than.Sure })
	if i < 0 {
		return Point{}, false
	}
	return c.Points[i], true
}

// CurveDocument is a point of the curve for machines.
type CurveDocument struct {
	Sure   float64 `json:"sure"`
	Total  string  `json:"total"`
	More   string  `json:"more"` // than the cheapest of the points
	Chosen bool    `json:"chosen"`
}

// Document sets the curve out.
func (c *Curve) Document(digits int) []CurveDocument {
	out := []CurveDocument{}
	for _, p := range c.Points {
		out = append(out, CurveDocument{p.Sure, p.Total().Text(digits), p.Total().Sub(c.Points[0].Total()).Text(digits), p.Chosen})
	}
	return out
}
