// Package pieces has what patterns of messages are made of: how people write numbers and money, units and packs, breaks, sizes,
// delivery, loads and taxes. All is matched in small letters; a part with a name is what a rule takes out of it.
package pieces

// Pieces of patterns. Text is matched in small ASCII letters, with soft line ends as spaces.
const (
	Sp  = `[ \t\x{a0}\x{202f}\x{2009}]*`
	Sp1 = `[ \t\x{a0}\x{202f}\x{2009}]+`
	// A space groups digits only where a decimal comma ends the number: "2 500 L" may be 2 of 500 L.
	PlainNumber = `(?:\d{1,3}(?:[ \x{a0}\x{202f}\x{2009}]\d{3})+[.,]\d{1,2}|\d{1,3}(?:['’]\d{3})+(?:[.,]\d+)?|\d+(?:[.,]\d+)*|\.\d{1,2})`
	Fraction    = `(?:\d+(?:[ -]\d+)?/\d+|\d*[½¼¾⅓⅔⅛⅜⅝⅞])`
	Written     = `(?:(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty|fifty|sixty|a hundred|hundred|a dozen|dozen|half a|a half|half)\b)`
	UptoTwelve  = `(?:(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b)`
	Quantity    = `(?:` + PlainNumber + `|` + Fraction + `|` + Written + `)`
	SignBefore  = `(?:us\$|c\$|a\$|nz\$|[$£€¥₹]|rs\b\.?|(?:usd|eur|gbp|cad|aud|nzd|chf|sek|nok|dkk|pln|czk|zar|inr|pkr|lkr)\b)`
	SignBehind  = `(?:[.,](?:--?|–|—)|/-|:-|kr\b\.?|[$£€¥₹]|rs\b\.?|(?:usd|eur|gbp|cad|aud|nzd|chf|sek|nok|dkk|pln|czk|zar|inr|pkr|lkr|dol+[ae]rs?|bucks?|bux|euros?|quid|rupees)\b)`
)

// AmountPattern is the pattern of an amount of money, its parts named after n.
func AmountPattern(n string) string {
	return `(?:(?P<` + n + `pre>` + SignBefore + `)` + Sp + `)?(?P<` + n + `>` + PlainNumber + `)(?:` + Sp + `(?P<` + n + `post>` + SignBehind + `))?`
}

// Units of volume and of weight, and words for packs, in small letters.
const (
	VolumeUnit = `(?:(?:cu(?:bic)?\.?[ -]?(?:yards?|yr?ds?|feet|foot|ft|met(?:re|er)s?|m|inch(?:es)?)|yards?|yr?ds?3?|cy|m\^?3|ft\^?3|yd\^3|cbm|dm\^?3|cft|cf|` +
		`cubes?|lit(?:re|er)s?|ltrs?|l|(?:dry )?(?:quarts?|qts?)|gallons?|gals?|bushels?)\b|(?:m|yd|ft)³)`
	MassUnit = `(?:(?:short |long |metric |us )?(?:tons?|tonnes?)\b|(?:t|tns?|kgs?|kilos?|kilograms?|lbs?|pounds?|g)\b|#)`
	AnyUnit  = `(?:` + VolumeUnit + `|` + MassUnit + `)`
	PackForm = `(?:(?:(?:half|full|handy|mini|midi|small|large|standard|maxi)[ -])?(?:(?:bulk|blk|blck)[ -]?bags?|big[ -]?bags?|bulka(?:[ -]bags?)?|builders?[ -]bags?|jumbo[ -]bags?|jumbos?|dumpy[ -]bags?|dump(?:y|ies)|ton(?:ne)?[ -]bags?|super[ -]?sacks?|totes?|sacks?|sacs?|säcke|säckar|säck|(?:poly ?)?bags?|pallets?|skids?|` +
		`(?:truck[ -]?)?loads?|scoops?|buckets?|tubs?|boxes|box)\b)`
)

