package papers

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Note is a short letter to a supplier about a difference.
type Note struct {
	Supplier string
	Text     string
}

// Notes writes to each supplier whose delivery differs from its order; none to
// those that brought what was asked.
func Notes(job *quotes.Job, counted []received.Counted, st Style) []Note {
	s := newScribe(job, st)
	var out []Note
	for i := 0; i < len(counted); {
		j := i
		for j < len(counted) && counted[j].Quote.Supplier == counted[i].Quote.Supplier {
			j++
		}
		if text := s.note(job, counted[i:j]); text != "" {
			out = append(out, Note{counted[i].Quote.Supplier, text})
		}
		i = j
	}
	return out
}

// note is the letter about one supplier's goods; "" if there is no difference.
func (s scribe) note(job *quotes.Job, list []received.Counted) string {
	var b strings.Builder
	var worth units.Money
	missing := false
	var orders []string
	for _, c := range list {
		for _, o := range c.DueOrders() {
			orders = appendNew(orders, o)
		}
	}
	about := ""
	slices.Sort(orders)
	if len(orders) > 0 {
		about = ", about order " + units.Listed(orders)
	}
	for _, c := range list {
		if c.Short().IsZero() && c.Over().IsZero() && c.Rejected.IsZero() {
			continue
		}
		fmt.Fprintf(&b, "- %s%s: ", c.Quote.ItemWords(), AtSite("at", c.Site))
		if c.Ordered.IsZero() {
			fmt.Fprintf(&b, "%s came and none was ordered.", c.Quote.PacksWords(c.Arrived))
		} else {
			fmt.Fprintf(&b, "%s ordered, %s came.", c.Quote.PacksWords(c.Due()), c.Arrived)
		}
		if !c.Rejected.IsZero() {
			fmt.Fprintf(&b, " Refused: %s%s.", c.Rejected, because(c.Why))
		}
		if short := c.Short(); !short.IsZero() {
			fmt.Fprintf(&b, " Short by %s, about %s.", short, s.volume(c.Quote.PackLitres*units.Litres(short.Float())))
			worth = worth.Add(c.Worth)
			missing = true
		}
		if over := c.Over(); !over.IsZero() && !c.Ordered.IsZero() {
			fmt.Fprintf(&b, " Over by %s.", over)
		}
		if !c.Over().IsZero() {
			b.WriteString(" Please say whether you want back what was not ordered, or leave it at no charge.")
		}
		b.WriteByte('\n')
	}
	before := received.BeforeTax(job, list)
	bills := s.billed(list, before)
	if b.Len() == 0 && bills == "" {
		return ""
	}
	if b.Len() == 0 {
		return fmt.Sprintf("To %s%s\n\n%s", list[0].Quote.Supplier, about, bills)
	}
	head := fmt.Sprintf("To %s%s\n\nWhat came differs from what was ordered:\n", list[0].Quote.Supplier, about)
	foot := ""
	if missing {
		foot = fmt.Sprintf("\nAt the order's prices what is missing comes to %s%s. Please say by return whether you\nbring it at no further charge or take it off the bill.\n", s.money(worth), before)
	}
	if bills != "" {
		bills = "\n" + bills
	}
	return head + b.String() + foot + bills
}

// billed says where the bill asks for another price than the order, of what was kept, as how much is billed is not told;
// "" where it does not. Before is " before tax" or nothing.
func (s scribe) billed(list []received.Counted, before string) string {
	var b strings.Builder
	var more units.Money
	for _, c := range list {
		for _, bill := range c.Bills {
			if bill.More.IsZero() {
				continue
			}
			more = more.Add(bill.More)
			fmt.Fprintf(&b, "- %s%s: %s each on the bill, %s each in the order, for the %s that we kept.\n", c.Quote.ItemWords(), AtSite("at", c.Site), s.price(bill.Price), s.price(bill.Agreed), c.Quote.PacksWords(bill.Packs))
		}
	}
	switch {
	case b.Len() == 0:
		return ""
	case more.Sign() > 0:
		fmt.Fprintf(&b, "\nFor what we kept it asks for %s more than was agreed%s. Please send it anew at the order's prices and for\nno more than we kept, or tell us what the difference is for.\n", s.money(more), before)
	case more.Sign() < 0:
		fmt.Fprintf(&b, "\nFor what we kept it asks for %s less than was agreed%s. Please tell us whether that is meant.\n", s.money(more.Neg()), before)
	default:
		b.WriteString("\nIn all it comes to the same. Please tell us whether that is meant.\n")
	}
	return "What is billed differs from what was agreed:\n" + b.String()
}

func because(notes []string) string {
	if len(notes) == 0 {
		return ""
	}
	return " (" + strings.Join(notes, "; ") + ")"
}

func appendNew(list []string, s string) []string {
	for _, have := range list {
		if have == s {
			return list
		}
	}
	return append(list, s)
}
