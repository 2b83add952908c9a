package propose

import (
	"math"
	"slices"
)

// worked is a mixing with the fewest packs for it and their cost.
type worked struct {
	*mixing
	n    []int
	cost float64
}

func (s *mixing) clone() *mixing {
	c := &mixing{layers: make([][]int, len(s.layers)), litres: slices.Clone(s.litres), used: slices.Clone(s.used), passed: s.passed}
	for u := range s.layers {
		c.layers[u] = slices.Clone(s.layers[u])
	}
	return c
}

// wander looks for cheaper mixings from w on until the budget is used up: it upsets a
// good one, improves what comes of that, and goes on from there where it is hardly
// dearer (iterated local search: Lourenço, Martin and Stützle, Handbook of
// Metaheuristics, 2003; from memory). What it draws is the same each time.
func (m *Mixer) wander(w worked) worked {
	const (
		hardly  = 1.002 // how much dearer to go on from
		patient = 40    // rounds without a cheaper one until it begins anew from the best
	)
	best, now, since := w, w, 0
	for m.budget > 0 && m.ctx.Err() == nil {
		m.budget -= len(m.suits)
		s := now.clone()
		m.upset(s)
		if !m.mend(s) {
			continue
		}
		n, cost := m.buy(s)
		next := m.improve(worked{s, n, cost})
		if since++; next.cost < best.cost-1e-9 {
			best, since = next, 0
		}
		if next.cost <= now.cost*hardly {
			now = next
		}
		if since > patient {
			now, since = best, 0
		}
	}
	return best
}

// upset closes an item, opens one, or moves a few layers.
func (m *Mixer) upset(s *mixing) {
	used := func(i int) bool { return s.litres[i] > 1e-7 }
	switch m.rng.IntN(3) {
	case 0:
		var open []int
		for i := range m.Items {
			if used(i) {
				open = append(open, i)
			}
		}
		if len(open) > 1 {
			m.close(s, open[m.rng.IntN(len(open))])
		}
	case 1:
		to, share := m.rng.IntN(len(m.Items)), m.rng.Float64()
		for u, su := range m.suits {
			k := m.classOf[u][to]
			for j := range su.classes {
				for c := s.layers[u][j]; k >= 0 && k != j && c > 0; c-- {
					if m.rng.Float64() < share {
						m.move(s, u, j, k)
					}
				}
			}
		}
	default:
		for range 2 + m.rng.IntN(4) {
			u := m.rng.IntN(len(m.suits))
			if j, k := m.filled(s, u), m.rng.IntN(len(m.suits[u].classes)); j != k {
				m.move(s, u, j, k)
			}
		}
	}
}

// filled is a class that fills a layer of suit u, drawn by how many it fills.
func (m *Mixer) filled(s *mixing, u int) int {
	at := m.rng.IntN(m.suits[u].layers)
	for j, layers := range s.layers[u] {
		if at -= layers; at < 0 {
			return j
		}
	}
	return 0
}

// close gives the layers of item i to others, by preference to ones in use.
func (m *Mixer) close(s *mixing, i int) {
	for u, su := range m.suits {
		j := m.classOf[u][i]
		if j < 0 || len(su.classes) == 1 {
			continue
		}
		var to []int
		for k, class := range su.classes {
			if k != j && s.litres[m.itemOf[class]] > 1e-7 {
				to = append(to, k)
			}
		}
		for s.layers[u][j] > 0 {
			k := (j + 1 + m.rng.IntN(len(su.classes)-1)) % len(su.classes)
			if len(to) > 0 {
				k = to[m.rng.IntN(len(to))]
			}
			m.move(s, u, j, k)
		}
	}
}

// move gives one layer of suit u from its class j to its class k.
func (m *Mixer) move(s *mixing, u, j, k int) {
	m.put(s, u, j, -1)
	m.put(s, u, k, 1)
}

