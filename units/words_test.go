package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/units"
)

func TestListed(t *testing.T) {
	assert.Empty(t, units.Listed(nil))
	assert.Equal(t, "a", units.Listed([]string{"a"}))
	assert.Equal(t, "a and b", units.Listed([]string{"a", "b"}))
	assert.Equal(t, "a, b and c", units.Listed([]string{"a", "b", "c"}))
}
