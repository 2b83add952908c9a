package firms

import "mediabuy/quotes/internal/lazy"

// What stands in a name or around one, wherever a message has it.
var (
	// AnyName has capitals, SmallName stands in small letters behind a word for where somebody is.
	AnyName     = lazy.Compile(`(` + CompanyName + `)`)
	SmallName   = lazy.Compile(`\b(?:at|from|w|with|it'?s|this is|here|down|to|of)[ \t]+(?:the[ \t]+)?([\p{L}'’]+(?:[ \t]+(?:n|and|&)?[ \t]*[\p{L}'’]+){1,3})`)
	CapitalName = lazy.Compile(`(?:^|[^\pL\d])(\p{Lu}[\pL'’-]*(?:[ \t]+(?:(?:and|of|the|&|d[aeiou]s?|del|della|la|le|les|van|von|der|den|de|het|zum|am|y|e)[ \t]+)*\p{Lu}[\pL'’-]*){0,5})`)
	// OwnersName is a yard by the name of its owner: "Annie's", and not "It's".
	OwnersName = lazy.Compile(`^\pL{5,}['’]s$`)
	// AskFront stands in front of the name of one who sells what is his own.
	AskFront    = lazy.Compile(`(?i)(?:\b(?:ask|look) for|\b(?:contact|text|message|call|ring|phone|see|speak to|talk to))[ \t]+$`)
	SellsBehind = lazy.Compile(`^[ \t]+(?:is|are|has|have|had|sells?|wants?|says|said|quoted?|charges?|offers?|can do|will do)\b`)
	// ToOther ends a line in front of the name of a buyer or a place, OfOther in front of the name of one who sells.
	ToOther     = lazy.Compile(`(?i)(?:^[ \t]*(?:hello|hi|hey|hiya|dear|to|attn|attention|bill to|ship to|for|re|subject|project|job)\b.*|\b(?:to|in|inside|into|near|for|around|outside|within|by|past|mr|mrs|ms|dr|frau|herr)\.?[ \t]+)$`)
	OfOther     = lazy.Compile(`(?i)(?:\b(?:at|from|of|called|rang|phoned|with|w/|over at|down at|spoke to|is|the)|@|/|[-–—])[ \t]+(?:the[ \t]+)?$`)
	Initials    = lazy.Compile(`^(?:\p{Lu}\.)+$`)
	InnerStop   = lazy.Compile(`\p{L}{2}(\.)\p{Lu}`)
	NumberPart  = lazy.Compile(`^\d[\d./-]*$`)
	LongNumber  = lazy.Compile(`^(?:0\d|\d{4}|\d+[./-]\d)`) // of a telephone, a year or a day
	ContactRest = lazy.Compile(`(?i)^[ \t]*[,;.(–—-]*[ \t]*((?:(?:tel|phone|mob|mobile|cell|t|m)\b[.:]?[ \t]*)?\+?(?:\(?0[\d ()-]{6,20}\d|\d{3,5}[ -]\d{3}[ -]?\d{3,4}))[ \t).]*(?:\r?\n|$)?`)
	ClockBehind = lazy.Compile(`^:\d\d`)
	RateBehind  = lazy.Compile(`^[ \t]*(?:/|(?:a|an|per|each)\b)`)
	NameBehind  = lazy.Compile(`^[ \t]*\r?\n[ \t]*(` + CompanyName + `)[ \t]*(?:[.,;:\r\n]|$)`)
	// PersonBehind goes on behind the name of a person with whose he is.
	PersonBehind = lazy.Compile(`^,?[ \t]+(?:(?:here|over|down|out|up|speaking|calling),?[ \t]+)?(?:at|from|of|with)[ \t]`)
	// Corner is where two streets meet: "4th & Main".
	Corner = lazy.Compile(`(?i)^\d+(?:st|nd|rd|th)\b`)
	// NumberedThing is a line of a list by its number, and no company.
	NumberedThing = lazy.Compile(`(?i)^(?:lot|line|item|pos|part|code|no|nr|ref|row|option|grade|zone|text|msg|message|page|type|size|unit|bay|gate|store|branch|shop|depot|plant|dept|ext|building|warehouse)\b.*\d$`)
	// DayBehind is a day behind a name: "Called Low Ford Quarry Thurs".
	DayBehind = lazy.Compile(`(?: (?:Mon|Tue|Tues|Wed|Thu|Thur|Thurs|Fri|Sat|Sun)(?:day|sday|nesday|rsday|urday)?| \d{1,2}(?:[:.]\d\d)? ?[aApP]\.?[mM])+$`)
	// Speaker is a name with a word behind it that says that somebody sells, or with "over at" in front.
	Speaker     = lazy.Compile(`(?:^|[^\pL\d])(?:(?:[Oo]ver|[Dd]own|[Uu]p|[Oo]ut)[ \t]+at[ \t]+(?:the[ \t]+)?(` + CompanyName + `)|(` + CompanyName + `)(?:[ \t]+(?:has|have|says|said|sells|sell|charges|quotes|quoted|wants|offers|asks|delivers|will do|does)\b|[ \t]*(?:[:,.]|[-–—][ \t]|\r?\n|$|(?:is|are|at)\b)))`)
	DigitBefore = lazy.Compile(`\d[ \t]+$`)
	RoadEnds    = lazy.Compile(`(?i)\b(?:road|rd|street|st|lane|avenue|ave|drive|highway|hwy|route|way|spur|pike|blvd)\.?$`)
)

// mixedName is a name in a tongue in which words inside it have small letters: "Mali vrt Pod Lipo".
const mixedName = `\p{Lu}[\p{L}'’-]+(?:[ \t]+\p{L}{3,}){1,3}[ \t]+\p{Lu}[\p{L}'’-]+`

// MaybeName are the places of a name that may be the supplier's though nothing in it says so: at the end, behind a person's or not, behind a
// headline, behind "that's", and in a line of its own or in front of a stop at the beginning.
var MaybeName = []*lazy.Expr{
	lazy.Compile(`(?:^|[.!?):;~|\n])[ \t]*(?:[-–—/]+[ \t]*)?(?:(?i:ciao|cheers|thanks|thx|ta|regards|best|greetings|bye|saludos|saluti|hilsen|mvh|lg|vg)[,!]?[ \t]+)?` + PersonName + `(?:[ \t]+(?:and|&)[ \t]+\p{Lu}[\pL'’-]+)?(?:[ \t]*[,/@(]|[ \t]+[-–—]|[ \t]+(?:at|from|of|with|in|over at|here at))[ \t]*(?:[Tt]he[ \t]+)?(` + CompanyName + `|` + mixedName + `)[ \t.!)]*(?:[ \t]x+)?[ \t]*$`),
	lazy.Compile(`^[^\n:,.\d]{3,40}[ \t][-–—][ \t]+(` + CompanyName + `)[ \t]*\r?\n`),
	lazy.Compile(`(?:[.!?):;~|/–—]|[ \t]-+|\n)[ \t-]*(` + CompanyName + `)[ \t.!)]*(?:[ \t]x+)?[ \t]*$`),
	lazy.Compile(`(?:[Tt]hat[’']?s|[Tt]his is|[Ii]t[’']?s)[ \t]+(?:` + PersonName + `[ \t]+(?:at|from|of|with)[ \t]+)?(` + CompanyName + `)[ \t]*[,.:!\n]`),
	lazy.Compile(`^[ \t]*(` + CompanyName + `)[ \t]*(?:[:.(\n]|[ \t][-–—])`),
}
