package share

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/units"
)

// The fields that programs rely on, held against what is printed.
func TestDocument(t *testing.T) {
	for seed := range uint64(4) {
		res := solve(t, small(seed), Options{Rule: ByLitres})
		if res.Plan.Bill == nil {
			continue
		}
		text, err := json.Marshal(NewDocument(res, ByLitres, nil))
		require.NoError(t, err)
		var d struct {
			Currency string
			Rule     string
			Total    string
			Members  []struct {
				Member       string
				Pays         string
				Alone, Saves *string
				Litres       float64
			}
			Stable         bool
			BetterOffAlone []struct {
				Members []string
				By      string
			} `json:"better_off_alone"`
			Groups []struct {
				Members []string
				Alone   *string
			}
		}
		require.NoError(t, json.Unmarshal(text, &d))
		assert.Equal(t, "USD", d.Currency)
		assert.Equal(t, "litres", d.Rule)
		var add units.Money
		for _, m := range d.Members {
			add = add.Add(units.M(m.Pays))
			assert.Positive(t, m.Litres)
			if m.Alone != nil {
				assert.Equal(t, units.M(*m.Alone).Sub(units.M(m.Pays)).String(), units.M(*m.Saves).String())
			}
		}
		assert.Equal(t, units.M(d.Total).String(), add.String())
		assert.True(t, slices.IsSortedFunc(d.Members, func(a, b struct {
			Member       string
			Pays         string
			Alone, Saves *string
			Litres       float64
		}) int {
			return strings.Compare(a.Member, b.Member)
		}))
		assert.Equal(t, len(d.BetterOffAlone) == 0, d.Stable)
		assert.Len(t, d.Groups, 14)
		assert.False(t, bytes.Contains(text, []byte(":null,\"groups\"")), "lists are never null")

		var strict Document
		dec := json.NewDecoder(bytes.NewReader(text))
		dec.DisallowUnknownFields()
		require.NoError(t, dec.Decode(&strict))
	}
}
