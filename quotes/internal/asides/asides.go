// Package asides has words that carry nothing for a quote, so that they are set aside wherever they stand: addresses, courtesies, reasons.
package asides

import (
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/pieces"
	"mediabuy/quotes/internal/plaintext"
)

// Aside is what such words are.
type Aside struct {
	Words *lazy.Expr
	Why   string
}

const sp, sp1 = pieces.Sp, pieces.Sp1

// All are the words that are set aside whatever stands beside them.
func All() []Aside {
	return []Aside{
		{lazy.Start(`<?[\w.+-]+@[\w-]+(?:\.[\w-]+)+>?|(?:https?://|www\.)[^\s,;]+|(?:to|at) (?:lot|unit|plot|house|number) \d{1,4}\b`), "an address"},
		{lazy.Start(`(?:\+\d{1,3}[ -]?)?(?:\d{3}-\d{3}-\d{4}|\(\d{3}\) ?\d{3}-\d{4}|\(?0\d{2,4}\)?[ -]\d{3,4}[ -]?\d{3,4}|\(\d{3}\) ?\d{4}|555-01\d\d)`), "a telephone number"},
		{lazy.Start(`(?:your |our )?(?:ref|reference|quote|quotation|order|invoice|enquiry|inquiry|job|account|a/c|estimate)\b\.? ?(?:no\b\.?|number|nr\b\.?|#|ref\b\.?|id)[:. ]*#?[a-z]{0,4}[-/]?\d[\w/-]*|(?:ref|reference|quote|quotation|estimate|invoice|ticket|art(?:icle|\.)?(?: no\.?)?|sku|item no\.?|offerte|angebot) [a-z]{0,3}-?\d{3,}[\w/-]*`), "a reference"},
		{lazy.Start(`(?:(?:many )?thanks|thank you|thx|ta)(?: (?:so|very) much| again| a lot| once more)?(?: for (?:your|the|getting in touch|asking|calling|writing|ringing|coming back|reaching out|contacting|considering|dropping (?:in|by))(?: (?:message|email|e-mail|note|call|enquiry|inquiry|interest|request|order|kind words|letter|visit|in touch|today|yesterday|again|me|us|to us|to me|back|phone|recent|last))*)?`), "thanks"},
		{lazy.Start(`(?:quoted|revised|dated|updated|as of|sent|written|effective|printed)(?: on)?:?` + sp + `\d{1,2}[./]\d{1,2}(?:[./]\d{2,4})?\b`), "the day of a price"},
		{lazy.Start(`(?:as )?(?:asked|enquired|inquired|asking|enquiring|inquiring|called|calling|emailed|e-mailed|emailing|wrote|writing|message|note|enquiry|inquiry|question|query|email|request|chatting|talked|spoke|spoken)(?: (?:me|us))?(?: (?:on (?:mon|tues|wednes|thurs|fri|satur|sun)day|today|yesterday|earlier|last week))? about`), "what the message answers"},
		{lazy.Start(`(?:(?:we|i) )?(?:also )?put (?:it|this|that|them|these) up in(?:to)?\b|(?:(?:is|are|comes?|being) )*(?:(?:packed|packaged|supplied|put up|filled) (?:up )?(?:in|into|as)|ex[ -](?:bin|quay|yard|stock|gate|pit|plant|depot|warehouse))\b`), "how it is put up, or where"},
		{lazy.Start(`(?:(?:never|not)(?: been)? (?:yet )?(?:opened|used|unsealed|touched|damaged)|unopened|unused|still sealed|factory sealed|(?:as|like|near|brand) new)\b`), "how good it is"},
		{lazy.Start(`(?:and|but) nothing else\b`), "no other goods"},
		{lazy.Start(`(?:for )?any (?:quantity|amount)\b`), "however much is bought"},
		{lazy.Start(`(?:straight )?off the (?:boat|pile|floor|shelf|stack|ground|heap)\b`), "where it lies"},
		{lazy.Start(`(?:cash only,? )?(?:sorry,? )?no (?:checks?|cheques?|(?:credit )?cards?|credit|returns?|refunds?|rush|hurry|fuss|obligation|strings|haggling|(?:(?:quantity|volume|bulk) )?(?:discounts?|breaks?)(?: on (?:those|these|them|that|it|either|any))?|substitutions?|change (?:on|to|for|in)(?: the)?)\b`), "how it is sold"},
		{lazy.Start(`(?:call|ring|text|phone|come(?: by| in)?|order|be here|here)(?: me| us)? (?:before|after|by|until|till?|from) (?:noon|\d{1,2}(?::\d\d)?(?: ?[ap]\.?m\b\.?)?)|should you (?:want|need|prefer|like|wish(?: for)?)(?: (?:them|it|any|some))?|no (?:problem|worries|trouble|bother)(?: at all)?|(?:let me know|give (?:me|us) a (?:call|shout|ring)|any questions|if you have any questions|if you need anything else|just (?:ask|shout|call)|look(?:ing)? forward to hearing from you|speak soon|talk soon|all the best|best wishes|kind regards|best regards|have a good (?:day|week|weekend|one)|happy growing|good luck)`), "a courtesy"},
		{lazy.Start(`(?:(?:just )?to (?:recap|sum up|summari[sz]e|repeat|be clear)|in (?:short|summary|brief|sum)|recap|recapping)` + sp + `[:,–—-]`), "what is said again"},
		{lazy.Start(`(?:has|have)(?:n['’]t| not) (?:budged|changed|moved|gone up)\b(?: (?:in price|since|yet|a bit|at all))?`), "a price that stays"},
		{lazy.Start(`(?:on account of|because of|due to|owing to|thanks to|what with) (?:(?:the|our|higher|rising|ocean|sea|inbound|import) )*(?:freight|shipping|fuel|diesel|transport|energy|tariffs?|drought|weather|costs?)(?: (?:costs?|prices?|charges?|rates?))?\b`), "the reason for a price"},
		{lazy.Start(`(?:our |the )?(?:price ?list|prices|quotation|quote)(?: for| of)?(?: (?:spring|summer|autumn|fall|winter|` + day.Month + `))? 20\d\d\b`), "the year of a price list"},
		{lazy.Start(`(?:(?:all |our |the )?(?:prices?|offers?|quotes?|rates?|stock)(?: (?:is|are))? )?(?:while (?:stocks?|supplies|it|they) lasts?|subject to (?:availability|stock|change|prior sale)(?: without (?:prior )?notice)?)`), "what every offer is subject to"},
		{lazy.Start(`(?:customers (?:also|who)|you (?:may|might) also|people also|related (?:products|items)|recently viewed|frequently bought)[^\n]*`), "what else a shop would sell"},
		{lazy.Start(`-+ ?(?:forwarded|original) message ?-+|` + plaintext.RuledNumber + `|sent from my (?:phone|mobile|tablet)`), "a line that a program adds"},
		{lazy.Start(`(?:(?:i |we )?hope (?:you are|you're|you|this|all|the (?:beds|garden|plants|fish)(?: are)?|everyone|everything)(?: (?:is|are|keeping|finds you|helps|well|fine|good|doing|going|with you|all|thriving|settled))*)|how are (?:you|things)(?: (?:doing|going|today|keeping))?\??`), "a greeting"},
		{lazy.Start(`(?:pick(?:ed)?[ -]?up|collect(?:ed|ion)?) or deliver(?:ed|y)\b`), "how the goods are had, at one price"},
	}
}
