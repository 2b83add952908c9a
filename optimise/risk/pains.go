package risk

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/units"
)

// Pains are what a purchase asks of those who carry it out: less of each is plainer.
type Pains struct {
	Suppliers int // to order from
	Things    int // to order: quotes bought
	Loads     int // to receive at the gate
	Mixed     int // layers of beds that hold more than one thing
	Mixes     int // different fillings of a layer to remember
}

// PainsOf counts the pains of a plan with a bill.
func PainsOf(p *optimise.Plan) Pains {
	var out Pains
	var suppliers, things, mixes []string
	for _, l := range p.Bill.Lines {
		suppliers, things = append(suppliers, l.Quote.Supplier), append(things, l.Quote.Name)
	}
	for _, d := range p.Bill.Drops {
		switch {
		case d.Untold(): // it comes nevertheless
			out.Loads++
		default:
			out.Loads += d.Loads
		}
	}
	for _, f := range p.Fills {
		for _, l := range f.Layers {
			if l.Demand <= 0 {
				continue
			}
			if len(l.Parts) > 1 {
				out.Mixed += f.Bed.Count
			}
			var mix []string
			for _, part := range l.Parts { // to the percent, which is closer than a shovel
				mix = append(mix, fmt.Sprintf("%q %.0f", part.Quote.Name, math.Round(100*float64(part.Litres/l.Demand))))
			}
			slices.Sort(mix)
			mixes = append(mixes, strings.Join(mix, ", "))
		}
	}
	out.Suppliers, out.Things, out.Mixes = distinct(suppliers), distinct(things), distinct(mixes)
	return out
}

func distinct(list []string) int {
	list = slices.Clone(list)
	slices.Sort(list)
	return len(slices.Compact(list))
}

// plainness is 0 for what spares pains of another purchase and adds none, 1 where it adds
// some for those that it spares, and 2 where it spares none.
func (p Pains) plainness(other Pains) int {
	less, more := false, false
	for _, d := range []int{p.Suppliers - other.Suppliers, p.Things - other.Things, p.Loads - other.Loads, p.Mixed - other.Mixed, p.Mixes - other.Mixes} {
		less, more = less || d < 0, more || d > 0
	}
	switch {
	case !less:
		return 2
	case more:
		return 1
	}
	return 0
}

// Against says in which pains a purchase differs from another: those that it spares
// first, then those that it adds; "" where they are alike.
func (p Pains) Against(other Pains) string {
	var less, more []string
	for _, one := range []struct {
		one, many  string
		here, then int
	}{
		{"supplier", "suppliers", p.Suppliers, other.Suppliers},
		{"thing to order", "things to order", p.Things, other.Things},
		{"load to receive", "loads to receive", p.Loads, other.Loads},
		{"mixed layer", "mixed layers", p.Mixed, other.Mixed},
		{"kind of filling", "kinds of filling", p.Mixes, other.Mixes},
	} {
		words := fmt.Sprintf("%d %s in place of %d", one.here, one.many, one.then)
		switch {
		case one.here == 0:
			words = fmt.Sprintf("no %s in place of %d", one.many, one.then)
		case one.here == 1 && one.then == 0:
			words = "1 " + one.one + " in place of none"
		case one.here == 1:
			words = fmt.Sprintf("1 %s in place of %d", one.one, one.then)
		case one.then == 0:
			words = fmt.Sprintf("%d %s in place of none", one.here, one.many)
		}
		switch {
		case one.here < one.then:
			less = append(less, words)
		case one.here > one.then:
			more = append(more, words)
		}
	}
	out := units.Listed(less)
	if len(more) > 0 {
		if out != "" {
			out += ", but "
		}
		out += units.Listed(more)
	}
	return out
}

// Words say what is plainer about a purchase than the cheapest, what that costs more and
// which pains it spares, with money as the reader has it. Where the cheapest was taken they
// say what a plainer one would cost, or "" where none was asked for.
func (t *Tidied) Words(money func(units.Money) string) string {
	if t.Way == "" {
		return t.nonePlainer(money)
	}
	least := t.Cheapest.Plan.Bill.Total
	more := t.Plan.Bill.Total.Sub(least)
	words := fmt.Sprintf("Plainer, and no dearer than any other: %s.", t.Way)
	if more.Sign() > 0 {
		words = fmt.Sprintf("Plainer than the cheapest: %s, for %s (%.1f %%) more than the %s that is the least.", t.Way, money(more), 100*more.Float()/least.Float(), money(least))
		if t.Cheapest.Plan.Status == optimise.TimeLimit {
			words = fmt.Sprintf("Plainer than the cheapest found: %s, for %s (%.1f %%) more than its %s.", t.Way, money(more), 100*more.Float()/least.Float(), money(least))
		}
	}
	if pains := PainsOf(t.Plan).Against(PainsOf(t.Cheapest.Plan)); pains != "" {
		words += " It takes " + pains + "."
	}
	return words
}

// nonePlainer say that no plainer way costs as little as was asked, and what the nearest costs; "" where none was asked for.
func (t *Tidied) nonePlainer(money func(units.Money) string) string {
	if t.Within <= 0 || t.Cheapest.Plan.Bill == nil {
		return ""
	}
	words := fmt.Sprintf("No plainer way to buy was found that costs at most %.3g %% more", 100*t.Within)
	if t.Beyond != nil {
		words += fmt.Sprintf("; the nearest, %s, costs %s more", t.BeyondWay, money(t.Beyond.Plan.Bill.Total.Sub(t.Cheapest.Plan.Bill.Total)))
	}
	return words + "."
}
