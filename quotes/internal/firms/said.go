package firms

import "mediabuy/quotes/internal/lazy"

// A name is one word or several with capitals, small joining words inside. A pattern takes as much as may be one;
// how much of it is one is seen where it ends.
const (
	// sellsWord is what a company sells or is, in a list that ends its name: "Plow Lane Feed, Seed & Hardware".
	sellsWord = `(?:Seeds?|Feeds?|Stone|Coal|Sand|Gravel|Soils?|Mulch|Bark|Hardware|Turf|Timber|Rocks?|Lumber|Merchants?|Supply|Supplies|Gardens?|Landscape|Landscaping|Aggregates?|Bricks?|Blocks?|Fuels?|Topsoil|Compost|Stores?|Ponds?|Plants?)`
	// nameWord may have a small article joined to it: "Serres de l'Orme Gris".
	nameWord = `(?:[dl]['’])?[\p{Lu}\d][\p{L}\d'’&.-]*`
	// LegalForm ends a name with what kind of company it is, in the letters of its country: "Betonarna Tichá, s.r.o."
	LegalForm = `(?:plc|ltd|llc|inc|gmbh|e\.K\.|co|corp|PLC|LTD|LLC|INC|CO|CORP|GMBH|Ltd|Inc|GmbH|Co|Corp|a\.[ ]?s|s\.[ ]?r\.[ ]?[ol]|v\.[ ]?o\.[ ]?s|S\.[ ]?[ALC](?:\.[ ]?U)?|S\.[ ]?(?:[Rr]\.[ ]?[Ll]|[Pp]\.[ ]?[Aa])|sp\.[ ]?(?:j|k|z[ ]?o\.[ ]?o)|d\.[ ]?[od]\.[ ]?o?|B\.[ ]?V|N\.[ ]?V|A/S|Kft|Bt|Lda|Oy|AB|SIA|UAB)\b\.?`
	// joining words stand in small letters within a name.
	joining = `(?:and|of|the|&|und|d[aeiou]s?|del|della|dels|des|la|le|les|von|van|der|den|het|an|na|y|e|i|et|pod|nad)`
	// CompanyName may hold "and", "of" and "the" inside, and ends before a sign.
	CompanyName = nameWord + `(?:[ \t]+(?:` + joining + `[ \t]+)*` + nameWord + `){0,6}(?:,[ \t]+` + sellsWord + `(?:,[ \t]+` + sellsWord + `)*,?[ \t]+(?:and|&)[ \t]+` + sellsWord + `(?:[ \t]+` + sellsWord + `)?)?(?:,?[ \t]+` + LegalForm + `)?`
	PersonName  = `\p{Lu}[\p{L}'’-]+(?:[ \t]+\p{Lu}(?:\.|[\p{L}'’-]*)){0,2}`
)

// Named is a name wherever it stands.
var Named = lazy.Compile(CompanyName)

