package optimise

import (
	"time"

	"mediabuy/optimise/internal/model"
)

// seenAtOnce is what keeps a job from having any purchase as far as no solve is needed
// to know: each is the least that must give, whatever else does.
type seenAtOnce struct {
	heavy  []model.Overload
	scarce []model.Lack
}

// seenLimit bounds each solve that looks for the rest of what must give, where
// something is seen at once and could be told instead.
const seenLimit = 5 * time.Second

func (s *seenAtOnce) any() bool { return len(s.heavy)+len(s.scarce) > 0 }

// leaves reports whether the families of g may be enough: they are not where a frame is
// overloaded or the stocks are too small and they let neither give way.
func (s *seenAtOnce) leaves(g give) bool {
	return (len(s.heavy) == 0 || g.weights) && (len(s.scarce) == 0 || g.stock)
}

// obstacles are those that are seen.
func (s *seenAtOnce) obstacles(e *elasticProgram) []Obstacle {
	var out []Obstacle
	for _, h := range s.heavy {
		out = append(out, e.overweight(e.In.Units[h.Unit], h.Over)...)
	}
	for _, l := range s.scarce {
		out = append(out, e.short(e.suitMedia(l.Suit), l.Suit, l.Litres))
	}
	for i := range out {
		out[i].Remedy += "; that is the least, whole packs and other rules may ask for more"
	}
	return out
}
