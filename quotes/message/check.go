package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

// standIns fill required cells that are missing while the others are read back. No break is above the price.
var standIns = map[string]string{"supplier": "a supplier", "medium": "pumice", "pack": "1 L", "price": "1000000"}

// readBack reads the drafts as rows of quotes.csv. A cell that is refused leaves its row, and its words are listed with
// the reason; warnings become cautions. What is left reads without a problem.
func (r *reading) readBack(drafts []*draft, j job) error {
	if len(drafts) == 0 {
		return nil
	}
	if j.Currency == "" {
		j = j.In(currencyOf(slices.Concat(drafts, r.ways)))
	}
	// Each round takes out a cell or a row at least.
	for range len(drafts)*len(Columns) + len(r.ways) + 1 {
		cells := make([]map[string]string, len(drafts))
		for i, d := range drafts {
			cells[i] = map[string]string{}
			for column, m := range d.cells {
				cells[i][column] = m.text
			}
			for column, text := range standIns {
				if cells[i][column] == "" {
					cells[i][column] = text
				}
			}
		}
		_, rep, err := j.Read(csvfile.Write(cells, Columns), r.waysCSV(), "", "")
		if err != nil {
			return fmt.Errorf("reading the proposed rows back: %w", err)
		}
		if rep.OK() {
			r.caution(drafts, rep.Warnings)
			return nil
		}
		for _, p := range rep.Problems {
			before := len(r.ways)
			if err := r.refuse(drafts, p); err != nil {
				return err
			}
			if len(r.ways) < before {
				break // the rows behind it have moved
			}
		}
	}
	return fmt.Errorf("reading the proposed rows back: the problems do not end")
}

// waysCSV is the rows of delivery.csv, "" when there are none.
func (r *reading) waysCSV() string {
	if len(r.ways) == 0 {
		return ""
	}
	cells := make([]map[string]string, len(r.ways))
	for i, d := range r.ways {
		cells[i] = map[string]string{"supplier": standIns["supplier"]}
		for column, m := range d.cells {
			cells[i][column] = m.text
		}
	}
	return csvfile.Write(cells, DeliveryColumns)
}

// headRow is the heading line in front of the drafts.
const headRow = 1

func (r *reading) refuse(drafts []*draft, p *quotes.Problem) error {
	i := p.Line - headRow - 1
	why := withHint(p)
	if p.File == files.DeliveryFile && i >= 0 && i < len(r.ways) {
		// A row without one of its charges would make delivery too cheap, so all of it goes.
		// So do the rows for the supplier's other kinds of packs, which say that it does not deliver these.
		of := r.ways[i].cells["supplier"]
		r.ways = slices.DeleteFunc(r.ways, func(d *draft) bool {
			if !sameCells(d.cells["supplier"], of) {
				return false
			}
			r.undo(d, p.Heading+": "+why)
			return true
		})
		return nil
	}
	if p.File != files.QuotesFile || i < 0 || i >= len(drafts) {
		return fmt.Errorf("reading the proposed rows back: %w", p)
	}
	d := drafts[i]
	m := d.cells[p.Heading]
	if m == nil && p.Heading == "step" || m == nil && p.Heading == "max_qty" {
		m = d.cells["min_qty"]
	}
	if m == nil {
		return fmt.Errorf("reading the proposed rows back: %w", p)
	}
	delete(d.cells, p.Heading)
	for _, f := range m.facts {
		f.refs = slices.DeleteFunc(f.refs, func(ref Ref) bool { return ref == Ref{files.QuotesFile, i, p.Heading} })
		if len(f.refs) == 0 {
			f.drop(why)
		}
	}
	d.notes = append(d.notes, p.Heading+": "+why)
	return nil
}

// quiet are warnings about the job as a whole, which the rows alone cannot settle.
func quiet(p *quotes.Problem) bool {
	return p.Line <= headRow || p.Heading == "" || p.Heading == "supplier" || strings.Contains(p.Found, "delivers free")
}

// caution hands the warnings to the drafts they are about.
func (r *reading) caution(drafts []*draft, warnings []*quotes.Problem) {
	for _, p := range warnings {
		of := map[string][]*draft{files.QuotesFile: drafts, files.DeliveryFile: r.ways}[p.File]
		if quiet(p) || p.Line-headRow-1 >= len(of) {
			continue
		}
		d := of[p.Line-headRow-1]
		if d.cells[p.Heading] == nil {
			continue // about a stand-in
		}
		if d.cells["medium"] == nil && (p.Heading == "pack" || p.Heading == "price") || d.cells["pack"] == nil && p.Heading == "price" || d.cells["price"] == nil && p.Heading == "breaks" {
			continue // the density, the size or the price is a stand-in's
		}
		text := p.Heading + ": " + withHint(p)
		if !slices.Contains(d.notes, text) {
			d.notes = append(d.notes, text)
		}
	}
}

// withHint is a problem in one line.
func withHint(p *quotes.Problem) string {
	if p.Hint == "" {
		return p.Message()
	}
	return p.Message() + "; " + p.Hint
}

// currencyOf is a currency that the first sign in the drafts may stand for, for reading them back where no job says one.
func currencyOf(drafts []*draft) string {
	for _, d := range drafts {
		for _, column := range []string{"price", "breaks", "delivery", "free_over", "order_fee", "load_fee", "haul", "min_order"} {
			m := d.cells[column]
			if m == nil {
				continue
			}
			text, _, _ := strings.Cut(m.text, ";")
			if _, after, ok := strings.Cut(text, ":"); ok {
				text = after
			}
			if _, codes := units.CurrencyIn(text); len(codes) > 0 && !slices.Contains(codes, "USD") {
				return codes[0]
			} else if len(codes) > 0 {
				return "USD"
			}
		}
	}
	return "USD"
}
