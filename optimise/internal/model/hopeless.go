package model

import "slices"

// Unsupplied lists the suits that nothing sold may fill.
func (p *Program) Unsupplied() []int {
	var out []int
	for u, su := range p.In.Suits {
		if !slices.ContainsFunc(su.Classes, func(k int) bool { _, ok := p.V[[2]int{k, u}]; return ok }) {
			out = append(out, u)
		}
	}
	return out
}

// Hopeless reports whether some layer has nothing that may fill it, or a frame
// cannot even carry what stands on it without media, so that no solve is needed
// to know.
func (p *Program) Hopeless() bool {
	return len(p.Unsupplied()) > 0 || slices.ContainsFunc(p.In.Units, func(u Unit) bool { return u.Weighed && u.Headroom < 0 })
}
