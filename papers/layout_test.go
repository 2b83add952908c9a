package papers

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// sheetOf is one sheet of a PDF as another program reads and draws it.
type sheetOf struct {
	Width  float64    `xml:"width,attr"` // points
	Height float64    `xml:"height,attr"`
	Lines  []lineOf   `xml:"flow>block>line"`
	inked  [2]float64 // the first and last height with anything drawn, above the foot; parts of the height
}

type lineOf struct {
	XMax  float64  `xml:"xMax,attr"`
	YMin  float64  `xml:"yMin,attr"`
	YMax  float64  `xml:"yMax,attr"`
	Words []string `xml:"word"`
}

func (l lineOf) text() string { return strings.Join(l.Words, " ") }

// sheets reads a PDF by another maker's tools.
func sheets(t *testing.T, pdf []byte) []sheetOf {
	dir := t.TempDir()
	name := filepath.Join(dir, "paper.pdf")
	require.NoError(t, os.WriteFile(name, pdf, 0o600))
	text, err := exec.Command(tool(t, "pdftotext", "poppler-utils"), "-bbox-layout", name, "-").Output()
	require.NoError(t, err)
	var doc struct {
		Sheets []sheetOf `xml:"body>doc>page"`
	}
	require.NoError(t, xml.Unmarshal(text, &doc), "control characters would not parse")
	require.NoError(t, exec.Command(tool(t, "pdftoppm", "poppler-utils"), "-r", "36", "-gray", "-png", name, filepath.Join(dir, "s")).Run())
	drawn, err := filepath.Glob(filepath.Join(dir, "s-*.png"))
	require.NoError(t, err)
	require.Len(t, drawn, len(doc.Sheets))
	for i, path := range drawn {
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		img, err := png.Decode(bytes.NewReader(b))
		require.NoError(t, err)
		doc.Sheets[i].inked = inked(img)
	}
	return doc.Sheets
}

// marginMM is kept free of words at the right.
const marginMM = 10

// footMM is what the foot of a sheet takes.
const footMM = 14.5

// inked is where drawing begins and ends above the foot.
func inked(img image.Image) [2]float64 {
	b := img.Bounds()
	h := float64(b.Dy())
	end := b.Max.Y - int(math.Ceil(footMM/25.4*36)) - 1
	out := [2]float64{1, 0}
	for y := b.Min.Y; y < end; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0xd000 {
				out[0] = min(out[0], float64(y)/h)
				out[1] = max(out[1], float64(y)/h)
				break
			}
		}
	}
	return out
}

// wellLaid holds a paper's PDF to what a reader expects of its sheets: a size, every
// one but the last more than a third full, and no heading, caption or lead alone at
// its foot.
func wellLaid(t *testing.T, p *page.Page) []sheetOf {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, p.PDF(&b))
	list := sheets(t, b.Bytes())
	width := 595.28 // A4
	if p.Letter {
		width = 612
	}
	var heads []string
	for _, s := range p.Printed() {
		heads = append(heads, s.Heading)
		for _, b := range s.Blocks {
			switch v := b.(type) {
			case *page.Picture:
				heads = append(heads, v.Caption)
			case *page.Table:
				heads = append(heads, v.Caption)
			case *page.Para:
				if v.Leads {
					heads = append(heads, v.Text)
				}
			}
		}
	}
	for i, s := range list {
		where := fmt.Sprintf("sheet %d of %d of %q", i+1, len(list), p.Title)
		assert.InDelta(t, width, s.Width, 1, where)
		if i < len(list)-1 {
			assert.Greater(t, s.inked[1]-s.inked[0], 1.0/3, "%s is less than a third full", where)
		}
		var last lineOf
		for _, l := range s.Lines {
			assert.LessOrEqual(t, l.XMax, s.Width-marginMM/25.4*72, "%s has words that run off it: %q", where, l.text())
			// The font is 1.117 of its size from the highest to the lowest of its signs.
			assert.GreaterOrEqual(t, (l.YMax-l.YMin)/1.117, 7.4, "%s has too small words: %q", where, l.text())
			if l.YMax < s.Height-footMM/25.4*72 && l.YMax > last.YMax {
				last = l
			}
		}
		for _, h := range heads {
			if h != "" && strings.HasPrefix(h, last.text()) {
				// Only a picture may come behind it, and then there is drawing below it.
				assert.Greater(t, s.inked[1]*s.Height, last.YMax+20, "%s ends with %q", where, h)
			}
		}
	}
	return list
}

