package web

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/received"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
	"mediabuy/web/internal/refusal"
)

// receiveView is what to do before goods come, and what to do with what came.
type receiveView struct {
	frame
	Strip   strip
	None    string // why there is nothing to receive
	Gate    []fileView
	Day     string // that was typed
	Rows    []cameView
	Orders  []sentView // CSVs of orders and of counts that were sent before, to go along with the next request
	Counts  []sentView
	Bad     []string // problems of these files
	Warned  []string
	Settled *settledView // nil before anything is counted
}

// cameView is one line that was ordered, and what was typed about it.
type cameView struct {
	Index                                      int
	Supplier, Name, Item, Ordered, Site, Quote string
	Came, Refused, Note                        string
	Marks                                      []string
}

// sentView is a file that a request carried.
type sentView struct{ Name, Text string }

// sentList is the files of one field.
type sentList struct {
	Field string
	List  []sentView
}

// SentOrders and SentCounts are the files to go along with the next request.
func (v receiveView) SentOrders() sentList { return sentList{"orders", v.Orders} }
func (v receiveView) SentCounts() sentList { return sentList{"counts", v.Counts} }

// settledView is what arrived against what was ordered, and the way to finish.
type settledView struct {
	Planned bool // today's plan stood for the order
	Counted []countedView
	Words   []string
	Why     []string
	Buy     []finishView
	Notes   []papers.Note
	Letters []string // names of the files
}

type countedView struct{ Supplier, Name, Pack, Ordered, Came, Refused, Short, Over string }

type finishView struct{ Supplier, What, Packs, Site, Money string }

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

// receivePage shows what is ordered and asks what came.
func (h *Handler) receivePage(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	v := receiveView{frame: h.frameOf(r, a, "Receive", "/receive"), Strip: h.strip(r, a, nil)}
	v.Busy = !a.Done()
	if !v.Busy {
		err = h.ordered(r, a, &v)
	}
	if err != nil {
		return err
	}
	render(w, http.StatusOK, "receive", v)
	return nil
}

// ordered fills a view with today's plan, line by line, and the sheets for the gate.
func (h *Handler) ordered(r *http.Request, a *desk.Answer, v *receiveView) error {
	if a.Plan == nil || a.Plan.Bill == nil {
		v.None = "There is no plan, so there is nothing to receive. " + v.Strip.Alarm + "."
		return nil
	}
	list, err := papers.PlanOrder(a.Plan)
	if err != nil {
		return err
	}
	several := len(quotes.Sites(a.Job)) > 1
	for i, o := range list {
		row := cameView{Index: i, Supplier: o.Quote.Supplier, Name: o.Quote.Name, Quote: o.Quote.Name, Item: o.Quote.ItemWords(), Ordered: o.Quote.PacksWords(o.Packs), Site: o.Site}
		if several {
			row.Name += papers.AtSite("at", o.Site)
		}
		v.Rows = append(v.Rows, row)
	}
	gate, err := gates(h, r.Context(), a, h.scribe(r, a.Job))
	if err != nil {
		return err
	}
	v.Gate = fileViews("gate", gate)
	return nil
}

// receiveCount counts what came and shows how to finish.
func (h *Handler) receiveCount(w http.ResponseWriter, r *http.Request) error {
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	v := receiveView{frame: h.frameOf(r, a, "Receive", "/receive"), Strip: h.strip(r, a, nil)}
	if err := h.ordered(r, a, &v); err != nil {
		return err
	}
	c, err := readCount(r, v.Rows)
	if err != nil {
		return err
	}
	v.Day, v.Rows, v.Orders, v.Counts = c.day, c.rows, c.orders, c.counts
	ordered, arrived, err := c.read(a, &v)
	if err != nil {
		return err
	}
	if ordered == nil || arrived == nil {
		render(w, http.StatusUnprocessableEntity, "receive", v)
		return nil
	}
	if v.Settled, err = h.settled(r, a, ordered, arrived); err != nil {
		return err
	}
	v.Settled.Planned = len(c.orders) == 0
	render(w, http.StatusOK, "receive", v)
	return nil
}

