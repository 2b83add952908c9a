package document_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/optimise"
)

// A long document comes to the bytes that the standard encoder makes of it.
func TestWriteLongLists(t *testing.T) {
	for _, n := range []int{0, 1, 999, 1000, 2500} {
		doc := &document.Plan{Document: &optimise.Document{Status: "optimal", Total: "1.00", Purchases: []optimise.DocumentPurchase{}}, Tidy: &document.Tidy{Way: "<one & all>"}}
		for i := range n {
			doc.Beds = append(doc.Beds, optimise.DocumentBed{Bed: fmt.Sprintf("bed <%d> \u2028 é", i)})
			doc.Refused = append(doc.Refused, optimise.DocumentRefusal{Quote: "q", Bed: "*", Rule: "only", Reason: "it is \"this\" & not that"})
		}
		var want bytes.Buffer
		enc := json.NewEncoder(&want)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		require.NoError(t, enc.Encode(doc))
		var got bytes.Buffer
		require.NoError(t, document.Write(&got, doc))
		assert.Equal(t, want.String(), got.String(), "%d entries", n)
		got.Reset()
		require.NoError(t, document.Write(&got, *doc))
		assert.Equal(t, want.String(), got.String(), "%d entries, by value", n)
	}
}

type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.left {
		return 0, errors.New("no space left")
	}
	f.left -= len(p)
	return len(p), nil
}

// Where the place to write to is full, that is told, wherever it happens.
func TestWriteTellsOfErrors(t *testing.T) {
	doc := &optimise.Document{Refused: make([]optimise.DocumentRefusal, 3000)}
	for _, left := range []int{0, 1 << 16, 3 << 16} {
		assert.ErrorContains(t, document.Write(&full{left}, doc), "no space left")
	}
}
