// Package overtake is what can be asked of where one way of buying overtakes another, and
// has it answered: which prices and volumes a few names mean in a job, all parts of the
// answer side by side, and the charts of it.
package overtake

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"golang.org/x/sync/errgroup"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/optimise/suitability"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Question is what is asked about. The zero value asks about all quotes, all bulk
// together, bags against bulk and what would change the answer.
type Question struct {
	Quotes    []string     // the price of each quote named
	Suppliers []string     // all prices of each supplier together
	Fees      []string     // the delivery fees of each supplier
	Bulk      bool         // the prices of all that does not come in bags
	Volume    string       // two quotes by volume, "A,B"; bags and bulk are the best of each
	UpTo      units.Litres // the largest volume; 0 is three times the job's own
	Site      string       // where volumes are delivered to; "" is the first by name
	WhatIf    bool         // what would change the answer
	Size      bool         // the job made smaller and larger
	OneMore   string       // one more bed like this

	Depth     breakeven.Depth
	TimeLimit time.Duration // 0 is none
}

// Chosen reports whether something in particular is asked for.
func (q *Question) Chosen() bool {
	return len(q.Quotes)+len(q.Suppliers)+len(q.Fees) > 0 || q.Bulk || q.Volume != "" || q.WhatIf || q.Size || q.OneMore != ""
}

// Targets are the numbers asked about; notes say in sentences what cannot be.
func (q *Question) Targets(job *quotes.Job) (out []breakeven.Target, notes []string, err error) {
	for _, name := range q.Quotes {
		found, err := breakeven.FindQuote(job, name)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, breakeven.OfQuote(job, found))
	}
	if !q.Chosen() {
		out = breakeven.Quotes(job)
	}
	for _, name := range q.Suppliers {
		s, err := breakeven.FindSupplier(job, name)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, breakeven.OfSupplier(s))
	}
	for _, name := range q.Fees {
		s, err := breakeven.FindSupplier(job, name)
		if err != nil {
			return nil, nil, err
		}
		fees := breakeven.FeesOf(job, s)
		if len(fees) == 0 {
			notes = append(notes, s+" charges no order fee and no fee for a load")
		}
		out = append(out, fees...)
	}
	if q.Bulk || !q.Chosen() {
		t, err := breakeven.Bulk(job)
		switch {
		case err == nil:
			out = append(out, t)
		case q.Chosen(): // else the volumes say so
			notes = append(notes, err.Error())
		}
	}
	return out, notes, nil
}

// Answer fills in what is asked, its parts side by side. progress gives each part what it
// tells its progress to; it may give nil.
func (q *Question) Answer(ctx context.Context, job *quotes.Job, plan *optimise.Plan, targets []breakeven.Target, ans *breakeven.Answer, progress func() func(done, total int)) error {
	opt := func() breakeven.Options {
		return breakeven.Options{Depth: q.Depth, TimeLimit: q.TimeLimit, Progress: progress()}
	}
	parts := []func(context.Context) error{func(ctx context.Context) (err error) {
		ans.ByPrice, err = breakeven.ByPrice(ctx, job, plan, targets, opt())
		return err
	}}
	if q.Volume != "" || !q.Chosen() {
		parts = append(parts, func(context.Context) error { return q.volumes(job, plan.Fit, ans) })
	}
	if q.WhatIf || !q.Chosen() {
		parts = append(parts, func(ctx context.Context) (err error) {
			near := opt()
			near.Depth = breakeven.Nearest
			added, err := breakeven.ByPrice(ctx, job, plan, breakeven.OtherSuppliers(job, plan), near)
			if err != nil {
				return err
			}
			ans.WhatIf, err = breakeven.LookElsewhere(ctx, job, plan, added, opt())
			return err
		})
	}
	if q.Size {
		parts = append(parts, func(ctx context.Context) (err error) {
			ans.Sizes, err = breakeven.BySize(ctx, job, plan, opt())
			return err
		})
	}
	if q.OneMore != "" {
		parts = append(parts, func(ctx context.Context) (err error) {
			ans.OneMore, err = breakeven.OneMore(ctx, job, plan, q.OneMore, opt())
			return err
		})
	}
	return together(ctx, parts)
}

// together does the parts side by side, so that no processor idles while the last
// solve of one ends. The first error stops the others.
func together(ctx context.Context, parts []func(context.Context) error) error {
	g, ctx := errgroup.WithContext(ctx)
	for _, part := range parts {
		g.Go(func() error { return part(ctx) })
	}
	return g.Wait()
}

// volumes sets the two sides asked for against each other, or the bags of each
// medium against its bulk.
func (q *Question) volumes(job *quotes.Job, fit *suitability.Fit, ans *breakeven.Answer) error {
	site := ""
	if sites := quotes.Sites(job); len(sites) > 0 {
		site = sites[0]
	}
	if q.Site != "" {
		var err error
		if site, err = breakeven.FindSite(job, q.Site); err != nil {
			return err
		}
	}
	most := cmp.Or(q.UpTo, 3*job.Demand())
	if q.Volume == "" {
		both := byvolume.SoldBothWays(job, fit)
		if len(both) == 0 {
			ans.Notes = append(ans.Notes, "no medium that some bed takes is sold both in bags and in bulk, so bags are not set against bulk")
		}
		for _, b := range both {
			v, err := byvolume.OfMedium(job, b, site, most)
			var notBrought *byvolume.NotBroughtError
			if errors.As(err, &notBrought) {
				ans.Notes = append(ans.Notes, fmt.Sprintf("bags of %s are not set against its bulk: of one of them %v", b.Medium.Name, err))
				continue
			}
			if err != nil {
				return err
			}
			ans.ByVolume = append(ans.ByVolume, v)
		}
		return nil
	}
	names := strings.SplitN(q.Volume, ",", 2)
	sides := make([]byvolume.Side, 2)
	for i, name := range names {
		switch name = strings.TrimSpace(name); name {
		case "bags", "bulk":
			left, right, err := byvolume.BagsAndBulk(job, fit)
			if err != nil {
				ans.Notes = append(ans.Notes, err.Error())
				return nil
			}
			sides[i] = left
			if name == "bulk" {
				sides[i] = right
			}
		default:
			found, err := breakeven.FindQuote(job, name)
			if err != nil {
				return err
			}
			sides[i] = byvolume.One(found)
		}
	}
	v, err := byvolume.Between(job, sides[0], sides[1], site, most)
	if err != nil {
		return err
	}
	ans.ByVolume = append(ans.ByVolume, v)
	return nil
}

// Panels are the charts of what was asked for. Of the whole answer that is bulk by price
// and bags against bulk by volume.
func (q *Question) Panels(job *quotes.Job, ans *breakeven.Answer, sys units.System) []chart.Panel {
	var panels []chart.Panel
	for _, s := range ans.ByPrice {
		if s.Refused || !q.Chosen() && s.Target.Kind != breakeven.BulkPrices {
			continue
		}
		panels = append(panels, chart.Price(job, s))
	}
	for _, v := range ans.ByVolume {
		panels = append(panels, chart.Volume(job, v, sys))
	}
	return panels
}
