package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// What stands around a number in words about bringing goods, and tells whether it is a fee, a value of goods, what a load holds, or none
// of these.
var (
	CountsBefore    = lazy.Compile(`(?:over|from|above|more than|at least|min(?:imum)?(?: of| is|:)?|least|first|every|zone|than|if|(?:if|whether) it['’]?s|no\.?|#|buy|order|take|get)[ \t:]*$`)
	MostBefore      = lazy.Compile(`\b(?:no|not|never|\pL*n['’]?t)(?: \pL+){0,4} (?:more than|over|above)[ \t]*$|\b(?:it|she|he|` + pieces.TruckWord + `)(?:['’]ll|['’]d| will| can| could| would)*(?: only| just)? take[ \t]*$|\band (?:get|take)[ \t]*$|(?:^|[,.;][ \t]*|\b(?:i|we|he|she|they)(?:['’](?:ll|d))? (?:can |could |will )*)(?:get|take)[ \t]*$`) // of the most that a load holds
	LeastSaid       = lazy.Compile(`\b(?:least|smallest|fewest|min(?:imum)?)\b[^.;:,\d]{0,24}$`)
	CountsBehind    = lazy.Compile(`^[ \t-]*(?:min\b|minimum|at (?:the )?least|or (?:more|better|over|above)|and (?:up|over)|\+|plus(?:[ \t]*(?:[^\d \t]|$))|off|%|steps?|increments?|left\b|in stock|on hand|(?:here )?(?:on|in) (?:the|my|our) (?:shelf|floor|shed|yard|barn|shop|store|warehouse|stock\w*)\b)`)
	EachBehind      = lazy.Compile(`^[ \t]*(?:/|per|an?|each|for (?:the|an?|each)|round)[ \t]*(?:truck[ -]?)?(?:loads?|trips?|trucks?|drops?|runs?|deliver(?:y|ies)|tour|haul|order|consignment|shipment|time|pallet|skid|go)\b`)
	UnitPriceBehind = lazy.Compile(`^(?:` + pieces.Sp + `(?:/|per|an?|each|the)` + pieces.Sp + `(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `|mile|km|kilomet|hour|hr|person))`)
	PlaceBehind     = lazy.Compile(`^[ \t]+(?:to|for|in|inside|outside|beyond|past|within|anywhere|elsewhere|if)\b`) // of a number that may be a fee for so far
	FreeBefore      = lazy.Compile(`\b(?:over|from|(?:ticket|total|basket|(?:your|the) bill|cart|purchase|your goods)(?:['’]?s)?|above|under|below|free|spend\w*|reach\w*|hits?|orders?(?: of| over| makes)?|worth|totall?ing|than|exceed\w*|past|pass(?:es)?|amounts? to|com(?:es?|ing) to|adds? up to|tops|clears)[ \t]*(?:(?:of|is|at|from) )*$`)
	FreeWord        = lazy.Compile(`\b(?:free|gratis|nil|no (?:\pL+ )?(?:charge|cost|fee)|no (?:delivery|shipping|postage|freight|carriage|haulage)|(?:not|n['’]t|no longer) charge\w*|nothing|nowt|waived?|disappears?|vanish(?:es)?|goes away|falls away|comes off|scrap(?:ped)?|drop(?:ped)? the|on us|on the house|included|throws? in|(?:we|we['’]ll|ourselves) (?:will )?(?:bear|pay|cover|absorb|stand|swallow|meet)|is ours|our (?:expense|cost|account))\b`)
	LeastWord       = lazy.Compile(`\b(?:declin\w+|refus\w+|reject\w*|turn(?:ed)? (?:away|down)|no|not|nothing|never|cannot|dont|wont|cant|\pL+n['’]t|(?:collect(?:ion)?|pick ?-?up|counter) only|min(?:imum)?\b.{0,20}\b(?:order|spend|invoice|ticket|sale)|(?:order|spend|invoice|ticket|sale) min(?:imum)?|smallest order|at least|least we)\b`)
	LeastBefore     = lazy.Compile(`\b(?:(?:orders?|anything|nothing|baskets?|tickets?|invoices?|sales?|purchases?|goods|loads?|deliver\w*|dispatch|ship|send|out)\b.{0,16}\b(?:under|below|beneath|less than|smaller than|worth less than|short of)|(?:order|spend|invoice|ticket|sale) min(?:imum)?(?: (?:of|is))?:?|(?:min(?:imum)?|smallest|least)\.?(?: \pL+){0,2} (?:order|spend|invoice|ticket|sale)(?: (?:value|amount|size))?(?: for (?:any )?deliver\w*)?(?: (?:of|is))?:?)[ \t]*$`)
	LeastBehind     = lazy.Start(pieces.Sp + `-?(?:(?:order|spend|purchase|invoice|ticket) min(?:imum)?|min(?:imum)?\.? (?:order|spend|purchase|invoice|ticket))\b`)
	AnyFree         = lazy.Compile(`\bfree\b|\bwe scrap\b|\bwaive`)
	RestBehind      = lazy.Compile(`^[ \t]*(?:(?:returnable|refundable|extra|pallet|key) )*(?:deposit|surcharge|off\b|more\b|less\b|discount|credit)`)
	OrderBehind     = lazy.Compile(`^[ \t]*(?:/|per|an?|each|for (?:the|an?|each))[ \t]*(?:order|consignment|shipment)\b`)
	LoadBehindIt    = lazy.Compile(`^[ \t]*(?:/|per|an?|each|for (?:the|an?|each))[ \t]*(?:truck[ -]?)?(?:loads?|trips?|trucks?|runs?|tour|haul|time|go)\b`)
	EachOf          = lazy.Compile(`^` + pieces.Sp + `(?:(?:/|for (?:the|an?|each|every)|per|an?|each|every)` + pieces.Sp + `(?:(` + pieces.PackForm + `)|(` + pieces.AnyUnit + `)|pieces?\b|pcs?\b|items?\b)|each\b|apiece\b)`)
	CountedBefore   = lazy.Compile(`(?:\d|/|\b(?:per|an?|each|every|of|` + pieces.UptoTwelve + `))[ \t]*$`)
	ClassFirst      = lazy.Compile(`^[ \t\n]*(?:the )?(` + pieces.ClassWord + `|` + pieces.ClassBrought + `)\b`)
	ClassSaid       = lazy.Compile(`\b(?:` + pieces.ClassWord + `|` + pieces.ClassBrought + `)\b`)
	RoomLast        = lazy.Compile(pieces.Quantity + pieces.Sp + `-?` + pieces.Sp + pieces.AnyUnit + `[ \t(]*$`)
	AddsWord        = lazy.Compile(`\b(?:add|plus|extra|another|tack|on top|haul\w*|truck\w*|cart\w*|freight|carriage|transport|deliver(?:y|ies)|shipping|(?:to )?bring(?:ing)?|dropping)\b`)
	BothWays        = lazy.Compile(`^[ \t]*(?:each|both|per|one) ?ways?\b`)
	CostsBefore     = lazy.Compile(`(?:['’]s|\b(?:for|is|at|costs?|runs?|flat|it's|its|thats|that's|be|charge|fee|deliver(?:y|ed)|another|or|and|but|haul\w*|freight|carriage|shipping|post(?:age)?|courier|for an?|trip|drop|run)|[:=@-]|\.{3,})[ \t]*$`)
)

// BringsIt says without a word for delivery that goods are brought.
var BringsIt = lazy.Compile(`\b(?:go|goes|sent|come|comes) (?:out )?(?:on|by) (?:the|an?|our|my) (?:\pL+ )?` + pieces.TruckWord + `\b|^[ \t]*(?:` + pieces.ClassWord + ` )?(?:(?:we|i|he|they|and|can|could|will|to|it's)(?:'ll|'d|’ll|’d)? )*(?:bring|drop|dropp|run|runn|haul|send|gett?)(?:ing)? (?:it|them|those|these|that)\b|` + goesBy + GasMoney.String())

// goesBy is how goods go to who buys them, at so much a load: "loose goes out at $90 a load".
const goesBy = `\b(?:goes|go|travels?|rides?|comes?|moves?)(?: out| over| across)? (?:at|for|on|in|by)\b[^;\n]*\b(?:an?|per|each)[ \t](?:load|trip|run|tour)\b|` + rides + `[^;\n]*\b(?:an?|per|each)[ \t]\pL|`

// rides is said of no price, whatever it counts: "totes ride on the flatbed at $20 a tote".
const rides = `\b(?:travels?|rides?)(?: out| over| across)? (?:at|for|on|in|by)\b`

var RidesBy = lazy.Compile(rides)

// GasMoney is what bringing costs in some other way than a fee.
var GasMoney = lazy.Compile(`\b(?:gas|petrol|fuel|diesel) money\b`)

// FreeOn makes delivery free with a part of the orders: "free shipping on full pallets", "free delivery on 3 bags or more", "on 50 or more".
var FreeOn = lazy.Start(pieces.Sp1 + `(?:on|for|with|from)` + pieces.Sp1 + `(?:(?:full|whole|all|any|every|an?|orders|of) )*(?:` + pieces.PalletWord + `|(?:truck ?)?loads?\b|` + pieces.Quantity + `(?:` + pieces.Sp + `(?:` + pieces.PackForm + `|` + pieces.AnyUnit + `)|` + pieces.OrMore + `))`)

// BroughtElse is said of bringing what is no stone, for which a fee is: "bark delivery is separate, £20".
var BroughtElse = lazy.Compile(`\b(?:bark|mulch|compost|(?:top)?soil|turf|sod|straw|hay|logs|firewood|manure|woodchips?|blocks?|pavers|paving)[ \t]+(?:` + pieces.Fetching + `)`)

// ZoneStart begins a line of a list that says what bringing goods to one of several zones costs.
const ZoneStart = `(?i)^[ \t*•-]*(?:(?:delivery|haulage|freight) )?(?:zone|band|region) (?:[a-z]|\d{1,2})\b`

var ZoneLine = lazy.Compile(ZoneStart)

var BringsTo = lazy.Compile(`\bbring(?:s|ing)? (?:it|them|that|this|the price|each)(?: each)?(?: down)? to\b`)

// RoomWord is a word for how much goes on something.
var RoomWord = lazy.Compile(`\b(?:up to|max\w*|fits?|holds?|takes?|carr(?:y|ies)|puts?|tops|at a time|on it|on board|legal|licen[cs]ed|rated|on (?:the|a|one|each)|loads?|trips?)\b`)

// ZoneBefore makes the number behind it that of a zone.
var ZoneBefore = lazy.Compile(`\b(?:zone|area|band|region|route|postcode|zip)[ \t]*$`)

// BroughtBy is how goods are brought, in front of what may be their price.
var BroughtBy = lazy.Compile(`\b(?:by|with|per)(?: [\p{L}-]+){0,2}[ \t]*$`)

// CollectOnly is said where nothing is brought.
var CollectOnly = lazy.Compile(`\bonly\b|^no |n['’]?t\b|\bnot\b|^ex\b|ed\b`)

// Spending is what makes the amount behind it a value of goods: "under $400 freight is $55".
var Spending = lazy.Compile(`(?:under|over|above|below|up to|from|past|orders? (?:of|over|under|above|below))[ \t]*$`)

// OtherRoom is a number in front of another, of which one holds.
var OtherRoom = lazy.Compile(`\b(` + pieces.PlainNumber + `)` + pieces.Sp + `(?:` + pieces.AnyUnit + `)?[ \t]+or(?:[ \t]+(?:maybe|perhaps|possibly|even|it (?:might|could|may) be|they (?:might|could|may) be|else))*[ \t]+$`)

var BroughtEnd = lazy.Compile(`[ -]` + pieces.Fetching + `$`)
