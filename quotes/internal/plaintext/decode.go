package plaintext

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// Decode gives the text of bytes: UTF-8 with or without a mark, UTF-16 with one, else Windows-1252, which note says. The error is for
// UTF-16 that cannot be read.
func Decode(raw []byte) (text, note string, err error) {
	switch {
	case bytes.HasPrefix(raw, []byte{0xFF, 0xFE}), bytes.HasPrefix(raw, []byte{0xFE, 0xFF}):
		out, err := unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM).NewDecoder().Bytes(raw)
		if err != nil {
			return "", "", fmt.Errorf("reading UTF-16: %w", err)
		}
		return string(out), "", nil
	case utf8.Valid(raw):
		return strings.TrimPrefix(string(raw), "\ufeff"), "", nil
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(raw)
	if err != nil {
		return "", "", fmt.Errorf("reading Windows-1252: %w", err)
	}
	return string(out), "it is not UTF-8 and is read as Windows-1252; check signs such as £, é and ³", nil
}
