package share

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
)

// contentVersion changes whenever the same files could give a group another
// cost: when the model or the way a group's job is made changes.
const contentVersion = "1"

// contentHash identifies what group costs depend on: quotes, delivery, media,
// beds, their members and the settings but the budget and the time limit. Where
// the files lie and on which lines does not matter.
func contentHash(job *quotes.Job) (string, error) {
	set := job.Settings
	set.Budget, set.TimeLimit = nil, 0
	content := []any{contentVersion, set}
	for _, q := range job.Quotes {
		c := *q
		c.Pos = quotes.Pos{}
		m := *q.Medium
		m.Pos = quotes.Pos{}
		c.Medium = &m
		// A grain without an upper end is infinite, which JSON has no word for.
		c.Size = quotes.Grain{}
		content = append(content, c, fmt.Sprintf("%+v", q.Size))
	}
	for _, b := range job.Beds {
		c := *b
		c.Pos = quotes.Pos{}
		content = append(content, bedContent(&c))
	}
	for _, d := range job.Delivery {
		c := *d
		c.Pos = quotes.Pos{}
		content = append(content, c)
	}
	text, err := json.Marshal(content)
	if err != nil {
		return "", fmt.Errorf("writing the job down to tell it from others: %w", err)
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:]), nil
}

// bedContent is a bed with its media by name: their figures stand with the
// quotes that sell them.
func bedContent(b *quotes.Bed) any {
	names := func(list []*quotes.Medium) []string {
		var out []string
		for _, m := range list {
			out = append(out, m.Name)
		}
		return out
	}
	shares := map[string]float64{}
	for _, s := range b.MaxShare {
		shares[s.Medium.Name] = s.Most
	}
	c := *b
	c.TopMedia, c.Only, c.Avoid, c.MaxShare = nil, nil, nil, nil
	return []any{c, names(b.TopMedia), names(b.Only), names(b.Avoid), shares}
}

// likeness tells groups apart by the beds they own and not by who owns them.
// Groups with the same word have the same job but for names and order, so one
// solve serves them all; in a club of equal plots that is nearly every group.
type likeness struct {
	c    *club
	kind []int // by bed: beds alike have the same number
}

func newLikeness(c *club) (*likeness, error) {
	l := &likeness{c: c}
	seen := map[string]int{}
	for _, b := range c.job.Beds {
		bare := *b
		bare.Pos, bare.Name, bare.Member = quotes.Pos{}, "", nil
		text, err := json.Marshal(bedContent(&bare))
		if err != nil {
			return nil, fmt.Errorf("writing bed %q down to tell it from others: %w", b.Name, err)
		}
		k, ok := seen[string(text)]
		if !ok {
			k = len(seen)
			seen[string(text)] = k
		}
		l.kind = append(l.kind, k)
	}
	return l, nil
}

// word is the same for groups whose jobs are alike. What a group has of a table
// follows from its beds there, whose kinds hold the table's name.
func (l *likeness) word(g costgame.Group) string {
	var parts []string
	for b, k := range l.kind {
		if f := l.c.part(b, g); f > 0 {
			parts = append(parts, fmt.Sprintf("%d:%g", k, f))
		}
	}
	slices.Sort(parts)
	return strings.Join(parts, " ")
}
