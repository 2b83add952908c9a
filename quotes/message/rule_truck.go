package message

import (
	"cmp"
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/packs"
)

// truck is a fee for a load and what it holds.
type truck struct {
	fee, column, holds string
	size               float64
	packs              count // of which a load holds so many, until what they hold is known
	of                 pack
}

var (
	feeThenHolds = compile(strings.Replace(feeHolds, `(?P<v>`+anyUnit+`)`, `(?P<v>`+anyUnit+`)?`, 1))
	holdsThenFee = compile(holdsFee)
)

// truckRules read them behind a word for delivery or a truck. One fee alone needs a word for the load as well: "delivery 90
// for 5 yards" may be a fee for the order.
func truckRules() []rule {
	return []rule{
		{pattern(`(?:` + deliver + `|` + truckWord + `)` + feeWords + sp + `[:=-]?` + sp + `(?P<list>` + bare(loadsAt) + `)`), trucks(compile(loadsAt))},
		{pattern(deliver + `(?: (?:with|by|on)|` + sp + `[:=-])` + sp1 + `(?P<list>` + bare(withTruck) + `(?:` + truckThen + `(?:(?:with|by|on) )?` + bare(withTruck) + `)*)`), trucks(compile(withTruck))},
		// cartage each load: 2 m3 tipper $40, 6 m3 tipper $70
		{pattern(`(?:(?:per|a|each|every|one) (?:load|trip|run)` + sp + `[:,-]` + sp + `)?(?P<list>` + bare(withTruck) + `(?:` + truckThen + bare(withTruck) + `)+)`), trucks(compile(withTruck))},
		{pattern(`(?:our|the|an?|one) (?P<list>` + bare(`(?:)`+holding+`[ -]`+truckWord+sp+`(?:[:=-]|is|costs|at|for)?`+sp+amountPatternM) + `)`), trucks(compile(withTruck))},
		{pattern(truckWord + `(?: only| of| for)?` + sp + `[:,-]?` + sp + `(?P<list>` + bare(truckOf) + `(?:` + truckThen + bare(truckOf) + `)*)`), trucks(compile(truckOf))},
		// 1 to 3 m3 $60, 4 to 8 m3 $95, each load
		{pattern(`(?:(?:(?:we|i|they)(?: can|'ll| will)? )?` + deliver + feeWords + `|(?:if|when) (?:we|i) (?:haul|deliver|bring|truck)(?: it)?)` + sp + `[:=-]?` + sp + `(?P<list>` + bare(truckOf) + `(?:` + truckThen + bare(truckOf) + `)+)(?:,? (?:each|per|a) (?:load|trip|run))?`), trucks(compile(truckOf))},
		// freight, 2 loads @ $120.00   $240.00
		{pattern(deliver + feeWords + sp + `[:,-]?` + sp + `(?P<n>\d{1,2})` + sp + `(?:truck ?)?(?:loads?|trips?|runs?)` + sp + `(?:@|at|x|×)` + sp + amountPattern("m") + `(?:` + sp + `(?:each|ea\b\.?|apiece|per load|a load))?` + sp1 + `=?` + sp + amountPattern("t")), loadsSum},
		// haulage by our tipper (7 tonnes) at 85 per load, or by ...
		{pattern(`(?:` + deliver + ` )?(?:(?:by|on|with|our|the|an?) )*(?P<list>` + bare(truckHeld) + `(?:` + truckThen + `(?:(?:by|on|with|our|the|an?) )*` + bare(truckHeld) + `)*)`), trucks(compile(truckHeld))},
		{pattern(deliver + `(?: loads?)?` + feeWords + sp + `[:=-]?` + sp + `(?P<list>` + bare(truckEach) + `(?:` + truckThen + bare(truckEach) + `)*)`), trucks(compile(truckEach))},
		// $95 a trip; per load 85; the truck takes 9 yards; holds 10
		{pattern(`(?:is |costs |for |at |runs |charged )?` + amountPattern("m") + sp + `(?:/|(?:per|an?|each|ea)\b)` + sp + `(?:(?P<trip>(?:trip|tour|run|time|go|` + truckWord + `)\b)|(?P<drop>(?:drop|delivery)\b)|(?P<order>(?:order|shipment|consignment)\b))(?: charge\b)?`), tripFee},
		{pattern(`(?P<bring>` + fetching + sp + `[,:(-]?` + sp + `)?(?:(?:per|each|a) (?:(?P<trip>(?:load|trip|tour|run)\b)|(?P<drop>(?:drop|delivery)\b))|trip (?:charge|fee)(?: is| of)?)` + sp + `[:=)-]?` + sp + amountPattern("m")), tripFee},
		// yards per load: 6; max load 12 t
		{pattern(`(?P<v>` + anyUnit + `) (?:per|in a|to a|to the|on a) (?:load|trip|run|` + truckWord + `)` + sp + `[:=-]?` + sp + `(?P<q>` + plainNumber + `)`), loadHolds},
		{pattern(`(?:(?:truck|load) (?:size|capacity|limit)|max(?:imum)?\b\.? load)` + sp + `[:=-]?` + sp + holding), loadHolds},
		{pattern(holdsVerb + `(?P<q>` + plainNumber + `|` + uptoTwelve + `)(?:` + sp + `(?P<v>` + anyUnit + `|met(?:re|er)s?\b))?` + eachTrip), loadHolds},
		{pattern(`(?:an? |our |the |one )?(?P<q>` + plainNumber + `)` + sp + `-?(?P<v>` + anyUnit + `)[ -](?P<truck>` + truckWord + `)\b`), loadHolds},
		// takes ten sacks; eight sacks to a trip; up to 12 bags, behind a fee
		{pattern(holdsVerb + packsHeld + eachTrip), loadHolds},
		{pattern(packsHeld + `(?: max(?:imum)?\b\.?)? (?:(?:to|per|on|in|each|at|for) (?:(?:the|an?|each|every|one) )*(?:load|trip|tour|run|time|drop|shipping|shipment|parcel|consignment|` + truckWord + `)|(?:will )?(?:go|fit)(?:es|s)? (?:on|in) (?:the|a|our|one) ` + truckWord + `)\b`), loadHolds},
		{pattern(`(?:(?:and |that's |that is |for )*(?:up to|max\.?|maximum(?: of)?) )` + packsHeld + `(?: (?:max(?:imum)?\b\.?|(?:per|a|each|on the one|in one) (?:load|trip|tour|run|drop)))*`), loadBehind},
		{pattern(`(?:(?:a|the|our|one|each) )*` + truckWord + `(?: (?:is|are|=)|` + sp + `[:=]) ` + holding), loadHolds},
		{pattern(`(?:one|an?|each|every|per|the) (?:trip|load|run|tour) (?:does|takes|carries|hauls|holds|brings|fits|covers) (?:up to )?` + holding), loadHolds},                               // one trip does 5 yards
		{pattern(`(?:and |but )?` + holding + ` (?:makes?|fills?|is|counts? as) (?:(?:a|an|one|each|the|our) )(?:(?:full|single|truck|lorry) ?)?(?:load|trip|` + truckWord + `)\b`), loadHolds}, // and 6 tons makes a load
		{pattern(`(?P<k>` + classWord + `)(?: (?:material|stuff|goods))? (?:goes|go|comes|takes|fits|is|are)(?: up to)? ` + holding + ` (?:to|per|on|in|a) (?:(?:the|an?|each|one) )?(?:load|trip|` + truckWord + `)\b`), loadHolds},
		// delivery £40 for up to 4 bags, £65 for up to 10
		{pattern(`(?:` + deliver + `|` + truckWord + `)` + feeWords + sp + `[:=-]?` + sp + `(?P<list>` + bare(feePacks) + `(?:` + truckThen + bare(feePacks) + `)*)`), truckPacks},
		{pattern(holding + `(?:(?:` + sp + `/` + sp + `| (?:a|an|per|each|to a|to the) )(?:load|trip|tour|run|` + truckWord + `)| (?:to|on) (?:a|the|each) load| max(?:imum)?\b\.? (?:a|per|each|to a|for each) load)\b`), loadHolds},
		// $125 per load, loads up to 18 tons; $75 per load (6 m3)
		{pattern(`(?:(?:and |with |for |of |loads? |each |a |the |is |are |holds |takes )*(?:up to|max\.?|maximum(?: of)?|holds|takes|carries|is|of) )?` + holding + `(?: (?:max(?:imum)?\b\.?|loads?|(?:per|a|each) (?:load|trip|tour|run)))*`), loadBehind},
		// the truck is $95, it's a ten yard box
		{pattern(`(?:(?:and|but|it's|it is|its|that's|that is|with|of) )*an? (?P<q>` + plainNumber + `|` + uptoTwelve + `)` + sp + `-?(?P<v>` + anyUnit + `)[ -](?:box|bed|body|` + truckWord + `)\b`), loadBehind},
		{pattern(`(?P<list>` + holdsCosts + `)`), trucks(compile(holdsCosts))},
		{pattern(`(?P<list>` + bringAt + `)`), trucks(compile(bringAt))},
		// delivery - $60 a load, 6 yards max
		{pattern(`(?:` + deliver + `|` + truckWord + `)` + feeWords + sp + `(?:[:=-]|–|—)?` + sp + `(?P<list>` + bare(maxBehind) + `)`), trucks(compile(maxBehind))},
		// tandem, up to 12 yards - $135 a load
		{pattern(`(?:` + truckWord + `,? )?(?P<list>` + bare(holdsFee+loadWord) + `)`), trucks(compile(holdsFee + loadWord))},
		{pattern(`(?:(?:(?:` + truckWord + ` )?(?:` + deliver + `|` + truckWord + `)(?: ` + nearPlace + `|` + toPlace + `)?` + feeWords + sp + `[:=-]?` + sp + `)|` + bringIt + `for )?(?P<list>` + bare(feeHolds) + `(?:` + truckThen + `(?:` + bare(feeHolds) + `|` + bare(feeUpTo) + `))*)`), trucks(feeThenHolds)},
		{pattern(`(?:` + deliver + `|` + truckWord + `)` + feeWords + sp + `[:=,-]?` + sp + `(?:\r?\n` + sp + `)?(?P<list>` + bare(holdsFee) + `(?:` + truckThen + bare(holdsFee) + `)*)`), trucks(holdsThenFee)},
	}
}