// packs is how many packs of item i hold litres, beside what of it is there.
func (m *Mixer) packs(i int, litres float64) int {
	for _, h := range m.there[i] {
		litres -= float64(m.Items[h].most) * m.Items[h].placed
	}
	if litres <= 1e-7 {
		return 0
	}
	return max(int(math.Ceil(litres/m.Items[i].placed-1e-9)), m.Items[i].least)
}

// improve moves layers from quote to quote, one, all of a quote's, or two against
// one another, while that saves money.
func (m *Mixer) improve(w worked) worked {
	for better := true; better && m.budget > 0 && m.ctx.Err() == nil; {
		better = m.pour(&w)
		better = m.shift(&w) || better
		better = m.swap(&w) || better
		better = m.aims(&w) || better
	}
	return w
}

// try makes a change and keeps it if it saves; change(-1) takes it back.
func (m *Mixer) try(w *worked, change func(sign int)) bool {
	change(1)
	if w.passed == 0 {
		if n, c := m.buy(w.mixing); c < w.cost-1e-9 {
			w.n, w.cost = n, c
			return true
		}
	}
	change(-1)
	return false
}

// place is a suit with its class of an item.
type place struct{ u, j int }

// pour gives all layers of an item to another.
func (m *Mixer) pour(w *worked) (better bool) {
	for a := range m.Items {
		for b := range m.Items {
			if a == b || w.litres[a] <= 1e-7 || m.budget <= 0 {
				continue
			}
			type moved struct{ u, j, k, layers int }
			var all []moved
			for _, at := range m.places[a] {
				if k := m.classOf[at.u][b]; k >= 0 && w.layers[at.u][at.j] > 0 {
					all = append(all, moved{at.u, at.j, k, w.layers[at.u][at.j]})
				}
			}
			if len(all) < 2 {
				continue
			}
			better = m.try(w, func(sign int) {
				for _, mv := range all {
					m.put(w.mixing, mv.u, mv.j, -sign*mv.layers)
					m.put(w.mixing, mv.u, mv.k, sign*mv.layers)
				}
			}) || better
		}
	}
	return better
}

// shift gives single layers to another item, where that spares the first a pack.
func (m *Mixer) shift(w *worked) (better bool) {
	for u, su := range m.suits {
		for j, class := range su.classes {
			a := m.itemOf[class]
			for k := range su.classes {
				for k != j && w.layers[u][j] > 0 && m.budget > 0 && m.packs(a, w.litres[a]-su.litres) < w.n[a] {
					if !m.try(w, func(sign int) { m.put(w.mixing, u, j, -sign); m.put(w.mixing, u, k, sign) }) {
						break
					}
					better = true
				}
			}
		}
	}
	return better
}

// swap gives a layer of one item to another, which gives it a smaller one back, where that
// spares one of them a pack.
func (m *Mixer) swap(w *worked) (better bool) {
	for a := range m.Items {
		for b := range m.Items {
			if a == b || w.litres[a] <= 1e-7 || w.litres[b] <= 1e-7 {
				continue
			}
			for _, x := range m.places[a] {
				xb := m.classOf[x.u][b]
				if xb < 0 {
					continue
				}
				for _, y := range m.places[b] {
					ya := m.classOf[y.u][a]
					less := m.suits[x.u].litres - m.suits[y.u].litres
					if ya < 0 || w.layers[x.u][x.j] == 0 || w.layers[y.u][y.j] == 0 || less <= 1e-9 {
						continue
					}
					if m.packs(a, w.litres[a]-less) >= w.n[a] {
						continue
					}
					if m.budget--; m.budget <= 0 {
						return better
					}
					better = m.try(w, func(sign int) {
						m.put(w.mixing, x.u, x.j, -sign)
						m.put(w.mixing, x.u, xb, sign)
						m.put(w.mixing, y.u, y.j, -sign)
						m.put(w.mixing, y.u, ya, sign)
					}) || better
				}
			}
		}
	}
	return better
}
