package caution

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Of lists what the buyer of a plan should know before lifting a bag, in a
// fixed order. An infeasible plan has none.
func Of(p *optimise.Plan, sys units.System) []Caution {
	if p.Bill == nil {
		return nil
	}
	c := &collector{plan: p, sys: sys}
	if one, ok := CalledFree(c.bought()); ok {
		c.out = append(c.out, one)
	}
	c.floating()
	c.nearLimit()
	c.heavyStone()
	c.unknownSize()
	c.sharpTop()
	c.heavyBags()
	c.acidDrops()
	c.dust()
	c.oneFee()
	return c.out
}

type collector struct {
	plan *optimise.Plan
	sys  units.System
	out  []Caution
}

func (c *collector) add(about, format string, args ...any) {
	c.out = append(c.out, Caution{About: about, Words: fmt.Sprintf(format, args...)})
}

// grain is the density of one grain of a medium in kg/L, dry or with the water
// it holds: the loose density over the share that is not voids.
func grain(m *quotes.Medium, soaked bool) float64 {
	w := float64(m.DryDensity.Usual)
	if soaked {
		w += m.HeldWater.Usual
	}
	return w / (1 - m.Voids.Usual)
}

// underWater is what one litre of a medium weighs under water, soaked, in
// kilograms: negative where it lifts.
func underWater(m *quotes.Medium) float64 {
	return float64(m.DryDensity.Usual) + m.HeldWater.Usual - (1-m.Voids.Usual)*quotes.WaterAt20C
}

// floating warns of media whose dry grains are lighter than water, by layer, and
// says whether the top layer weighs enough to hold down what floats beneath it.
func (c *collector) floating() {
	type place struct {
		layer quotes.Layer
		held  bool
	}
	for _, m := range c.media() {
		if grain(m, false) >= quotes.WaterAt20C {
			continue
		}
		beds := map[place][]string{}
		for _, f := range c.plan.Fills {
			for _, l := range f.Layers {
				if !f.Bed.NeverFloods && slices.Contains(mediaOf(l), m) {
					at := place{l.Layer, l.Layer == quotes.Base && heldDown(f)}
					beds[at] = append(beds[at], f.Bed.Name)
				}
			}
		}
		soak := "soak it before the first flood"
		if grain(m, true) < quotes.WaterAt20C {
			soak = "it floats even after a soak, so raise the water slowly and keep it below the surface"
		}
		var where []string
		for _, at := range []place{{quotes.Top, false}, {quotes.Base, true}, {quotes.Base, false}} {
			if len(beds[at]) == 0 {
				continue
			}
			cure := soak
			switch {
			case at.held:
				cure = "the top weighs enough to hold it, so place the top before the first flood"
			case at.layer == quotes.Base && len(where) > 0 && len(beds[place{quotes.Top, false}]) > 0:
				cure = "nothing above weighs enough to hold it, so there too"
			case at.layer == quotes.Base:
				cure = "nothing above weighs enough to hold it; " + soak
			}
			where = append(where, fmt.Sprintf("%s of %s: %s", at.layer, names(beds[at]), cure))
		}
		if len(where) > 0 {
			per, unit, digits, water := "kg/L", 1.0, 2, 3
			if c.sys == units.US {
				per, unit, digits, water = "lb/ft³", float64(units.CubicFoot)/float64(units.Pound), 1, 1
			}
			c.add("floats", "dry %s is lighter than water (a grain is %.*f %s dry, %.*f soaked, water %.*f); %s",
				m.Name, digits, unit*grain(m, false), per, digits, unit*grain(m, true), water, unit*quotes.WaterAt20C, strings.Join(where, "; "))
		}
	}
}

// media lists what the plan places, by name.
func (c *collector) media() []*quotes.Medium {
	var out []*quotes.Medium
	for _, q := range c.bought() {
		if !slices.Contains(out, q.Medium) {
			out = append(out, q.Medium)
		}
	}
	slices.SortFunc(out, func(a, b *quotes.Medium) int { return strings.Compare(a.Name, b.Name) })
	return out
}

func mediaOf(l optimise.LayerFill) []*quotes.Medium {
	var out []*quotes.Medium
	for _, part := range l.Parts {
		if !slices.Contains(out, part.Quote.Medium) {
			out = append(out, part.Quote.Medium)
		}
	}
	return out
}

// heldDown reports whether what the top layer weighs under water is at least the
// lift of the dry grains in the base that float. Heavy grains mixed among them do
// not count: light ones work their way up past them.
func heldDown(f optimise.BedFill) bool {
	weight := 0.0
	for _, l := range f.Layers {
		for _, part := range l.Parts {
			m := part.Quote.Medium
			switch {
			case l.Layer == quotes.Top:
				weight += float64(part.Litres) * underWater(m)
			case grain(m, false) < quotes.WaterAt20C:
				weight += float64(part.Litres) * (underWater(m) - m.HeldWater.Usual) // the first flood meets it dry
			}
		}
	}
	return weight >= 0
}

// nearLimit names every frame at or above [NearLimit] of what it may carry.
func (c *collector) nearLimit() {
	var near []string
	say := func(what string, w units.Kilograms, limit *units.Kilograms) {
		if limit != nil && float64(w) >= NearLimit*float64(*limit) {
			near = append(near, fmt.Sprintf("%s at %.0f %% (%s of %s)", what, 100*float64(w / *limit), Mass(w, c.sys), Mass(*limit, c.sys)))
		}
	}
	for _, t := range c.plan.Tables {
		say("table "+t.Name, t.Flooded, t.Limit)
	}
	for _, f := range c.plan.Fills {
		if f.Bed.Table == "" {
			say(quotes.BedNamed(f.Bed.Name), f.Flooded, f.Bed.Limit)
		}
	}
	if len(near) > 0 {
		c.add("weight", "near the limit when flooded: %s; a lot heavier still can use up the rest", strings.Join(near, ", "))
	}
}

