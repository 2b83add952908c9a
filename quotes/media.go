package quotes

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/spelling"
)

// MediaTable holds the media a job knows, by name and by other names. The zero
// table is empty.
type MediaTable struct {
	byKey map[string]*Medium // under the key of every name
	all   []*Medium          // sorted by name
}

// Lookup finds a medium by its name or one of its other names. Case, spaces, "_"
// and "-" do not tell names apart.
func (t *MediaTable) Lookup(name string) (*Medium, bool) {
	m, ok := t.byKey[spelling.WordKey(name)]
	return m, ok
}

// All lists the media sorted by name. The slice is the caller's.
func (t *MediaTable) All() []*Medium { return slices.Clone(t.all) }

// Nearest is the known name most like name, or "" when none is close.
func (t *MediaTable) Nearest(name string) string { return spelling.Nearest(name, t.Names()) }

// Names lists every name and other name, in a fixed order: names go first, so
// that of two equally near the medium's own name is offered.
func (t *MediaTable) Names() []string {
	var own, other []string
	for _, m := range t.all {
		own = append(own, m.Name)
		other = append(other, m.OtherNames...)
	}
	return append(own, other...)
}

// Put adds a medium, or replaces the one of that name.
func (t *MediaTable) Put(m *Medium) {
	if t.byKey == nil {
		t.byKey = map[string]*Medium{}
	}
	if old, ok := t.byKey[spelling.WordKey(m.Name)]; ok {
		t.all = slices.DeleteFunc(t.all, func(a *Medium) bool { return a == old })
	}
	for _, n := range append([]string{m.Name}, m.OtherNames...) {
		t.byKey[spelling.WordKey(n)] = m
	}
	at, _ := slices.BinarySearchFunc(t.all, m, func(a, b *Medium) int { return strings.Compare(a.Name, b.Name) })
	t.all = slices.Insert(t.all, at, m)
}
