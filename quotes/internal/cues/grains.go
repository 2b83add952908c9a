package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// What stands around sizes of grain, and around numbers that look like them.

// TimesBefore is the other end of a size: "3/8 x 1/2 in".
var TimesBefore = lazy.Compile(`\d` + pieces.Sp + `["”″]?` + pieces.Sp + `[x×]` + pieces.Sp + `$`)

// MixedInches is a whole number and a fraction with a dash between: one and a half, or from one to a half.
var MixedInches = lazy.Start(`\d-\d/\d$`)

// NotInch follows an "in" that is no unit.
var NotInch = lazy.Start(pieces.Sp1 + `(?:` + pieces.PackForm + `|bulk|town|stock|total|the|a|all|your|our|here)\b`)

// PerUnit is a price for a unit of what is sold loose, behind a bare range: where others are grains, it is one as well.
var PerUnit = lazy.Start(pieces.Sp + `(?:is|at|are|:|=|-)?` + pieces.Sp + pieces.AmountPattern("m") + pieces.PerWord + pieces.AnyUnit)

// PartOfOther is what makes a fraction a part of something else.
var PartOfOther = lazy.Start(pieces.Sp + `(?:-?` + pieces.Sp + `(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `|mm\b|cm\b|in\b|inch|["”″]|'')|price|off\b|full|day|hour|mile|of\b|/|%|in \d)`)

// CountedThings are numbered and no stone: "price list no. 7".
var CountedThings = lazy.Compile(`\b(?:list|order|quote|quotation|invoice|customer|ref|reference|account|page|phone|item|line|ticket|estimate|lot)[.:]?[ \t]*$`)

// BothBehind stands behind two sizes of which the price that follows is that of each.
var BothBehind = lazy.Start(`[ \t]*[.,;:–-]*[ \t]*(?:and |for |at )?(?:both|either|each)\b`)

// RinseSaid are words for what goes down the drain.
var RinseSaid = lazy.Compile(`\b(?:rins\w+|wash\w* (?:it|them|well|out|off|before)|dust|dusty|fines|grit|silt|powder)\b`)

// SizedName holds a size or a weight, as goods do and no company: "Aqua Pebble Mix 10-20mm".
var SizedName = lazy.Compile(`\d[ -]?(?:mm|cm|kg|ltr|lit(?:re|er)s?|lbs?)\b`)

// BareRange is a range of grains with no unit.
var BareRange = lazy.Start(`\d{1,3}` + pieces.Sp + `[-–]` + pieces.Sp + `\d{1,3}$`)

var SizedLine = lazy.Start(`[\d/]+(?:[.,]\d+)?(?:` + pieces.Sp + `(?:-|–|to)` + pieces.Sp + `[\d/]+)?` + pieces.Sp + `-?` + pieces.SizeUnit + pieces.Sp)
