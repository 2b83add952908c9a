package files

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// mixing reads the settings about weights, sureness and how stones are mixed.
func (s *settingsReader) mixing(raw *rawSettings) {
	setting(s, "weights", raw.Weights, &s.set.Weights, func(c *cell) (quotes.Weights, bool) {
		return choice(s.reader, c, []quotes.Weights{quotes.HeavyWeights, quotes.UsualWeights}, "heavy holds frames to the heaviest stone believed, usual to the usual one")
	})
	if s.set.Weights == quotes.UsualWeights {
		c, _ := s.cell("weights", raw.Weights)
		s.warn(c, "frames are held to usual weights: a lot of stone heavier or wetter than usual may overload them", "take the line out to hold them to heavy stone")
	}
	setting(s, "sure", raw.Sure, &s.set.Sure, s.chance)
	setting(s, "layer_mix", raw.LayerMix, &s.set.LayerMix, func(c *cell) (quotes.LayerMix, bool) {
		return choice(s.reader, c, []quotes.LayerMix{quotes.AnyMix, quotes.OneMix}, "one fills each layer with a single quote")
	})
	setting(s, "least_share", raw.LeastShare, &s.set.LeastShare, s.leastShare)
	if c, ok := s.cell("least_share", raw.LeastShare); ok && s.set.LayerMix == quotes.AnyMix && s.set.LeastShare > 0.5 {
		s.fail(c, fmt.Sprintf("%s leaves no room for a second thing in a layer", spelling.Quoted(c.text)), "at most 50% where layers may be mixed",
			`write layer_mix = "one" if each layer is to hold one thing bought`)
	}
}

// chance reads the sureness asked for.
func (x *reader) chance(c *cell) (float64, bool) {
	v, ok := x.percent(c)
	if !ok {
		return 0, false
	}
	if v.Sign() <= 0 || v.Cmp(units.D("0.999")) > 0 {
		x.fail(c, spelling.Quoted(c.text)+" is no chance that can be reached", "percent, more than 0 and at most 99.9", "write 90 for nine times in ten; leave the setting out for none")
		return 0, false
	}
	return v.Float(), true
}

func (x *reader) leastShare(c *cell) (float64, bool) {
	v, ok := x.percent(c)
	if ok && v.Cmp(units.D("1")) > 0 {
		x.fail(c, spelling.Quoted(c.text)+" is more than a layer", "percent of a layer, from 0 to 100", "write 20 for a fifth")
		return 0, false
	}
	return v.Float(), ok
}

// buyer reads the table of who buys: texts, and one table for each site.
func (s *settingsReader) buyer(v any) {
	table, ok := s.table("buyer", v)
	if !ok {
		return
	}
	b := &s.set.Buyer
	var here quotes.DropSpot // of a job that names no site
	fields := map[string]*string{"name": &b.Name, "phone": &b.Phone, "email": &b.Email, "address": &b.Address, "drop": &here.Drop, "access": &here.Access}
	for _, key := range slices.Sorted(maps.Keys(table)) {
		path := "buyer." + key
		if to, known := fields[key]; known {
			setting(s, path, table[key], to, plainText)
			continue
		}
		site, ok := table[key].(map[string]any)
		if !ok {
			c := s.cellAt("buyer", path)
			s.fail(c, spelling.Quoted(key)+" is nothing a buyer has", "name, phone, email, address, or a table for a site such as [buyer.North]",
				spelling.DidYouMean(key, slices.Sorted(maps.Keys(fields)), "take the line out, or name one of them"))
			continue
		}
		var spot quotes.DropSpot
		parts := map[string]*string{"drop": &spot.Drop, "access": &spot.Access}
		for _, k := range slices.Sorted(maps.Keys(site)) {
			to, known := parts[k]
			if !known {
				s.fail(s.cellAt("buyer", path+"."+k), spelling.Quoted(k)+" is nothing a site has here", "drop or access", spelling.DidYouMean(k, slices.Sorted(maps.Keys(parts)), "take the line out"))
				continue
			}
			setting(s, path+"."+k, site[k], to, plainText)
		}
		if b.Sites == nil {
			b.Sites = map[string]quotes.DropSpot{}
		}
		b.Sites[key] = spot
	}
	if here != (quotes.DropSpot{}) {
		if b.Sites == nil {
			b.Sites = map[string]quotes.DropSpot{}
		}
		b.Sites[""] = here
	}
}

// plainText takes a text as it stands.
func plainText(c *cell) (string, bool) { return strings.TrimSpace(c.text), !c.off }

// table takes a setting that must be a table; absent is no table and no problem.
func (s *settingsReader) table(key string, v any) (map[string]any, bool) {
	table, ok := v.(map[string]any)
	if !ok && v != nil {
		s.fail(s.cellAt(key, key), fmt.Sprintf("the value is %s", kindOf(v)), fmt.Sprintf("a table, with its settings under [%s]", key), "write each on a line of its own under it")
	}
	return table, ok
}

// cellAt is a cell that stands for a setting in messages.
func (s *settingsReader) cellAt(heading, path string) *cell {
	c := &cell{Pos: s.at[path], heading: heading}
	c.File = s.name
	return c
}
