package csvfile

import "bytes"

// NoText says what bytes are that are no text, "" for text. The marks are those of the files' own standards: PNG (ISO/IEC
// 15948), JPEG (ITU-T T.81), GIF, TIFF and WebP pictures, PDF (ISO 32000), ZIP and gzip (RFC 1952), HEIF (ISO/IEC 23008-12).
func NoText(raw []byte) string {
	for mark, what := range map[string]string{"\x89PNG": "a picture", "\xff\xd8\xff": "a picture", "GIF8": "a picture", "II*\x00": "a picture", "MM\x00*": "a picture",
		"%PDF-": "a PDF document", "PK\x03\x04": "a spreadsheet, a document or an archive", "\xd0\xcf\x11\xe0": "a spreadsheet or a document", "\x1f\x8b": "a packed file"} {
		if bytes.HasPrefix(raw, []byte(mark)) {
			return what
		}
	}
	utf16 := bytes.HasPrefix(raw, []byte{0xFF, 0xFE}) || bytes.HasPrefix(raw, []byte{0xFE, 0xFF})
	switch {
	case len(raw) > 12 && (string(raw[4:8]) == "ftyp" || string(raw[:4]) == "RIFF" && string(raw[8:12]) == "WEBP"):
		return "a picture or a film"
	case !utf16 && bytes.IndexByte(raw, 0) >= 0:
		return "a program or other bytes"
	}
	return ""
}
