package quotes

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestDay(t *testing.T) {
	on := DateOf(time.Date(2026, 11, 30, 0, 0, 0, 0, time.UTC))
	for _, c := range []struct{ currency, text, want, bad string }{
		{"GBP", "2026-12-07", "2026-12-07", ""},
		{"GBP", "07/12/2026", "2026-12-07", ""},
		{"USD", "07/12/2026", "2026-07-12", ""},
		{"CAD", "07/12/2026", "", `"07/12/2026" may be 2026-07-12 or 2026-12-07`},
		{"USD", "7 December", "2026-12-07", ""},
		{"USD", "Monday", "", `"Monday" is not a day`},
	} {
		got, err := (&Settings{Currency: c.currency, Date: on}).Day(c.text)
		if c.bad != "" {
			assert.EqualError(t, err, c.bad)
			continue
		}
		assert.NoError(t, err, c.text)
		assert.Equal(t, c.want, got.String(), c.text)
	}
}
