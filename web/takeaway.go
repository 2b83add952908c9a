package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"path"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/share"
	"mediabuy/optimise/talk"
	"mediabuy/papers"
	"mediabuy/papers/page"
	"mediabuy/papers/received"
	"mediabuy/papers/safe"
	"mediabuy/papers/sheaf"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
)

// papersView is what there is to take away.
type papersView struct {
	frame
	Strip strip
	Kinds []kindView
	None  string // why there is no report and no order
}

type kindView struct {
	Name, Note string
	Files      []fileView
	Keep       *keepView // of orders
}

type fileView struct{ Path, Name string }

// paper is one file made when it is asked for.
type paper struct {
	name string
	make func(ctx context.Context, w io.Writer) error
}

// papersOf are papers of a job that need nothing more to be worked out.
func papersOf(job *quotes.Job, list []sheaf.File) []paper {
	var out []paper
	for _, f := range sheaf.ForJob(job, list) {
		out = append(out, paper{f.Name, func(_ context.Context, w io.Writer) error { return f.Write(w) }})
	}
	return out
}

// shelf is the papers of one kind, in order.
type shelf func(h *Handler, ctx context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error)

// shelves are the kinds of paper, by their word in the address.
var shelves = map[string]shelf{"report": reports, "order": orders, "gate": gates, "request": requests, "talk": talks, "statement": statements}

func (h *Handler) papersPage(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	v := papersView{frame: h.frameOf(r, a, "Papers", "/papers"), Strip: h.strip(r, a, nil)}
	v.Busy = !a.Done()
	if v.Busy {
		render(w, http.StatusOK, "papers", v)
		return nil
	}
	if a.Job == nil {
		v.None = "The files have problems, so there is nothing to put on paper."
		if v.Strip.Waiting {
			v.None = "No quote is there yet, so there is nothing to put on paper."
		}
		render(w, http.StatusOK, "papers", v)
		return nil
	}
	kinds := []struct{ word, name, note string }{
		{"report", "The report", "Explains the purchase to someone who never saw how it was found: to print, to send, or as a spreadsheet that works the bill out again."},
		{"order", "Orders", "One for each supplier and site. Those that you send belong into the folder “orders” of the job: what they order is then under way. Until its day is over, what has not come is no complaint and is not bought again, and Receive counts what comes against the CSVs that lie there."},
		{"gate", "Sheets for the gate", "One for each supplier and site, to tick when goods come: what to count, measure and test. They stay with you. What came is counted under Receive."},
		{"statement", "Member statements", "What each member pays and why, and the treasurer's page. Making them solves each group's own order, which takes a moment."},
		{"talk", "For the next talk with each yard", "At which lower prices we would take more of what, each planned again, and what other terms would bring. They name no other supplier, so they can be left with the yard. Making them takes some searches."},
		{"request", "Requests for quotes", "A sheet for each supplier to fill in. The CSV reads straight back as quotes.csv."},
	}
	if a.Plan == nil || a.Plan.Bill == nil {
		v.None = "There is no plan, so there is no report and no order. " + v.Strip.Alarm + "."
		kinds = kinds[len(kinds)-1:]
	}
	sc := h.scribe(r, a.Job)
	for _, k := range kinds {
		var names []string
		switch k.word { // making some takes a moment, and their names are known before
		case "statement":
			names = sheaf.StatementNames(a.Job)
		case "talk":
			names = sheaf.TalkNames(a.Job)
		default:
			list, err := shelves[k.word](h, r.Context(), a, sc)
			if err != nil {
				return err
			}
			for _, p := range list {
				names = append(names, p.name)
			}
		}
		if len(names) == 0 {
			continue
		}
		shown := kindView{Name: k.name, Note: k.note, Files: named(k.word, names)}
		if k.word == "order" {
			list, err := h.planOrders(a, sc)
			if err != nil {
				return err
			}
			if shown.Keep, err = h.keepable(a, list); err != nil {
				return err
			}
		}
		v.Kinds = append(v.Kinds, shown)
	}
	render(w, http.StatusOK, "papers", v)
	return nil
}

// named are the addresses of papers of a kind, and of all of them together.
func named(kind string, names []string) []fileView {
	var out []fileView
	for _, name := range names {
		out = append(out, fileView{"/papers/" + kind + "/" + name, name})
	}
	if len(names) > 2 && kind != "report" {
		out = append(out, fileView{"/papers/" + kind + "/all.zip", "all of them (zip)"})
	}
	return out
}

// fileViews are the addresses of papers that are made already.
func fileViews(kind string, list []paper) []fileView {
	var names []string
	for _, p := range list {
		names = append(names, p.name)
	}
	return named(kind, names)
}

// download makes a paper and sends it as a file.
func (h *Handler) download(w http.ResponseWriter, r *http.Request) error {
	kind, name := r.PathValue("kind"), r.PathValue("name")
	fill, ok := shelves[kind]
	if !ok {
		return refusal.New(http.StatusNotFound, fmt.Sprintf("%q is no kind of paper", kind), "the papers are listed under Papers")
	}
	a, err := h.saved(r.Context(), 0)
	if err != nil {
		return err
	}
	if a.Job == nil || kind != "request" && (a.Plan == nil || a.Plan.Bill == nil) {
		return errNoPlan
	}
	list, err := fill(h, r.Context(), a, h.scribe(r, a.Job))
	if err != nil {
		return err
	}
	return send(r.Context(), w, list, name)
}

