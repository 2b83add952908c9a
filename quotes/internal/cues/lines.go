package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
	"mediabuy/quotes/internal/plaintext"
)

// OnDayWrote and the others are what stands in lines of its own in a mail: headings, greetings, labels, numbers of a list and times of calls.
var (
	OnDayWrote  = lazy.Compile(`(?m)^On .{4,90} wrote:[ \t]*$`)
	FromLine    = lazy.Compile(`(?mi)^from:[ \t]*([^(\n]*).*$`)
	HeadingLine = lazy.Compile(`(?mi)^(?:(?:cc|date|sent|subject|re|fwd?|reply-to):[^\n]*|(?:to|attn):(?: {0,2}[^\n ])* *|(?:customer|client|buyer|sold to|(?:quot(?:e|ation) )?for)[ \t]*:[^\n\d$£€]*|(?:bill(?:ed)? to|ship(?:ped)? to|sold to|(?:prepared|estimate) for)[ \t]*:[ \t]*(?: {0,2}[^\n$£€ ])* *)$|^(?:to|attn|customer|client|buyer|quot(?:e|ation) for|bill(?:ed)? to|ship(?:ped)? to|sold to|(?:(?:prepared|estimate) )?for)[ \t]*:[ \t]*[^\n\d$£€ ][^\n\d$£€]*? {3}`)
	// Ms. Tran: as a letter to her begins
	Salutation   = lazy.Compile(`^\s*(?:Mrs?|Ms|Miss|Mx|Dr|Messrs|Herr|Frau|Madame|Madam|Sir)\b\.?(?:[ \t]+\p{Lu}[\p{L}'’-]*\.?){0,2}[ \t]*[:,–—]`)
	GreetingLine = lazy.Compile(`(?mi)^[ \t]*(?:hi|hello|hey|dear|good (?:morning|afternoon|evening)|morning|afternoon|evening)(?:[ \t]+[\p{L}'’]+){0,3}[ \t]*\r?$`)
	ListNumber   = lazy.Compile(`(?m)^[ \t]*(?:(?i:line|item|pos\.?|no\.?)[ \t]+(\d{1,2})[.):]?|(\d{1,2})[.)])[ \t]+|` + plaintext.NumberAlone)
	SmallLabel   = lazy.Compile(`(?m)^[ \t]*(?:[-*•][ \t]*|\d{1,2}[.)][ \t]+)?(\p{L}[\p{L}'’&-]*(?:[ \t][\p{L}'’&-]+){0,3})[ \t]*(?::|[ \t][-–—])[ \t]+`)
	ClockTime    = lazy.Compile(`^\d:\d`) // "Tues 10:40"
	// Phone message for Lou, 14.05
	CallTime = lazy.Compile(`(?mi)^[^\n$£€]*\b(?:phone|telephone|tel|calls?|called|voicemail|message|msg|machine|rang|spoke)\b[^\n$£€]*[ ,]((?:[01]?\d|2[0-3])[.:h][0-5]\d(?:[ \t]?[ap]\.?m?\.?)?)[ \t]*:?[ \t]*\r?$`)
	// ItemLine opens a line of a numbered list, or of an order, or one that begins with how what it prices is packed: "big bag 8/16".
	ItemLine = lazy.Compile(`^(?:\d{1,2}[.)]|\d{1,4}[ \t]*[x×])[ \t]+\pL|^(?i:` + pieces.PackForm + `|` + pieces.TruckWord + `|loose)[ \t]*[,:]?[ \t]*\d[^\n]*(?:[$£€]|\b(?:euros?|eur)\b|\d[.,]\d\d\b)`)
)

// CommaRow is a row of cells with commas between, where one between digits may part two of them: "moor end,lava,27,8-16".
var CommaRow = lazy.Compile(`(?m)^(?:[^\n]*(?:\pL,[\pL\d$£€]|\d,\pL)){2}[^\n]*$`)

// BlankLine ends a part of a list.
var BlankLine = lazy.Compile(`\n[ \t\r]*\n`)

// HouseBefore is the number of a house behind a comma, in front of its road: "Pell Reclaim, 7 Cooper Yard".
var HouseBefore = lazy.Compile(`,[ \t]*\d{1,5}[a-z]?[ \t]+$`)

// PaperHead is what a paper calls itself above its head.
var PaperHead = lazy.Compile(`(?i)^[ \t]*(?:our )?(?:(?:price|sales|formal|written) )?(?:quotation|quote|offer|estimate|pro-?[ ]?forma(?: invoice)?|price list|proposal|order confirmation)[ \t:]*$`)

// MailHeading begins a mail that is copied.
var MailHeading = lazy.Compile(`(?mi)^from:`)
