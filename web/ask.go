package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/figure"
	"mediabuy/web/internal/refusal"
)

// askView is the questions that can be asked of a plan.
type askView struct {
	frame
	Strip  strip
	Quotes []string
	Left   []string // quotes that cannot be asked about, as no bed takes them
	Quote  string
	Price  *priceView // nil without a plan
	Size   *sizeView
	None   string // why nothing can be asked
}

func (h *Handler) askPage(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	v := askView{frame: h.frameOf(r, a, "Ask", "/ask"), Strip: h.strip(r, a, nil)}
	v.Busy = !a.Done()
	if v.Busy {
		render(w, http.StatusOK, "ask", v)
		return nil
	}
	if a.Plan == nil || a.Plan.Bill == nil {
		v.None = errNoPlan.Hint
		render(w, http.StatusOK, "ask", v)
		return nil
	}
	for _, q := range a.Job.Quotes {
		if usable(a, q) {
			v.Quotes = append(v.Quotes, q.Name)
		} else {
			v.Left = append(v.Left, q.Name)
		}
	}
	v.Quote = cmp.Or(r.URL.Query().Get("quote"), a.Plan.Bill.Lines[0].Quote.Name)
	switch v.Price, err = h.price(r, a, v.Quote, r.URL.Query().Get("at")); {
	case errors.Is(err, breakeven.ErrInfeasible):
		v.None = err.Error()
	case err != nil:
		return err
	default:
		if v.Size, err = h.size(r, a, cmp.Or(r.URL.Query().Get("factor"), "1"), false); err != nil {
			return err
		}
	}
	render(w, http.StatusOK, "ask", v)
	return nil
}

// usable reports whether some bed takes a quote.
func usable(a *desk.Answer, q *quotes.Quote) bool {
	for i, other := range a.Job.Quotes {
		if other == q {
			return a.Plan.Fit.Usable(i)
		}
	}
	return false
}

// priceView is the job's least cost over one quote's price, and one place on it.
type priceView struct {
	Quote, Today string
	Chart        figure.Chart
	Min, Max, At string // plain numbers of the slider
	Step         string
	Sentence     string // at this price
	Buy          string
	Flipped      bool     // it is not what is bought today
	Facts        []string // where it enters or leaves
	Changes      []changeView
	Notes        []string
}

type changeView struct{ At, Below, Above string }

func (h *Handler) pricePart(w http.ResponseWriter, r *http.Request) error {
	ctx, done := h.desk.Newest(r.Context(), lane(r, "price"))
	defer done()
	r = r.WithContext(ctx)
	a, err := h.planned(r)
	if err != nil {
		return err
	}
	v, err := h.price(r, a, r.URL.Query().Get("quote"), r.URL.Query().Get("at"))
	if err != nil {
		return err
	}
	render(w, http.StatusOK, "part/price", v)
	return nil
}

// planned is the answer to the files as saved, if there is a plan.
func (h *Handler) planned(r *http.Request) (*desk.Answer, error) {
	a, err := h.saved(r.Context(), 0)
	if err != nil {
		return nil, err
	}
	if a.Plan == nil || a.Plan.Bill == nil {
		return nil, errNoPlan
	}
	return a, nil
}

// today is the cheapest buy whatever the budget, which break-evens start from.
func (h *Handler) today(ctx context.Context, a *desk.Answer) (*optimise.Plan, error) {
	return desk.Remember(ctx, &a.More, "today", func(ctx context.Context) (*optimise.Plan, error) {
		if a.Job.Settings.Budget == nil && a.Plan.Status == optimise.Optimal {
			return a.Plan, nil
		}
		return breakeven.Today(ctx, a.Job, h.desk.Search(a.Job))
	})
}

// unproven is the answer where break-evens would need a proof.
var errUnproven = refusal.New(http.StatusConflict, "the plan is not proven cheapest within the time allowed, so where it would change is not known", "give the job a longer time_limit in job.toml")

// series is the least cost over a quote's price.
func (h *Handler) series(ctx context.Context, a *desk.Answer, q *quotes.Quote) (breakeven.Series, error) {
	plan, err := h.today(ctx, a)
	if err != nil {
		return breakeven.Series{}, err
	}
	if plan.Status != optimise.Optimal {
		return breakeven.Series{}, errUnproven
	}
	return desk.Remember(ctx, &a.More, "price "+q.Name, func(ctx context.Context) (breakeven.Series, error) {
		list, err := breakeven.ByPrice(ctx, a.Job, plan, []breakeven.Target{breakeven.OfQuote(a.Job, q)}, breakeven.Options{TimeLimit: h.desk.Search(a.Job).TimeLimit})
		if err != nil {
			return breakeven.Series{}, err
		}
		return list[0], nil
	})
}

