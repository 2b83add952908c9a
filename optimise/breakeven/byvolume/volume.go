package byvolume

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Sentences for jobs that lack one side of a comparison.
var (
	ErrNoBulk = errors.New("no quote comes in bulk, so there is nothing to set against the bags")
	ErrNoBags = errors.New("no quote comes in bags, so there is nothing to set against the bulk")
)

// Side is one way of buying a volume: the cheapest of some quotes, each alone.
type Side struct {
	Name   string
	Quotes []*quotes.Quote
}

// One is the side of a single quote.
func One(q *quotes.Quote) Side { return Side{q.Name, []*quotes.Quote{q}} }

// BagsAndBulk are the best of what comes in bags and the best of what does not,
// of the quotes that some bed takes. The error says in a sentence what is missing.
func BagsAndBulk(job *quotes.Job, fit *suitability.Fit) (bags, bulk Side, err error) {
	bags, bulk = Side{Name: "bags"}, Side{Name: "bulk"}
	some := map[bool]bool{}
	for i, q := range job.Quotes {
		some[q.Form == quotes.Bag] = true
		switch {
		case !fit.Usable(i):
		case q.Form == quotes.Bag:
			bags.Quotes = append(bags.Quotes, q)
		default:
			bulk.Quotes = append(bulk.Quotes, q)
		}
	}
	switch {
	case !some[false]:
		err = ErrNoBulk
	case !some[true]:
		err = ErrNoBags
	case len(bulk.Quotes) == 0:
		err = fmt.Errorf("no bed takes any quote that comes in bulk, so there is nothing to set against the bags")
	case len(bags.Quotes) == 0:
		err = fmt.Errorf("no bed takes any quote that comes in bags, so there is nothing to set against the bulk")
	}
	return bags, bulk, err
}

// BothWays is one medium that is sold in bags and in bulk.
type BothWays struct {
	Medium     *quotes.Medium
	Bags, Bulk Side
}

// SoldBothWays lists the media of which some bed takes a quote in bags and one that
// does not come in bags, by name.
func SoldBothWays(job *quotes.Job, fit *suitability.Fit) []BothWays {
	var out []BothWays
	for i, q := range job.Quotes {
		if !fit.Usable(i) {
			continue
		}
		at := slices.IndexFunc(out, func(b BothWays) bool { return b.Medium == q.Medium })
		if at < 0 {
			at = len(out)
			out = append(out, BothWays{Medium: q.Medium})
		}
		side := &out[at].Bulk
		if q.Form == quotes.Bag {
			side = &out[at].Bags
		}
		side.Quotes = append(side.Quotes, q)
	}
	out = slices.DeleteFunc(out, func(b BothWays) bool { return b.Bags.Quotes == nil || b.Bulk.Quotes == nil })
	slices.SortFunc(out, func(a, b BothWays) int { return strings.Compare(a.Medium.Name, b.Medium.Name) })
	return out
}

// OfMedium sets the bags of one medium against its bulk: at every volume the
// cheapest of each, alone. Both sides are named after the quote that is cheapest
// where bulk first is, or at the end where it never is.
func OfMedium(job *quotes.Job, b BothWays, site string, most units.Litres) (*Volume, error) {
	v, err := Between(job, b.Bags, b.Bulk, site, most)
	if err != nil {
		return nil, err
	}
	v.Medium = b.Medium
	at := v.Looked
	if v.First != nil {
		at = *v.First
	}
	for _, side := range []struct {
		of *Side
		w  Winner
	}{{&v.Left, Left}, {&v.Right, Right}} {
		side.of.Name = side.of.Quotes[0].Name
		if t := v.treadAbove(side.w, at); t != nil {
			side.of.Name = t.Quote.Name
		}
	}
	return v, nil
}

// treadAbove is what a side costs just above a volume; nil where it has no more.
func (v *Volume) treadAbove(w Winner, litres units.Litres) *Tread {
	treads := v.Treads(w)
	for i, t := range treads {
		if t.UpTo > litres*(1+1e-12) {
			return &treads[i]
		}
	}
	if len(treads) > 0 && treads[len(treads)-1].UpTo >= litres*(1-1e-12) {
		return &treads[len(treads)-1]
	}
	return nil
}

// BagsAt is the bags of the left side that place just more than a volume, such as
// that from which bulk is cheaper; nil where there are none.
func (v *Volume) BagsAt(litres *units.Litres) *Tread {
	if litres == nil {
		return nil
	}
	return v.treadAbove(Left, *litres)
}

// Winner is the cheaper side of a volume.
type Winner string

// Winners. None stands where neither side has enough.
const (
	Left  Winner = "left"
	Right Winner = "right"
	Equal Winner = "equal"
	None  Winner = "none"
)

// Stretch is a range of volume with one winner: above From and up to To, both in
// placed litres. The price of a volume changes just above what whole packs hold,
// so the upper end belongs to it.
type Stretch struct {
	From, To units.Litres
	Cheaper  Winner
}

