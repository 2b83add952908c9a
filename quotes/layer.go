package quotes

import "mediabuy/units"

// Layers lists both layers, in the order used for printing.
var Layers = []Layer{Top, Base}

// ByVolume reports whether the bed was given as a volume and not as measures.
func (b *Bed) ByVolume() bool { return b.Volume > 0 }

// Area is the inside area of one bed in square metres; 0 for a bed given by volume.
func (b *Bed) Area() float64 { return float64(b.Length) * float64(b.Width) / 1e6 }

// TopLitres is the volume of the top layer of one bed, before spare volume.
func (b *Bed) TopLitres() units.Litres { return b.LayerLitres(Top) }

// BaseLitres is the volume of the base layer of one bed, before spare volume,
// less what pipes, guards and drains take up.
func (b *Bed) BaseLitres() units.Litres { return b.LayerLitres(Base) }
