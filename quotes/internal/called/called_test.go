package called_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/called"
)

func TestRespelled(t *testing.T) {
	names := called.Names(files.BuiltinMedia(), map[string]string{"blähton": "expanded clay", "pebbles": "river gravel"})
	found := func(text string) *quotes.Medium {
		low, names := called.Respelled(text, strings.ToLower(text), names, func(word string) bool { return word == "single" })
		require.Len(t, low, len(text))
		for _, n := range names {
			for p := range low {
				if to, ok := n.At(low, p); ok && to > p {
					return n.Medium
				}
			}
		}
		return nil
	}
	for text, want := range map[string]string{"pumise 92": "pumice", "pearlite 92": "perlite", "perlte 92": "perlite", "limestnoe": "limestone", "clay pebles": "expanded clay", "pebles": "river gravel", "blähton": "expanded clay", "river-pebble": "river gravel", "LAVA ROCKS": "lava rock"} {
		if m := found(text); assert.NotNil(t, m, text) {
			assert.Equal(t, want, m.Name, text)
		}
	}
	for _, text := range []string{"Pumise Road", "a single bag", "the palace", "slate92x"} {
		assert.Nil(t, found(text), text)
	}
}

// TestFine tells what is left of a stone from the stone.
func TestFine(t *testing.T) {
	for words, want := range map[string]string{
		"Granite dust": "dust", "lava sand, black": "sand", "3/8 limestone screenings": "screenings", "Decomposed granite": "decomposed", "pumice powder (20 kg)": "powder",
		"lava rock": "", "washed, no fines": "", "gravel, free of sand": "", "sand and gravel": "", "sandstone chips": "", "dusty pink granite": "", "fine lava": "",
	} {
		assert.Equal(t, want, called.Fine(words), words)
	}
}