func trucks(one *expr) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		from, to, _ := m.span("list")
		if s.holdsMedium(m.at, from) || cues.TruckStart.MatchString(m.low) && cues.HeldBefore.MatchString(s.low[max(s.start, m.at-window/4):m.at]) {
			return nil, false // the truck is called by what it holds: "2 m3 tipper $40, 6 m3 tipper $70"
		}
		f := &fact{kind: aTruck, why: "a fee for each load, and what a load holds"}
		named := cues.TruckStart.MatchString(m.low) || one != feeThenHolds && one != holdsThenFee // a truck or a load is spoken of
		delivers := from > m.at || one != feeThenHolds || cues.OnTruck.MatchString(s.low[from:to])
		unit := "" // of the one before
		for _, idx := range one.FindAllStringSubmatchIndex(s.low[from:to], -1) {
			e := match{re: one, low: s.low[from:to], at: from, idx: idx, unread: m.unread}
			if s.cuts(e) {
				return nil, false
			}
			named = named || one == feeThenHolds && (e.has("each") || cues.MostWord.MatchString(e.low[e.idx[0]:e.idx[1]]) || cues.TruckWithin.MatchString(e.low[e.idx[0]:e.idx[1]]))
			text, _ := e.amount(s, "m")
			if e.has("v") {
				unit = s.unitText(e, "v")
			} else if rest := s.after(m.end()); rest != "" && !strings.Contains(".,;)", rest[:1]) {
				return nil, false // of something else
			}
			p, why := s.holding(e.text("q"), unit, "")
			if why != "" {
				return unclearFact(why)
			}
			t := truck{fee: text, column: "load_volume", holds: p.Text, size: p.Size()}
			if p.Amount.IsMass {
				t.column, t.size = "load_weight", -t.size
			}
			if n := len(f.loads); n > 0 && (f.loads[n-1].column != t.column || f.loads[n-1].size == t.size) {
				return unclearFact("fees for loads of which one cannot be told from another")
			}
			f.loads = append(f.loads, t)
		}
		slices.SortStableFunc(f.loads, func(a, b truck) int { return cmp.Compare(a.size, b.size) })
		return f, delivers && !s.goesOn(m.end()) && (named || len(f.loads) > 1)
	}
}

