package page

// piece is the least of a paper that is set as a whole: a paragraph, a row of a
// table, a picture with its words. Its height is known before it is drawn, so that
// sheets are ended where nothing is torn apart.
type piece struct {
	gap    float64 // room above it, left out at the head of a sheet
	height float64
	draw   func()
	with   bool   // stays on the sheet of the next piece
	fresh  bool   // begins a new sheet, if the one before is not all but empty
	again  *piece // set again above it at the head of a sheet, as headings of a table are
}

// Shares of a sheet. What is kept together is at most mostKept of one, so a sheet
// that is ended early is still more than a third full; a new part begins on a new
// sheet only behind one that is at least leastFull.
const (
	mostKept  = 0.62
	leastFull = 0.36
	leastLast = 0.2 // a last sheet that holds less is spared where that can be
)

// sheetRoom is the height that a sheet has for pieces.
func (x *pdfWriter) sheetRoom() float64 { return x.bottom() - pdfMargin }

// used is the height of this sheet that is taken.
func (x *pdfWriter) used() float64 { return x.GetY() - pdfMargin }

// sheets is how many sheets pieces take and how much of the last one they fill, by the
// rules of flow.
func (x *pdfWriter) sheets(list []piece) (n int, last float64) {
	n = 1
	used := 0.0
	for i, p := range list {
		begun := used > 0.1
		if p.fresh && used >= leastFull*x.sheetRoom() || begun && used+x.kept(list[i:]) > x.sheetRoom() {
			n, used, begun = n+1, 0, false
		}
		switch {
		case begun:
			used += p.gap
		case p.again != nil:
			used += p.again.height
		}
		used += p.height
	}
	return n, used / x.sheetRoom()
}

// flow draws pieces down the sheets.
func (x *pdfWriter) flow(list []piece) {
	for i, p := range list {
		begun := x.used() > 0.1
		if p.fresh && x.used() >= leastFull*x.sheetRoom() || begun && x.GetY()+x.kept(list[i:]) > x.bottom() {
			x.AddPage()
			begun = false
		}
		switch {
		case begun:
			x.SetY(x.GetY() + p.gap)
		case p.again != nil:
			p.again.draw()
		}
		y := x.GetY()
		p.draw()
		x.SetXY(pdfMargin, y+p.height)
	}
}

// kept is the height of the first piece with those that it must stay with.
func (x *pdfWriter) kept(list []piece) float64 {
	h := 0.0
	for i, p := range list {
		next := h + p.gap + p.height
		if i > 1 && next > mostKept*x.sheetRoom() {
			break
		}
		h = next
		if !p.with {
			break
		}
	}
	return h
}

// tall is the height of pieces set one below the other.
func tall(list []piece) float64 {
	h := 0.0
	for _, p := range list {
		h += p.gap + p.height
	}
	return h
}

// stay keeps pieces on one sheet with what comes behind them.
func stay(list []piece) []piece {
	for i := range list {
		list[i].with = true
	}
	return list
}
