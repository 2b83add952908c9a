package costgame

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
)

// Fair is a split that keeps excesses low.
type Fair struct {
	Split []float64 // by player; adds up to the total
	// Excess is the greatest excess of any group, as small as it can be made:
	// at most 0 when the core of the groups given is not empty.
	Excess float64
}

// Tolerances, as shares of the largest cost in the game.
const (
	// rowTol is how far above the greatest excess a group may be and still count
	// as not above it: the simplex works to 1e-9, so this is well above its noise
	// and, for bills in cents up to ten thousands, well below a cent.
	rowTol = 1e-8
	// dualTol is the price of a row above which it is tight in every optimum. The
	// prices of one program add up to 1 over at most n+1 rows, so some row is far
	// above it.
	dualTol = 1e-6
	// rankTol tells a zero from a pivot. The entries are 0 and 1; the smallest
	// pivot of such a matrix of 20 columns is above 1e-8 by far.
	rankTol = 1e-7
	// perRound is how many violated groups join a program at once.
	perRound = 12
)

// Nucleolus finds the one split of total among n players that makes the
// excesses of the groups given, sorted from the greatest, as small as possible
// in that order. The groups must hold every single player and every group of all
// but one; for the nucleolus of a whole game they are all its groups
// ([Game.Priced]).
//
// It follows Maschler, Peleg and Shapley (Mathematics of Operations Research 4
// (1979) 303–338, memory):
//
//  1. minimise t subject to x(S) − c(S) ≤ t for the groups still open,
//     x(S) = c(S) + t_k for those closed at level t_k, x(N) = c(N).
//  2. Close at t every open group whose row has a price above 0: by
//     complementary slackness it has this excess in every optimum. There is one,
//     since the prices add up to 1.
//  3. Drop the open groups whose vector is a sum of multiples of closed ones:
//     their excess can no longer change.
//  4. Stop when the closed groups settle every player; each round settles one
//     more direction at least, so there are at most n − 1.
//
// Each program holds only the open groups that have mattered so far; those found
// above t join it until none is.
func Nucleolus(ctx context.Context, n int, total float64, groups []Priced) (*Fair, error) {
	s, err := newStages(n, total, groups)
	if err != nil || n == 1 {
		return &Fair{Split: []float64{total}}, err
	}
	out := &Fair{}
	for round := 0; s.rank() < n; round++ {
		if err := s.next(ctx); err != nil {
			return nil, err
		}
		if round == 0 {
			out.Excess = s.level
		}
		if !s.close() {
			return nil, fmt.Errorf("nucleolus of %d players: no row of round %d has a price", n, round+1)
		}
	}
	out.Split = s.x
	return out, nil
}

// stages is the state between the linear programs.
type stages struct {
	n      int
	total  float64
	scale  float64 // the largest cost, in whose shares the programs reckon
	open   []Priced
	closed []Priced // Cost holds what the group pays, c(S) + t_k
	active []Priced // open groups in the program
	prices []float64
	basis  [][]float64 // reduced rows spanning the closed groups, by pivot column
	x      []float64
	level  float64
}

func newStages(n int, total float64, groups []Priced) (*stages, error) {
	if n < 1 || n > MaxPlayers {
		return nil, fmt.Errorf("a game of %d players, want 1 to %d", n, MaxPlayers)
	}
	s := &stages{n: n, total: total, scale: math.Abs(total), basis: make([][]float64, n)}
	have := map[Group]bool{}
	for _, p := range groups {
		if p.Group == 0 || p.Group >= All(n) || have[p.Group] {
			return nil, fmt.Errorf("group %b of %d players is empty, everybody or given twice", p.Group, n)
		}
		have[p.Group] = true
		s.scale = max(s.scale, math.Abs(p.Cost))
	}
	for i := range n {
		if n > 1 && (!have[One(i)] || !have[All(n)&^One(i)]) {
			return nil, fmt.Errorf("player %d: the costs of this player alone and of all others together are wanted", i)
		}
	}
	if s.scale == 0 {
		s.scale = 1
	}
	s.open = slices.Clone(groups)
	s.span(All(n))
	for _, p := range groups {
		if k := p.Group.Size(); k == 1 || k == n-1 {
			s.active = append(s.active, p)
		}
	}
	return s, nil
}