// UnitPattern is the pattern of what is priced or counted, its parts named after n.
func UnitPattern(n string) string {
	a := `(?P<` + n + `q>` + Quantity + `)` + Sp + `-?` + Sp + `(?P<` + n + `v>` + AnyUnit + `)(?:[ -]+(?P<` + n + `f>` + PackForm + `))?`
	b := `(?P<` + n + `fb>` + PackForm + `)(?:(?:` + Sp + `(?:of|\(|@|=|,? ?(?:that['’]?s|which is)|,)` + Sp + `|[ ])(?P<` + n + `qb>` + Quantity + `)(?:-|` + Sp + `)(?P<` + n + `vb>` + AnyUnit + `)` + Sp + `\)?)?`
	c := `(?:(?P<` + n + `half>half[ -])|(?:full|whole)[ -])?(?P<` + n + `vc>` + AnyUnit + `)(?:[ -]+(?P<` + n + `fc>` + PackForm + `))?`
	return `(?:` + a + `|` + b + `|` + c + `)`
}

const PalletWord = `(?:pallets?|plts?|palettes?|paletten|skids?|cases?)\b`

// Words between a number of packs and its price, and the other way round.
const (
	PerWord  = `(?:` + Sp + `/` + Sp + `|` + Sp1 + `(?:per|an?|the|pro|je|le|la|par|for the|for an?|by the|for one|for each)` + Sp1 + `|` + Sp + `p/|` + Sp1 + `per-)`
	EachWord = `(?:` + Sp + `(?:each|ea\b\.?|apiece|a piece|per (?:piece|unit|pc|item|block|brick)\b|/` + Sp + `(?:ea(?:ch)?|pcs?|piece|unit)\b))`
	ToPrice  = `(?:` + Sp + `(?:[:=@]|->|→|,|-|–|(?:at|for|is|are|it's|its|it is|they're|they are|(?:it|they|that)(?:'d| would) be|(?:we|i)(?:'d| would) (?:say|charge|ask)|(?:we|i) charge(?: you)?|are they|of either and it's|of either|of each|of (?:it|them|these|any)|and it's|and they're|gets?|goes to|drops? to|(?:i|we)(?: can| will|['’]ll)? (?:go|drop|come) (?:down )?to|and (?:it )?costs?|(?:the price |(?:and )?(?:it |they )?)?(?:falls?|drops?|goes|comes?|reduces)(?: down)? to|down to|comes? to|works out (?:to|at)|(?:lists?|sells?) (?:at|for)|then|just|only|(?:i|we)(?: can|'ll)? let (?:it|them|those|you have (?:it|them)) (?:go )?(?:at|for)|(?:i|we)(?: can|'d|'ll| could| would) do(?: (?:it|them|those))?(?: (?:for|at))?|do|price[ds]?|costs?|(?:the |our )?(?:price|rate|cost)(?: is| will be)?)\b)` + Sp + `){0,3}`
	IfBuying = `(?:should (?:you|u|ya) (?:take|buy|order|want|need|have|get|purchase)|(?:if|when|once) (?:(?:an?|the|any) (?:customer|buyer|client|order) (?:takes|buys|orders|wants|needs|gets|picks up|is(?: for)?)|(?:you|u|ya|i|we)(?: should| were to)? (?:take|took|buy|bought|order|ordered|want|wanted|need|have|get|got|grab|go|do|go for|pick up|purchase)|(?:you're|you’re|u're|ur|you are) (?:taking|buying|ordering|getting|having|doing|after|going for|picking up))(?: at least| up to)?)`
	ToCount  = `(?:` + Sp + `(?:\(|(?:for|on|` + IfBuying + `|if|if it's|once you (?:take|buy|order)|once you reach|at|from|starting at|on orders of|for orders of|(?:in|by) (?:lots|quantities|batches) of|any)\b)` + Sp + `){1,3}`
	OrMore   = `(?:(?:` + Sp + `(?:nos|pcs|pieces|units)\b\.?)?(?:\+|` + Sp + `(?:(?:or|and|&) (?:more?|over|above|up|upwards?|better|greater)\b|upwards?\b|up\b|on\b|onwards?\b)))`
	UnitToo  = `(?:` + Sp + `(?P<c2>` + AnyUnit + `|` + PackForm + `))?`
	OverWord = `(?:(?:over|above|more than|beyond|exceeding|past)` + Sp1 + `|>` + Sp + `)`
)

const (
	PercentOff = `(?P<q>` + PlainNumber + `)` + Sp + `(?:%|percent|per cent)`
	PercentTo  = `(?: (?:off|discount|less|material|materials|everything|all|the|price|prices|for|on|from|of|at|if|when|you|u|buy|order|take|orders?))*`
)