// settled sets what came against what was ordered.
func (h *Handler) settled(r *http.Request, a *desk.Answer, ordered []received.Ordered, arrived []received.Arrival) (*settledView, error) {
	sc := h.scribe(r, a.Job)
	counted, day := received.Count(a.Job, ordered, arrived), received.LastDay(a.Job, arrived)
	finish, err := risk.Finish(r.Context(), a.Job, received.Stock(counted), day, h.desk.Search(a.Job))
	if err != nil {
		return nil, err
	}
	s := received.Settled(counted, day, finish)
	v := &settledView{Words: s.Words(sc.Money), Notes: papers.Notes(a.Job, counted, sc.Style())}
	several := len(quotes.Sites(a.Job)) > 1
	for _, c := range counted {
		name := c.Quote.Name
		if several {
			name += papers.AtSite("at", c.Site)
		}
		v.Counted = append(v.Counted, countedView{c.Quote.Supplier, name, c.Quote.Pack.Raw, c.Ordered.String(), c.Arrived.String(), c.Rejected.String(), c.Short().String(), c.Over().String()})
	}
	if s.Plan.Bill == nil {
		v.Why = sc.Obstacles(s.Plan)
	}
	for _, l := range s.Buy {
		v.Buy = append(v.Buy, finishView{l.Quote.Supplier, l.Quote.Name, l.Quote.PacksWords(l.Packs), l.Site, sc.Money(l.Goods)})
	}
	for _, d := range s.Drops {
		v.Buy = append(v.Buy, finishView{d.Supplier, "delivery, " + d.Name, "", d.Site, sc.Money(d.Fee)})
	}
	if len(s.Buy) > 0 && !s.Tax.IsZero() {
		v.Buy = append(v.Buy, finishView{What: "tax", Money: sc.Money(s.Tax)})
	}
	for _, p := range sheaf.ForJob(a.Job, sheaf.Letters(papers.Letters(a.Job, counted, day), sc.Style())) {
		v.Letters = append(v.Letters, p.Name)
	}
	return v, nil
}

// receiveLetter sends one letter of complaint, of the count that the form holds.
func (h *Handler) receiveLetter(w http.ResponseWriter, r *http.Request) error {
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	var v receiveView
	if err := h.ordered(r, a, &v); err != nil {
		return err
	}
	c, err := readCount(r, v.Rows)
	if err != nil {
		return err
	}
	ordered, arrived, err := c.read(a, &v)
	if err != nil {
		return err
	}
	if ordered == nil || arrived == nil {
		return refusal.New(http.StatusUnprocessableEntity, "what came cannot be read, so there is no letter about it", "count it under Receive first")
	}
	counted := received.Count(a.Job, ordered, arrived)
	list := sheaf.Letters(papers.Letters(a.Job, counted, received.LastDay(a.Job, arrived)), h.scribe(r, a.Job).Style())
	return send(r.Context(), w, papersOf(a.Job, list), r.PathValue("name"))
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
		row.Came, row.Refused, row.Note = strings.TrimSpace(r.PostForm.Get("came."+at)), strings.TrimSpace(r.PostForm.Get("refused."+at)), strings.TrimSpace(r.PostForm.Get("note."+at))
		if row.Came != "" || row.Refused != "" || row.Note != "" {
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
	rows := [][]string{received.ArrivalHeads}
	for _, i := range c.typed {
		row := make([]string, len(received.ArrivalHeads))
		set := func(head, text string) { row[slices.Index(received.ArrivalHeads, head)] = text }
		set("quote", c.rows[i].Quote)
		set("site", c.rows[i].Site)
		came := "packs"
		if units := strings.TrimLeft(c.rows[i].Came, "0123456789.,+- "); units != "" { // a volume that was measured has its unit
			came = "volume"
		}
		set(came, c.rows[i].Came)
		set("rejected", c.rows[i].Refused)
		set("date", c.day)
		set("note", c.rows[i].Note)
		rows = append(rows, row)
	}
	var b strings.Builder
	err := csv.NewWriter(&b).WriteAll(rows)
	return b.String(), err
}

// read reads orders and arrivals; nil for those with problems, which are then told in
// the view: what was typed at its row.
func (c *count) read(a *desk.Answer, v *receiveView) (ordered []received.Ordered, arrived []received.Arrival, err error) {
	var list []files.Source
	for _, o := range c.orders {
		list = append(list, files.Source{Name: o.Name, R: strings.NewReader(o.Text)})
	}
	if len(list) == 0 {
		if ordered, err = papers.PlanOrder(a.Plan); err != nil {
			return nil, nil, err
		}
	} else {
		var rep *quotes.Report
		if ordered, rep, err = received.ReadOrders(list, a.Job); err != nil {
			return nil, nil, err
		}
		v.told(rep, nil)
		if !rep.OK() {
			return nil, nil, nil
		}
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
			v.Rows[typed[i]].Marks = append(v.Rows[typed[i]].Marks, sentence(p.Message()))
			continue
		}
		v.Bad = append(v.Bad, p.Pos.String()+": "+p.Message())
	}
	for _, p := range rep.Warnings {
		v.Warned = append(v.Warned, p.Pos.String()+": "+optimise.WarningText(p))
	}
}

// gates is a sheet to tick for each supplier and site.
func gates(_ *Handler, _ context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	ordered, err := papers.PlanOrder(a.Plan)
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Gates(papers.Gates(a.Job, ordered), sc.Style())), nil
}
