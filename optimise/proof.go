package optimise

import (
	"reflect"
	"slices"

	"mediabuy/optimise/internal/search"
	"mediabuy/quotes"
)

// Proof is how a search came to its answer. Held against a job that differs in
// prices, taxes or delivery, most of it holds still, and only the rest is searched:
// see [search.Proof]. For a job with other beds or other goods it is not used.
type Proof struct {
	job    *quotes.Job
	search *search.Proof
}

// newProof is nil where the search kept none.
func newProof(job *quotes.Job, p *search.Proof) *Proof {
	if p == nil {
		return nil
	}
	return &Proof{job, p}
}

// to is the search's proof if it can be held against another job, else nil: the rows
// it took from how stones can be placed must hold there too.
func (p *Proof) to(job *quotes.Job) *search.Proof {
	if p == nil || !sameGoods(p.job, job) {
		return nil
	}
	return p.search
}

// sameGoods reports whether the beds of two jobs are the same, and their quotes but
// for prices and taxes.
func sameGoods(a, b *quotes.Job) bool {
	return slices.EqualFunc(a.Beds, b.Beds, func(x, y *quotes.Bed) bool { return x == y || reflect.DeepEqual(x, y) }) &&
		slices.EqualFunc(a.Quotes, b.Quotes, func(x, y *quotes.Quote) bool {
			return x == y || reflect.DeepEqual(unpriced(x), unpriced(y))
		})
}

// unpriced is a quote without what it costs.
func unpriced(q *quotes.Quote) quotes.Quote {
	c := *q
	var free quotes.Quote
	c.Price, c.Breaks, c.Tax = free.Price, nil, free.Tax
	return c
}