// price works out one place on the chart of a quote. at is a price; "" is today's.
func (h *Handler) price(r *http.Request, a *desk.Answer, name, at string) (*priceView, error) {
	q, err := breakeven.FindQuote(a.Job, name)
	if err != nil {
		return nil, asked(err)
	}
	s, err := h.series(r.Context(), a, q)
	if err != nil {
		return nil, err
	}
	x := s.Target.Now
	if at != "" {
		// The slider writes a plain number; a person may write it as people do.
		m, err := units.ParseMoney(at, units.MarkPoint)
		if err != nil || m.Sign() < 0 {
			return nil, refusal.New(http.StatusBadRequest, fmt.Sprintf("the price %q is not an amount", at), "write digits such as 12.50")
		}
		x = m.Decimal()
	}
	sc := h.scribe(r, a.Job)
	panel := chart.Price(a.Job, s)
	v := &priceView{Quote: q.Name, Today: sc.Price(q.Price), Min: "0"}
	digits := s.Target.Digits(a.Job)
	reach := s.Target.Now // where the curve ends
	for _, l := range panel.Lines {
		for _, px := range l.X {
			if d := units.DecimalOf(px).Round(digits); d.Cmp(reach) > 0 {
				reach = d
			}
		}
	}
	v.Max, v.At = reach.Text(a.Job.Settings.CurrencyDigits), x.Text(max(a.Job.Settings.CurrencyDigits, digitsOf(x)))
	v.Step = stepOf(a.Job.Settings.CurrencyDigits)
	v.at(a, sc, s, x)
	for _, c := range s.Changes {
		at := c.At.Round(digits)
		if down := s.Told(&c.At, digits); down != nil {
			at = *down // the buy below the change still holds at it
		}
		v.Changes = append(v.Changes, changeView{At: sc.Price(units.MoneyOf(at)), Below: breakeven.BuyWords(c.Below), Above: breakeven.BuyWords(c.Above)})
	}
	told := func(d *units.Decimal) string {
		return sc.Price(units.MoneyOf(*s.Told(d, a.Job.Settings.CurrencyDigits)))
	}
	switch {
	case s.Refused:
		v.Facts = append(v.Facts, "no bed takes it at any price")
	case s.InPlan && s.Leaves != nil:
		v.Facts = append(v.Facts, "it is bought today, and stays in the plan up to "+told(s.Leaves))
	case s.InPlan:
		v.Facts = append(v.Facts, fmt.Sprintf("it is bought today, and this quote stays in the plan at every price looked at, up to %s", sc.Price(units.MoneyOf(s.Target.Most))))
	case s.Enters != nil:
		words := "it is not bought today, and would be at " + told(s.Enters) + " or less"
		if off := s.PercentOff(a.Job.Settings.CurrencyDigits); off != nil {
			words += ", " + off.String() + " % off"
		}
		v.Facts = append(v.Facts, words)
	default:
		v.Facts = append(v.Facts, "it would not be bought even for nothing")
	}
	for _, note := range []string{s.Unproven, s.Partial} {
		if note != "" {
			v.Notes = append(v.Notes, note)
		}
	}
	v.Chart = figure.Draw(panel, figure.Span{Lo: 0, Hi: reach.Float()}, x.Float(), v.Sentence)
	return v, nil
}

// at says what holds at price x.
func (v *priceView) at(a *desk.Answer, sc figure.Scribe, s breakeven.Series, x units.Decimal) {
	price := sc.Price(units.MoneyOf(x))
	p, ok := pieceAt(s, x)
	switch {
	case !ok:
		v.Sentence = "What is cheapest at " + price + " was not looked at."
		return
	case p.None:
		v.Sentence = "At " + price + " nothing fills the beds."
		return
	}
	cost := units.MoneyOf(p.Cost(x)).Round(a.Job.Settings.CurrencyDigits)
	now := a.Plan.Bill.Total
	v.Sentence = fmt.Sprintf("At %s a pack the whole job costs %s, %s than today's plan.", price, sc.Money(cost), sc.More(cost.Sub(now)))
	if x.Equal(s.Target.Now) {
		v.Sentence = fmt.Sprintf("At %s a pack, today's price, the whole job costs %s.", price, sc.Money(now))
	}
	v.Buy = breakeven.BuyWords(p.Buy)
	if today, ok := pieceAt(s, s.Target.Now); ok {
		v.Flipped = breakeven.BuyWords(today.Buy) != v.Buy
	}
	switch {
	case p.Proven:
	case x.Equal(s.Target.Now) && proven(a): // the stretch is not, but this is the plan's own price
		v.Sentence += " That is proven; at prices close to it what is drawn is the best known."
	default:
		v.Sentence += " That is the best known here, and not proven."
	}
}

// pieceAt is the part of a series that holds at x.
func pieceAt(s breakeven.Series, x units.Decimal) (breakeven.Piece, bool) {
	i := slices.IndexFunc(s.Pieces, func(p breakeven.Piece) bool { return x.Cmp(p.From) >= 0 && x.Cmp(p.To) <= 0 })
	if i < 0 {
		return breakeven.Piece{}, false
	}
	return s.Pieces[i], true
}

// digitsOf is how many digits after the point a number has.
func digitsOf(d units.Decimal) int {
	_, after, _ := strings.Cut(d.String(), ".")
	return len(after)
}

// stepOf is the smallest unit of money as a number.
func stepOf(digits int) string {
	if digits == 0 {
		return "1"
	}
	return "0." + strings.Repeat("0", digits-1) + "1"
}

// asked gives errors about names the status they have here.
func asked(err error) error {
	var unknown *breakeven.UnknownError
	if errors.As(err, &unknown) {
		return refusal.New(http.StatusNotFound, unknown.Error(), unknown.Hint())
	}
	return err
}
