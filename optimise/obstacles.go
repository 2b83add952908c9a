package optimise

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// About lists in words what the obstacle is about: bed, layer, table and rule, as
// far as there are any.
func (o Obstacle) About() []string {
	var out []string
	if o.Bed != "" {
		out = append(out, quotes.BedNamed(o.Bed))
	}
	if o.Layer != "" {
		out = append(out, string(o.Layer)+" layer")
	}
	if o.Table != "" {
		out = append(out, "table "+o.Table)
	}
	return append(out, "rule "+o.Rule)
}

// AboutWith is what an obstacle is about, with what is short in the reader's own words for volumes.
func (o Obstacle) AboutWith(volume func(units.Litres) string) []string {
	about := o.About()
	switch {
	case o.Short > 0:
		about = append(about, volume(o.Short)+" short")
	case o.Over > 0:
		about = append(about, "too heavy") // by how much stands in the remedy, rounded up so that it is enough
	}
	return about
}

// NoOneObstacle says what stands in the way where no rule alone does.
const NoOneObstacle = "several rules together, none of them alone: raise a limit, allow more media, or ask for more quotes"

// least is what a slack must come to before it is worth naming: a spoonful, or
// as many grams.
const least = 1e-3

// obstacles reads the slacks of an answer as sentences.
func (e *elasticProgram) obstacles(x []float64) []Obstacle {
	var out []Obstacle
	for _, s := range e.slack {
		v := x[s.col]
		if v <= least {
			continue
		}
		switch s.rule {
		case RuleLimit:
			out = append(out, e.overweight(e.In.Units[s.unit], v)...)
		case RuleShare:
			out = append(out, e.overShare(e.In.Units[s.unit].Shares[s.share], v)...)
		case RuleSuppliers:
			out = append(out, Obstacle{Rule: RuleSuppliers, Remedy: fmt.Sprintf("no mix fills the beds from %s: allow %d more", units.Several(e.In.Job.Settings.MaxSuppliers, "supplier"), up(v))})
		case RuleDeliveries:
			out = append(out, Obstacle{Rule: RuleDeliveries, Remedy: fmt.Sprintf("no mix fills the beds with max_deliveries = %d: allow %d more", e.In.Job.Settings.MaxDeliveries, up(v))})
		case RuleMinOrder:
			d := e.In.Job.Settings.CurrencyDigits
			out = append(out, Obstacle{Rule: RuleMinOrder, Remedy: fmt.Sprintf(
				"what can be bought of %s stays %.*f below its smallest order of %.*f: ask it to take less", s.what, d, v*s.amount, d, s.amount)})
		case RuleMinQty:
			out = append(out, Obstacle{Rule: RuleMinQty, Remedy: fmt.Sprintf(
				"of %q fewer packs can be used than the least it is sold in: ask for %d steps less", s.what, up(v))})
		case RuleStock:
			if s.slot >= 0 {
				out = append(out, e.shortSlot(s.slot, v)...)
			} else {
				out = append(out, e.moreOf(s.grade, v, x)...)
			}
		}
	}
	return out
}

// overShare shares the litres too many of a medium out among the alike beds that
// a share stands for.
func (e *elasticProgram) overShare(sh model.ShareRow, litres float64) []Obstacle {
	all := 0.0
	for _, b := range sh.Beds {
		all += e.bedLitres(b)
	}
	var out []Obstacle
	for _, b := range sh.Beds {
		bed := e.In.Job.Beds[b]
		part := litres * e.bedLitres(b) / all / float64(bed.Count) // the share is of each
		out = append(out, Obstacle{Bed: bed.Name, Rule: RuleShare, Short: units.Litres(part), Remedy: fmt.Sprintf(
			"allow %s %s more in %s, or ask for a quote of another medium that suits it", sh.Medium.Name, e.volumeUp(part), eachBed(bed.Name, bed.Count))})
	}
	return out
}

// bedLitres is all that bed b (by index) takes, every one of its count.
func (e *elasticProgram) bedLitres(b int) float64 {
	sum := 0.0
	for _, a := range e.In.Atoms {
		if a.Bed == b {
			sum += a.Litres
		}
	}
	return sum
}

