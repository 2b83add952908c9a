package byvolume

import "mediabuy/units"

// Document sets two sides against each other. FirstLitres is the volume
// above which the right side is cheaper for the first time, AlwaysLitres the one
// above which it always is; null means never. A stretch is above FromLitres and up to
// ToLitres. Settled is false where nothing is known beyond LookedLitres.
type Document struct {
	Medium       string            `json:"medium,omitempty"` // of both sides, where they are of one
	Left         string            `json:"left"`
	Right        string            `json:"right"`
	Site         string            `json:"site"`
	FirstLitres  *float64          `json:"first_litres"`
	AlwaysLitres *float64          `json:"always_litres"`
	FirstPacks   *float64          `json:"first_packs"` // bags of left that place just more than FirstLitres
	AlwaysPacks  *float64          `json:"always_packs"`
	Stretches    []DocumentStretch `json:"stretches"`
	LookedLitres float64           `json:"looked_litres"`
	Settled      bool              `json:"settled"`
	Notes        []string          `json:"notes"`
}

// DocumentStretch is a range of volume; Cheaper is the name of a side, "equal" or
// "none".
type DocumentStretch struct {
	FromLitres float64 `json:"from_litres"`
	ToLitres   float64 `json:"to_litres"`
	Cheaper    string  `json:"cheaper"`
}

// NewDocument sets out one comparison.
func NewDocument(v *Volume) Document {
	litres := func(x *units.Litres) *float64 {
		if x == nil {
			return nil
		}
		f := units.Tidy(float64(*x))
		return &f
	}
	out := Document{
		Left: v.Left.Name, Right: v.Right.Name, Site: v.Site, FirstLitres: litres(v.First), AlwaysLitres: litres(v.Always),
		Stretches: []DocumentStretch{}, LookedLitres: units.Tidy(float64(v.Looked)), Settled: v.Settled, Notes: append([]string{}, v.Notes...),
	}
	if v.Medium != nil {
		out.Medium = v.Medium.Name
		packs := func(t *Tread) *float64 {
			if t == nil {
				return nil
			}
			n := t.Packs.Float()
			return &n
		}
		out.FirstPacks, out.AlwaysPacks = packs(v.BagsAt(v.First)), packs(v.BagsAt(v.Always))
	}
	for _, s := range v.Stretches {
		name := string(s.Cheaper)
		switch s.Cheaper {
		case Left:
			name = v.Left.Name
		case Right:
			name = v.Right.Name
		}
		out.Stretches = append(out.Stretches, DocumentStretch{units.Tidy(float64(s.From)), units.Tidy(float64(s.To)), name})
	}
	return out
}
