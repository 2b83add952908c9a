// Package cues has the words that tell how what stands beside them is meant: as somebody else's, of another time, taken back, not to be
// had, on top of something, or as a new clause. All is matched in small letters.
package cues

import (
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// ChargesLoads is said of whoever was asked: "they charge 70 a load".
var ChargesLoads = lazy.Compile(`\bthey (?:would |will )?charge[^.;,]{1,30} (?:(?:per|an?|each|for (?:each|every|an?|the)) (?:load|trip|run|drop|delivery|truck|order)|for delivery|to (?:deliver|bring)\pL*)\b`)

// OthersSay makes a clause one about the price of somebody else.
var OthersSay = lazy.Compile(`\b(?:(?:i|we) (?:just |also |can )?(?:see|saw|know|hear|heard|noticed|got quoted|was quoted)|(?:the|a|an|other|some|any|most|my|our|your|local) (?:(?:local|other|big|next) )*(?:garden cent(?:er|re)s?|big box(?:es)?|box stores?|neighbou?r\pL*|guys?|competition|next yard|yard over)|(?:the|a|an|other|some|any|most|local) (?:(?:local|other|big|next) )*places?|everyone else|everybody else|they(?:'d|’d| would|'ll|’ll| will)? charge|down the (?:road|street)|across town|next door|over in)\b`)

// WentThere begins what was said where somebody asked: "I stopped at Low Ford Quarry and the guy says", which is about no one else.
var WentThere = lazy.Compile(`\b(?:i|we) (?:stopped|called|dropped|went|popped)(?: in)? (?:at|by|in|to|into|over to) [^.,;\n]{3,40} and (?:the|a) (?:guy|man|lady|woman|girl|boy|owner|lad|clerk|fellow)(?: there| at the (?:desk|counter|gate))? (?:says?|said|told me|tells me)\b`)

// ToOthers opens what is offered to somebody else, to the end of the sentence: "to your mate Deano: perlite $36".
var ToOthers = lazy.Compile(`\b(?:to|for) (?:your|his|her|my) (?:mate|friend|neighbou?r|colleague|brother|sister|cousin|dad|mum|mom|buddy|partner)\b`)

// SaidBefore makes a clause one about what was said earlier, which holds no more or is said again: "I told your colleague £48".
var SaidBefore = lazy.Compile(`\b(?:every|each|any) [^\n,.]{1,20} (?:after|beyond|over) that\b|\b(?:i|we)(?:'d|’d| had)? (?:wrote|written|told|quoted (?:you|him|her|them))\b`)

// FromThen makes a clause one about what will hold from a day on: "from 1.6. the lava will be 12,90", "goes up to 14 on 1 June".
var FromThen = lazy.Compile(`\b(?:from|as of|as from|starting|after|effective|beginning|on|in)[ \t]+(?:the[ \t]+)?(?:\d{1,2}(?:st|nd|rd|th)?[ \t]+)?(?:` + day.Month + `|\d{1,2}[./-]\d{1,2}[./-]|\d{4}-\d\d-\d\d)[^\n]*\b(?:will|(?:goes|go|going|rises?|increases?|moves?)(?:[ \t]+up)?[ \t]+to)\b|\b(?:will[ \t]+)?(?:goes|go|going|rises?|increases?|moves?|will be)(?:[ \t]+up)?[ \t]+(?:to[ \t]+)?[$£€]?\d[^\n]*\b(?:from|as of|starting|after|effective|on|in)[ \t]+(?:the[ \t]+)?(?:\d{1,2}(?:st|nd|rd|th)?[ \t]+)?(?:` + day.Month + `|\d{1,2}[./-]\d{1,2}[./-]|\d{4}-\d\d-\d\d)`)

// Correction takes back the number in front of it: "sorry, make that 34".
var Correction = lazy.Compile(`\b(?:(?:make (?:that|it)|i meant?|(?:sorry|oops),? (?:that|it)(?:'|’)?s the|should (?:be|read|say|have (?:been|read|said)))[^\d\n\pL]{0,4}|(?:scratch that|strike that|correction|correct that|oops|typo|my mistake|my bad|misquot\pL+|misspoke|revised|updated|thought (?:it|that) was|(?:scrub|ignore|forget|disregard) (?:that|what i said|what we said|my last|the last|page \d+)|(?:that|it)[’' ]?s (?:(?:an?|the|my|our) old|last (?:year|month|week)[’']?s?)|old (?:sheet|list|price))\b[^\d\n]{0,40})\d|\b(?:no,? wait|wait,? no|scratch that|strike that)\b|[$£€]?\b\d+(?:\.\d+)? then(?:[ \t]+(?:haha|lol|mate|ok|cheers|thanks|thx))?(?:[,.!\n]|$)`)

// NotThat is a number in place of another: "sorry 38 not 36".
var NotThat = lazy.Compile(`\b(?P<n>\d+(?:[.,]\d+)?),? not (?:the )?[$£€]?(?P<m>\d+(?:[.,]\d+)?)\b`)

// WillBefore makes an offer of what else would be a correction: "I will make it 47".
var WillBefore = lazy.Compile(`\b(?:will|would|can|could|we|i)(?: \pL+)?[ \t]+$|['’](?:ll|d)[ \t]+$`)

// MoreBefore makes a number behind it the price from a number of packs on: "ten yards or better I'll go 85".
var MoreBefore = lazy.Compile(pieces.OrMore)

// CountedAfter is what makes a number in front of it one of something else than money.
var CountedAfter = lazy.Start(pieces.Sp + `-?(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `|%|x\b|per ?cent|miles?\b|mi\b|km\b|min(?:ute)?s?\b|h(?:ou)?rs?\b|days?\b|weeks?\b|am\b|pm\b|mm\b|cm\b|in(?:ch(?:es)?)?\b|sq\b|ft\b|left\b|of (?:th)?em\b|of these\b|years?\b|to (?:bring|deliver|drop|get)|for (?:the|a) (?:truck|delivery)|th\b)`)

// UntilWords bound the time of what they stand with.
var UntilWords = lazy.Compile(`\b(?:until|till?|through|thru|up to|end of)\b`)

// GoneBehind says of the price in front of it that nothing is to be had for it: "£12.60 (out of stock, due May)".
var GoneBehind = lazy.Compile(`^[^\pL\d]*(?:(?:but|and|though|sorry|sadly|which|that['’]?s|(?:it|they|this|that|those|these)(?:['’]?(?:s|re))?|is|are|now|just|all|already|currently|temporarily|we['’]?re|we are|bulk|loose|bagged) )*(?:out(?: of (?:stock|it|them)| for now| right now)?|not in stock|sold out|all gone|spoken for|promised|reserved|none left|not for sale|not available|unavailable|discontinued|on back[ -]?order)\b(?: (?:to|for|by|until|til|till) [\pL ]+)?[^\pL\d]*$`)

// ItFirst opens a sentence about what stands in front of it.
var ItFirst = lazy.Compile(`^[^\pL\d]*(?:but |sorry |sadly )*(?:it|they|this|that|those|these)\b`)

// BeHad makes "may" a leave and no doubt: "may be had at $40".
var BeHad = lazy.Start(` be (?:had|bought|collected|ordered|supplied|taken)\b`)

// DeniesNext begins one behind how many there are: "we have 9 left and no, we don't split them".
var DeniesNext = lazy.Start(pieces.Sp + `(?:no,? )?(?:we|i|they) (?:do not|don['’]?t|cannot|can['’]?t|won['’]?t|will not)\b`)

// BringsNext begins a clause of its own behind a price: "$58 a yard and delivery is $90".
var BringsNext = lazy.Start(pieces.Sp + `(?:the )?` + pieces.Fetching)

// SaysNext begins one that says of packs what they hold, or of a truck what it does not do: "$9 a bag and the bags are 40 or 50 lb".
var SaysNext = lazy.Start(pieces.Sp + `(?:(?:the |our |all |these )*(?:` + pieces.PackForm + `)(?:['’]?s)? (?:are|is|hold|holds|weigh|weighs)\b|(?:the |our |my )?` + pieces.TruckWord + ` (?:will not|won['’]?t|does not|doesn['’]?t|cannot|can['’]?t)\b)`)

// AddsOn is a charge for each of what is sold, on top of its price.
var AddsOn = lazy.Compile(`\d[^\n]{0,20}\b(?:royalt(?:y|ies)|levy|eco[ -]?(?:fee|tax)|environmental (?:fee|charge)|pit fee|scale fee)\b`)

// AllSellers say of a tax that all who were named before take it.
var AllSellers = lazy.Compile(`\b(?:(?:all|every one) (?:of (?:them|these)|(?:the )?(?:two|three|four|five|six|\d)\b|(?:the )?(?:yards|shops|suppliers|sellers|firms))|both|everybody|everyone|they all|each of (?:them|these))\b`)

// AllWords say that a number of packs or a break holds for all that stands before it.
var AllWords = lazy.Compile(`\b(?:all|both|either|each (?:of|one|kind|type|sort|size|grade|item|material|product)|any (?:of|one|kind|type)|every one|everything|anything)\b|\b(?:on|of) each[ \t]*[.,;)]?$`)

// GoesOnBefore ends words that go on behind it: a comma, or dots that break off.
var GoesOnBefore = lazy.Compile(`(?:,|\.\.|…)[ \t–—-]*$`)

// MostOfLoad is what a number of packs is the most of, where it is a load: "freight per truck (max. 18 bags)".
var MostOfLoad = lazy.Compile(`\b(?:per|each|every|a|one|the|our) (?:truck|load|trip|lorry|run|drop|tipper|artic|rigid|pallet)\b[^.;]*$`)

// EachLoad opens a clause that says of a fee in front of it that it is one for each load, or how much it is for.
var EachLoad = lazy.Compile(`^[ \t(]*(?:(?:but|now|only|yes) )*(?:a|per|each|every|for each) (?:truck ?)?(?:load|trip|run|\d+|big|bulk|bag|pallet|sack|tote)\b|^[ \t(]*(?:up to|max\.?|maximum)[ \t]*\d+[ \t]*(?:c\.?y|cu|y(?:ar)?ds?|m3|m³|met(?:re|er)s?|cubes?|tons?|tonnes?|t)\b`)

// OfOrders makes a least sum that of orders and not of the charge for delivery beside it.
var OfOrders = lazy.Compile(`\b(?:order|spend|purchase|buy)`)

// AnotherFee is an amount to bring goods for.
var AnotherFee = lazy.Compile(`\d (?:to (?:bring|deliver|drop|haul|ship)|for (?:delivery|the truck|bringing))\b`)

// ShutBefore are words for what is away or shut until a day.
var ShutBefore = lazy.Compile(`\b(?:down|closed|shut|out|away|leave|off|holidays?|gone|unavailable|broken|stopped|not)(?: [\p{L}]+)?[ \t]*$`)

// SeveralOffers says that a message tells of several suppliers.
var SeveralOffers = lazy.Compile(`\b(?:two|three|four|five|several|some|\d) (?:other )?(?:offers?|quotes|quotations|places|spots|suppliers|shops|stores)\b`)

// DeniesNothing goes on behind a "not" that leaves the number as it is: "no matter how many", "I don't put more than 12 ton on it".
var DeniesNothing = lazy.Compile(`^[ \t]+(?:(?:\pL+[ \t]+){0,4}(?:before|until|till)[ \t]+(?:then|that)\b|matter\b|mind\b|care\b|(?:\pL+[ \t]+){1,6}(?:(?:more|less|fewer) than|over|above|past|under)[ \t]+(?:\d|` + pieces.UptoTwelve + `))`)

// ReadySaid says that goods are to come.
var ReadySaid = lazy.Compile(`\b(?:lands?|landing|arriv\w+|due|com(?:es?|ing) in|coming|back in|restock\w*|next (?:load|delivery|shipment|truck|container|boat|batch)|containers?|clears|docks|expect\w*|(?:delivery|collection|dispatch|despatch|shipping|shipment|pick-?up) (?:is )?(?:possible|available)|(?:earliest|soonest) (?:(?:i|we|you|that|it) )*(?:can|could|will|would|is|are|have|it|ready)|ready (?:for you )?(?:by|on|from|in|is))\b`)

// UnitPriceNext is the price of a unit, from which no size takes: "3/4 in minus $22.75 a ton".
var UnitPriceNext = lazy.Start(pieces.Sp + pieces.SignBefore + pieces.Sp + pieces.PlainNumber + pieces.PerWord + pieces.AnyUnit)

// StepsBefore is what heads numbers of packs that each have the price of one from there on, with those between: "quantity discount: 5 yards $127, ".
var StepsBefore = lazy.Compile(`\b(?:quantity|volume|qty|bulk|price)[ \t]+(?:discounts?|terms|breaks?|prices|pricing|rates?)\b(?:[ \t]+(?:on|for)[^\n:.;]{1,40})?[ \t]*(?::|[-–—][ \t])(?:[^\n.;]|[.]\d)*$`)

// LimitBefore are words that make the number behind them a limit and not so many for a price: "min 2 bags for 9".
var LimitBefore = lazy.Compile(`\b(?:min(?:imum)?|max(?:imum)?|least|fewest|most|limit|under|over|below|above|up to|order)[.:]?[ \t]*(?:of |order )?$`)

// HadBefore is what stands in front of a number of packs that are in.
var HadBefore = lazy.Compile(`\b(?:have|has|got|only)(?: only| just| about| still)*[ \t]*$`)

// EndBefore is a word in front of a size that may be its other end: "the three to four inch".
var EndBefore = lazy.Compile(`\b(?:` + pieces.Written + `|quarter|inch|eighths?)[ \t]+to[ \t]+$`)

// FormFirst begins a line with how what it prices is packed: "Loose, by tipper: £52 per m3".
var FormFirst = lazy.Compile(`^[ \t*•-]*(?:loose|in bulk|bulk|tipped|bagged|` + pieces.PackForm + `)\b`)

// SamePrices says of what stands in front of it that it costs what was priced before; a price that is compared to another thing's does not.
var (
	SamePrices = lazy.Compile(`^[^\d\n.;]{0,24}\b(?:(?:same|identical) (?:price|money|rate)s?|priced the same|costs? the same)\b`)
	// SameToo says it of another medium, in so many words.
	SameToo    = lazy.Compile(`^[ \t]*(?:[,:–-][ \t]*)?(?:(?:is|are|priced|at|for|also|just|all|the|runs?|sells)[ \t]+)*(?:(?:same|identical) (?:price|money|rate)s?|costs? the same|priced the same)\b`)
	SameAsWhat = lazy.Compile(`^[ \t]+(?:as (?:an?|the [^o]|\pL*\d)|per|for|if|in|on|but|when)\b`)
)

// ForBoth says behind two sizes, which AndBetween may part, that one price is for both, and AnySize that one is for all.
var (
	AndBetween = lazy.Compile(`^(?:[ ]*[\pL ]{0,20})[ ]*(?:\band|\bor|&|/)(?: the| our)?[ ]*$`)
	ForBoth    = lazy.Compile(`\b(?:both|either|each|same (?:money|price))\b`)
	AnySize    = lazy.Compile(`\b(?:either|any|both|all|each)(?: of)?(?: the| our)?(?: two| three)? (?:sizes?|grades?|gradings?)\b`)
)

// AlsoSold names what else is sold, SameThing says that it is of what was named before.
var (
	AlsoSold  = lazy.Compile(`^[^\pL\d]*(?:(?:and|but) )?(?:(?:we|i|they)(?:['’]ve| have)?(?: got)? )?also(?: (?:have|has|carry|sell|stock|do|keep|got|offer))?(?: (?:an?|the|some|our))? ((?:\pL[\pL'’-]+ ?){1,4})[^\pL\d]*$|^[^\pL\d]*(?:(?:and|but|the|our) )*(\pL{4,}(?: \pL{4,})?) (?:is|are) on (?:sale|special|offer)[^\pL\d]*$`)
	SameThing = lazy.Compile(`\b(?:sizes?|grades?|grading|ones?|bags?|loose|bulk|it|them|that|those|these|this|same|deliver\pL*|smaller|larger|bigger|finer|coarser|fine|coarse|medium|small|large|red|black|white|grey|gray|brown)\b`)
)
