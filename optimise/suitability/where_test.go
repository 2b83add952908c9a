package suitability_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

func TestWhere(t *testing.T) {
	job := func(counts ...int) *quotes.Job {
		j := &quotes.Job{}
		for i, n := range counts {
			j.Beds = append(j.Beds, &quotes.Bed{Name: string(rune('a' + i)), Count: n})
		}
		return j
	}
	top, both := map[quotes.Layer]bool{quotes.Top: true}, map[quotes.Layer]bool{quotes.Top: true, quotes.Base: true}
	assert.Equal(t, "top of every bed", suitability.Where(job(1, 9), top, []string{"a", "b"}))
	assert.Equal(t, "top and base of a, b", suitability.Where(job(1, 2, 3), both, []string{"a", "b"}))
	base := map[quotes.Layer]bool{quotes.Base: true}
	assert.Equal(t, "base of 5 beds", suitability.Where(job(1, 1, 1, 1, 1, 1), base, []string{"a", "b", "c", "d", "e"}))
	assert.Equal(t, "base of 15 beds", suitability.Where(job(1, 2, 3, 4, 5, 6), base, []string{"a", "b", "c", "d", "e"}), "alike beds of a row count each")
}
