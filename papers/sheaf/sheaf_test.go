package sheaf_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/talk"
	"mediabuy/papers"
	"mediabuy/papers/page"
	"mediabuy/papers/sheaf"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
)

func names(list []sheaf.File) []string {
	var out []string
	for _, f := range list {
		out = append(out, f.Name)
	}
	return out
}

// Two suppliers whose names make one file name are told apart, in every set.
func TestNamesAreToldApart(t *testing.T) {
	st := papers.Style{}
	assert.Equal(t, []string{"order-low-ford-east.pdf", "order-low-ford-east.csv", "order-low-ford-east-2.pdf", "order-low-ford-east-2.csv"},
		names(sheaf.Orders([]*papers.Order{{Supplier: "Low Ford", Site: "east"}, {Supplier: "Low/Ford", Site: "east"}}, st)))
	assert.Equal(t, []string{"letter-low-ford.pdf", "letter-low-ford-2.pdf"}, names(sheaf.Letters([]*papers.Letter{{Supplier: "Low Ford"}, {Supplier: "low ford"}}, st)))
	assert.Equal(t, []string{"request-a.pdf", "request-a.csv", "request-a-delivery.csv", "request-a-delivery-2.pdf", "request-a-delivery-2.csv", "request-a-delivery-delivery.csv"},
		names(sheaf.Requests([]*papers.Request{{Supplier: "A"}, {Supplier: "A delivery"}}, st)))
	job := &quotes.Job{Quotes: []*quotes.Quote{{Supplier: "A", Medium: &quotes.Medium{}}, {Supplier: "a", Medium: &quotes.Medium{}}}}
	assert.Equal(t, names(sheaf.Talks([]*talk.Talk{{Supplier: "A"}, {Supplier: "a"}}, st)), sheaf.TalkNames(job), "known before the talks are")
}

// Each file holds its own paper, not the last of the list.
func TestEachFileHoldsItsOwn(t *testing.T) {
	for i, f := range sheaf.Notes([]papers.Note{{Supplier: "A", Text: "one"}, {Supplier: "B", Text: "two"}}) {
		var b bytes.Buffer
		require.NoError(t, f.Write(&b))
		assert.Equal(t, []string{"one", "two"}[i], b.String())
	}
}

// A PDF has no letters for some languages: a page that has them lies beside it.
func TestPagesLieBesidePDFsThatLackLetters(t *testing.T) {
	list := sheaf.Statements([]statement.Paper{{Name: "a", Page: &page.Page{Title: "Plain"}}, {Name: "b", Page: &page.Page{Title: "北の丘"}}}, papers.Style{})
	assert.Equal(t, []string{"a.pdf", "a.csv", "b.pdf", "b.csv"}, names(list))
	assert.Equal(t, []string{"a.pdf", "a.csv", "b.pdf", "b.html", "b.csv"}, names(sheaf.ForJob(&quotes.Job{}, list)), "words that are not of the job")
	far := &quotes.Job{Quotes: []*quotes.Quote{{Supplier: "北の丘", Medium: &quotes.Medium{}}}}
	assert.Equal(t, []string{"a.pdf", "a.html", "a.csv", "b.pdf", "b.html", "b.csv"}, names(sheaf.ForJob(far, list)))
}
