package risk

import (
	"cmp"
	"slices"
)

// topUps is how many finishing purchases are worked out for one expectation.
const topUps = 24

// halfCent is how well the mean has to be known.
const halfCent = 0.005

// expected is the mean over all draws of what finishing costs, 0 for a draw that
// is not short. What finishing costs rises with what is short in steps of whole
// packs and loads, so draws between two that cost the same cost the same; where
// two neighbours asked about differ, the widest such gap is asked about in its
// middle until most answers are used up, or the mean is known to half a cent, and what
// lies between two is taken to rise evenly. It is exact for one quote, and near for more.
func expected(shorts []float64, most int, cost func(draw int) (float64, error)) (float64, error) {
	var short []int
	for d, s := range shorts {
		if s > 0 {
			short = append(short, d)
		}
	}
	if len(short) == 0 {
		return 0, nil
	}
	slices.SortFunc(short, func(a, b int) int { return cmp.Or(cmp.Compare(shorts[a], shorts[b]), cmp.Compare(a, b)) })
	type known struct {
		rank int
		cost float64
	}
	at := func(rank int) (known, error) {
		c, err := cost(short[rank])
		return known{rank, c}, err
	}
	first, err := at(0)
	if err != nil {
		return 0, err
	}
	asked := []known{first}
	if len(short) > 1 {
		last, err := at(len(short) - 1)
		if err != nil {
			return 0, err
		}
		asked = append(asked, last)
	}
	for len(asked) < most {
		widest, weight, open := -1, 0.0, 0.0
		for i := 1; i < len(asked); i++ {
			a, b := asked[i-1], asked[i]
			w := abs(b.cost-a.cost) * float64(b.rank-a.rank-1)
			if open += w / 2; w > weight {
				widest, weight = i, w
			}
		}
		if widest < 0 || open < halfCent*float64(len(shorts)) {
			break
		}
		mid, err := at((asked[widest-1].rank + asked[widest].rank) / 2)
		if err != nil {
			return 0, err
		}
		asked = slices.Insert(asked, widest, mid)
	}
	sum := asked[0].cost
	for i := 1; i < len(asked); i++ {
		a, b := asked[i-1], asked[i]
		between := float64(b.rank - a.rank - 1)
		sum += b.cost + between*(a.cost+b.cost)/2
	}
	return sum / float64(len(shorts)), nil
}
