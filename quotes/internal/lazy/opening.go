package lazy

import (
	"regexp/syntax"
	"slices"
	"sync"
	"unicode/utf8"
)

// Of hundreds of expressions a handful match at any place, and to ask one of them takes as long as to read a line. So the
// first letters of the text are looked at before: the programs of all expressions are run side by side over one rune after
// another, and what is left of them then is kept in a tree, as texts begin in like ways again and again.

const (
	deep = 10        // runes that are looked at
	few  = 2         // as few expressions are asked at once
	most = 1_000_000 // places in programs that a tree keeps; then it grows no more
)

// ByOpening gives the things whose expressions are worth asking about a text, in their order, by the runes it begins with.
// Each expression is one for what a text begins with; those that match nothing more than an empty text are left out. They
// are looked at when it is first called. Several goroutines may call it.
func ByOpening[T any](groups func() [][]T, re func(T) *Expr) func(text string) []T {
	var lock sync.Mutex
	var t *tree
	var things []T
	return func(text string) []T {
		lock.Lock()
		defer lock.Unlock()
		if t == nil {
			things = slices.Concat(groups()...)
			t = newTree(len(things), func(i int) string { return re(things[i]).String() })
		}
		left := t.find(text).left
		out := make([]T, len(left))
		for i, one := range left {
			out[i] = things[one.of]
		}
		return out
	}
}

// tree has what is left of the expressions after the runes that lead to each of its branches.
type tree struct {
	programs []*syntax.Prog
	seen     [][]int // of each program: when an instruction was last come to
	turn     int
	kept     int // places in all branches
	root     *branch
}

type branch struct {
	left []running
	next map[rune]*branch // by the rune that follows; endOfText where none does
}

// running is an expression that may match yet.
type running struct {
	of   int
	at   []uint32 // the instructions after the runes so far
	done bool     // it matches these runes or some of them
}

const endOfText = -1

func newTree(n int, text func(int) string) *tree {
	t := &tree{root: &branch{}}
	for i := range n {
		parsed, err := syntax.Parse(text(i), syntax.Perl)
		if err != nil {
			panic("lazy: " + err.Error())
		}
		prog, err := syntax.Compile(parsed.Simplify())
		if err != nil {
			panic("lazy: " + err.Error())
		}
		t.programs = append(t.programs, prog)
		t.seen = append(t.seen, make([]int, len(prog.Inst)))
		t.root.left = append(t.root.left, running{of: i, at: []uint32{uint32(prog.Start)}})
	}
	return t
}

// find goes as far into the tree as a text leads, and lets it grow on the way.
func (t *tree) find(text string) *branch {
	b := t.root
	before := rune(endOfText)
	for range deep {
		if len(b.left) <= few {
			break
		}
		next, size := rune(endOfText), 0
		if text != "" {
			next, size = utf8.DecodeRuneInString(text)
		}
		to := b.next[next]
		if to == nil {
			if t.kept > most {
				break
			}
			to = t.grow(b, before, next)
		}
		b, before, text = to, next, text[size:]
		if next == endOfText {
			break
		}
	}
	return b
}

// grow runs what is left at a branch over the rune that follows, between the one before and itself.
func (t *tree) grow(b *branch, before, next rune) *branch {
	to := &branch{}
	for _, one := range b.left {
		if !one.done {
			one = t.run(one, before, next)
		}
		if one.done || len(one.at) > 0 {
			to.left = append(to.left, one)
			t.kept += 1 + len(one.at)
		}
	}
	if b.next == nil {
		b.next = map[rune]*branch{}
	}
	b.next[next] = to
	return to
}

// run follows one program from where it stands to behind the next rune. What matches before any rune matches nothing.
func (t *tree) run(one running, before, next rune) running {
	prog, seen := t.programs[one.of], t.seen[one.of]
	t.turn++
	given := syntax.EmptyOpContext(before, next)
	out := running{of: one.of}
	var follow func(pc uint32)
	follow = func(pc uint32) {
		if seen[pc] == t.turn {
			return
		}
		seen[pc] = t.turn
		in := &prog.Inst[pc]
		switch in.Op {
		case syntax.InstAlt, syntax.InstAltMatch:
			follow(in.Out)
			follow(in.Arg)
		case syntax.InstCapture, syntax.InstNop:
			follow(in.Out)
		case syntax.InstEmptyWidth:
			if syntax.EmptyOp(in.Arg)&^given == 0 {
				follow(in.Out)
			}
		case syntax.InstMatch:
			out.done = out.done || before != endOfText
		case syntax.InstFail:
		default: // one of the instructions for a rune
			if next != endOfText && in.MatchRune(next) && !slices.Contains(out.at, in.Out) {
				out.at = append(out.at, in.Out)
			}
		}
	}
	for _, pc := range one.at {
		follow(pc)
	}
	if out.done {
		out.at = nil
	}
	return out
}
