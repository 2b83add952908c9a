package web

import (
	"encoding/csv"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/refusal"
)

// typedName is what the count that was typed is called in problems.
const typedName = "what was typed"

// mostSent bounds the files that one request may carry.
const mostSent = 50

// count is what a form says of orders and arrivals.
type count struct {
	orders, counts []sentView
	day            string
	rows           []cameView
	typed          []int // rows of rows that hold something, in the order of the lines of typedCSV
}

// readCount reads the form: files of orders and of counts, those sent along from
// before, and what was typed beside the lines of rows.
func readCount(r *http.Request, rows []cameView) (*count, error) {
	if err := readFiles(r); err != nil {
		return nil, err
	}
	c := &count{day: strings.TrimSpace(r.PostForm.Get("day")), rows: rows}
	for _, kind := range []struct {
		field string
		to    *[]sentView
	}{{"orders", &c.orders}, {"counts", &c.counts}} {
		names, texts := r.PostForm[kind.field+".name"], r.PostForm[kind.field+".text"]
		for i := range min(len(names), len(texts)) {
			*kind.to = append(*kind.to, sentView{names[i], texts[i]})
		}
		chosen := r.MultipartForm.File[kind.field]
		if slices.ContainsFunc(chosen, func(f *multipart.FileHeader) bool { return f.Size > 0 }) {
			*kind.to = nil // files chosen anew take the place of those sent before
		}
		for _, f := range chosen {
			if f.Size == 0 {
				continue
			}
			text, err := sentText(f)
			if err != nil {
				return nil, err
			}
			*kind.to = append(*kind.to, sentView{f.Filename, text})
		}
		if len(*kind.to) > mostSent {
			return nil, refusal.New(http.StatusRequestEntityTooLarge, fmt.Sprintf("more than %d files were sent", mostSent), "put the counts of several days into one file")
		}
	}
	for i := range c.rows {
		row, at := &c.rows[i], strconv.Itoa(i)
		for field, to := range map[string]*string{"came.": &row.Came, "refused.": &row.Refused, "billed.": &row.Billed, "note.": &row.Note} {
			*to = strings.TrimSpace(r.PostForm.Get(field + at))
		}
		if row.Came+row.Refused+row.Billed+row.Note != "" {
			c.typed = append(c.typed, i)
		}
	}
	return c, nil
}

// sentText is the text of a file that was chosen.
func sentText(f *multipart.FileHeader) (string, error) {
	file, err := f.Open()
	if err != nil {
		return "", fmt.Errorf("opening %s: %w", f.Filename, err)
	}
	defer file.Close()
	raw, err := io.ReadAll(file)
	if err != nil {
		return "", fmt.Errorf("reading %s: %w", f.Filename, err)
	}
	text, fault := csvfile.Decode(raw)
	if fault != nil {
		return "", refusal.New(http.StatusUnprocessableEntity, f.Filename+": "+fault.Found+", want "+fault.Wanted, "choose the CSV")
	}
	return text.String, nil
}

// typedCSV is what was typed as a file of arrivals, for the one reader of these.
func (c *count) typedCSV() (string, error) {
	heads := append(slices.Clone(received.ArrivalHeads), received.OrderHead, received.BilledHead)
	rows := [][]string{heads}
	for _, i := range c.typed {
		row := make([]string, len(heads))
		set := func(head, text string) { row[slices.Index(heads, head)] = text }
		set(received.OrderHead, c.rows[i].Order)
		set("quote", c.rows[i].Quote)
		set("site", c.rows[i].Site)
		came := "packs"
		if _, err := units.ParseVolume(c.rows[i].Came, units.Options{}); err == nil { // a volume that was measured has its unit
			came = "volume"
		}
		set(came, c.rows[i].Came)
		set("rejected", c.rows[i].Refused)
		set(received.BilledHead, c.rows[i].Billed)
		set("date", c.day)
		set("note", c.rows[i].Note)
		rows = append(rows, row)
	}
	var b strings.Builder
	err := csv.NewWriter(&b).WriteAll(rows)
	return b.String(), err
}

// readCame reads orders and arrivals; nil for those with problems, which are then told in
// the view: what was typed at its row.
func (h *Handler) readCame(a *desk.Answer, c *count, v *receiveView) (ordered []received.Ordered, arrived []received.Arrival, err error) {
	var list []files.Source
	for _, o := range c.orders {
		list = append(list, files.Source{Name: o.Name, R: strings.NewReader(o.Text)})
	}
	var sent []received.Ordered
	if len(list) > 0 {
		var rep *quotes.Report
		if sent, rep, err = received.ReadOrders(list, a.Job); err != nil {
			return nil, nil, err
		}
		v.Warned = nil // of what lies there is told beside what was sent
		v.told(rep, nil)
		if !rep.OK() {
			return nil, nil, nil
		}
	}
	ordered, _, warned, err := h.standing(a, sent)
	if err != nil {
		return nil, nil, err
	}
	if len(sent) > 0 {
		v.told(&quotes.Report{Warnings: warned}, nil)
	}
	counts := slices.Clone(c.counts)
	if len(c.typed) > 0 {
		text, err := c.typedCSV()
		if err != nil {
			return nil, nil, err
		}
		counts = append(counts, sentView{typedName, text})
	}
	if len(counts) == 0 {
		v.Bad = append(v.Bad, "Nothing is counted yet: write what came beside what was ordered, 0 if nothing did, or choose a file.")
		return ordered, nil, nil
	}
	arrived, sound := []received.Arrival{}, true
	for _, one := range counts {
		list, rep, err := received.ReadArrivals(strings.NewReader(one.Text), one.Name, a.Job, ordered)
		if err != nil {
			return nil, nil, err
		}
		v.told(rep, c.typed)
		sound = sound && rep.OK()
		arrived = append(arrived, list...)
	}
	if !sound {
		return ordered, nil, nil
	}
	return ordered, arrived, nil
}

// told puts problems and warnings into the view. typed are the rows that the lines of
// a typed count behind its headings stand for.
func (v *receiveView) told(rep *quotes.Report, typed []int) {
	for _, p := range rep.Problems {
		if i := p.Line - 2; p.File == typedName && i >= 0 && i < len(typed) {
			v.Rows[typed[i]].Marks = append(v.Rows[typed[i]].Marks, refusal.Sentence(p.Message()))
			continue
		}
		v.Bad = append(v.Bad, p.Pos.String()+": "+p.Message())
	}
	for _, p := range rep.Warnings {
		v.Warned = append(v.Warned, p.Pos.String()+": "+optimise.WarningText(p))
	}
}