const (
	SizeUnit = `(?:(?:mm|mil|millimet(?:er|re)s?|cm|ins?)\b\.?|inch(?:es)?\b|"|”|″|'')`
	OneEnd   = `(?:` + PlainNumber + `|` + Fraction + `)`
	OpenEnd  = `(?:` + Sp + `-?` + Sp + `(?:minus\b|plus\b|\+|and up\b|and larger\b|and down\b))`
	SizeWord = `(?:(?:grain )?size[ds]?(?: is| are|:|=)?|graded|(?:screened|sieved)(?: to| at)?|grade|between|in size)?`
)

const (
	NearPlace = `(?:(?:inside|within|w/in|in|anywhere in|around) (?:the |our |your )?(?:county|town(?:ship)?|city(?: limits)?|village|valley|local area|area)\b|(?:(?:within|w/in|inside|up to) |(?:for )?(?:the )?first )(?:\d{1,3}|` + UptoTwelve + `|fifteen|twenty|thirty) ?(?:miles?|mi\b|km)\b)`
	AnyOrder  = `(?:any amount|any (?:order|quantity|size)|whatever (?:you|u) (?:order|buy|take|need)|per order|an order|for any order|regardless)\b`
	Fetching  = `(?:deliver(?:ys?|ies)(?:'s|’s)?|dlvry|delivry|delivary|delievery|delivey|deliv\b\.?|(?:an)?lieferung|livraison|fracht|levering|bezorging|haulage|carriage|shippin[g']?|freight|post(?:age)?(?: ?(?:and|&) ?packing)|p ?(?:&|and) ?p|postage|transport|truckin[g']?|shipping (?:and|&) handling|drop[ -]off|cart(?:age|ing)|haul(?:ing)?\b|del\b\.?|courier|parcel|forwarding|sending|(?:store|door)-to-door)`
	Deliver   = `(?:deliver(?:ys?|ies)(?:'s|’s)?|dlvry|delivry|delivary|delievery|delivey|deliv\b\.?|delivered|deliver|(?:an)?lieferung|livraison|fracht|levering|bezorging|haulage|carriage|shippin[g']?|freight|post(?:age)?(?: ?(?:and|&) ?packing)|p ?(?:&|and) ?p|postage|transport|truckin[g']?|shipping (?:and|&) handling|drop[ -]off|dropped(?: off)?|cart(?:age|ing)|haul(?:ing)?\b|del\b\.?|courier|parcel|forwarding|sending|(?:store|door)-to-door|(?:to (?:the )?)?(?:kerb|curb)side)`
	FeeWords  = `(?: (?:itself|charge|charged|charges|runs|still|now|zip|address|farm|postcode|fee|cost|costs|price|nationwide|mainland|anywhere|countrywide|locally|is|are|be|will be|would be|comes to|at|of|for|to|you|your|place|door|site|flat|flat rate|add|adds|pauschal|adds another|an?|another|just|only|here|it|calculated|estimated|quoted|the|order|whole|all|everything|any|quantity|amount|fixed|extra|there|one)|,? (?:including|incl\.?|inc\.?|inclusive of) (?:tax|vat|gst)\b,?)*`
)

// BringIt is "they bring it", "we can drop off wednesday".
const BringIt = `(?:(?:they|we|i|he|she|` + TruckWord + `)(?:'ll|’ll| will| can|'d|’d| could| would)?|ill|can|could|will) (?:(?:bring|drop|deliver|truck|haul|run|send)s?|get(?: (?:it|them|both|all|these|that))? (?:out|round|over|up|there|to))(?: (?:it|them|either|both|any|all|these|that|everything))?(?: (?:off|out|round|over|up|to you|to your place|on|next|this|mon|tues|wednes|thurs|fri|satur|sun|day|monday|tuesday|wednesday|thursday|friday|saturday|sunday|tomorrow|there|to (?:the|your) (?:school|house|home|door|garden|place|site|nursery|church|farm)|` + NearPlace + `))* `

// ZoneFee is the fee of one zone: "zone 1 $55".
const ZoneFee = `(?P<zone>(?:zone|area|band|region) [a-z\d]{1,2}|(?:the )?(?:inner|outer|middle|red|blue|green|yellow|orange|white|pink|purple)(?: (?:zone|area|band|region))?)` + Sp + `(?:[:=(-]|is|at)?` + Sp + `(?:(?P<mpre>` + SignBefore + `)` + Sp + `)?(?P<m>` + PlainNumber + `)(?:` + Sp + `(?P<mpost>` + SignBehind + `))?\)?`

