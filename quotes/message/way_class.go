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
	switch {
	case why != "":
	case slices.ContainsFunc(sec.facts, func(f *fact) bool {
		return f.kind != aClassFee && slices.Contains(charges, f.kind) || f.kind == aClassFee && f.unclear != ""
	}):
		why = "another charge for delivery is said beside it"
	case slices.ContainsFunc(rows, func(d *draft) bool { return !covered(d, fees) }):
		why = "a fee for one kind of pack, and what delivery of the others costs is not said"
	case slices.ContainsFunc(r.ways, func(o *draft) bool { return sameCells(o.cells["supplier"], rows[0].cells["supplier"]) }):
		why = secondWay
	}
	for _, f := range sec.facts {
		switch {
		case why != "" && slices.Contains(charges, f.kind):
			f.drop(why)
		case f.kind == aFree || f.kind == aMinOrder || f.kind == aLoad:
			f.drop("it is not said for delivery of which packs it holds")
		}
	}
	if why != "" {
		return
	}
	for _, c := range fees {
		d := &draft{cells: map[string]*made{}}
		if s := rows[0].cells["supplier"]; s != nil {
			d.set("supplier", s.text, s.why, s.facts...)
		}
		d.set("name", c.name, "the word for the packs", c.from)
		d.set("covers", c.form, "the word for the packs", c.from)
		d.set("order_fee", c.fee, c.from.why, c.from)
		r.ways = append(r.ways, d)
	}
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
	case p.realForm() != "":
		form = p.realForm()
	case p.form != "" && p.form != "each" || p.amount == nil:
		return false // a pallet, or a table's cell that is read later
	case looseUnit(p):
		form = "bulk" // as quotes.csv has it where the cell is left empty
	default:
		form = "bag"
	}
	return slices.ContainsFunc(fees, func(c classFrom) bool { return c.form == form })
}
