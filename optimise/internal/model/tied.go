package model

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
)

// weightGroup is a table, or a bed with a limit of its own.
type weightGroup struct {
	name     string
	headroom float64
	limited  bool
	atoms    []int
}

// weightGroups lists what is weighed together, in order of first bed.
func (in *Instance) weightGroups() []*weightGroup {
	var out []*weightGroup
	byTable := map[string]*weightGroup{}
	ofBed := make([]*weightGroup, len(in.Job.Beds))
	for b, bed := range in.Job.Beds {
		n := float64(bed.Count)
		g := byTable[bed.Table]
		if bed.Table == "" || g == nil {
			g = &weightGroup{name: bed.Table}
			if bed.Table == "" {
				g.name = bed.Name
			} else {
				byTable[bed.Table] = g
			}
			if bed.Limit != nil {
				g.limited = true
				g.headroom = float64(*bed.Limit)
				if bed.Table == "" { // each of the count has the limit for itself
					g.headroom *= n
				}
			}
			out = append(out, g)
		}
		g.headroom -= float64(bed.OwnWeight) * n
		ofBed[b] = g
	}
	for a, at := range in.Atoms {
		ofBed[at.Bed].atoms = append(ofBed[at.Bed].atoms, a)
	}
	return out
}

// bindingShares lists the shares of a bed that can bind: those of media that
// could otherwise fill more than the share allows.
func (in *Instance) bindingShares(bed *quotes.Bed, atoms []int) []quotes.Share {
	var out []quotes.Share
	for _, sh := range bed.MaxShare {
		could, all := 0.0, 0.0
		for _, a := range atoms {
			all += in.Atoms[a].Litres
			for _, g := range in.Suits[in.Atoms[a].Suit].Grades {
				if in.Grades[g].Medium == sh.Medium {
					could += in.Atoms[a].Litres
					break
				}
			}
		}
		if in.apart && could > 0 || could > sh.Most*all*(1+1e-12) {
			out = append(out, sh)
		}
	}
	slices.SortFunc(out, func(a, b quotes.Share) int { return strings.Compare(a.Medium.Name, b.Medium.Name) })
	return out
}

// localSlot is a slot of a unit before units are merged.
type localSlot struct {
	key   string // equal keys of alike units are interchangeable
	atoms []int
	bed   int // the bed whose shares bind, or -1
}

// findUnits merges atoms into slots, and ties slots that a limit or a share
// couples into units; alike units are merged into one, scaled up.
func (in *Instance) findUnits() {
	pooled := map[string]int{} // key → slot, for atoms nothing ties down
	units := map[string]int{}  // signature → unit
	for _, g := range in.weightGroups() {
		weight := 0.0
		for _, a := range g.atoms {
			weight += in.Atoms[a].Litres * in.Heaviest(in.Atoms[a].Suit, in.Atoms[a].below)
		}
		weighed := g.limited && (in.apart || weight > g.headroom)

		byBed := map[int][]int{}
		var beds []int
		for _, a := range g.atoms {
			b := in.Atoms[a].Bed
			if byBed[b] == nil {
				beds = append(beds, b)
			}
			byBed[b] = append(byBed[b], a)
		}
		var tied []int // beds of this group that belong to the weighed unit
		for _, b := range beds {
			shares := in.bindingShares(in.Job.Beds[b], byBed[b])
			switch {
			case weighed:
				tied = append(tied, b)
			case len(shares) > 0:
				in.addUnit(units, in.Job.Beds[b].Name, false, 0, []int{b}, byBed)
			default:
				for _, a := range byBed[b] {
					in.pool(pooled, a)
				}
			}
		}
		if weighed {
			in.addUnit(units, g.name, true, g.headroom, tied, byBed)
		}
	}
}

// pool puts an atom that nothing ties down into the slot of its suit.
func (in *Instance) pool(pooled map[string]int, a int) {
	key := fmt.Sprintf("%d", in.Atoms[a].Suit)
	if in.apart && !in.grouped {
		key = fmt.Sprintf("atom %d", a)
	}
	s, ok := pooled[key]
	if !ok {
		s = len(in.Slots)
		pooled[key] = s
		at := in.Atoms[a]
		in.Slots = append(in.Slots, slot{Name: in.slotName(a), Site: at.Site, Suit: at.Suit, Unit: -1})
	}
	in.Slots[s].Litres += in.Atoms[a].Litres
	in.Slots[s].Atoms = append(in.Slots[s].Atoms, a)
}

// unitPart is what of a unit may be told apart: one slot of its free layers, or the
// slots of a bed whose shares bind.
type unitPart struct {
	slots []localSlot
	desc  string // equal for what is alike but for its size
}

// draft is a unit before it is made or merged into an alike one.
type draft struct {
	name     string
	weighed  bool
	headroom float64
	litres   float64 // placed in all its beds
	table    bool    // it is a table, not a bed
	parts    []unitPart
}

// addUnit makes a unit of the beds, or adds them to an alike one.
func (in *Instance) addUnit(units map[string]int, name string, weighed bool, headroom float64, beds []int, byBed map[int][]int) {
	d := draft{name: name, weighed: weighed, headroom: headroom, table: weighed && in.Job.Beds[beds[0]].Table != ""}
	for _, b := range beds {
		d.litres += in.litresOf(byBed[b])
	}
	in.draftParts(&d, beds, byBed)
	sign := d.signature()
	if u, ok := units[sign]; ok {
		in.merge(&in.Units[u], &d, byBed)
		return
	}
	units[sign] = len(in.Units)
	in.Units = append(in.Units, in.newUnit(&d, byBed))
}

