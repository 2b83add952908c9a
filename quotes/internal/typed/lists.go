package typed

import (
	"regexp"
	"slices"
	"strings"

	"mediabuy/quotes"
)

var (
	// joined is what stands between the things of a list, beside a semicolon.
	joined = regexp.MustCompile(`(?i) ?[,;/&+] ?| (?:and|or) `)
	// shareOf is a medium and its share without the colon between them.
	shareOf = regexp.MustCompile(`(?i)^(?:max(?:imum)?\.? |up to |at most )?(?P<m>\pL[\pL -]*?)(?: at most| max\.?| up to)? (?P<n>\d[\d.,]* ?%|0?\.\d+)$`)
	// shareFirst is that with the share in front: "50% lava".
	shareFirst = regexp.MustCompile(`(?i)^(?:max(?:imum)?\.? |up to |at most )?(?P<n>\d[\d.,]* ?%)(?: of)? (?P<m>\pL[\pL -]*)$`)
)

// Media are the names of a list that has another sign or a word between them than a semicolon; nil for any other text. A medium may be
// called by such a word itself, so one that is known as a whole is no list.
func Media(t *quotes.MediaTable, text string) []string {
	unknown := func(name string) bool {
		_, ok := t.Lookup(name)
		return !ok
	}
	names := joined.Split(text, -1)
	if len(names) < 2 || strings.Contains(text, ";") || !unknown(text) || slices.ContainsFunc(names, unknown) {
		return nil
	}
	return names
}

// shares is a list of media with their shares, each with a colon between.
func shares(s string) string {
	if strings.Contains(s, ":") {
		return ""
	}
	var out []string
	for _, part := range regexp.MustCompile(`(?i) ?; ?|, | and `).Split(s, -1) {
		for _, p := range []*regexp.Regexp{shareOf, shareFirst} {
			if m := p.FindStringSubmatch(part); m != nil {
				out = append(out, m[p.SubexpIndex("m")]+": "+m[p.SubexpIndex("n")])
				break
			}
		}
	}
	return strings.Join(out, "; ")
}

// covers is a list of forms.
func covers(s string) string {
	var out []string
	for _, w := range joined.Split(strings.TrimSuffix(s, " only"), -1) {
		f, ok := FormOf(w)
		if !ok {
			return ""
		}
		if !slices.Contains(out, string(f)) {
			out = append(out, string(f))
		}
	}
	if len(out) == len(quotes.Forms) {
		return "all"
	}
	return strings.Join(out, "; ")
}