// Labels and sentences in which the one who sells is named.
var (
	LabelPrice = lazy.Compile(`(?m)^[ \t]*(?:[-*•][ \t]*|\d{1,2}[.)][ \t]+)(` + CompanyName + `)[ \t]+[$£€₹]`)
	ThisIs     = lazy.Compile(`(?:[Hh](?:ello|i|ey),|[Tt]his is|[Ii]t'?s|[Ii]t is|I am|I'm)[ \t]+(?:(?:` + PersonName + `|\p{Ll}{3,})[ \t]+)(?:(?:here|over|down|up|out|back)[ \t]+)*(?:at|from|of|with)[ \t]+(?:(?:the|our)[ \t]+(?:\p{Ll}+[ \t]+){1,2}(?:at|of)[ \t]+)?(?:the[ \t]+)?(` + CompanyName + `)(?:[ \t]+here)?`)
	PersonHere = lazy.Compile(PersonName + `[ \t]+(?:here|over|down|up|out)(?:,|[ \t]+(?:at|from|of|with))[ \t]+(?:the[ \t]+)?(` + CompanyName + `)`)
	HereLast   = lazy.Compile(PersonName + `[ \t]+(?:at|from|of|with)[ \t]+(` + CompanyName + `)[ \t]+here\b`)
	// SizeBehind is a name with a size of grain behind it, which is no firm's.
	SizeBehind = lazy.Compile(`^(?:\pL[\pL'’-]*[ \t]+){1,2}\d+[ \t]*(?:-|–|/|to|bis)[ \t]*\d`)
	QuoteFrom  = lazy.Compile(`(?i:quote|quotation|prices?|pricing|info|information|price list|offer|estimate|prices and stock)(?:[ \t]+from|[ \t]+[-–—]|:)[ \t]+(` + CompanyName + `)`)
	// Thanks for calling Garden Fork Nursery! Your cart at Green Trellis Hydro
	ThanksFor = lazy.Compile(`(?:[Gg]reetings from[ \t]+|(?:[Tt]hank(?:s| you)[ \t]+for[ \t]+(?:calling|ringing|phoning|emailing|messaging|contacting|writing to|visiting|choosing|shopping (?:at|with)|reaching out to|stopping (?:by|at|in at)|considering|your (?:interest in|(?:call|enquiry|inquiry|message|note|e-?mail|question|request) to))|[Yy]our[ \t]+(?:cart|basket|order|quote|estimate)[ \t]+(?:at|from|with)|[Ww]elcome to|[Ss]old (?:and (?:shipped|sent|dispatched) )?by:?|[Ss]ent from)[ \t]+(?:the[ \t]+)?)(` + CompanyName + `)(?:[ \t]+(?:weighbridge|office|desk|counter|yard))?[ \t]*(?:[!.,\r\n]|$)`)
	Starred   = lazy.Compile(`(?m)[*~=•][ \t]+(` + CompanyName + `)[ \t]+[*~=•][ \t]*\r?$`)
	HereAt    = lazy.Compile(`(?:[Hh]ere |[Ww]e )?at (` + CompanyName + `),?[ \t]+(?:we|I)\b`)
	LabelLine = lazy.Compile(`(?m)^[ \t]*(?:[-*•][ \t]*|\d{1,2}[.)][ \t]+|(?i:quote|option|offer|supplier|yard)[ \t]*#?\d*[ \t]*[-–:.)][ \t]*|(?i:message|text|txt|sms|reply|answer|e-?mail|response|quote|number|no\.?)[ \t]*#?\d{1,2},[ \t]*|(?i:texts?|messages?|msg|voice ?mail|e-?mail|calls?|reply|answer)[ \t]+from[ \t]+(?:\p{Lu}[\p{L}'’-]+,[ \t]+)?|From[ \t]+)?(?:\p{Lu}[\p{L}'’-]+[ \t]*(?:\(|(?:@|at|from|with)[ \t]+))?(` + CompanyName + `)\)?(?:,[ \t]+\p{Lu}[\p{L} ]*|[ \t]*\([\p{L} ]+\)|[ \t]+[\d-]{7,14})?[ \t]*(?::|[ \t][-–—][ \t])`)
	DashSign  = lazy.Compile(`(?m)^[ \t]*(?:--?|–|—|~)[ \t]?(?:(?:` + PersonName + `)(?:,| at| from| of)[ \t]+)?(` + CompanyName + `)[ \t.]*(?:,[ \t]*\d[^\n,]*)?\z`)
	// Mon - Low Ford Quarry. Lava, as somebody notes calls
	LabelDay   = lazy.Compile(`(?m)^[ \t]*(?i:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?i:day)?\.?[ \t]*[-–—:,][ \t]*(` + CompanyName + `)[ \t]*[.:,][ \t]`)
	LabelComma = lazy.Compile(`(?m)^[ \t]*(?:[-*•][ \t]*)?(` + CompanyName + `),[ \t]+`)
	// quote 1 - Anvil Creek; and the number alone, "2) Anvil Creek Stone", which needs more to be one
	NumberedLabel = lazy.Compile(`(?m)^[ \t]*(?:(?P<what>(?i:quote|option|offer|supplier|vendor|yard|reply|answer))[ \t]*)?#?\d{1,2}[ \t]*[-–:.)]+[ \t]*(` + CompanyName + `)(?:[ \t]*\([\pL .,'’-]+\)|,[ \t]+(?i:quote|quotation|offer|prices?)[ \t][^\n$£€]*)?[ \t]*:?[ \t]*\r?$`)
	SupplierWord  = lazy.Compile(`^(?i:supplier|vendor|merchant|company|yard|store|shop|seller|who|name)$`)
	SupplierLine  = lazy.Compile(`(?m)^[ \t]*(?i:supplier|vendor|merchant|company|yard|store|shop|seller|who|name)[ \t]*[:=][ \t]*(` + CompanyName + `)`)
	// NameWants is a name right in front of an amount, with a word for selling between or not.
	NameWants = lazy.Compile(`(?:^|[.,;:\n–—-][ \t]*|\b(?:and|but|while)[ \t]+)(\p{Lu}[\p{L}-]+(?:[ \t]+\p{Lu}[\p{L}-]+){0,3})(?:['’]s)?[ \t]+(?:(wants|charges|asks|quoted(?: me| us)?|offers|sells (?:it|them)(?: at| for)|has (?:it|them)(?: at| for)?|will do (?:it|them)(?: at| for))[ \t]+|(?:is|are|at|is at)[ \t]+)?[$£€\d]`)
)

