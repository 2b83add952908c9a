package show

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/papers/chart"
	"mediabuy/units"

	"github.com/jedib0t/go-pretty/v6/text"
)

// BreakevenView sets out an answer for people.
type BreakevenView struct {
	Ans   *breakeven.Answer
	Plan  *optimise.Plan
	Drawn bool // with a plot of each part
	Every bool // every change was asked for
	Style Style
	b     strings.Builder
}

// plotRows is the height of a plot in the terminal.
const plotRows = 12

func (v *BreakevenView) Text() string {
	v.line("Today the cheapest buy costs %s: %s.", v.money(v.Ans.Total), breakeven.BuyWords(breakeven.BoughtOf(v.Plan.Purchase)))
	v.prices()
	for _, vol := range v.Ans.ByVolume {
		v.volume(vol)
	}
	v.whatIf()
	v.sizes()
	v.oneMore()
	if len(v.Ans.Notes) > 0 {
		v.heading("notes")
		for _, n := range v.Ans.Notes {
			v.item("%s", n)
		}
	}
	return v.b.String()
}

func (v *BreakevenView) heading(words string) {
	v.b.WriteString("\n" + v.Style.Strong(strings.ToUpper(words)) + "\n")
}

func (v *BreakevenView) line(format string, args ...any) {
	v.para("", "", fmt.Sprintf(format, args...))
}

func (v *BreakevenView) item(format string, args ...any) {
	v.para("  - ", "    ", fmt.Sprintf(format, args...))
}

// para writes words folded to the width.
func (v *BreakevenView) para(lead, hang, words string) {
	if v.Style.Width > 0 {
		words = text.WrapSoft(words, max(20, v.Style.Width-len(hang)))
	}
	for i, l := range strings.Split(words, "\n") {
		if i == 0 {
			l = lead + l
		} else {
			l = hang + l
		}
		v.b.WriteString(strings.TrimRight(l, " ") + "\n")
	}
}

// grid writes a table; the columns named in right hold numbers.
func (v *BreakevenView) grid(heads []string, rows [][]string) {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	rule := make([]string, len(heads))
	for i, h := range heads {
		rule[i] = strings.Repeat("-", len([]rune(h)))
		for _, r := range rows {
			rule[i] = strings.Repeat("-", max(len(rule[i]), len([]rune(r[i]))))
		}
	}
	for _, r := range append([][]string{heads, rule}, rows...) {
		// A strings.Builder cannot fail to be written to.
		_, _ = fmt.Fprintln(w, "  "+strings.Join(r, "\t"))
	}
	_ = w.Flush()
	for l := range strings.SplitSeq(strings.TrimSuffix(b.String(), "\n"), "\n") {
		v.b.WriteString(strings.TrimRight(l, " ") + "\n")
	}
}

func (v *BreakevenView) money(m units.Money) string {
	return units.FormatMoney(m, v.Ans.Job.Settings.Currency)
}

// value is an x of a target in words: money, or percent of today's prices.
func (v *BreakevenView) value(t breakeven.Target, x units.Decimal) string {
	if t.Factor() {
		return x.Mul(units.DecimalFromInt(100)).Round(2).String() + " %"
	}
	return v.money(units.MoneyOf(x))
}

// prices is the table of thresholds, and for each target all changes.
func (v *BreakevenView) prices() {
	var refused []string
	var shown []breakeven.Series
	for _, s := range v.Ans.ByPrice {
		if s.Refused {
			refused = append(refused, s.Target.Name)
		} else {
			shown = append(shown, s)
		}
	}
	if len(v.Ans.ByPrice) == 0 {
		return
	}
	v.heading("by price")
	if len(shown) > 0 {
		var rows [][]string
		for _, s := range shown {
			rows = append(rows, v.priceRow(s))
		}
		v.grid([]string{"Price of", "Today", "In the plan", "Enters at", "Off", "Stays up to"}, rows)
		v.para("  ", "  ", "Enters at: the most it may cost to be bought at all. Stays up to: the most it may cost before it first drops out; where free delivery hangs on it, a quote can come back above that; over: it stays up to the highest that was looked at. A quote's price is that of one pack before breaks.")
	}
	if len(refused) > 0 {
		v.item("%s: never, no bed takes it at any price (mediabuy check says why)", strings.Join(refused, ", "))
	}
	for _, s := range shown {
		v.changes(s)
		if back := s.ComesBack(); back != nil {
			v.para("    ", "        ", fmt.Sprintf("bought again from %s on: a dearer order comes free there, or reaches its smallest", v.from(s.Target, *back)))
		}
	}
	v.partial(shown)
}

