package propose

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// aims moves layers so that purchases that cost less than the one at hand will do, until
// it finds none for which it can.
func (m *Mixer) aims(w *worked) (better bool) {
	for m.budget > 0 && m.ctx.Err() == nil {
		if !slices.ContainsFunc(m.cheaper(w), func(to move) bool { return m.budget > 0 && m.aim(w, to.n) }) {
			return better
		}
		better = true
	}
	return better
}

// cheaper are purchases that cost less than w and hold as many litres as there are to lay:
// a pack or all of an item less, and of another so many more as are then missing, or one.
// The cheapest come first.
func (m *Mixer) cheaper(w *worked) []move {
	var out []move
	n := slices.Clone(w.n)
	consider := func(i, to int) {
		it := &m.Items[i]
		if to > it.most || to > 0 && to < it.least {
			return
		}
		old := n[i]
		n[i] = to
		m.budget -= len(m.Items)
		if c := m.Cost(n, nil); c < w.cost-worthwhile && m.inStock(n, it.Quote) {
			out = append(out, move{slices.Clone(n), c})
		}
		n[i] = old
	}
	spare := 0.0
	for i := range m.Items {
		spare += float64(w.n[i])*m.Items[i].placed - w.litres[i]
	}
	for a := range m.Items {
		for _, less := range []int{1, w.n[a]} {
			if w.n[a] < less || less == 0 || less < w.n[a] && w.n[a]-less < m.Items[a].least {
				continue
			}
			n[a] = w.n[a] - less
			left := spare - float64(less)*m.Items[a].placed
			if left >= 0 {
				consider(a, n[a])
			}
			for b := range m.Items {
				if b != a {
					missing := int(math.Ceil(-left/m.Items[b].placed - 1e-9))
					consider(b, max(n[b]+max(1, missing), m.Items[b].least))
				}
			}
			n[a] = w.n[a]
		}
	}
	slices.SortStableFunc(out, func(a, b move) int { return cmp.Compare(a.cost, b.cost) })
	return out
}

// inStock reports whether a quote has what n asks of it for all sites.
func (m *Mixer) inStock(n []int, quote int) bool {
	sum, stock := 0, 0
	for i := range m.Items {
		if m.Items[i].Quote == quote {
			sum, stock = sum+n[i], m.Items[i].stock
		}
	}
	return sum <= stock
}

// trade gives a layer of suit u from its class j to its class k and, unless v is -1, one of
// suit v back from its class l to its class o.
type trade struct{ u, j, k, v, l, o int }

func (c trade) back() trade { return trade{c.u, c.k, c.j, c.v, c.o, c.l} }

func (m *Mixer) do(s *mixing, c trade) {
	m.move(s, c.u, c.j, c.k)
	if c.v >= 0 {
		m.move(s, c.v, c.l, c.o)
	}
}

// keeps reports whether the limits on the suits of c are kept.
func (m *Mixer) keeps(s *mixing, c trade) bool {
	over := func(un int) bool { return s.used[un] > m.units[un].most }
	return !slices.ContainsFunc(m.suits[c.u].units, over) && (c.v < 0 || !slices.ContainsFunc(m.suits[c.v].units, over))
}

// maxAimed bounds the trades towards one purchase. For so many as rests a layer that was moved
// stays where it is, unless too much becomes less than it ever was.
const (
	maxAimed = 60
	rests    = 7
)

// aiming is layers on their way to being laid with a purchase.
type aiming struct {
	*Mixer
	s     *mixing
	room  []float64 // litres by item
	until []int     // by suit: the trade up to which it rests
	sum   float64   // litres that are too much
	least float64   // and the least they ever were
}

// over is by how much litres of item i are too much.
func (g *aiming) over(i int, litres float64) float64 { return max(0, litres-g.room[i]) }