var onePacks = compile(feePacks)

// truckPacks is a list of them. One alone may be the fee for an order up to so many packs: that is asked.
func truckPacks(s *scanner, m match) (*fact, bool) {
	from, to, _ := m.span("list")
	f := &fact{kind: aTruck, why: "a fee for each load, and what a load holds"}
	var of pack
	for _, idx := range onePacks.FindAllStringSubmatchIndex(s.low[from:to], -1) {
		e := match{re: onePacks, low: s.low[from:to], at: from, idx: idx, unread: m.unread}
		if e.has("f") {
			of = e.countedUnit(s, "f")
		}
		text, _ := e.amount(s, "m")
		n := e.counting(s, "q")
		f.loads = append(f.loads, truck{fee: text, column: "load_volume", holds: n.text, size: n.value.Float(), packs: n, of: of})
	}
	if s.cuts(m) || s.goesOn(m.end()) || of.Empty() || unitWord.MatchString(s.after(m.end())) {
		return nil, false
	}
	return f, len(f.loads) > 1
}

// tripFee is a fee for each trip or drop with no word for delivery beside it.
func tripFee(s *scanner, m match) (*fact, bool) {
	text, v := m.amount(s, "m")
	f := &fact{kind: aLoadFee, text: text, money: v, bare: m.text("trip") == "load" && !m.has("bring"), why: "a fee for each load"}
	if m.has("drop") || m.has("order") {
		f.kind, f.why = aDelivery, "a fee for delivery"
	}
	if line := s.low[max(s.start, strings.LastIndexAny(s.low[:m.at], ".;\n")):m.at]; m.has("order") && !brings.MatchString(line) {
		return unclearFact(perOrderReason)
	}
	return f, !s.goesOn(m.end())
}