// partial says, once for each reason, of what not every change is shown.
func (v *BreakevenView) partial(list []breakeven.Series) {
	var reasons []string
	names := map[string][]string{}
	for _, s := range list {
		why := s.Partial
		switch {
		case why == "":
			continue
		case s.Unproven != "":
			why = "not proven: " + s.Unproven
		case s.Hinged && !v.Every && !s.Short:
			why = "not every change is shown: free delivery or a smallest order hang on the price, and " + why + " (--every looks for all)"
		default:
			why = "not every change is shown: " + why
		}
		if names[why] == nil {
			reasons = append(reasons, why)
		}
		names[why] = append(names[why], s.Target.Name)
	}
	if len(reasons) > 0 {
		v.b.WriteString("\n")
	}
	for _, why := range reasons {
		v.item("%s: %s", strings.Join(names[why], ", "), why)
	}
}

func (v *BreakevenView) priceRow(s breakeven.Series) []string {
	digits := s.Target.Digits(v.Ans.Job)
	row := []string{s.Target.Name, v.value(s.Target, s.Target.Now), "no", "-", "-", "-"}
	at := func(x *units.Decimal, without string) string {
		if told := s.Told(x, digits); told != nil {
			return v.value(s.Target, *told)
		}
		if s.Unproven != "" {
			return "not proven"
		}
		return without
	}
	if s.InPlan {
		row[2], row[5] = "yes", at(s.Leaves, "over "+v.value(s.Target, s.Target.Most))
		return row
	}
	row[3] = at(s.Enters, "never")
	if off := s.PercentOff(digits); off != nil {
		row[4] = off.Text(1) + " %"
	}
	return row
}

// changes lists where the cheapest buy changes.
func (v *BreakevenView) changes(s breakeven.Series) {
	if len(s.Changes) == 0 {
		return
	}
	v.b.WriteString("\n  " + v.Style.Strong(s.Target.Name) + "\n")
	for i, c := range s.Changes {
		if i == 0 {
			v.para("    ", "        ", v.lowest(s)+breakeven.BuyWords(c.Below))
		}
		place := v.place(s, c.At)
		if i+1 < len(s.Changes) && place == v.place(s, s.Changes[i+1].At) {
			continue // no price of whole coins lies between the two
		}
		if c.Jump {
			place += " (free delivery or a smallest order comes in)"
		}
		v.para("    ", "        ", "above "+place+": "+breakeven.BuyWords(c.Above))
	}
	if v.Drawn {
		v.b.WriteString("\n" + chart.Text(chart.Price(v.Ans.Job, s), v.Style.Width, plotRows))
	}
}

// lowest names the stretch below the first change told. Where not all changes are, it
// begins just below that one, unless today's price lies in it.
func (v *BreakevenView) lowest(s breakeven.Series) string {
	if s.Partial == "" {
		return "cheapest: "
	}
	now := s.Target.Now
	for _, p := range s.Pieces {
		if p.To.Equal(s.Changes[0].At) && (p.From.Cmp(now) > 0 || p.To.Cmp(now) < 0) {
			return "just below: "
		}
	}
	return "cheapest: "
}