// textOf is all words of a sheet in one line.
func (s sheetOf) textOf() string {
	var out []string
	for _, l := range s.Lines {
		out = append(out, l.text())
	}
	return strings.Join(out, " ")
}

// The decision stands on the first sheet as a whole, from what to buy to the place
// to sign, and the appendices behind it.
func TestDecisionOnOneSheet(t *testing.T) {
	for _, letter := range []bool{false, true} {
		for _, reader := range []Audience{"", Client, Coop} {
			in := gardensInput(t)
			in.For = reader
			p, err := Justify(in, Style{Letter: letter, Units: units.US})
			require.NoError(t, err)
			list := wellLaid(t, p)
			first := list[0].textOf()
			for _, words := range []string{"for $679.95 in all", "Order by", "You save", "The beds once filled", "What is asked of you", "Approved: a purchase of $679.95", "ignature, date"} {
				assert.Contains(t, first, words)
			}
			assert.NotContains(t, first, "A. The bill")
			assert.Contains(t, list[1].textOf(), "A. The bill, line by line")
		}
	}
}

// crowded is the input of a report on a purchase from many suppliers for many beds.
func crowded(t *testing.T, suppliers, beds int) Input {
	f := plot
	f.beds = "bed,length,width,depth,table,limit\n"
	litres := 0
	for i := range beds {
		f.beds += fmt.Sprintf("bed of the long terrace %d,2 m,1 m,%d cm,frame %d,9000 kg\n", i+1, 30+i, i+1)
		litres += 20 * (30 + i)
	}
	f.quotes = "quote,supplier,item,medium,form,pack,price,max_qty,carbonate,valid_until\n"
	f.delivery = "supplier,order_fee\n"
	for i := range suppliers { // each has only a part of what is needed
		f.quotes += fmt.Sprintf("q%d,Yard and Landscape Supply of the %d. Valley,round pebble washed twice,pebble,bag,50 L,%d.50,%d,none,2026-06-30\n", i+1, i+1, 8+i%5, litres/50/suppliers+2)
		f.delivery += fmt.Sprintf("Yard and Landscape Supply of the %d. Valley,%d\n", i+1, 15+i)
	}
	job := f.withMedia(t)
	var items []bill.Item
	for _, q := range job.Quotes {
		items = append(items, bill.Item{Quote: q, Steps: int64(litres/50/suppliers + 1)})
	}
	plan := bought(t, job, items...)
	plan.Fills = solve(t, job).Fills
	in := Input{Plan: plan}
	for i := range 8 {
		in.Ways = append(in.Ways, WayOf(fmt.Sprintf("way %d", i+1), plan))
	}
	return in
}

// A purchase from many suppliers for many beds is still decided on one sheet: what
// does not fit is counted there, with its money, and stands in the appendix.
func TestDecisionOfManyOnOneSheet(t *testing.T) {
	for _, n := range []struct{ suppliers, beds int }{{12, 10}, {25, 40}, {60, 90}} {
		in := crowded(t, n.suppliers, n.beds)
		plan := in.Plan
		for _, letter := range []bool{false, true} {
			p, err := Justify(in, Style{Letter: letter, Units: units.US})
			require.NoError(t, err)
			list := wellLaid(t, p)
			first := list[0].textOf()
			for _, words := range []string{"Order by", "You save", "The beds once filled", "What is asked of you", "Approved: a purchase of", "Signature, date", "Total"} {
				assert.Contains(t, first, words, "%d suppliers", n.suppliers)
			}
			assert.Contains(t, list[1].textOf(), "A. The bill, line by line")
			if n.suppliers >= 25 {
				more := regexp.MustCompile(`and (\d+) more suppliers,? see A`).FindStringSubmatch(first)
				require.NotNil(t, more)
				left, err := strconv.Atoi(more[1])
				require.NoError(t, err)
				assert.GreaterOrEqual(t, n.suppliers-left, 4, "suppliers have room")
			}
			// Beds that look alike are drawn once.
			assert.Contains(t, first, fmt.Sprintf("%d beds like bed of the long terrace 1", n.beds))
			// What stands on the sheet adds up to its total.
			var sum units.Money
			table := regexp.MustCompile(`(?s)Order by(.*?)Total \$`).FindStringSubmatch(first)
			require.NotNil(t, table)
			for _, m := range regexp.MustCompile(`\$([\d,]+\.\d\d)`).FindAllStringSubmatch(table[1], -1) {
				sum = sum.Add(units.MoneyOf(units.D(strings.ReplaceAll(m[1], ",", ""))))
			}
			assert.Equal(t, plan.Bill.Total.Text(2), sum.Text(2))
			// Nothing of it is lost: the appendix and the other forms name every supplier.
			behind := ""
			for _, s := range list[1:] {
				behind += s.textOf() + " "
			}
			for i := range n.suppliers {
				assert.Contains(t, behind, fmt.Sprintf("of the %d. Valley", i+1))
			}
		}
	}
}

