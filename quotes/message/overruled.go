package message

import (
	"slices"
	"strings"

	days "mediabuy/quotes/internal/day"
	"mediabuy/units"
)

// chargesLoads is said of whoever was asked: "they charge 70 a load".
var chargesLoads = compile(`\bthey (?:would |will )?charge[^.;,]{1,30} (?:(?:per|an?|each|for (?:each|every|an?|the)) (?:load|trip|run|drop|delivery|truck|order)|for delivery|to (?:deliver|bring)\pL*)\b`)

// othersSay makes a clause one about the price of somebody else.
var othersSay = compile(`\b(?:(?:i|we) (?:just |also |can )?(?:see|saw|know|hear|heard|noticed|got quoted|was quoted)|(?:the|a|an|other|some|any|most|my|our|your|local) (?:(?:local|other|big|next) )*(?:garden cent(?:er|re)s?|big box(?:es)?|box stores?|neighbou?r\pL*|guys?|competition|next yard|yard over)|(?:the|a|an|other|some|any|most|local) (?:(?:local|other|big|next) )*places?|everyone else|everybody else|they(?:'d|’d| would|'ll|’ll| will)? charge|down the (?:road|street)|across town|next door|over in)\b`)

// toOthers opens what is offered to somebody else, to the end of the sentence: "to your mate Deano: perlite $36".
var toOthers = compile(`\b(?:to|for) (?:your|his|her|my) (?:mate|friend|neighbou?r|colleague|brother|sister|cousin|dad|mum|mom|buddy|partner)\b`)

// saidBefore makes a clause one about what was said earlier, which holds no more or is said again: "I told your colleague £48".
var saidBefore = compile(`\b(?:every|each|any) [^\n,.]{1,20} (?:after|beyond|over) that\b|\b(?:i|we)(?:'d|’d| had)? (?:wrote|written|told|quoted (?:you|him|her|them))\b`)

// fromThen makes a clause one about what will hold from a day on: "from 1.6. the lava will be 12,90", "goes up to 14 on 1 June".
var fromThen = compile(`\b(?:from|as of|as from|starting|after|effective|beginning|on|in)[ \t]+(?:the[ \t]+)?(?:\d{1,2}(?:st|nd|rd|th)?[ \t]+)?(?:` + days.Month + `|\d{1,2}[./-]\d{1,2}[./-]|\d{4}-\d\d-\d\d)[^\n]*\b(?:will|(?:goes|go|going|rises?|increases?|moves?)(?:[ \t]+up)?[ \t]+to)\b|\b(?:will[ \t]+)?(?:goes|go|going|rises?|increases?|moves?|will be)(?:[ \t]+up)?[ \t]+(?:to[ \t]+)?[$£€]?\d[^\n]*\b(?:from|as of|starting|after|effective|on|in)[ \t]+(?:the[ \t]+)?(?:\d{1,2}(?:st|nd|rd|th)?[ \t]+)?(?:` + days.Month + `|\d{1,2}[./-]\d{1,2}[./-]|\d{4}-\d\d-\d\d)`)

// correction takes back the number in front of it: "sorry, make that 34".
var correction = compile(`\b(?:(?:make (?:that|it)|i meant?|(?:sorry|oops),? (?:that|it)(?:'|’)?s the|should (?:be|read|say|have (?:been|read|said)))[^\d\n\pL]{0,4}|(?:scratch that|strike that|correction|correct that|oops|typo|my mistake|my bad|misquot\pL+|misspoke|revised|updated|thought (?:it|that) was|(?:scrub|ignore|forget|disregard) (?:that|what i said|what we said|my last|the last|page \d+)|(?:that|it)[’' ]?s (?:an?|the|my|our) old|old (?:sheet|list|price))\b[^\d\n]{0,40})\d|\b(?:no,? wait|wait,? no|scratch that|strike that)\b|[$£€]?\b\d+(?:\.\d+)? then(?:[,.!\n]|$)`)

// notThat is a number in place of another: "sorry 38 not 36".
var notThat = compile(`\b(?P<n>\d+(?:[.,]\d+)?),? not (?:the )?[$£€]?(?P<m>\d+(?:[.,]\d+)?)\b`)

// replaced leaves the prices to a person that another number is said to stand in place of.
func (r *reading) replaced() {
	for _, at := range notThat.FindAllStringSubmatchIndex(r.low, -1) {
		m := match{re: notThat, low: r.low, idx: at}
		old, why := r.number(m.text("m"))
		fresh, bad := r.number(m.text("n"))
		if why != "" || bad != "" || !near(units.MoneyOf(old.value), units.MoneyOf(fresh.value)) {
			continue
		}
		for _, c := range r.all {
			for _, f := range c.facts {
				if f.To <= at[0] && (f.kind.isFee() || oneOf(f.kind, aPrice, aBreak)) && f.money.Equal(units.MoneyOf(old.value)) {
					f.drop("another number is said to stand in its place")
				}
			}
		}
	}
}

// willBefore makes an offer of what else would be a correction: "I will make it 47".
var willBefore = compile(`\b(?:will|would|can|could|we|i)(?: \pL+)?[ \t]+$|['’](?:ll|d)[ \t]+$`)

