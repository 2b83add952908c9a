package document

import (
	"mediabuy/optimise"
	"mediabuy/quotes"
)

// Media is the machine-readable answer of media.
type Media struct {
	Media    []Medium                     `json:"media"`
	Warnings []optimise.DocumentComplaint `json:"warnings"`
}

// Medium is one medium; each property is low, usual and high. Densities and held
// water are kg of one litre, shares are parts of 1, minutes are for 100 L.
type Medium struct {
	Medium       string     `json:"medium"`
	OtherNames   []string   `json:"other_names"`
	DryDensity   [3]float64 `json:"dry_density"`
	HeldWater    [3]float64 `json:"held_water"`
	Voids        [3]float64 `json:"voids"`
	Feel         string     `json:"feel"`
	Carbonate    string     `json:"carbonate"`
	BreaksDown   string     `json:"breaks_down"` // "yes" or "no"
	RinseLoss    [3]float64 `json:"rinse_loss"`
	Settle       [3]float64 `json:"settle"`
	RinseMinutes [3]float64 `json:"rinse_minutes"`
	Source       string     `json:"source"`
}

// NewMedia sets out a media table.
func NewMedia(table *quotes.MediaTable, rep *quotes.Report) Media {
	d := Media{Media: []Medium{}, Warnings: optimise.DocumentWarnings(rep)}
	for _, m := range table.All() {
		rots := "no"
		if m.BreaksDown {
			rots = "yes"
		}
		d.Media = append(d.Media, Medium{m.Name, append([]string{}, m.OtherNames...), three(m.DryDensity), three(m.HeldWater), three(m.Voids),
			string(m.Feel), string(m.Carbonate), rots, three(m.RinseLoss), three(m.Settle), three(m.RinseMinutes), m.Source})
	}
	return d
}

func three[T ~float64](s quotes.Spread[T]) [3]float64 {
	return [3]float64{float64(s.Low), float64(s.Usual), float64(s.High)}
}
