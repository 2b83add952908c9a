package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

func priceRules() []rule {
	return []rule{
		// 68 a yard; $9.50 per 50 L bag; 34/ton; 9.50 each
		{pattern(amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))`), onePrice},
		// pallet of 40 for $480; full pallet (64 bags) 352.00; pallet of 48 17.95 each
		{pattern(`(?:if (?:you|u) (?:take|buy|order) )?(?:(?:or|and|by|buy|take|per|an?|the|whole|full|in) )*` + palletWord + `(?: (?:qty|quantity)\b\.?)?` + sp + `(?:of|\(|holds|has|contains|x|/|(?P<weak>is|=|:))` + sp + `(?P<n>\d+)(?:` + sp + `(?P<c>` + packForm + `))?` + sp + `\)?(?P<to>` + toPrice + sp + `)` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), palletPrice},
		// by full pallet the price is 5.90 the bag
		// $6.10 per bag by the full pallet
		{pattern(amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))` + sp + `(?:,` + sp + `)?(?:by|in|on|for|(?:if|when) (?:you|u) (?:take|buy|order)) (?:(?:the|a|full|whole) )*` + palletWord), palletRate},
		{pattern(`(?:by|per|for|on|at|(?:and |but )?(?:if|when|once) (?:you|u) (?:take|buy|order)) (?:(?:the|a|full|whole) )*` + palletWord + `(?:,? (?:the price|it|they|that|(?:the )?(?:bags|sacks)|you(?:['’](?:ll|d))?))?(?: is| are| comes? to| pay|:)?` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))`), palletRate},
		// 40 bags on a pallet. Whole pallet 220.00; 40/pallet $9.75
		{pattern(`(?P<n>\d+)(?:` + sp + `(?P<c>` + packForm + `))?(?P<on>` + sp + `/` + sp + `| (?:per|an?|to the|to an?|on an?|on the|on one) )` + palletWord + `(?P<again>` + sp + `[.,;]?` + sp + `(?:(?:a|per|the|whole|full|price) )*` + palletWord + `(?: price)?)?(?P<to>` + toPrice + sp + `)` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), palletPrice},
		// regular $35, and I can do $31 if you take at least 15
		{pattern(`(?:reg(?:ular|ularly)?\b\.?|normal(?:ly)?|standard)(?: price)?(?: is)?` + sp + `:?` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), regularPrice},
		// was $54.00; not $99
		{pattern(`(?:(?:it |which |that )?(?:was|were|used to be)|instead of|statt|(?:down|up) from|compared (?:to|with)|versus|vs\b\.?|reg(?:ular|ularly)?\b\.?|rrp|msrp|(?:old |our |the )*(?:leaflet|catalogue?|brochure|price ?list|list))(?: price)?` + sp + `:?` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?(?: before| earlier)?`), otherPrice("an earlier price")},
		// is not 41.00 but 44.00 a ton
		{pattern(`(?:(?:is|are|costs?|it's|its) )?(?:not|no longer) ` + bare(amountPattern("x")) + `(?:` + bare(perWord+unitPattern("x")) + `)?,? but (?:now |is |it's )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), onePrice},
		{pattern(`not ` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), notThis},
		// Rs. 4,200 per brass (100 cft)
		{pattern(amountPattern("m") + sp + `(?:/|(?:per|an?|each)\b)` + sp + `[\pL-]+` + sp + `\((?:of |is )?(?P<uq>` + plainNumber + `)` + sp + `-?(?P<uv>` + anyUnit + `)(?:[ -]+(?P<uf>` + packForm + `))?` + sp + `\)`), onePrice},
		// £8.20 for 20 litres
		{pattern(amountPattern("m") + sp1 + `for (?:an? )?(?P<uq>` + plainNumber + `|half an?|half)` + sp + `-?` + sp + `(?P<uv>` + anyUnit + `|met(?:re|er)\b)(?:[ -]+(?P<uf>` + packForm + `))?`), forPack},
		{pattern(amountPattern("m") + sp1 + `half` + sp + `(?:[,;|\r\n]|$)`), halfPrice}, // $89 m3   $48 half
		// 83/yd for less than 10
		{pattern(`(?:[:=@]` + sp + `|at |is |are )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?` + sp1 + `(?:for |if )?(?:(?:less|fewer) than|below|under|up to) ` + quantity + sp + `(?P<less>` + anyUnit + `|` + packForm + `)?`), fewerPrice},
		// a line of a list: less than 10 m3   70,00 €/m3
		{pattern(`(?:(?:less|fewer) than|below|under|up to) ` + quantity + sp + `(?P<less>` + anyUnit + `|` + packForm + `)` + toPrice + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))`), func(s *scanner, m match) (*fact, bool) {
			if s.before(m.at) != '\n' {
				return nil, false
			}
			return fewerPrice(s, m)
		}},
		// $92 yd; £14 bag: the sign makes the number money
		{pattern(`(?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)` + sp1 + `(?:(?P<uvc>` + anyUnit + `)(?:[ -]+(?P<ufc>` + packForm + `))?|(?P<ufb>` + packForm + `))`), onePrice},
		// 109 per yard in 2 yard sacks
		{pattern(`(?:[:=@]` + sp + `|at |is |are )?` + amountPattern("m") + perWord + anyUnit + sp1 + `in ` + quantity + sp + `-?` + anyUnit + `[ -]+` + packForm), always(fact{kind: anUnclear, why: "priced by one unit and sold in packs of several; write what one pack holds and costs"})},
		// price 28; at $28 a bag; @ 28; 1 yard 68; 50 L bags at 12
		{pattern(`(?:(?:the )?(?:unit )?(?:prices?|cost)(?: each)?(?: is| are| of|:|=|,)?|costs|(?:(?:will|would|['’]ll|['’]d) )?sets? you back|priced at|at|@|=|:|is|are|now|definitely|(?:stays?|stayed|still|holds|holding|steady) at|['’]s|comes to|(?:sells?|lists?) (?:at|for)|runs?(?: at| you)?|goes (?:for|at)|going (?:for|at)|will be|would be|works out at)` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), markedPrice},
		{pattern(amountPattern("m")), barePrice},
		// 71 a cube for the 20 mil and 76 for the 10 mil
		{pattern(amountPattern("m") + sp1 + `(?:for|on|in)(?: the| our)? `), sizedPrice},
		{pattern(`(?:and|&|/)` + sp + amountPattern("m") + sp1 + `(?:respectively|resp\b\.?|in that order)`), always(fact{kind: anUnclear, why: "prices of several things in their order"})},
		// quantity discount: 5 yards $127, 10 yards $121
		{pattern(`(?P<n>` + quantity + `)` + sp + `(?P<c>` + anyUnit + `|` + packForm + `)` + toPrice + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), func(s *scanner, m match) (*fact, bool) {
			f, ok := oneBreak(s, m)
			return f, ok && cues.StepsBefore.MatchString(s.low[max(s.start, m.at-window):m.at])
		}},
		{pattern(`(?P<by>(?:sold )?by the )?` + unitPattern("u") + `(?: (?P<loose>loose|lose|tipped|en vrac))?(?P<to>` + toPrice + sp + `)` + amountPattern("m") + `(?:(?P<each>` + eachWord + `)|(?P<per>` + perWord + unitPattern("x") + `))?`), unitThenPrice},
		// 10 yd   $89.00   $890.00; CY   15   $109.00   $1,635.00: the sum tells which is the price
		{pattern(`(?P<n>` + plainNumber + `)` + sp1 + `(?:(?P<uvc>` + anyUnit + `)|(?P<ufb>` + packForm + `))` + sp1 + `[@x]?` + sp + amountPattern("m") + sp1 + `=?` + sp + amountPattern("t")), lineSum},
		{pattern(`(?:(?P<uvc>` + anyUnit + `)|(?P<ufb>` + packForm + `))` + sp1 + `(?P<n>` + plainNumber + `)` + sp1 + `[@x]?` + sp + amountPattern("m") + sp1 + `=?` + sp + amountPattern("t")), lineSum},
		// 10 x 100 L £172; £24 for a box of 12
		{pattern(`(?P<n>\d{1,3})` + sp + `[x×]` + sp + unitPattern("u") + toPrice + sp + amountPattern("m")), manyPrice},
		{pattern(amountPattern("m") + sp1 + `for (?:an? |the )?(?:box|case|pack|bundle|set|lot|` + palletWord + `) of (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + packForm + `))?`), manyPrice},
		// 10 bags for 250; 2 for 30
		{pattern(`(?P<n>` + quantity + `)` + sp + `(?:(?P<c>` + packForm + `)` + toPrice + `|for)` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), severalPrice},

		// 10 yards or more 61; 40+: 24.00 each
		{pattern(`(?:for |on |` + ifBuying + ` |buy |take |order |qty\.? |quantity )?(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?:` + sp + `\((?:(?:one|1|a|full|whole) )*` + palletWord + `\))?` + orMore + unitToo + `(?:` + sp1 + `of (?:the |our |these |those )` + unitPattern("w") + `)?` + toPrice + `(?:` + sp + `(?:\.{2,6}|…)` + sp + `)?` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneBreak},
		// for 40 I can do $9.80 each; a line of a list: 6 plus   £138 each
		{pattern(`for (?:(?:the|your) )?(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + packForm + `))?(?: you(?:['’]re)? (?:want|need|asked (?:for|about)|after))?,? (?:i|we)(?: can| could| would|['’]d|['’]ll) do(?: (?:it|them|those))?(?: (?:for|at))? ` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))`), oneBreak},
		{pattern(`(?P<n>\d{1,4})(?:` + sp + `(?P<c>` + packForm + `))? plus` + sp1 + amountPattern("m") + `(?P<each>` + eachWord + `)`), func(s *scanner, m match) (*fact, bool) {
			f, ok := oneBreak(s, m)
			return f, ok && s.before(m.at) == '\n'
		}},
		// a line of a list: 10 yards or more   per yard   $61.00
		{pattern(`(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + orMore + sp + `(?:per|an?|each|/)` + sp + unitPattern("u") + toPrice + sp + amountPattern("m")), oneBreak},
		// 10 ton and up $31 ton
		{pattern(`(?P<n>\d+)` + sp + `(?P<c>` + packForm + `)?` + sp + `\(=?` + sp + `(?:(?:1|one|a|full|whole) )*` + palletWord + sp + `\)` + toPrice + sp + amountPattern("m") + `(?P<each>` + eachWord + `)?`), moneyBreak},
		{pattern(`(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + orMore + toPrice + sp + `(?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)` + sp1 + `(?P<uvc>` + anyUnit + `)`), oneBreak},
		// 100 L x 2 at $40.95 each, as an order has it
		{pattern(`x ?(?P<n>\d+) (?:at|@) ` + amountPattern("m") + `(?P<each>` + eachWord + `)`), ofOrder},
		// x10 7.95 each; x 20+ (pallet) 33.00; buy 10 get them for 16.49
		{pattern(`x ?(?P<n>\d+)` + toPrice + sp + amountPattern("m") + `(?P<each>` + eachWord + `)`), oneBreak},
		{pattern(`x ?(?P<n>\d+)` + orMore + `(?:` + sp + `\(?(?:a |full |one |1 )*` + palletWord + `\)?)?` + toPrice + sp + amountPattern("m")), oneBreak},
		{pattern(`(?:buy|take|order|grab|get|pick up) (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?,? (?:and )?(?:(?:it |they |the price )?(?:drops?|goes?|comes?)(?: down)? to|get (?:em|'em|them|it) (?:for|at)|(?:it['’]?s|they['’]?re|it is|they are|each is|(?:you )?pay)(?: for| at| only| just)*) ` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneBreak},
		// from 10: 27.50
		{pattern(`(?:from|ab|starting at) (?P<n>` + quantity + `)(?:` + sp + `(?:(?P<c>` + anyUnit + `|` + packForm + `)|(?:stück|stk|stuks|pièces)))?` + orMore + `?` + unitToo + toPrice + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneBreak},
		// 61 for 10 or more; 24 each if you take 40 or more; 27.50 from 10
		{pattern(`(?:at |is |are |it's |it is )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?` + toCount + sp + `(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?:` + orMore + `|` + sp1 + `plus\b)` + sp + `\)?`), fromBreak},
		// bags at 54 if you take four
		{pattern(`(?P<c>` + packForm + `) (?:at|for|are) ` + amountPattern("m") + `(?P<each>` + eachWord + `)? ` + ifBuying + sp1 + `(?P<n>` + quantity + `)`), oneBreak},
		// £15 + 20% VAT per bag
		{pattern(`(?:[:=@]` + sp + `|at |is |are )?` + amountPattern("m") + `(?P<tax>` + sp + `(?:\+|plus\b)` + sp + `(?P<q>` + plainNumber + `)` + percentSign + sp + taxName + `)` + perWord + unitPattern("u")), taxedPrice},
		// 96 kr in big bag 1 m3
		{pattern(amountPattern("m") + sp1 + `in (?:an? |the |our )?` + unitPattern("u")), packedPrice},
		// 8 CY   $121.00/CY: so many were asked for
		{pattern(`(?P<n>` + plainNumber + `)` + sp1 + `(?P<c>` + anyUnit + `)` + sp1 + `@?` + sp + `(?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)` + perWord + unitPattern("u")), orderedPrice},
		{pattern(`(?:at |is |are |it's |it is )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?(?:` + sp + `\(?from |` + sp1 + ifBuying + sp1 + `)(?:all (?:of the )?)?(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + sp + `\)?`), fromBreak},
		// or $7.75 at 60 bags; or 13.50 each by the ten
		{pattern(`or (?:at )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?` + sp1 + `(?:at|by the)` + sp1 + `(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + packForm + `))?`), fromBreak},
		// we go to $9.10 at 30 and $8.60 at 60
		{pattern(`(?:(?:(?:we|i|it|they|that|the price)(?:['’](?:ll|d)| can| will| would)? )?(?:go(?:es)?|comes?|drops?|falls?)(?: down)? to |(?P<and>(?:and|then|,)` + sp + `))` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))? at (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?`), downTo},
		// 110 a yard at 6 yards, 104 a yard at 12
		{pattern(amountPattern("m") + perWord + unitPattern("u") + ` at (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?`), func(s *scanner, m match) (*fact, bool) {
			if f, ok := oneBreak(s, m); s.after(m.end()) == "" || strings.Contains(".,;)", s.after(m.end())[:1]) {
				return f, ok
			}
			return nil, false
		}},
		// $18/ton 10 tons and over; a line of its own: $82.50 per CY, 10 CY and up
		{pattern(`(?:[:=@]` + sp + `|at |is |are )?` + amountPattern("m") + perWord + unitPattern("u") + `(?P<comma>,)?` + sp1 + `(?P<n>` + quantity + `)` + sp + `(?P<c>` + anyUnit + `|` + packForm + `)` + orMore), func(s *scanner, m match) (*fact, bool) {
			if m.has("comma") && strings.Trim(s.lineOf(m.at), " \t\r-*•") != s.text[m.at:m.end()] {
				return nil, false
			}
			return fromBreak(s, m)
		}},
		{pattern(`(?:and )?` + ifBuying + sp1 + `(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + toPrice + sp + amountPattern("m") + `(?P<each>` + eachWord + `)`), oneBreak},
		// if you take four it's £82; at 30 bags, $32.50
		{pattern(`(?:and )?` + ifBuying + sp1 + `(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + toPrice + sp + amountPattern("m")), plainBreak},
		{pattern(`(?:and )?at (?P<n>` + quantity + `)` + sp + `(?P<c>` + anyUnit + `|` + packForm + `)` + toPrice + sp + amountPattern("m") + `(?P<each>` + eachWord + `)?`), plainBreak},
		// 27 each if you take a pallet (24)
		{pattern(`(?:at |is |are |or )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?(?:` + toCount + `|` + sp1 + `(?:by|per|if (?:you|u) (?:clear out|fill|make up)) |(?P<all>` + sp1 + `a ))(?:(?:a|the|full|whole|up) )*` + palletWord + sp + `(?:of|\(|x)` + sp + `(?P<n>\d+)(?:` + sp + `(?P<c>` + packForm + `))?` + sp + `\)?`), palletEach},
		// $32.00 ea (1-19)
		{pattern(amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))` + sp + `\(` + sp + `(?:for |qty\.? )?(?P<n>\d+)` + sp + `(?:-|–|to)` + sp + `(?P<n2>\d+)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + sp + `\)`), oneTier},
		{pattern(`\(` + sp + `(?:for |qty\.? )?(?:1|one)` + sp + `(?:-|–|to)` + sp + `\d+(?:` + sp + `(?:` + anyUnit + `|` + packForm + `))?` + sp + `\)`), firstTier},
		// $98 per yard for 1-4 yards; $9.40 from 25 to 99
		{pattern(`(?:[:=@]` + sp + `|at |is |are |it's |it is )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?` + sp1 + `(?:for|from)` + sp1 + `(?P<n>\d+|` + written + `)` + sp + `(?:-|–|to)` + sp + `(?P<n2>\d+|` + written + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?`), oneTier},
		// 10: 27.50, with a space or decimals, so that 10:30 stays a time of day
		{pattern(`(?P<n>\d+):(?P<gap>` + sp + `)` + amountPattern("m") + `(?P<each>` + eachWord + `)?`), moneyBreak},
		// lines that count up: 1 - 37.95, 6 - 34.95, 24 (pallet) - 29.95
		{pattern(`(?:(?:qty|quantity)\b[.:]?` + sp + `)?(?P<n>\d{1,4})` + sp + `(?:(?:off|pcs?|pieces?|units?)\b\.?` + sp + `)?(?:\((?:full |1 |a )*` + palletWord + `\)` + sp + `)?(?:[-–=:]|\.{2,})?` + sp + amountPattern("m") + `(?P<each>` + eachWord + `)?`), countLine},
		// 1-9 bags 29.50; 10-39: 27.50
		{pattern(`(?:qty\.? |quantity )?(?P<n>\d+)` + sp + `(?:-|–|to)` + sp + `(?P<n2>\d+)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?P<to>` + toPrice + sp + `)` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneTier},
		// 25 bags gets you down to 34
		// on orders of 12 bags the price falls to £10.60, and on 40 bags to £9.75
		{pattern(`(?:(?:and|on|for|at|with|orders? of|quantities of) )*(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?:` + orMore + `)?,? (?:the |our )?(?:price|rate|cost)(?: each| per bag)? (?:falls?|drops?|comes?|goes|reduces|is reduced|is cut)(?: down)? to (?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneBreak},
		{pattern(`(?:and )?(?:on|for|at) (?:orders? of )?(?P<n>` + quantity + `)` + sp + `(?P<c>` + anyUnit + `|` + packForm + `)(?:` + orMore + `)? to (?P<mpre>` + signBefore + `)` + sp + `(?P<m>` + plainNumber + `)(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneBreak},
		{pattern(`(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?:` + orMore + `)? (?:(?:gets|brings|takes|puts) (?:you|it|that|u|them)(?: down)? (?:to|at)|drops? (?:it|that|to)(?: to)?|is down to) ` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), oneBreak},
		// $95-$110 a yard, depending on size
		{pattern(`(?:[:=@]` + sp + `|at |is |are )?` + amountPattern("m") + sp + `(?:-|–|to|or)` + sp + amountPattern("t") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))(?:,?` + sp + `depend(?:s|ing|ent) (?:on|upon)(?: (?:the |your )?(?:size|grade|grading|colou?r|quantity|amount|load|how much(?: (?:you|u) (?:want|take|need|buy))?))?)?`), priceRange},
		// first 5 at $88, after that $79; 42 each first four then 38 each
		{pattern(`(?:(?:the|your) )?first (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?: of (?:the |our )?(?P<of>\pL[\pL -]{2,24}?))?(?: (?:are|is|go(?:es)?|come|run|cost))?` + sp + `(?:at |for |:|,|@)?` + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?` + sp + `[,;.]?` + sp + beyondWord + amountPattern("t") + `(?:` + bare(perWord+unitPattern("x")) + `|` + eachWord + `)?`), gradedPrice},
		{pattern(`(?:is |are |at |it's |they're )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?,? (?:for )?(?:(?:the|your) )?first (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + sp + `[,;.]?` + sp + beyondWord + amountPattern("t") + `(?:` + bare(perWord+unitPattern("x")) + `|` + eachWord + `)?(?: for (?:each|every)(?: (?:further|more|additional|extra))? (?:one|` + packForm + `|` + anyUnit + `))?(?: from number (?:` + quantity + `|thirteen|sixteen) on(?:wards)?)?`), gradedPrice},
		// first ten at that, every one after the tenth 15.50
		{pattern(`(?:(?:the|your) )?first (?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))? (?:at|for) (?:that|it|this)(?: price)?` + sp + `[,;.]?` + sp + beyondWord + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), gradedPrice},
		// over 10 yards 61: is the tenth in it?
		{pattern(overWord + `(?P<n>` + quantity + `)(?:` + sp + `(?:(?P<c>` + anyUnit + `|` + packForm + `)|(?:nos|pcs|pieces|units)\b\.?))?` + toPrice + sp + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?`), overBreak},
		{pattern(`(?:at |is |are |it's |it is )?` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?(?:` + toCount + `|(?P<bare>` + sp1 + `))` + overWord + `(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?`), overBreak},
		// from $68 a yard: the least of several prices
		{pattern(`(?:from|starting (?:at|from)|as low as|prices? from)` + sp1 + amountPattern("m") + `(?:(?P<per>` + perWord + unitPattern("u") + `)|(?P<each>` + eachWord + `))?`), leastPrice},
		// 10 yards or more, with no price
		{pattern(`(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + sp + `(?:\+|or more\b|and up\b|or over\b|and over\b)`), func(s *scanner, m match) (*fact, bool) {
			f, _ := always(fact{kind: anUnclear, threshold: true, why: "a number of packs to buy with no price beside it"})(s, m)
			return f, !cents(m.text("n")) // "15.99 + 5.99 post"
		}},
	}
}

// plainBreak is written as money; without a word that says "each" it is asked.
func plainBreak(s *scanner, m match) (*fact, bool) {
	f, ok := oneBreak(s, m)
	if !ok || f.kind != aBreak || m.has("each") || !m.money() {
		return f, ok && m.money()
	}
	return s.perhaps(f, Range{m.at, m.end()}, severalReason, "is "+f.text+" the price of one from "+f.from.text+" on?", f.text+" from "+f.from.text+" on"), true
}

const overReason = "it leaves open whether that very number is in it; write the number from which the price holds"

func unclearFact(why string) (*fact, bool) { return &fact{kind: anUnclear, why: why}, true }

// priced reads the amount and the unit of a match into f.
func (s *scanner) priced(m match, f *fact) (why string) {
	text, v, why := s.amount(m, "m")
	if why != "" {
		return why
	}
	if cues.PerDrop.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
		return perOrderReason
	}
	f.text, f.money = text, v
	if f.unit, why = s.unit(m, "u"); why != "" {
		return why
	}
	if m.has("each") && f.unit.Form == "" {
		f.unit.Form = "each"
	}
	return ""
}

const perOrderReason = "it is paid for each order or drop, and is the price of no pack"

// taxedPrice is a price with its tax between the amount and what it is for.
func taxedPrice(s *scanner, m match) (*fact, bool) {
	at, _, _ := m.span("tax")
	base := &fact{kind: aPrice, Range: Range{m.at, at}, why: "a price for a pack"}
	m.fails(s.priced(m, base))
	f, ok := s.taxRate(m, m.text("q"))
	f.base, f.Range = base, Range{at + len(s.low[at:]) - len(strings.TrimLeft(s.low[at:], " \t")), m.end()}
	return f, ok && !s.goesOn(m.end())
}

// otherPrice is an amount that is said to be no price of now.
func otherPrice(why string) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) { return &fact{kind: anUnclear, why: why}, !s.goesOn(m.end()) }
}

// notThis is "not $99" behind the price that holds.
func notThis(s *scanner, m match) (*fact, bool) {
	if next := s.after(m.end()); next != "" && next != "." && next != "," && next != ")" {
		return nil, false
	}
	f := s.lastFact
	if f == nil || f.kind != aPrice || strings.Trim(s.low[f.To:m.at], " ,(-") != "" {
		return nil, false
	}
	return otherPrice("a price that is said not to hold")(s, m)
}

// fewerPrice is the price of fewer packs than a break begins at.
func fewerPrice(s *scanner, m match) (*fact, bool) {
	if oneOf(s.after(m.end()), "delivered", "delivery") {
		return unclearFact(besideDelivery)
	}
	if !m.has("each") && m.text("uvc")+m.text("ufb")+m.text("uv") == "" && (!m.money() || !m.has("less")) {
		return nil, false
	}
	f, ok := onePrice(s, m)
	if ok && f.kind == aPrice && f.unit.Empty() {
		unit, why := s.countedUnit(m, "less")
		switch {
		case why != "":
			return unclearFact(why)
		case unit.Text != "" && !looseUnit(unit):
			return unclearFact("up to a weight or a volume that is no pack") // "up to 20 kg"
		}
		f.unit = unit
	}
	return f, ok
}

// forPack is the price of a pack of so much; of what is sold loose it may be that of one of several.
func forPack(s *scanner, m match) (*fact, bool) {
	f, ok := onePrice(s, m)
	if ok && f.kind == aPrice && (!m.money() || looseUnit(f.unit) && !single(f.unit)) {
		return nil, false
	}
	return f, ok
}

func onePrice(s *scanner, m match) (*fact, bool) {
	if cues.AddedTo.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return unclearFact("it is added to a price")
	}
	if cues.OverLine.MatchString(m.low[:m.idx[1]]) {
		return nil, false // 1/2 yard
	}
	f := &fact{kind: aPrice, why: "an amount for a pack"}
	m.fails(s.priced(m, f))
	if at := strings.LastIndexByte(m.low[:m.idx[1]], ','); at > 0 && m.text("ufb") == "load" && m.has("uvb") && s.after(m.end()) == "max" { // $100 a load, 14 tons max
		f.unit, f.Range = pack{Form: "load", Words: "load"}, Range{m.at, m.at + at}
	}
	if last := s.lastFact; !m.money() && palletForm.MatchString(f.unit.Form) && f.money.Cmp(fullPallet) <= 0 && last != nil && oneOf(last.kind, aPack, aPrice, aForm) && last.To <= m.at && strings.Trim(s.low[last.To:m.at], " ,(;-") == "" {
		return &fact{kind: anUnclear, threshold: true, why: palletByPacks, from: count{f.text, f.money.Decimal()}}, true // 20 kg bags, 49 per pallet
	}
	return f, true
}

// markedPrice is an amount behind a word such as "at". Without a currency, decimals or a unit of its own it must not be
// followed by a word that makes it a number of something else.
func markedPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "an amount behind a word for a price"}
	m.fails(s.priced(m, f))
	if before := s.low[max(s.start, m.at-window):m.at]; cues.TaxBefore.MatchString(before) || f.unit.Empty() && (strings.HasPrefix(m.low, "at ") && cues.Whereabouts.MatchString(before) || s.goesOn(m.end()) || !m.money() && !ends[s.after(m.end())]) {
		return nil, false
	}
	if last := s.lastFact; (m.low[0] == '\'' || strings.HasPrefix(m.low, "’")) && (last == nil || last.kind != aSize || last.To != m.at) {
		return nil, false // "the ten mil's 78" alone
	}
	return f, true
}

// money says whether the amount of a match is written as money: with a currency or with cents.
func (m match) money() bool { return m.signed() || cents(m.text("m")) }

// ends may stand behind a bare number that is a price.
var ends = map[string]bool{"": true, ",": true, ".": true, ";": true, "(": true, ")": true, "!": true, "and": true, "for": true, "plus": true, "delivered": true, "collected": true, "with": true, "but": true, "all": true, "on": true}

// barePrice is an amount by itself: only with a currency or two decimals is it money.
func barePrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "an amount of money"}
	last := s.lastFact // 3/8 $88 a yard, 3/4 82; sorry, make that 108
	again := !m.money() && last != nil && (last.kind == aSize || last.why == corrects && !strings.Contains(s.low[last.From:last.To], "wait")) && last.To <= m.at && strings.TrimLeft(s.low[last.To:m.at], " ") == "" && ends[s.after(m.end())] && s.another(m, f) && (last.kind != aSize || !strings.Contains(s.low[s.lastPrice.To:m.at], "\n"))
	if !m.money() && !again && !s.listed(m.at, m.end()) || s.goesOn(m.end()) {
		return nil, false
	}
	m.fails(s.priced(m, f))
	return f, true
}

// another reads an amount as a price like the last one, of a pack, in front of it.
func (s *scanner) another(m match, f *fact) bool {
	m.fails(s.priced(m, f))
	last := s.lastPrice
	return last != nil && last.To <= m.at && near(last.money, f.money) && !last.unit.Empty()
}

// sizedPrice is an amount in front of a size, behind the price of another size in its sentence.
func sizedPrice(s *scanner, m match) (*fact, bool) {
	_, to, _ := m.span("m")
	f := &fact{kind: aPrice, Range: Range{m.at, to}, why: "a price, for what the one before it is for in another size"}
	if !s.another(m, f) || strings.ContainsAny(s.low[s.lastPrice.To:m.at], ".;\n") {
		return nil, false
	}
	size := func(p int) bool { g := s.factAt(p); return g != nil && g.kind == aSize }
	first := cues.ForSize.FindStringIndex(s.low[s.lastPrice.To:m.at])
	return f, first != nil && size(s.lastPrice.To+first[1]) && size(m.end()+1)
}

// listed says whether a number ends a line of a list: dots or a wide gap lead to it from a medium, and a second line is like it.
func (s *scanner) listed(from, to int) bool {
	if s.lists == nil {
		s.lists = map[int]bool{}
		mark := func(lines *expr, is func(at []int) bool) {
			all := slices.DeleteFunc(lines.FindAllStringSubmatchIndex(s.text, -1), func(at []int) bool { return !is(at) })
			for _, at := range all {
				s.lists[at[5]] = s.lists[at[5]] || len(all) > 1
			}
		}
		mark(cues.ListLine, func(at []int) bool {
			return s.holdsMedium(at[2], at[4]) && !cues.ColumnNumber.MatchString(s.text[at[2]:at[3]])
		})
		if cues.PerHeading.MatchString(s.low) {
			mark(cues.PlainLine, func(at []int) bool { return s.opensMedium(at[2]) })
		}
	}
	return s.lists[to] && !s.part().InsideNumber(from)
}

// goesOn says whether the number that ends at byte at goes on to be a number of something: a unit, a percentage, a range.
func (s *scanner) goesOn(at int) bool {
	next := s.after(at)
	switch next {
	case "in": // "$85 in the county"
		rest := s.low[at:min(s.limit, at+window)]
		return !nearby.MatchString(rest) && !orPayer.MatchString(rest)
	case "+":
		return !plusTax.MatchString(s.low[at:min(s.limit, at+window)])
	case "-", "–":
		return s.rangeAfter(at)
	case "/": // "$31 / non-members $34"
		return !orPayer.MatchString(s.low[at:min(s.limit, at+window)]) && !strokeParts.MatchString(s.low[at:min(s.limit, at+window)])
	case "or": // "$5.49 or 5 for $25"
		return !cues.OrOffer.MatchString(s.low[at:min(s.limit, at+window)])
	case "for": // "2 for 70"
		return forNumber.MatchString(s.low[at:min(s.limit, at+window)])
	case "%", "x", "×", "@", "to", "*", "mm", "cm", "inch", "inches", `"`, "”", "″", "'", "percent", "days", "day", "weeks", "left", "available", "miles", "km", "am", "pm", "th", "st", "nd", "rd", ":":
		return true
	}
	return next != "" && !wideGap.MatchString(s.low[at:min(s.limit, at+2)]) && (unitWord.MatchString(next) || months[next] || next[0] >= '0' && next[0] <= '9')
}

// rangeAfter says whether the dash behind byte at makes a range of two prices. A dash between spaces is a pause, unless
// money follows.
func (s *scanner) rangeAfter(at int) bool {
	spaced := at < s.limit && (s.low[at] == ' ' || s.low[at] == '\t')
	for at < s.limit && strings.IndexByte(" \t-", s.low[at]) >= 0 {
		at++
	}
	rest := strings.TrimPrefix(s.low[at:s.limit], "–")
	idx := moneyAhead.FindStringSubmatchIndex(rest[:min(len(rest), window)])
	if idx == nil {
		return false
	}
	return !spaced || match{re: moneyAhead, low: rest, idx: idx}.money()
}

var (
	// strokeParts is a stroke between two offers or terms: "£19.25 / 5+ £17.80", "£25 / free over £250".
	strokeParts = pattern(sp1 + `/` + sp1 + `(?:\d+` + sp + `(?:\+|(?:or more|and up|and over)\b)|free\b|over\b|from\b|(?:[\p{L}]+ ){0,2}` + fetching + `)`)
	plusTax     = pattern(sp + `\+` + sp + taxWord)
	forNumber   = pattern(sp + `for` + sp + `(?:` + signBefore + `)?\d`)
	moneyAhead  = pattern(sp + amountPattern("m"))
)

var unitWord = pattern(`(?:` + anyUnit + `|` + packForm + `|cu\b|cubic\b|bulk\b)`)

const severalReason = "it may be the price of all of them together, or of one where so many are bought"

// unitThenPrice is "1 yard 68", a price, or "50 L bags at 12", a pack and a price. "10 yards 610" may be the price of all.
func unitThenPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "a pack and its price"}
	if s.goesOn(m.end()) {
		return nil, false
	}
	m.fails(s.priced(m, f))
	u := f.unit
	if m.has("per") {
		x, why := s.unit(m, "x")
		if why != "" || u.Text == "" || u.Form == "" || x.Text != "" || x.Form != u.Form {
			return nil, false // two facts, or none
		}
		return f, true
	}
	if u.Form == "load" && u.Text != "" {
		return unclearFact(loadOrBring)
	}
	tied := m.money() || m.has("each") || strings.Trim(m.text("to"), " \t\u00a0,") != ""
	switch {
	case !m.money() && m.text("uvc") == "yard" && cues.WhoseYard.MatchString(s.low[max(s.start, m.at-window):m.at]):
		return unclearFact("it may be where the yard is") // "our yard is at 310 the Flats"
	case !tied && !single(u) && u.Text != "" && u.Form != "":
		return &fact{kind: aShort, threshold: true, unit: u, counted: u, from: count{f.text, f.money.Decimal()}, text: f.text, money: f.money, why: "a pack and its price"}, true
	case !tied && !single(u):
		return nil, false
	case (strings.TrimSpace(m.text("to")) == "," || u.Text == "" && u.RealForm() != "" && tied) && countBehind.MatchString(s.low[m.end():min(s.limit, m.end()+window)]):
		return nil, false // the price of so many of them: "bags, 16.75 if u get 20+"
	case !m.has("uq") && m.has("each") && m.has("ufb") && behindNumber(s.low[s.start:m.at]):
		return nil, false // "6 bags 31.25 ea" is a break, see severalPrice
	case !m.has("uq") && behindNumber(s.low[s.start:m.at]) && !cues.SizeColumn.MatchString(s.text[s.start:m.at]):
		return unclearFact(severalReason)
	case u.Text != "" && (u.Form == "" || u.Form == "each") && large(*u.Amount) && s.bagOf(m.at) != "":
		f.unit.Form = "sack" // a bulk bag of lava, 800 kg, $60
	case u.Text != "" && (u.Form == "" || u.Form == "each") && !single(u) && (large(*u.Amount) || looseUnit(u)) && (!m.has("each") || looseUnit(u)):
		if n, unit := numberAndUnit(u.Text); m.has("each") && looseUnit(u) && n != "" { // the seven yards that were asked for, each of them
			one, why := s.holding("1", unit, "")
			if f.unit = one; why == "" {
				return s.perhaps(f, Range{m.at, m.end()}, severalReason, "is "+f.text+" the price of "+one.Text+"?", f.text+" for "+one.Text), true
			}
		}
		f.unclear = severalReason
	case m.has("loose"), m.has("by") && u.Form == "" && looseUnit(u) && single(u):
		f.unit.Form = "bulk"
	}
	return f, true
}

