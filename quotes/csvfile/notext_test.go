package csvfile_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes/csvfile"
)

// What is no text is told by its mark, and text of any encoding that is read is none of it.
func TestNoText(t *testing.T) {
	for raw, want := range map[string]string{
		"\x89PNG\r\n\x1a\n": "a picture", "RIFF\x24\x00\x00\x00WEBPVP8 ": "a picture or a film", "%PDF-1.7": "a PDF document", "PK\x03\x04": "a spreadsheet, a document or an archive",
		"\x1f\x8b\x08": "a packed file", "supplier\x00": "a program or other bytes",
		"": "", "supplier,item\n": "", "\xff\xfes\x00": "", "\xfe\xff\x00s": "", "Bl\xe4hton": "",
	} {
		assert.Equal(t, want, csvfile.NoText([]byte(raw)), "%q", raw)
	}
}

// A row that is written reads back as it was, cells that look like a comment, hold the separator or run over a line included.
func TestWrite(t *testing.T) {
	got := csvfile.Write([]map[string]string{{"a": "#1", "b": "x, y"}, {"a": `say "so"`, "b": " z"}, {"b": "two\nlines"}}, []string{"a", "b"})
	assert.Equal(t, "a,b\n\"#1\",\"x, y\"\n\"say \"\"so\"\"\",\" z\"\n,\"two\nlines\"\n", got)
}