// ToPlace is where the goods are brought to.
const ToPlace = `(?: in (?:[\p{L}'’.-]+ ){1,2}(?:county|city|town|district|valley)\b| to [\p{L}][\p{L}'’.-]*(?: [\p{L}][\p{L}'’.-]*){0,3})`

// Fees for a load with what it holds: "$90 up to 5 yards, $140 up to 12 yards"; "$145 per load up to 15 tons"; "6 tons for $95".
const (
	TruckWord      = `(?:(?:delivery |body |dump |pick[ -]?up |small |smallest |little |old |big |bigger |biggest |large |larger |largest |smaller |single |our |own |their |crane |lift[ -]?gate |tail[ -]lift |tip |tipper |bulk |flatbed |semi |full |walking[ -]floor |\d[ -]axle |the )*(?:(?:semi-?)?trucks?(?: (?:and|&) (?:dogs?|trailers?|pups?))?|(?:semi-?)?trailers?|lorr(?:y|ies)|tippers?|wagons?|tri-?axles?|flatbeds?|tandems?|artics?|rigids?|single[ -]axles?|(?:\d{1,2}|two|four|six|eight|ten|twelve)[ -]?wheelers?|end[ -]dumps?|semis\b|semi\b|utes?\b|hiabs?\b))`
	LoadWord       = `(?:` + Sp + `(?:for )?(?:/|(?:per|an?|each)\b)` + Sp + `(?:(?:truck[ -]?|lorry[ -]?|full )?load|` + TruckWord + `|trip|tour|run|drop|go)\b|` + Sp1 + `trip\b| for (?:the|an?|our) ` + TruckWord + `)`
	HoldWord       = `(?:` + Sp + `[,;(.]?` + Sp + `(?:(?:and )?(?:(?:for |takes |holds |carries )*(?:anything |loads? |orders? )?(?:of )?(?:up to|max\.?|maximum(?: of)?|under)|(?:a |each |one |the )?(?:` + TruckWord + `|load|it)(?:(?: will| can)? (?:is|holds?|takes?|carr(?:y|ies)|fits?)|:)(?: up to)?|(?:and |, )*(?:we|he|they|i|driver)(?:(?: will| can) |'ll )(?:put|take|fit|carry|haul|bring|get)(?: up to)?|(?:will |can )?(?:take|hold|carry)|of|for(?: (?:the|our))?|(?:and (?:it )?)?(?:takes|holds|carries|fits)|=)` + Sp + `)?)`
	fromTo         = `(?:from|between) \d+(?: ` + AnyUnit + `)? (?:to|and|up to) `
	Holding        = `(?:\d+` + Sp + `(?:-|–|to)` + Sp + `)?(?P<q>` + PlainNumber + `|` + UptoTwelve + `)` + Sp + `(?P<v>` + AnyUnit + `)`
	AmountPatternM = `(?:(?P<mpre>` + SignBefore + `)` + Sp + `)?(?P<m>` + PlainNumber + `)(?:` + Sp + `(?P<mpost>` + SignBehind + `))?`
	FeeHolds       = AmountPatternM + `(?P<each>` + LoadWord + `)?(?: flat)?(?:` + HoldWord + `|` + Sp + `\(` + Sp + `|,?` + Sp1 + fromTo + `)` + Holding + `(?: (?:max(?:imum)?\b\.?(?: (?:per|a|each) (?:load|trip|tour|run))?|(?:on|in) (?:the |one |a )?(?:load|` + TruckWord + `)|at a time|(?:per|to the|to a|a|each) (?:load|` + TruckWord + `)|` + TruckWord + `))?` + Sp + `\)?`
	HoldsFee       = `\(?` + Sp + `(?:(?:one|per|a|each|full)[ -]load,? ?)?(?:(?:up to|under|to|for|carries|holds|takes|max\.?)` + Sp1 + `|` + fromTo + `)` + Holding + Sp + `\)?(?:(?: |:|-|=|,|@)*(?:is|at|for|costs)?)` + Sp + AmountPatternM
	TruckThen      = `(?:` + Sp + `(?:[,;.]|\r?\n|\band\b|\bor\b)` + Sp + `)+(?:` + TruckWord + Sp + `(?:[:,-]|(?:is|costs|at|for)\b)?` + Sp + `)?`
)

