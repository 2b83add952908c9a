package chart

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"image/color"
	"image/png"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// panels are the charts of a job worked out by hand elsewhere: 8 bags at 10 against
// 2 heaps at 30 and a fee of 30. Bags leave at 11.25.
func panels(t *testing.T) []Panel {
	job := jobtest.Files{
		Quotes:   "quote,supplier,medium,form,pack,price,size\nbag,Aldermoor,expanded clay,bag,50 L,10.00,8-16 mm\nheap,Brackwell,expanded clay,bulk,200 L,30.00,8-16 mm\n",
		Beds:     "bed,volume\none,400 L\n",
		Delivery: "supplier,order_fee\nBrackwell,30\n",
		Media:    "medium,rinse_loss,settle\nexpanded clay,0,0\n",
	}.Job(t)
	ctx := context.Background()
	plan, err := breakeven.Today(ctx, job, optimise.Options{})
	require.NoError(t, err)
	list, err := breakeven.ByPrice(ctx, job, plan, []breakeven.Target{breakeven.OfQuote(job, job.Quotes[0]), breakeven.OfSupplier("Brackwell")}, breakeven.Options{})
	require.NoError(t, err)
	bags, bulk, err := byvolume.BagsAndBulk(job, plan.Fit)
	require.NoError(t, err)
	v, err := byvolume.Between(job, bags, bulk, "", 800)
	require.NoError(t, err)
	return []Panel{Price(job, list[0]), Price(job, list[1]), Volume(job, v, units.Metric)}
}

func TestPanelsSayInWordsWhatTheyShow(t *testing.T) {
	p := panels(t)
	// From nothing at 0 up 8 for each 1 to 90 at 11.25, then flat.
	assert.Equal(t, []float64{0, 11.25, 11.25, 12.5}, p[0].Lines[0].X)
	assert.Equal(t, []float64{0, 90, 90, 90}, p[0].Lines[0].Y)
	assert.Equal(t, []Mark{{X: 10, Label: "today", Today: true}, {X: 11.25, Y: 90, Label: "stays in the plan up to 11.25"}}, p[0].Marks)
	assert.Equal(t, "price, percent of today's prices", p[1].XWords)
	assert.Contains(t, p[1].Marks[1].Label, "enters the plan at 83.33")
	assert.Equal(t, []bool{false, true}, []bool{p[2].Lines[0].Dashed, p[2].Lines[1].Dashed})
	require.NotEmpty(t, p[2].Marks)
	assert.Contains(t, p[2].Marks[0].Label, "bulk")
}

// A curve of which one quote after another is the cheapest is not called by the name of one of them.
//
//	up to 100 L the small heap for 20, above it the large one for 30, which seven bags of 50 L for 5 each cost more than
func TestCurveOfSeveralQuotes(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,max_qty\nbag,Aldermoor,grit,bag,50 L,5.00,\nsmall,Brackwell,grit,bulk,100 L,20.00,1\nlarge,Carrow,grit,bulk,400 L,30.00,\n",
		Beds:   "bed,volume\none,400 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	v, err := byvolume.OfMedium(job, byvolume.SoldBothWays(job, suitability.New(job))[0], "", 800)
	require.NoError(t, err)
	p := Volume(job, v, units.Metric)
	assert.Equal(t, "bag", p.Lines[0].Name)
	assert.Equal(t, "cheapest bulk of grit", p.Lines[1].Name)
	assert.Equal(t, "Cost by volume: bag or cheapest bulk of grit", p.Title)
	assert.Contains(t, p.Marks[0].Label, "cheapest bulk of grit")
}

