package statement

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/units"
)

// figure is the last cell of a row as a number of last digits, and its words.
func figure(t *testing.T, c page.Cell, system units.System) int64 {
	t.Helper()
	require.NotNil(t, c.Number, c.Text)
	scale := 1.0
	if system == units.US {
		scale = 10
	}
	v := math.Round(*c.Number * scale)
	assert.InDelta(t, v, *c.Number*scale, 1e-9, "a spreadsheet's number is the one printed: %s", c.Text)
	want := fmt.Sprintf("%.0f", v)
	if system == units.US {
		want = fmt.Sprintf("%.1f", v/10)
	}
	assert.Equal(t, want, c.Text)
	return int64(v)
}

// tablesOf are a page's tables with a column of volumes, and that column.
func tablesOf(p *page.Page) (out []*page.Table, cols []int) {
	for _, s := range p.Sections {
		for _, b := range s.Blocks {
			t, ok := b.(*page.Table)
			if !ok {
				continue
			}
			for j, c := range t.Cols {
				if c.Name == "Cubic feet placed" || c.Name == "Litres placed" {
					out, cols = append(out, t), append(cols, j)
				}
			}
		}
	}
	return out, cols
}

// Whoever adds up the printed volumes of a table comes to the sum printed below them,
// and a member's figure is the same on its statement and on the treasurer's page. By
// hand: 100.4 + 100.4 + 100.4 L is 301.2, of which three times 100 would miss 1; dune's
// 622.9 + 622.9 + 415.3 + 415.3 L are 22.0 + 22.0 + 14.7 + 14.7 ft³, 0.1 more than the
// 73.3 that they come to.
func TestPrintedVolumesAddUp(t *testing.T) {
	var beds strings.Builder
	beds.WriteString("bed,volume,member\na,100.4 L,ash\nb,100.4 L,birch\nc,100.4 L,cedar\nd,622.9 L,dune\ne,622.9 L,dune\nf,415.3 L,dune\ng,415.3 L,dune\nh,33.3 L,ash: 1; birch: 1; cedar: 1\n")
	for i := range 20 { // more than a statement names
		fmt.Fprintf(&beds, "i%d,%d.4 L,elm\n", i, 10+i)
	}
	told := false
	for _, quotes := range []string{clay, gravel + "other,Vale Yard,expanded clay,bag,1 L,0.40,8-16 mm,none\n"} {
		res := split(t, quotes, beds.String(), van, share.Options{Rule: share.ByLitres})
		for _, system := range []units.System{units.Metric, units.US} {
			want := map[string]int64{}
			list, cols := tablesOf(Treasurer(res, system))
			require.Len(t, list, 1)
			sum := int64(0)
			for _, r := range list[0].Rows[:len(res.Members)] {
				v := figure(t, r.Cells[cols[0]], system)
				want[r.Cells[0].Text], sum = v, sum+v
			}
			assert.Equal(t, sum, figure(t, list[0].Rows[len(res.Members)].Cells[cols[0]], system), "treasurer, %v", system)
			for i, m := range res.Members {
				p := Member(res, i, system)
				list, cols := tablesOf(p)
				odd := false // two alike that are printed otherwise are explained
				for k, b := range m.Beds {
					for j, c := range m.Beds[:k] {
						rows := list[0].Rows
						odd = odd || b.Litres == c.Litres && k < min(9, len(m.Beds)) && rows[k].Cells[cols[0]].Text != rows[j].Cells[cols[0]].Text
					}
				}
				if odd {
					told = true
					assert.Contains(t, asText(t, p), "Volumes are rounded so that they add up.")
				}
				require.Len(t, list, 2, "beds and media")
				for k, tb := range list {
					sum := int64(0)
					for _, r := range tb.Rows {
						v := figure(t, r.Cells[cols[k]], system)
						if r.Kind == page.Total {
							assert.Equal(t, want[m.Name], v, "%s, %v", m.Name, system)
							continue
						}
						sum += v
					}
					assert.Equal(t, want[m.Name], sum, "%s, table %d, %v", m.Name, k, system)
				}
			}
		}
	}
	assert.True(t, told)
}

// A treasurer who collects what members pay must not send all of it to suppliers where
// some of it pays for time: 300 L at 1 and 30 for the van are 330, and rinsing 30 min
// for each 100 L at 20 an hour is 30.
func TestTimeIsNotOwedToSuppliers(t *testing.T) {
	res := split(t, clay, "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\n", van, share.Options{})
	for _, p := range Papers(res, units.Metric) {
		assert.NotContains(t, asText(t, p.Page), "rins", p.Name)
	}
	res.Plan.Bill.Rinsing = units.MoneyOf(units.D("30"))
	res.Plan.Job.Settings.LabourRate = units.MoneyOf(units.D("20"))
	res.Total = res.Total.Add(res.Plan.Bill.Rinsing)
	assert.Contains(t, asText(t, Treasurer(res, units.Metric)), "Suppliers are paid $330.00 of it. $30.00 is the time of rinsing at $20.00 an hour")
	assert.Contains(t, asText(t, Member(res, 0, units.Metric)), "The bill counts $30.00 for the time of rinsing, at $20.00 an hour; that part goes to whoever rinses.")
}

// Whose beds cost as much alone is told just that, and nothing of tables that belong to
// others.
func TestSameAloneIsSaidPlainly(t *testing.T) {
	const beds = "bed,volume,table,limit,member,site\nb1,100 L,T,300 kg,ash,one\nb2,100 L,T,300 kg,birch,one\nb3,100 L,,,cedar,two\n"
	res := split(t, clay, beds, "supplier,site,order_fee\nTor Yard,one,30\nTor Yard,two,20\n", share.Options{})
	text := asText(t, Member(res, 2, units.Metric))
	assert.Contains(t, text, "Alone you would pay the same, $120.00.")
	assert.Contains(t, text, "Your beds add to the bill of all just what they would cost alone, $120.00.")
	assert.NotContains(t, text, "lies between")
	assert.NotContains(t, text, AloneWords)
	assert.Contains(t, asText(t, Member(res, 0, units.Metric)), AloneWords)
	assert.Contains(t, asText(t, Treasurer(res, units.Metric)), AloneWords)
}
