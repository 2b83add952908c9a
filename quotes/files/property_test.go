package files

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"mediabuy/quotes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"
)

// tables are the sheets of a job as headings and rows, to be written in any style.
type tables map[string][][]string

// sampleTables draws a job without problems in which every quote is named and
// every name spelled alike, so that no row depends on the ones before it.
func sampleTables(t *rapid.T) tables {
	pick := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(t, label) }
	out := tables{
		QuotesFile:   {{"quote", "supplier", "item", "medium", "pack", "step", "price", "breaks", "size", "min_qty", "notes"}},
		BedsFile:     {{"bed", "count", "length", "width", "depth", "top", "limit", "max_share", "site", "member"}},
		DeliveryFile: {{"supplier", "site", "name", "covers", "order_fee", "haul", "handling"}},
	}
	suppliers, sites := []string{"Low Ford", "Tansy Hill, and sons", "Café Marl"}, []string{"yard", "shed"}
	for i := range rapid.IntRange(1, 6).Draw(t, "quotes") {
		out[QuotesFile] = append(out[QuotesFile], []string{
			fmt.Sprint("q", i), pick("supplier", suppliers...), pick("item", "", `8" bucket`, "round; washed", "say \"hi\""), pick("medium", "lava rock", "scoria", "pumice"),
			pick("pack", "50 L", "1 yd3", "2 cu ft", "1 ton"), pick("step", "", "2"), pick("price", "27.50", "1,234.50", "$18.00"),
			pick("breaks", "", "10: 17.50", "10: 17.50; 40: 9.25"), pick("size", "", "8-16 mm", "#57", `3/4" minus`, "1/2 in +"), pick("min", "", "5"),
			pick("notes", "", "two\nlines", "tab\there"),
		})
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "beds") {
		out[BedsFile] = append(out[BedsFile], []string{
			fmt.Sprint("b", i), pick("count", "", "3"), pick("length", "8 ft", `4'6"`, "2.5 m"), "4 ft", pick("depth", "12 in", "300 mm"), pick("top", "", "2 in"),
			pick("limit", "", "500.5 kg"), pick("share", "", "lava rock: 0.67; pumice: 50%"), pick("site", sites...), pick("member", "school", "north plot: 2; school: 1"),
		})
	}
	var here []string // the sites that beds stand at
	for _, b := range out[BedsFile][1:] {
		here = append(here, b[8])
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "ways") {
		out[DeliveryFile] = append(out[DeliveryFile], []string{
			pick("of", suppliers...), pick("to", append(here, "")...), fmt.Sprint("way ", i), pick("covers", "", "bag; bulk"), pick("fee", "", "60", "0"),
			pick("haul", "", "12.5 / yd3"), pick("handling", "15"),
		})
	}
	return out
}

// written writes a sheet with a separator, quoting every cell or only those that
// need it; one that begins with # does, as it may come first in its line.
func written(sheet [][]string, comma rune, quoteAll bool) string {
	var b strings.Builder
	for _, r := range sheet {
		for i, c := range r {
			if i > 0 {
				b.WriteRune(comma)
			}
			if quoteAll || strings.ContainsAny(c, string(comma)+"\"\n") || strings.HasPrefix(c, "#") {
				c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
			}
			b.WriteString(c)
		}
		b.WriteString("\r\n")
	}
	return b.String()
}

func (s tables) files(write func(name string, sheet [][]string) string) Sources {
	src := func(name string) Source { return Source{R: strings.NewReader(write(name, s[name]))} }
	return Sources{Quotes: src(QuotesFile), Beds: src(BedsFile), Delivery: src(DeliveryFile)}
}

// plainJob is a job without places and in the order of its names.
func plainJob(j *quotes.Job) *quotes.Job {
	for _, q := range j.Quotes {
		q.Pos = quotes.Pos{}
	}
	for _, b := range j.Beds {
		b.Pos = quotes.Pos{}
	}
	for _, d := range j.Delivery {
		d.Pos = quotes.Pos{}
	}
	slices.SortFunc(j.Quotes, func(a, b *quotes.Quote) int { return cmp.Compare(a.Name, b.Name) })
	slices.SortFunc(j.Beds, func(a, b *quotes.Bed) int { return cmp.Compare(a.Name, b.Name) })
	slices.SortFunc(j.Delivery, func(a, b *quotes.Delivery) int { return cmp.Compare(a.Supplier+a.Name, b.Supplier+b.Name) })
	return j
}