// What is not proven between what is has its own dashes, and each kind of line one
// name.
func TestWhatIsNotProvenIsDashed(t *testing.T) {
	dec := units.DecimalFromInt
	piece := func(from, to int64, proven bool) breakeven.Piece {
		return breakeven.Piece{From: dec(from), To: dec(to), B: dec(2), Proven: proven}
	}
	s := breakeven.Series{Target: breakeven.Target{Now: dec(1)}, Pieces: []breakeven.Piece{
		piece(0, 2, true), piece(2, 3, true), piece(3, 5, false), piece(5, 6, true), piece(6, 7, false), piece(7, 9, false),
	}, Changes: []breakeven.Change{{At: dec(6)}}}
	assert.Equal(t, []Line{
		{Name: "cheapest buy", X: []float64{0, 2, 2, 3}, Y: []float64{0, 4, 4, 6}},
		{Name: "cheapest buy known, not proven", Dashed: true, X: []float64{3, 5}, Y: []float64{6, 10}},
		{X: []float64{5, 6}, Y: []float64{10, 12}},
		{Dashed: true, X: []float64{6, 7}, Y: []float64{12, 14}},
	}, curve(s, 1, 8))
	assert.Equal(t, "* cheapest buy   o cheapest buy known, not proven   # both", Panel{Lines: curve(s, 1, 8)}.legend())
}

func TestSVGIsWholeQuietAndRepeats(t *testing.T) {
	p := panels(t)
	var a, b bytes.Buffer
	require.NoError(t, Write(&a, "svg", p))
	require.NoError(t, Write(&b, "svg", p))
	assert.Equal(t, a.Bytes(), b.Bytes())
	for _, words := range []string{"stays in the plan up to 11.25", "bags (solid line)", "bulk (dashed line)", "today (dotted line)"} {
		assert.Contains(t, a.String(), words)
	}
	d := xml.NewDecoder(&a)
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		if e, ok := token.(xml.StartElement); ok {
			assert.NotEqual(t, "script", e.Name.Local)
			for _, at := range e.Attr {
				assert.False(t, strings.HasPrefix(at.Name.Local, "on"), at.Name.Local)
			}
		}
	}
}

// A chart in grey loses nothing: every point of the picture is grey.
func TestPNGIsGrey(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, "png", panels(t)[:1]))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	dark := 0
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			require.Equal(t, c.R, c.G)
			require.Equal(t, c.G, c.B)
			if c.R < 60 {
				dark++
			}
		}
	}
	assert.Greater(t, dark, 1000, "there is something to see")
}

// A line from 0 to 20, today's price and one mark.
const textWant = `  least cost of the whole job, EUR
     20.0 |                             :   ****
          |                          *******
          |                   *******   +
          |           ********          :
          |    *******                  :
        0 |****                         :
          +-------------------------------------
           0                                12.5
           price, EUR
           * cheapest buy   : today
           + leaves the plan at 11
`

func TestText(t *testing.T) {
	p := Panel{
		XWords: "price, EUR", YWords: "least cost of the whole job, EUR",
		Lines: []Line{{Name: "cheapest buy", X: []float64{0, 12.5}, Y: []float64{0, 20}}},
		Marks: []Mark{{X: 10, Today: true}, {X: 10, Y: 12, Label: "leaves the plan at 11"}},
	}
	got := Text(p, 49, 6)
	for l := range strings.SplitSeq(got, "\n") {
		assert.Equal(t, strings.TrimRight(l, " "), l)
		assert.LessOrEqual(t, len(l), 49)
	}
	assert.Equal(t, textWant, got)
	assert.Empty(t, Text(Panel{}, 80, 10))
}

