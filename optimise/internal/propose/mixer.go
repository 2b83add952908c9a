package propose

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
)

// Mixer proposes purchases where each layer is filled by one quote: it gives every
// layer a quote, buys what these then need, and moves layers from quote to quote
// while that saves money. As a proposer it only proposes.
type Mixer struct {
	*Completer
	ctx    context.Context
	suits  []mixSuit
	units  []mixUnit
	itemOf []int   // class → item, -1
	there  [][]int // item → others of its class: goods of it that are there already
	budget int

	places  [][]place // suits by item, with its class in each
	classOf [][]int   // the same by suit and item, -1 where it may not lie
	rng     *rand.Rand
	kept    *worked         // the best so far
	laid    map[string]bool // purchases that lay was asked about
	ties    []tie
}

// What wandering may cost, in items looked at, for each suit and item, and in all: a quarter of a second when thorough.
const (
	thoroughWander, mostThoroughWander = 3_000, 3_000_000
	quickWander, mostQuickWander       = 600, 500_000
)

// mixSuit is layers of one size that the same quotes may fill.
type mixSuit struct {
	layers  int
	litres  float64 // of one layer
	classes []int
	cols    []int       // v by class
	some    []int       // r by class, -1
	units   []int       // that its layer counts in
	uses    [][]float64 // by class and those units: what one layer counts
}

// mixUnit is a limit on what lies in some suits.
type mixUnit struct{ most float64 }

// mixing is a choice of quote for every layer: layers by suit and class, and what
// follows from them.
type mixing struct {
	layers [][]int
	litres []float64 // by item
	used   []float64 // by unit
	passed int       // units of which more is used than they bear
}

// NewMixer readies proposals for a model whose layers are not filled freely.
func NewMixer(ctx context.Context, p *model.Program) *Mixer {
	m := &Mixer{Completer: NewCompleter(p), ctx: ctx, itemOf: make([]int, len(p.In.Classes)), rng: rand.New(rand.NewPCG(1, 2)), laid: map[string]bool{}}
	m.there = make([][]int, len(m.Items))
	for k := range m.itemOf {
		m.itemOf[k] = slices.IndexFunc(m.Items, func(it packItem) bool { return it.class == k })
		for i := m.itemOf[k] + 1; i > 0 && i < len(m.Items); i++ {
			if m.Items[i].class == k {
				m.there[m.itemOf[k]] = append(m.there[m.itemOf[k]], i)
			}
		}
	}
	at := map[int][2]int{} // column of v → suit, index of class
	for u, su := range p.In.Suits {
		s := mixSuit{layers: su.Layers, litres: su.Litres / float64(su.Layers)}
		for _, k := range su.Classes {
			if v, ok := p.V[[2]int{k, u}]; ok && m.itemOf[k] >= 0 {
				at[v] = [2]int{u, len(s.classes)}
				s.classes, s.cols, s.some = append(s.classes, k), append(s.cols, v), append(s.some, columnOf(p.Some, [2]int{k, u}))
			}
		}
		m.suits = append(m.suits, s)
	}
	m.places = make([][]place, len(m.Items))
	for u, su := range m.suits {
		m.classOf = append(m.classOf, slices.Repeat([]int{-1}, len(m.Items)))
		for j, k := range su.classes {
			i := m.itemOf[k]
			m.places[i], m.classOf[u][i] = append(m.places[i], place{u, j}), j
		}
	}
	for _, un := range p.In.Units {
		for _, row := range p.UnitRows(un) {
			m.limit(row, at)
		}
	}
	m.tie()
	return m
}

// limit adds a row of a unit; at says of a column which suit's which class it is.
func (m *Mixer) limit(row mip.Row, at map[int][2]int) {
	un := len(m.units)
	m.units = append(m.units, mixUnit{most: row.RHS * (1 + 1e-9)})
	for _, t := range row.Terms {
		key, ok := at[t.Col]
		if !ok {
			continue
		}
		s := &m.suits[key[0]]
		i := slices.Index(s.units, un)
		if i < 0 {
			i = len(s.units)
			s.units = append(s.units, un)
			for len(s.uses) < len(s.classes) {
				s.uses = append(s.uses, nil)
			}
			for j := range s.uses {
				s.uses[j] = append(s.uses[j], 0)
			}
		}
		// Of a column in litres, a whole layer.
		s.uses[key[1]][i] += t.Coef * s.litres / m.p.Scale(key[0])
	}
}

// tie is the suits of a table or a bed that limits tie together, or one suit that none does.
type tie struct{ suits, limits []int }

