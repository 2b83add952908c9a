package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// What stands around packs, units and numbers of them, and tells what they are of.

// NoContents makes the amount behind it what a pack makes, covers or weighs: "makes 75 L", "weight 48 lb".
var NoContents = lazy.Compile(`\b(?:makes?|gives?|yields?|(?:expands?|swells?|fluffs?)(?: up)?(?: to)?|fills?|covers?|weight|weighs|wt\.?)(?:[ \t:]|is|about|around|up to|only|just|roughly)*$`)

// OnlyHolds goes on behind what a bucket holds where nothing else is said of it.
var OnlyHolds = lazy.Compile(`^(?:,? (?:so|and) (?:half|halves)\b[^.;\n]*)?[ \t]*(?:[.;)\n]|$)`)

// LoadsVerb is who loads, in front of a "load" that is no pack.
var LoadsVerb = lazy.Compile(`\b(?:i|we|you|they|he|she)(?:['’](?:ll|d)| will| can| could| would)*(?: only| ever)?[ \t]*$`)

// ScoopPriced says that scoops have prices, so that what one holds is a pack and no step.
var ScoopPriced = lazy.Compile(`(?:\b(?:an?|per|each|the)[ \t]|/[ \t]*)scoop|scoops?[^\n\pL]{0,8}[$£€\d]`)

// WhichGoods makes "sold by the yard" behind it tell some goods from others.
var WhichGoods = lazy.Compile(`\b(?:anything|whatever|those|ones|what(?:['’]s| is| we)|that (?:is|are|we))[ \t]*$`)

// AllPrices opens what says so of all prices.
var AllPrices = lazy.Start(`(?:all|both|each|everything|prices?)\b`)

// OnForm is what a number of packs is said of: "6 cube minimum on loose".
var OnForm = lazy.Start(pieces.Sp1 + `(?:on|for) (?:the )?(loose|bulk\b|` + pieces.PackForm + `)`)

// NumberedUnit is a number of packs in a word or in digits right in front: "three yard" in "three yard minimum 44".
var NumberedUnit = lazy.Compile(`(?:\d|\b` + pieces.UptoTwelve + `)[ \t-]*(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `)[ \t-]*$`)

// WordBefore is the word right in front of the end of a text, or in front of an "and", "or" or "to" there.
var WordBefore = lazy.Compile(`([\p{L}\d]+)(?:[ \t-]| (?:and|or|to) )$`)

// ColonEnds is the colon of a line that heads those below it.
var ColonEnds = lazy.Compile(`^[ \t]*:[ \t\r]*(?:\n|$)`)

// AndMore is what may follow a number and make it more: "two and a half yards".
var AndMore = lazy.Start(pieces.Sp + `(?:and|&)` + pieces.Sp + `(?:an? )?(?:half|quarter|third|[½¼¾])`)

// HalfSold says that halves of a unit are sold.
var HalfSold = lazy.Compile(` (?:ok(?:ay)?|fine|sold|available|possible|welcome|no \pL+|too|also|can be had|after that|as well)\b|half (?:the )?price|^(?:sold )?(?:by the|in) half`)

// OfBoth says of a pack that all that was offered is in such packs.
var OfBoth = lazy.Start(pieces.Sp + `,?` + pieces.Sp + `(?:(?:for |in )?(?:both|all|the pair|the lot|either)(?: of (?:them|these|those))?)` + pieces.Sp + `(?:[.,;)\n]|$)`)

// Stocked says of a number of packs that they are there.
var Stocked = lazy.Compile(`\b(?:left|have|got|are)\b[^.;,]*` + pieces.WhereStocked)

// ShortTon is the word for a ton in the words for a pack.
var ShortTon = lazy.Compile(`\btons?\b`)

// MoneyAround is what makes words around such a table an offer of their own, or says something of one of its columns.
var MoneyAround = lazy.Compile(`[$£€][ \t]*\d|\d[.,]\d\d\b|(?i:\b(?:first|second|third|latter|former|left|right|cheaper|dearer|other|only)\b)`)

// MoneyWithin is an amount of money, or a number with decimals.
var MoneyWithin = lazy.Compile(`[$£€]|\d[.,]\d|\d:`)

// ChecksIt is what somebody is to check: "check my math".
var ChecksIt = lazy.Start(pieces.Sp1 + `(?:my|the|your|our|these|those|this|that|it|them|if|whether|what|with|back|first|before|out)\b`)