// Where people say who they are or whom they spoke to, outside signatures and labels.
var (
	// at the start of the message or of a line: "Lockram Pit, spoke to", "Hollin Gate Supply. Lava", "Dunmere Yard - ask for Lou"
	NameFirst = lazy.Compile(`(?m)^[ \t]*(` + CompanyName + `)[ \t]*(?:\(|[,.](?:[ \t]|\r?$)|[ \t][-–—@][ \t]|[ ]{3}|\r?$)`)
	// "Sallow Fen Nursery has", "Nan from Upper Wick Feed called back:", "called Pennick Stone 5/12,"
	NameSays   = lazy.Compile(`(?:^|[.!\n][ \t]*)(?:` + PersonName + `[ \t]+(?:from|at|@|of|with)[ \t]+)?(` + CompanyName + `)[ \t]+(?:has|have|quoted|quotes|quote|says|said|sells|called(?: back)?|wants|offers|does|do|charges|can do|will do)\b[ \t]*:?`)
	NameCalled = lazy.Compile(`(?:^|[.!\n,][ \t]*)(?:(?:\p{L}{3,9}\.?,?[ \t]+)?\d{1,2}[:.]\d\d(?:[ \t]?[ap]m)?[,:]?[ \t]+)?(?i:(?:(?:ok|so|hi|hey|and|well|just|finally),? )*(?:(?:i|we) )?(?:(?:spoke|talked|chatted|texted|emailed|got through|got back) (?:to|with|w/)|got (?:hold|ahold) of|reached|(?:notes? (?:from|of) )?(?:the |a |my )?(?:(?:tele)?phone )?call (?:to|with|w/)|called|rang|phoned|rung|stopped (?:by|at|in at)|dropped (?:by|in at)|visited|went (?:by|to)|drove (?:out )?to))[ \t]+(?:(?:` + PersonName + `)[ \t]+(?:from|at|@|of|with)[ \t]+)?(` + CompanyName + `)(?:[ \t]+(?:on|off|near|by)[ \t]+(?:the[ \t]+)?\p{Lu}[\pL\d-]*(?:[ \t]+\d{1,3})?)?[ \t]*(?:\d{1,2}/\d{1,2}|(?:mon|tues?|weds?|thurs?|fri|sat|sun)(?:day)?\b|(?:this (?:morning|afternoon)|today|yesterday|back|again)\b|(?:arvo|morning|afternoon|evening|a\.?m|p\.?m)\b)?[ \t]*(?:[,.:(]|\r?\n)`)
	// "Kim rang back from Otamarua Quarry."
	CalledFrom = lazy.Compile(`(?m)(?:^|[.!\n][ \t]*)` + PersonName + `[ \t]+(?:rang|called|phoned|texted|emailed|wrote)(?:[ \t]+(?:back|me|us))*[ \t]+from[ \t]+(?:the[ \t]+)?(` + CompanyName + `)[ \t]*(?:[,.:]|\r?$)`)
	// "Spoke with Lou, Pennick Stone": the person, then whose words they are
	CalledFor = lazy.Compile(`(?m)(?:^|[.!\n,:][ \t]*)(?i:(?:spoke|talked|chatted|texted|emailed|(?:tele)?phone(?: call)?) (?:to|with|w/)|called|rang|phoned|rung|(?:voice ?mail|message|msg|text|note) (?:from|by))[ \t]+(?:(?:Mr|Mrs|Ms|Dr)\.? )?` + PersonName + `,[ \t]*(` + CompanyName + `)[ \t]*(?:[,.:]|\r?$)`)
	// "Ships in two days from Pennick Stone", as a cart says
	ShipsFrom = lazy.Compile(`(?m)(?:^|[.!][ \t]+)[ \t]*(?:Ships|Shipped|Dispatched)(?:[ \t]+[\pL\d–-]+){0,6}[ \t]+(?:from|by)[ \t]+(?:the[ \t]+)?(` + CompanyName + `)[ \t]*(?:[.,]|\r?$)`)
	// "Hi Nan, Pell & Marsh here."
	FirmHere = lazy.Compile(`(?:^|[.!,\n][ \t]*)(` + CompanyName + `(?:[ \t]+(?:yard|nursery|quarry|pit|shop|store))?)[ \t]+here(?:[ \t]*[.,!:\n]|[ \t]+(?:re|regarding|about)\b)`)
	// "Ask for Lou at Pennick Stone if"; "Call 16:05 - Low Ford Quarry, a Mr Reed"
	AskFor    = lazy.Compile(`(?:[Aa]sk for|[Ss]ee|[Cc]ontact|[Cc]all|(?:[Vv]oice ?mail|[Mm]essage|[Mm]sg|[Cc]all)(?: left)? (?:from|by))[ \t]+` + PersonName + `[ \t]+(?:at|@|from)[ \t]+(?:the[ \t]+)?(` + CompanyName + `)`)
	CallAt    = lazy.Compile(`(?m)^[ \t]*(?i:(?:phone |tel )?call|phoned|rang|notes?)[ \t]+(?:\p{L}{3}[ \t]+)?\d{1,2}[:.]\d\d(?:[ \t]?[ap]m)?[ \t]*[-–—,:][ \t]*(` + CompanyName + `)[ \t]*(?:[,.(:\n]|$)`)
	PersonAt  = lazy.Compile(`(?m)(?:^|[.!,;:)–—-][ \t]+|[ \t]{2,})(?:\p{Ll}+[ \t]*@|(?:(?i:cheers|thanks|thx|ta|regards)[ \t]+)?` + PersonName + `(?:[ \t]+x+)?[ \t]*(?:@|\bat\b|\bfrom\b|\())[ \t]*(` + CompanyName + `)\)?[ \t]*(?:[:.)]|here\b|\r?$)`)
	SmallAt   = lazy.Compile(`(?:its|it's|it’s|this is)[ \t]+\p{L}+[ \t]*(?:@|at|from|frm)[ \t]*([\p{L}]+(?:[ \t][\p{L}]+){0,2})[ \t]*(?:[.,:!]|\r?\n|$)`)
	SmallHere = lazy.Compile(`(?:^|[.,!?][ \t]+)\p{Ll}+(?:[ \t]+here)?[ \t]*(?:@|\b(?:at|from|frm|in)\b)[ \t]*(\p{Ll}[\p{Ll}'’&]*(?:[ \t]+[\p{Ll}'’&]+){1,4})[ \t]*(?:[.,:!\n]|$)`)
	SmallLast = lazy.Compile(`(?:\n|[.!][ \t]+)[ \t~-]*(?:\p{Ll}+[ \t]*(?:@|at|from|with|,|/|-)[ \t]*)?(\p{Ll}[\p{Ll}'’&]*(?:[ \t]+[\p{Ll}'’&]+){1,3})[ \t.!]*$`)
	NameGoods = lazy.Compile(`^[ \t]*(` + CompanyName + `)[ \t]+\p{Ll}`)
	NameThen  = lazy.Compile(`(?:[.!?)][ \t]+|[|][ \t]*|\n[ \t]*)(` + CompanyName + `)(?:,[ \t]*` + PersonName + `|[ \t]*\|[^\n]*)?[ \t.!]*$`)
	NameLine  = lazy.Compile(`(?m)^[ \t]*(?:(?:From|By|Supplied by|Sent by)[ \t]+)?(` + CompanyName + `)[ \t.!,]*\r?$`)
	// the last line with an address, or one whose last word says what is sold: "Harlow Stone, 402 Depot St", "Kettenay Cinder"
	NameClosing = lazy.Compile(`(?:\n|[.!?)][ \t]+(?:[-–—~][ \t]*)?|[ \t][-–—][ \t]+)[ \t]*(` + CompanyName + `)(?P<at>,[ \t]+[^\n,]*\d[^\n,]*|,[ \t]+\p{L}[^\n,\d]*|[ \t]+(?:#|No\.?[ \t]*)\d+)?[ \t.!]*$`)
	NameLast    = lazy.Compile(`(?:[.!?),][ \t]+|[ \t][-–—][ \t]*|\n[ \t]*)(?:(?:--?|–|—|~|/)[ \t]*)?(?:(?:\p{Lu}\.[ \t]*)*` + PersonName + `(?:[ \t]+(?:and|&)[ \t]+\p{Lu}[\pL'’-]+)?(?: x)?(?:,|[ \t]*[@/]|[ \t]+[-–—]|[ \t]+(?:at|from|of|with))[ \t]*)?(` + CompanyName + `(?:[ \t]+\([\p{L} ]+\)[ \t]+(?:Ltd|Inc|LLC|Co)\b)?)(?:[ \t]+[/|][ \t]*\+?[\d ()-]{7,20})?[ \t.!]*$`)
	// a name in the first line, where that says nothing of goods: "Phone call w/ Lou, Pennick Stone, Sat am:", "Pennick Stone -- your cart"
	NameHead  = lazy.Compile(`(?:^|[-–—,:/|][ \t]*|[ \t]{2,}|(?:w/|with|from)[ \t]+)(` + CompanyName + `)`)
	HeadWords = lazy.Compile(`(?i)\b(?:calls?|called|phoned?|rang|spoke|notes?|message|voicemail|cart|basket|fax|from|w/|lists?|saved|quotes?|quotation|orders?|estimate|invoice|receipt|prices?)|[ \t]>[ \t]`)
	HeadEnds  = lazy.Compile(`^(?:[ \t]*(?:[,.:(|>\r\n]|-{1,2}[ \t]|[–—])|[ \t]{2}|$)`)
	// FirmAlone is a line that begins with nothing but the name of a firm of several.
	FirmAlone = lazy.Compile(`^[ \t]*\p{Lu}[\p{L}'’]+ & [\p{L}'’ ]+, $`)
	// Addressed is what makes the name behind it that of the buyer.
	Addressed = lazy.Compile(`(?:\bto|customer|client|buyer|ship to|dear|attn|hi|hello)[:.,]?[ \t]*$`)
)

