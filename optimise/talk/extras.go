package talk

import (
	"fmt"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/breakeven"
	"mediabuy/quotes"
	"mediabuy/units"
)

// extras looks what free delivery, and half the step of what is sold loose by whole
// packs, would bring.
func (t *talker) extras(out *Talk) error {
	if len(out.Lines) == 0 {
		return nil
	}
	add := func(e Extra, job *quotes.Job, of []Line) error {
		ok, err := t.extra(&e, job, out.Supplier, of)
		if err != nil {
			return err
		}
		if !ok {
			out.Open = append(out.Open, e.Kind.String())
			return nil
		}
		out.Extras = append(out.Extras, e)
		return nil
	}
	if charges(t.job, out.Supplier) {
		if err := add(Extra{Kind: FreeDelivery}, Free(t.job, out.Supplier), out.Lines); err != nil {
			return err
		}
	}
	one := units.DecimalFromInt(1)
	for i, l := range out.Lines {
		if l.Quote.Form != quotes.Bulk || l.Quote.Step.Cmp(one) < 0 {
			continue
		}
		half := l.Quote.Step.Quo(units.DecimalFromInt(2))
		if err := add(Extra{Kind: HalfStep, Quote: l.Quote, Step: half}, Stepped(t.job, l.Quote, half), out.Lines[i:i+1]); err != nil {
			return err
		}
	}
	return nil
}

// String names the kind in words.
func (k Kind) String() string {
	if k == FreeDelivery {
		return "free delivery"
	}
	return "half the step"
}

// extra plans the job with the term; ok is false where time was up.
func (t *talker) extra(e *Extra, job *quotes.Job, supplier string, of []Line) (ok bool, err error) {
	plan, err := t.solve(job)
	if err != nil || plan == nil {
		return false, err
	}
	if e.Worth = t.plan.Bill.Total.Sub(plan.Bill.Total); e.Worth.Sign() < 0 {
		e.Worth = units.Money{} // rounding of lines
	}
	e.Taken = taken(plan, supplier)
	today := taken(t.plan, supplier)
	if e.More = placed(e.Buy, supplier).Cmp(placed(today.Buy, supplier)) > 0; e.More {
		return true, nil
	}
	if e.Kind == FreeDelivery {
		// Free for any order it may bring smaller ones; what is told is what it is worth
		// on the order of today.
		e.Taken = today
		if e.Worth, err = t.spared(job); err != nil {
			return false, err
		}
	}
	var targets []breakeven.Target
	var lines []Line
	for _, l := range of {
		if l.Now.Sign() == 0 && l.Quote.Price.Sign() > 0 {
			q, err := breakeven.FindQuote(job, l.Quote.Name) // the job's own, which may be sold in another step
			if err != nil {
				return false, err
			}
			targets, lines = append(targets, breakeven.OfQuote(job, q)), append(lines, l)
		}
	}
	near := t.opt.Breakeven
	near.Depth = breakeven.Nearest
	series, err := breakeven.ByPrice(t.ctx, job, plan, targets, near)
	if err != nil {
		return false, err
	}
	for i, s := range series {
		if s.Unproven != "" {
			return false, nil
		}
		steps, err := t.steps(job, s)
		if err != nil {
			return false, err
		}
		// Only where the term makes the price that is enough a higher one.
		before := lines[i].Steps
		if len(steps) > 0 && (len(before) == 0 || steps[0].Price.Cmp(before[0].Price) > 0) {
			e.At = append(e.At, Line{Quote: lines[i].Quote, Steps: steps[:1]})
		}
	}
	return true, nil
}

// spared is what the purchase of today costs less where the delivery rows are those
// of job.
func (t *talker) spared(job *quotes.Job) (units.Money, error) {
	same := t.plan.Purchase
	same.Carry = map[bill.Carry]*quotes.Delivery{}
	for k, row := range t.plan.Purchase.Carry {
		if i := slices.Index(t.job.Delivery, row); i >= 0 {
			row = job.Delivery[i]
		}
		same.Carry[k] = row
	}
	b, err := bill.Price(job, same)
	if err != nil {
		return units.Money{}, fmt.Errorf("pricing today's purchase without fees: %w", err)
	}
	return t.plan.Bill.Total.Sub(b.Total), nil
}

// Words name an extra, with the step that is meant.
func (e Extra) Words() string {
	if e.Kind == HalfStep {
		return fmt.Sprintf("a step of %s packs", e.Step)
	}
	return e.Kind.String()
}
