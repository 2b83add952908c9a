// Package cues has the words that tell how what stands beside them is meant: as somebody else's, of another time, taken back, not to be
// had, on top of something, or as a new clause. All is matched in small letters.
package cues

import (
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
)

// ChargesLoads is said of whoever was asked: "they charge 70 a load".
var ChargesLoads = lazy.Compile(`\bthey (?:would |will )?charge[^.;,]{1,30} (?:(?:per|an?|each|for (?:each|every|an?|the)) (?:load|trip|run|drop|delivery|truck|order)|for delivery|to (?:deliver|bring)\pL*)\b`)

// OthersSay makes a clause one about the price of somebody else.
var OthersSay = lazy.Compile(`\b(?:(?:i|we) (?:just |also |can )?(?:see|saw|know|hear|heard|noticed|got quoted|was quoted)|(?:the|a|an|other|some|any|most|my|our|your|local) (?:(?:local|other|big|next) )*(?:garden cent(?:er|re)s?|big box(?:es)?|box stores?|neighbou?r\pL*|guys?|competition|next yard|yard over)|(?:the|a|an|other|some|any|most|local) (?:(?:local|other|big|next) )*places?|everyone else|everybody else|they(?:'d|’d| would|'ll|’ll| will)? charge|down the (?:road|street)|across town|next door|over in)\b`)

// ToOthers opens what is offered to somebody else, to the end of the sentence: "to your mate Deano: perlite $36".
var ToOthers = lazy.Compile(`\b(?:to|for) (?:your|his|her|my) (?:mate|friend|neighbou?r|colleague|brother|sister|cousin|dad|mum|mom|buddy|partner)\b`)

// SaidBefore makes a clause one about what was said earlier, which holds no more or is said again: "I told your colleague £48".
var SaidBefore = lazy.Compile(`\b(?:every|each|any) [^\n,.]{1,20} (?:after|beyond|over) that\b|\b(?:i|we)(?:'d|’d| had)? (?:wrote|written|told|quoted (?:you|him|her|them))\b`)

// FromThen makes a clause one about what will hold from a day on: "from 1.6. the lava will be 12,90", "goes up to 14 on 1 June".
var FromThen = lazy.Compile(`\b(?:from|as of|as from|starting|after|effective|beginning|on|in)[ \t]+(?:the[ \t]+)?(?:\d{1,2}(?:st|nd|rd|th)?[ \t]+)?(?:` + day.Month + `|\d{1,2}[./-]\d{1,2}[./-]|\d{4}-\d\d-\d\d)[^\n]*\b(?:will|(?:goes|go|going|rises?|increases?|moves?)(?:[ \t]+up)?[ \t]+to)\b|\b(?:will[ \t]+)?(?:goes|go|going|rises?|increases?|moves?|will be)(?:[ \t]+up)?[ \t]+(?:to[ \t]+)?[$£€]?\d[^\n]*\b(?:from|as of|starting|after|effective|on|in)[ \t]+(?:the[ \t]+)?(?:\d{1,2}(?:st|nd|rd|th)?[ \t]+)?(?:` + day.Month + `|\d{1,2}[./-]\d{1,2}[./-]|\d{4}-\d\d-\d\d)`)

// Correction takes back the number in front of it: "sorry, make that 34".
var Correction = lazy.Compile(`\b(?:(?:make (?:that|it)|i meant?|(?:sorry|oops),? (?:that|it)(?:'|’)?s the|should (?:be|read|say|have (?:been|read|said)))[^\d\n\pL]{0,4}|(?:scratch that|strike that|correction|correct that|oops|typo|my mistake|my bad|misquot\pL+|misspoke|revised|updated|thought (?:it|that) was|(?:scrub|ignore|forget|disregard) (?:that|what i said|what we said|my last|the last|page \d+)|(?:that|it)[’' ]?s (?:an?|the|my|our) old|old (?:sheet|list|price))\b[^\d\n]{0,40})\d|\b(?:no,? wait|wait,? no|scratch that|strike that)\b|[$£€]?\b\d+(?:\.\d+)? then(?:[,.!\n]|$)`)

