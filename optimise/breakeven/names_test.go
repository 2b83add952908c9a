package breakeven

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/quotes"
)

func TestNamesAreFoundOrTheNearestIsNamed(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, ""), oneBed, "", "")
	q, err := FindQuote(job, " Heap ")
	require.NoError(t, err)
	assert.Equal(t, "heap", q.Name)
	_, err = FindQuote(job, "haep")
	var unknown *UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, `did you mean "heap"?`, unknown.Hint())
	_, err = FindSupplier(job, "Aldermor")
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, "Aldermoor", unknown.Nearest)
	_, err = FindSite(&quotes.Job{}, "north")
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, "the job has no site at all", unknown.Hint())
}

// Where nothing comes in bulk there is no price of it to move.
func TestNoBulkToMove(t *testing.T) {
	_, err := Bulk(fromFiles(t, "quote,supplier,medium,pack,price\nbag,Aldermoor,expanded clay,50 L,10\n", oneBed, "", ""))
	require.ErrorIs(t, err, byvolume.ErrNoBulk)
}
