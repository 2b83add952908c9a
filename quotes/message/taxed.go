package message

import (
	"slices"
	"strings"
)

// What a tax is said to be on, by the words beside it.
var (
	taxOfGoods = compile(`\b(?:on|for) (?:(?:the|our) )*(?:materials?|goods|products?|stone|merchandise|items) (?:only|alone)\b|\b(?:materials?|goods|products?) only\b|\b(?:but )?not (?:on |for )?(?:the |any )?(?:` + fetching + `)`)
	taxOfBoth  = compile(`\b(?:all|both|everything|prices?|rates?|figures?|quotes?|quotation|totals?|throughout|the lot|above|goods|materials?|items|sums?|amounts?|deliver(?:y|ed) and (?:vat|gst|tax)|(?:vat|gst|tax) and deliver(?:y|ed))\b`)
	taxOfEach  = compile(`\b(?:stone|rock|gravel|goods|materials?),? (?:and|&) (?:to |on )?(?:the |our )?(?:` + fetching + `)`)
	// A sales tax by these names is on delivery as on the goods that it brings (HMRC VAT Notice 700/24, section 2, from memory); others may not be.
	followsGoods = compile(`\b(?:vat|gst|hst|iva|btw|moms|mwst|tva|alv)\b`)
	fetchSaid    = compile(`\b(?:` + fetching + `)\b`)
	feeCarries   = compile(`\b(?:including|incl|inc|inclusive of|with)\b\.?` + sp + taxWord)
	feePlus      = compile(`(?:\+|\b(?:plus|ex|excl|excluding)\b\.?)` + sp + taxWord)
)

// taxed tells what each tax of the message is on: the goods, what bringing them costs, or both. Prices carry it where no other words
// of the message say that some are without.
func (r *reading) taxed() {
	low := []byte(r.low)
	var carried []*fact
	for i, c := range r.all {
		for _, f := range c.facts {
			switch said := r.low[f.From:f.To]; {
			case f.kind.isFee() && feeCarries.MatchString(said):
				f.fees = noneAdded
				clear(low[f.From:f.To])
			case f.kind.isFee() && r.job.Tax.Sign() > 0 && feePlus.MatchString(said):
				f.fees = r.job.Tax.String() + "%"
			case f.kind == aTax:
				r.taxScope(i, c, f)
				if f.kind == aFeeTax || f.text == noneAdded {
					clear(low[f.From:f.To])
				}
				if f.text == noneAdded {
					carried = append(carried, f)
				}
			}
		}
	}
	mixed := taxAdded.MatchString(string(low))
	for _, f := range carried {
		switch {
		case f.kind == aTax && mixed:
			f.kind, f.why, f.fees = anUnclear, taxMixed, ""
		case r.job.Tax.Sign() == 0:
			f.kind, f.why, f.fees = anAside, f.why+", and none is added", ""
		}
	}
}

// taxScope tells what one tax is on, and makes of one with no rate what the job adds.
func (r *reading) taxScope(i int, c *clause, f *fact) {
	said := r.low[c.From:c.To]
	fee, price := broughtIn(r, c), pricedIn(c)
	alone, bracket := !fee && !price, strings.HasSuffix(strings.TrimRight(r.low[:c.From], " "), "(")
	for _, d := range slices.Backward(r.all[:i]) {
		if !alone || d.sentence != c.sentence || bracket && (fee || price) {
			break
		}
		fee, price = fee || broughtIn(r, d), price || pricedIn(d)
	}
	sure := !alone || bracket
	switch {
	case c.row < 0 && taxOfGoods.MatchString(said):
		if f.text != noneAdded {
			f.fees = noneAdded
		}
	case c.row >= 0 || taxOfBoth.MatchString(said) || taxOfEach.MatchString(said) || !fee && !price || fee && !sure && f.text != "" && f.text != noneAdded:
		if f.text == noneAdded || taxOfEach.MatchString(said) || followsGoods.MatchString(r.low[f.From:f.To]) {
			f.fees = f.text
		}
	case fee && !price && (sure || f.text == "" || r.taxedElsewhere(f)):
		f.kind, f.fees = aFeeTax, f.text
	case fee && f.text == noneAdded:
		f.text, f.why = "", taxPerhapsFee
		for _, d := range r.all {
			for _, g := range d.facts {
				g.filed = g.filed || d.sentence == c.sentence && g.kind == aDelivery && g.text != "0" && r.wide
			}
		}
	}
	switch taxed := r.job.Tax.Sign() > 0; {
	case f.text != "":
	case taxed && f.kind == aFeeTax && f.why == taxReason:
		f.fees = r.job.Tax.String() + "%"
	case taxed && f.why == taxReason:
		f.kind, f.why = anAside, "the job's own tax is on top, as of all"
	case !taxed && f.why != taxReason:
		f.kind, f.why, f.fees = anAside, taxNone, ""
	default:
		f.kind, f.fees = anUnclear, ""
	}
}

// broughtIn says whether a clause speaks of what bringing costs, pricedIn whether of goods.
func broughtIn(r *reading, c *clause) bool {
	return fetchSaid.MatchString(r.low[c.From:c.To]) || slices.ContainsFunc(c.facts, func(f *fact) bool { return slices.Contains(charges, f.kind) && f.text != "0" })
}

func pricedIn(c *clause) bool {
	return slices.ContainsFunc(c.facts, func(f *fact) bool { return oneOf(f.kind, aPrice, aBreak, aMedium, aShort) })
}

// taxedElsewhere says whether another part of the message tells of a tax.
func (r *reading) taxedElsewhere(f *fact) bool {
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		return slices.ContainsFunc(c.facts, func(g *fact) bool { return g != f && (g.kind == aTax || g.kind == aFeeTax || g.why == taxReason) })
	})
}

// feeTax finds the tax on what bringing costs, where it is another than the job's. Its fee is then filed, as only delivery.csv has room
// for a tax of its own.
func (r *reading) feeTax(sec *section, rows []*draft) {
	var own, all []*fact
	for _, f := range sec.facts {
		if f.unclear == "" && f.fees != "" {
			if all = append(all, f); f.kind != aTax {
				own = append(own, f)
			}
		}
	}
	if len(own) > 0 {
		all = own
	}
	for _, f := range all {
		if f.fees != all[0].fees {
			f.drop("two taxes on what bringing the goods costs")
			all[0].drop("two taxes on what bringing the goods costs")
			return
		}
	}
	if doubt := slices.ContainsFunc(sec.facts, func(f *fact) bool { return f.kind == aTax && f.text == noneAdded && f.unclear == "" }); len(all) == 0 && doubt && sec.has(charges...) {
		for _, d := range rows {
			d.notes = append(d.notes, "delivery: whether it carries its tax as the prices do is not said; what the job adds is added")
		}
	}
	if len(all) == 0 || all[0].fees == r.job.Tax.String()+"%" {
		return
	}
	for _, f := range sec.facts {
		if f.kind == aDelivery && f.unclear == "" && f.text != "0" && (len(rows) > 0 || sec.doubtful) {
			if f.filed = r.wide; !r.wide {
				f.drop("a fee with a tax of its own; write both in delivery.csv")
			}
		}
	}
	sec.feeTax = all[0]
}

// taxFee gives a row of delivery.csv the tax on what bringing costs.
func (sec *section) taxFee(d *draft) {
	if f := sec.feeTax; f != nil {
		d.set("tax", f.fees, f.why, f)
	}
}
