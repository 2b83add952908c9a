package papers

import (
	"fmt"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers/received"
	"mediabuy/quotes"
)

// NumberOn gives orders of one day numbers that no other order has, of those that lie
// there already. An order that lies there and says the very same keeps its number, unless it is
// one of those counted: what is bought besides them is another order, whatever it says.
func NumberOn(list []*Order, lying received.Numbers, counted func(number string) bool) error {
	used := map[string]bool{}
	number := func(o *Order, fits func(there, same bool) bool) (bool, error) {
		had := o.Number
		for i := 1; i <= len(lying)+len(list); i++ {
			o.Number = fmt.Sprintf("%s/%d", o.Day, i)
			if used[o.Number] {
				continue
			}
			var b strings.Builder
			if err := o.CSV(&b); err != nil {
				return false, err
			}
			if fits(lying.Has(o.Number, b.String())) {
				used[o.Number] = true
				return true, nil
			}
		}
		o.Number = had
		return false, nil
	}
	var fresh []*Order
	for _, o := range list {
		kept, err := number(o, func(_, same bool) bool { return same && (counted == nil || !counted(o.Number)) })
		if err != nil {
			return err
		}
		if !kept {
			fresh = append(fresh, o)
		}
	}
	for _, o := range fresh {
		if _, err := number(o, func(there, _ bool) bool { return !there }); err != nil {
			return err
		}
	}
	return nil
}

// FinishOrders are the orders of what is bought anew to finish a job; none where nothing
// is. A day by which the job needed it and that is over is not asked for.
func FinishOrders(f *optimise.Finish, st Style) ([]*Order, error) {
	if f.Plan.Bill == nil || len(f.Buy) == 0 {
		return nil, nil
	}
	plan, bill, job := *f.Plan, *f.Plan.Bill, *f.Plan.Job
	bill.Lines, bill.Drops = f.Buy, f.Drops
	if job.Settings.NeedBy.Before(job.Settings.Date.Time) {
		job.Settings.NeedBy = quotes.Date{}
	}
	plan.Bill, plan.Job = &bill, &job
	return Orders(&plan, st)
}