// WithTruck is "transport with 26 t truck: 310".
const WithTruck = `(?:(?:an?|our|the|one) )*` + Holding + `[ -](?:` + TruckWord + `|dumps?\b)` + Sp + `(?:[:=-]|is|costs|at|for)?` + Sp + AmountPatternM + LoadWord + `?`

// BringAt is "we can bring 12 tons at a time for $130".
const BringAt = `(?:(?:and|we|i|he|they|you) )*(?:can |could |will |'ll )*(?:bring|haul|deliver|carry|take|truck)(?:s|ing)?(?: (?:you|it|up to|a|an|our|tandem|load|of|full|bulk|whole))*` + Sp + `\(?` + Sp + Holding + `(?:` + Sp + `max(?:imum)?\b)?` + Sp + `\)?(?: (?:at a time|a time|per (?:load|trip|tour|run)|a (?:load|trip)|each (?:time|trip)|loads?))*(?: (?:for|at|is|costs?|:))+` + Sp + AmountPatternM

// HoldsCosts is "our lorry takes 25 m3 and costs 180".
const HoldsCosts = HoldsVerb + Holding + EachTrip + `,?(?: (?:and|it|he|they|we|each (?:haul|load|trip|run)))*(?: (?:costs?|is|runs|charges?|charged|billed|for|at))+` + Sp + AmountPatternM + LoadWord + `?`

// TruckOf is "tip truck 8 t 120".
const TruckOf = Holding + `(?: loads?)?` + Sp + `(?:[:=@,-]|is|at|for)?` + Sp + AmountPatternM + LoadWord + `?`

// TruckHeld is "our tipper (7 tonnes) at 85 per load".
const TruckHeld = TruckWord + Sp + `\(` + Sp + `(?:up to |holds |takes )?` + Holding + Sp + `\)(?: (?:at|for|is|costs?|runs?|charged|billed|rated|priced))*` + Sp + AmountPatternM + LoadWord

// TruckEach is one of "delivery: trailer (1 m3) $35, tipper (5 m3) $80".
const TruckEach = TruckWord + Sp + `\(` + Sp + `(?:up to |holds |takes )?` + Holding + Sp + `\)` + Sp + `(?:[:=@-]|at|for|is)?` + Sp + AmountPatternM + LoadWord + `?`

// holds is "truck takes 9 yards", and "holds 10" of what is sold.
const (
	WhatHolds = `(?:(?:and|but|each|one|the|our|a|that|my) )*(?:` + TruckWord + `|loads?|it|which|he|she|driver)`
	HoldsVerb = `(?:(?:` + WhatHolds + ` )?(?:only |just )?(?:(?:holds|takes|carries|fits|hauls|brings)|max(?:es)?(?: out)?(?: at)?)|(?:a|each|one) (?:full )?(?:load|trip) is(?: up to)|(?:(?:the|our|my|a) )?` + TruckWord + ` (?:does|moves|handles|manages)|` + WhatHolds + `(?: (?:will|can|would|could)|'ll|’ll|'d|’d) (?:hold|take|carry|fit|haul|bring))(?: up to)? `
	PacksHeld = `(?P<q>` + Quantity + `)` + Sp + `(?P<f>` + PackForm + `)`
	EachTrip  = `(?: (?:max(?:imum)?\b\.?|at a time|(?:per|a|each|to a|to the) (?:load|trip|run|` + TruckWord + `)))*`
)

// FeeUpTo is one behind the first of a list, whose unit holds for it: "$85 up to 8 yards, $150 for a tandem up to 16".
const FeeUpTo = AmountPatternM + LoadWord + `?(?: flat)?,?` + Sp + `(?:(?:for |(?:and )?(?:it )?(?:holds|takes|carries|fits) )?up to|(?:and )?(?:it )?(?:holds|takes|carries|fits)) (?P<q>` + PlainNumber + `)`

// MaxBehind is "$60 a load, 6 yards max".
const MaxBehind = AmountPatternM + LoadWord + Sp + `,` + Sp + Holding + ` max(?:imum)?\b\.?`

// LoadsAt is "delivered in 25 t loads at 135 per load".
const LoadsAt = `(?:in )?` + Holding + `[ -]loads?(?: (?:at|for|is|are|:))+` + Sp + AmountPatternM + LoadWord + `?`

