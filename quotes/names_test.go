package quotes

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A bed that is called one is not called so twice.
func TestBedNamed(t *testing.T) {
	for name, want := range map[string]string{"north": "bed north", "bed 1": "bed 1", "Long Bed": "Long Bed", "bedding": "bed bedding"} {
		assert.Equal(t, want, BedNamed(name))
	}
}