func TestFormatAndRefusals(t *testing.T) {
	for name, want := range map[string]string{"a.svg": "svg", "b.PNG": "png"} {
		got, err := Format(name)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := Format("c.pdf")
	require.ErrorContains(t, err, "want a name ending in .svg or .png")
	require.ErrorContains(t, Write(io.Discard, "svg", nil), "no panel")
	require.ErrorContains(t, Write(io.Discard, "gif", panels(t)[:1]), `"gif"`)
	require.ErrorContains(t, Write(io.Discard, "svg", []Panel{{Title: "empty"}}), "no cost to draw")
}

// The stairs stand at the cost of the purchase that is surer, and the chosen one is
// marked where it is.
func TestSurenessRisesInStairs(t *testing.T) {
	dollars := func(n int64) units.Money { return units.MoneyOf(units.DecimalFromInt(n)) }
	p := Sureness("USD", []SureAt{{60, "60", dollars(100), false}, {90, "90", dollars(110), true}, {85, "85", dollars(112), false}, {99, "99", dollars(140), false}})
	assert.Equal(t, []Line{{Name: "cheapest buy found that is as sure", X: []float64{50, 60, 60, 90, 90, 99}, Y: []float64{100, 100, 110, 110, 140, 140}}}, p.Lines)
	assert.Equal(t, []Mark{{X: 90, Y: 110, Label: "chosen: $110.00 in 90 of 100 cases"}}, p.Marks)
	var b bytes.Buffer
	require.NoError(t, Write(&b, "svg", []Panel{p}))
	assert.Regexp(t, `>70<`, b.String())
	assert.NotRegexp(t, `>[0-9]+\.[0-9]*0<`, b.String(), "no axis has zeros behind the point")
	alone := Sureness("USD", []SureAt{{43, "43", dollars(100), true}})
	assert.Equal(t, []float64{33, 43}, alone.Lines[0].X)
}

// Long names leave the curves where they are: the line begins right of the axis and ends on the picture, and every label is
// whole and covers no other.
func TestLongLabelsKeepTheCurvesOnThePicture(t *testing.T) {
	const long = "Holloway & Daughters Stone Merchants/Black lava rock#2"
	p := Panel{Title: "Cost by volume", XWords: "placed litres", YWords: "cost",
		Lines: []Line{{Name: long, X: []float64{0, 1000}, Y: []float64{0, 500}}, {Name: long + "#3", Dashed: true, X: []float64{0, 600, 600, 1000}, Y: []float64{240, 240, 480, 480}}}}
	for _, x := range []float64{20, 340, 480, 786, 990} {
		p.Marks = append(p.Marks, Mark{X: x, Y: x / 2, Label: long + " always cheaper above 786 L"})
	}
	out, err := p.plot()
	require.NoError(t, err)
	c := draw.New(vgsvg.New(panelWidth, panelHeight))
	data := out.DataCanvas(c)
	left, right := data.X(out.X.Norm(0)), data.X(out.X.Norm(1000))
	assert.Greater(t, left, vg.Length(0.02)*panelWidth)
	assert.Less(t, left, vg.Length(0.15)*panelWidth)
	assert.LessOrEqual(t, right, panelWidth)
	assert.Greater(t, right, vg.Length(0.9)*panelWidth)
	l := labels{p.Marks, p.Lines}
	list := l.boxes(data, out, labelStyle())
	for i, a := range list {
		assert.True(t, a.Min.X >= data.Min.X && a.Max.X <= data.Max.X && a.Min.Y >= data.Min.Y && a.Max.Y <= data.Max.Y, "label %d is whole", i)
		for j, b := range list[:i] {
			assert.False(t, a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y, "labels %d and %d", j, i)
		}
	}
}

// Quotes that nobody named are called by item and pack, of whom they are, which is said once.
func TestQuotesWithoutNamesAreToldApart(t *testing.T) {
	job := jobtest.Files{
		Quotes: "supplier,item,medium,form,pack,price\nAldermoor,Black grit,grit,bag,50 L,10.00\nAldermoor,Black grit,grit,bulk,400 L,30.00\n",
		Beds:   "bed,volume\none,400 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	v, err := byvolume.OfMedium(job, byvolume.SoldBothWays(job, suitability.New(job))[0], "", 800)
	require.NoError(t, err)
	assert.Equal(t, "Cost by volume: Black grit (50 L bag) of Aldermoor or Black grit (400 L) of Aldermoor", Volume(job, v, units.Metric).Title)
	assert.Contains(t, Sentence(v, units.Metric), "above 150 L, Black grit (400 L) of Aldermoor is cheaper than bags")
}
