package breakeven

import (
	"fmt"
	"slices"
	"strings"

	"github.com/agext/levenshtein"

	"mediabuy/quotes"
)

// UnknownError says that a name given by a person is not one of the job's.
type UnknownError struct {
	What, Name string // "quote", "granit"
	Nearest    string // the known name most like it
	Known      []string
}

func (e *UnknownError) Error() string {
	return fmt.Sprintf("%q is not a %s of this job", e.Name, e.What)
}

// Hint says what to write instead.
func (e *UnknownError) Hint() string {
	if e.Nearest == "" {
		return fmt.Sprintf("the job has no %s at all", e.What)
	}
	return fmt.Sprintf("did you mean %q?", e.Nearest)
}

func unknown(what, name string, known []string) error {
	e := &UnknownError{What: what, Name: name, Known: slices.Sorted(slices.Values(known))}
	best := 0
	for _, k := range e.Known {
		at := levenshtein.Distance(strings.ToLower(name), strings.ToLower(k), nil)
		if e.Nearest == "" || at < best {
			e.Nearest, best = k, at
		}
	}
	return e
}

// FindQuote is the quote of a name, whatever its case. The error is an
// *[UnknownError] with the nearest name.
func FindQuote(job *quotes.Job, name string) (*quotes.Quote, error) {
	var names []string
	for _, q := range job.Quotes {
		if strings.EqualFold(q.Name, strings.TrimSpace(name)) {
			return q, nil
		}
		names = append(names, q.Name)
	}
	return nil, unknown("quote", name, names)
}

// FindSupplier is a supplier's name as the job spells it. The error is an
// *[UnknownError] with the nearest name.
func FindSupplier(job *quotes.Job, name string) (string, error) {
	known := quotes.Suppliers(job)
	for _, s := range known {
		if strings.EqualFold(s, strings.TrimSpace(name)) {
			return s, nil
		}
	}
	return "", unknown("supplier", name, known)
}

// FindSite is a site's name as the job spells it. The error is an *[UnknownError]
// with the nearest name.
func FindSite(job *quotes.Job, name string) (string, error) {
	known := quotes.Sites(job)
	for _, s := range known {
		if strings.EqualFold(s, strings.TrimSpace(name)) {
			return s, nil
		}
	}
	return "", unknown("site", name, known)
}