// A signature: the words that end a message, and what stands below them.
var (
	Closing     = lazy.Compile(`(?i)(?:^|[\n.!?;,–—-])[ \t\r]*((?:with )?(?:please accept )?(?:(?:our|my) )?(?:(?:kind|best|warm|many|kindest|warmest|thanks (?:&|and))[ \t]+)?(?:regards|wishes|thanks|cheers|sincerely|cordially|respectfully|rgds|mvh|m\.?f\.?g|groeten|saludos|saluti|terveisin|h(?:ä|ae)lsningar|thanking you|we remain(?:[ \t]+(?:at|in|yours?|your|ever|sir|madam|service|truly|faithfully)){0,3}|ng[aā] mihi(?: nui)?|greetings|thnx|thx|let me know|(?:very[ \t]+truly[ \t]+)?yours(?:[ \t]+(?:sincerely|faithfully|truly))?|thank you(?:[ \t]+(?:again[ \t]+)?for[ \t]+(?:the|your|this)(?:[ \t]+[\p{L}]+){1,2})?|all the best|best|ta))[ \t]*[,.!–—-]*[ \t\r]*(\n|[ \t]|$)`)
	SignedAt    = lazy.Compile(`^(?:(` + PersonName + `)(?:[ \t]*,|[ \t]*@|[ \t]+at|[ \t]+from|[ \t]+of|[ \t]+with|[ \t]+for|[ \t]*/|[ \t]+[-–—]|[ \t]*\()[ \t]*(?:the[ \t]+)?)(` + CompanyName + `)\)?[ \t.!]*$`)
	TeamOf      = lazy.Compile(`^Team[ \t]+\p{Lu}[^ \t]*[ \t]+` + CompanyName + `$`) // of whom somebody signs, who is many
	SignedSmall = lazy.Compile(`^(?:(\p{L}+)[ \t]+(?:at|from)[ \t]+)(\p{L}+(?:[ \t]+\p{L}+){0,3})[ \t.!]*$`)
	WholeName   = lazy.Compile(`^(?:(?i:from|at|for|on behalf of|for and on behalf of)[ \t]+)?(` + CompanyName + `)[ \t.!,]*$`)
	Street      = lazy.Compile(`(?i)^\d+[a-z]? .*\b(?:rd|road|st|street|lane|ln|ave|avenue|way|drive|dr|hwy|highway|route|pike|blvd)\b\.?`)
	// House is one in a road, by its number, wherever it stands; a name may go on behind it: "14 Mill Road Quarry".
	House = lazy.Compile(`(?:^|[ \t\n(,])(\d{1,5}[A-Za-z]?[ \t]+(?:\p{Lu}[\p{L}'’.-]*[ \t]+){1,3}(?:Road|Rd|Street|St|Lane|Ln|Avenue|Ave|Drive|Dr|Highway|Hwy|Pike|Turnpike|Blvd|Boulevard|Parkway)\b\.?)(?:[ \t]+\p{Lu})?`)
	// Written is the head of a letter: to whom it goes, with title and house, and the salutation.
	Written     = lazy.Compile(`(?m)^[ \t]*((?:Mrs?|Ms|Miss|Mx|Dr)\b\.?[ \t][^\n\d$£€]*?(\p{Lu}[\p{L}'’-]+)[ \t]*\r?\n(?:[^\n]*\pL[^\n]*\r?\n){0,4})[ \t]*\r?\n[ \t]*Dear[ \t]([^\n]*)`)
	ContactLine = lazy.Compile(`(?i)^(?:(?:tel|phone|ph|mob|mobile|cell|office|fax|email|e-mail|web|t|m|e|p|f)[.:]?[ \t]*)?(?:[\w.+-]+@[\w.-]+|(?:https?://|www\.)\S+|\+?[\d ()-]{7,20}(?:(?:ext\.?|x)[ \t]*\d{1,5})?)[ \t]*$`)
	// HouseLine is a line below a name that says something of the house: its hours, its terms, a number of the paper.
	HouseLine = lazy.Compile(`(?i)^(?:\d{1,4}[a-z]?(?:[ \t](?:bis|ter))?,?[ \t]+(?:rue|avenue|chemin|route|place|quai|impasse|allée|boulevard)\b[^\d$£€]*(?:\d{5}[^\d$£€]*)?|(?:via|viale|calle|camino|avenida|rua|estrada)[ \t][^\d$£€]*\d{1,4}|\(est(?:ablished|d)?\b[^$£€]*\)|\(?auth?ori[sz]ed signatory\)?|(?:open|hours|mon|tue|sat|closed|timings?)\b[^$£€]*|(?:quote|quotation|ref|reference|terms|est(?:ablished|d)?|gstin?|abn|vat (?:no|reg)|reg(?:istered)?|licen[cs]ed?)\b[^$£€]*)$`)
)