// tie lists what is tied together.
func (m *Mixer) tie() {
	of := make([]int, len(m.suits)) // suit → one it is tied to, or itself
	for u := range of {
		of[u] = u
	}
	end := func(u int) int {
		for of[u] != u {
			u = of[u]
		}
		return u
	}
	first := slices.Repeat([]int{-1}, len(m.units))
	for u, su := range m.suits {
		for _, un := range su.units {
			if first[un] < 0 {
				first[un] = u
			}
			of[end(u)] = end(first[un])
		}
	}
	at := map[int]int{}
	for u, su := range m.suits {
		i, ok := at[end(u)]
		if !ok {
			i = len(m.ties)
			at[end(u)] = i
			m.ties = append(m.ties, tie{})
		}
		t := &m.ties[i]
		t.suits = append(t.suits, u)
		for _, un := range su.units {
			if first[un] == u {
				t.limits = append(t.limits, un)
			}
		}
	}
}

// Propose offers whole columns that cost less than best to fits; see
// [mip.Options].
func (m *Mixer) Propose(x []float64, best float64, thorough bool, fits func([]float64) bool) error {
	if n, ok := m.wholeSteps(x); ok && !thorough {
		return m.lay(x, n, best, fits)
	}
	m.budget = quickWork / 20
	if thorough {
		m.budget = thoroughWork / 20
	}
	starts := []*mixing{m.rounded(x)}
	if thorough {
		for i := range m.Items {
			starts = append(starts, m.mostly(i))
		}
	}
	var ready []worked
	for _, s := range starts {
		if s == nil || !m.mend(s) {
			continue
		}
		n, cost := m.buy(s)
		ready = append(ready, worked{s, n, cost})
	}
	slices.SortStableFunc(ready, func(a, b worked) int { return cmp.Compare(a.cost, b.cost) })
	for i, s := range ready {
		if i >= maxStarts || m.ctx.Err() != nil {
			break
		}
		s = m.improve(s)
		ready[i] = s
		if s.cost < best-worthwhile && fits(m.answer(s.mixing, s.n)) {
			best = s.cost
		}
	}
	if m.kept != nil {
		ready = append(ready, *m.kept)
	}
	if len(ready) == 0 {
		return m.ctx.Err()
	}
	per, most := quickWander, mostQuickWander
	if thorough {
		per, most = thoroughWander, mostThoroughWander
	}
	m.budget = min(most, per*len(m.suits)*len(m.Items))
	w := m.wander(slices.MinFunc(ready, func(a, b worked) int { return cmp.Compare(a.cost, b.cost) }))
	if m.kept = &w; w.cost < best-worthwhile {
		fits(m.answer(w.mixing, w.n))
	}
	return m.ctx.Err()
}

// answer is the whole columns of a mixing.
func (m *Mixer) answer(s *mixing, n []int) []float64 {
	x := make([]float64, len(m.p.Cols))
	m.Cost(n, x)
	for u, su := range m.suits {
		for j, layers := range s.layers[u] {
			x[su.cols[j]] = float64(layers) * su.litres / m.p.Scale(u)
			if su.some[j] >= 0 && layers > 0 {
				x[su.some[j]] = 1
			}
		}
	}
	return x
}

// rounded gives each layer the quotes that fill most of it in x.
func (m *Mixer) rounded(x []float64) *mixing {
	s := m.empty()
	for u, su := range m.suits {
		if len(su.classes) == 0 {
			return nil
		}
		share := make([]float64, len(su.cols)) // of layers
		order := make([]int, len(su.cols))
		for j, col := range su.cols {
			share[j], order[j] = x[col]*m.p.Scale(u)/su.litres, j
		}
		left := su.layers
		for j := range share {
			k := min(left, int(share[j]+1e-6))
			m.put(s, u, j, k)
			share[j] -= float64(k)
			left -= k
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(share[b], share[a]) })
		for i := 0; left > 0; i++ {
			m.put(s, u, order[i%len(order)], 1)
			left--
		}
	}
	return s
}

// mostly gives every layer to item i where it may lie, else to what costs least by
// the litre.
func (m *Mixer) mostly(i int) *mixing {
	s := m.empty()
	for u, su := range m.suits {
		if len(su.classes) == 0 {
			return nil
		}
		pick, rate := 0, math.Inf(1)
		for j, k := range su.classes {
			it := &m.Items[m.itemOf[k]]
			r := (it.price[len(it.price)-1] + it.other) / it.placed
			if m.itemOf[k] == i {
				r = -1
			}
			if r < rate {
				pick, rate = j, r
			}
		}
		m.put(s, u, pick, su.layers)
	}
	return s
}

