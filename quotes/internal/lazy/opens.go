package lazy

import (
	"regexp/syntax"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Opens tells what a match may begin with: which small letters, and whether anything else.
//
// To parse hundreds of long expressions for their first letters takes longer than to read a message, so the text is
// gone through as far as needed: of each alternative up to the first thing that cannot be empty; what stands behind
// is stepped over.
func (e *Expr) Opens() (letters [26]bool, other bool) {
	w := walk{text: e.text}
	w.alternatives(true, 0)
	if w.strange || w.at < len(e.text) {
		w.opening = opening{}
		w.first(parsed(e.text, syntax.Perl))
	}
	return w.letters, w.other
}

// parsed is the tree of an expression.
func parsed(text string, flags syntax.Flags) *syntax.Regexp {
	tree, err := syntax.Parse(text, flags)
	if err != nil {
		panic("lazy: a pattern that compiled does not parse: " + err.Error()) // cannot be
	}
	return tree
}

// walk goes through the text of an expression.
type walk struct {
	opening
	text    string
	at      int
	strange bool // something stands there that is not known here
}

// alternatives goes to the end of a group, or of all, and notes what they open with if look is set. It reports whether
// one of them may be empty.
func (w *walk) alternatives(look bool, flags syntax.Flags) (empty bool) {
	for {
		still := look
		for w.at < len(w.text) && w.text[w.at] != '|' && w.text[w.at] != ')' {
			may := w.atom(still, &flags)
			still = (w.repeat() || may) && still
		}
		empty = empty || still
		if w.at == len(w.text) || w.text[w.at] == ')' {
			return empty
		}
		w.at++
	}
}

// atom goes over a letter, a class, an anchor or a group and reports whether it may be empty.
func (w *walk) atom(look bool, flags *syntax.Flags) (empty bool) {
	from := w.at
	switch c := w.text[w.at]; c {
	case '(':
		inner, ends := w.group(*flags)
		if ends { // flags for what follows
			*flags = inner
			return true
		}
		empty = w.alternatives(look, inner)
		if w.at == len(w.text) {
			w.strange = true
			return empty
		}
		w.at++
		return empty
	case '[':
		w.class()
	case '\\':
		w.escape()
	case '^', '$':
		w.at++
		return true
	default:
		_, size := utf8.DecodeRuneInString(w.text[w.at:])
		w.at += size
		if c >= 'a' && c <= 'z' && *flags&syntax.FoldCase == 0 {
			if look {
				w.letters[c-'a'] = true
			}
			return false
		}
	}
	if w.strange || !look {
		return false // what stands behind is looked at no more
	}
	return w.first(parsed(w.text[from:w.at], syntax.Perl|*flags))
}

// group goes over what a group begins with: its flags, and whether it ends there, so that they are for what follows.
func (w *walk) group(flags syntax.Flags) (inner syntax.Flags, ends bool) {
	w.at++
	rest := w.text[w.at:]
	if !strings.HasPrefix(rest, "?") {
		return flags, false
	}
	if strings.HasPrefix(rest, "?P<") || strings.HasPrefix(rest, "?<") {
		w.at += strings.IndexByte(rest, '>') + 1
		return flags, false
	}
	end := strings.IndexAny(rest, ":)")
	if end < 0 || strings.Contains(rest[:end], "-") {
		w.strange = true
		return flags, false
	}
	if strings.Contains(rest[:end], "i") {
		flags |= syntax.FoldCase
	}
	w.at += end + 1
	return flags, rest[end] == ')'
}

// class goes over a class in brackets.
func (w *walk) class() {
	w.at++
	if strings.HasPrefix(w.text[w.at:], "^") {
		w.at++
	}
	for first := true; w.at < len(w.text); first = false {
		rest := w.text[w.at:]
		switch {
		case rest[0] == ']' && !first:
			w.at++
			return
		case rest[0] == '\\':
			w.at += 2
		case strings.HasPrefix(rest, "[:"):
			w.at += max(1, strings.Index(rest, ":]")+2)
		default:
			w.at++
		}
	}
	w.strange = true
}

// escape goes over a backslash and what belongs to it.
func (w *walk) escape() {
	rest := w.text[w.at:]
	if len(rest) < 2 || strings.IndexByte("QC01234567", rest[1]) >= 0 || rest[1] >= utf8.RuneSelf {
		w.strange = true
	}
	w.at = min(w.at+2, len(w.text))
	if len(rest) < 3 || strings.IndexByte("xpP", rest[1]) < 0 {
		return
	}
	switch {
	case rest[2] == '{':
		w.at += max(1, strings.IndexByte(rest, '}')-1)
	case rest[1] == 'x':
		w.at += 2
	default:
		w.at++
	}
	if w.at > len(w.text) {
		w.at, w.strange = len(w.text), true
	}
}

// repeat goes over how often the thing before it comes, and reports whether that may be never.
func (w *walk) repeat() (never bool) {
	for w.at < len(w.text) {
		switch w.text[w.at] {
		case '*', '?':
			never = true
			w.at++
		case '+':
			w.at++
		case '{':
			end := strings.IndexByte(w.text[w.at:], '}')
			counts := w.text[w.at+1 : w.at+max(1, end)]
			if end < 0 || strings.Trim(counts, "0123456789,") != "" || counts == "" || counts[0] == ',' || counts[0] == '0' && len(counts) > 1 && counts[1] != ',' {
				w.strange = true // it may stand for itself
				return never
			}
			never = never || counts[0] == '0'
			w.at += end + 1
		default:
			return never
		}
	}
	return never
}

// opening is what a match may begin with.
type opening struct {
	letters [26]bool
	other   bool
}

// first notes what a tree opens with and reports whether it may be empty.
func (o *opening) first(t *syntax.Regexp) (empty bool) {
	switch t.Op {
	case syntax.OpLiteral:
		c := t.Rune[0]
		o.add(c, c)
		if t.Flags&syntax.FoldCase != 0 {
			for f := unicode.SimpleFold(c); f != c; f = unicode.SimpleFold(f) {
				o.add(f, f)
			}
		}
		return false
	case syntax.OpCharClass:
		for i := 0; i < len(t.Rune); i += 2 {
			o.add(t.Rune[i], t.Rune[i+1])
		}
		return false
	case syntax.OpAnyChar, syntax.OpAnyCharNotNL:
		o.add(0, unicode.MaxRune)
		return false
	case syntax.OpConcat:
		for _, sub := range t.Sub {
			if !o.first(sub) {
				return false
			}
		}
		return true
	case syntax.OpAlternate:
		for _, sub := range t.Sub {
			empty = o.first(sub) || empty
		}
		return empty
	case syntax.OpStar, syntax.OpQuest:
		o.first(t.Sub[0])
		return true
	case syntax.OpRepeat:
		return o.first(t.Sub[0]) || t.Min == 0
	case syntax.OpPlus, syntax.OpCapture:
		return o.first(t.Sub[0])
	}
	return true // an anchor or nothing
}

func (o *opening) add(from, to rune) {
	for i := range o.letters {
		if c := 'a' + rune(i); from <= c && c <= to {
			o.letters[i] = true
		}
	}
	o.other = o.other || from < 'a' || to > 'z'
}
