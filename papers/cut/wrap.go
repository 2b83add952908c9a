package cut

import (
	"strings"
	"unicode"
)

// mmOfPoint is a point in millimetres.
const mmOfPoint = 25.4 / 72

// wide is what words take in millimetres in the bold font of the papers, rather too much than too little.
func wide(s string, points float64) float64 {
	em := 0.0
	for _, r := range s {
		switch {
		case strings.ContainsRune(" ,.:;/|!'iljtf()-", r):
			em += 0.34
		case strings.ContainsRune("mwMW@%—…", r):
			em += 0.95
		case unicode.IsLower(r), unicode.IsDigit(r):
			em += 0.6
		case unicode.IsUpper(r):
			em += 0.76
		default:
			em++
		}
	}
	return em * points * mmOfPoint
}

// wrapped is a text in lines of a width, broken at spaces and behind slashes; a word that is too long by itself, anywhere.
func wrapped(text string, width, points float64) []string {
	var out []string
	line := ""
	for _, piece := range strings.SplitAfter(strings.ReplaceAll(text, "/", "/\x00"), " ") {
		for part := range strings.SplitSeq(piece, "\x00") {
			if line != "" && wide(line+strings.TrimSpace(part), points) > width {
				out, line = append(out, strings.TrimSpace(line)), ""
			}
			for _, r := range part {
				if line != "" && r != ' ' && wide(line+string(r), points) > width {
					out, line = append(out, line), ""
				}
				line += string(r)
			}
		}
	}
	if line = strings.TrimSpace(line); line != "" {
		out = append(out, line)
	}
	return out
}
