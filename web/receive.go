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
	Lying   bool         // orders in the job's folder stand, and not today's plan
	Settled *settledView // nil before anything is counted
}

// cameView is one line that was ordered, and what was typed about it.
type cameView struct {
	Index                                             int
	Supplier, Name, Item, Ordered, Site, Quote, Order string // Order only where several are of the same
	Came, Refused, Note                               string
	Marks                                             []string
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
	Lying   bool // orders in the job's folder did
	Counted []countedView
	Coming  []comingView
	Words   []string
	Why     []string
	Buy     []finishView
	Notes   []papers.Note
	Letters []string // names of the files
}

type countedView struct{ Supplier, Name, Pack, Ordered, Came, Refused, Short, Over string }

// comingView is what is under way.
type comingView struct{ Supplier, Name, Packs, Order, Until string }

// ComingWords say what being under way means.
func (v settledView) ComingWords() string { return received.ComingWords }

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

// standing are the orders that lie in the job's folder beside those that were sent; where
// there are none of either, today's plan stands for the order.
func (h *Handler) standing(a *desk.Answer, sent []received.Ordered) (list []received.Ordered, lying bool, warned []*quotes.Problem, err error) {
	there, err := h.folder.Within(received.OrdersFolder)
	if err != nil {
		return nil, false, nil, err
	}
	list, warned, err = received.Lying(there, sent, a.Job)
	if err != nil {
		return nil, false, nil, err
	}
	if len(list)+len(sent) > 0 {
		return append(slices.Clip(sent), list...), len(list) > 0, warned, nil
	}
	list, err = papers.PlanOrder(a.Plan)
	return list, false, warned, err
}

// ordered fills a view with what is ordered, line by line, and the sheets for the gate.
func (h *Handler) ordered(r *http.Request, a *desk.Answer, v *receiveView) error {
	if a.Plan == nil || a.Plan.Bill == nil {
		v.None = "There is no plan, so there is nothing to receive. " + v.Strip.Alarm + "."
		return nil
	}
	list, lying, warned, err := h.standing(a, nil)
	if err != nil {
		return err
	}
	v.Lying = lying
	v.told(&quotes.Report{Warnings: warned}, nil)
	several := len(quotes.Sites(a.Job)) > 1
	for i, o := range list {
		row := cameView{Index: i, Supplier: o.Quote.Supplier, Name: o.Quote.Name, Quote: o.Quote.Name, Item: o.Quote.ItemWords(), Ordered: o.Quote.PacksWords(o.Packs), Site: o.Site}
		if several {
			row.Name += papers.AtSite("at", o.Site)
		}
		if slices.ContainsFunc(list, func(b received.Ordered) bool { return b.Order != o.Order && b.Quote == o.Quote && b.Site == o.Site }) {
			row.Order = o.Order
			row.Name += ", order " + o.Order
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
	ordered, arrived, err := h.readCame(a, c, &v)
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
	v.Settled.Planned, v.Settled.Lying = len(c.orders) == 0 && !v.Lying, len(c.orders) == 0 && v.Lying
	render(w, http.StatusOK, "receive", v)
	return nil
}

// settled sets what came against what was ordered.
func (h *Handler) settled(r *http.Request, a *desk.Answer, ordered []received.Ordered, arrived []received.Arrival) (*settledView, error) {
	sc := h.scribe(r, a.Job)
	day := received.LastDay(a.Job, arrived)
	counted := received.Count(a.Job, ordered, arrived, day)
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
		for _, p := range c.Coming {
			v.Coming = append(v.Coming, comingView{c.Quote.Supplier, name, c.Quote.PacksWords(p.Packs), p.Order, p.Until()})
		}
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
	ordered, arrived, err := h.readCame(a, c, &v)
	if err != nil {
		return err
	}
	if ordered == nil || arrived == nil {
		return refusal.New(http.StatusUnprocessableEntity, "what came cannot be read, so there is no letter about it", "count it under Receive first")
	}
	day := received.LastDay(a.Job, arrived)
	list := sheaf.Letters(papers.Letters(a.Job, received.Count(a.Job, ordered, arrived, day), day), h.scribe(r, a.Job).Style())
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
	heads := append(slices.Clone(received.ArrivalHeads), received.OrderHead)
	rows := [][]string{heads}
	for _, i := range c.typed {
		row := make([]string, len(heads))
		set := func(head, text string) { row[slices.Index(heads, head)] = text }
		set(received.OrderHead, c.rows[i].Order)
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
func gates(h *Handler, _ context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	ordered, _, _, err := h.standing(a, nil)
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Gates(papers.Gates(a.Job, ordered), sc.Style())), nil
}
