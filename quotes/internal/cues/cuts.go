package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// Parts and amounts that come off each price from a number of packs on.
var (
	CutFrom     = lazy.Compile(`\b(?P<n>` + pieces.PlainNumber + `|` + pieces.Written + `)(?:` + pieces.Sp + `(?P<c>` + pieces.AnyUnit + `|` + pieces.PackForm + `))?(?P<more>` + pieces.OrMore + `)?`)
	CutPart     = lazy.Compile(`(?:(?:less|minus|save|knock) )?(?P<p>` + pieces.PlainNumber + `)` + pieces.Sp + `(?:%|percent\b|per cent\b)(?: (?:off|less|cheaper|discount|rebate|down))?`)
	CutCents    = lazy.Compile(`\b(?P<p>` + pieces.PlainNumber + `|` + pieces.Written + `|fifty|twenty-five|seventy-five)` + pieces.Sp + `(?:cents?|¢|pence|p|c)(?:` + pieces.EachWord + `|` + lazy.Unnamed(pieces.PerWord+pieces.UnitPattern("u")) + `)?(?: off| less| cheaper)\b`)
	CutSum      = lazy.Compile(`(?:(?P<less>(?:comes?|goes|go|is|are|drops?|falls?|down|less|save|minus|knocks?|takes?)(?: (?:it|them|off|down|by))*) )?` + pieces.LooseAmount + `(?:` + pieces.EachWord + `|` + lazy.Unnamed(pieces.PerWord+pieces.UnitPattern("u")) + `)?(?P<off> (?:off|cheaper|less|discount)\b)?`)
	OffBefore   = lazy.Compile(`\b(?:comes?|goes|go|drops?|falls?|knocks?|takes?|save|get)(?: (?:it|them|off|down|by|another))+[ \t]*$`)
	OffBehind   = lazy.Compile(`^(?:[ \t]*(?:per|an?|the|each|/)[ \t]*\pL*\d?)?[ \t]+(?:off|cheaper|less|discount)\b`)
	EarnsBehind = lazy.Compile(`^[^.;\d\n]{0,24}\b(?:earns?|gets?|saves?|means)\b`)
	OverCount   = lazy.Compile(`\b(?:over|above|more than|beyond|past)[ \t]*$`) // the number itself may be in it or not
	OffWord     = lazy.Compile(`\b(?:off|less|cheaper|discount|rebate|reduction|comes? down|goes down|drops?|falls?|save)\b`)
)

// PaidSoon is what comes off for paying early, or in some way, and for no number of packs.
var PaidSoon = lazy.Compile(`\b(?:(?:if|when|for)[ \t]+(?:[\pL]+[ \t]+)?(?:paid|pay(?:ing|ment)?|settled|settl(?:ing|ement)|cash)|(?:within|in)[ \t]+\d+[ \t]+days|net[ \t]+\d+)\b`)

var LinksTo = lazy.Compile(`\b(?:for|from|when|if|orders?|buy|take|on|at|over)\b`)

var TakesOff = lazy.Compile(`\b(?:reduced by|cut by|off|saves?|discount|less|rebate|reduction)\b`)
