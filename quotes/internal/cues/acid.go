package cues

import (
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// Words for an acid drop, wherever they stand in a sentence, and what came of one.
var (
	AcidSaid   = lazy.Compile(`\b(?:acid|vinegar|fizz\w*|effervesc\w*)\b`)
	AcidPart   = lazy.Compile(`\b(?:(?:acid|vinegar)(?: drop)?(?: tests?)?|fizz\w*|effervesc\w*|react\w*|foams|foamed|bubble[sd]|tests?|tested|(?:did|does)(?: not|n['’]t))\b`)
	AcidOthers = lazy.Compile(`\b(?:others?|the rest|other (?:two|three|four|ones?|stones?|rocks?))\b[^.;\n]{0,30}`) // than what was named before
	AcidNever  = lazy.Compile(`\b(?:untested|(?:not|never|neither|none)(?: \pL+){0,4} (?:tested|done|tried)|never (?:put|had|asked)|nobody|no[ -]one|(?:have|has)(?: not|n['’]?t)|(?:do not|don['’]?t) know|(?:cannot|can['’]?t) say|no test)\b`)
	AcidNot    = lazy.Compile(`(?:\b(?:no|not|nothing|neither|none|nor|never|without|cannot)|n['’]?t)(?: \pL+){0,3} (?:fizz|react|effervesc|foam|bubbl)`)
	AcidYes    = lazy.Compile(`\b(?:reacts|reacted|fizz(?:es|ed)|foams|foamed|bubbles|bubbled)\b|(?:will|['’]ll|would) (?:fizz|react|foam|bubble)`)
	AcidClean  = lazy.Compile(`\b(?:no|not|nothing|neither|none|nor|never|clean|clear|without|pass(?:ed|es)?|negative)\b|n['’]t\b`)
	WeighsWord = `(?:weigh\w*|goes|runs|comes|is|makes|scales|tips)`
	LooseHeavy = lazy.Compile(`\b(?:an?|one|each|every|per|the)[ \t]+(?:full )?(?P<v>` + pieces.VolumeUnit + `)[ \t]+(?:of (?:[\pL\x00]+ ){1,3})?` + WeighsWord + `[ \t]+(?:\pL+[ \t]+){0,4}(?P<q>` + pieces.PlainNumber + `)` + pieces.Sp + `(?P<w>` + pieces.MassUnit + `)|` +
		`\b(?P<qb>` + pieces.PlainNumber + `)` + pieces.Sp + `(?P<wb>` + pieces.MassUnit + `)[ \t]+(?:(?:of it|go|goes|fit|come)[ \t]+)?(?:to make|makes?|in|into|to fill|fills?)[ \t]+(?:up )?(?:an?|one|each|every)[ \t]+(?P<vb>` + pieces.VolumeUnit + `)`)
)
