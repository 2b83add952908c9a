package main

import (
	"cmp"
	"context"
	"path/filepath"
	"slices"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/talk"
	"mediabuy/papers"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
)

// again works out a sheet for the next talk with each supplier.
func (o *requestOptions) again(ctx context.Context, a *app, in *loaded) ([]*talk.Talk, error) {
	names := quotes.Suppliers(in.job)
	if len(o.suppliers) > 0 {
		names = nil
		for _, s := range o.suppliers {
			found, err := breakeven.FindSupplier(in.job, s)
			if err != nil {
				return nil, breakevenError(err)
			}
			names = append(names, found)
		}
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	plan, err := a.today(ctx, in, o.paper.answer, optimise.Options{TimeLimit: o.limit.timeLimit, Progress: spin.Note})
	if err != nil {
		return nil, err
	}
	return talk.Of(ctx, in.job, plan, names, talk.Options{
		Solve: optimise.Options{TimeLimit: o.limit.timeLimit}, Breakeven: breakeven.Options{TimeLimit: o.limit.timeLimit},
	})
}

func (o *requestOptions) runAgain(ctx context.Context, a *app, in *loaded, dir string, st papers.Style) error {
	talks, err := o.again(ctx, a, in)
	if err != nil {
		return err
	}
	list, err := in.filed(sheaf.Talks(talks, st))
	if err != nil {
		return err
	}
	paths, err := o.paper.write(ctx, in, paperSet{cmp.Or(o.out, filepath.Join(dir, "talks")), "name another folder with -o", list})
	if err != nil {
		return err
	}
	if o.paper.answer.json {
		err = a.printJSON(document.NewTalks(talks, paths))
	} else {
		err = a.print(show.Talks(talks, paths))
	}
	if err == nil && slices.ContainsFunc(talks, func(t *talk.Talk) bool { return len(t.Open) > 0 }) {
		return errUnsettled
	}
	return err
}
