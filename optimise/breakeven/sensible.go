package breakeven

import (
	"fmt"

	"mediabuy/quotes"
	"mediabuy/units"
)

// senseless is how many times what the beds take a buy may place before no buyer would
// think of it: stone by the thousand bags at next to nothing, to make up a smallest order
// or to have it brought free.
const senseless = 10

// leaveOutSenseless leaves out the changes at prices of next to nothing, at and below
// the highest of which such a buy is the cheapest, and says so. Where the target enters
// stays told.
func (s *Series) leaveOutSenseless(job *quotes.Job) {
	needed := bedLitres(job)
	cut := -1
	for i, c := range s.Changes {
		enters := s.Enters != nil && c.At.Equal(*s.Enters)
		if c.At.Cmp(s.Target.Now) < 0 && !enters && placedBy(c.Below) > senseless*needed {
			cut = i
		}
	}
	if cut < 0 {
		return
	}
	why := fmt.Sprintf("at %s and below, more than %d times what the beds take would be bought to make up an order, which is left out", s.Changes[cut].At.Text(toldDigits), senseless)
	if s.Partial != "" {
		why = s.Partial + "; " + why
	}
	s.Partial = why
	s.Changes = s.Changes[cut+1:]
}

// placedBy is what a buy places.
func placedBy(buy []Bought) units.Litres {
	sum := units.Litres(0)
	for _, b := range buy {
		sum += b.Quote.Placed() * units.Litres(b.Packs.Float())
	}
	return sum
}

// bedLitres is what all beds hold.
func bedLitres(job *quotes.Job) units.Litres {
	out := units.Litres(0)
	for _, b := range job.Beds {
		out += (b.LayerLitres(quotes.Top) + b.LayerLitres(quotes.Base)) * units.Litres(b.Count)
	}
	return out
}