// place is where a change lies, rounded down to a price at which the buy below it holds;
// the JSON answer has it to four decimals.
func (v *BreakevenView) place(s breakeven.Series, x units.Decimal) string {
	if told := s.Told(&x, s.Target.Digits(v.Ans.Job)); told != nil {
		return v.value(s.Target, *told)
	}
	return v.value(s.Target, x)
}

// from is the lowest price in whole coins that is not below x.
func (v *BreakevenView) from(t breakeven.Target, x units.Decimal) string {
	digits := t.Digits(v.Ans.Job)
	up := x.Round(digits)
	if up.Cmp(x) < 0 {
		up = up.Add(units.DecimalOf(math.Pow(10, -float64(digits))))
	}
	return v.value(t, up)
}

func (v *BreakevenView) volume(vol *byvolume.Volume) {
	if vol.Medium != nil {
		v.heading("bags against bulk: " + vol.Medium.Name)
		v.para("  ", "  ", chart.Sentence(vol, v.Style.Units))
	} else {
		v.heading(fmt.Sprintf("by volume: %s against %s", vol.Left.Name, vol.Right.Name))
	}
	litres := func(x units.Litres) string { return units.FormatVolume(x, v.Style.Units) }
	beyond := fmt.Sprintf("up to the %s looked at", litres(vol.Looked))
	if vol.Settled {
		beyond = "however much it is"
	}
	last := vol.Stretches[len(vol.Stretches)-1]
	switch {
	case vol.Medium != nil:
	case vol.First == nil && last.Cheaper == byvolume.Left:
		v.line("  %s is never cheaper, %s.", vol.Right.Name, beyond)
	case vol.First == nil:
		v.line("  %s is never cheaper, %s; the last stretch is %s.", vol.Right.Name, beyond, winnerWords(vol, last.Cheaper))
	case vol.Always == nil:
		v.line("  %s is first cheaper above %s, but not for good: %s.", vol.Right.Name, litres(*vol.First), beyond)
	case *vol.First == *vol.Always:
		v.line("  %s is cheaper above %s, %s.", vol.Right.Name, litres(*vol.First), beyond)
	default:
		v.line("  %s is first cheaper above %s, and always above %s, %s.", vol.Right.Name, litres(*vol.First), litres(*vol.Always), beyond)
	}
	v.para("  ", "  ", "Each is priced as if it alone placed the volume, in whole packs, delivered, taxed and rinsed; whether a bed takes so much of it is not asked.")
	if len(vol.Stretches) > 2 {
		v.grid([]string{"Above, " + stretchUnit(v.Style.Units), "Up to, " + stretchUnit(v.Style.Units), "Cheaper"}, stretchRows(vol, v.Style.Units))
	}
	for _, n := range vol.Notes {
		v.item("%s", n)
	}
	v.b.WriteString("\n" + chart.Text(chart.Volume(v.Ans.Job, vol, v.Style.Units), v.Style.Width, plotRows))
}

func stretchUnit(sys units.System) string {
	if sys == units.US {
		return "ft³"
	}
	return "L"
}

// stretchRows are the stretches in one unit, whole litres or tenths of a cubic foot. One
// that is shorter than that has no row; the last goes on where that was settled.
func stretchRows(vol *byvolume.Volume, sys units.System) [][]string {
	number := func(x units.Litres) string {
		if sys == units.US {
			return fmt.Sprintf("%.1f", float64(x/units.CubicFoot))
		}
		return fmt.Sprintf("%.0f", float64(x))
	}
	var rows [][]string
	for _, s := range vol.Stretches {
		from, to, who := number(s.From), number(s.To), winnerWords(vol, s.Cheaper)
		switch n := len(rows); {
		case from == to:
		case n > 0 && rows[n-1][2] == who:
			rows[n-1][1] = to
		default:
			rows = append(rows, []string{from, to, who})
		}
	}
	if vol.Settled && len(rows) > 0 {
		rows[len(rows)-1][1] = "any"
	}
	return rows
}

