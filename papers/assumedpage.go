package papers

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strconv"

	"mediabuy/papers/cut"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// assumed is what the figures rest on: the settings, the quotes' days, the media
// with their sources, and what was noticed in the files.
func (r *report) assumed() []page.Block {
	s := r.Plan.Job.Settings
	points := []string{fmt.Sprintf("Prices and rules of %s.", s.Date)}
	if !s.NeedBy.IsZero() {
		points = append(points, fmt.Sprintf("Goods are needed by %s.", s.NeedBy))
	}
	switch {
	case s.TaxIncluded:
		points = append(points, "Prices carry their tax already.")
	case !s.Tax.IsZero():
		points = append(points, fmt.Sprintf("Tax of %s is added where a quote or a delivery states no rate of its own.", percent(s.Tax)))
	}
	if !s.Extra.IsZero() {
		points = append(points, fmt.Sprintf("%s more than the beds take is bought, to spare.", percent(s.Extra)))
	}
	if !s.LabourRate.IsZero() {
		points = append(points, fmt.Sprintf("An hour of rinsing counts as %s.", r.price(s.LabourRate)))
	}
	for _, x := range []struct {
		on    bool
		words string
	}{
		{s.AllowUntested, "Media that may hold lime are allowed without an acid drop: test each load."},
		{s.AllowUnknownSize, "Quotes that do not state a grain size are allowed."},
		{s.AllowRoughTop, "Rough media are allowed on top, where hands plant."},
	} {
		if x.on {
			points = append(points, x.words)
		}
	}
	out := []page.Block{&page.List{Items: points}, r.dates(), r.media()}
	if words := r.noticed(); len(words) > 0 {
		out = append(out, &page.Para{Text: "Noticed when the quotes were read:", Leads: true}, &page.List{Items: words})
	}
	return out
}

// noticed is what reading gave warnings of, in words for people who never see the
// files: by the quote, and without the advice of what to write where. What concerns
// quotes that are not bought changes nothing for them.
func (r *report) noticed() []string {
	bought := map[*quotes.Quote]bool{}
	for _, l := range r.Plan.Bill.Lines {
		bought[l.Quote] = true
	}
	var out []string
next:
	for _, w := range r.Warnings {
		text := w.Message()
		about := ""
		for _, q := range r.Plan.Job.Quotes {
			if q.Pos.File == w.Pos.File && q.Pos.Line == w.Pos.Line {
				if !bought[q] {
					continue next
				}
				about = "quote " + q.Name + ": "
				if q.Pack.IsMass && q.Density == 0 && w.Heading == "pack" {
					text = fmt.Sprintf("%s is a weight and the yard states no density; %s of %s is assumed, which makes it %s",
						q.Pack.Raw, units.FormatDensity(q.DryDensity().Usual, r.Units), q.Medium.Name, cut.Volume(q.PackLitres, r.Units))
				}
			}
		}
		for _, b := range r.Plan.Job.Beds {
			if b.Pos.File == w.Pos.File && b.Pos.Line == w.Pos.Line {
				about = quotes.BedNamed(b.Name) + ": "
			}
		}
		out = appendNew(out, withoutFiles(about+text))
	}
	return out
}

// fileLine is a place in one of a job's files.
var fileLine = regexp.MustCompile(`[\w.-]+\.(csv|toml)(:\d+)*`)

// withoutFiles is a sentence in which the job's files are not named.
func withoutFiles(s string) string { return fileLine.ReplaceAllString(s, "the job's files") }

// dates lists the quotes bought with their days and what was made of their packs.
func (r *report) dates() page.Block {
	t := &page.Table{Caption: "The quotes bought, as read", Cols: []page.Col{{Name: "Quote"}, {Name: "Pack as written"}, {Name: "Is loose"}, {Name: "Grain size"}, {Name: "Acid drop"}, {Name: "Lost by rinsing", Right: true}, {Name: "Valid until", Narrow: true}}}
	seen := map[*quotes.Quote]bool{}
	for _, l := range r.Plan.Bill.Lines {
		q := l.Quote
		if seen[q] {
			continue
		}
		seen[q] = true
		loose := cut.Volume(q.PackLitres, r.Units)
		if q.Pack.IsMass {
			loose += " at " + units.FormatDensity(q.DryDensity().Usual, r.Units)
			if q.Density == 0 {
				loose += ", assumed"
			} else {
				loose += ", as the yard states"
			}
		}
		until := cmp.Or(q.ValidUntil.String(), "not stated")
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(q.Name), page.Text(q.Pack.Raw), page.Text(loose), page.Text(r.grain(q.Size)),
			page.Text(string(q.Carbonate)), page.Text(hundredths(q.RinseLoss.Usual)), page.Text(until)}})
	}
	return t
}

func hundredths(v float64) string { return fmt.Sprintf("%.3g %%", 100*v) }

// held is the water that a medium holds, with no more figures than are known of it.
func (r *report) held(m *quotes.Medium) string {
	if r.Units == units.US {
		return twoFigures(m.HeldWater.Usual*float64(units.CubicFoot)/float64(units.Pound)) + " lb/ft³"
	}
	return twoFigures(m.HeldWater.Usual) + " kg/L"
}

// twoFigures is a number to two figures.
func twoFigures(v float64) string {
	if v == 0 {
		return "0"
	}
	scale := math.Pow10(1 - int(math.Floor(math.Log10(math.Abs(v)))))
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64)
}

// media lists the figures of the media bought.
func (r *report) media() page.Block {
	per, unit := "100 L", 100*units.Litre
	if r.Units == units.US {
		per, unit = "cu yd", units.CubicYard
	}
	t := &page.Table{Caption: "The media bought", Cols: []page.Col{{Name: "Medium"}, {Name: "Loose dry density"}, {Name: "Held water"}, {Name: "Voids", Right: true}, {Name: "Settling", Right: true}, {Name: "Rinsing, min per " + per, Right: true}}}
	for _, m := range r.cut.Media {
		minutes := m.RinseMinutes.Usual * float64(unit/(100*units.Litre))
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(m.Name), page.Text(units.FormatDensity(m.DryDensity.Usual, r.Units)), page.Text(r.held(m)),
			page.Text(hundredths(m.Voids.Usual)), page.Text(hundredths(m.Settle.Usual)), page.Num(twoFigures(minutes), minutes, 0)}})
	}
	return t
}