// corrected leaves the numbers of the clauses in front of a correction to a person, back to the nearest that states one.
func (r *reading) corrected() {
	r.replaced()
	for _, at := range correction.FindAllStringIndex(r.low, -1) {
		sentence, why := -1, "it is corrected behind it"
		if !slices.ContainsFunc(r.all, func(c *clause) bool {
			return len(c.media()) == 0 && slices.ContainsFunc(c.facts, func(f *fact) bool {
				return f.From >= at[0] && f.From < at[1]+window/4 && (f.kind.isFee() || oneOf(f.kind, aPrice, aBreak, aTier, aMin))
			})
		}) {
			why = "it is taken back behind it, and no other stands in its place"
		}
		if r.redone(at) || willBefore.MatchString(r.low[max(0, at[0]-window/8):at[0]]) {
			continue
		}
		for _, c := range slices.Backward(r.all) {
			if c.row >= 0 || c.From >= at[0] || sentence >= 0 && c.sentence != sentence {
				continue
			}
			for _, f := range c.facts {
				if f.To <= at[0] && (f.kind.isFee() || oneOf(f.kind, aPrice, aBreak, aTier, aPallet, aMin)) {
					f.drop(why)
					sentence = c.sentence
				}
			}
		}
	}
}

// redone says whether a correction has one price right behind it, and one near it right in front: which of them holds is then asked,
// as of any two prices that contradict one another.
func (r *reading) redone(at []int) bool {
	var before, behind *fact
	for _, c := range r.all {
		for _, f := range c.facts {
			if states := c.row < 0 && (oneOf(f.kind, aPrice, aBreak, aTier, aPallet, aMin) || f.kind.isFee()); states && f.To <= at[0] {
				before = f
			} else if states && behind == nil {
				behind = f
			}
		}
	}
	if before == nil || behind == nil || before.kind != aPrice || behind.kind != aPrice || strings.Trim(r.low[at[1]:max(at[1], behind.From)], " ,:;.–—-") != "" || behind.unclear != "" || before.unclear != "" || !near(before.money, behind.money) || !behind.unit.Empty() { // with its unit it says all by itself
		return false
	}
	if !slices.ContainsFunc(r.all, func(c *clause) bool { return slices.Contains(c.facts, behind) && len(c.media()) == 0 }) {
		return false
	}
	before.redone = true
	return true
}

// outbid leaves the price in front of clause c in its sentence to a person where a number of c that was not made out may be another
// price for the same: "88 a yard, for you 85". With a form beside it, it is that of another pack, and the form is left.
func (r *reading) outbid(before []*clause, c *clause) {
	for j, t := range c.tokens {
		v, err := units.ParsePlainDecimal(strings.TrimLeft(t.word, "$£€"))
		if !t.number || err != nil || c.row >= 0 || v.Sign() <= 0 || j > 0 && oneOf(c.tokens[j-1].word, "for", "to", "of", "over", "under", "no", "first", "have", "has", "got") ||
			len(c.media()) > 0 || moreBefore.MatchString(r.low[c.From:t.From]) || countedAfter.MatchString(r.low[t.To:]) || slices.ContainsFunc(c.facts, func(f *fact) bool { return oneOf(f.kind, aPrice, aBreak, aMin, aPercent) || f.kind.isFee() }) ||
			slices.ContainsFunc(c.tokens, func(t token) bool { return fetchWord.MatchString(t.word) || truckStart.MatchString(t.word) }) {
			continue
		}
		form := slices.IndexFunc(c.facts, func(f *fact) bool { return f.kind == aForm || f.kind == aPack })
		for _, d := range slices.Backward(before) {
			if slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind.isFee() }) {
				break
			}
			found := d.sentence != c.sentence || len(d.media()) > 0
			for _, f := range d.facts {
				found = found || f.kind == aPrice
				switch {
				case d.sentence != c.sentence || d.poison != "" || f.kind != aPrice || f.unclear != "" || !near(f.money, units.MoneyOf(v)):
				case form >= 0:
					c.facts[form].drop(besideNumber)
				default:
					f.drop(besideNumber)
					f.outbid = true
				}
			}
			if found {
				break
			}
		}
	}
}

// moreBefore makes a number behind it the price from a number of packs on: "ten yards or better I'll go 85".
var moreBefore = compile(orMore)

const besideNumber = "a number near it may be another price for the same"

// countedAfter is what makes a number in front of it one of something else than money.
var countedAfter = pattern(sp + `-?(?:` + anyUnit + `|` + packForm + `|%|x\b|per ?cent|miles?\b|mi\b|km\b|min(?:ute)?s?\b|h(?:ou)?rs?\b|days?\b|weeks?\b|am\b|pm\b|mm\b|cm\b|in(?:ch(?:es)?)?\b|sq\b|ft\b|left\b|of (?:th)?em\b|of these\b|years?\b|to (?:bring|deliver|drop|get)|for (?:the|a) (?:truck|delivery)|th\b)`)

// untilWords bound the time of what they stand with.
var untilWords = compile(`\b(?:until|till?|through|thru|up to|end of)\b`)