// TaxWord is a word for a tax on sales.
const TaxWord = `(?:(?:sales|state|county|city|local|excise|value added) )*(?:tax(?:es)?|vat|gst|hst|duty)\b`

// A tax by its name, what says that it comes on top of prices, in front of it and behind it.
const (
	TaxName  = `(?:(?:sales|state|county|city|local) )*(?:tax(?:es)?|vat|gst|hst|pst|qst|iva|btw|moms|mwst|tva|alv|fpa|dph|pdv|ddv|mva|pvm)\b`
	NotIn    = `(?:(?:all |our |the |these )*(?:(?:prices?|rates?) )?(?:(?:are|do|does|is) )*(?:none of (?:this|these|that|it|them|the above|the prices) includes?(?: the)?|not (?:include|including|incl\b\.?|inclusive of)|(?:do|does|is|are)n['’]?t (?:include|including)|exclud\w+|exclusive of|ex(?:cl?)?\b\.?|plus|\+|before|without|net of|add|and|subject to)(?: of)?)`
	TaxExtra = `(?:,? ?(?:(?:is|are|will be|to be) )*(?:extra|on top|added|not included|excluded|additional|appl(?:y|ies))(?: (?:on|to) (?:everything|all(?: prices)?|top|that))?)*`
)

// Hundredths is a percentage, andTax joins one of a tax to one of another.
const (
	PercentSign = Sp + `(?:%|percent\b|per cent\b)`
	Hundredths  = PlainNumber + PercentSign
	AndTax      = Sp + `(?:,? ?and\b|&|\+|,? ?plus\b|[,/])` + Sp + `(?:the )?`
)

const UnitAfterCount = `(?:` + Sp + `(?P<c>` + AnyUnit + `|` + PackForm + `))?`

// OfEach says that a number of packs holds for all that is offered.
const OfEach = `(?:,? (?:(?:on|for|per) each|on (?:that|this)(?: one)?|(?:on|of|for|per) (?:any|either|every|all|both|whichever)|either|whichever)(?: (?:one|kind|type|of (?:them|these|those)))?(?: (?:item|product|material|stone|rock|kind|size|grade|medium|media)s?)?\b)?`

// WhereStocked is where what is in stock lies.
const WhereStocked = ` (?:in|at) (?:the|this|our|my) (?:place|pile|heap|stockpile|shed|barn|bays?|bins?|store|shop|warehouse|bunker|back|yard|building|stack|lot)\b`

// ClassWord is a word for all packs of one form: the many, and not one of them, "15 for a bag".
const ClassWord = `(?:bulk[ -]bags|big[ -]bags|jumbo[ -]bags|dumpy[ -]bags|ton(?:ne)?[ -]bags|super[ -]?sacks|totes|sacks|bagged|bags|bag orders|bulk|loose|tipped)`

// ClassBrought is one pack for all, in front of a word for delivery: "bag delivery $20".
const ClassBrought = `(?:bulk[ -]bag|big[ -]bag|bag|sack|tote)[ -]` + Fetching

// FromPercent is "from 20 bags 5 % discount, from 60 bags 10 %".
const FromPercent = `(?:from |ab |(?:qty|quantity|bulk|volume) discounts?` + Sp + `:` + Sp + `)(?P<n>` + Quantity + `)(?:` + Sp + `(?P<c>` + AnyUnit + `|` + PackForm + `))?(?: (?:mixed|in total|together|or more))?` + Sp + `[:,=-]?` + Sp + PercentOff + `(?P<off> (?:off|discount|rebate|less|reduction))?`

// FeePacks is a fee for a load by its number of packs; those behind the first may leave out of what.
const FeePacks = AmountPatternM + LoadWord + `?` + Sp + `,?(?: for)? ?up to (?P<q>` + Quantity + `)(?:` + Sp + `(?P<f>` + PackForm + `))?`

// LooseAmount is an amount of money whose sign does not stand in front of the number behind it: "x 10 £20".
const LooseAmount = `(?:(?P<mpre>` + SignBefore + `)` + Sp + `)?(?P<m>` + PlainNumber + `)(?:` + Sp + `(?P<mpost>kr\b\.?|€|(?:usd|eur|gbp|cad|aud|nzd|chf|sek|nok|dkk|pln|czk|zar|inr|dol+[ae]rs?|bucks?|bux|euros?|quid|rupees)\b))?`

