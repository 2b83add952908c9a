package units

// Volumes in litres. Each is exact by definition. Source: NIST Handbook 44 Appendix C section 4 and NIST Special
// Publication 811 (2008) Appendix B, read in a secondary list and checked
// against GNU units 2.22 by TestFactorsAgainstGNUUnits.
const (
	Litre         Litres = 1
	Millilitre    Litres = 0.001
	CubicMetre    Litres = 1000
	CubicInch     Litres = 0.016387064    // (25.4 mm)³
	CubicFoot     Litres = 28.316846592   // 1728 in³
	CubicYard     Litres = 764.554857984  // 46 656 in³
	USGallon      Litres = 3.785411784    // 231 in³, the liquid gallon
	USLiquidQuart Litres = 0.946352946    // a quarter of 231 in³
	USDryQuart    Litres = 1.101220942715 // 2150.42/32 in³
	USBushel      Litres = 35.23907016688 // 2150.42 in³, struck level
	ImpGallon     Litres = 4.54609        // by definition since 1985
	ImpQuart      Litres = 1.1365225      // a quarter of an imperial gallon
	ImpBushel     Litres = 36.36872       // 8 imperial gallons
)

// Masses in kilograms. Each is exact by definition. Source: NIST SP 811 (2008) Appendix B and NIST Handbook 44 Appendix
// C; the figures were read in the definitions file of GNU units 2.22, which names both as its own sources.
const (
	Kilogram Kilograms = 1
	Gram     Kilograms = 0.001
	Pound    Kilograms = 0.45359237     // avoirdupois
	Ounce    Kilograms = 0.028349523125 // 1/16 lb
	ShortTon Kilograms = 907.18474      // 2000 lb, the ton of the United States
	LongTon  Kilograms = 1016.0469088   // 2240 lb, the ton of older British use
	Tonne    Kilograms = 1000
)

// Lengths in millimetres. Each is exact by definition. Source: as for the masses.
const (
	Millimetre Millimetres = 1
	Centimetre Millimetres = 10
	Metre      Millimetres = 1000
	Inch       Millimetres = 25.4
	Foot       Millimetres = 304.8 // the international foot
	Yard       Millimetres = 914.4
)
