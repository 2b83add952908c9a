package breakeven

import (
	"math"
	"slices"

	"mediabuy/optimise"
)

// maxProofs is how many proofs are kept for one target: each is about a megabyte.
const maxProofs = 12

// proofs are what was proven at one x or another, to begin with at the next.
type proofs []proofAt

type proofAt struct {
	x     float64
	proof *optimise.Proof
}

// add keeps a proof, if there is one. Today's, the first, stays; of the others the
// oldest makes way.
func (ps *proofs) add(x float64, p *optimise.Proof) {
	if p == nil {
		return
	}
	if len(*ps) == maxProofs {
		*ps = slices.Delete(*ps, 1, 2)
	}
	*ps = append(*ps, proofAt{x, p})
}

// nearest is the proof of the x nearest to this one, the last of several; nil if
// there is none.
func (ps proofs) nearest(x float64) *optimise.Proof {
	var best *optimise.Proof
	apart := math.Inf(1)
	for _, p := range ps {
		if d := math.Abs(p.x - x); d <= apart {
			best, apart = p.proof, d
		}
	}
	return best
}
