package risk

import (
	"cmp"
	"math"
	"slices"
)

// topUps is how many finishing purchases are worked out for one purchase.
const topUps = 24

// toppedUp is what finishing costs over all draws: the mean, 0 for a draw that is not short, and what nineteen draws of twenty keep within.
type toppedUp struct{ mean, p95 float64 }

// overDraws works that out from a few draws. Finishing costs no less where no item brings more: what a draw costs lies between the dearest
// of those known that bring as much of everything or more, and the cheapest of those that bring as much or less. Asked about are draws that
// this leaves open, spread evenly over what is short; the others are taken to cost what the nearest of these does, within those bounds.
// Of one item the middle of what is open the most is asked about, and the others taken to lie in the middle of their bounds. It is exact for
// one item where few packs finish any case, and near for more. brings is what a draw brings of each item.
func overDraws(shorts []float64, most int, brings func(draw int) []float64, cost func(draw int) (float64, error)) (toppedUp, error) {
	type bound struct {
		draw      int
		low, high float64
		item      []float64
	}
	var short []*bound
	for d, s := range shorts {
		if s > 0 {
			short = append(short, &bound{draw: d, high: math.Inf(1), item: brings(d)})
		}
	}
	if len(short) == 0 {
		return toppedUp{}, nil
	}
	slices.SortFunc(short, func(a, b *bound) int {
		return cmp.Or(cmp.Compare(shorts[a.draw], shorts[b.draw]), cmp.Compare(a.draw, b.draw))
	})
	ask := func(b *bound) error {
		c, err := cost(b.draw)
		if err != nil {
			return err
		}
		for _, o := range short {
			if noMore(b.item, o.item) { // b brings no more of anything than o
				o.high = min(o.high, c)
			}
			if noMore(o.item, b.item) {
				o.low = max(o.low, c)
			}
		}
		b.low, b.high = c, c
		return nil
	}
	var known []*bound
	for n := range most {
		open := slices.DeleteFunc(slices.Clone(short), func(b *bound) bool { return b.low >= b.high })
		if len(open) == 0 {
			break
		}
		at := 0
		switch {
		case n == 0:
		case n == 1:
			at = len(open) - 1
		case len(open[0].item) == 1: // the middle of what is open the most
			most := 0.0
			for i, j := 0, 0; i < len(open); i = j {
				for j = i; j < len(open) && open[j].low == open[i].low && open[j].high == open[i].high; j++ {
				}
				if w := (open[i].high - open[i].low) * float64(j-i); w > most {
					at, most = (i+j-1)/2, w
				}
			}
		default:
			at = int(halves(n-1) * float64(len(open)))
		}
		if err := ask(open[at]); err != nil {
			return toppedUp{}, err
		}
		known = append(known, open[at])
	}
	costs, sum := make([]float64, len(shorts)-len(short), len(shorts)), 0.0
	for _, b := range short {
		c := b.low
		switch {
		case b.low >= b.high:
		case len(b.item) == 1:
			c = (b.low + b.high) / 2
		default:
			near := slices.MinFunc(known, func(o, p *bound) int { return cmp.Compare(apart(o.item, b.item), apart(p.item, b.item)) })
			c = min(max(near.low, b.low), b.high)
		}
		costs, sum = append(costs, c), sum+c
	}
	slices.Sort(costs)
	return toppedUp{sum / float64(len(shorts)), costs[max(0, len(costs)*95/100-1)]}, nil
}

// halves is the van der Corput sequence: 1/2, 1/4, 3/4, 1/8, 5/8, ...
func halves(n int) (x float64) {
	for part := 0.5; n > 0; n, part = n/2, part/2 {
		x += part * float64(n%2)
	}
	return x
}

// apart is how far two draws are from one another.
func apart(a, b []float64) (sum float64) {
	for i := range a {
		sum += (a[i] - b[i]) * (a[i] - b[i])
	}
	return sum
}

// noMore says whether a brings no more of any item than b.
func noMore(a, b []float64) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}
