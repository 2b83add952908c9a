package suitability_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

func TestWhere(t *testing.T) {
	top, both := map[quotes.Layer]bool{quotes.Top: true}, map[quotes.Layer]bool{quotes.Top: true, quotes.Base: true}
	assert.Equal(t, "top of every bed", suitability.Where(top, []string{"a", "b"}, 2))
	assert.Equal(t, "top and base of a, b", suitability.Where(both, []string{"a", "b"}, 3))
	assert.Equal(t, "base of 5 beds", suitability.Where(map[quotes.Layer]bool{quotes.Base: true}, []string{"a", "b", "c", "d", "e"}, 6))
}
