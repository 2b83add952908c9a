package typing

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
	"mediabuy/web/internal/folder"
)

// Rows of one name are told apart by whose they are, what they are and how they are packed, in the end by their line.
func TestRowsOfOneName(t *testing.T) {
	texts := folder.Texts{files.QuotesFile: []byte("supplier,item,medium,pack,price\nMoor End,,expanded clay,50 L,1\nLow Ford,,expanded clay,50 L,2\nLow Ford,,expanded clay,1 m3,3\nLow Ford,,pumice,50 L,4\nMoor End,,gravel,50 L,5\nMoor End,,gravel,50 L,6\n")}
	for line, want := range map[string]string{"2": "expanded clay (Moor End)", "3": "expanded clay (Low Ford, 50 L)", "4": "expanded clay (Low Ford, 1 m3)", "5": "pumice", "7": "gravel (Moor End, 50 L, line 7)"} {
		f, err := ReadForm(url.Values{"tag": {texts.Tag(files.QuotesFile)}, "op": {"save"}, "c." + line + ".4": {"9"}})
		require.NoError(t, err)
		_, words, err := Edited(texts, files.QuotesFile, f)
		require.NoError(t, err)
		assert.Equal(t, "price of "+want, words)
	}
}

// Each kind of form on one small file, with the words for what it changes.
func TestEdited(t *testing.T) {
	texts := folder.Texts{files.QuotesFile: []byte("quote,price\na,1\nb,2\n"), files.SettingsFile: []byte("tax = \"7%\"\n")}
	for _, c := range []struct {
		name, file  string
		form        url.Values
		want, words string
	}{
		{"a cell", files.QuotesFile, url.Values{"op": {"save"}, "c.3.1": {"3"}}, "quote,price\na,1\nb,3\n", "price of b"},
		{"nothing", files.QuotesFile, url.Values{"op": {"save"}, "c.3.1": {"2"}}, "", ""},
		{"a row comes", files.QuotesFile, url.Values{"op": {"add"}, "n.0": {"c"}}, "quote,price\na,1\nb,2\nc,\n", "a new row in quotes.csv"},
		{"a row goes", files.QuotesFile, url.Values{"op": {"delete:2"}}, "quote,price\nb,2\n", "taking out a"},
		{"a column comes", files.QuotesFile, url.Values{"op": {"column"}, "column": {"tax"}}, "quote,price,tax\na,1,\nb,2,\n", "a column tax in quotes.csv"},
		{"a setting", files.SettingsFile, url.Values{"op": {"save"}, "s.tax": {"8%"}}, "tax = \"8%\"\n", "tax"},
		{"the text", files.SettingsFile, url.Values{"op": {"text"}, "text": {"tax = \"9%\"\r\n"}}, "tax = \"9%\"\n", "the settings"},
		{"a start", files.BedsFile, url.Values{"op": {"start"}}, string(files.Templates()[files.BedsFile]), "start beds.csv"},
	} {
		c.form.Set("tag", texts.Tag(c.file))
		f, err := ReadForm(c.form)
		require.NoError(t, err, c.name)
		data, words, err := Edited(texts, c.file, f)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, string(data), c.name)
		assert.Equal(t, c.words, words, c.name)
	}
	f, err := ReadForm(url.Values{"tag": {"another"}, "op": {"save"}})
	require.NoError(t, err)
	_, _, err = Edited(texts, files.QuotesFile, f)
	assert.ErrorIs(t, err, folder.ErrStale)
	for _, bad := range []string{"c.x.1", "c.1", "n.99999"} {
		_, err = ReadForm(url.Values{bad: {"x"}})
		assert.Error(t, err, bad)
	}
}