// litresOf is the placed litres of some layers.
func (in *Instance) litresOf(atoms []int) (v float64) {
	for _, a := range atoms {
		v += in.Atoms[a].Litres
	}
	return v
}

// ratio is a part of the unit's litres in words, compared to nine digits: a
// difference below that moves less than a thimbleful in a thousand beds.
func (d *draft) ratio(v float64) string { return fmt.Sprintf("%.9g", v/d.litres) }

// kind tells layers apart that may not share a slot.
func (in *Instance) kind(a int, weighed bool) string {
	k := fmt.Sprintf("%d", in.Atoms[a].Suit)
	if weighed {
		k += fmt.Sprintf("@%.9g", in.Atoms[a].below)
	}
	return k
}

// draftParts makes one slot of each kind for beds without binding shares and one
// of each layer for the others, and puts them in an order that alike units share.
func (in *Instance) draftParts(d *draft, beds []int, byBed map[int][]int) {
	free := map[string]int{} // kind → part
	for _, b := range beds {
		shares := in.bindingShares(in.Job.Beds[b], byBed[b])
		if len(shares) == 0 && !in.apart {
			for _, a := range byBed[b] {
				k := in.kind(a, d.weighed)
				at, ok := free[k]
				if !ok {
					at = len(d.parts)
					free[k] = at
					d.parts = append(d.parts, unitPart{slots: []localSlot{{key: k, bed: -1}}})
				}
				slot := &d.parts[at].slots[0]
				slot.atoms = append(slot.atoms, a)
			}
			continue
		}
		part := unitPart{desc: "bed"}
		for _, a := range byBed[b] {
			k := in.kind(a, d.weighed)
			part.slots = append(part.slots, localSlot{key: k, atoms: []int{a}, bed: b})
			part.desc += fmt.Sprintf("[%s %s]", k, d.ratio(in.Atoms[a].Litres))
		}
		for _, sh := range shares {
			part.desc += fmt.Sprintf("{%s %.9g}", sh.Medium.Name, sh.Most)
		}
		if in.apart {
			part.desc += fmt.Sprintf("#%d", b)
		}
		d.parts = append(d.parts, part)
	}
	for _, at := range free {
		slot := d.parts[at].slots[0]
		d.parts[at].desc = fmt.Sprintf("[%s %s]", slot.key, d.ratio(in.litresOf(slot.atoms)))
	}
	slices.SortStableFunc(d.parts, func(a, b unitPart) int { return strings.Compare(a.desc, b.desc) })
}

// signature is equal for units that are alike but for their size.
func (d *draft) signature() string {
	var sign strings.Builder
	for _, part := range d.parts {
		sign.WriteString(part.desc)
	}
	if d.weighed {
		fmt.Fprintf(&sign, "limit %s", d.ratio(d.headroom))
	}
	return sign.String()
}

// newUnit makes a unit with its slots.
func (in *Instance) newUnit(d *draft, byBed map[int][]int) Unit {
	un := Unit{Name: d.name, Weighed: d.weighed, Headroom: d.headroom}
	un.stands(d)
	for _, part := range d.parts {
		var ids []int
		for _, ls := range part.slots {
			at := in.Atoms[ls.atoms[0]]
			ids = append(ids, len(in.Slots))
			in.Slots = append(in.Slots, slot{
				Name: in.slotName(ls.atoms[0]), Site: at.Site, Litres: in.litresOf(ls.atoms), Below: at.below,
				Suit: at.Suit, Atoms: ls.atoms, Unit: len(in.Units),
			})
		}
		un.Slots = append(un.Slots, ids...)
		if b := part.slots[0].bed; b >= 0 {
			for _, sh := range in.bindingShares(in.Job.Beds[b], byBed[b]) {
				un.Shares = append(un.Shares, ShareRow{in.Job.Beds[b].Name + "/" + sh.Medium.Name, sh.Medium, ids, sh.Most * in.litresIn(ids), sh.Most, []int{b}})
			}
		}
	}
	return un
}

// merge adds a draft to an alike unit, whose slots and shares stand in the same
// order.
func (in *Instance) merge(un *Unit, d *draft, byBed map[int][]int) {
	un.Headroom += d.headroom
	un.stands(d)
	slot, share := 0, 0
	for _, part := range d.parts {
		for _, ls := range part.slots {
			s := &in.Slots[un.Slots[slot]]
			s.Litres += in.litresOf(ls.atoms)
			s.Atoms = append(s.Atoms, ls.atoms...)
			slot++
		}
		if b := part.slots[0].bed; b >= 0 {
			for range in.bindingShares(in.Job.Beds[b], byBed[b]) {
				un.Shares[share].Beds = append(un.Shares[share].Beds, b)
				share++
			}
		}
	}
	for i := range un.Shares {
		sh := &un.Shares[i]
		sh.most = in.litresIn(sh.Slots) * sh.mostShare
	}
}

// litresIn is the placed litres of some slots.
func (in *Instance) litresIn(slots []int) (v float64) {
	for _, s := range slots {
		v += in.Slots[s].Litres
	}
	return v
}

// stands records one more table or bed that the unit stands for.
func (u *Unit) stands(d *draft) {
	u.Tables, u.Table, u.litres = append(u.Tables, d.name), append(u.Table, d.table), append(u.litres, d.litres)
}

// share works out the parts of the tables a unit stands for.
func (u *Unit) share() {
	sum := 0.0
	for _, v := range u.litres {
		sum += v
	}
	u.Parts = u.Parts[:0]
	for _, v := range u.litres {
		u.Parts = append(u.Parts, v/sum)
	}
}