// loadsSum is the fee for one of several loads, with what all of them come to behind it.
func loadsSum(s *scanner, m match) (*fact, bool) {
	text, v := m.amount(s, "m")
	_, all := m.amount(s, "t")
	return &fact{kind: aLoadFee, text: text, money: v, why: "a fee for each load"}, v.Decimal().Mul(m.counting(s, "n").value).Equal(all.Decimal())
}

// loadHolds is what a load holds, or a truck that is called by it; a bare number counts what is sold loose.
func loadHolds(s *scanner, m match) (*fact, bool) {
	if s.goesOn(m.end()) || s.rated(m.end()) || !m.has("v") && !m.has("f") && s.after(m.end()) != "" && !strings.ContainsAny(s.after(m.end())[:1], ").,;") {
		return nil, false
	}
	f := &fact{kind: aLoad, bare: m.has("truck"), why: "what a load holds"}
	if !m.has("v") {
		f.from, f.counted = m.counting(s, "q"), m.countedUnit(s, "f")
		return f, f.counted.Empty() || f.counted.RealForm() != "" || f.counted.Form == "scoop"
	}
	p, why := s.holding(m.text("q"), s.unitText(m, "v"), "")
	if why != "" || !looseUnit(p) {
		return nil, false
	}
	f.unit, f.text = p, p.Text
	if last := s.lastFact; m.has("k") {
		f.counted.Form = classForm(m.text("k"))
	} else if last != nil && last.kind == aClassFee && strings.Trim(s.low[last.To:m.at], " ,(") == "" {
		f.counted.Form = last.classes[len(last.classes)-1].form
	}
	return f, true
}

// loadBehind is what a load holds right behind the fee for one.
func loadBehind(s *scanner, m match) (*fact, bool) {
	f := s.lastFact
	if f != nil && f.kind == aDelivery && m.has("f") && cues.EachDrop.MatchString(m.low[:m.idx[1]]) && strings.Trim(s.low[f.To:m.at], " ,(") == "" {
		return loadHolds(s, m)
	}
	if f != nil && f.kind == aDelivery && f.unit.Form == "load" && strings.Trim(s.low[f.To:m.at], " ,(-–;") == "" {
		return loadHolds(s, m)
	}
	if f != nil && f.kind == aDelivery && cues.TruckWithin.MatchString(s.low[f.From:f.To]) && cues.MostWord.MatchString(m.low[:m.idx[1]]) && strings.Trim(s.low[f.To:m.at], " ,(") == "" {
		return loadHolds(s, m)
	}
	if f != nil && f.kind == aClassFee && strings.Trim(s.low[f.To:m.at], " ,(") == "" {
		return loadHolds(s, m)
	}
	if f == nil || f.kind != aLoadFee && (f.kind != aPrice || f.unit.Form != "load" || f.unit.Text != "" || !cues.MostWord.MatchString(m.low[:m.idx[1]]) && !brings.MatchString(s.low[min(f.From, max(s.start, strings.LastIndexAny(s.low[:f.From], ".;\n"))):f.From])) || strings.Trim(s.low[f.To:m.at], " ,(-–;=") != "" || strings.TrimSpace(s.low[f.To:m.at]) == "" {
		return nil, false
	}
	return loadHolds(s, m)
}

