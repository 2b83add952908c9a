package page

import "slices"

// shorten leaves out of a part what the first sheet has no room for below what stands
// above it. Tables are cut by turns, then pictures show less, then the rows go that a
// table keeps as long as it may, of the last table first; what fits again in the end is
// put back, to the first table first.
func (x *pdfWriter) shorten(s Section, above float64) Section {
	cuts := map[int]int{}
	fits := func() bool { return above+tall(x.set(s.cut(cuts))) <= x.sheetRoom() }
	keep := func(t *Table) int { return max(t.Cut.Keep, leastRows) }
	for !fits() && (s.cutOne(cuts, keep) || s.smaller() || s.cutLast(cuts)) {
	}
	for i := range s.Blocks {
		for n := cuts[i]; n > 0; n-- {
			cuts[i] = n - 1
			if n == 2 { // a row in place of one saves nothing
				cuts[i] = 0
			}
			if !fits() {
				cuts[i] = n
				break
			}
		}
	}
	return s.cut(cuts)
}

// cutOne leaves out one more row of the table that has most above its least; two at
// first, as the row in their place takes room too. It is false where none can be left
// out any more. cuts holds how many are, by the place of the table.
func (s Section) cutOne(cuts map[int]int, least func(*Table) int) bool {
	best, most := -1, 0
	for i, b := range s.Blocks {
		if t, ok := b.(*Table); ok && t.Cut != nil {
			if over := t.Cut.To - max(2, cuts[i]+1) - least(t); over >= 0 && over+1 > most {
				best, most = i, over+1
			}
		}
	}
	if best < 0 {
		return false
	}
	cuts[best] = max(2, cuts[best]+1)
	return true
}

// cutLast leaves out one more row of the last table that has any to spare.
func (s Section) cutLast(cuts map[int]int) bool {
	for i := len(s.Blocks) - 1; i >= 0; i-- {
		t, ok := s.Blocks[i].(*Table)
		if n := max(2, cuts[i]+1); ok && t.Cut != nil && t.Cut.To-n >= leastRows {
			cuts[i] = n
			return true
		}
	}
	return false
}

// smaller puts in place of a picture the one that shows less; false where there is none.
func (s *Section) smaller() bool {
	for i, b := range s.Blocks {
		if p, ok := b.(*Picture); ok && p.Smaller != nil {
			s.Blocks = slices.Clone(s.Blocks)
			s.Blocks[i] = p.Smaller
			return true
		}
	}
	return false
}

// cut is the section with rows of its tables left out.
func (s Section) cut(cuts map[int]int) Section {
	s.Blocks = slices.Clone(s.Blocks)
	for i, n := range cuts {
		if n > 0 {
			s.Blocks[i] = s.Blocks[i].(*Table).shorter(n)
		}
	}
	return s
}
