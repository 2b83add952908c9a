package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// What stands around a price in a list or a sentence, and tells what it is for.

// AddedTo is a plus that makes of a number of packs no "or more": "in bags + £8 a bag".
var AddedTo = lazy.Compile(`(?:^|[^\d+ \t])[ \t]*\+[ \t]*$`)

// OverLine is a fraction, which "1 / 2 yards" may be taken for: a small whole number over another.
var OverLine = lazy.Start(`\d{1,2}/\d`)

// Whereabouts make an "at" behind them one of a place or a time: "you're at 9", "we close at 5".
var Whereabouts = lazy.Compile(`\b(?:you(?:['’]re| are)|open|opens?|closed?|shut|starts?|ends?|meet|come|call|around)[ \t]*$`)

// TaxBefore is a tax in front of its amount or its percentage.
var TaxBefore = lazy.Compile(`\b` + pieces.TaxName + `[ \t]*$`)

// ForSize stands between a price and its size.
var ForSize = lazy.Start(pieces.Sp1 + `(?:for|on|in)(?: the| our)? `)

// ColumnNumber is a number in a column before the last.
var ColumnNumber = lazy.Compile(` {2,}[$£€]?\d`)

// SizeColumn is a size in the column before a price.
var SizeColumn = lazy.Compile(`\d/\d+ {3,}$`)

// WhoseYard makes a yard behind it a place and no measure.
var WhoseYard = lazy.Compile(`\b(?:our|my|their|his|her)[ \t]*$`)
