package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// What stands around an amount or a number of packs, and tells whether the two go together as a price from so many on.
var (
	Measured    = lazy.Start(pieces.Sp + `["'-]?` + pieces.Sp + `(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `|` + pieces.SizeUnit + `|%|["'″”/]|-?\d|to \d|x|ers?\b|st\b|nd\b|rd\b|th\b|miles?|km|days?|weeks?|hours?|h\b|hrs?|min(?:ute)?s?\b|am\b|pm\b|mil\b)`) // what the number in front of it counts, and it is no money
	CountMore   = lazy.Compile(`(?:\d|\b` + pieces.Written + `)(?:` + pieces.Sp + `(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `))?` + pieces.OrMore + `[ \t:=@-]*$`)                                                                                              // of the price of so many
	PalletHad   = lazy.Start(`(?:` + pieces.Sp + `/` + pieces.Sp + `| (?:per|to a|on a|to the) )` + pieces.PalletWord)                                                                                                                                                 // behind how many it has
	NotOfPacks  = lazy.Start(pieces.Sp + `-?` + pieces.Sp + `(?:miles?|mi|kms?|days?|weeks?|hours?|hrs?|min(?:ute)?s?)\b`)
	TimesFront  = lazy.Compile(`\bx[ \t]*$`)
	AmountNext  = lazy.Compile(`^[ \t]*(?:for|at|:|=|@|-)?[ \t]*` + pieces.SignBefore)
	BroughtNext = lazy.Compile(`^[ \t]*(?:(?:for|to|a|the|per|each) )*(?:` + pieces.Deliver + `|drop|bring|haul|truck)\b`)
	BareRate    = lazy.Start(pieces.PerWord + pieces.UnitPattern("u"))
	PartOfPack  = lazy.Compile(`\b(?:quarters?|thirds?|halves|half|part)(?: of)?(?: an?| the)?[ -]*$`)
	BuysWord    = lazy.Compile(`\b(?:if|when|once|from|at|over|buy\w*|take|taking|get|order\w*|for|more|have|past|after|drops?|falls?|brings?|beginning|starting|pallet|skid)\b|\bby(?: the)?[ \t]*$`)
	StandsHere  = lazy.Compile(`\b(?:have|has|got|left|stock|here|ve)\b`)
	GapEnds     = lazy.Compile(`(?:^|\pL{4,})[.!?][ \t]+`) // of a sentence between an amount and a number
	SameBefore  = lazy.Compile(`\bsame(?: sized?)? $`)
	IfBefore    = lazy.Compile(`\b(?:if|unless|when|once)\b[^.;,\n]*$`)
	SizeNext    = lazy.Compile(`^(?:[ \t]+(?:an?|per|the) \pL+)?[ \t]+(?:for|on) (?:the )?$`)
	FallsTo     = lazy.Compile(`\b(?:it|that|they|the price) (?:drops?|dropped) (?:down )?to\b`) // and brings nothing
)