// trucks makes fees of prices of a load whose truck stands in their sentence, "12 t tipper, $165 per load", or that stand where goods
// with prices are brought and none are named, and leaves a truck to a person that has no fee there.
func (r *reading) trucks() {
	priced, bringing := false, false // in the sentences before; in the one before in this line
	for i := 0; i < len(r.all); {
		var fees, holds []*fact
		from, fee, goods := i, false, priced
		for ; i < len(r.all) && r.all[i].sentence == r.all[from].sentence; i++ {
			for _, f := range r.all[i].facts {
				switch {
				case f.kind == aPrice && f.unit.Form == "load":
					fees = append(fees, f)
				case f.kind == aPrice || f.kind == aMedium:
					priced, goods = priced || f.kind == aPrice, goods && f.kind == aPrice && f.unit.Text == ""
				case f.kind == aLoad:
					holds = append(holds, f)
				case f.kind == aSupplier && f.general:
					priced, goods = false, false
				}
				fee = fee || f.kind.isFee() && f.kind != aLoad
			}
		}
		said := r.low[r.all[from].From:max(r.all[from].From, r.all[i-1].To)]
		bringing = goods && (carrier.MatchString(said) || bringing && !r.all[from].line)
		far := i > from && cues.Miles.MatchString(r.low[r.all[from].From:r.all[i-1].To])
		for _, f := range fees {
			switch {
			case bringing && cues.ClassSaid.MatchString(said):
				f.drop(besideDelivery)
			case goods && !bringing && cues.FeeSaid.MatchString(said):
				f.drop(loadOrBring)
			case f.unit.Text != "" && (bringing || goods && cues.ToLoad.MatchString(r.low[f.To:min(len(r.low), f.To+window)])):
				f.loads = []truck{{fee: f.text, column: "load_volume", holds: f.unit.Text, size: f.unit.Size()}}
				if f.unit.Amount.IsMass {
					f.loads[0].column, f.loads[0].size = "load_weight", -f.unit.Size()
				}
				f.kind, f.why = aTruck, "a fee for each load, and what a load holds"
			case f.unit.Text == "" && (bringing || len(holds) > 0 || far || cues.OwnTruck.MatchString(r.low[r.all[from].From:f.From])):
				f.kind, f.bare, f.why = aLoadFee, true, "a fee for each load"
			}
		}
		for _, f := range holds {
			if f.bare && !fee && len(fees) == 0 {
				f.drop("no fee for such a load is said")
			}
		}
	}
}

// pairLoads sets fees for a load, or for a truck, beside what it holds, wherever the two stand: one of each, or as many that take
// turns, which are sizes of truck.
func (r *reading) pairLoads(sec *section, rows []*draft) {
	var fees, holds []*fact
	turns, unmade := true, false
	slices.SortStableFunc(sec.facts, func(a, b *fact) int { return cmp.Compare(a.From, b.From) }) // what was a pack first came last
	if i := slices.IndexFunc(sec.facts, func(f *fact) bool { return f.kind == aLoadFee && f.counted.Form == "pallet" && f.unclear == "" }); i >= 0 {
		r.perPallet(sec, sec.facts[i])
	}
	for _, f := range sec.facts {
		for i := range f.loads {
			if t := &f.loads[i]; t.packs.text != "" {
				one := fact{from: t.packs, counted: t.of}
				if !r.countsPacks(&one, rows) {
					f.drop("loads by their number of packs, and what these hold is not said")
					break
				}
				f.head = one.head
				t.column, t.holds, t.size, t.packs = "load_volume", one.text, one.unit.Size(), count{}
				t.of = pack{}
				if one.unit.Amount.IsMass {
					t.column, t.size = "load_weight", -t.size
				}
			}
		}
	}
	for _, f := range sec.facts {
		switch {
		case f.unclear != "":
		case f.kind == aLoadFee || f.kind == aDelivery && (f.unit.Form == "load" || f.text != "0" && !f.otherwise && !f.before):
			turns = turns && len(fees)-len(holds) <= 0
			fees = append(fees, f)
		case f.kind == aLoad && f.unit.Text != "" && f.counted.Form != "" && sec.has(aClassFee): // see classWays
		case f.kind == aLoad:
			turns = turns && len(holds)-len(fees) <= 0
			if f.unit.Text == "" && (f.from.text == "" || !r.countsPacks(f, rows)) {
				f.drop("a number whose unit is not said")
				unmade = true
				continue
			}
			f.column = "load_volume"
			if f.unit.Amount.IsMass {
				f.column = "load_weight"
			}
			holds = append(holds, f)
		}
	}
	switch {
	case len(holds) == 0:
		for _, f := range fees {
			if unmade && f.kind == aDelivery {
				f.drop("it may be for each load, and what one holds was not made out")
			}
			if f.bare {
				f.drop("it may be the price of a load of goods, or of bringing one")
			}
		}
	case len(fees) == 0:
		for _, f := range holds {
			f.drop("no fee for such a load is said")
		}
	case len(holds) == 1 && len(fees) == 1:
		fees[0].kind, fees[0].why = aLoadFee, "a fee for each load"
	case len(holds) != len(fees) || !turns:
		for _, f := range slices.Concat(fees, holds) {
			f.drop("fees for loads, and it is not said which goes with which")
		}
	default:
		for i, f := range fees {
			size := holds[i].unit.Size()
			if size < 0 {
				size = -size
			}
			f.kind, f.head, f.why = aTruck, holds[i], "a fee for each load, and what a load holds"
			f.loads = []truck{{fee: f.text, column: holds[i].column, holds: holds[i].unit.Text, size: size}}
		}
	}
}

