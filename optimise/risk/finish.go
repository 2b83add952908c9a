package risk

import (
	"context"
	"fmt"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
)

// Finish finds the cheapest way to finish the beds, as [optimise.FinishWith] does, and
// where the job asks for a sureness the cheapest found that fills every bed as surely with
// what is there and what is bought. A job that was planned already, whose quotes are
// counted on for less, and the job as it was read are finished alike.
//
// What is there keeps the draws under which it was bought, so that a purchase of which all
// came is as sure as it was when it was planned; what is bought anew is another order with
// draws of its own.
func Finish(ctx context.Context, job *quotes.Job, stock []optimise.Stock, day quotes.Date, opt optimise.Options) (*optimise.Finish, error) {
	target := job.Settings.Sure
	if target <= 0 {
		return optimise.FinishWith(ctx, job, stock, day, opt)
	}
	g := optimise.FinishingOf(bare(job), stock, day)
	r, err := reach(ctx, g.Job, target, opt, func(a *Assessor) {
		for i, c := range stock {
			a.known[drawn{g.There[i].Name, c.Site}] = factors(c.Quote, c.Site)
			a.there = append(a.there, bill.Item{Quote: g.There[i], Site: c.Site, Steps: 1})
		}
		for _, q := range job.Quotes {
			for _, site := range quotes.Sites(job) {
				again := *q
				again.Name += " again"
				a.known[drawn{q.Name, site}] = factors(&again, site)
			}
		}
	})
	if err != nil {
		return nil, fmt.Errorf("finding the cheapest way to finish: %w", err)
	}
	conclude(r, nil, g.Job, target)
	f, err := g.Finish(r.Plan)
	if err == nil && r.Plan.Bill != nil {
		f.Sure = r.Sure
	}
	return f, err
}

// bare is a job with each quote counted on for what it usually places.
func bare(job *quotes.Job) *quotes.Job {
	out := *job
	out.Quotes = make([]*quotes.Quote, len(job.Quotes))
	for i, q := range job.Quotes {
		c := *q
		c.CountOn = 0
		out.Quotes[i] = &c
	}
	return &out
}