// Volume sets two sides against each other over the volume to be placed.
type Volume struct {
	Medium      *quotes.Medium // of both sides, where they are of one
	Left, Right Side
	Site        string
	// First is the volume above which the right side is cheaper for the first
	// time, Always the one above which it always is; nil if there is none.
	First, Always *units.Litres
	Stretches     []Stretch // from 0 to Looked, without gaps
	// Looked is how far the volumes were looked at. Settled says that beyond it
	// the winner of the last stretch stays the winner.
	Looked  units.Litres
	Settled bool
	// Notes name quotes that were left out and say why.
	Notes []string

	left, right stairs
}

// Tread is what placing a volume above the tread before, up to UpTo, costs.
type Tread struct {
	UpTo  units.Litres
	Total units.Money
	Quote *quotes.Quote
	Packs units.Decimal
}

// Treads are the prices of the two sides, for charts.
func (v *Volume) Treads(w Winner) []Tread {
	s := v.left
	if w == Right {
		s = v.right
	}
	out := make([]Tread, len(s))
	for i, t := range s {
		out[i] = Tread{units.Litres(t.upTo), t.total, t.quote, t.packs}
	}
	return out
}

// NotBroughtError says that nothing of one side can be delivered to a site, so that nothing can be set against the other.
type NotBroughtError struct{ Side, Site string }

func (e *NotBroughtError) Error() string {
	out := "no quote can be delivered"
	if e.Side != "" {
		out = fmt.Sprintf("no quote of %q can be delivered", e.Side)
	}
	if e.Site != "" {
		out += fmt.Sprintf(" to site %q", e.Site)
	}
	return out
}

// Between sets two sides against each other at every volume up to most placed
// litres, or as far as it takes until the winner is settled if that is more.
// Each quote is priced as if it alone supplied the volume to the site, in whole
// packs with breaks, delivery, tax and rinsing.
func Between(job *quotes.Job, left, right Side, site string, most units.Litres) (*Volume, error) {
	if most <= 0 {
		return nil, fmt.Errorf("%v L is no volume to compare at, want more than 0", float64(most))
	}
	v := &Volume{Left: left, Right: right, Site: site}
	tails := [2][]tail{}
	smallest := math.Inf(1)
	for i, side := range []Side{left, right} {
		for _, q := range side.Quotes {
			p := newPricer(job, q, site)
			if p.err != nil {
				v.Notes = append(v.Notes, fmt.Sprintf("%s is left out: %v", q.Name, p.err))
				continue
			}
			tails[i] = append(tails[i], p.tails()...)
			smallest = min(smallest, float64(q.Placed())*q.Step.Float())
		}
		if len(tails[i]) == 0 {
			return nil, &NotBroughtError{Side: side.Name, Site: site}
		}
	}
	looked := float64(most)
	from, winner, ok := settledFrom(tails[0], tails[1])
	if ok && from <= smallest*mostSteps {
		looked = max(looked, from)
		v.Settled = true
	}
	v.Looked = units.Litres(looked)
	var err error
	if v.left, err = v.stairsOf(job, left); err != nil {
		return nil, err
	}
	if v.right, err = v.stairsOf(job, right); err != nil {
		return nil, err
	}
	v.compare()
	if last := v.Stretches[len(v.Stretches)-1].Cheaper; v.Settled && last != winner {
		return nil, fmt.Errorf("beyond %.0f L the %s side should be cheaper and at it %s is: one of the two is worked out wrongly", looked, winner, last)
	}
	return v, nil
}

func (v *Volume) stairsOf(job *quotes.Job, side Side) (stairs, error) {
	var all []stairs
	for _, q := range side.Quotes {
		if newPricer(job, q, v.Site).err != nil {
			continue // noted already
		}
		s, err := staircase(job, q, v.Site, float64(v.Looked))
		if err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	return cheapest(all), nil
}

// thimble is the narrowest stretch told, in litres.
const thimble = 1e-6

// compare fills in the stretches and what is told of them.
func (v *Volume) compare() {
	ends := []float64{float64(v.Looked)}
	for _, s := range []stairs{v.left, v.right} {
		for _, t := range s {
			if t.upTo < float64(v.Looked) {
				ends = append(ends, t.upTo)
			}
		}
	}
	slices.Sort(ends)
	from := 0.0
	for _, to := range ends {
		if to-from < thimble {
			continue
		}
		// Half way is clear of the noise at the ends.
		w := winnerAt(v.left, v.right, (from+to)/2)
		if n := len(v.Stretches); n > 0 && v.Stretches[n-1].Cheaper == w {
			v.Stretches[n-1].To = units.Litres(to)
		} else {
			v.Stretches = append(v.Stretches, Stretch{units.Litres(from), units.Litres(to), w})
		}
		from = to
	}
	for _, s := range v.Stretches {
		if s.Cheaper == Right && v.First == nil {
			v.First = &s.From
		}
	}
	if last := v.Stretches[len(v.Stretches)-1]; last.Cheaper == Right {
		v.Always = &last.From
	}
}

func winnerAt(left, right stairs, litres float64) Winner {
	l, hasLeft := left.at(litres)
	r, hasRight := right.at(litres)
	switch {
	case !hasLeft && !hasRight:
		return None
	case !hasRight:
		return Left
	case !hasLeft:
		return Right
	}
	switch l.total.Cmp(r.total) {
	case -1:
		return Left
	case 1:
		return Right
	}
	return Equal
}
