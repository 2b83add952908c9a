package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// Words of trucks, their trips and what is charged for one.
var (
	ToLoad      = lazy.Start(` (?:to|on) (?:the|a|each) load\b`)
	FeeSaid     = lazy.Compile(`\b(?:fees?|charges?)\b`)
	EachDrop    = lazy.Compile(`\b(?:load|trip|tour|run|drop)$`)
	Miles       = lazy.Compile(`\b(?:miles?|km)\b`)
	HeldBefore  = lazy.Compile(lazy.Unnamed(pieces.Holding) + `[ -]$`)
	OwnTruck    = lazy.Compile(`\b(?:delivered|bring|brought|haul(?:ed)?|carry|carried)\b[^.;]*\b(?:by|on|with|in) (?:our|my|the|a) `) // "delivered by our own trailers"
	TruckStart  = lazy.Start(pieces.TruckWord)
	MostWord    = lazy.Compile(`\bmax(?:imum)?\b`)
	TruckWithin = lazy.Compile(`\b` + pieces.TruckWord + `\b`)
	OnTruck     = lazy.Compile(`\b(?:(?:on|in) (?:the|one|a|our) ` + pieces.TruckWord + `|trip|tour)\b`) // a load of goods is priced by none of these
)

// TruckLoads are loads of a truck: "2  Truck loads, 6 CY each".
var TruckLoads = lazy.Compile(`\b(?:truck|lorry|tipper|wagon|trailer|dumper)[ -]?(?:loads?)?\b`)

// LoadSaid says that a charge is for each load.
var LoadSaid = lazy.Compile(`\b(?:loads?|trips?|runs?|` + pieces.TruckWord + `)$`)
