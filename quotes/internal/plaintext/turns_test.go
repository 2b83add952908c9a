package plaintext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTurns finds who speaks for a firm in a talk, and leaves other lines with a colon alone.
func TestTurns(t *testing.T) {
	isFirm := func(name string) bool { return strings.HasSuffix(name, "Quarry") }
	text := "Kit (Low Ford Quarry): 88 a yard\nMe: and you?\n[9:15 AM] Tam (High Fell Quarry): 84\nloose\nKit (Low Ford Quarry): ok 80"
	turns, firms := Turns(text, isFirm)
	require.Len(t, turns, 4)
	assert.Equal(t, []string{"low ford quarry", "high fell quarry"}, firms)
	for i, want := range []string{"Kit (Low Ford Quarry): 88 a yard Me: and you? Kit (Low Ford Quarry): ok 80", "Me: and you? [9:15 AM] Tam (High Fell Quarry): 84 loose"} {
		alone := Alone(text, turns, firms[i])
		require.Len(t, alone, len(text))
		assert.Equal(t, want, strings.Join(strings.Fields(alone), " "))
	}
	turns, firms = Turns("[You] price of lava?\n[Low Ford Quarry] Kit: 88 a yard", isFirm)
	assert.Len(t, turns, 2)
	assert.Equal(t, []string{"low ford quarry"}, firms)

	for _, text := range []string{
		"Kit (Low Ford Quarry): 88 a yard",                                  // one line
		"Kit (Low Ford Quarry): 88 a yard\nTam: 84\nMe: thanks",             // whose is Tam?
		"Kit (Low Ford Quarry): 88 a yard\nTam (warehouse): 84\nMe: thanks", // no firm
		"Lava (red): 88\nPumice (white): 84",
	} {
		turns, _ := Turns(text, isFirm)
		assert.Empty(t, turns, text)
	}
}
