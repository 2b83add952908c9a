package statement

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

func split(t *testing.T, quotesCSV, bedsCSV, deliveryCSV string, opt share.Options) *share.Result {
	t.Helper()
	job := jobtest.Files{Quotes: quotesCSV, Beds: bedsCSV, Delivery: deliveryCSV, Media: "medium,settle,rinse_loss\nexpanded clay,0,0%\nriver gravel,0,0%\n"}.Job(t)
	res, err := share.Solve(context.Background(), job, opt)
	require.NoError(t, err)
	return res
}

const (
	clay   = "quote,supplier,medium,form,pack,price,size,carbonate\nclay,Tor Yard,expanded clay,bag,1 L,1.00,8-16 mm,none\n"
	gravel = clay + "gravel,Tor Yard,river gravel,bag,1 L,0.50,8-16 mm,none\n"
	van    = "supplier,order_fee\nTor Yard,30\n"
)

func rows(t *testing.T, data []byte) [][]string {
	t.Helper()
	out, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	require.NoError(t, err)
	return out
}

// asText is a paper as plain text on lines of no end.
func asText(t *testing.T, p *page.Page) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, p.Text(&b, 10_000))
	return b.String()
}

// Every paper of a result says the same amounts.
func TestPapersAgree(t *testing.T) {
	res := split(t, clay, "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\nb3,300 L,ash: 2; cedar: 1\n", van, share.Options{Rule: share.ByUse})
	text := asText(t, Treasurer(res, units.Metric))
	all := rows(t, TreasurerCSV(res))
	require.Len(t, all, 5)
	var total units.Money
	for i, m := range res.Members {
		pays := m.Pays.Text(2)
		assert.Equal(t, []string{m.Name, pays}, []string{all[i+1][0], all[i+1][2]})
		mine := rows(t, MemberCSV(res, i))
		last := mine[len(mine)-1]
		assert.Equal(t, []string{m.Name, "pays", "", pays}, []string{last[0], last[1], last[2], last[6]})
		assert.Contains(t, asText(t, Member(res, i, units.Metric)), "You pay $"+pays+" of the bill of $630.00.")
		assert.Contains(t, text, "$"+pays)
		total = total.Add(m.Pays)
	}
	assert.Equal(t, "630.00", total.Text(2))
	// By how much groups would be better off is said where there are any.
	unfair := slices.ContainsFunc(res.Splits, func(s share.Split) bool { return !s.Stable })
	assert.Equal(t, unfair, strings.Contains(text, "and by at most"))
	assert.Equal(t, []string{"all", "600.000", "630.00"}, all[4][:3])
	for _, cell := range all[4][6:] {
		assert.Equal(t, "630.00", cell, "every rule adds up")
	}
}

// A name that a spreadsheet would run, and one that would leave the folder.
func TestHostileNames(t *testing.T) {
	res := split(t, clay, "bed,volume,member\n=1+1,100 L,=HYPERLINK(A1)\nb2,100 L,../../etc\nb3,100 L,.. .. etc\n", van, share.Options{})
	for name, data := range filesOf(res, units.Metric) {
		assert.NotContains(t, name, "..")
		assert.NotContains(t, name, "/")
		if !strings.HasSuffix(name, ".csv") {
			continue
		}
		for _, r := range rows(t, data) {
			for _, cell := range r {
				assert.NotRegexp(t, `^[=+@]`, cell, name)
			}
		}
	}
	assert.Len(t, filesOf(res, units.Metric), 2+2*3, "names that come out alike are told apart")
}

func TestWhoCannotGoAlone(t *testing.T) {
	res := split(t, gravel, "bed,volume,only,water_line,table,limit,member\nb1,100 L,river gravel,none,T,300 kg,heavy\nb2,100 L,,none,T,300 kg,light\n", van, share.Options{})
	assert.Contains(t, asText(t, Treasurer(res, units.Metric)), "  - heavy could not order alone: ")
	assert.Contains(t, asText(t, Member(res, 0, units.Metric)), "There is no order for your beds alone")
	assert.Contains(t, asText(t, Member(res, 1, units.Metric)), "Alone you would pay ")
	assert.Equal(t, "", rows(t, MemberCSV(res, 0))[3][6], "no figure in place of none")
}

func TestEstimatesSayTheirError(t *testing.T) {
	res := split(t, clay, "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\nb3,300 L,cedar\n",
		"supplier,order_fee,load_fee,load_volume\nTor Yard,30,20,250 L\n", share.Options{Rule: share.Shapley, Exact: 2, Pairs: 4})
	text := asText(t, Treasurer(res, units.Metric))
	assert.Contains(t, text, " ± ")
	assert.Contains(t, text, "± is one standard error of the estimate, in money.")
	assert.Contains(t, text, "6 were solved as orders of their own")
}

func TestOneMember(t *testing.T) {
	res := split(t, clay, "bed,volume,member\nb1,100 L,ash\n", van, share.Options{})
	text := asText(t, Treasurer(res, units.Metric))
	assert.Contains(t, text, "Every bed is paid for by ash, so ash pays the whole bill.")
	assert.NotContains(t, text, "BETTER OFF ALONE")
	assert.NotContains(t, asText(t, Member(res, 0, units.Metric)), "If you left")
}

