package page

import (
	"mediabuy/papers/safe"
)

// clean is the page with every text on one line and without signs that are not
// printed, for writers that set texts as they are.
func (p *Page) clean() *Page {
	out := *p
	out.Title, out.Subtitle, out.Alarm, out.Foot = safe.Line(p.Title), safe.Line(p.Subtitle), safe.Line(p.Alarm), safe.Line(p.Foot)
	out.Sections = nil
	for _, s := range p.Sections {
		s.Heading = safe.Line(s.Heading)
		blocks := make([]Block, len(s.Blocks))
		for i, b := range s.Blocks {
			blocks[i] = cleanBlock(b)
		}
		s.Blocks = blocks
		out.Sections = append(out.Sections, s)
	}
	return &out
}

func cleanBlock(b Block) Block {
	switch v := b.(type) {
	case *Para:
		out := *v
		out.Text = safe.Line(v.Text)
		return &out
	case *List:
		return &List{Items: cleanAll(v.Items)}
	case *Fields:
		return &Fields{Names: cleanAll(v.Names)}
	case *Table:
		out := *v
		out.Caption = safe.Line(v.Caption)
		out.Cols, out.Rows = nil, nil
		for _, c := range v.Cols {
			c.Name = safe.Line(c.Name)
			out.Cols = append(out.Cols, c)
		}
		for _, r := range v.Rows {
			row := Row{Kind: r.Kind}
			for _, c := range r.Cells {
				c.Text = safe.Line(c.Text)
				row.Cells = append(row.Cells, c)
			}
			out.Rows = append(out.Rows, row)
		}
		return &out
	case *Picture:
		d := *v.Drawing
		d.Shapes = nil
		for _, s := range v.Drawing.Shapes {
			s.Words = safe.Line(s.Words)
			d.Shapes = append(d.Shapes, s)
		}
		out := &Picture{Caption: safe.Line(v.Caption), Drawing: &d, Lines: cleanAll(v.Lines)}
		if v.Narrow != nil {
			out.Narrow = cleanBlock(v.Narrow).(*Picture)
		}
		return out
	case *Chart:
		out := *v
		out.Caption = safe.Line(v.Caption)
		return &out
	}
	return b
}

func cleanAll(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = safe.Line(s)
	}
	return out
}
