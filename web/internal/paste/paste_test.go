package paste

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
	"mediabuy/web/internal/folder"
)

// A table with headings, a message and cells of which nothing is known, each as rows.
func TestReadsEachKindOfPaste(t *testing.T) {
	for _, c := range []struct {
		name, text string
		heads      []string
		row        []string
	}{
		{"headed", "supplier\tmedium\tpack\tcolour\nMoor End\tpumice\t1 yd3\tgrey\n", []string{"supplier", "medium", "pack", ""}, []string{"Moor End", "pumice", "1 yd3", "grey"}},
		{"message", "Moor End: pumice, $61 a yard\n", []string{"supplier", "medium", "pack", "price"}, []string{"Moor End", "pumice", "1 yd3", "$61"}},
		{"cells", "xx\tyy\n", []string{"", ""}, []string{"xx", "yy"}},
	} {
		p, err := Read(c.text, folder.Texts{}, nil, time.Time{})
		require.NoError(t, err, c.name)
		require.Len(t, p.tables, 1, c.name)
		require.Len(t, p.tables[0].rows, 1, c.name)
		got := p.tables[0].row(p.tables[0].rows[0], "")
		for i, heading := range c.heads {
			if heading != "" {
				assert.Equal(t, c.row[i], got[heading], "%s: %s", c.name, heading)
				continue
			}
			assert.Equal(t, c.row[i], p.tables[0].rows[0][i], c.name)
		}
	}
	_, err := Read("supplier\tmedium\n"+strings.Repeat("A\tpumice\n", MostPasted+1), folder.Texts{}, nil, time.Time{})
	assert.Equal(t, tooManyRows, err)
	_, err = Read(strings.Repeat("xx\tyy\n", MostPasted+1), folder.Texts{}, nil, time.Time{})
	assert.Equal(t, tooManyRows, err, "no row is left out in silence")
}

// Only ticked rows join, at the end of the file, and each is found again there; a job
// without the file gets the template with them.
func TestChosenRowsJoin(t *testing.T) {
	old := "supplier,medium,pack,price\nLow Ford,lava rock,1 yd3,70\n"
	p, err := Read("medium\tpack\tprice\npumice\t1 yd3\t61\nlime\t1 yd3\t9\nperlite\t1 yd3\t50\n", folder.Texts{}, nil, time.Time{})
	require.NoError(t, err)
	p.tables[0].take[1] = false
	joined, err := p.Joined(folder.Texts{files.QuotesFile: []byte(old)}, "Moor End")
	require.NoError(t, err)
	require.Len(t, joined, 1)
	assert.Equal(t, old+"Moor End,pumice,1 yd3,61\nMoor End,perlite,1 yd3,50\n", string(joined[0].Data))
	assert.Equal(t, []int{0, 2}, joined[0].Took)
	assert.Equal(t, []int{3, 4}, joined[0].lines)

	joined, err = p.Joined(folder.Texts{}, "Moor End")
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(joined[0].Data), string(files.Templates()[files.QuotesFile])))
	p.tables[0].take = []bool{false, false, false}
	joined, err = p.Joined(folder.Texts{}, "Moor End")
	require.NoError(t, err)
	assert.Empty(t, joined)
}

// What the rows would have wrong in the job stands at their cells; what the job has
// wrong already is not told again.
func TestProblemsAreForetold(t *testing.T) {
	job := folder.Texts{files.QuotesFile: []byte("supplier,medium,pack,price\nLow Ford,lava rock,1 barrow,70\n")}
	p, err := Read("supplier\tmedium\tpack\tprice\nA\tpumise\t1 yd3\t61\n", job, nil, time.Time{})
	require.NoError(t, err)
	c, err := p.Confirm("", job, files.Options{Today: time.Date(2026, 4, 6, 9, 0, 0, 0, time.UTC)})
	require.NoError(t, err)
	require.Len(t, c.Bad, 1)
	assert.Equal(t, "row 1", c.Bad[0].Place)
	assert.Equal(t, "medium", c.Bad[0].Heading)
	assert.Equal(t, "#v.0.1", c.Bad[0].Link)
	assert.True(t, c.Tables[0].Rows[0].Cells[1].Bad)
	assert.Equal(t, "1 row to quotes.csv", c.Yes)
	p.tables[0].take[0] = false
	c, err = p.Confirm("", job, files.Options{Today: time.Date(2026, 4, 6, 9, 0, 0, 0, time.UTC)})
	require.NoError(t, err)
	assert.Empty(t, c.Yes, "nothing is ticked")
}