func commas(_ string, sheet [][]string) string { return written(sheet, ',', false) }

func TestSeparatorAndQuotingChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sampleTables(t)
		want, _ := mustRead(t, s.files(commas), Options{})
		comma := rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "separator")
		all := rapid.Bool().Draw(t, "quote all")
		got, _ := mustRead(t, s.files(func(_ string, sheet [][]string) string { return written(sheet, comma, all) }), Options{})
		require.Equal(t, plainJob(want), plainJob(got))
	})
}

func TestRowOrderChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sampleTables(t)
		want, _ := mustRead(t, s.files(commas), Options{})
		got, _ := mustRead(t, s.files(func(name string, sheet [][]string) string {
			return written(append(sheet[:1:1], rapid.Permutation(sheet[1:]).Draw(t, name)...), ',', false)
		}), Options{})
		require.Equal(t, plainJob(want), plainJob(got))
	})
}

func TestColumnOrderAndHeadingStyleChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sampleTables(t)
		want, _ := mustRead(t, s.files(commas), Options{})
		got, _ := mustRead(t, s.files(func(name string, sheet [][]string) string {
			order := make([]int, len(sheet[0]))
			for i := range order {
				order[i] = i
			}
			order = rapid.Permutation(order).Draw(t, name)
			var out [][]string
			for i, r := range sheet {
				moved := make([]string, len(r))
				for to, from := range order {
					moved[to] = r[from]
					if i == 0 {
						sep := rapid.SampledFrom([]string{" ", "_", "-", "  "}).Draw(t, "sep")
						moved[to] = " " + strings.ToUpper(strings.ReplaceAll(r[from], "_", sep))
					}
				}
				out = append(out, moved)
			}
			return written(out, ',', false)
		}), Options{})
		require.Equal(t, plainJob(want), plainJob(got))
	})
}

// Blank rows, remarks and line ends leave a job as it is; encodings too.
func TestNoiseAndEncodingChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sampleTables(t)
		want, _ := mustRead(t, s.files(commas), Options{})
		style := rapid.SampledFrom([]string{"utf-8 mark", "utf-16 LE", "utf-16 BE", "windows-1252", "blank rows"}).Draw(t, "style")
		got, rep := mustRead(t, s.files(func(_ string, sheet [][]string) string {
			text := "# a remark\n" + written(sheet, ';', true)
			switch style {
			case "utf-8 mark":
				return "\uFEFF" + text
			case "utf-16 LE":
				return utf16Text(text, 0, 1)
			case "utf-16 BE":
				return utf16Text(text, 1, 0)
			case "windows-1252":
				out, err := charmap.Windows1252.NewEncoder().String(text)
				require.NoError(t, err)
				return out
			}
			return "sep=;\n;;;\n" + strings.Replace(text, "\r\n", "\r\n;;\n\n# more\r\n", 1) + "\n;\n"
		}), Options{})
		require.Equal(t, plainJob(want), plainJob(got))
		accents := strings.Contains(commas("", s[QuotesFile])+commas("", s[DeliveryFile]), "é")
		said := slices.ContainsFunc(rep.Warnings, func(p *quotes.Problem) bool { return strings.Contains(p.Found, "Windows-1252") })
		assert.Equal(t, style == "windows-1252" && accents, said)
	})
}

// utf16Text encodes text with a mark; low and high are where a unit's bytes go.
func utf16Text(text string, low, high int) string {
	var out []byte
	for _, u := range utf16.Encode([]rune("\uFEFF" + text)) {
		pair := [2]byte{}
		pair[low], pair[high] = byte(u), byte(u>>8)
		out = append(out, pair[:]...)
	}
	return string(out)
}