func (m *Mixer) empty() *mixing {
	s := &mixing{layers: make([][]int, len(m.suits)), litres: make([]float64, len(m.Items)), used: make([]float64, len(m.units))}
	for u, su := range m.suits {
		s.layers[u] = make([]int, len(su.classes))
	}
	return s
}

// put adds k layers of suit u to its class j; k may be below 0.
func (m *Mixer) put(s *mixing, u, j, k int) {
	su := &m.suits[u]
	s.layers[u][j] += k
	s.litres[m.itemOf[su.classes[j]]] += float64(k) * su.litres
	for i, un := range su.units {
		was := s.used[un] > m.units[un].most
		s.used[un] += float64(k) * su.uses[j][i]
		switch is := s.used[un] > m.units[un].most; {
		case is && !was:
			s.passed++
		case was && !is:
			s.passed--
		}
	}
}

// mend moves layers until every limit is kept; false when it finds no way.
func (m *Mixer) mend(s *mixing) bool {
	if s.passed == 0 {
		return true
	}
	for i := range m.ties {
		if !m.mendTied(s, &m.ties[i]) {
			return false
		}
	}
	return true
}

// over is by how much some limits are passed, as shares of them.
func (m *Mixer) over(s *mixing, limits []int) (sum float64) {
	for _, un := range limits {
		if more := s.used[un] - m.units[un].most; more > 0 {
			sum += more / max(1, math.Abs(m.units[un].most))
		}
	}
	return sum
}

// mendTied is mend for suits that are tied together.
func (m *Mixer) mendTied(s *mixing, t *tie) bool {
	for range 4 * len(t.suits) {
		now := m.over(s, t.limits)
		if now <= 0 {
			return true
		}
		bu, bj, bk, least := -1, 0, 0, now
		for _, u := range t.suits {
			su := &m.suits[u]
			if !slices.ContainsFunc(su.units, func(un int) bool { return s.used[un] > m.units[un].most }) {
				continue
			}
			for j, layers := range s.layers[u] {
				if layers == 0 {
					continue
				}
				for k := range su.classes {
					if k == j {
						continue
					}
					m.move(s, u, j, k)
					if v := m.over(s, t.limits); v < least-1e-12 {
						bu, bj, bk, least = u, j, k, v
					}
					m.move(s, u, k, j)
				}
			}
		}
		if bu < 0 {
			return false
		}
		m.move(s, bu, bj, bk)
	}
	return m.over(s, t.limits) <= 0
}

// buy is the fewest packs that hold the litres of a mixing, and what they cost;
// more of an item where that reaches a price or a fee that makes up for it.
func (m *Mixer) buy(s *mixing) ([]int, float64) {
	n := make([]int, len(m.Items))
	total := map[int]int{}
	for i := range m.Items {
		it := &m.Items[i]
		if s.litres[i] <= 1e-7 {
			continue
		}
		for _, h := range m.there[i] {
			n[h] = m.Items[h].most
		}
		n[i] = m.packs(i, s.litres[i])
		if total[it.Quote] += n[i]; n[i] > it.most || total[it.Quote] > it.stock {
			return n, math.Inf(1)
		}
	}
	m.budget -= len(m.Items)
	cost := m.Cost(n, nil)
	for i := range m.Items {
		if n[i] == 0 {
			continue
		}
		it := &m.Items[i]
		have := n[i]
		for _, to := range m.goalsOf(it, n) {
			if to <= have || to > it.most || total[it.Quote]-have+to > it.stock {
				continue
			}
			old := n[i]
			n[i] = to
			m.budget -= len(m.Items)
			if c := m.Cost(n, nil); c < cost {
				cost = c
			} else {
				n[i] = old
			}
		}
	}
	return n, cost
}

// goalsOf are counts of an item at which its price falls, or the goods of its
// supplier reach a value that counts.
func (m *Mixer) goalsOf(it *packItem, n []int) []int {
	var out []int
	for _, from := range m.froms[it.pool] {
		if from > 0 {
			out = append(out, int(math.Ceil(from/it.step-1e-9)))
		}
	}
	sn := &m.Sends[it.Send]
	last := it.value[len(it.value)-1]
	if last <= 0 {
		return out
	}
	worth := 0.0
	for _, i := range sn.items {
		if other := &m.Items[i]; other != it && n[i] > 0 {
			worth += float64(n[i]) * other.value[0]
		}
	}
	for _, di := range sn.Ways[it.Form] {
		for _, goal := range []float64{m.drops[di].freeOver, m.drops[di].minOrder} {
			if goal > worth {
				out = append(out, int(math.Ceil((goal-worth)/last-1e-9)))
			}
		}
	}
	return out
}
