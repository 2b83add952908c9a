package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// Between two cells a comma may be the mark of an amount: "€ 156,00" is SignedEnd and TwoDigits, "14,90 EUR" NumberEnd and CentsOf.
var (
	SignedEnd = lazy.Compile(`(?:` + pieces.SignBefore + `)[ \t]*\d+$`)
	TwoDigits = lazy.Compile(`^\d\d(?:\D|$)`)
	// an amount that goes on behind its cents, and no cell of its own: "14,90 EUR", "14,90; from 36", "12,40 each"
	NumberEnd = lazy.Compile(`(?:^|[^\d.,/-])\d{1,4}$`)
	CentsOf   = lazy.Compile(`^\d\d(?:[ \t]*(?:€|;|[ \t]\d|(?:eur|euros?|chf|kr|dkk|sek|nok|pln|czk|zł)\b)|` + pieces.EachWord + `|[ \t]*(?:/|\b(?:je|pro|per|ab|pr)\b))`)
)
