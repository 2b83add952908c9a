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
	mediaNames         = byWord("medium ", ",")
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
	sp, sp1, plainNumber, fraction, written, uptoTwelve, quantity, signBefore          = pieces.Sp, pieces.Sp1, pieces.PlainNumber, pieces.Fraction, pieces.Written, pieces.UptoTwelve, pieces.Quantity, pieces.SignBefore
	signBehind, volumeUnit, massUnit, anyUnit, packForm, palletWord, perWord, eachWord = pieces.SignBehind, pieces.VolumeUnit, pieces.MassUnit, pieces.AnyUnit, pieces.PackForm, pieces.PalletWord, pieces.PerWord, pieces.EachWord
	toPrice, ifBuying, toCount, orMore, unitToo, overWord, percentOff, percentTo       = pieces.ToPrice, pieces.IfBuying, pieces.ToCount, pieces.OrMore, pieces.UnitToo, pieces.OverWord, pieces.PercentOff, pieces.PercentTo
	sizeUnit, oneEnd, openEnd, sizeWord, nearPlace, anyOrder, fetching, deliver        = pieces.SizeUnit, pieces.OneEnd, pieces.OpenEnd, pieces.SizeWord, pieces.NearPlace, pieces.AnyOrder, pieces.Fetching, pieces.Deliver
	feeWords, bringIt, zoneFee, toPlace, truckWord, loadWord, holdWord, holding        = pieces.FeeWords, pieces.BringIt, pieces.ZoneFee, pieces.ToPlace, pieces.TruckWord, pieces.LoadWord, pieces.HoldWord, pieces.Holding
	amountPatternM, feeHolds, holdsFee, truckThen, withTruck, bringAt, holdsCosts      = pieces.AmountPatternM, pieces.FeeHolds, pieces.HoldsFee, pieces.TruckThen, pieces.WithTruck, pieces.BringAt, pieces.HoldsCosts
	truckOf, truckHeld, truckEach, whatHolds, holdsVerb, packsHeld, eachTrip, feeUpTo  = pieces.TruckOf, pieces.TruckHeld, pieces.TruckEach, pieces.WhatHolds, pieces.HoldsVerb, pieces.PacksHeld, pieces.EachTrip, pieces.FeeUpTo
	maxBehind, loadsAt, taxWord, taxName, notIn, taxExtra, percentSign, hundredths     = pieces.MaxBehind, pieces.LoadsAt, pieces.TaxWord, pieces.TaxName, pieces.NotIn, pieces.TaxExtra, pieces.PercentSign, pieces.Hundredths
	andTax, unitAfterCount, ofEach, whereStocked, classWord, classBrought, fromPercent = pieces.AndTax, pieces.UnitAfterCount, pieces.OfEach, pieces.WhereStocked, pieces.ClassWord, pieces.ClassBrought, pieces.FromPercent
	feePacks, looseAmount, bringWords, classTail, classThen, payerWord, beyondWord     = pieces.FeePacks, pieces.LooseAmount, pieces.BringWords, pieces.ClassTail, pieces.ClassThen, pieces.PayerWord, pieces.BeyondWord
	anyColour, untilWord, fromWord, dayWord                                            = pieces.AnyColour, pieces.UntilWord, pieces.FromWord, pieces.DayWord
)

var amountPattern, unitPattern = pieces.AmountPattern, pieces.UnitPattern