// NotThat is a number in place of another: "sorry 38 not 36".
var NotThat = lazy.Compile(`\b(?P<n>\d+(?:[.,]\d+)?),? not (?:the )?[$£€]?(?P<m>\d+(?:[.,]\d+)?)\b`)

// WillBefore makes an offer of what else would be a correction: "I will make it 47".
var WillBefore = lazy.Compile(`\b(?:will|would|can|could|we|i)(?: \pL+)?[ \t]+$|['’](?:ll|d)[ \t]+$`)

// MoreBefore makes a number behind it the price from a number of packs on: "ten yards or better I'll go 85".
var MoreBefore = lazy.Compile(pieces.OrMore)

// CountedAfter is what makes a number in front of it one of something else than money.
var CountedAfter = lazy.Start(pieces.Sp + `-?(?:` + pieces.AnyUnit + `|` + pieces.PackForm + `|%|x\b|per ?cent|miles?\b|mi\b|km\b|min(?:ute)?s?\b|h(?:ou)?rs?\b|days?\b|weeks?\b|am\b|pm\b|mm\b|cm\b|in(?:ch(?:es)?)?\b|sq\b|ft\b|left\b|of (?:th)?em\b|of these\b|years?\b|to (?:bring|deliver|drop|get)|for (?:the|a) (?:truck|delivery)|th\b)`)

// UntilWords bound the time of what they stand with.
var UntilWords = lazy.Compile(`\b(?:until|till?|through|thru|up to|end of)\b`)

// GoneBehind says of the price in front of it that nothing is to be had for it: "£12.60 (out of stock, due May)".
var GoneBehind = lazy.Compile(`^[^\pL\d]*(?:(?:but|and|though|sorry|sadly|which|that['’]?s|(?:it|they|this|that|those|these)(?:['’]?(?:s|re))?|is|are|now|just|all|already|currently|temporarily|we['’]?re|we are) )*(?:out of (?:stock|it|them)|not in stock|sold out|all gone|spoken for|promised|reserved|none left|not for sale|not available|unavailable|discontinued|on back[ -]?order)\b(?: (?:to|for|by|until|til|till) [\pL ]+)?[^\pL\d]*$`)

// ItFirst opens a sentence about what stands in front of it.
var ItFirst = lazy.Compile(`^[^\pL\d]*(?:but |sorry |sadly )*(?:it|they|this|that|those|these)\b`)

// BeHad makes "may" a leave and no doubt: "may be had at $40".
var BeHad = lazy.Start(` be (?:had|bought|collected|ordered|supplied|taken)\b`)

// DeniesNext begins one behind how many there are: "we have 9 left and no, we don't split them".
var DeniesNext = lazy.Start(pieces.Sp + `(?:no,? )?(?:we|i|they) (?:do not|don['’]?t|cannot|can['’]?t|won['’]?t|will not)\b`)

// BringsNext begins a clause of its own behind a price: "$58 a yard and delivery is $90".
var BringsNext = lazy.Start(pieces.Sp + `(?:the )?` + pieces.Fetching)

// SaysNext begins one that says of packs what they hold, or of a truck what it does not do: "$9 a bag and the bags are 40 or 50 lb".
var SaysNext = lazy.Start(pieces.Sp + `(?:(?:the |our |all |these )*(?:` + pieces.PackForm + `)(?:['’]?s)? (?:are|is|hold|holds|weigh|weighs)\b|(?:the |our |my )?` + pieces.TruckWord + ` (?:will not|won['’]?t|does not|doesn['’]?t|cannot|can['’]?t)\b)`)

// AddsOn is a charge for each of what is sold, on top of its price.
var AddsOn = lazy.Compile(`\d[^\n]{0,20}\b(?:royalt(?:y|ies)|levy|eco[ -]?(?:fee|tax)|environmental (?:fee|charge)|pit fee|scale fee)\b`)
