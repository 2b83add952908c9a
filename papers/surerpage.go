package papers

import (
	"mediabuy/papers/page"
	"mediabuy/units"
)

// surer is cost against sureness: the drawing with what it says, and each purchase on
// it; a sentence where that was not worked out in time.
func (r *report) surer() []page.Block {
	if r.Sureness == nil {
		return nil
	}
	c := r.Sureness.Curve
	words := c.Words(r.money)
	if len(c.Points) == 0 {
		return []page.Block{&page.Para{Text: words}}
	}
	t := &page.Table{Caption: "The cheapest purchase found for each sureness", Cols: []page.Col{{Name: "Cases of 100 with every bed full", Right: true}, {Name: "Cost", Right: true}, {Name: "More than the decision", Right: true}, {Name: "With the top-up to be expected", Right: true}, {Name: "What is bought"}}}
	worth := c.Worth()
	for i, p := range c.Points {
		var what []string
		for _, l := range p.Plan.Bill.Lines {
			what = append(what, l.Quote.PacksWords(l.Packs)+" of "+l.Quote.ItemWords()+r.atSite(l.Site))
		}
		words, inAll := units.Listed(few(what, mostFrom)), page.Text("not known")
		if m, ok := p.InAll(); ok {
			inAll = r.moneyCell(m)
		}
		more := r.moneyCell(p.Total().Sub(r.Plan.Bill.Total))
		row := page.Row{}
		if p.Chosen {
			row.Kind, more, words = page.Total, page.Text("the decision"), "as set out in A"
		}
		if i == worth {
			words += " (worth its money)"
		}
		row.Cells = []page.Cell{page.Text(p.Cases()), r.moneyCell(p.Total()), more, inAll, page.Text(words)}
		t.Rows = append(t.Rows, row)
	}
	return []page.Block{&page.Chart{Caption: words, SVG: r.Sureness.Chart.SVG, PNG: r.Sureness.Chart.PNG}, t}
}