// However many beds, suppliers and ways there are, sheets are well laid.
func TestSheetsOfAnyReportAreWellLaid(t *testing.T) {
	for _, n := range []int{1, 2, 3, 5, 8, 13, 21} {
		f := plot
		f.beds = "bed,length,width,depth,table,limit\n"
		for i := range n {
			f.beds += fmt.Sprintf("box %d,%d cm,1 m,%d cm,frame %d,9000 kg\n", i+1, 100+i, 30+i, i+1)
		}
		job := f.withMedia(t)
		plan := solve(t, job)
		in := Input{Plan: plan, Compared: optimise.Compare(job, plan.Fit, optimise.CompareOptions{}), Charts: []Chart{pictured(t), pictured(t)}}
		for i := range n {
			in.Ways = append(in.Ways, WayOf(fmt.Sprintf("way %d", i+1), plan))
		}
		p, err := Justify(in, Style{Letter: n%2 == 0})
		require.NoError(t, err)
		list := wellLaid(t, p)
		for _, s := range list { // a chart's words stand below it on its sheet
			for i := range in.Charts {
				if strings.Contains(s.textOf(), in.Charts[i].Sentence) {
					assert.Greater(t, s.inked[1]-s.inked[0], 0.2)
				}
			}
		}
	}
}

// Long names beside the picture of a bed and its frame run on below and not off the sheet.
func TestLongNamesStayOnTheSheet(t *testing.T) {
	f := plot
	f.quotes = "supplier,item,medium,form,pack,price,max_qty,carbonate\n" +
		"KETTLE MOOR GARDEN SUPPLIES AND SONS OF THE UPPER VALLEY,Expanded shale washed twice and sieved once more,expanded shale,bag,50 L,17.50,,none\n"
	f.beds = "bed,length,width,depth,table,limit\nlong,2 m,1 m,30 cm,the long frame under the north wall of the second glasshouse,9000 kg\n"
	plan := solve(t, f.withMedia(t))
	p, err := Justify(Input{Plan: plan}, Style{Units: units.Metric})
	require.NoError(t, err)
	words := ""
	for _, s := range wellLaid(t, p) {
		words += s.textOf() + " "
	}
	assert.Contains(t, words, "L of expanded shale, Expanded shale washed twice and sieved once more of KETTLE MOOR GARDEN SUPPLIES AND SONS OF THE UPPER VALLEY")
	assert.Contains(t, words, "table the long frame under the north wall of the second glasshouse carries")
}

func TestSheetByCurrency(t *testing.T) {
	for currency, letter := range map[string]bool{"USD": true, "GBP": false, "EUR": false, "": false} {
		assert.Equal(t, letter, LetterFor(currency), currency)
	}
}

// pictured is a chart of one grey area.
func pictured(t *testing.T) Chart {
	img := image.NewGray(image.Rect(0, 0, 300, 200))
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	return Chart{PNG: b.Bytes(), Sentence: "A grey area with its words below."}
}

func TestOrdersAreWellLaid(t *testing.T) {
	in := gardensInput(t)
	long := strings.Repeat("the growers of the long field by the old mill ", 4)
	in.Plan.Job.Settings.Buyer = quotes.Buyer{Name: long, Phone: "555-0100", Email: "growers@example", Address: long, Sites: map[string]quotes.DropSpot{"north": {Drop: long}}}
	orders, err := Orders(in.Plan, Style{})
	require.NoError(t, err)
	sum := in.Plan.Bill.Rinsing
	for _, o := range orders {
		first := wellLaid(t, o.Page(Style{}))[0].textOf()
		// What is signed stands on the first sheet, with the total it is signed for.
		assert.Contains(t, first, "Total to pay $"+o.Total.Text(2))
		assert.Contains(t, first, "For the buyer")
		assert.Contains(t, first, "Accepted by")
		sum = sum.Add(o.Total)
	}
	assert.Equal(t, in.Plan.Bill.Total.Text(2), sum.Text(2))
	requests, err := Requests(in.Plan.Job, nil, Style{})
	require.NoError(t, err)
	for _, r := range requests {
		wellLaid(t, r.Page(Style{Letter: true}))
	}
}
