package optimise

import "slices"

// unsupplied lists the suits that nothing sold may fill.
func (p *program) unsupplied() []int {
	var out []int
	for u, su := range p.in.suits {
		if !slices.ContainsFunc(su.classes, func(k int) bool { _, ok := p.v[[2]int{k, u}]; return ok }) {
			out = append(out, u)
		}
	}
	return out
}

// hopeless reports whether some layer has nothing that may fill it, or a frame
// cannot even carry what stands on it without media, so that no solve is needed
// to know.
func (p *program) hopeless() bool {
	return len(p.unsupplied()) > 0 || slices.ContainsFunc(p.in.units, func(u unit) bool { return u.weighed && u.headroom < 0 })
}
