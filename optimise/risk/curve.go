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
	// TopUp is what finishing the beds may be expected to cost besides, the mean over
	// all draws; nil where that is not known, or where in some draw nothing finishes.
	TopUp *units.Money
}

// Total is what the purchase costs.
func (p Point) Total() units.Money { return p.Plan.Bill.Total }

// InAll is what the purchase costs with what finishing may be expected to; ok is false
// where that is not known.
func (p Point) InAll() (m units.Money, ok bool) {
	if p.TopUp == nil {
		return m, false
	}
	return p.Total().Add(*p.TopUp), true
}

// Curve is cost against sureness.
type Curve struct {
	// Points are in order of cost. Each is the cheapest found that is as sure, but
	// for the chosen one, which stands here even where another beats it.
	Points []Point
	// Cut is true where time was up before every reserve was tried, or what finishing
	// costs was known of every point.
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
//
// The report is how sure the chosen plan is, see [Assessed]; nil where that is not known,
// and then it is assessed here.
func NewCurve(ctx context.Context, job *quotes.Job, chosen *optimise.Plan, report *Report, opt optimise.Options) (*Curve, error) {
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
	for i := range out.Points {
		if s.until.IsZero() {
			opt.TimeLimit = 0
		} else if opt.TimeLimit = time.Until(s.until); opt.TimeLimit <= 0 {
			out.Cut = true
			break
		}
		r := report
		if r == nil || !out.Points[i].Chosen {
			r, err = a.Assess(within, out.Points[i].Plan.Purchase, opt)
			if stop, err := upTo(err); err != nil {
				return nil, err
			} else if stop {
				break
			}
		}
		if r.Finished {
			out.Points[i].TopUp = &r.ExpectedTopUp
		}
	}
	return out, nil
}

// Worth is the place of the point whose spare is worth its money: of all it costs least
// with what finishing may be expected to, so that what a dearer one costs more it saves
// less of, and a cheaper one risks more than it saves. This is the rule of the
// newsvendor, to buy more while the next pack saves more than it costs (Arrow, Harris
// and Marschak, Optimal inventory policy, Econometrica 19, 1951; from memory). It is -1
// where it is not known.
func (c *Curve) Worth() int {
	best := -1
	var least units.Money
	for i, p := range c.Points {
		m, ok := p.InAll()
		if !ok {
			if c.Cut {
				return -1
			}
			continue
		}
		if best < 0 || m.Cmp(least) < 0 {
			best, least = i, m
		}
	}
	return best
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
	// ExpectedTopUp is what finishing may be expected to cost besides; null where it is
	// not known.
	ExpectedTopUp *string `json:"expected_top_up"`
	// Worth marks the one whose spare is worth its money.
	Worth bool `json:"worth_its_money"`
}

// Document sets the curve out.
func (c *Curve) Document(digits int) []CurveDocument {
	out := []CurveDocument{}
	worth := c.Worth()
	for i, p := range c.Points {
		d := CurveDocument{Sure: p.Sure, Total: p.Total().Text(digits), More: p.Total().Sub(c.Points[0].Total()).Text(digits), Chosen: p.Chosen, Worth: i == worth}
		if p.TopUp != nil {
			text := p.TopUp.Text(digits)
			d.ExpectedTopUp = &text
		}
		out = append(out, d)
	}
	return out
}