func winnerWords(vol *byvolume.Volume, w byvolume.Winner) string {
	switch w {
	case byvolume.Left:
		return vol.Left.Name
	case byvolume.Right:
		return vol.Right.Name
	case byvolume.Equal:
		return "the same"
	}
	return "neither has so much in stock"
}

func (v *BreakevenView) whatIf() {
	w := v.Ans.WhatIf
	if w == nil {
		return
	}
	v.heading("what would change the answer")
	if n := w.NextBest; n != nil {
		words := ""
		if optimise.OverBudget(v.Ans.Job, n.Total) {
			words = ", which is over the budget"
		}
		if !w.Exact {
			words += " (the cheapest found; with suppliers added that sell nothing today there may be a cheaper one)"
		}
		v.item("the next best plan from other suppliers costs %s, %s more, %s: %s%s", v.money(n.Total), v.money(n.Difference), n.Name, breakeven.BuyWords(n.Buy), words)
	} else {
		v.item("no other set of suppliers can fill the beds")
	}
	for _, o := range w.LeaveOut {
		v.other(o, "costs %s more")
	}
	for _, o := range slices.Concat(w.Rules, w.Limits) {
		o.Name = chart.ChangeWords(o.Name, v.Style.Units)
		v.other(o, "saves %s")
	}
}

// other is one changed job in a line; more is said of its difference.
func (v *BreakevenView) other(o breakeven.Other, words string) {
	switch {
	case o.Infeasible:
		v.item("%s: nothing fills the beds", o.Name)
		return
	case o.NoAnswer:
		v.item("%s: not answered within the time limit", o.Name)
		return
	case o.Unproven:
		words += " (not proven)"
	}
	d := o.Difference
	if strings.HasPrefix(words, "saves") {
		d = d.Neg()
	}
	if d.Sign() <= 0 {
		v.item("%s: makes no difference", o.Name)
		return
	}
	v.item("%s: "+words, o.Name, v.money(d))
}

func (v *BreakevenView) sizes() {
	z := v.Ans.Sizes
	if z == nil {
		return
	}
	v.heading("the whole job smaller and larger")
	var rows [][]string
	for _, s := range z.Sizes {
		row := []string{fmt.Sprintf("%g", s.Factor), units.FormatVolume(s.Litres, v.Style.Units), "nothing fills the beds", "", "", ""}
		if s.NoAnswer {
			row[2] = "not answered within the time limit"
		} else if !s.Infeasible {
			per := units.MoneyOf(s.Total.Decimal().Quo(units.DecimalOf(float64(s.Litres))))
			row = []string{
				row[0], row[1], v.money(s.Total), per.Text(optimise.PerLitreDigits), fmt.Sprintf("%.0f %%", 100*s.Bulk), strings.Join(s.Suppliers, ", "),
			}
		}
		rows = append(rows, row)
	}
	v.grid([]string{"Times", "Placed", "Total", "Per litre", "In bulk", "Suppliers"}, rows)
	for _, c := range z.Changes {
		v.item("between %.3g and %.3g times the job: from %s to %s", c.From, c.To, supplierWords(c.Below), supplierWords(c.Above))
	}
	v.para("  ", "  ", "Found by solving at these sizes and halving between those that differ, to a hundredth of the job; a change that is undone between two sizes is not seen. Frames are taken to carry as much more as the beds hold.")
}

func supplierWords(list []string) string {
	if len(list) == 0 {
		return "no way to fill the beds"
	}
	return strings.Join(list, " and ")
}

func (v *BreakevenView) oneMore() {
	o := v.Ans.OneMore
	if o == nil {
		return
	}
	v.heading(o.Name)
	if o.Infeasible {
		v.item("nothing fills the beds then")
		return
	}
	if o.NoAnswer {
		v.item("not answered within the time limit")
		return
	}
	v.item("costs %s more, %s in all: %s", v.money(o.Difference), v.money(o.Total), breakeven.BuyWords(o.Buy))
	v.item("the new bed stands on a frame of its own that carries its part of what the old one may")
}
