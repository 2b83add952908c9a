package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"path"
	"slices"
	"strings"

	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/received"
	"mediabuy/papers/sheaf"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
)

// keepView is what becomes of orders once they are sent: they are kept in the job's folder.
type keepView struct {
	State    string // names the files that they were worked out from
	Kept     bool   // all of them lie there already
	Others   string // further orders that lie there, in words; "" for none
	ReadOnly bool
}

// keepable says what there is to keep of the orders of a plan.
func (h *Handler) keepable(a *desk.Answer, list []*papers.Order) (*keepView, error) {
	v := &keepView{State: a.Key, Kept: true, ReadOnly: h.opt.ReadOnly}
	there, err := h.folder.Within(received.OrdersFolder)
	if err != nil {
		return nil, err
	}
	lying, _, err := received.Lying(there, nil, a.Job)
	if err != nil {
		return nil, err
	}
	if there, err = h.folder.Within(received.OrdersFolder); err != nil { // the first have been read to their ends
		return nil, err
	}
	numbers, err := received.NumbersOf(there)
	if err != nil {
		return nil, err
	}
	var mine, others []string
	for _, o := range list {
		var b strings.Builder
		if err := o.CSV(&b); err != nil {
			return nil, err
		}
		_, same := numbers.Has(o.Number, b.String())
		v.Kept = v.Kept && same
		mine = append(mine, o.Number)
	}
	for _, o := range lying {
		if words := fmt.Sprintf("%s to %s", o.Order, o.Quote.Supplier); !slices.Contains(mine, o.Order) && !slices.Contains(others, words) {
			others = append(others, words)
		}
	}
	v.Others = units.Listed(others)
	return v, nil
}

// keepOrders puts the orders of the plan as it was shown into the job's folder, as the
// command order does: all of them or none, in place of no other order.
func (h *Handler) keepOrders(w http.ResponseWriter, r *http.Request) error {
	if h.opt.ReadOnly {
		return folder.ErrReadOnly
	}
	if err := readPost(r); err != nil {
		return err
	}
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	if r.PostForm.Get("state") != a.Key {
		return refusal.New(http.StatusConflict, "the job's files were changed since these orders were shown, so none was kept", "look at the orders under Papers as they are now, and keep those")
	}
	sc := h.scribe(r, a.Job)
	list, err := h.planOrders(a, sc)
	if err != nil {
		return err
	}
	edits, err := h.unkept(r, a, list, sheaf.Orders(list, sc.Style())) // named by all of them, so that no two are called alike
	if err != nil {
		return err
	}
	if err := h.folder.Save("keeping the orders", edits...); err != nil {
		return err
	}
	http.Redirect(w, r, "/papers?said=kept", http.StatusSeeOther)
	return nil
}

// keepFinish puts the orders that finish the beds into the job's folder, by the count that
// the form holds: all of them or none, beside the orders that it was counted against.
func (h *Handler) keepFinish(w http.ResponseWriter, r *http.Request) error {
	if h.opt.ReadOnly {
		return folder.ErrReadOnly
	}
	got, err := h.counted(r)
	if err != nil {
		return err
	}
	a := got.answer
	if len(got.count.orders) > 0 || !got.view.Lying {
		return refusal.New(http.StatusConflict, "the orders that this was counted against do not lie in the job's folder, so none was kept: the first would be forgotten",
			"put their CSVs into the folder “orders” of the job, or keep them under Papers if they are today's plan, and count again")
	}
	if r.PostForm.Get("state") != countState(a, got.view.Rows) {
		return refusal.New(http.StatusConflict, "the job's files or its orders were changed since these orders were shown, so none was kept", "count again under Receive, and keep those")
	}
	finish, err := risk.Finish(r.Context(), a.Job, received.Stock(got.counted), got.day, h.desk.Search(a.Job))
	if err != nil {
		return err
	}
	st := h.scribe(r, a.Job).Style()
	list, err := h.finishList(got.count, finish, st)
	if err != nil {
		return err
	}
	edits, err := h.unkept(r, a, list, sheaf.FinishOrders(list, st))
	if err != nil {
		return err
	}
	if err := h.folder.Save("keeping the orders that finish the beds", edits...); err != nil {
		return err
	}
	http.Redirect(w, r, "/receive?said=kept-more", http.StatusSeeOther)
	return nil
}

// countState names the files of a job and the lines that stand ordered: what is typed beside
// a line is told by its place among them.
func countState(a *desk.Answer, rows []cameView) string {
	sum := sha256.New()
	_, _ = fmt.Fprintf(sum, "%q", a.Key) // a hash takes all that is written
	for _, row := range rows {
		_, _ = fmt.Fprintf(sum, "%q", []string{row.Supplier, row.Name, row.Ordered, row.Quote, row.Site, row.Order})
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// unkept are the files of orders that do not lie in the job's folder yet. It is refused where
// something else lies there under one of their names: it may have been sent.
func (h *Handler) unkept(r *http.Request, a *desk.Answer, list []*papers.Order, files []sheaf.File) ([]folder.Edit, error) {
	there, err := h.folder.Within(received.OrdersFolder)
	if err != nil {
		return nil, err
	}
	numbers, err := received.NumbersOf(there)
	if err != nil {
		return nil, err
	}
	each := len(files) / max(len(list), 1)
	var fresh []sheaf.File
	for i, o := range list {
		var text strings.Builder
		if err := o.CSV(&text); err != nil {
			return nil, err
		}
		if _, same := numbers.Has(o.Number, text.String()); !same {
			fresh = append(fresh, files[i*each:(i+1)*each]...)
		}
	}
	var edits []folder.Edit
	for _, p := range papersOf(a.Job, fresh) {
		name := path.Join(received.OrdersFolder, p.name)
		had, err := h.folder.Has(name)
		if err != nil {
			return nil, err
		}
		if had {
			return nil, refusal.New(http.StatusConflict, fmt.Sprintf("another order lies there as %s, so none was kept", name),
				"if it was sent, it holds and Receive counts it; if it never was, take it out of the folder, then keep these")
		}
		var b bytes.Buffer
		if err := p.make(r.Context(), &b); err != nil {
			return nil, err
		}
		edits = append(edits, folder.Edit{File: name, Tag: (folder.Texts{}).Tag(name), Data: b.Bytes()})
	}
	return edits, nil
}
