// Package typed sets what people type into a cell in the plain form that the cell has, where that can be meant in one way only: "6 left"
// under max_qty is 6. What may be meant in two ways it leaves as it is, for a problem to tell both.
package typed

import (
	"regexp"
	"strings"

	"mediabuy/units"
)

// Plain is the plain form of a text that stands in a cell under a heading of quotes.csv, beds.csv or delivery.csv, or as a setting; "" where it is in
// plain form already or cannot be put into it.
func Plain(heading, text string) string {
	if len(text) > units.MaxTextBytes {
		return ""
	}
	s := strings.Join(strings.Fields(text), " ")
	plain := ""
	if f := lists[heading]; f != nil {
		plain = f(s)
	}
	for _, f := range forms[heading] {
		if m := f.words.FindStringSubmatch(s); m != nil && plain == "" {
			plain = strings.TrimSpace(f.words.ReplaceAllString(s, f.plain))
		}
	}
	if plain == text {
		return ""
	}
	return plain
}

// form is a way to say something in words, and how that stands in plain form.
type form struct {
	words *regexp.Regexp
	plain string
}

func said(words, plain string) form { return form{regexp.MustCompile(`(?i)^` + words + `$`), plain} }

const (
	// some is a number with a word or two for what is counted.
	some = `(?P<n>[\d½¼¾][\d.,½¼¾/]*(?: ?[\pL³#]+){0,2}?)`
	// amount is money in any form.
	amount = `(?P<n>(?:[\pL]{3} ?|[$£€] ?)?\d[\d.,' ]*(?: ?(?:[€£$]|[\pL]{3}))?)`
	// exact is how an amount of whole units is written: 129,-
	exact  = `(?P<n>.*\d)[.,] ?[-–—]{1,2}`
	order  = `(?:an|per|each|/) ?(?:order|delivery|drop)`
	load   = `(?:an?|per|each|/) ?(?:(?:truck ?)?load|trip|truck|run)`
	flat   = `flat(?: (?:rate|fee|charge))?`
	taxed  = `(?:(?:sales|state) tax|tax|vat|gst|hst|mwst|btw|tva|iva)`
	pallet = `(?:pallet|layer|lot|box|case|bundle)`
)

var (
	counted  = []form{said(`(?:(?:only|just|max(?:imum)?\.?|up to|at most|no more than|limit(?:ed to)?(?: of)?):? ?)?`+some+`(?: (?:left|in stock|on hand|available|remaining|only|max(?:imum)?\.?|at most|in the yard))*`, "$n")}
	least    = []form{said(`(?:(?:min(?:imum)?\.?(?: order)?(?: of)?|at least|no less than|not under|from):? ?)?`+some+`(?: (?:min(?:imum)?\.?|at least))*`, "$n")}
	perOrder = []form{said(`(?:`+flat+`:? (?:of )?)?`+amount+`(?:,? ?(?:`+flat+`|`+order+`|p ?& ?p|postage|delivery|carriage|shipping))*`, "$n"), said(exact, "$n"), free}
	perLoad  = []form{said(amount+`(?:,? ?`+load+`)`, "$n"), said(exact, "$n"), free}
	// nothing in delivery.csv is no fee; in quotes.csv "none" may say that nothing is delivered.
	nothing   = said(`(?:none|nil|no)`, "0")
	free      = said(`(?:free(?: delivery)?|free of charge|no charge)`, "0")
	holds     = []form{said(`(?:(?:max(?:imum)?\.?|up to|at most|no more than):? ?)?`+some+`(?: (?:max(?:imum)?\.?|at most)|,? ?(?:per|a|each|/) ?(?:load|trip|truck))*`, "$n")}
	untilWord = []form{said(`(?:(?:valid|good|held|firm|holds) )?(?:until|till|til|thru|through|to|by|up to) (?P<n>.*\d.*|(?:the )?end of \pL.*)`, "$n")}
	readyWord = []form{said(`(?:(?:ready|available|there) )?(?:by|from|on) (?P<n>.*\d.*|(?:the )?end of \pL.*)`, "$n")}
)

// lists put cells that hold several things into plain form.
var lists = map[string]func(string) string{
	"breaks": breaks, "covers": covers, "max_share": shares,
}

