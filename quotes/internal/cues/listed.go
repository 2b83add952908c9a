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

// CountBefore stands in front of how many of them a row is for.
var CountBefore = lazy.Compile(`^(?:qty|quantity)\b[.:]?[ \t]*`)

// HeadingSign makes a heading of a line: a colon behind it, or large letters alone in front of a comma, a bracket or a dash.
var HeadingSign = lazy.Compile(`:$|^[\p{Lu} &/]{3,}(?:[ \t]*[,(:–—-]|$)`)

// AllOfIt makes a line speak of all that is sold, and not of what stands below it.
var AllOfIt = lazy.Compile(`\b(?:all|both|everything)\b`)

// CodeInHead is a currency's code beside the words of a heading.
var CodeInHead = lazy.Compile(`\b(?:eur|usd|gbp|cad|aud|nzd|chf|sek|nok|dkk|pln|czk)\b`)

// TheBefore is what makes a word that of a thing spoken of before.
var TheBefore = lazy.Compile(`\b(?:the|these|those)[ \t]+$`)

// EndsPriced is a line that ends with an amount written as money, or with the price of one.
var EndsPriced = lazy.Compile(`(?i)(?:[$£€][ \t]?\d+(?:[.,]\d\d)?|\d[.,]\d\d)(?:[ \t]*(?:€|eur|each|ea\.?|flat))?$`)

// WideBehind stands behind a size in a list that is set in columns, and no unit of it follows: "3/8      yd 129".
var WideBehind = lazy.Compile(`^ {3,}`)

// SharedWord says that what stands behind holds for each of several.
var SharedWord = lazy.Compile(`\b(?:both|each|either|the same (?:price|money)|all)\b`)

// BothBefore opens a list of two.
var BothBefore = lazy.Compile(`\bboth (?:the |our |of )?[^\n]{0,24}$`)

// AllOffers are words by which a day holds for all that a message offers.
var AllOffers = lazy.Compile(`\b(?:prices?|offers?|quote|quotation|valid)\b`)

// Bullet is what marks a line of a list, in front of its words.
var Bullet = lazy.Compile(`(?:^|\n)[ \t]*(?:[-*•·–]|\d{1,2}[.)])[ \t]*$`)

var StepUnit = lazy.Compile(`\b(?:` + pieces.PackForm + `|` + pieces.AnyUnit + `)`)
