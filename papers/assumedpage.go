package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
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
	if words := sources(r.usedMedia()); len(words) > 0 {
		out = append(out, &page.Para{Text: "Where the figures of the media come from (seen: read at the address; memory: from memory; computed: follows from the others):"}, &page.List{Items: words})
	}
	if len(r.Warnings) > 0 {
		var words []string
		for _, w := range r.Warnings {
			words = append(words, row(w.Pos)+": "+optimise.WarningText(w))
		}
		out = append(out, &page.Para{Text: "Noticed in the files:"}, &page.List{Items: words})
	}
	return out
}

// dates lists the quotes bought with their days and what was made of their packs.
func (r *report) dates() page.Block {
	t := &page.Table{Caption: "The quotes bought, as read", Cols: []page.Col{{Name: "Quote"}, {Name: "Stands in"}, {Name: "Pack as written"}, {Name: "Is loose"}, {Name: "Grain size"}, {Name: "Acid drop"}, {Name: "Lost by rinsing", Right: true}, {Name: "Valid until"}}}
	seen := map[*quotes.Quote]bool{}
	for _, l := range r.Plan.Bill.Lines {
		q := l.Quote
		if seen[q] {
			continue
		}
		seen[q] = true
		loose := fmt.Sprintf("%s L", number(float64(q.PackLitres)))
		if q.Pack.IsMass {
			loose += " at " + units.FormatDensity(q.DryDensity().Usual, r.Units)
			if q.Density == 0 {
				loose += ", assumed"
			} else {
				loose += ", as the yard states"
			}
		}
		until := cmp.Or(q.ValidUntil.String(), "not stated")
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(q.Name), page.Text(row(q.Pos)), page.Text(q.Pack.Raw), page.Text(loose), page.Text(grain(q.Size)),
			page.Text(string(q.Carbonate)), page.Text(hundredths(q.RinseLoss.Usual)), page.Text(until)}})
	}
	return t
}

func hundredths(v float64) string { return fmt.Sprintf("%.3g %%", 100*v) }

func (r *report) usedMedia() []*quotes.Medium {
	var out []*quotes.Medium
	for _, l := range r.Plan.Bill.Lines {
		if !slices.Contains(out, l.Quote.Medium) {
			out = append(out, l.Quote.Medium)
		}
	}
	slices.SortFunc(out, func(a, b *quotes.Medium) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// media lists the figures of the media bought.
func (r *report) media() page.Block {
	t := &page.Table{Caption: "The media bought", Cols: []page.Col{{Name: "Medium"}, {Name: "Loose dry density"}, {Name: "Held water, kg/L", Right: true}, {Name: "Voids", Right: true}, {Name: "Settling", Right: true}, {Name: "Rinsing, min per 100 L", Right: true}, {Name: "Stands in"}}}
	for _, m := range r.usedMedia() {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(m.Name), page.Text(units.FormatDensity(m.DryDensity.Usual, r.Units)), page.Num(fmt.Sprintf("%.3g", m.HeldWater.Usual), m.HeldWater.Usual, 3),
			page.Text(hundredths(m.Voids.Usual)), page.Text(hundredths(m.Settle.Usual)), page.Num(fmt.Sprintf("%.3g", m.RinseMinutes.Usual), m.RinseMinutes.Usual, 1), page.Text(row(m.Pos))}})
	}
	return t
}

// sources are the media's own words on where their figures come from.
func sources(media []*quotes.Medium) []string {
	var out []string
	for _, m := range media {
		if s := strings.TrimSpace(m.Source); s != "" {
			out = append(out, m.Name+": "+s)
		} else {
			out = append(out, m.Name+": no source is given")
		}
	}
	return out
}
