package main

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/quotes"
	"mediabuy/units"
)

// receiveView is what the answer of receive is made of.
type receiveView struct {
	job      *quotes.Job
	style    papers.Style
	settled  *papers.Settlement
	notes    []papers.Note
	files    []string
	warnings []*quotes.Problem
	planned  bool // the plan stood for the order
}

func (v *receiveView) money(m units.Money) string {
	return units.FormatMoney(m, v.job.Settings.Currency)
}

func (v *receiveView) text() string {
	var b strings.Builder
	s := v.settled
	if v.planned {
		b.WriteString("No order was named, so today's plan stands for the order.\n\n")
	}
	b.WriteString("WHAT ARRIVED\n")
	sites := len(quotes.Sites(v.job)) > 1
	var rows []table.Row
	for _, c := range s.Counted {
		name := c.Quote.Name
		if sites {
			name += " at " + c.Site
		}
		rows = append(rows, table.Row{c.Quote.Supplier, name, c.Quote.Pack.Raw, c.Ordered, c.Arrived, dash(c.Rejected), dash(c.Short()), dash(c.Over())})
	}
	b.WriteString(plainTable(table.Row{"Supplier", "Quote", "Pack", "Ordered", "Arrived", "Rejected", "Short", "Over"}, rows, 4))
	b.WriteString("\nTO FINISH THE BEDS\n")
	v.finish(&b)
	for _, n := range v.notes {
		b.WriteString("\nNOTE\n")
		for line := range strings.Lines(n.Text) {
			if strings.TrimSpace(line) != "" {
				b.WriteString("  ")
			}
			b.WriteString(line)
		}
	}
	for _, name := range v.files {
		fmt.Fprintf(&b, "Written: %s\n", name)
	}
	if len(v.warnings) > 0 {
		b.WriteString("\nWARNINGS\n")
		for _, w := range v.warnings {
			fmt.Fprintf(&b, "  - %s: %s\n", w.Pos, optimise.WarningText(w))
		}
	}
	return b.String()
}

func (v *receiveView) finish(b *strings.Builder) {
	s := v.settled
	if s.Plan.Bill == nil {
		fmt.Fprintf(b, "  Nothing that is there or quoted on %s finishes the beds:\n", s.Day)
		for _, o := range s.Plan.Why {
			fmt.Fprintf(b, "  - %s\n", o.Remedy)
		}
		return
	}
	if len(s.Buy) == 0 {
		b.WriteString("  What is there fills every bed; nothing more is needed.\n")
		return
	}
	fmt.Fprintf(b, "  Pay %s more, at the quotes that hold on %s; what is there is counted as paid\n  for and what is missing as not coming.\n", v.money(s.ToPay), s.Day)
	if s.Plan.Status != optimise.Optimal {
		b.WriteString("  Not proven: time was up, and a cheaper way may exist.\n")
	}
	var rows []table.Row
	for _, l := range s.Buy {
		to := ""
		if l.Site != "" {
			to = l.Site
		}
		rows = append(rows, table.Row{l.Quote.Supplier, l.Quote.Name, fmt.Sprintf("%s × %s", l.Packs, l.Quote.Pack.Raw), to, v.money(l.Goods)})
	}
	for _, d := range s.Drops {
		rows = append(rows, table.Row{d.Supplier, "delivery, " + d.Name, "", d.Site, v.money(d.Fee)})
	}
	if !s.Tax.IsZero() {
		rows = append(rows, table.Row{"", "tax", "", "", v.money(s.Tax)})
	}
	b.WriteString(plainTable(table.Row{"Supplier", "What", "Packs", "Site", "Money"}, rows, 5))
}

func dash(d units.Decimal) string {
	if d.IsZero() {
		return "-"
	}
	return d.String()
}

// plainTable sets rows under headings; columns from right on hold numbers.
func plainTable(heads table.Row, rows []table.Row, right int) string {
	t := table.NewWriter()
	st := table.StyleDefault
	st.Box.PaddingLeft, st.Box.PaddingRight = "", "  "
	st.Options = table.Options{SeparateHeader: true}
	st.Format.Header = text.FormatDefault
	t.SetStyle(st)
	t.AppendHeader(heads)
	var configs []table.ColumnConfig
	for i := range heads {
		if i+1 >= right {
			configs = append(configs, table.ColumnConfig{Number: i + 1, Align: text.AlignRight, AlignHeader: text.AlignRight})
		}
	}
	t.SetColumnConfigs(configs)
	t.AppendRows(rows)
	var b strings.Builder
	for l := range strings.SplitSeq(t.Render(), "\n") {
		b.WriteString("  " + strings.TrimRight(l, " ") + "\n")
	}
	return b.String()
}

