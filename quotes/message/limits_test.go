package message

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTooLong(t *testing.T) {
	long := strings.Repeat("lava 68 a yard\n", MaxBytes/15+1)
	_, err := Parse(long, Options{})
	require.ErrorIs(t, err, ErrTooLong)
	assert.ErrorContains(t, err, "want at most 65536")
	_, _, err = ReadFrom(strings.NewReader(long), "pasted.txt", Options{})
	require.ErrorIs(t, err, ErrTooLong)
	assert.ErrorContains(t, err, "pasted.txt: ")

	// As long as a message may be, of lines that are longer: thousands of rows take their time.
	line := fmt.Sprintf("%-63s\n", "lava 68 a yard")
	p, err := Parse(strings.Repeat(line, MaxBytes/64), Options{})
	require.NoError(t, err)
	assert.Len(t, p.Rows, MaxBytes/64)
	requireSound(t, p)
}

// TestNoText gives what is no text, and in no case a row.
func TestNoText(t *testing.T) {
	for raw, want := range map[string]string{
		"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR": "a picture", "\xff\xd8\xff\xe0\x00\x10JFIF": "a picture", "%PDF-1.7\nlava $68 a yard": "a PDF document",
		"PK\x03\x04lava": "an archive", "\x7fELF\x02\x01\x00\x00": "other bytes", "\x00\x00\x00\x18ftypheic\x00": "a picture or a film", "l\x00a\x00v\x00a\x00": "other bytes",
	} {
		p, _, err := ReadFrom(strings.NewReader(raw), "sent.txt", Options{})
		require.ErrorIs(t, err, ErrNotText, "%q", raw)
		assert.Nil(t, p)
		assert.ErrorContains(t, err, "sent.txt: ")
		assert.ErrorContains(t, err, want)
	}
	_, _, err := ReadFrom(strings.NewReader("\xff\xfel\x00a\x00v\x00a\x00"), "sent.txt", Options{})
	assert.NoError(t, err, "UTF-16 with its mark is text")
}

// endlessParts are messages of one part again and again, each of which would take a naive reader the square of its length.
var endlessParts = []string{"lava 68 a yard, ", "lava and pumice and ", "washed, ", "bag ", "12 34 ", "3/4 in ", "red black white ", "> lava\n", "lava\t1 yd3\t68.00\n",
	"Regards, ", "a,", "\"", "lava 68 a yard. free over 500. ", "Low Ford Quarry: lava 68 a yard\n", "lava lava lava lava lava lava lava lava lava lava lava lava lava\nlava "}

// TestEndless reads what nobody writes: it must stay sound, and what runs on without a stop is not read.
func TestEndless(t *testing.T) {
	for _, part := range endlessParts {
		p, err := Parse(strings.Repeat(part, 4<<10/len(part)), Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
	}
	p, err := Parse(strings.Repeat("lava 68 a yard and so ", maxClause)+", pumice 72 a yard.\nGravel 46 a yard.", Options{})
	require.NoError(t, err)
	require.Len(t, p.Rows, 1)
	assert.Equal(t, "river gravel", p.Rows[0].Text("medium"))
	assert.Equal(t, endless, p.NotUnderstood()[0].Why)
}

// BenchmarkEndless holds such messages of one length against those of four times the length: the work should be about
// four times as much.
func BenchmarkEndless(b *testing.B) {
	for name, size := range map[string]int{"16KiB": 16 << 10, "64KiB": MaxBytes} {
		b.Run(name, func(b *testing.B) {
			for range b.N {
				for _, part := range endlessParts {
					_, err := Parse(strings.Repeat(part, size/len(part)), Options{Delivery: true})
					require.NoError(b, err)
				}
			}
		})
	}
}
