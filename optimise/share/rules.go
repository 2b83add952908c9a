package share

import (
	"context"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/share/costgame"
	"mediabuy/units"
)

// exact works out the unrounded parts by a rule, in smallest units. ok is false
// for the Shapley value where it was not sampled.
func (s *splitter) exact(ctx context.Context, rule Rule) (x []float64, ok bool, err error) {
	n := len(s.names)
	total := float64(s.total)
	var weights []float64
	switch rule {
	case ByLitres:
		for _, v := range s.litresOf() {
			weights = append(weights, float64(v))
		}
	case ByUse:
		weights = s.use.byUse()
	case BySavings:
		for i := range n {
			weights = append(weights, float64(s.standIn(costgame.One(i))))
		}
	case Shapley:
		x, ok, err = s.shapley()
		return x, ok, err
	case Nucleolus:
		fair, err := costgame.Nucleolus(ctx, n, total, s.game)
		if err != nil {
			return nil, false, err
		}
		return fair.Split, true, nil
	default:
		return nil, false, fmt.Errorf("rule %q is not known", rule)
	}
	parts := fractions(weights)
	x = make([]float64, n)
	for i := range x {
		x[i] = total / float64(n) // a bill of nothing but gifts is nobody's in particular
		if parts != nil {
			x[i] = total * parts[i]
		}
	}
	return x, true, nil
}

func (s *splitter) shapley() ([]float64, bool, error) {
	if len(s.names) > s.opt.Exact {
		if s.sample == nil {
			return nil, false, nil
		}
		return s.sample.Value, true, nil
	}
	cost := map[costgame.Group]float64{s.all(): float64(s.total)}
	for _, p := range s.game {
		cost[p.Group] = p.Cost
	}
	game, err := costgame.New(len(s.names), func(g costgame.Group) float64 { return cost[g] })
	if err != nil {
		return nil, false, err
	}
	return game.Shapley(), true, nil
}

// splits works out every rule.
func (s *splitter) splits(ctx context.Context) ([]Split, error) {
	var out []Split
	possible := false
	for _, rule := range Rules {
		x, ok, err := s.exact(ctx, rule)
		if err != nil {
			return nil, fmt.Errorf("splitting by %s: %w", rule, err)
		}
		if !ok {
			continue
		}
		sp := s.test(rule, x)
		if rule == Nucleolus {
			possible = sp.Stable
		}
		sp.Reason = s.reason(sp, possible)
		out = append(out, sp)
	}
	return out, nil
}

// test rounds a split and holds it against every group known.
func (s *splitter) test(rule Rule, x []float64) Split {
	pays := roundSplit(x, s.total, s.known)
	sp := Split{Rule: rule}
	for _, p := range pays {
		sp.Pays = append(sp.Pays, s.money(p))
	}
	if rule == Shapley && s.sample != nil {
		for _, e := range s.sample.Error {
			sp.Error = append(sp.Error, e*s.unit())
		}
	}
	type objection struct {
		priced
		by int64
	}
	var found []objection
	for i, p := range s.known {
		exact := p.group.Sum(x) - float64(p.cost)
		if v := exact * s.unit(); i == 0 || v > sp.Excess {
			sp.Excess = v
		}
		// Odd units alone are no objection: they are nobody's choice.
		if by := p.excess(pays); by > 0 && exact > noise {
			found = append(found, objection{p, by})
		}
	}
	slices.SortStableFunc(found, func(a, b objection) int {
		if a.by != b.by {
			return int(min(1, max(-1, b.by-a.by)))
		}
		return a.group.Size() - b.group.Size()
	})
	for _, o := range found {
		sp.Objections = append(sp.Objections, Objection{s.list(o.group), s.money(o.by)})
	}
	sp.Stable = len(found) == 0
	return sp
}

// unit is the currency's smallest unit in money.
func (c *club) unit() float64 { return math.Pow(10, -float64(c.job.Settings.CurrencyDigits)) }

func (c *club) text(m units.Money) string {
	return units.FormatMoney(m, c.job.Settings.Currency)
}
