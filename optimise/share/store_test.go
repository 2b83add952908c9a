package share

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/units"
)

// A run stopped half-way hands over what it has; the next one solves only the
// rest and comes to the same answer.
func TestResume(t *testing.T) {
	job := small(5)
	whole := solve(t, job, Options{})

	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var kept *Store
	_, err := Solve(ctx, job, Options{
		Workers: 1,
		Progress: func(done, _ int) {
			if done == 7 {
				cancel()
			}
		},
		Save: func(s *Store) error {
			kept = s
			return nil
		},
	})
	require.ErrorIs(t, err, context.Canceled)
	require.NotNil(t, kept)
	require.GreaterOrEqual(t, kept.Len(), 7)
	require.Less(t, kept.Len(), 15)

	var file bytes.Buffer
	require.NoError(t, kept.Write(&file))
	again, err := ReadStore(&file, "groups.json")
	require.NoError(t, err)
	fits, err := again.Fits(job)
	require.NoError(t, err)
	assert.True(t, fits)
	before := again.Len()
	res := solve(t, job, Options{Known: again})
	assert.Equal(t, NewDocument(whole, Nucleolus, nil), NewDocument(res, Nucleolus, nil))
	assert.Equal(t, before, again.Len(), "what the caller holds is not changed")
}

// What the costs depend on is told apart; what they do not depend on is not.
func TestStoreFits(t *testing.T) {
	var kept *Store
	job := small(5)
	solve(t, job, Options{Save: func(s *Store) error { kept = s; return nil }})
	assert.Equal(t, 15, kept.Len(), "every group and the whole")
	for _, c := range []struct {
		name   string
		change func(*quotes.Job)
		fits   bool
	}{
		{"nothing", func(*quotes.Job) {}, true},
		{"where a quote stands", func(j *quotes.Job) { j.Quotes[0].Pos = quotes.Pos{File: "elsewhere.csv", Line: 9} }, true},
		{"the budget", func(j *quotes.Job) { m := units.M("1"); j.Settings.Budget = &m }, true},
		{"a price", func(j *quotes.Job) { j.Quotes[0].Price = j.Quotes[0].Price.Add(units.M("0.01")) }, false},
		{"a bed", func(j *quotes.Job) { j.Beds[0].Length++ }, false},
		{"who pays", func(j *quotes.Job) {
			j.Beds[0].Member = []quotes.Part{{Member: "member B", Parts: units.DecimalFromInt(1)}}
		}, false},
		{"delivery", func(j *quotes.Job) { j.Delivery[0].OrderFee = units.M("99") }, false},
		{"a medium", func(j *quotes.Job) { m := *j.Quotes[0].Medium; m.Settle.Usual += 0.01; j.Quotes[0].Medium = &m }, false},
		{"a grain", func(j *quotes.Job) { j.Quotes[0].Size.Max++ }, false},
		{"tax", func(j *quotes.Job) { j.Settings.Tax = units.D("0.2") }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := small(5)
			c.change(j)
			fits, err := kept.Fits(j)
			require.NoError(t, err)
			assert.Equal(t, c.fits, fits)
			if !fits {
				_, err = Solve(context.Background(), j, Options{Known: kept})
				assert.ErrorContains(t, err, "another job")
			}
		})
	}
}

func TestSaveFails(t *testing.T) {
	full := errors.New("the disk is full")
	_, err := Solve(context.Background(), small(5), Options{Save: func(*Store) error { return full }})
	assert.ErrorIs(t, err, full)
}

func TestReadStoreRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"empty":          "",
		"another file":   "bed,volume\n",
		"another JSON":   `{"total": "1.00"}`,
		"a later format": `{"format":"mediabuy solved groups 2","job":"x","groups":[]}`,
		"no members":     `{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":[],"cost":1}]}`,
		"twice":          `{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":["a"],"cost":1},{"members":["a"],"cost":2}]}`,
		"unsorted":       `{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":["b","a"],"cost":1}]}`,
		"an odd name":    `{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":["b\u0000a"],"cost":1}]}`,
		"half a cent":    `{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":["a"],"cost":1.5}]}`,
		"cut off":        `{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":["a"]`,
	} {
		s, err := ReadStore(strings.NewReader(text), "groups.json")
		assert.ErrorContains(t, err, "groups.json", name)
		assert.Nil(t, s, name)
	}
}

// Whatever is read as a store is written back the same.
func FuzzReadStore(f *testing.F) {
	f.Add(`{"format":"mediabuy solved groups 1","job":"x","groups":[{"members":["a","b"],"cost":12},{"members":["c"],"cost":null}]}`)
	f.Add(`{"format":"mediabuy solved groups 1","job":"","groups":[]}`)
	f.Add(`[]`)
	f.Add("{")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ReadStore(strings.NewReader(text), "f")
		if err != nil {
			require.Nil(t, s)
			return
		}
		var b bytes.Buffer
		require.NoError(t, s.Write(&b))
		again, err := ReadStore(&b, "f")
		require.NoError(t, err)
		require.Equal(t, s, again)
	})
}