// enough rounds up, to a tenth below a hundred and to a whole number above, so that
// what is asked for is enough, but not for the noise of a solver.
func enough(v float64, unit string) string {
	if v > 100 {
		return fmt.Sprintf("%.0f %s", math.Ceil(v-1e-3), unit)
	}
	return fmt.Sprintf("%.1f %s", math.Ceil(v*10-1e-3)/10, unit)
}

// massUp and volumeUp are weights and volumes that are enough, in the habit of the job.
func (e *elasticProgram) massUp(kg float64) string {
	if e.In.Job.Settings.Speaks() == units.US {
		return enough(kg/float64(units.Pound), "lb")
	}
	return enough(kg, "kg")
}

func (e *elasticProgram) volumeUp(litres float64) string {
	if e.In.Job.Settings.Speaks() == units.US {
		return enough(litres/float64(units.CubicFoot), "ft³")
	}
	return enough(litres, "L")
}

// moreOf names the layers that lack litres of a grade: of those that hold it in
// the answer x, the last ones.
func (e *elasticProgram) moreOf(g int, litres float64, x []float64) []Obstacle {
	var out []Obstacle
	medium := e.In.Grades[g].Medium.Name
	for i := len(e.In.Suits) - 1; i >= 0; i-- {
		held := 0.0
		for _, t := range e.GradeOf(g, i, 1) {
			held += t.Coef * x[t.Col]
		}
		here := min(held, litres)
		if here <= least {
			continue
		}
		litres -= here
		out = append(out, e.short(medium, i, here))
	}
	return out
}

// short says that litres of a medium are not for sale and where they are wanted: in the
// last layer of suit u, or others like it.
func (e *elasticProgram) short(medium string, u int, litres float64) Obstacle {
	last := e.In.Suits[u].Slots[len(e.In.Suits[u].Slots)-1]
	at := e.In.Atoms[e.In.Slots[last].Atoms[len(e.In.Slots[last].Atoms)-1]]
	bed := e.In.Job.Beds[at.Bed]
	return Obstacle{Bed: bed.Name, Layer: at.Layer, Rule: RuleStock, Short: units.Litres(litres), Remedy: fmt.Sprintf(
		"%s more must be for sale of %s, or of another medium that suits; the %s of bed %q, or layers like it, stay short", e.volumeUp(litres*(1+e.In.Job.Settings.Extra.Float())), medium, at.Layer, bed.Name)}
}

func up(v float64) int {
	n := int(v)
	if v-float64(n) > intSlack {
		n++
	}
	return n
}

// intSlack is noise on a count.
const intSlack = 1e-4

// overweight shares the kilograms too many of a unit out among the alike tables
// it stands for.
func (e *elasticProgram) overweight(u model.Unit, kg float64) []Obstacle {
	var out []Obstacle
	for i, name := range u.Tables {
		over := kg * u.Parts[i]
		o := Obstacle{Rule: RuleLimit}
		where := fmt.Sprintf("table %q", name)
		if u.Table[i] {
			o.Table = name
		} else {
			o.Bed = name
			n := e.bedCount(name)
			over /= float64(n) // the limit is for each of them
			where = eachBed(name, n)
		}
		o.Over = units.Kilograms(over)
		o.Remedy = fmt.Sprintf("the lightest mix is %[1]s over the limit of %[2]s: ask for a lighter medium, or fill it less deep, or raise the limit by %[1]s once someone qualified has checked the frame", e.massUp(over), where)
		out = append(out, o)
	}
	return out
}

// eachBed names one bed or each of several alike.
func eachBed(name string, count int) string {
	if count > 1 {
		return fmt.Sprintf("each of the %d beds %q", count, name)
	}
	return fmt.Sprintf("bed %q", name)
}

func (e *elasticProgram) bedCount(name string) int {
	for _, b := range e.In.Job.Beds {
		if b.Name == name {
			return b.Count
		}
	}
	return 1
}

// shortSlot names the layers of a slot that stay short, last layers first.
func (e *elasticProgram) shortSlot(t int, litres float64) []Obstacle {
	var out []Obstacle
	atoms := e.In.Slots[t].Atoms
	for i := len(atoms) - 1; i >= 0 && litres > least; i-- {
		at := e.In.Atoms[atoms[i]]
		short := min(litres, at.Litres)
		litres -= short
		bed := e.In.Job.Beds[at.Bed]
		out = append(out, Obstacle{Bed: bed.Name, Layer: at.Layer, Rule: RuleStock, Short: units.Litres(short), Remedy: fmt.Sprintf(
			"%s more must be for sale of %s, or of another medium that suits the %s of bed %q", e.volumeUp(short), e.suitMedia(at.Suit), at.Layer, bed.Name)})
	}
	slices.Reverse(out)
	return out
}

