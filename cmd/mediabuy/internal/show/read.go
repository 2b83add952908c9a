package show

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/message"
	"mediabuy/units"
)

// Read sets a proposal out: the rows with the words behind each cell, then all that made none.
func Read(p *message.Proposal, note string, st Style) string {
	var b strings.Builder
	if note != "" {
		fmt.Fprintf(&b, "note: %s\n\n", note)
	}
	if len(p.Columns) > 0 {
		b.WriteString(st.Strong("columns") + "\n")
		for _, c := range p.Columns {
			fmt.Fprintf(&b, "  %d  %-12s %s\n", c.Number, orDash(c.Heading), c.Why)
		}
		b.WriteByte('\n')
	}
	for i := range p.Rows {
		rowText(&b, p, fmt.Sprintf("row %d for quotes.csv", i+1), &p.Rows[i], message.Columns, st)
	}
	for i := range p.Delivery {
		rowText(&b, p, fmt.Sprintf("row %d for delivery.csv", i+1), &p.Delivery[i], message.DeliveryColumns, st)
	}
	if len(p.Asked) > 0 {
		b.WriteString(st.Strong("asked") + "\n")
		for _, q := range p.Asked {
			b.WriteString(Question(p, q))
		}
		b.WriteString("  --assume cautious answers by what costs most: doubtful fees and limits hold, doubtful prices and rebates do not\n\n")
	}
	spanText(&b, p, "not understood", p.NotUnderstood(), st)
	spanText(&b, p, "set aside", p.SetAside(), st)
	b.WriteString(readVerdict(p) + "\n")
	return b.String()
}

// Question is a part that reads in several ways, with its readings by number.
func Question(p *message.Proposal, q message.Question) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  line %d: %q: %s\n", p.Line(q.From), p.Words(q.Range), q.Question)
	for i, one := range q.Readings {
		sets := one.Sets()
		if sets != "" {
			sets = " (" + sets + ")"
		}
		fmt.Fprintf(&b, "    %d  %s%s\n", i+1, one.Label, sets)
	}
	return b.String()
}

// spanText lists parts of the message with what became of them.
func spanText(b *strings.Builder, p *message.Proposal, title string, spans []message.Span, st Style) {
	if len(spans) == 0 {
		return
	}
	b.WriteString(st.Strong(title) + "\n")
	for _, s := range spans {
		fmt.Fprintf(b, "  line %d: %q: %s\n", p.Line(s.From), p.Words(s.Range), s.Why)
	}
	b.WriteByte('\n')
}

func rowText(b *strings.Builder, p *message.Proposal, title string, row *message.Row, columns []string, st Style) {
	b.WriteString(st.Strong(title) + "\n")
	for _, column := range columns {
		c, ok := row.Cells[column]
		if !ok {
			continue
		}
		var words []string
		for _, r := range c.From {
			words = append(words, fmt.Sprintf("%q", p.Words(r)))
		}
		from := c.Why
		if len(words) > 0 {
			from = strings.Join(words, ", ")
		}
		fmt.Fprintf(b, "  %-12s %-24s from %s\n", column, c.Text, from)
	}
	for _, column := range row.Missing {
		hint := ""
		if column == "supplier" {
			hint = "; --supplier NAME says whose message it is"
		}
		fmt.Fprintf(b, "  %-12s %s%s\n", column, st.Alarm("missing"), hint)
	}
	for _, c := range row.Cautions {
		fmt.Fprintf(b, "  beware: %s\n", c)
	}
	b.WriteByte('\n')
}

// Beware is what to be careful about in the rows, each with its item where there are several.
func Beware(p *message.Proposal) string {
	var b strings.Builder
	rows := slices.Concat(p.Rows, p.Delivery)
	for _, row := range rows {
		of := ""
		if item := cmp.Or(row.Text("item"), row.Text("medium"), row.Text("name")); len(rows) > 1 && item != "" {
			of = item + ": "
		}
		for _, c := range row.Cautions {
			fmt.Fprintf(&b, "  beware: %s%s\n", of, c)
		}
	}
	return b.String()
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// readVerdict is the last line of read.
func readVerdict(p *message.Proposal) string {
	out := units.Several(len(p.Rows), "row") + " proposed for quotes.csv"
	if len(p.Delivery) > 0 {
		out += fmt.Sprintf(" and %d for delivery.csv", len(p.Delivery))
	}
	short := 0
	for _, row := range slices.Concat(p.Rows, p.Delivery) {
		if !row.Complete() {
			short++
		}
	}
	if short > 0 {
		out += fmt.Sprintf(", %d with cells missing", short)
	}
	if len(p.Asked) > 0 {
		out += "; " + units.Several(len(p.Asked), "part") + " asked"
	}
	return out + "; " + units.Several(len(p.NotUnderstood()), "part") + " not understood; no job was changed"
}

// ReadRemark says on standard error what rows alone cannot.
func ReadRemark(p *message.Proposal, note, flag string) string {
	if note != "" {
		note = "note: " + note + "\n"
	}
	doubtful := func(r message.Row) bool { return !r.Complete() || len(r.Cautions) > 0 }
	if len(p.NotUnderstood())+len(p.Asked) > 0 || slices.ContainsFunc(slices.Concat(p.Rows, p.Delivery), doubtful) {
		return note + readVerdict(p) + "\nhint: without " + flag + " each cell says where it comes from\n"
	}
	return note
}

// OtherFile says on standard error that rows of quotes are not all.
func OtherFile(p *message.Proposal) string {
	if len(p.Delivery) == 0 {
		return ""
	}
	return "hint: what delivery costs is in " + units.Several(len(p.Delivery), "row") + " for delivery.csv, printed by --delivery-csv\n"
}

// NoDelivery says on standard error why there is no row of delivery.csv.
func NoDelivery(p *message.Proposal) string {
	if len(p.Delivery) > 0 {
		return ""
	}
	return "note: no terms need delivery.csv; what delivery and free_over can hold is in the rows of --csv\n"
}
