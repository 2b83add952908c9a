package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"path/filepath"
	"time"

	"mediabuy/disk"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
)

// Options say what is shown and to whom. Dir must be set; else the zero value
// works.
type Options struct {
	// Dir is the job's folder.
	Dir string
	// ReadOnly keeps every file as it is; questions may still be asked.
	ReadOnly bool
	// Units are shown to whoever has not chosen; nil means those of the job's
	// currency: US for USD, else metric.
	Units *units.System
	// TimeLimit is for each search; 0 means the job's own, or [SearchLimit].
	TimeLimit time.Duration
	// Hosts are names and addresses this page may be called by besides those of
	// this machine itself, such as an address on the local network.
	Hosts []string
	// Now is the clock; nil means [time.Now].
	Now func() time.Time
	// Report makes the report of a plan; nil means that none is offered. It is the
	// caller's so that the page hands out the very report that the command writes.
	Report func(ctx context.Context, in ReportRequest) (*page.Page, error)
	// Advise says in sentences where buying more costs less and what to be careful
	// about; nil means that nothing is said.
	Advise func(p *optimise.Plan, sys units.System) (more []string, cautions []caution.Caution)
}

// ReportRequest is what a report is made of.
type ReportRequest struct {
	Reached  *risk.Reached // the plan, and how sure it was asked to be
	Job      *quotes.Job   // as it was read
	Warnings []*quotes.Problem
	Style    papers.Style
	For      papers.Audience
}

// SearchLimit is how long one search may take where nobody says otherwise.
const SearchLimit = desk.SearchLimit

// Bounds of one request.
const (
	MaxBody      = 4 << 20         // bytes; a file of a thousand quotes is a tenth of it
	requestLimit = 2 * time.Minute // a report takes several searches
)

// Handler is the page. It serves any number of requests at a time.
type Handler struct {
	opt    Options
	folder *folder.Folder
	desk   *desk.Desk
	guard  *guard
	mux    *http.ServeMux
}

// New opens the job's folder. The error is for a folder that cannot be opened.
func New(opt Options) (*Handler, error) {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	f, err := folder.Open(opt.Dir, opt.ReadOnly)
	if err != nil {
		return nil, err
	}
	h := &Handler{opt: opt, folder: f, guard: newGuard(opt.Hosts), mux: http.NewServeMux()}
	h.desk = desk.New(desk.Options{Now: opt.Now, Reader: opt.Units, TimeLimit: opt.TimeLimit})
	h.routes()
	return h, nil
}

// Close stops every search and lets go of the folder. It is called once, after
// the last request.
func (h *Handler) Close() error {
	h.desk.Close()
	return h.folder.Close()
}

// Link is the address to open first. Its token is good once; the browser that
// opens it is the one that is let in.
func (h *Handler) Link(base string) string { return base + "/?token=" + h.guard.token() }

// name is what the job is called on the page: its folder.
func (h *Handler) name() string {
	abs, err := filepath.Abs(h.opt.Dir)
	if err != nil {
		return h.opt.Dir // only without a working folder; then the name is as given
	}
	return filepath.Base(abs)
}

func (h *Handler) routes() {
	get := func(path string, f func(http.ResponseWriter, *http.Request) error) { h.handle("GET "+path, f) }
	post := func(path string, f func(http.ResponseWriter, *http.Request) error) { h.handle("POST "+path, f) }
	h.mux.Handle("GET /static/", h.static())
	get("/{$}", h.seePage)
	get("/part/answer", h.answerPart)
	get("/part/ways", h.waysPart)
	get("/part/sureness", h.surenessPart)
	get("/part/filled", h.filledPart)
	get("/part/strip", h.stripPart)
	get("/part/state", h.statePart)
	post("/start", h.startSave)
	get("/edit/{file}", h.editPage)
	post("/try/{file}", h.tryEdit)
	post("/edit/{file}", h.saveEdit)
	post("/undo", h.undo)
	get("/paste", h.pastePage)
	post("/paste", h.pasteRead)
	post("/paste/rows", h.pasteRows)
	get("/ask", h.askPage)
	get("/part/price", h.pricePart)
	get("/part/size", h.sizePart)
	get("/part/rules", h.rulesPart)
	get("/papers", h.papersPage)
	get("/papers/{kind}/{name}", h.download)
	post("/papers/order/keep", h.keepOrders)
	get("/receive", h.receivePage)
	post("/receive", h.receiveCount)
	post("/receive/letter/{name}", h.receiveLetter)
	post("/receive/order/{name}", h.receiveOrder)
	post("/receive/keep", h.keepFinish)
	post("/units", h.chooseUnits)
	h.handle("/", nowhere)
}

// handle has a view's error told as a page, with a status that fits it.
func (h *Handler) handle(pattern string, f func(http.ResponseWriter, *http.Request) error) {
	h.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), requestLimit)
		defer cancel()
		r = r.WithContext(ctx)
		if r.Body != nil {
			r.Body = http.MaxBytesReader(w, r.Body, MaxBody)
		}
		if err := f(w, r); err != nil {
			h.fail(w, r, err)
		}
	})
}

// ServeHTTP answers one request, if it may be answered.
func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if h.guard.admit(w, r) {
		h.mux.ServeHTTP(w, r)
	}
}

// nowhere answers for addresses that are none of this page.
func nowhere(_ http.ResponseWriter, r *http.Request) error {
	return refusal.New(http.StatusNotFound, fmt.Sprintf("there is nothing at %q", r.URL.Path), "the views are named at the top")
}

// failed is an error as the script is told it.
type failed struct {
	Error string `json:"error"`
	Hint  string `json:"hint"`
	Kind  string `json:"kind"` // stale: the view shows what is no longer so; superseded: a newer request is answered; else ""
}

// superseded answers a request that nobody waits for any more.
var superseded = refusal.New(http.StatusConflict, desk.ErrSuperseded.Error(), "")

// refusalStatus is the status of what is no fault of whoever asks: where a disk is full
// that of RFC 4918, section 11.5 (memory), where it does not let us the one for what we
// will not do.
func refusalStatus(err error) int {
	r := disk.Explain(err)
	if r == nil {
		return http.StatusInternalServerError
	}
	switch r.Kind {
	case disk.Full, disk.Quota, disk.TooLarge:
		return http.StatusInsufficientStorage
	case disk.Other, disk.Fault:
		return http.StatusInternalServerError
	}
	return http.StatusForbidden
}

// fail tells an error: as text to the script, else as a page.
func (h *Handler) fail(w http.ResponseWriter, r *http.Request, err error) {
	var known *refusal.Error
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &known):
	case errors.As(err, &large):
		known = refusal.New(http.StatusRequestEntityTooLarge, fmt.Sprintf("what was sent is larger than %d MiB", MaxBody>>20), "paste fewer rows at a time")
	case errors.Is(err, context.DeadlineExceeded):
		known = refusal.New(http.StatusServiceUnavailable, "this took too long and was stopped", "give the job a shorter time_limit in job.toml, or try again")
	case errors.Is(err, desk.ErrSuperseded), errors.Is(err, context.Canceled):
		known = superseded
	default:
		words, hint := disk.Words(err)
		known = refusal.New(refusalStatus(err), words, hint)
	}
	if wantsJSON(r) {
		writeJSON(w, known.Status, failed{known.Words, known.Hint, map[*refusal.Error]string{folder.ErrStale: "stale", superseded: "superseded"}[known]})
		return
	}
	v := struct {
		frame
		Words, Hint string
	}{h.frame(r, "Not done", ""), known.Words, known.Hint}
	render(w, known.Status, "failure", v)
}
