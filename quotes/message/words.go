package message

import (
	_ "embed"
	"strings"

	"mediabuy/quotes/internal/firms"
	"mediabuy/quotes/internal/habit"
	"mediabuy/quotes/internal/packs"
	"mediabuy/quotes/internal/pieces"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/quotes/internal/wordlist"
)

//go:embed words.txt
var wordsText string

var vocabulary = wordlist.Read(wordsText)

// The sets of words.txt, where each is told.
var (
	words, byWord, set = vocabulary.Set, vocabulary.ByWord, wordlist.Set
	fillers            = words("fillers")
	hedges             = words("hedges")
	opensCondition     = words("opensCondition")
	describers         = words("describers")
	limiting           = words("limiting")
	feeWordsAround     = words("feeWordsAround")
	noSubjects         = words("noSubjects")
	tails              = words("tails")
	largeNumbers       = words("largeNumbers")
	doubts             = byWord("doubt ", " ")
	numberWords        = byWord("number ", ",")
)

// doubt gives why a word leaves its clause unread, "" if it does not.
func doubt(word string) string {
	if strings.HasSuffix(word, "n't") || strings.HasSuffix(word, "n’t") {
		return doubts["not"]
	}
	return doubts[word]
}

// What is told of the names of companies, and of a text whatever it means.
var (
	hasCompanyWord, nameAlone, oneCompany, abbreviated, allTitles, sameName            = firms.HasWord, firms.Alone, firms.One, firms.Abbreviated, firms.AllTitles, firms.Same
	companyWords, notNames, notPersons, joiners, openAbbreviations, closeAbbreviations = firms.Words, firms.NotNames, firms.NotPersons, firms.Joiners, firms.OpenAbbreviations, firms.CloseAbbreviations
	lower, wordLength, squeeze, firstWord, signsOut, cutsOf                            = plaintext.Lower, plaintext.WordLength, plaintext.Squeeze, plaintext.FirstWord, plaintext.SignsOut, plaintext.CutsOf
	cents, onlyDigits, first, whole, signOf, numberAndUnit                             = plaintext.Cents, plaintext.OnlyDigits, plaintext.First, plaintext.Whole, plaintext.SignOf, plaintext.NumberAndUnit
	behindNumber, share, isFraction, wideGap, reason, times                            = plaintext.BehindNumber, plaintext.Share, plaintext.IsFraction, plaintext.WideGap, plaintext.Reason, plaintext.Times
)

// What is priced or counted, and what a job says of how its people write.
type (
	pack = packs.Pack
	job  = habit.Job
)

var formOf, unitName, large, looseUnit, single = packs.FormOf, packs.UnitName, packs.Large, packs.Loose, packs.Single

// The pieces that patterns are made of.
const (
	sp, sp1, plainNumber, fraction, written       = pieces.Sp, pieces.Sp1, pieces.PlainNumber, pieces.Fraction, pieces.Written
	uptoTwelve, quantity, signBefore, signBehind  = pieces.UptoTwelve, pieces.Quantity, pieces.SignBefore, pieces.SignBehind
	volumeUnit, massUnit, anyUnit, packForm       = pieces.VolumeUnit, pieces.MassUnit, pieces.AnyUnit, pieces.PackForm
	palletWord, perWord, eachWord, toPrice        = pieces.PalletWord, pieces.PerWord, pieces.EachWord, pieces.ToPrice
	ifBuying, toCount, orMore, unitToo, overWord  = pieces.IfBuying, pieces.ToCount, pieces.OrMore, pieces.UnitToo, pieces.OverWord
	percentOff, percentTo, sizeUnit, oneEnd       = pieces.PercentOff, pieces.PercentTo, pieces.SizeUnit, pieces.OneEnd
	openEnd, sizeWord, nearPlace, anyOrder        = pieces.OpenEnd, pieces.SizeWord, pieces.NearPlace, pieces.AnyOrder
	fetching, deliver, feeWords, bringIt, zoneFee = pieces.Fetching, pieces.Deliver, pieces.FeeWords, pieces.BringIt, pieces.ZoneFee
	toPlace, truckWord, loadWord, holdWord        = pieces.ToPlace, pieces.TruckWord, pieces.LoadWord, pieces.HoldWord
	holding, amountPatternM, feeHolds, holdsFee   = pieces.Holding, pieces.AmountPatternM, pieces.FeeHolds, pieces.HoldsFee
	truckThen, withTruck, bringAt, holdsCosts     = pieces.TruckThen, pieces.WithTruck, pieces.BringAt, pieces.HoldsCosts
	truckOf, truckHeld, truckEach, whatHolds      = pieces.TruckOf, pieces.TruckHeld, pieces.TruckEach, pieces.WhatHolds
	holdsVerb, packsHeld, eachTrip, feeUpTo       = pieces.HoldsVerb, pieces.PacksHeld, pieces.EachTrip, pieces.FeeUpTo
	maxBehind, loadsAt, taxWord, taxName, notIn   = pieces.MaxBehind, pieces.LoadsAt, pieces.TaxWord, pieces.TaxName, pieces.NotIn
	taxExtra, percentSign, hundredths, andTax     = pieces.TaxExtra, pieces.PercentSign, pieces.Hundredths, pieces.AndTax
)

var amountPattern, unitPattern = pieces.AmountPattern, pieces.UnitPattern