// next solves one round's program over all open groups.
func (s *stages) next(ctx context.Context) error {
	for {
		if err := s.solve(ctx); err != nil {
			return fmt.Errorf("splitting among %d players: %w", s.n, err)
		}
		in := map[Group]bool{}
		for _, p := range s.active {
			in[p.Group] = true
		}
		var above []Priced
		for _, p := range s.open {
			if !in[p.Group] && p.Excess(s.x) > s.level+rowTol*s.scale {
				above = append(above, p)
			}
		}
		if len(above) == 0 {
			return nil
		}
		slices.SortStableFunc(above, func(a, b Priced) int { return cmp.Compare(b.Excess(s.x), a.Excess(s.x)) })
		s.active = append(s.active, above[:min(len(above), perRound)]...)
	}
}

// farOut bounds every column, in shares of the largest cost, and cuts nothing
// off. Where all pay the same no excess is above 2, so no t_k is; no single pays
// more than its cost and t, so x[i] ≤ 1 + 2; nor do all others together, so
// x[i] ≥ −1 − 1 − 2; and x[i] and all others together have excesses that add up
// to −3 or more, so t ≥ −3/2.
const farOut = 8

// solve minimises t over the active and closed groups. Costs are divided by
// scale, so that the library's tolerances are shares of the largest.
func (s *stages) solve(ctx context.Context) error {
	lp, err := lpsolve.New()
	if err != nil {
		return err
	}
	defer lp.Close()
	for i := range s.n + 1 { // x[0] … x[n−1], t
		cost := 0.0
		if i == s.n {
			cost = 1
		}
		if _, err := lp.AddColumn(fmt.Sprintf("x%d", i), cost, -farOut, farOut, nil, nil); err != nil {
			return err
		}
	}
	row := func(g Group, rel lpsolve.Relation, rhs float64, open bool) error {
		cols := g.Players()
		coef := make([]float64, len(cols), len(cols)+1)
		for k := range coef {
			coef[k] = 1
		}
		if open {
			cols, coef = append(cols, s.n), append(coef, -1)
		}
		_, err := lp.AddRow(fmt.Sprintf("%b", g), rel, rhs/s.scale, cols, coef)
		return err
	}
	for _, p := range s.active {
		if err := row(p.Group, lpsolve.AtMost, p.Cost, true); err != nil {
			return err
		}
	}
	if err := row(All(s.n), lpsolve.Equal, s.total, false); err != nil {
		return err
	}
	for _, p := range s.closed {
		if err := row(p.Group, lpsolve.Equal, p.Cost, false); err != nil {
			return err
		}
	}
	res, err := lp.Solve(ctx, lpsolve.Options{})
	if err != nil {
		return err
	}
	if res.Status != lpsolve.Optimal {
		return fmt.Errorf("the linear program ended %v (%s), want optimal", res.Status, res.Detail)
	}
	if s.prices, err = lp.Duals(nil); err != nil {
		return err
	}
	s.x = make([]float64, s.n)
	for i := range s.x {
		s.x[i] = res.X[i] * s.scale
	}
	s.level = res.X[s.n] * s.scale
	return nil
}

// close settles the groups whose rows have a price at the level reached, and
// reports whether there was one.
func (s *stages) close() bool {
	any := false
	for k, p := range s.active {
		if math.Abs(s.prices[k]) > dualTol {
			any = true
			// A group that follows from others closed at this level has the same
			// excess in every optimum: its row would say nothing new.
			if s.span(p.Group) {
				s.closed = append(s.closed, Priced{p.Group, p.Cost + s.level})
			}
		}
	}
	settled := func(p Priced) bool { return s.spanned(p.Group) }
	s.open = slices.DeleteFunc(s.open, settled)
	s.active = slices.DeleteFunc(s.active, settled)
	return any
}

func (s *stages) rank() int {
	n := 0
	for _, b := range s.basis {
		if b != nil {
			n++
		}
	}
	return n
}

// reduce takes the closed rows out of g's vector; pivot is its first column
// left, -1 if none is.
func (s *stages) reduce(g Group) (v []float64, pivot int) {
	v = make([]float64, s.n)
	for _, i := range g.Players() {
		v[i] = 1
	}
	pivot = -1
	for i := range v {
		if math.Abs(v[i]) < rankTol {
			v[i] = 0
			continue
		}
		if b := s.basis[i]; b != nil {
			f := v[i]
			for j := i; j < s.n; j++ {
				v[j] -= f * b[j]
			}
			v[i] = 0
		} else if pivot < 0 {
			pivot = i
		}
	}
	return v, pivot
}

func (s *stages) spanned(g Group) bool {
	_, pivot := s.reduce(g)
	return pivot < 0
}

// span adds g to the span and reports whether it was new.
func (s *stages) span(g Group) bool {
	v, pivot := s.reduce(g)
	if pivot < 0 {
		return false
	}
	f := v[pivot]
	for j := range v {
		v[j] /= f
	}
	s.basis[pivot] = v
	return true
}