// perPallet makes a load of the only pallet that the message counts packs on, for a fee for each pallet; without one it is not said
// how many a purchase needs.
func (r *reading) perPallet(sec *section, fee *fact) {
	holds := r.onPallet()
	if len(holds) != 1 {
		fee.drop(unknownPallet)
		return
	}
	holds[0].kind, holds[0].why, holds[0].unclear = aLoad, "what a pallet holds", ""
	sec.facts = append(sec.facts, holds[0])
}

// countsPacks gives a load by its number of packs what so many of them hold, if all rows have one pack; a bare number counts what
// is sold loose, or in bulk bags.
func (r *reading) countsPacks(f *fact, rows []*draft) bool {
	if len(rows) == 0 {
		return false
	}
	p := rows[0].offer.pack
	for _, d := range rows {
		if o := d.offer.pack; o.Text == "" || o.Text != p.Text || !o.Counts(f.counted) || f.counted.Empty() && !(single(o) && looseUnit(o)) && o.Form != "sack" {
			return false
		}
	}
	number, unit := numberAndUnit(p.Text)
	n, why := r.counting(number)
	if why != "" {
		return false
	}
	all := n.value.Mul(f.from.value)
	f.unit, why = packs.Of(r.cellNumber(all.String(), all), unit, "", r.out)
	f.text = f.unit.Text
	if from := r.packFacts(rows[0].offer); len(from) > 0 {
		f.head = from[0]
	}
	return why == ""
}

const unknownPallet = "a fee for each pallet, and how much goes on one is not said"

// truckWays makes a row of delivery.csv for each size of truck. Rows of one name are sizes of one service.
func (r *reading) truckWays(sec *section, rows []*draft) {
	var all []truck
	var of []*fact
	why := ""
	for _, f := range sec.facts {
		if f.kind != aTruck || f.unclear != "" {
			continue
		}
		of = append(of, f)
		for _, t := range f.loads {
			if i := slices.IndexFunc(all, func(o truck) bool { return o.column != t.column || o.size == t.size }); i >= 0 && all[i] != t {
				why = "two fees for one load"
			} else if i < 0 {
				all = append(all, t)
			}
		}
	}
	if why == "" && slices.ContainsFunc(of, r.ofOneKind) {
		why = oneKindOfPack
	}
	var ways []*draft
	for _, t := range all {
		from := of[slices.IndexFunc(of, func(f *fact) bool { return slices.Contains(f.loads, t) })]
		d := &draft{cells: map[string]*made{}}
		if len(all) > 1 {
			d.set("name", "truck", "sizes of truck of one service", from)
		}
		d.set("load_fee", t.fee, from.why, from)
		d.set(t.column, t.holds, from.why, from)
		for _, term := range []term{{aHaul, "haul"}, {aFree, "free_over"}, {aMinOrder, "min_order"}} {
			for _, f := range sec.facts {
				if f.kind == term.kind && f.unclear == "" {
					d.set(term.column, f.text, f.why, f)
				}
			}
		}
		ways = append(ways, d)
	}
	r.file(sec, rows, why, ways, aTruck, aHaul)
}