// forms are the ways to say what stands under a heading; the first that holds counts.
var forms = map[string][]form{
	"max_qty": counted,
	"min_qty": least,
	"step": {
		said(`(?:by the |(?:only )?(?:by|in) )?(?:(?:full|whole|complete) )?(?:`+pallet+`(?:e?s)?|multiples|batches) (?:of|x) `+some, "$n"),
		said(some+` ?(?:(?:per|an?|to an?|to the|on an?|/) ?)`+pallet, "$n"),
		said(`(?:by|in) (?P<n>\d+)s`, "$n"),
	},
	"price":       {said(exact, "$n")},
	"delivery":    perOrder,
	"order_fee":   append(perOrder, nothing),
	"handling":    append(perOrder, nothing),
	"load_fee":    append(perLoad, nothing),
	"load_volume": holds,
	"load_weight": holds,
	"free_over":   {said(`(?:free )?(?:on |for )?(?:orders? )?(?:over|above|from|at|of) `+amount, "$n"), said(amount+` ?(?:\+|(?:or|and) (?:more|over|up))`, "$n")},
	"min_order":   {said(`(?:min(?:imum)?\.?(?: order)?(?: of)?|at least):? ?`+amount, "$n"), said(amount+` (?:min(?:imum)?\.?)(?: order)?`, "$n")},
	"load_holds":  {said(`(?:mixed|mix|several)(?: loads?)?`, "any"), said(`(?:single|one stone|one kind)(?: only)?`, "one")},
	"count":       {said(`[x×] ?(?P<n>\d+)`, "$n"), said(`(?P<n>\d+) ?[x×]`, "$n")},
	"water_line":  {said(some+` (?:below|under) (?:the )?(?:surface|media|stone|top of the (?:media|stone))`, "$n")},
	"top":         {said(`(?:none|no|nil)`, "0")},
	"min_size":    {said(`(?P<n>.*\d.*?) ?(?:\+|(?:or|and) (?:bigger|larger|up|more|coarser)|min(?:imum)?)`, "$n")},
	"max_size":    {said(`(?:up to )?(?P<n>.*\d.*?) ?(?:or (?:less|smaller|finer)|max(?:imum)?)`, "$n"), said(`up to (?P<n>.*\d.*)`, "$n")},
	"limit":       holds,
	"own_weight":  {said(some+` (?:empty|dry|by itself)`, "$n")},
	"valid_until": untilWord,
	"ready_by":    readyWord,
	"need_by":     readyWord,
	"time_limit":  {said(`(?P<n>\d+) ?(?:s|secs?|seconds?)`, "${n}s"), said(`(?P<n>\d+) ?(?:mins?|minutes?)`, "${n}m"), said(`(?P<n>\d+) ?hours?`, "${n}h")},
	"labour_rate": {said(amount+` ?(?:(?:/|per|an) ?(?:hour|hr|h)|hourly)`, "$n")},
	"layer_mix":   {said(`(?:one|single)(?: (?:stone|quote|thing|medium))?(?: (?:each|per layer|in each layer|only))?`, "one"), said(`(?:mixed|free|any mix)`, "any")},
	"weights":     {said(`(?:at (?:the )?)?(?P<n>heavy|usual)(?: (?:stone|weights?|end|values?))?`, "$n")},
	"tax": {
		said(`(?:plus |\+ ?|add |excl(?:uding|\.)? |ex )?(?:`+taxed+`:? (?:of |at |@ ?)?)?(?P<n>\d[\d.,]* ?%)(?: ?`+taxed+`)?(?: (?:extra|on top|added|to be added|is added))?`, "$n"),
		said(`(?:no|none|nil|exempt|(?:tax|vat)[ -]?(?:free|exempt)|zero[ -]rated|no (?:sales )?tax|no vat|untaxed)`, "0%"),
	},
	"pack": {
		said(`(?:an? )?(?P<f>`+Forms+`) ?[(\[] ?(?P<n>[^()\[\]]*\d[^()\[\]]*?) ?[)\]]`, "$n $f"),
		said(`(?P<n>[^()\[\]]*\d[^()\[\]]*?) ?[(\[] ?(?P<f>`+Forms+`) ?[)\]]`, "$n $f"),
		said(`(?:an? )?(?P<f>`+Forms+`)(?: ?[,:=@] ?| (?:of|with|holding|at) | )(?P<n>(?:about )?[\d½¼¾].*|half.*|one .*)`, "$n $f"),
	},
}