// lineSum is a line of an order with how many, the price of one and the sum of both, which must be their product.
func lineSum(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "the price of one, by the sum behind it"}
	m.fails(s.priced(m, f))
	n := m.number(s, "n")
	_, sum := m.amount(s, "t")
	return f, n.value.Mul(f.money.Decimal()).Equal(sum.Decimal()) && n.value.Cmp(oneUnit) > 0 && !s.goesOn(m.end())
}

// orderedPrice is the price of one unit behind the number of them that was asked for.
func orderedPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "the price of one, behind how many were asked for"}
	m.fails(s.priced(m, f))
	c, why := s.countedUnit(m, "c")
	return f, why == "" && c.Text != "" && c.Text == f.unit.Text && !s.goesOn(m.end())
}

// priceRange is a price from one amount to another: which of them it is, is asked.
func priceRange(s *scanner, m match) (*fact, bool) {
	low, high := &fact{kind: aPrice, ranged: true, why: "the lower end of a price, as answered"}, &fact{kind: aPrice, ranged: true, why: "the upper end of a price, as answered"}
	why := s.priced(m, low)
	text, v, bad := s.amount(m, "t")
	if why != "" || bad != "" || v.Cmp(low.money) <= 0 || !near(low.money, v) || s.goesOn(m.end()) {
		return nil, false
	}
	high.text, high.money, high.unit = text, v, low.unit
	reading, open := s.either(m, "a price from one amount to another", "a price from one amount to another: which is yours?", low.text, high.text)
	if open != nil {
		open.ranged = true
		return open, true
	}
	return []*fact{low, high}[reading], true
}
