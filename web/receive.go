package web

import (
	"context"
	"net/http"
	"slices"

	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/received"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
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
	Came, Refused, Billed, Note                       string
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
	Billed  []billedView
	// BilledWords say what the bills ask for more in all.
	BilledWords string
	Coming      []comingView
	Words       []string
	Why         []string
	Buy         []finishView
	Notes       []papers.Note
	Letters     []string // names of the files
	Orders      []string // names of the files of orders that finish the beds
	Keep        string   // what was counted against, for keeping them; "" where they cannot be kept
}

type countedView struct{ Supplier, Name, Pack, Ordered, Came, Refused, Short, Over string }

// billedView is a price on a bill against that of the order.
type billedView struct{ Supplier, Name, Packs, Agreed, Price, More string }

// comingView is what is under way.
type comingView struct{ Supplier, Name, Packs, Order, Until string }

// ComingWords say what being under way means.
func (v settledView) ComingWords() string { return received.ComingWords }

type finishView struct{ Supplier, What, Packs, Site, Money string }

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
	if v.Settled, err = h.settled(r, a, c, ordered, arrived); err != nil {
		return err
	}
	v.Settled.Planned, v.Settled.Lying = len(c.orders) == 0 && !v.Lying, len(c.orders) == 0 && v.Lying
	if v.Settled.Lying && !h.opt.ReadOnly {
		v.Settled.Keep = countState(a, v.Rows)
	}
	render(w, http.StatusOK, "receive", v)
	return nil
}

// settled sets what came against what was ordered.
func (h *Handler) settled(r *http.Request, a *desk.Answer, c *count, ordered []received.Ordered, arrived []received.Arrival) (*settledView, error) {
	sc := h.scribe(r, a.Job)
	day := received.LastDay(a.Job, arrived)
	counted := received.Count(a.Job, ordered, arrived, day)
	finish, err := risk.Finish(r.Context(), a.Job, received.Stock(counted), day, h.desk.Search(a.Job))
	if err != nil {
		return nil, err
	}
	s := received.Settled(a.Job, counted, day, finish)
	v := &settledView{Words: s.Words(sc.Money), Notes: papers.Notes(a.Job, counted, sc.Style())}
	several := len(quotes.Sites(a.Job)) > 1
	for _, c := range counted {
		name := c.Quote.Name
		if several {
			name += papers.AtSite("at", c.Site)
		}
		v.Counted = append(v.Counted, countedView{c.Quote.Supplier, name, c.Quote.Pack.Raw, c.Ordered.String(), c.Arrived.String(), c.Rejected.String(), c.Short().String(), c.Over().String()})
		for _, b := range c.Bills {
			v.Billed = append(v.Billed, billedView{c.Quote.Supplier, name, b.Packs.String(), sc.Price(b.Agreed), sc.Price(b.Price), sc.Money(b.More)})
		}
		for _, p := range c.Coming {
			v.Coming = append(v.Coming, comingView{c.Quote.Supplier, name, c.Quote.PacksWords(p.Packs), p.Order, p.Until()})
		}
	}
	v.BilledWords = received.BilledWords(a.Job, counted, sc.Money)
	if s.Plan.Bill == nil {
		v.Why = sc.Obstacles(s.Plan)
	}
	for _, l := range s.Buy {
		v.Buy = append(v.Buy, finishView{l.Quote.Supplier, l.Quote.Name, l.Quote.PacksWords(l.Packs), l.Site, sc.Money(l.Goods)})
	}
	for _, d := range s.Drops {
		v.Buy = append(v.Buy, finishView{d.Supplier, d.Way("delivery"), "", d.Site, sc.Money(d.Fee)})
	}
	if len(s.Buy) > 0 && !s.Tax.IsZero() {
		v.Buy = append(v.Buy, finishView{What: "tax", Money: sc.Money(s.Tax)})
	}
	for _, p := range sheaf.ForJob(a.Job, sheaf.Letters(papers.Letters(a.Job, counted, day), sc.Style())) {
		v.Letters = append(v.Letters, p.Name)
	}
	list, err := h.finishOrders(c, finish, sc.Style())
	if err != nil {
		return nil, err
	}
	for _, p := range sheaf.ForJob(a.Job, list) {
		v.Orders = append(v.Orders, p.Name)
	}
	return v, nil
}