func (e *elasticProgram) suitMedia(u int) string {
	var names []string
	for _, g := range e.In.Suits[u].Grades {
		if n := e.In.Grades[g].Medium.Name; !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	slices.Sort(names)
	return strings.Join(names, " or ")
}

// nothingFits explains a layer that no quote may fill, by the quote that comes
// nearest: the one with the fewest rules against it, and of several the one with the
// least: what a test or a word of the yard may mend, then its size, then its stone.
func nothingFits(p *model.Program, at model.Atom) Obstacle {
	job := p.In.Job
	bed := job.Beds[at.Bed]
	o := Obstacle{Bed: bed.Name, Layer: at.Layer, Rule: RuleStock, Short: units.Litres(at.Litres)}
	var nearest *quotes.Quote
	var against []suitability.Reason
	for qi, q := range job.Quotes {
		rs := append(slices.Clone(p.In.Fit.General[qi]), p.In.Fit.OfBed[at.Bed].Reasons[at.Layer][qi]...)
		if len(rs) == 0 {
			switch {
			case len(p.In.DropAt[[2]int{qi, at.Site}]) == 0:
				rs = []suitability.Reason{{Rule: suitability.Rule(RuleDelivery), Text: fmt.Sprintf("%s does not deliver %s goods to site %q", q.Supplier, q.Form, p.In.Sites[at.Site])}}
			default:
				rs = []suitability.Reason{{Rule: suitability.Rule(RuleStock), Text: "too little of it is in stock to sell any"}}
			}
		}
		if nearest == nil || cmp.Or(cmp.Compare(len(rs), len(against)), cmp.Compare(farOff(rs, q), farOff(against, nearest))) < 0 {
			nearest, against = q, rs
		}
	}
	if nearest == nil {
		o.Remedy = "ask for quotes: there are none"
		return o
	}
	o.Rule = string(against[0].Rule)
	var words []string
	for _, r := range against {
		words = append(words, r.Text)
	}
	o.Remedy = fmt.Sprintf("no quote suits it; the nearest is %q, but %s. %s", nearest.Name, strings.Join(words, "; and "), remedyFor(against, nearest))
	return o
}

// cure is what may do away with a reason, where a test or a word of the yard may; "" where neither does.
func cure(r suitability.Reason, q *quotes.Quote) string {
	switch {
	case r.Rule == suitability.RuleCarbonate && q.Carbonate == quotes.Untested && q.Medium.Carbonate == quotes.CarbonateSuspect:
		return "put an acid drop on several stones, and where none fizzes write none under carbonate"
	case r.Rule == suitability.RuleUnknownSize:
		return "ask the yard for its sieves and write them under size"
	case r.Rule == suitability.RuleDate:
		return "ask the yard for another day"
	case string(r.Rule) == RuleDelivery:
		return "ask whether it can be brought there, or fetch it, and write that in delivery.csv"
	case string(r.Rule) == RuleStock:
		return "ask whether there will be more"
	}
	return ""
}

// farOff is how much stands against a quote, of as many reasons: 0 for each that may be mended, 1 for a size, 2 for the stone itself.
func farOff(against []suitability.Reason, q *quotes.Quote) int {
	n := 0
	for _, r := range against {
		switch {
		case cure(r, q) != "":
		case r.Rule == suitability.RuleMinSize || r.Rule == suitability.RuleMaxSize:
			n++
		default:
			n += 2
		}
	}
	return n
}

// remedyFor says what would make the nearest quote suit, where a test or a word of the yard may do that.
func remedyFor(against []suitability.Reason, q *quotes.Quote) string {
	var all []string
	for _, r := range against {
		words := cure(r, q)
		if r.Rule == suitability.RuleTop && len(against) == 1 {
			return fmt.Sprintf("Ask for a smooth stone, or where hands may bear it write %s under top_media of the bed", q.Medium.Name)
		}
		if words == "" {
			return "Ask for another medium or grain size, or change what the bed asks for"
		}
		all = append(all, words)
	}
	return strings.ToUpper(all[0][:1]) + strings.Join(all, "; and ")[1:] + "; or ask for quotes of another medium"
}