// No line ends in spaces or is wider than the page, whatever the names.
func TestLines(t *testing.T) {
	long := strings.Repeat("the growers of the long field by the old mill ", 3)
	res := split(t, clay, "bed,volume,member\nb1,100 L,"+long+"\nb2,150 L,birch\n", van, share.Options{Rule: share.BySavings})
	for name, data := range filesOf(res, units.US) {
		if strings.HasSuffix(name, ".csv") {
			continue
		}
		for l := range strings.SplitSeq(string(data), "\n") {
			assert.Equal(t, strings.TrimRight(l, " "), l)
			assert.LessOrEqual(t, utf8.RuneCountInString(l), Width, l)
		}
	}
}

// Where members share a table, papers say how one alone is priced; elsewhere that
// would only puzzle.
func TestSharedTableIsExplained(t *testing.T) {
	const apart = "bed,volume,table,limit,member\nb1,100 L,T,300 kg,ash\nb2,100 L,U,300 kg,birch\n"
	for beds, want := range map[string]bool{apart: false, strings.ReplaceAll(apart, ",U,", ",T,"): true} {
		res := split(t, clay, beds, van, share.Options{})
		for _, p := range Papers(res, units.Metric) {
			assert.Equal(t, want, strings.Contains(asText(t, p.Page), AloneWords), p.Name)
		}
	}
}

// A spreadsheet comes to the same sums: a formula that does not is an error.
func TestSheetsAddUp(t *testing.T) {
	res := split(t, clay, "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\nb3,300 L,ash: 2; cedar: 1\n", van, share.Options{Rule: share.Shapley})
	for _, system := range []units.System{units.Metric, units.US} {
		for _, p := range Papers(res, system) {
			require.NoError(t, p.Page.XLSX(io.Discard), p.Name)
			require.NoError(t, p.Page.PDF(io.Discard), p.Name)
		}
	}
}

// filesOf are the papers as plain text and as CSV, by file name.
func filesOf(res *share.Result, system units.System) map[string][]byte {
	out := map[string][]byte{}
	for _, p := range Papers(res, system) {
		var b bytes.Buffer
		if err := p.Page.Text(&b, Width); err != nil {
			panic(err) // a buffer takes everything
		}
		out[p.Name+".txt"], out[p.Name+".csv"] = b.Bytes(), p.CSV
	}
	return out
}

// A member reads what it gets, pays and why on one page and meets no word of theory,
// whatever the rule; the treasurer's page has the rule's name.
func TestMembersReadPlainWords(t *testing.T) {
	var beds strings.Builder
	beds.WriteString("bed,volume,member\n")
	for i := range 40 {
		fmt.Fprintf(&beds, "b%d,10 L,ash\n", i)
	}
	beds.WriteString("c1,200 L,birch\nd1,300 L,cedar\n")
	for _, rule := range share.Rules {
		res := split(t, clay, beds.String(), "supplier,order_fee\nTor Yard,30\n", share.Options{Rule: rule})
		res.Plan.Job.Settings.Buyer = quotes.Buyer{Name: "Tor Growers", Phone: "555-0199"}
		for i, m := range res.Members {
			p := Member(res, i, units.Metric)
			text := asText(t, p) + string(MemberCSV(res, i))
			assert.NotRegexp(t, `(?i)nucleolus|shapley|excess|coalition|stable|marginal|core\b|"`+string(rule)+`"`, text)
			for _, words := range []string{"You pay $" + m.Pays.Text(2), "Alone you would pay $" + m.Alone.Text(2), "Please pay it to Tor Growers, 555-0199.", "If you left, the others would pay "} {
				assert.Contains(t, text, words, "%s, %s", rule, m.Name)
			}
			var b bytes.Buffer
			require.NoError(t, p.PDF(&b))
			assert.Equal(t, 1, bytes.Count(b.Bytes(), []byte("/Type /Page\n")), "%s, %s: pages", rule, m.Name)
		}
		assert.Contains(t, asText(t, Treasurer(res, units.Metric)), fmt.Sprintf("by the rule %q", rule))
	}
	// Of 40 beds, 9 stand by name.
	res := split(t, clay, beds.String(), van, share.Options{})
	text := asText(t, Member(res, 0, units.Metric))
	assert.Contains(t, text, "31 beds more")
	assert.Contains(t, text, "400")
}

// The fee of 30 is saved but once: ash's 100 L at 1 add 100 to the bill and cost 130
// alone, and so for birch. With 30 to share each pays 15 of it, so what ash pays lies
// between, and without it birch would pay the other 15 as well.
func TestWhyByHand(t *testing.T) {
	res := split(t, clay, "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\n", van, share.Options{})
	text := asText(t, Member(res, 0, units.Metric))
	assert.Contains(t, text, "Your beds add $100.00 to the bill of all; alone they would cost $130.00. What you pay lies between the two.")
	assert.Contains(t, text, "You pay $115.00 of the bill of $330.00.")
	assert.Contains(t, text, "If you left, the others would pay $15.00 more between them.")
}