// finishOrders are the files of the orders of what finishes the beds.
func (h *Handler) finishOrders(c *count, f *optimise.Finish, st papers.Style) ([]sheaf.File, error) {
	list, err := h.finishList(c, f, st)
	if err != nil {
		return nil, err
	}
	return sheaf.FinishOrders(list, st), nil
}

// finishList is the orders of what finishes the beds, numbered.
func (h *Handler) finishList(c *count, f *optimise.Finish, st papers.Style) ([]*papers.Order, error) {
	list, err := papers.FinishOrders(f, st)
	if err != nil {
		return nil, err
	}
	all := func(string) bool { return true } // what lies there or was sent along is counted
	return list, h.numberOn(list, all, c.orders...)
}

// receiveLetter sends one letter of complaint, of the count that the form holds.
func (h *Handler) receiveLetter(w http.ResponseWriter, r *http.Request) error {
	return h.receivePaper(w, r, func(a *desk.Answer, _ *count, counted []received.Counted, day quotes.Date) ([]sheaf.File, error) {
		return sheaf.Letters(papers.Letters(a.Job, counted, day), h.scribe(r, a.Job).Style()), nil
	})
}

// receiveOrder sends one order of what finishes the beds, by the count that the form holds.
func (h *Handler) receiveOrder(w http.ResponseWriter, r *http.Request) error {
	return h.receivePaper(w, r, func(a *desk.Answer, c *count, counted []received.Counted, day quotes.Date) ([]sheaf.File, error) {
		finish, err := risk.Finish(r.Context(), a.Job, received.Stock(counted), day, h.desk.Search(a.Job))
		if err != nil {
			return nil, err
		}
		return h.finishOrders(c, finish, h.scribe(r, a.Job).Style())
	})
}

// receivePaper sends one of the papers that are made of the count that the form holds.
func (h *Handler) receivePaper(w http.ResponseWriter, r *http.Request, of func(a *desk.Answer, c *count, counted []received.Counted, day quotes.Date) ([]sheaf.File, error)) error {
	got, err := h.counted(r)
	if err != nil {
		return err
	}
	list, err := of(got.answer, got.count, got.counted, got.day)
	if err != nil {
		return err
	}
	return send(r.Context(), w, papersOf(got.answer.Job, list), r.PathValue("name"))
}

// setAgainst is the count that a form holds, set against what is ordered.
type setAgainst struct {
	answer  *desk.Answer
	count   *count
	counted []received.Counted
	day     quotes.Date // the last on which anything came
	view    receiveView
}

// counted reads the count that a form holds. The error is one of the form's or of the job's files.
func (h *Handler) counted(r *http.Request) (*setAgainst, error) {
	a, err := h.planned(r)
	if err != nil {
		return nil, err
	}
	got := &setAgainst{answer: a}
	if err := h.ordered(r, a, &got.view); err != nil {
		return nil, err
	}
	if got.count, err = readCount(r, got.view.Rows); err != nil {
		return nil, err
	}
	ordered, arrived, err := h.readCame(a, got.count, &got.view)
	if err != nil {
		return nil, err
	}
	if ordered == nil || arrived == nil {
		return nil, refusal.New(http.StatusUnprocessableEntity, "what came cannot be read, so there is no paper about it", "count it under Receive first")
	}
	got.day = received.LastDay(a.Job, arrived)
	got.counted = received.Count(a.Job, ordered, arrived, got.day)
	return got, nil
}

// gates is a sheet to tick for each supplier and site.
func gates(h *Handler, _ context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	ordered, _, _, err := h.standing(a, nil)
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Gates(papers.Gates(a.Job, ordered), sc.Style())), nil
}
