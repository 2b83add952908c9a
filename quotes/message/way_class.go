package message

import "slices"

// classWays makes a row of delivery.csv for each kind of pack that a section has a fee for. They stay with a person where
// the fees leave open what any of its quotes costs to deliver: what no row covers is not delivered.
func (r *reading) classWays(sec *section, rows []*draft) {
	var of []*fact
	for _, f := range sec.facts {
		if f.kind == aClassFee && f.unclear == "" {
			of = append(of, f)
		}
	}
	fees, why := classesOf(of)
	for i := range fees { // a small bag may be called a sack
		if c := &fees[i]; c.name == "sacks" && !slices.ContainsFunc(rows, func(d *draft) bool { return covered(d, []classFrom{*c}) }) {
			c.form = "bag"
		}
	}
	if why == "" && slices.ContainsFunc(rows, func(d *draft) bool { return !covered(d, fees) }) {
		why = "a fee for one kind of pack, and what delivery of the others costs is not said"
	}
	var ways []*draft
	for _, c := range fees {
		d := &draft{cells: map[string]*made{}}
		d.set("name", c.name, "the word for the packs", c.from)
		d.set("covers", c.form, "the word for the packs", c.from)
		fee := "order_fee"
		for _, f := range sec.facts {
			if f.kind == aLoad && f.unclear == "" && f.counted.Form == c.form && f.unit.Amount != nil {
				if fee = "load_fee"; f.unit.Amount.IsMass {
					d.set("load_weight", f.text, f.why, f)
				} else {
					d.set("load_volume", f.text, f.why, f)
				}
			}
		}
		d.set(fee, c.fee, c.from.why, c.from)
		ways = append(ways, d)
	}
	r.file(sec, rows, why, ways, aClassFee)
	for _, f := range sec.facts {
		if oneOf(f.kind, aFree, aMinOrder) || f.kind == aLoad && !slices.ContainsFunc(ways, func(d *draft) bool { return d.holds(f) }) {
			f.drop("it is not said for delivery of which packs it holds")
		}
	}
}

// file takes the ways of delivery made of charges of some kinds, for the supplier of the rows, unless there is a reason against
// them, another charge beside them, or a way of that supplier already: then all charges stay with a person.
func (r *reading) file(sec *section, rows []*draft, why string, ways []*draft, of ...kind) {
	whose := &draft{cells: map[string]*made{}}
	r.named(whose, sec, rows)
	switch {
	case why != "":
	case slices.ContainsFunc(sec.facts, func(f *fact) bool {
		return slices.Contains(charges, f.kind) && (f.unclear != "" || !slices.Contains(of, f.kind))
	}):
		why = "another charge for delivery is said beside it"
	case slices.ContainsFunc(r.ways, func(o *draft) bool { return sameCells(o.cells["supplier"], whose.cells["supplier"]) }):
		why = secondWay
	}
	if why != "" {
		for _, f := range sec.facts {
			if slices.Contains(charges, f.kind) {
				f.drop(why)
			}
		}
		return
	}
	for _, d := range ways {
		r.named(d, sec, rows)
	}
	r.ways = append(r.ways, ways...)
}

// holds says whether a cell was made of a fact.
func (d *draft) holds(f *fact) bool {
	for _, m := range d.cells {
		if slices.Contains(m.facts, f) {
			return true
		}
	}
	return false
}

const secondWay = "there is a row for this supplier's delivery already"

// classFrom is a fee for one kind of pack and where it was read.
type classFrom struct {
	classFee
	from *fact
}

// classesOf lists the fees of facts, each kind of pack once; why is "" unless two contradict one another.
func classesOf(of []*fact) (out []classFrom, why string) {
	for _, f := range of {
		for _, c := range f.classes {
			i := slices.IndexFunc(out, func(o classFrom) bool { return o.form == c.form })
			switch {
			case i < 0:
				out = append(out, classFrom{c, f})
			case out[i].fee != c.fee || out[i].from == f:
				return nil, "two fees for one kind of pack"
			default:
				f.drop("it is said twice")
			}
		}
	}
	return out, ""
}

// covered says whether one of the fees is for the packs of a row.
func covered(d *draft, fees []classFrom) bool {
	form := ""
	switch p := d.offer.pack; {
	case d.cells["form"] != nil:
		form = d.cells["form"].text
	case p.RealForm() != "":
		form = p.RealForm()
	case p.Form != "" && p.Form != "each" && p.Form != "scoop" || p.Amount == nil:
		return false // a pallet, or a table's cell that is read later
	case looseUnit(p):
		form = "bulk" // as quotes.csv has it where the cell is left empty
	default:
		form = "bag"
	}
	return slices.ContainsFunc(fees, func(c classFrom) bool { return c.form == form })
}
