package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

const (
	halfOrFull = `((?:half|full|whole|one|1)?[ -]?(?:an? )?` + pieces.AnyUnit + `(?: (?:scoops?|buckets?))?)`
	halvesSum  = `((?:` + pieces.SignBefore + `)?` + pieces.Sp + `\d+(?:[.,]\d\d)?)`
)

// HalvesHead ends in what two columns of prices are for, "half yard / full yard", and HalvesRow in a price under each.
var (
	HalvesHead = lazy.Compile(`(?:^|[,:;]|[ \t]{2,})()[ \t]*` + halfOrFull + `[ \t]*[/|][ \t]*` + halfOrFull + `[ \t]*:?[ \t]*$`)
	HalvesRow  = lazy.Compile(`^(.*[^ \t])[ \t]+` + halvesSum + `[ \t]*/[ \t]*` + halvesSum + `[ \t]*$`)
)