// aim moves layers until they can be laid with n, and makes that w's purchase or a cheaper
// one for the same layers. Trade after trade it takes the one that lessens most what is too
// much, even where that is less than nothing (tabu search: Glover, ORSA Journal on
// Computing 1, 1989; from memory). Where it gets nowhere w is left as it was.
func (m *Mixer) aim(w *worked, n []int) bool {
	g := &aiming{Mixer: m, s: w.mixing, until: make([]int, len(m.suits))}
	for i := range n {
		room := float64(n[i]) * m.Items[i].placed
		for _, h := range m.there[i] {
			room += float64(n[h]) * m.Items[h].placed
		}
		g.room = append(g.room, room*(1+1e-12))
		g.sum += g.over(i, g.s.litres[i])
	}
	g.least = g.sum
	var done []trade
	for round := range maxAimed {
		a := g.fullest()
		if a < 0 {
			if k, cost := m.buy(g.s); cost < w.cost-1e-9 {
				w.n, w.cost = k, cost
			}
			if cost := m.Cost(n, nil); cost < w.cost-1e-9 {
				w.n, w.cost = slices.Clone(n), cost
			}
			return true
		}
		c, gain, ok := g.best(a, round)
		if !ok || m.budget <= 0 {
			break
		}
		m.do(g.s, c)
		done = append(done, c)
		g.sum -= gain
		g.least = min(g.least, g.sum)
		if g.until[c.u] = round + rests; c.v >= 0 {
			g.until[c.v] = round + rests
		}
	}
	for _, c := range slices.Backward(done) {
		m.do(g.s, c.back())
	}
	return false
}

// fullest is the item of which most is too much; -1 where none is.
func (g *aiming) fullest() int {
	a, most := -1, 1e-7
	for i, litres := range g.s.litres {
		if o := g.over(i, litres); o > most {
			a, most = i, o
		}
	}
	return a
}

// best is the trade out of item a that lessens most what is too much, and by how much.
func (g *aiming) best(a, round int) (best trade, gain float64, ok bool) {
	gain = math.Inf(-1)
	consider := func(c trade, b int, litres float64) {
		g.budget--
		now := g.over(a, g.s.litres[a]) + g.over(b, g.s.litres[b])
		lessens := now - g.over(a, g.s.litres[a]-litres) - g.over(b, g.s.litres[b]+litres)
		resting := g.until[c.u] > round || c.v >= 0 && g.until[c.v] > round
		if lessens <= gain || resting && g.sum-lessens >= g.least-1e-7 {
			return
		}
		g.do(g.s, c)
		if g.keeps(g.s, c) {
			best, gain, ok = c, lessens, true
		}
		g.do(g.s, c.back())
	}
	for _, x := range g.places[a] {
		if g.s.layers[x.u][x.j] == 0 {
			continue
		}
		litres := g.suits[x.u].litres
		for k, class := range g.suits[x.u].classes {
			b := g.itemOf[class]
			if b == a || g.room[b] == 0 {
				continue
			}
			consider(trade{x.u, x.j, k, -1, 0, 0}, b, litres)
			for _, y := range g.places[b] {
				back := g.classOf[y.u][a]
				if less := litres - g.suits[y.u].litres; back >= 0 && less > 0 && g.s.layers[y.u][y.j] > 0 {
					consider(trade{x.u, x.j, k, y.u, y.j, back}, b, less)
				}
			}
		}
	}
	return best, gain, ok
}

// wholeSteps is the steps of each item in x; false unless all are whole.
func (m *Mixer) wholeSteps(x []float64) ([]int, bool) {
	n := make([]int, len(m.Items))
	for i := range m.Items {
		v := x[m.Items[i].col]
		if n[i] = int(math.Round(v)); math.Abs(v-float64(n[i])) > 1e-6 {
			return nil, false
		}
	}
	return n, true
}

// layTries is how often lay begins, each time but the first with some layers upset.
const layTries = 6

// lay looks for layers that can be laid with n, which is what x buys: it begins with
// where x lays most of each. It is asked about a purchase once.
func (m *Mixer) lay(x []float64, n []int, best float64, fits func([]float64) bool) error {
	key := fmt.Sprint(n)
	if m.laid[key] || m.Cost(n, nil) >= best-worthwhile {
		return nil
	}
	m.laid[key] = true
	m.budget = quickWork / 4
	first := m.rounded(x)
	if first == nil || !m.mend(first) {
		return m.ctx.Err()
	}
	for try := range layTries {
		w := worked{first.clone(), nil, math.Inf(1)}
		if try > 0 && !m.jolt(w.mixing, n) || !m.aim(&w, n) {
			continue
		}
		if w.cost < best-worthwhile && fits(m.answer(w.mixing, w.n)) && (m.kept == nil || w.cost < m.kept.cost) {
			m.kept = &w
		}
		break
	}
	return m.ctx.Err()
}

// jolt moves a few layers to items of which n buys some; false where limits are then passed.
func (m *Mixer) jolt(s *mixing, n []int) bool {
	for range 3 {
		u := m.rng.IntN(len(m.suits))
		j, k := m.filled(s, u), m.rng.IntN(len(m.suits[u].classes))
		if j != k && n[m.itemOf[m.suits[u].classes[k]]] > 0 {
			m.move(s, u, j, k)
		}
	}
	return m.mend(s)
}
