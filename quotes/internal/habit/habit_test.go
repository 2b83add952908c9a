package habit

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
	"mediabuy/units"
)

func TestOpen(t *testing.T) {
	none, err := Open(files.Source{}, files.Source{})
	require.NoError(t, err)
	assert.Equal(t, units.MarkUnknown, none.Habit())
	assert.True(t, none.MetricTon("£40 a ton"), "the only sign of money is of a country without another")
	assert.False(t, none.MetricTon("40 a ton"))

	j, err := Open(files.Source{}, files.Source{Name: "job.toml", R: strings.NewReader("currency = \"USD\"\ndate = \"2026-05-04\"\n")})
	require.NoError(t, err)
	assert.Equal(t, units.MarkPoint, j.Habit())
	assert.False(t, j.MetricTon("£40 a ton"))
	iso, bad := j.Day("June 3")
	assert.Equal(t, "2026-06-03", iso)
	assert.Empty(t, bad)
	iso, bad = none.Day("June 3")
	assert.Empty(t, iso)
	assert.Equal(t, "a day without its year", bad)

	_, err = Open(files.Source{}, files.Source{Name: "job.toml", R: strings.NewReader("currency = \"no such\"\n")})
	assert.Error(t, err)
}