// send makes the paper of a name, or all of them, and sends it as a file.
func send(ctx context.Context, w http.ResponseWriter, list []paper, name string) error {
	var b bytes.Buffer
	if name == "all.zip" {
		if err := zipped(ctx, &b, list); err != nil {
			return err
		}
	} else {
		i := slices.IndexFunc(list, func(p paper) bool { return p.name == name })
		if i < 0 {
			return refusal.New(http.StatusNotFound, fmt.Sprintf("there is no paper %q", name), "the papers are listed under Papers")
		}
		if err := list[i].make(ctx, &b); err != nil {
			return err
		}
	}
	w.Header().Set("Content-Type", mediaTypes[path.Ext(name)])
	w.Header().Set("Content-Disposition", `attachment; filename="`+safe.FileName(folder.FileKey(name))+path.Ext(name)+`"`)
	_, _ = w.Write(b.Bytes()) // as in render
	return nil
}

// mediaTypes are those of the papers, by the ending of a name (IANA's list of
// media types; memory).
var mediaTypes = map[string]string{
	".html": "text/html; charset=utf-8", ".pdf": "application/pdf", ".md": "text/markdown; charset=utf-8", ".csv": "text/csv; charset=utf-8",
	".txt": "text/plain; charset=utf-8", ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", ".zip": "application/zip",
}

// reports is the report in each form, and where several pay also for a co-op.
func reports(h *Handler, ctx context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	if h.opt.Report == nil {
		return nil, nil
	}
	forms := []struct {
		end   string
		write func(*page.Page, io.Writer) error
	}{{".pdf", (*page.Page).PDF}, {".html", (*page.Page).HTML}, {".xlsx", (*page.Page).XLSX}, {".md", (*page.Page).Markdown}}
	audiences := []papers.Audience{""} // whoever it is for, as justify has it
	if len(quotes.Members(a.Job)) > 1 {
		audiences = append(audiences, papers.Coop)
	}
	rep, _ := h.spoken(ctx, a, sc.System)
	var out []paper
	for _, who := range audiences {
		base := "report"
		if who == papers.Coop {
			base = "report-coop"
		}
		for _, f := range forms {
			out = append(out, paper{base + f.end, func(ctx context.Context, w io.Writer) error {
				pg, err := desk.Remember(ctx, &a.More, fmt.Sprint("report ", who, sc.System), func(ctx context.Context) (*page.Page, error) {
					return h.opt.Report(ctx, ReportRequest{Reached: a.Reached, Job: a.Job, Warnings: rep.Warnings, Style: sc.Style(), For: who})
				})
				if err != nil {
					return err
				}
				return f.write(pg, w)
			}})
		}
	}
	return out, nil
}

// planOrders is each supplier's order for each site, numbered.
func (h *Handler) planOrders(a *desk.Answer, sc figure.Scribe) ([]*papers.Order, error) {
	list, err := papers.Orders(a.Plan, sc.Style())
	if err != nil {
		return nil, err
	}
	return list, h.numberOn(list, nil)
}

// orders are the papers of the orders of a plan.
func orders(h *Handler, _ context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	list, err := h.planOrders(a, sc)
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Orders(list, sc.Style())), nil
}

// numberOn gives orders numbers that none that lies in the job's folder has, nor any of
// the CSVs of orders that were sent along.
func (h *Handler) numberOn(list []*papers.Order, counted func(string) bool, sent ...sentView) error {
	var lying []files.Source
	for _, dir := range []string{received.OrdersFolder, path.Join(received.OrdersFolder, received.ReplacedFolder)} {
		there, err := h.folder.Within(dir)
		if err != nil {
			return err
		}
		lying = append(lying, there...)
	}
	for _, one := range sent {
		lying = append(lying, files.Source{Name: one.Name, R: strings.NewReader(one.Text)})
	}
	numbers, err := received.NumbersOf(lying)
	if err != nil {
		return err
	}
	return papers.NumberOn(list, numbers, counted)
}

// requests is a sheet for each supplier of the job.
func requests(_ *Handler, _ context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	list, err := papers.Requests(a.Job, nil, sc.Style())
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Requests(list, sc.Style())), nil
}

// talks is a sheet for the next talk with each supplier of the job.
func talks(h *Handler, ctx context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	list, err := desk.Remember(ctx, &a.More, "talks", func(ctx context.Context) ([]*talk.Talk, error) {
		plan, err := h.today(ctx, a)
		if err != nil {
			return nil, err
		}
		if plan.Status != optimise.Optimal {
			return nil, errUnproven
		}
		limit := h.desk.Search(a.Job)
		return talk.Of(ctx, a.Job, plan, quotes.Suppliers(a.Job), talk.Options{Solve: limit, Breakeven: breakeven.Options{TimeLimit: limit.TimeLimit}})
	})
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Talks(list, sc.Style())), nil
}

// statements is what each member pays, and the treasurer's page.
func statements(h *Handler, ctx context.Context, a *desk.Answer, sc figure.Scribe) ([]paper, error) {
	res, err := desk.Remember(ctx, &a.More, "share", func(ctx context.Context) (*share.Result, error) {
		return share.Solve(ctx, a.Job, share.Options{Plan: a.Plan, Solve: optimise.Options{TimeLimit: h.desk.Search(a.Job).TimeLimit}})
	})
	var nobody share.NoMembersError
	if errors.As(err, &nobody) {
		return nil, refusal.New(http.StatusConflict, err.Error(), "a column member in beds.csv says who pays for each bed")
	}
	if err != nil {
		return nil, err
	}
	return papersOf(a.Job, sheaf.Statements(statement.Papers(res, sc.System), sc.Style())), nil
}
