package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// TaxOfPart is what a tax is on, TaxOfAll where that is all of the goods.
var (
	TaxOfPart = lazy.Start(pieces.Sp1 + `(?:on|for) \pL`)
	TaxOfFee  = lazy.Start(pieces.Sp1 + `(?:on|for) (?:(?:the|our|any|your) )*(?:` + pieces.Fetching + `)`)
	TaxOfThis = lazy.Start(pieces.Sp1 + `(?:on|for) (?:(?:the|our|my|any|your|of) )*(?:` + pieces.Fetching + `|ours|mine|us|me|top|all|everything|it|both|goods|merchandise|products?|materials?|prices?|orders?|this|these|that|them|sales?|either|anything)\b`)
	TaxEnds   = lazy.Start(pieces.Sp + `(?:[.,;:)!\r\n-]|$|(?:as|because|since|cos|coz|we|we're|we['’]re|i|i['’]?m|so|and|or)\b)`)
	Exempted  = lazy.Compile(`\b(?:you|your|yours|if|when|unless|customers?|schools?|farms?|buyers?|certificates?|was|were|with an?)\b`) // of what is asked of a buyer first
	TaxOfAll  = lazy.Start(pieces.Sp1 + `(?:on|for) (?:(?:the|all|these|both|of|our|my) )*(?:top|all|everything|it|both|goods|merchandise|products?|subtotal|materials?|prices?|orders?|total|lot|above|that|this|these|them|sales?|items?|either)\b`)
)

// PerAnything and the others are what a fee is for.
var (
	PerAnything = lazy.Start(pieces.Sp + `(?:/|p/|(?:per|an?|each|every)\b)` + pieces.Sp + `[\p{L}\d]+(?: (?:order|drop|load|trip|mile))?`)
	PerOrder    = lazy.Start(pieces.Sp + `(?:/|(?:per|an?|each)\b)` + pieces.Sp + `(?:order|drop|delivery|consignment|shipment)\b`)
	PerLoad     = lazy.Start(pieces.Sp + `(?:/|(?:per|an?|each)\b)` + pieces.Sp + `(?:(?:truck[ -]?|lorry[ -]?|full )?load|` + pieces.TruckWord + `|trip|time|go)\b`)
	PerPallet   = lazy.Start(pieces.Sp + `(?:/|(?:per|an?|each)\b)` + pieces.Sp + pieces.PalletWord)
	PerAmount   = lazy.Start(pieces.Sp + `(?:/|p/|(?:per|an?|each)\b)` + pieces.Sp + `(?P<v>` + pieces.AnyUnit + `)`)
	OnePackOnly = lazy.Start(pieces.Sp + `(?:for|on) (?:the |a )?(?:bagged|loose|bulk|` + pieces.PackForm + `)(?: (?:goods|orders?|loads?|deliver(?:y|ies)|material|stuff|only|bags?|sacks?))*`)
)

// FlatEnd says of an amount in a column of fees that it is one for each order: "$95 flat".
var FlatEnd = lazy.Compile(`[ \t]+(?:flat(?:[ -](?:rate|fee))?|(?:per|an|for each) order)[ \t]*$`)
