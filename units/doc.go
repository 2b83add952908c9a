// Package units holds the quantities of a purchase of growing media and the ways people write them: litres, kilograms,
// millimetres, kilograms per litre, exact decimals, money, and money per volume.
//
// Call ParseVolume, ParseLength, ParseMass, ParseAmount, ParseDensity, ParsePerVolume, ParseMoney, ParsePercent or
// ParseShare to read a cell, and the Format functions to print. Inside the program every volume is litres, every mass
// kilograms, every length millimetres and every density kilograms per litre, whatever the words said; a Measure keeps
// the words and the rule beside the number, so that a report can show both.
//
// # Which mix-ups do not compile, and which do
//
// One type per quantity stops litres being added to kilograms; crossing over takes a Density. Types do not stop a
// placed litre being added to a litre as sold, a dry kilogram to a wet one, or one currency to another: those are kept
// apart by the callers.
//
// # Numbers as people write them
//
// A number that can be read two ways, such as 1,234, is an error (AmbiguousError) until the caller says which sign is the
// decimal mark; MarkOf tells what the other numbers of a column prove. Nothing here guesses. Where a unit's name means
// different amounts to different trades (ton, quart, gallon, bushel, t), the reading is fixed, documented, and comes back
// in Measure.Note to be passed on as a warning.
//
// # Promises of every parser
//
// An error comes with the zero value. A result is finite and at most MaxMagnitude in the unit written and in the base
// unit. Input longer than MaxTextBytes is refused unread. Text not in UTF-8 is refused.
package units
