package cues

import (
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// Words for numbers of packs, wherever they stand in a sentence.
var (
	SoldInHalf = lazy.Compile(`(?:in |by (?:the )?|any |a )*(?P<part>half|halves|quarters?)(?: of)?[ -](?:an? )?(?P<v>` + pieces.AnyUnit + `|met(?:re|er)s?\b)`)
	HalvesSold = lazy.Compile(`\bin (?:halves|half (?:increments|steps))\b|\bhal(?:ve|f)s (?:are|is) (?:ok|okay|fine|welcome|all ?right|no problem|possible)\b`)
	HalvesWord = lazy.Compile(`\b(?:fine|ok|okay|welcome|after|above|past|beyond|then|problem|steps?|increments?|by|can|will|load\w*|cut|sell|sold|either|halves|in|any|happy|glad|quarters?)\b`)
	LeastSold  = lazy.Compile(`\b(?:(?:(?:(?:sells?|sold)(?: \pL+){0,2} from|min(?:imum)?\b\.?|(?:smallest|smaller|lowest|least) (?:order|sale|quantity|amount|lot|purchase|we)\b|(?:we|i)(?:['’]d| would)? need\b|\b(?:least|smallest|fewest) (?:i|we)(?:['’]ll|['’]d| will| would)? (?:\pL+) is|(?:not|n['’]t|never|cannot|\b(?:ca|do|wo)nt)(?: \pL+){1,6} (?:(?:less|fewer) than|under|below))(?P<gap>[^\d\x00.;\n$£€]{0,30}?)|at least )\b(?P<q>` + pieces.Quantity + `)(?:` + pieces.Sp + `-?` + pieces.Sp + `(?P<v>` + pieces.AnyUnit + `|` + pieces.PackForm + `))?|` +
		`(?P<qb>` + pieces.Quantity + `)` + pieces.Sp + `-?` + pieces.Sp + `(?P<vb>` + pieces.AnyUnit + `|` + pieces.PackForm + `)?` + pieces.Sp + `-?` + pieces.Sp + `(?:or more,? (?:please|only)\b|min(?:imum)?|at (?:the )?least)\b)`)
	LeastTaken = lazy.Compile(`\b(?:take|order|want|buy|need|ask for|anything|nothing)(?: \pL+){0,2} (?:(?:less|fewer|smaller) than|under|below) (?P<q>` + pieces.Quantity + `)` + pieces.Sp + `-?` + pieces.Sp + `(?P<v>` + pieces.AnyUnit + `|` + pieces.PackForm + `)`)
	DeniesWord = lazy.Compile(`n['’]t\b|\b(?:not|no|never|cannot|cant|wont|dont|nothing|nobody)\b`)
	StockWord  = lazy.Compile(`\b(?:left|here|right now|for sale|on the slab|in stock|on hand|on site|available|inventory|on the (?:shelf|floor|ground|pallet|lot)|in (?:the|my|our) (?:\pL+ )?(?:warehouse|shed|yard|store|back|garage|barn|bin|depot|hall|loft|shop|cellar|hangar|polytunnel|greenhouse|stockroom|container)|limit(?:ed)?|now|at the mo(?:ment)?|out (?:the )?back|down to|in store|only|stock(?:ed)?|i have|we have|have \d+|i've|we've|ive|got|there(?:'s| is| are)|remaining|currently|(?:computer|system|screen|till) (?:shows?|says?|has)|in all|all up|(?:he|she|they)(?:['’]ve)? ha(?:s|ve))\b`)
	HowMany    = lazy.Compile(`\bhow many\b[^\n]*\n+[^\n]{0,60}$`) // asks for the stock in the line in front
	OrBefore   = lazy.Compile(`(?:\bor|\bto|-|–)[ \t]*$`)          // of a number that is one of two
	AndBehind  = lazy.Compile(`^[ \t]*(?:(?:(?:business|working|clear) )?(?:days?|weeks?|h(?:ou)?rs?)\b|and a|or|to[ \t]+(?:\d|` + pieces.Written + `)|-|–|[½¼¾])`)
	OfIt       = lazy.Compile(`(?P<q>` + pieces.PlainNumber + `|` + pieces.Written + `)(?:` + pieces.Sp + `(?:bags?|totes?|sacks?))?(?: of (?:the |it|that|those|them|these|'?em\b)?| )`)
	OfSized    = lazy.Compile(`\b(?P<q>` + pieces.PlainNumber + `|` + pieces.Written + `)(?: (?:bags?|pieces|pcs))? (?:of|in) the (?P<p>\d+(?:[./-]\d+)?)(?:['’]?s\b|` + pieces.Sp + `(?:` + pieces.AnyUnit + `|mm)s?\b)?|\bof the (?P<pb>\d+(?:[./-]\d+)?)(?:['’]?s\b|` + pieces.Sp + `(?:` + pieces.AnyUnit + `|mm)s?\b)? (?:we|i|there)(?:['’]ve| have| are|['’]re)?(?: only| just| still)*(?: got| left)? (?P<qb>` + pieces.PlainNumber + `|` + pieces.Written + `)\b`)
	EmBehind   = lazy.Compile(`of (?:those|them|these|'?em)$`)
	OfThing    = lazy.Compile(`^[ \t]+of[ \t]+(\pL{4,})`)
	OfNamed    = lazy.Compile(`^[ \t]*(?:the )?(\pL{4,})\b`)
	HadAlone   = lazy.Compile(`(?:\b(?:(?:we|i|they)['’]?ve|there(?:['’]?s| are| is)|have|has|got|only|in stock:?|on hand:?|stock:|left:|available:)(?: only| just| about| still| got)* |(?:^|[:\n])[ \t]*)(?P<q>` + pieces.PlainNumber + `|` + pieces.Written + `)(?: left)?(?: here| in stock| on hand| in| (?:in|on|out) (?:(?:the|our|my) )?(?:shed|floor|shelf|ground|yard|lot|shop|store|warehouse|barn|garage|back))?(?: (?:at the mo(?:ment)?|right now|rn|just now|today|at present|currently|this (?:morning|week|afternoon))\b)?` + pieces.Sp + `(?:[.,;)\n]|$|and (?:no|not)\b)`)
	PacksThat  = lazy.Compile(`(?P<q>` + pieces.PlainNumber + `|` + pieces.Written + `)` + pieces.Sp + `(?:(?:unopened|sealed|spare|leftover|unused|new|full|surplus) )*(?P<v>` + pieces.PackForm + `|` + pieces.AnyUnit + `)(?P<end>` + pieces.Sp + `[.,;)\n]|$| of | with | at \d)`)
	NotStock   = lazy.Compile(`\b(?:per|each|every|holds?|takes?|up to|orders?|buy\w*|from|over|for|at|or|to|x|than|pallets?|skids?|makes?|need\w*)\b[^\d.;\n]{0,12}$`) // what stands before a number of packs that is no stock
	PacksHad   = lazy.Compile(`(?P<q>` + pieces.PlainNumber + `|` + pieces.Written + `)` + pieces.Sp + `(?P<v>` + pieces.PackForm + `)`)
)

// PerMile makes an amount in front of it one for each mile, which is no fee for an order: "$4.25 a loaded mile".
var PerMile = lazy.Start(pieces.Sp + `(?:/|(?:per|an?|each|every)\b)` + pieces.Sp + `(?:loaded |extra |running )?(?:miles?|mi|kms?|kilomet(?:re|er)s?)\b`)

// Words for taxes and days, wherever they stand in a sentence.
var (
	TaxBeside  = lazy.Compile(`\b` + pieces.TaxName)
	TaxInIt    = lazy.Compile(`\b(?:incl\w*|inc)\b`)                                                   // it is in the prices
	TaxOnTop   = lazy.Compile(`n['’]t\b|\b(?:not|never|exclud\w+|plus|extra|top|add(?:ed)?|before)\b`) // or is not
	JoinsRates = lazy.Compile(`^[^.;\d]{0,30}$`)                                                       // what stands between two taxes
	LoosePart  = lazy.Compile(`(?P<n>` + pieces.PlainNumber + `)` + pieces.Sp + `(?:%|percent\b|per cent\b)`)
	LooseDay   = lazy.Compile(day.Written)
	HeldWord   = lazy.Compile(`\b(?:until|till|til|thru|through|to|valid|good|holds?|honou?red|firm|expires?|lapses?|ends?|stands?|offer|quote|quotation|prices?|rates?|pricing|closes?|last)\b`)
	LooseSpan  = lazy.Compile(`\b(?P<n>` + pieces.PlainNumber + `|` + pieces.Written + `)[ -](?:(?P<week>weeks?)|days?)\b`)
)

// FromCount is a number of packs from which a line of a list has its price.
var FromCount = lazy.Compile(`\b(?:from|ab|over|above|x)[ \t]*\d+\b|\b\d+[ \t]*(?:\+|or more|and (?:up|over)|pieces|pcs|st(?:ück|uks|k)?\b)`)

// TornOff are words that take the number behind them with them: "to 60 and up", "x 2 or more". So does what is multiplied,
// "3/4 in x 2 and up".
var TornOff = lazy.Compile(`\b(?:to|per|no|x)[ \t]*$`)

// CountedOf is a number of packs with what is in them.
var CountedOf = lazy.Compile(`(?:^|[^\pL\d])(?:` + pieces.PlainNumber + `|` + pieces.Written + `)` + pieces.Sp + `(?:bags?|sacks?|totes?|bulk bags?|big bags?) of ([\pL]{4,})[^\pL\d]*$`)

// UnderCount is how such a sentence begins.
var UnderCount = lazy.Compile(`^\s*(?:(?:so|and|now|ok|okay),? )?(?:for|at|on)(?: an order of| orders of)? (?:` + pieces.PlainNumber + `|` + pieces.Written + `)` + pieces.Sp + pieces.PackForm + `(?: or more)? of\b`)

// CountedIn is a number with its unit.
var CountedIn = lazy.Start(pieces.Sp + pieces.PlainNumber + pieces.Sp1 + `(` + pieces.AnyUnit + `)` + pieces.Sp + `$`)

// TonneBag is a bag called by a weight, which it may hold less of.
var TonneBag = lazy.Start(`tonne[ -]bags?$`)

// PacksOnPallet says how many packs go on a pallet.
var PacksOnPallet = lazy.Compile(`\d+` + pieces.Sp + pieces.PackForm + `(?:` + pieces.Sp + `/` + pieces.Sp + `| (?:per|an?|to the|to an?|on an?|on one|on each) )` + pieces.PalletWord + `|` + pieces.PalletWord + pieces.Sp + `(?:of|\(|=|:|holds|is|x|×)` + pieces.Sp + `\d+` + pieces.Sp + pieces.PackForm)
