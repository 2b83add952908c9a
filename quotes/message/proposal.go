package message

import (
	"slices"
	"strings"
)

// Columns lists the headings of quotes.csv that a row may fill, in the order of that file.
var Columns = []string{"supplier", "item", "medium", "form", "pack", "step", "price", "breaks", "break_kind", "min_qty", "max_qty", "size",
	"density", "carbonate", "rinse_loss", "tax", "valid_until", "ready_by", "delivery", "free_over", "notes"}

// DeliveryColumns lists the headings of delivery.csv that a row may fill, in the order of that file.
var DeliveryColumns = []string{"supplier", "name", "covers", "order_fee", "load_fee", "load_volume", "load_weight", "haul", "free_over", "min_order", "tax"}

// required lists the headings without which a row is no quote, and deliveryRequired those without which it is no way of
// delivery.
var (
	required         = []string{"supplier", "medium", "pack", "price"}
	deliveryRequired = []string{"supplier"}
)

// Range is the part of [Proposal.Text] from byte From up to, not including, byte To.
type Range struct {
	From int `json:"from"`
	To   int `json:"to"`
}

// Use says what became of a part of the message. The zero Use is invalid.
type Use string

// Uses.
const (
	Read    Use = "read"           // in a cell of a row, see Span.Cells
	Aside   Use = "set aside"      // a greeting, a signature, a word that carries nothing; Span.Why says which
	Unclear Use = "not understood" // for a person to read; Span.Why says why
	Blank   Use = "blank"          // white space and punctuation between the others
)

// Ref names a cell: a file, a row proposed for it, counted from 0, and a heading.
type Ref struct {
	File   string `json:"file"` // quotes.csv or delivery.csv
	Row    int    `json:"row"`
	Column string `json:"column"`
}

// Span is one part of the message and what became of it.
type Span struct {
	Range
	Use   Use    `json:"use"`
	Words string `json:"words"`           // the part itself
	Why   string `json:"why,omitempty"`   // for Aside and Unclear; for Read the rule
	Cells []Ref  `json:"cells,omitempty"` // for Read: where it went, at least one
}

// Cell is a proposed cell.
type Cell struct {
	Text string  `json:"text"` // as it would stand in quotes.csv
	From []Range `json:"from"` // the words it was read from, in order; empty when the caller gave it
	Why  string  `json:"why"`  // the rule that read it
}

// Row is a proposed row of quotes.csv or delivery.csv.
type Row struct {
	Cells    map[string]Cell `json:"cells"`    // by heading; a heading without words in the message is not there
	Missing  []string        `json:"missing"`  // required headings that are not there
	Cautions []string        `json:"cautions"` // what to look at before saying yes
}

// Text is the proposed text under a heading, "" when there is none.
func (r *Row) Text(heading string) string { return r.Cells[heading].Text }

// Complete says whether the row has every required cell.
func (r *Row) Complete() bool { return len(r.Missing) == 0 }

// Column says what a column of a pasted table was taken for.
type Column struct {
	Number  int    `json:"number"`  // from 1
	Heading string `json:"heading"` // "" when it could not be told
	Why     string `json:"why"`
}

// Proposal is what a message was read as. Nothing of it is in a job.
type Proposal struct {
	Text    string   `json:"text"`    // the message, which Spans count in
	Columns []Column `json:"columns"` // of a pasted table; empty for sentences
	Rows    []Row    `json:"rows"`    // of quotes.csv, in the order of the message
	// Delivery holds rows of delivery.csv, for suppliers whose terms are more than the cells delivery and free_over can
	// hold. Those two are then not in Rows. It is empty unless Options.Delivery asks for it.
	Delivery []Row `json:"delivery"`
	// Asked holds the parts that read in several ways, in order; see [Proposal.Answer].
	Asked []Question `json:"asked"`
	Spans []Span     `json:"spans"` // in order; together they are Text

	from *source
}

// NotUnderstood lists the spans left for a person, in order.
func (p *Proposal) NotUnderstood() []Span { return p.spans(Unclear) }

// SetAside lists the spans that carry nothing for a quote, in order.
func (p *Proposal) SetAside() []Span { return p.spans(Aside) }

func (p *Proposal) spans(u Use) []Span {
	return slices.DeleteFunc(slices.Clone(p.Spans), func(s Span) bool { return s.Use != u })
}

// Words is the text of a range, its white space made single spaces.
func (p *Proposal) Words(r Range) string {
	return strings.Join(strings.Fields(p.Text[r.From:r.To]), " ")
}

// Line is the number of the line, from 1, on which byte at of the message stands.
func (p *Proposal) Line(at int) int { return 1 + strings.Count(p.Text[:at], "\n") }
