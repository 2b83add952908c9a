package optimise

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
func (in *instance) weightGroups() []*weightGroup {
	var out []*weightGroup
	byTable := map[string]*weightGroup{}
	ofBed := make([]*weightGroup, len(in.job.Beds))
	for b, bed := range in.job.Beds {
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
	for a, at := range in.atoms {
		ofBed[at.bed].atoms = append(ofBed[at.bed].atoms, a)
	}
	return out
}

// bindingShares lists the shares of a bed that can bind: those of media that
// could otherwise fill more than the share allows.
func (in *instance) bindingShares(bed *quotes.Bed, atoms []int) []quotes.Share {
	var out []quotes.Share
	for _, sh := range bed.MaxShare {
		could, all := 0.0, 0.0
		for _, a := range atoms {
			all += in.atoms[a].litres
			for _, g := range in.suits[in.atoms[a].suit].grades {
				if in.grades[g].medium == sh.Medium {
					could += in.atoms[a].litres
					break
				}
			}
		}
		if in.plain && could > 0 || could > sh.Most*all*(1+1e-12) {
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
func (in *instance) findUnits() {
	pooled := map[string]int{} // key → slot, for atoms nothing ties down
	units := map[string]int{}  // signature → unit
	for _, g := range in.weightGroups() {
		weight := 0.0
		for _, a := range g.atoms {
			weight += in.atoms[a].litres * in.heaviest(in.atoms[a].suit, in.atoms[a].below)
		}
		weighed := g.limited && (in.plain || weight > g.headroom)

		byBed := map[int][]int{}
		var beds []int
		for _, a := range g.atoms {
			b := in.atoms[a].bed
			if byBed[b] == nil {
				beds = append(beds, b)
			}
			byBed[b] = append(byBed[b], a)
		}
		var tied []int // beds of this group that belong to the weighed unit
		for _, b := range beds {
			shares := in.bindingShares(in.job.Beds[b], byBed[b])
			switch {
			case weighed:
				tied = append(tied, b)
			case len(shares) > 0:
				in.addUnit(units, in.job.Beds[b].Name, false, 0, []int{b}, byBed)
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
func (in *instance) pool(pooled map[string]int, a int) {
	key := fmt.Sprintf("%d", in.atoms[a].suit)
	if in.plain {
		key = fmt.Sprintf("atom %d", a)
	}
	s, ok := pooled[key]
	if !ok {
		s = len(in.slots)
		pooled[key] = s
		at := in.atoms[a]
		in.slots = append(in.slots, slot{name: in.slotName(a), site: at.site, suit: at.suit, unit: -1})
	}
	in.slots[s].litres += in.atoms[a].litres
	in.slots[s].atoms = append(in.slots[s].atoms, a)
}

// addUnit makes a unit of the beds, or adds them to an alike one.
func (in *instance) addUnit(units map[string]int, name string, weighed bool, headroom float64, beds []int, byBed map[int][]int) {
	total := 0.0
	for _, b := range beds {
		for _, a := range byBed[b] {
			total += in.atoms[a].litres
		}
	}
	// ratio is compared to nine digits: a difference below that moves less than
	// a thimbleful in a thousand beds.
	ratio := func(v float64) string { return fmt.Sprintf("%.9g", v/total) }
	kind := func(a int) string {
		k := fmt.Sprintf("%d", in.atoms[a].suit)
		if weighed {
			k += fmt.Sprintf("@%.9g", in.atoms[a].below)
		}
		return k
	}
	litres := func(as []int) (v float64) {
		for _, a := range as {
			v += in.atoms[a].litres
		}
		return v
	}

	// Slots: one per kind for beds without binding shares, one per layer for
	// the others.
	free := map[string]*localSlot{}
	var parts [][]*localSlot // a part is a free slot, or all slots of a bed with shares
	var descs []string
	for _, b := range beds {
		shares := in.bindingShares(in.job.Beds[b], byBed[b])
		if len(shares) == 0 && !in.plain {
			for _, a := range byBed[b] {
				k := kind(a)
				if free[k] == nil {
					free[k] = &localSlot{key: k, bed: -1}
				}
				free[k].atoms = append(free[k].atoms, a)
			}
			continue
		}
		var part []*localSlot
		desc := "bed"
		for _, a := range byBed[b] {
			part = append(part, &localSlot{key: kind(a), atoms: []int{a}, bed: b})
			desc += fmt.Sprintf("[%s %s]", kind(a), ratio(in.atoms[a].litres))
		}
		for _, sh := range shares {
			desc += fmt.Sprintf("{%s %.9g}", sh.Medium.Name, sh.Most)
		}
		if in.plain {
			desc += fmt.Sprintf("#%d", b)
		}
		parts, descs = append(parts, part), append(descs, desc)
	}
	for k, ls := range free {
		parts, descs = append(parts, []*localSlot{ls}), append(descs, fmt.Sprintf("[%s %s]", k, ratio(litres(ls.atoms))))
	}
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return strings.Compare(descs[i], descs[j]) })
	var sig strings.Builder
	for _, i := range order {
		sig.WriteString(descs[i])
	}
	if weighed {
		fmt.Fprintf(&sig, "limit %s", ratio(headroom))
	}

	if u, ok := units[sig.String()]; ok {
		un := &in.units[u]
		n := 0
		for _, i := range order {
			for _, ls := range parts[i] {
				s := &in.slots[un.slots[n]]
				s.litres += litres(ls.atoms)
				s.atoms = append(s.atoms, ls.atoms...)
				n++
			}
		}
		un.headroom += headroom
		k := 0 // the shares stand in the same order
		for _, i := range order {
			if b := parts[i][0].bed; b >= 0 {
				for range in.bindingShares(in.job.Beds[b], byBed[b]) {
					un.shares[k].beds = append(un.shares[k].beds, b)
					k++
				}
			}
		}
		un.stands(name, weighed && in.job.Beds[beds[0]].Table != "", total)
		for i := range un.shares {
			un.shares[i].most = 0
			for _, s := range un.shares[i].slots {
				un.shares[i].most += in.slots[s].litres
			}
			un.shares[i].most *= un.shares[i].mostShare
		}
		return
	}

	u := len(in.units)
	units[sig.String()] = u
	un := unit{name: name, weighed: weighed, headroom: headroom}
	un.stands(name, weighed && in.job.Beds[beds[0]].Table != "", total)
	for _, i := range order {
		var ids []int
		for _, ls := range parts[i] {
			at := in.atoms[ls.atoms[0]]
			ids = append(ids, len(in.slots))
			in.slots = append(in.slots, slot{
				name: in.slotName(ls.atoms[0]), site: at.site, litres: litres(ls.atoms), below: at.below,
				suit: at.suit, atoms: ls.atoms, unit: u,
			})
		}
		un.slots = append(un.slots, ids...)
		if b := parts[i][0].bed; b >= 0 {
			all := 0.0
			for _, s := range ids {
				all += in.slots[s].litres
			}
			for _, sh := range in.bindingShares(in.job.Beds[b], byBed[b]) {
				un.shares = append(un.shares, shareRow{in.job.Beds[b].Name + "/" + sh.Medium.Name, sh.Medium, ids, sh.Most * all, sh.Most, []int{b}})
			}
		}
	}
	in.units = append(in.units, un)
}

// stands records one more table or bed that the unit stands for.
func (u *unit) stands(name string, table bool, litres float64) {
	u.tables, u.table, u.litres = append(u.tables, name), append(u.table, table), append(u.litres, litres)
}

// share works out the parts of the tables a unit stands for.
func (u *unit) share() {
	sum := 0.0
	for _, v := range u.litres {
		sum += v
	}
	u.parts = u.parts[:0]
	for _, v := range u.litres {
		u.parts = append(u.parts, v/sum)
	}
}
