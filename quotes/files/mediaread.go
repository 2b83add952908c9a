package files

import (
	"fmt"
	"slices"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// rawMedium is a row of media.csv as text.
type rawMedium struct {
	Medium       string `csv:"medium" cell:"required"`
	OtherNames   string `csv:"other_names"`
	DryDensity   string `csv:"dry_density" cell:"number"`
	HeldWater    string `csv:"held_water" cell:"number"`
	Voids        string `csv:"voids" cell:"number"`
	Feel         string `csv:"feel"`
	Carbonate    string `csv:"carbonate"`
	BreaksDown   string `csv:"breaks_down"`
	RinseLoss    string `csv:"rinse_loss" cell:"number"`
	Settle       string `csv:"settle" cell:"number"`
	RinseMinutes string `csv:"rinse_minutes" cell:"number"`
	Source       string `csv:"source"`
}

// neededOfNew are the cells a medium that is not built in must fill; the others are 0 or empty.
var neededOfNew = []string{"dry_density", "held_water", "voids", "feel", "carbonate", "breaks_down"}

// maxHeldWater in kg per litre: a litre holds at most a litre of water.
const maxHeldWater units.Density = 1

// maxRinseMinutes per 100 L; a day of rinsing is a slip of the keyboard.
var maxRinseMinutes = units.DecimalFromInt(24 * 60)

// media reads media.csv into t, row by row: a known medium's filled cells
// replace its values, other names are added, and a new medium is put in.
func (x *reader) media(t *quotes.MediaTable, src Source) error {
	s, err := readSheet[rawMedium](x, src)
	if err != nil || s == nil {
		return err
	}
	firstRow := map[string]*row{} // under the key of the medium's own name
	for _, r := range s.rows {
		c := r.cell("medium")
		if !x.need(c, "the name of a medium", "write one of the built-in names to change it, or a new one") {
			continue
		}
		name := spelling.Tidy(c.text)
		old, known := t.Lookup(name)
		key := spelling.WordKey(name)
		if known {
			key = spelling.WordKey(old.Name)
		}
		if f := firstRow[key]; f != nil {
			x.fail(c, fmt.Sprintf("%s has a row already, line %d", spelling.Quoted(name), f.Line), "one row for each medium", "put what both say into one row")
			continue
		}
		firstRow[key] = r
		m := &quotes.Medium{Name: name}
		if known {
			*m = *old
			m.OtherNames = slices.Clone(old.OtherNames)
		}
		m.Pos = r.Pos
		if !x.medium1(t, m, r, old) {
			x.spoil(name)
			continue
		}
		t.Put(m)
	}
	return nil
}

// medium1 fills m from one row; old is the medium it overrides, or nil.
func (x *reader) medium1(t *quotes.MediaTable, m *quotes.Medium, r *row, old *quotes.Medium) bool {
	before := len(x.rep.Problems)
	if old == nil {
		for _, h := range neededOfNew {
			c := r.cell(h)
			if !c.blank() || c.off {
				continue
			}
			hint := "only a medium of the built-in table may leave it out"
			if c.absent {
				hint = "add the column; " + hint
			}
			x.fail(c, fmt.Sprintf("%s is a new medium and the cell is empty", spelling.Quoted(m.Name)), "a value", spelling.DidYouMean(m.Name, t.Names(), hint))
		}
	}
	x.otherNames(t, m, r.cell("other_names"), old)
	set(r.cell("dry_density"), &m.DryDensity, spread(x, x.density))
	set(r.cell("held_water"), &m.HeldWater, spread(x, x.heldWater))
	set(r.cell("voids"), &m.Voids, spread(x, x.share))
	set(r.cell("feel"), &m.Feel, func(c *cell) (quotes.Feel, bool) {
		return choice(x, c, []quotes.Feel{quotes.Smooth, quotes.Rough, quotes.Sharp}, "write how it treats the hands that plant in it")
	})
	set(r.cell("carbonate"), &m.Carbonate, func(c *cell) (quotes.MediumCarbonate, bool) {
		return choice(x, c, []quotes.MediumCarbonate{quotes.CarbonateNone, quotes.CarbonateSuspect, quotes.CarbonateYes}, "write suspect if it may carry lime")
	})
	set(r.cell("breaks_down"), &m.BreaksDown, x.yesNo)
	set(r.cell("rinse_loss"), &m.RinseLoss, spread(x, x.loss))
	set(r.cell("settle"), &m.Settle, spread(x, x.loss))
	set(r.cell("rinse_minutes"), &m.RinseMinutes, spread(x, x.rinseMinutes))
	m.Source, m.Citations = sourceOf(r, old), nil
	x.fitsLitre(m, r)
	return len(x.rep.Problems) == before
}

// densestSolid is the densest stone believed, in kg a litre of solid: basalt and
// lava come to 2.9 (Luque-Escalona, Acta Horticulturae 126, 1982, gives 2.93; seen).
const densestSolid = 3.0

// fitsLitre warns of a medium whose solid, water held and space empty when drained
// take up more than the litre they share, even if it were the densest stone.
func (x *reader) fitsLitre(m *quotes.Medium, r *row) {
	sum := float64(m.DryDensity.Usual)/densestSolid + m.HeldWater.Usual + m.Voids.Usual
	if sum <= 1+1e-9 {
		return
	}
	c := r.cell("dry_density")
	for _, heading := range []string{"voids", "held_water"} {
		if !r.cell(heading).blank() {
			c = r.cell(heading)
		}
	}
	x.warn(c, fmt.Sprintf("grains, held water and empty spaces of %s come to %.2f L in one litre", m.Name, sum),
		"voids is the space that is empty once drained; water that stays between grains belongs to held_water alone")
}

// set reads a filled cell into a field; an empty one leaves the field alone. It
// reports whether the cell, if filled, was good.
func set[T any](c *cell, to *T, read func(*cell) (T, bool)) bool {
	if c.blank() {
		return !c.off
	}
	v, ok := read(c)
	if ok {
		*to = v
	}
	return ok
}

// otherNames adds names; one that another medium has is a problem.
func (x *reader) otherNames(t *quotes.MediaTable, m *quotes.Medium, c *cell, old *quotes.Medium) {
	for _, n := range parts(c.text) {
		n = spelling.Tidy(n)
		owner, taken := t.Lookup(n)
		switch {
		case spelling.WordKey(n) == spelling.WordKey(m.Name) || taken && owner == old:
		case taken:
			x.fail(c, fmt.Sprintf("%s is a name of the medium %s already", spelling.Quoted(n), owner.Name), "a name no other medium has", "take the name out here")
		case !slices.ContainsFunc(m.OtherNames, func(o string) bool { return spelling.WordKey(o) == spelling.WordKey(n) }):
			m.OtherNames = append(m.OtherNames, n)
		}
	}
}

// heldWater reads kg of water per litre of media; the unit may be left out.
func (x *reader) heldWater(c *cell) (float64, bool) {
	if v, err := units.ParseNumber(c.text, c.mark); err == nil && v.IsZero() {
		return 0, true // a density of 0 is refused by its parser, but a medium may hold no water
	}
	d, err := units.ParseDensity(c.text, x.options(c, "kg/L"))
	v, ok := converted(x, c, d.Value, err)
	if ok && v > maxHeldWater {
		x.fail(c, fmt.Sprintf("%s is more water than a litre holds", spelling.Quoted(c.text)), "kg of water in one litre of drained media, 0 to 1", "weigh a litre drained and then dry; the difference in kg is meant")
		return 0, false
	}
	return float64(v), ok
}

func (x *reader) share(c *cell) (float64, bool) {
	v, err := units.ParseShare(c.text, c.mark)
	d, ok := converted(x, c, v, err)
	return d.Float(), ok
}

func (x *reader) rinseMinutes(c *cell) (float64, bool) {
	v, ok := x.number(c)
	if !ok {
		return 0, false
	}
	if v.Sign() < 0 || v.Cmp(maxRinseMinutes) > 0 {
		x.fail(c, spelling.Quoted(c.text)+" is no rinsing time", fmt.Sprintf("minutes for 100 L, from 0 to %s", maxRinseMinutes), "write the minutes that 100 L as bought take")
		return 0, false
	}
	return v.Float(), true
}

func (x *reader) yesNo(c *cell) (bool, bool) {
	w, ok := choice(x, c, []string{"yes", "no"}, "write yes if it rots or crumbles in water")
	return w == "yes", ok
}

// sourceOf says where a row's numbers come from, when the row does not.
func sourceOf(r *row, old *quotes.Medium) string {
	src := spelling.Tidy(r.cell("source").text)
	if src == "" {
		src = fmt.Sprintf("%s, line %d", r.File, r.Line)
	}
	if old != nil && old.Source != "" {
		src += "; what it leaves out: " + old.Source
	}
	return src
}