// heavyStone names the frames that a lot at the heavy end of its range would
// overload, where the job holds them to usual weights only.
func (c *collector) heavyStone() {
	if over := Overloaded(c.plan, c.sys); len(over) > 0 {
		c.add("overload", "frames are held to usual weights; with stone at the heavy end of its range these pass their limits when flooded: %s; to be safe from it have the purchase planned with frames held to heavy stone", strings.Join(over, ", "))
	}
}

// Overloaded are the frames that stone at the heavy end of its range would load beyond their
// limits when flooded, with both weights; none where the job holds them to heavy stone.
func Overloaded(plan *optimise.Plan, sys units.System) []string {
	if plan.Job.Settings.Weights != quotes.UsualWeights {
		return nil
	}
	var over []string
	say := func(what string, w units.Kilograms, limit *units.Kilograms) {
		if limit != nil && w > *limit {
			over = append(over, fmt.Sprintf("%s (%s of %s)", what, Mass(w, sys), Mass(*limit, sys)))
		}
	}
	for _, f := range plan.Fills {
		if f.Bed.Table == "" {
			say(quotes.BedNamed(f.Bed.Name), f.Heavy, f.Bed.Limit)
		}
	}
	for _, t := range plan.Tables {
		say("table "+t.Name, t.Heavy, t.Limit)
	}
	return over
}

// unknownSize names stone of no stated size that goes where a bed asks for one.
func (c *collector) unknownSize() {
	var asked []string
	for _, f := range c.plan.Fills {
		if f.Bed.MinSize == nil && f.Bed.MaxSize == nil {
			continue
		}
		for _, l := range f.Layers {
			for _, part := range l.Parts {
				if words := part.Quote.NameWords() + " in " + quotes.BedNamed(f.Bed.Name); !part.Quote.Size.Known && !slices.Contains(asked, words) {
					asked = append(asked, words)
				}
			}
		}
	}
	if len(asked) > 0 {
		c.add("grain size", "no size is stated of what goes where a bed asks for one: %s; ask the yard, and measure at the tailgate", names(asked))
	}
}

// sharpTop names sharp stone in a top layer, where hands go.
func (c *collector) sharpTop() {
	var sharp []string
	for _, f := range c.plan.Fills {
		for _, l := range f.Layers {
			for _, part := range l.Parts {
				if l.Layer == quotes.Top && part.Quote.Medium.Feel == quotes.Sharp && !slices.Contains(sharp, f.Bed.Name) {
					sharp = append(sharp, f.Bed.Name)
				}
			}
		}
	}
	if len(sharp) > 0 {
		c.add("hands", "sharp stone lies on top of %s: wear gloves when planting", names(sharp))
	}
}

// heavyBags is about lifting, where a bag is more than an ideal lift.
func (c *collector) heavyBags() {
	heavy := slices.DeleteFunc(c.bought(), func(q *quotes.Quote) bool { return q.Form != quotes.Bag || q.PackMass <= IdealLift })
	if one, ok := Lifting(heavy, c.sys); ok {
		c.out = append(c.out, one)
	}
}

// acidDrops is about testing what is bought and may hold lime.
func (c *collector) acidDrops() {
	var suspect []string
	for _, q := range c.bought() {
		if q.Medium.Carbonate == quotes.CarbonateSuspect {
			words := q.NameWords()
			if q.Carbonate != quotes.NoFizz {
				words += " (not tested yet)"
			}
			suspect = append(suspect, words)
		}
	}
	if len(suspect) > 0 {
		c.out = append(c.out, AcidDrop("each load of "+strings.Join(suspect, ", ")))
	}
}

func (c *collector) dust() {
	if one, ok := Dust(c.bought(), c.plan.Job.Settings.Currency); ok {
		c.out = append(c.out, one)
	}
}

// oneFee names deliveries of several loads for the fee of one order, which a yard may mean for each of its trucks.
func (c *collector) oneFee() {
	var all []string
	for _, d := range c.plan.Bill.Drops {
		if d.Loads > 1 && d.Order.Sign() > 0 && d.Load.IsZero() {
			all = append(all, fmt.Sprintf("%d loads from %s for %s", d.Loads, d.Supplier, units.FormatMoney(d.Order, c.plan.Job.Settings.Currency)))
		}
	}
	if len(all) > 0 {
		c.add("one fee", "a fee for the order brings several loads: %s; have it in writing that it is not for each truck", strings.Join(all, ", "))
	}
}

// bought lists the quotes of the bill, each once.
func (c *collector) bought() []*quotes.Quote {
	var out []*quotes.Quote
	for _, l := range c.plan.Bill.Lines {
		if !slices.Contains(out, l.Quote) {
			out = append(out, l.Quote)
		}
	}
	return out
}

func names(list []string) string {
	if len(list) > 6 {
		return fmt.Sprintf("%s and %d more beds", strings.Join(list[:5], ", "), len(list)-5)
	}
	return strings.Join(list, ", ")
}

// Warnings are the cautions that change whether to order at all, as warnings for a
// reader that sees no others: a machine.
func Warnings(p *optimise.Plan, file string) []optimise.DocumentComplaint {
	var out []optimise.DocumentComplaint
	for _, c := range Of(p, units.Metric) {
		switch c.About {
		case "lime by name", "density", "overload", "grain size", "hands":
			out = append(out, optimise.DocumentComplaint{File: file, Line: 1, Column: 1, Message: c.Words})
		}
	}
	return out
}
