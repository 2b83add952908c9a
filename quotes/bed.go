package quotes

import "mediabuy/units"

// Layer is one of the two layers of a bed.
type Layer string

// The layers. A bed without a top layer is all base.
const (
	Top  Layer = "top"
	Base Layer = "base"
)

// DefaultWaterLine is how far below the media surface the flood stands when a
// bed does not say: one inch (common practice, no source).
const DefaultWaterLine units.Millimetres = 25.4

// litresPerCubicMillimetre turns mm³ into litres.
const litresPerCubicMillimetre = 1e-6

// LayerLitres is the volume to fill in layer l of one bed, in placed litres: area × top for the top layer, area × (depth − top) less
// what pipes and drains take for the base layer.
func (b *Bed) LayerLitres(l Layer) units.Litres {
	volume, top := b.Volume, b.TopVolume
	if b.Depth > 0 {
		area := float64(b.Length) * float64(b.Width) * litresPerCubicMillimetre
		volume = units.Litres(area * float64(b.Depth))
		top = units.Litres(area * float64(b.Top))
		if l == Base {
			return units.Litres(area*float64(b.Depth-b.Top)) - b.Displaced
		}
	}
	if l == Top {
		return top
	}
	return volume - top - b.Displaced
}

// Below is the share of layer l that stands below the water line at the worst
// moment, 0 to 1. A bed given by volume alone has no depth to measure the water
// line on: it counts as flooded to the surface, the heavier reading.
func (b *Bed) Below(l Layer) float64 {
	if b.NeverFloods {
		return 0
	}
	if b.Depth <= 0 {
		return 1
	}
	from, to := units.Millimetres(0), b.Top
	if l == Base {
		from, to = b.Top, b.Depth
	}
	if to <= from {
		return 0
	}
	return float64(max(0, to-max(from, b.WaterLine))) / float64(to-from)
}

// WaterAt20C is the density of water in kilograms a litre at 20 °C: 998.2071
// kg/m³ in published tables (seen), rounded to the three places of
// the weight formula.
const WaterAt20C = 0.998

// Demand is all placed litres of a job's beds, spare volume included.
func (j *Job) Demand() units.Litres {
	sum := units.Litres(0)
	for _, b := range j.Beds {
		for _, l := range Layers {
			sum += max(0, b.LayerLitres(l)) * units.Litres(b.Count)
		}
	}
	return sum
}

// BedCount is how many beds there are.
func (j *Job) BedCount() int {
	n := 0
	for _, b := range j.Beds {
		n += b.Count
	}
	return n
}

// LayersToFill is how many layers of the job's beds take something; beds that are many
// alike count once.
func (j *Job) LayersToFill() int {
	n := 0
	for _, b := range j.Beds {
		for _, l := range Layers {
			if b.LayerLitres(l) > 0 {
				n++
			}
		}
	}
	return n
}
