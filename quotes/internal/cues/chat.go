package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
	"mediabuy/quotes/internal/plaintext"
)

// Lines of talks, of lists and of questions with their answers.
var (
	QuotedLine = lazy.Compile(`(?m)^[ \t]*>.*$`)
	MoreThan   = lazy.Compile(`^[ \t]*>` + pieces.Sp + `\d+(?:` + pieces.Sp + `(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `))?` + pieces.Sp + `[:=@-]?` + pieces.Sp + `(?:` + pieces.SignBefore + `)?` + pieces.Sp + `\d`) // "> 10 bags: 14.20" is a break
	ChatLine   = lazy.Compile(`(?m)^[ \t]*` + plaintext.ChatTime + `([\p{L}][\p{L}&'’. -]{0,40}):[ \t]*`)
	// NameTime is a line of one with the time behind the name: "Lou 8:40a: ..."
	NameTime  = lazy.Compile(`(?m)^[ \t]*(\p{L}[\p{L}&'’. -]{0,40}?)[ \t]*[,(]?[ \t]*\d{1,2}[:.]\d{2}(?:[ ]?[AaPp]\.?[Mm]\.?|[ap])?\)?:[ \t]*`)
	MeLine    = lazy.Compile(`(?m)^[ \t]*(?:(?i:me|i|you):[ \t]|(?i:customer|buyer|client|visitor|guest):[ \t]+(?:\p{Ll}|[^\n]*\?))`) // a talk written down: "Me: ...", "Yard: ..."
	SaysLine  = lazy.Compile(`(?m)^[ \t]*(\pL[\pL&'’.-]{0,20}):[ \t]*`)
	SpeakLine = lazy.Compile(`(?m)^(\pL[\pL&'’. -]{0,30}):[ \t]*`)
	// TalkHead is what stands above a talk: "[chat with Pennick Stone]", "Pennick Stone - messages"
	TalkHead     = lazy.Compile(`^\s*(?:\[[^\]\n]*\]|[^:\n\d$£€]+\r?\n)[ \t]*\r?\n`)
	AsksWord     = lazy.Compile(`^(?i:and |hi,? |hello,? |ok,? |(?:good )?(?:morning|afternoon|evening),? )*(?i:can|could|do|does|what|how|any|is|are|would|will|which)\b`)
	QuestionLine = lazy.Compile(`(?m)^[ \t]*(?:Q|Question)[ \t]*[:.)][ \t]*([^\n?]*\?)[ \t\r\n]*((?:A|Answer)[ \t]*[:.)])?`)
	FetchAsked   = lazy.Compile(`\b(?:` + pieces.Deliver + `|bring|drop|truck|ship|post|courier)\b`)
)