// receiveDocument is the machine-readable answer of receive. Counts are packs.
type receiveDocument struct {
	Currency string                       `json:"currency"`
	Day      string                       `json:"day"`
	Counted  []documentCounted            `json:"counted"`
	Finish   documentFinish               `json:"finish"`
	Notes    []documentNote               `json:"notes"`
	Files    []string                     `json:"files"`
	Warnings []optimise.DocumentComplaint `json:"warnings"`
}

type documentCounted struct {
	Quote    string   `json:"quote"`
	Supplier string   `json:"supplier"`
	Site     string   `json:"site"`
	Orders   []string `json:"orders"`
	Ordered  float64  `json:"ordered"`
	Arrived  float64  `json:"arrived"`
	Rejected float64  `json:"rejected"`
	Accepted float64  `json:"accepted"`
	Short    float64  `json:"short"`
	Over     float64  `json:"over"`
	Worth    string   `json:"missing_worth"` // goods money before tax
}

// documentFinish is the cheapest way to finish; without money where there is none.
type documentFinish struct {
	Status     optimise.Status             `json:"status"`
	ToPay      string                      `json:"to_pay,omitempty"`
	Goods      string                      `json:"goods,omitempty"`
	Delivery   string                      `json:"delivery,omitempty"`
	Tax        string                      `json:"tax,omitempty"`
	Rinsing    string                      `json:"rinsing,omitempty"`
	Purchases  []optimise.DocumentPurchase `json:"purchases"`
	Deliveries []optimise.DocumentDelivery `json:"deliveries"`
	Remedies   []string                    `json:"remedies,omitempty"`
}

type documentNote struct {
	Supplier string `json:"supplier"`
	Text     string `json:"text"`
}

func (v *receiveView) document() receiveDocument {
	s, digits := v.settled, v.job.Settings.CurrencyDigits
	d := receiveDocument{Currency: v.job.Settings.Currency, Day: s.Day.String(), Counted: []documentCounted{}, Notes: []documentNote{},
		Files: append([]string{}, v.files...), Warnings: optimise.DocumentWarnings(&quotes.Report{Warnings: v.warnings})}
	for _, c := range s.Counted {
		d.Counted = append(d.Counted, documentCounted{c.Quote.Name, c.Quote.Supplier, c.Site, append([]string{}, c.Orders...), c.Ordered.Float(), c.Arrived.Float(),
			c.Rejected.Float(), c.Accepted().Float(), c.Short().Float(), c.Over().Float(), c.Worth.Text(digits)})
	}
	for _, n := range v.notes {
		d.Notes = append(d.Notes, documentNote(n))
	}
	d.Finish = documentFinish{Status: s.Plan.Status, Purchases: []optimise.DocumentPurchase{}, Deliveries: []optimise.DocumentDelivery{}}
	if s.Plan.Bill == nil {
		for _, o := range s.Plan.Why {
			d.Finish.Remedies = append(d.Finish.Remedies, o.Remedy)
		}
		return d
	}
	text := func(m units.Money) string { return m.Text(digits) }
	d.Finish.ToPay, d.Finish.Goods, d.Finish.Delivery, d.Finish.Tax, d.Finish.Rinsing = text(s.ToPay), text(s.Goods), text(s.Delivery), text(s.Tax), text(s.Rinsing)
	for _, l := range s.Buy {
		d.Finish.Purchases = append(d.Finish.Purchases, optimise.DocumentPurchase{Quote: l.Quote.Name, Supplier: l.Quote.Supplier, Medium: l.Quote.Medium.Name, Form: l.Quote.Form,
			Site: l.Site, Packs: l.Packs.Float(), PackPrice: optimise.PriceText(l.PackPrice, digits), BreakFrom: l.BreakFrom.Float(), Goods: text(l.Goods),
			LitresSold: units.Tidy(float64(l.Sold)), LitresPlaced: units.Tidy(float64(l.Placed))})
	}
	for _, l := range s.Drops {
		d.Finish.Deliveries = append(d.Finish.Deliveries, optimise.DocumentDelivery{Supplier: l.Supplier, Site: l.Site, Name: l.Name, Loads: l.Loads, Fee: text(l.Fee)})
	}
	return d
}
