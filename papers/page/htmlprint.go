package page

import "mediabuy/papers/safe"

// A page printed by a browser leaves out of its first sheet what the same paper as PDF
// leaves out: a browser cannot be asked what fits. Its words are set smaller than there
// (page.css), so that what fits a sheet of the PDF fits one of the browser's. On a screen
// and for those who hear the page everything is there.

// shortened is a block as it stands on a sheet with room for less than all of it.
type shortened struct {
	table   *Table   // nil: the table is whole
	picture *Picture // nil: the picture is
}

// forSheet is how blocks of the parts that must stay on one sheet are shortened, by the
// place of the part and of the block.
func (p *Page) forSheet() map[[2]int]shortened {
	out := map[[2]int]shortened{}
	x := sheetWriter(p)
	above := tall(x.head())
	for i, s := range p.Sections {
		if s.SheetOnly {
			continue
		}
		if !s.OneSheet || above+tall(x.set(s)) <= x.sheetRoom() {
			above += tall(x.set(s))
			continue
		}
		short := x.shorten(s, above)
		for j, b := range short.Blocks {
			switch v := b.(type) {
			case *Table:
				if v != s.Blocks[j] {
					out[[2]int{i, j}] = shortened{table: v}
				}
			case *Picture:
				if v != s.Blocks[j] {
					out[[2]int{i, j}] = shortened{picture: v}
				}
			}
		}
		break // there is one first sheet
	}
	return out
}

// shorten puts beside the blocks of the clean page what stands for them on the sheet.
func (p *Page) shorten(how map[[2]int]shortened) {
	for at, s := range how {
		switch v := p.Sections[at[0]].Blocks[at[1]].(type) {
		case *Table:
			for i, r := range s.table.Rows {
				if r.runs {
					v.leaves, v.rest = i, cleanRow(r)
				}
			}
		case *Picture:
			v.Smaller = cleanBlock(s.picture).(*Picture)
		}
	}
}

func cleanRow(r Row) *Row {
	out := r
	out.Cells = nil
	for _, c := range r.Cells {
		c.Text = safe.Line(c.Text)
		out.Cells = append(out.Cells, c)
	}
	return &out
}
