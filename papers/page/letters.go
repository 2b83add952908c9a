package page

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/bidi"

	"mediabuy/papers/safe"
)

// lettersOf is what both weights of the font of a PDF can set.
var lettersOf = sync.OnceValues(func() (func(r rune) bool, error) {
	var fonts []*sfnt.Font
	for _, data := range [][]byte{liberationsansregular.TTF, liberationsansbold.TTF} {
		f, err := sfnt.Parse(data)
		if err != nil {
			return nil, err
		}
		fonts = append(fonts, f)
	}
	return func(r rune) bool {
		var b sfnt.Buffer
		for _, f := range fonts {
			if i, err := f.GlyphIndex(&b, r); err != nil || i == 0 {
				return false
			}
		}
		return true
	}, nil
})

// lacking says at the head of a PDF that some of its letters are not there.
const lacking = "Some letters of this paper are not in the font of a PDF and stand as boxes: print the same paper from its page (.html) instead, which has them all."

// Lacks are the letters of the page that a PDF cannot set, each once, in order; "" where
// it can set all. A browser has fonts for them, so the page as HTML is whole.
func (p *Page) Lacks() string {
	has, err := lettersOf()
	if err != nil {
		return "" // the font is not readable, and PDF says so
	}
	var out []rune
	p.eachText(func(s string) {
		for _, r := range safe.Line(s) {
			if !unicode.IsSpace(r) && (r > 0xFFFF || !has(r)) {
				out = append(out, r)
			}
		}
	})
	slices.Sort(out)
	return string(slices.Compact(out))
}

// eachText hands over every text that stands on paper.
func (p *Page) eachText(say func(string)) {
	for _, s := range []string{p.Title, p.Subtitle, p.Alarm, p.Foot} {
		say(s)
	}
	for _, s := range p.Printed() {
		say(s.Heading)
		for _, b := range s.Blocks {
			switch v := b.(type) {
			case *Para:
				say(v.Text)
			case *List:
				for _, it := range v.Items {
					say(it)
				}
			case *Fields:
				for _, n := range v.Names {
					say(n)
				}
			case *Chart:
				say(v.Caption)
			case *Picture:
				say(v.Caption)
				for _, shape := range v.Drawing.Shapes {
					say(shape.Words)
				}
			case *Table:
				say(v.Caption)
				shown := v.shown()
				for _, j := range shown {
					say(v.Cols[j].Name)
				}
				for _, r := range v.Rows {
					for _, j := range shown {
						say(r.cell(j).Text)
					}
				}
			}
		}
	}
}

// visual is a line as it is drawn from the left: what is written from the right, as
// Hebrew is, is turned round within a line of English, numbers and Latin words in it
// left as they are (the Unicode Bidirectional Algorithm, Unicode Standard Annex 9, for a
// paragraph from the left and without embeddings; from memory). Signs that are not
// printed, those of embeddings among them, are gone before. The library of letters tells
// their classes alone: it leaves stretches in the order they are written in, and turns a
// mark in front of its letter.
func visual(line string) string {
	runes := []rune(line)
	if !slices.ContainsFunc(runes, fromRight) {
		return line
	}
	var out []rune
	for i := 0; i < len(runes); {
		if !fromRight(runes[i]) {
			out = append(out, runes[i])
			i++
			continue
		}
		// A stretch from the right goes on over spaces, marks and numbers up to its last
		// letter or digit before a letter from the left.
		end := i + 1
		for j := end; j < len(runes) && !fromLeft(runes[j]); j++ {
			if fromRight(runes[j]) || unicode.IsDigit(runes[j]) {
				end = j + 1
			}
		}
		out = append(out, turned(runes[i:end])...)
		i = end
	}
	return string(out)
}

func bidiClass(r rune) bidi.Class {
	p, _ := bidi.LookupRune(r)
	return p.Class()
}

func fromRight(r rune) bool { c := bidiClass(r); return c == bidi.R || c == bidi.AL }

func fromLeft(r rune) bool { return bidiClass(r) == bidi.L }

// turned is a stretch from the right as it is drawn from the left.
func turned(stretch []rune) []rune {
	out := make([]rune, 0, len(stretch))
	for i := len(stretch) - 1; i >= 0; {
		// A number stays as it is.
		from := i
		for from >= 0 && (unicode.IsDigit(stretch[from]) || from < i && from > 0 && strings.ContainsRune(".,:/", stretch[from]) && unicode.IsDigit(stretch[from-1])) {
			from--
		}
		if from < i {
			out = append(out, stretch[from+1:i+1]...)
			i = from
			continue
		}
		r := stretch[i]
		// A mark stays behind the letter that carries it.
		if unicode.Is(unicode.Mn, r) {
			k := i
			for k > 0 && unicode.Is(unicode.Mn, stretch[k]) {
				k--
			}
			out = append(out, mirrored(stretch[k]))
			out = append(out, stretch[k+1:i+1]...)
			i = k - 1
			continue
		}
		out = append(out, mirrored(r))
		i--
	}
	return out
}

func mirrored(r rune) rune {
	const pairs = "()[]{}<>«»"
	signs := []rune(pairs)
	if i := slices.Index(signs, r); i >= 0 {
		return signs[i^1]
	}
	return r
}
