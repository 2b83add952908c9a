// Package bedsheet works out what beds take before any purchase: litres by layer,
// how many bags that is and how deep so many bags fill a bed, and what a bed or
// table weighs flooded in each medium.
package bedsheet

import (
	"cmp"
	"math"
	"slices"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Sheet is the answer for a whole job. Beds and tables are sorted by name, media
// by name, bags by size.
type Sheet struct {
	Beds    []Bed          `json:"beds"`
	Tables  []Table        `json:"tables"`
	Weights quotes.Weights `json:"weights"` // what stone is taken to weigh, heavy or usual
}

// Bed is what one bed takes; all of a count are alike.
type Bed struct {
	Bed     string   `json:"bed"`
	Count   int      `json:"count"`
	Table   string   `json:"table"`
	LimitKg *float64 `json:"limit_kg"` // its own; null on a table
	DepthMm float64  `json:"depth_mm"` // 0 for a bed given by volume
	Layers  []Layer  `json:"layers"`
	Bags    []Bag    `json:"bags"`
	Flooded []Weight `json:"flooded"`
	quotes  *quotes.Bed
}

// Layer is the placed litres of one layer; spare is bought and not placed.
type Layer struct {
	Layer  quotes.Layer `json:"layer"`
	Litres float64      `json:"litres"`
	Yards  float64      `json:"yards"` // cubic
	Metres float64      `json:"cubic_metres"`
}

// Bag is how many bags of one size and medium a bed takes, and how deep fewer fill
// it, with what the medium loses to rinsing and settling. The usual bag, which no
// quote need sell, has no medium and loses nothing.
type Bag struct {
	Pack   string  `json:"pack"`
	Medium string  `json:"medium"` // "" for the usual bag
	Litres float64 `json:"litres"` // as sold
	Placed float64 `json:"litres_placed"`
	Exact  float64 `json:"exact"` // bags and parts of a bag
	Bags   int64   `json:"bags"`  // whole bags
	Depths []Depth `json:"depths"`
}

// Depth is how deep a number of bags fills a bed that was given by measures.
type Depth struct {
	Bags int64   `json:"bags"`
	Mm   float64 `json:"depth_mm"`
}

// Weight is what a bed or table weighs flooded if one medium fills it, of the quotes
// of that medium the heaviest.
type Weight struct {
	Medium    string  `json:"medium"`
	FloodedKg float64 `json:"flooded_kg"`
	Over      bool    `json:"over"` // above the limit that is given
}

// Table is what one table weighs if one medium fills all of its beds.
type Table struct {
	Table   string   `json:"table"`
	Beds    []string `json:"beds"`
	LimitKg *float64 `json:"limit_kg"`
	Flooded []Weight `json:"flooded"`
}

// usualBag is the size of bag that is always shown (common practice, no source).
const usualBag = units.Litres(50)

// depthsShown is how many counts of bags are shown with their depth: those just
// below what the bed takes, and that.
const depthsShown = 5

// New works out the sheet of a job: bags of 50 L and of the sizes and media that
// the job's quotes may bring into some bed.
func New(job *quotes.Job) *Sheet {
	sizes := bagSizes(job)
	media := mediaOf(job)
	s := &Sheet{Beds: []Bed{}, Tables: []Table{}, Weights: job.Settings.Weights}
	tables := map[string]*Table{}
	for _, b := range job.Beds {
		bed := Bed{
			Bed: b.Name, Count: b.Count, Table: b.Table, DepthMm: units.Tidy(float64(b.Depth)),
			Layers: []Layer{}, Bags: []Bag{}, Flooded: []Weight{}, quotes: b,
		}
		extra := 1 + job.Settings.Extra.Float()
		total := 0.0
		for _, l := range []quotes.Layer{quotes.Base, quotes.Top} {
			if v := float64(b.LayerLitres(l)); v > 0 {
				bed.Layers = append(bed.Layers, Layer{l, units.Tidy(v), units.Tidy(v / float64(units.CubicYard)), units.Tidy(v / float64(units.CubicMetre))})
				total += v
			}
		}
		for _, size := range sizes {
			bed.Bags = append(bed.Bags, bagsOf(b, size, total*extra))
		}
		if b.Table == "" && b.Limit != nil {
			limit := float64(*b.Limit)
			bed.LimitKg = &limit
		}
		for _, m := range media {
			w := flooded(b, m, job.Settings.Weights)
			bed.Flooded = append(bed.Flooded, Weight{m[0].Medium.Name, units.Tidy(w), bed.LimitKg != nil && w > *bed.LimitKg})
		}
		s.Beds = append(s.Beds, bed)
		if b.Table != "" {
			addToTable(tables, b, bed.Flooded)
		}
	}
	for _, t := range tables {
		slices.Sort(t.Beds)
		s.Tables = append(s.Tables, *t)
	}
	slices.SortFunc(s.Beds, func(a, b Bed) int { return cmp.Compare(a.Bed, b.Bed) })
	slices.SortFunc(s.Tables, func(a, b Table) int { return cmp.Compare(a.Table, b.Table) })
	return s
}

func addToTable(tables map[string]*Table, b *quotes.Bed, each []Weight) {
	t := tables[b.Table]
	if t == nil {
		t = &Table{Table: b.Table, Flooded: make([]Weight, len(each))}
		if b.Limit != nil {
			limit := float64(*b.Limit)
			t.LimitKg = &limit
		}
		tables[b.Table] = t
	}
	t.Beds = append(t.Beds, b.Name)
	for i, w := range each {
		sum := units.Tidy(t.Flooded[i].FloodedKg + w.FloodedKg*float64(b.Count))
		t.Flooded[i] = Weight{w.Medium, sum, t.LimitKg != nil && sum > *t.LimitKg}
	}
}

// flooded is what bed b weighs in kilograms at the worst moment, filled with the
// heaviest of the quotes of one medium alone, its own weight included. Quotes of a
// medium weigh unlike where a yard states a density of its own.
func flooded(b *quotes.Bed, of []*quotes.Quote, by quotes.Weights) float64 {
	heaviest := 0.0
	for _, q := range of {
		w := float64(b.OwnWeight)
		for _, l := range quotes.Layers {
			w += max(0, float64(b.LayerLitres(l))) * q.Flooded(b.Below(l), by)
		}
		heaviest = max(heaviest, w)
	}
	return heaviest
}

// size is one size of bag.
type size struct {
	pack, medium   string
	litres, placed units.Litres
}

func bagSizes(job *quotes.Job) []size {
	out := []size{{"50 L", "", usualBag, usualBag}}
	fit := suitability.New(job)
	for i, q := range job.Quotes {
		same := func(s size) bool {
			return s.medium == q.Medium.Name && math.Abs(float64(s.litres-q.PackLitres)) < 1e-6 && math.Abs(float64(s.placed-q.Placed())) < 1e-6
		}
		if q.Form == quotes.Bag && fit.Usable(i) && !slices.ContainsFunc(out, same) {
			out = append(out, size{q.Pack.Raw, q.Medium.Name, q.PackLitres, q.Placed()})
		}
	}
	slices.SortStableFunc(out, func(a, b size) int { return cmp.Or(cmp.Compare(a.litres, b.litres), cmp.Compare(a.medium, b.medium)) })
	return out
}

// bagsOf turns litres of one bed into bags, and bags back into depth:
// (bags × placed litres + displaced) ÷ area, as pipes and drains lie in the media.
func bagsOf(b *quotes.Bed, s size, total float64) Bag {
	exact := total / float64(s.placed)
	out := Bag{Pack: s.pack, Medium: s.medium, Litres: units.Tidy(float64(s.litres)), Placed: units.Tidy(float64(s.placed)), Exact: units.Tidy(exact), Bags: int64(math.Ceil(exact - 1e-9)), Depths: []Depth{}}
	if b.Area() <= 0 {
		return out
	}
	for n := max(1, out.Bags-depthsShown+1); n <= out.Bags; n++ {
		out.Depths = append(out.Depths, Depth{n, units.Tidy((float64(n)*float64(s.placed) + float64(b.Displaced)) / b.Area())})
	}
	return out
}

// mediaOf lists the quotes that may come into some bed, those of one medium
// together, by its name.
func mediaOf(job *quotes.Job) [][]*quotes.Quote {
	fit := suitability.New(job)
	var out [][]*quotes.Quote
	for i, q := range job.Quotes {
		if !fit.Usable(i) {
			continue
		}
		m := slices.IndexFunc(out, func(of []*quotes.Quote) bool { return of[0].Medium == q.Medium })
		if m < 0 {
			out, m = append(out, nil), len(out)
		}
		out[m] = append(out[m], q)
	}
	slices.SortFunc(out, func(a, b []*quotes.Quote) int { return cmp.Compare(a[0].Medium.Name, b[0].Medium.Name) })
	return out
}

// Alike reports whether two beds take the same and weigh the same, so that text
// may show them once.
func (b *Bed) Alike(o *Bed) bool {
	return slices.Equal(b.Layers, o.Layers) && b.DepthMm == o.DepthMm && slices.Equal(b.Flooded, o.Flooded) &&
		(b.LimitKg == nil) == (o.LimitKg == nil) && (b.LimitKg == nil || *b.LimitKg == *o.LimitKg) && b.quotes.Area() == o.quotes.Area()
}
