package papers

import "mediabuy/quotes"

// lastDay is the last day on which an order is of use, and why.
type lastDay struct {
	day    quotes.Date // zero: none is known
	needed bool        // the goods are needed then; else the first price ends then
}

// orderBy is the earlier of the day a price ends and the day the goods are needed. How
// long a supplier takes to bring them is not known, so no day is named for that.
func (r *report) orderBy(priceEnds quotes.Date) lastDay {
	need := r.Plan.Job.Settings.NeedBy
	day := earlier(need, priceEnds)
	return lastDay{day, !need.IsZero() && day == need}
}

// words are those of a cell.
func (d lastDay) words() string {
	switch {
	case d.day.IsZero():
		return "ask"
	case d.needed:
		return "well before " + d.day.String()
	}
	return d.day.String() + ", price ends"
}

// inTime is what a reader who signs must be in time for; "" where no day is known.
func (d lastDay) inTime() string {
	switch {
	case d.day.IsZero():
		return ""
	case d.needed:
		return ", in time for the goods to come: they are needed by " + d.day.String()
	}
	return ", in time for the orders: the first price ends on " + d.day.String()
}
