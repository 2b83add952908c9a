// Package sheaf says which files the papers of a job become and what each is called: a
// paper that is printed and kept is a PDF and a CSV, named by what it is and who it is
// for, so that two of one set are never called alike. A file is made when it is written.
package sheaf

import (
	"io"
	"strings"

	"mediabuy/optimise/talk"
	"mediabuy/papers"
	"mediabuy/papers/page"
	"mediabuy/papers/safe"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
)

// File is one file of a paper.
type File struct {
	Name  string
	Write func(io.Writer) error

	page func() *page.Page // of a PDF
}

// pdf is a paper to print.
func pdf(base string, of func() *page.Page) File {
	return File{Name: base + ".pdf", Write: func(w io.Writer) error { return of().PDF(w) }, page: of}
}

// ForJob are the files of a job with a page beside each PDF that lacks some letters: it has
// them all and prints from a browser. Where the job itself names something in such letters
// that is every PDF, so which files there are is known before any paper is made; else what
// is not of the job, such as a note on what came, is looked for in each paper.
func ForJob(job *quotes.Job, list []File) []File {
	all := papers.LettersLacking(job) != ""
	var out []File
	for _, f := range list {
		out = append(out, f)
		if f.page != nil && (all || f.page().Lacks() != "") {
			out = append(out, f.onScreen())
		}
	}
	return out
}

// onScreen is the page beside a PDF.
func (f File) onScreen() File {
	return File{Name: strings.TrimSuffix(f.Name, ".pdf") + ".html", Write: func(w io.Writer) error { return f.page().HTML(w) }}
}

// Orders are a PDF to send and a CSV to keep for each order.
func Orders(list []*papers.Order, st papers.Style) []File {
	return sheets(list, st, func(o *papers.Order) []string { return []string{"order", o.Supplier, o.Site} })
}

// FinishOrders are those of orders that finish a job. Their names hold their numbers, so
// that they can lie beside the orders before them.
func FinishOrders(list []*papers.Order, st papers.Style) []File {
	return sheets(list, st, func(o *papers.Order) []string { return []string{"order", o.Supplier, o.Site, o.Number} })
}

// Gates are a PDF to tick and a CSV to type into for each sheet of a gate.
func Gates(list []*papers.Gate, st papers.Style) []File {
	return sheets(list, st, func(g *papers.Gate) []string { return []string{"gate", g.Supplier, g.Site} })
}

// Requests are a PDF to write on and a CSV to fill in for each request, and behind them
// the CSV of its trucks.
func Requests(list []*papers.Request, st papers.Style) []File {
	var words [][]string
	for _, r := range list {
		words = append(words, []string{"request", r.Supplier}, []string{"request", r.Supplier, "delivery"})
	}
	names := safe.FileNames(words)
	var out []File
	for i, r := range list {
		goods, trucks := names[2*i], names[2*i+1]
		out = append(out, pdf(goods, func() *page.Page { return r.Page(st) }), File{Name: goods + ".csv", Write: r.CSV}, File{Name: trucks + ".csv", Write: r.DeliveryCSV})
	}
	return out
}

// sheets is each paper of a list as PDF and as CSV, named by some words.
func sheets[T interface {
	Page(papers.Style) *page.Page
	CSV(io.Writer) error
}](list []T, st papers.Style, name func(T) []string) []File {
	var words [][]string
	for _, p := range list {
		words = append(words, name(p))
	}
	var out []File
	for i, base := range safe.FileNames(words) {
		out = append(out, pdf(base, func() *page.Page { return list[i].Page(st) }), File{Name: base + ".csv", Write: list[i].CSV})
	}
	return out
}

// Letters are a PDF for each letter.
func Letters(list []*papers.Letter, st papers.Style) []File {
	var words [][]string
	for _, l := range list {
		words = append(words, []string{"letter", l.Supplier})
	}
	var out []File
	for i, base := range safe.FileNames(words) {
		out = append(out, pdf(base, func() *page.Page { return list[i].Page(st) }))
	}
	return out
}

// Notes are a text for each note.
func Notes(list []papers.Note) []File {
	var words [][]string
	for _, n := range list {
		words = append(words, []string{"note", n.Supplier})
	}
	var out []File
	for i, base := range safe.FileNames(words) {
		out = append(out, File{Name: base + ".txt", Write: func(w io.Writer) error {
			_, err := io.WriteString(w, list[i].Text)
			return err
		}})
	}
	return out
}

// Talks are a PDF to take along and a CSV to keep for each talk.
func Talks(list []*talk.Talk, st papers.Style) []File {
	var suppliers []string
	for _, t := range list {
		suppliers = append(suppliers, t.Supplier)
	}
	var out []File
	for i, base := range talkNames(suppliers) {
		out = append(out,
			pdf(base, func() *page.Page { return papers.TalkPage(list[i], st) }),
			File{Name: base + ".csv", Write: func(w io.Writer) error { return papers.TalkCSV(list[i], w) }})
	}
	return out
}

// TalkNames are the names of what [Talks] and [ForJob] make for the suppliers of a job,
// known before the talks are worked out.
func TalkNames(job *quotes.Job) []string { return ended(job, talkNames(quotes.Suppliers(job))) }

func talkNames(suppliers []string) []string {
	var words [][]string
	for _, s := range suppliers {
		words = append(words, []string{"talk", s})
	}
	return safe.FileNames(words)
}

// Statements are a PDF and a CSV for each statement and for the treasurer's page.
func Statements(list []statement.Paper, st papers.Style) []File {
	var out []File
	for _, p := range list {
		p.Page.Letter = st.Letter
		out = append(out, pdf(p.Name, func() *page.Page { return p.Page }), File{Name: p.Name + ".csv", Write: func(w io.Writer) error {
			_, err := w.Write(p.CSV)
			return err
		}})
	}
	return out
}

// StatementNames are the names of what [Statements] and [ForJob] make for a job, known
// before its bill is split; none where no two share it.
func StatementNames(job *quotes.Job) []string {
	members := quotes.Members(job)
	if len(members) < 2 {
		return nil
	}
	words := [][]string{{"treasurer"}}
	for _, m := range members {
		words = append(words, []string{"statement", m})
	}
	return ended(job, safe.FileNames(words))
}

// ended is each name as a paper that is printed and kept.
func ended(job *quotes.Job, bases []string) []string {
	ends := []string{".pdf", ".csv"}
	if papers.LettersLacking(job) != "" {
		ends = []string{".pdf", ".html", ".csv"}
	}
	var out []string
	for _, base := range bases {
		for _, end := range ends {
			out = append(out, base+end)
		}
	}
	return out
}
