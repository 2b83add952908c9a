package units

// Litres is a volume. It does not say whether the litres are as sold or as placed in a bed: names of fields do.
type Litres float64

// Kilograms is a mass.
type Kilograms float64

// Millimetres is a length.
type Millimetres float64

// Density is kilograms per litre, which is also grams per cubic centimetre and tonnes per cubic metre.
type Density float64

// Volume gives the litres that a mass fills. A density of 0 gives an infinity (or NaN for a mass of 0); ParseDensity
// never returns one.
func (d Density) Volume(m Kilograms) Litres { return Litres(float64(m) / float64(d)) }

// Mass gives the kilograms that a volume weighs.
func (d Density) Mass(v Litres) Kilograms { return Kilograms(float64(v) * float64(d)) }

// Measure is a quantity as read: the number in base units, the words it was written in, and the rule between them.
type Measure[Q ~float64] struct {
	Value Q      // in Q's own unit: litres, kilograms, millimetres or kilograms per litre
	Raw   string // the cell, exactly as given to the parser
	By    string // the factors used, such as "1 yd³ = 764.555 L"; empty when written in the base unit
	Note  string // a warning to pass on, such as a US short ton being assumed; empty when there is nothing to say
}

// Amount is what one pack holds, by volume or by mass. Only the one that IsMass names is set.
type Amount struct {
	IsMass bool
	Volume Measure[Litres]
	Mass   Measure[Kilograms]
	Raw    string // the cell, exactly as given to ParseAmount
}

// Ratio is how many of one amount another is; false where one is a weight and one a volume.
func (a Amount) Ratio(of Amount) (float64, bool) {
	switch {
	case a.IsMass != of.IsMass:
		return 0, false
	case a.IsMass:
		return float64(a.Mass.Value / of.Mass.Value), of.Mass.Value > 0
	}
	return float64(a.Volume.Value / of.Volume.Value), of.Volume.Value > 0
}

// Options says how to read a quantity. The zero value refuses bare numbers and numbers that can be read two ways.
type Options struct {
	Mark    DecimalMark // the sign between units and tenths; MarkUnknown means each number must prove its own
	Default string      // the unit of a bare number, such as "in"; empty means that a bare number is an error
}
