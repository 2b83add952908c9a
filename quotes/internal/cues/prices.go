package cues

import (
	"mediabuy/quotes/internal/inwords"
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// Prices, however the sentence runs: with what they are for behind them, with it in front, or with a sign of money alone.
var (
	SumOfPack   = lazy.Compile(pieces.LooseAmount + `(?:` + pieces.PerWord + `|` + pieces.Sp1 + `(?:for|in) (?:the |an? |each )?)` + pieces.UnitPattern("u"))
	SignOfPack  = lazy.Compile(`(?P<mpre>` + pieces.SignBefore + `)` + pieces.Sp + `(?P<m>` + pieces.PlainNumber + `)` + pieces.Sp1 + pieces.UnitPattern("u"))
	PackThenIt  = lazy.Compile(pieces.UnitPattern("u") + `(?P<gap>[^\d\x00.;\n$£€]{0,24}?)` + pieces.LooseAmount)
	BreakAfter  = lazy.Compile(pieces.LooseAmount + `(?:` + pieces.EachWord + `|` + lazy.Unnamed(pieces.PerWord+pieces.UnitPattern("u")) + `)?(?P<gap>[^\d\x00;\n$£€]{0,40}?)\b(?P<n>` + pieces.PlainNumber + `|` + pieces.Written + `)(?:` + pieces.Sp + `(?P<c>` + pieces.AnyUnit + `|` + pieces.PackForm + `))?(?P<more>` + pieces.OrMore + `)?`)
	BreakFirst  = lazy.Compile(`\b(?P<n>` + pieces.PlainNumber + `|` + pieces.Written + `)(?:` + pieces.Sp + `(?P<c>` + pieces.AnyUnit + `|` + pieces.PackForm + `))?(?P<more>` + pieces.OrMore + `)?(?P<gap>[^\d\x00;\n$£€]{0,40}?)` + pieces.LooseAmount)
	SpokenSum   = lazy.Compile(`\b(?P<said>` + inwords.Spoken + `)` + pieces.PerWord + pieces.UnitPattern("u"))
	SpokenPack  = lazy.Compile(pieces.UnitPattern("u") + `(?P<gap>(?:[ ,]+(?:is|are|it's|at|for|of it|and|it))*[ ,]+)(?P<said>` + inwords.Spoken + `)\b`)
	SpokenBreak = lazy.Compile(`\b(?:if|when|from|at|take|buy|get)\b[^\d\x00.;\n$£€]{0,24}?\b(?P<n>` + pieces.PlainNumber + `|` + pieces.Written + `)(?:` + pieces.Sp + `(?P<c>` + pieces.AnyUnit + `|` + pieces.PackForm + `))?(?:` + pieces.OrMore + `)?[^\d\x00.;\n$£€]{0,40}?(?P<said>\b` + inwords.Spoken + `)\b`)
	SpokenAlone = lazy.Compile(`(?:\b(?:is|are|it's|they're|costs?|runs?|,|and)|['’]s|,)[ \t]+(?P<said>` + inwords.Spoken + `)\b(?:` + pieces.Sp + `(?:[.,;)\n]|$)|[ \t]+(?:and|each|apiece|for the|on the|same|also|too)\b)`)
	HalfPriced  = lazy.Compile(pieces.LooseAmount + pieces.Sp + `(?:(?:an?|per|for an?|the|by the|/) ?)?half\b(?:[ -](?:an? |the )?` + pieces.AnyUnit + `)?`)
)

// ByPallet says behind the price of one that it holds where a pallet is bought.
var ByPallet = lazy.Start(`(?:` + pieces.Sp1 + pieces.PackForm + `)?,?` + pieces.Sp1 + `(?:by|on|for|at|in|per)` + pieces.Sp1 + `(?:(?:the|an?|one|full|whole) )*` + pieces.PalletWord)

// LowerBehind goes on behind a price with another from a number of packs on: "regular $35, and I can do $31 if you take at least 15", "$8 or
// $7 from 30".
var LowerBehind = lazy.Compile(`^,? (?:(?:and|but|or) )?(?:[\pL'’]+ ){0,3}` + lazy.Unnamed(pieces.AmountPattern("m")) + `(?: each| apiece| a (?:bag|sack|yard))? (?:` + pieces.IfBuying + `|if it['’]?s|from|for|at|on|by|in) (?:(?:at least|an?|the|full|whole|up|lots of) )*(?:\d|` + pieces.Written + `|` + pieces.PalletWord + `)`)

// OrOffer is an "or" behind a price that begins another offer and no range: "$5.49 or 5 for $25", "$8 or $7 from 30".
var OrOffer = lazy.Compile(`^` + pieces.Sp1 + `or` + pieces.Sp1 + `(?:\d+|` + pieces.Written + `) for (?:` + pieces.SignBefore + `)?` + pieces.Sp + `\d|` + LowerBehind.String())

// Lists of prices in lines of their own: what says of a whole list what its prices are for, a line of it that ends in a number, and a line
// that ends in a number behind dots or a wide gap.
var (
	PerHeading = lazy.Compile(`(?m)\b(?:prices?|everything|all)[^\n\d]{0,12} (?:per|by the) ` + pieces.AnyUnit + `|^[^\n\d]*(?:\b(?:per|by the)[ \t]+|[$£€]/|/)` + pieces.AnyUnit + `[^\n\d]*$`)
	PlainLine  = lazy.Compile(`(?m)^[ \t*•-]*(\pL[^\n\t\d]*(?:[ \t][\d/.#-]+(?:[ \t]?(?:mm|in\b|"))?)?)[ \t]+[$£€]?(\d+(?:[.,]\d+)?)[ \t]*\r?$`)
	ListLine   = lazy.Compile(`(?m)^([^\n\t]*?\pL[^\n\t]*?)(?:[ ][.…]{2,} *|\.{4,} *| {2,}|(?:[^\d\n]|[\d]/[\d])[ ]*[-–—:=>]+[ ]+)(\d+(?:[.,]\d+)?)[ \t]*\r?$`)
)

// SaysPrice is what makes the amount behind a number of packs its price.
var SaysPrice = lazy.Compile(`(?:they|it)['’]?(?:s|re| is| are)\b|\b(?:is|are|gets?|drops?|goes|comes?|do)\b`)

// PerDrop is no pack.
var PerDrop = lazy.Start(pieces.Sp + `(?:(?:/|per\b|an?\b|each\b)` + pieces.Sp + `(?:drop|delivery|order|trip|mile|hour|visit|call[- ]out)\b|for (?:the|each|a|every) (?:drop|trip|delivery|journey|run|consignment|shipment)\b|(?:for (?:the )?|each )?(?:dump )?(?:truck|lorry|wagon|trucking)` + pieces.Sp + `(?:[,.;)\n]|$|fee|charge))`)
