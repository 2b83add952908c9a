package received

import (
	"fmt"
	"slices"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

// OrdersFolder is the folder of a job in which its orders lie.
const OrdersFolder = "orders"

// Lying reads the orders that lie in a folder beside those that were named. They count like
// any, as what was ordered comes whether it is named or not, and a warning tells of each.
// With none named they stand for the order and need no warning.
//
// A file that is no order is passed over. An order that was named already, and one that
// cannot be read, are left out with a warning.
func Lying(list []files.Source, named []Ordered, job *quotes.Job) ([]Ordered, []*quotes.Problem, error) {
	var out []Ordered
	var warned []*quotes.Problem
	warn := func(file, found, hint string) {
		warned = append(warned, &quotes.Problem{Pos: quotes.Pos{File: file}, Severity: quotes.Warning, Found: found, Hint: hint})
	}
	for _, src := range list {
		lines, rep, err := ReadOrder(src.R, src.Name, job)
		if err != nil {
			return nil, nil, err
		}
		if !rep.OK() {
			if isOrder(rep) {
				warn(src.Name, "the order that lies there cannot be read, so it is not counted: "+rep.Problems[0].Message(), "name it with the orders to see all of what is wrong")
			}
			continue
		}
		if len(lines) == 0 {
			continue
		}
		number := lines[0].Order
		same := func(o Ordered) bool { return o.Order == number }
		if slices.ContainsFunc(named, same) {
			if !slices.EqualFunc(lines, having(named, number), alike) {
				warn(src.Name, fmt.Sprintf("another order of the number %s lies there and is not counted", number), "an order that holds no longer is best taken out of the folder")
			}
			continue
		}
		if slices.ContainsFunc(out, same) {
			warn(src.Name, fmt.Sprintf("another order of the number %s lies there too and is not counted", number), "keep the one that was sent")
			continue
		}
		if len(named) > 0 {
			warn(src.Name, fmt.Sprintf("order %s to %s lies there and was not named; it is counted as well", number, lines[0].Quote.Supplier), "take it out of the folder if it was never sent")
		}
		out = append(out, lines...)
	}
	slices.SortStableFunc(out, func(a, b Ordered) int { return a.Day.Compare(b.Day.Time) })
	return out, warned, nil
}

// isOrder tells an order that has problems from a file of another kind.
func isOrder(rep *quotes.Report) bool {
	return !slices.ContainsFunc(rep.Problems, func(p *quotes.Problem) bool { return p.Line <= 1 || p.Found == headMissing })
}

func having(list []Ordered, number string) []Ordered {
	var out []Ordered
	for _, o := range list {
		if o.Order == number {
			out = append(out, o)
		}
	}
	return out
}

// alike tells whether two lines order the same for the same money.
func alike(a, b Ordered) bool {
	return a.Quote == b.Quote && a.Site == b.Site && a.Packs.Equal(b.Packs) && a.Amount.Equal(b.Amount)
}