// BringWords are the words for bringing goods that every list of them holds.
const BringWords = Deliver + `|haul\w*|truck\w*|tippers?|trips?|freight|drop(?:[ -]?off|s|ped)?|bring\w*|brought|carr(?:y|ies) (?:(?:an?|the|your|any) orders?|(?:it|them) (?:to|out|over|home))|run|ships?|cartage`

// ClassTail stands behind a word for all packs of one form, ClassThen between two such.
const (
	ClassTail = `(?: (?:goods|orders?|deliver(?:y|ies)|material|stuff|only))*`
	ClassThen = Sp + `(?:[,;]|[,;]? ?(?:and|but)\b)?` + Sp
)

// PayerWord is who pays a price, or how: of two prices for one pack it tells which is whose, and the buyer knows.
const PayerWord = `(?:cash|card|check|cheque|credit(?: card)?|debit(?: card)?|(?:loyalty|member(?:ship)?|club|store) card|(?:non[ -]?)?members?(?:hip)?|(?:the )?trade|retail|(?:the )?(?:general )?public|contractors?|pro|account(?: holders?)?|walk[ -]?ins?|online|(?:in|at) (?:the |our )?(?:store|shop)|in-store|(?:on )?(?:the |our )?web ?site)`

// BeyondWord is what makes the price behind it that of the packs beyond a number alone.
const BeyondWord = `(?:and |but )?(?:only )?(?:from (?:the )?(?P<nth>\d{1,3})(?:st|nd|rd|th)(?: (?:one|` + PackForm + `|` + AnyUnit + `))? on(?:wards?)?|(?:the (?:` + AnyUnit + `|` + PackForm + `|ones) (?:after|past|beyond|over|above) (?:that|those|them)|(?:every|each)(?: (?:one|` + PackForm + `|` + AnyUnit + `))?|any(?: more)?|more|all|the rest|the others|others|anything)(?: (?:after|past|beyond|over|above)(?: (?:that|those|it|the [\pL]+))?)?|(?:after|past|beyond|over|above) (?:that|those)|thereafter|then)(?: (?:is|are|it's|they're|at|for|only|just|you pay|drops? to|goes? (?:down )?to|comes? (?:down )?to|costs?))*` + Sp + `[:,=@]?` + Sp + ``

// AnyColour is the colour of a medium.
const AnyColour = `(?:red|black|white|grey|gray|brown|tan|green)`

// UntilWord and FromWord say what a day is: the last of an offer, or the one on which goods are there.
const (
	UntilWord = `(?:(?:(?:all )?(?:these |our |the |this )?(?:prices?|rates?|offer|quote|quotation)(?: is| are)? )?(?:good|valid|holds?|stands?|firm|fixed|open|held|protected|guaranteed|locked(?: in)?|lapses?|ends|runs|expires?|exp\.?|lasts|applies|binding)(?: good| firm)?(?: only)?(?: until| till| til| through| thru| to| on| up ?to|:)?:?|rates? up ?to|until|till|thru|through|expiry(?: date)?:?|closing date(?: for (?:acceptance|orders?))?:?|(?:all |the |your |wants? (?:the |your |our )?)*orders?(?: (?:must|should|to|need to|have to|has to) be| must reach us)?(?: (?:in|due|placed|received|with us))* by|hold(?:s|ing)? (?:this|these|that|it|them|(?:the |our )?(?:prices?|offer|quote)) (?:until|till?|through|to)|offer ends:?|validity(?: of (?:the |this |our )?(?:offer|quote|quotation|prices?|budget|proposal|estimate|tender))?(?: is)?:?)`
	FromWord  = `(?:(?:not (?:available|ready|here|in|in stock) (?:before|until|till)|(?:can be |will be )?(?:ready(?: for(?:(?: or| and| &)? (?:pick[ -]?up|collection|delivery|dispatch|despatch))+)?|available|in stock|back in|back in stock|here)|in|new stock|next delivery|arrives|arriving|due(?: in)?)(?: by| on| from| again from|:)?|ready:?)`
	DayWord   = `(?:` + Sp + `(?:mon|tues?|wednes|thurs?|fri|satur|sun)(?:day)?,?)?` + Sp + `(?:the )?`
)
