package message

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/habit"
)

// requireSound checks what a proposal promises whatever the message is, when neither the job nor the caller says anything.
func requireSound(t require.TestingT, p *Proposal) {
	requireWhole(t, p)
	requireFromText(t, p)
	requireReadsBack(t, p)
}

// requireWhole checks that the spans are the message, each byte once, and that cells and spans name one another.
func requireWhole(t require.TestingT, p *Proposal) {
	at := 0
	named := map[Ref]bool{}
	for _, s := range p.Spans {
		require.Equal(t, at, s.From, "spans leave no gap and do not overlap")
		require.Greater(t, s.To, s.From)
		require.Equal(t, p.Text[s.From:s.To], s.Words)
		require.Contains(t, []Use{Read, Aside, Unclear, Asked, Blank}, s.Use)
		require.Equal(t, s.Use == Read, len(s.Cells) > 0)
		require.Equal(t, s.Use == Blank, s.Why == "", "%q", s.Words)
		if s.Use == Blank {
			require.Empty(t, strings.Trim(wordSign.FindString(s.Words), " "), "no word, number or money is blank: %q", s.Words)
		}
		for _, ref := range s.Cells {
			rows := map[string][]Row{files.QuotesFile: p.Rows, files.DeliveryFile: p.Delivery}[ref.File]
			require.Less(t, ref.Row, len(rows))
			_, ok := rows[ref.Row].Cells[ref.Column]
			require.True(t, ok, "%q is said to be in a cell that is not there: %v", s.Words, ref)
			named[ref] = true
		}
		at = s.To
	}
	require.Equal(t, len(p.Text), at)
	requireNamed(t, p, files.QuotesFile, p.Rows, Columns, required, named)
	requireNamed(t, p, files.DeliveryFile, p.Delivery, DeliveryColumns, deliveryRequired, named)
}

// requireNamed checks that the cells of rows come from words that are in a span which names them.
func requireNamed(t require.TestingT, p *Proposal, file string, rows []Row, columns, required []string, named map[Ref]bool) {
	for i := range rows {
		for column, c := range rows[i].Cells {
			require.Contains(t, columns, column)
			require.NotEmpty(t, c.Text)
			require.NotEmpty(t, c.From, "%s = %q comes from no words", column, c.Text)
			require.True(t, named[Ref{file, i, column}], "no span says that it is in %s of row %d of %s", column, i, file)
			for _, r := range c.From {
				require.True(t, slices.ContainsFunc(p.Spans, func(s Span) bool { return s.From <= r.From && r.To <= s.To && s.Use == Read }))
			}
		}
		for _, column := range required {
			_, ok := rows[i].Cells[column]
			require.Equal(t, !ok, slices.Contains(rows[i].Missing, column))
		}
	}
}

var (
	wordSign = regexp.MustCompile(`[\p{L}\p{N}$€£¥%]`)
	digits   = regexp.MustCompile(`\d+(?:[.,]\d+)*|[½¼¾⅓⅔⅛⅜⅝⅞]`)
)

// numbersIn are the numbers of a text as their digits, without signs and without noughts at either end.
func numbersIn(text string) map[string]bool {
	out := map[string]bool{}
	for _, n := range digits.FindAllString(spacedDigits.ReplaceAllString(text, "$1$2"), -1) {
		n = strings.Map(func(r rune) rune {
			if strings.ContainsRune(".,", r) {
				return -1
			}
			return r
		}, n)
		out[strings.Trim(n, "0")] = true
	}
	return out
}

// spacedDigits joins 1 050,00 and 1'050 as the parser of numbers does.
var spacedDigits = regexp.MustCompile(`(\d)[ '’\x{a0}\x{202f}\x{2009}](\d{3}\b)`)

// standFor are words that a number may come from, beside the digits themselves.
var standFor = map[string]string{
	"1": "ten hundred one a an per the / each by for whole full yard ton bag p every", "": "free delivered included including incl inc charge us ten twenty thirty forty fifty sixty hundred",
	"2": "two twenty half", "3": "three thirty", "4": "four forty quarter", "5": "five half fifty ½ 1/2", "6": "six sixty", "7": "seven", "8": "eight", "9": "nine", "11": "eleven",
	"12": "twelve dozen half 1/2", "15": "fifteen 1½ 1 1-1/2 1½", "25": "¼ 1/4 2½ 2", "75": "¾ 3/4",
}

// requireFromText checks that each number of a row stands in the words that its cell names, as digits or as a word for it.
func requireFromText(t require.TestingT, p *Proposal) {
	for _, row := range slices.Concat(p.Rows, p.Delivery) {
		for column, c := range row.Cells {
			if column == "medium" {
				continue // a name from the table
			}
			var words strings.Builder
			for _, r := range c.From {
				words.WriteString("\n" + p.Text[r.From:r.To])
			}
			low := strings.ToLower(words.String())
			there := numbersIn(low)
			text := unitNumbers.ReplaceAllString(c.Text, "")
			for n := range numbersIn(text) {
				if n == "1" && (column == "pack" || column == "load_volume" || column == "load_weight") && strings.HasPrefix(text, "1 ") {
					continue // a unit by itself is one of it
				}
				if there[n] || column == "valid_until" || column == "ready_by" {
					continue
				}
				found := false
				for w := range strings.FieldsSeq(standFor[n]) {
					found = found || strings.Contains(low, w)
				}
				if whole, ok := strings.CutSuffix(n, "5"); ok && strings.Contains(low, "and a half") {
					found = found || there[whole] || wordsSay(whole, low)
				}
				found = found || column == "breaks" && (takenOff(n, low) || nextTo(n, low)) || wordsSay(n, low)
				found = found || (column == "load_volume" || column == "load_weight") && productIn(n, low)
				found = found || column == "tax" && partOfOne(n, low)
				require.True(t, found, "%s = %q, but %q holds no %s", column, c.Text, low, n)
			}
			if column == "valid_until" || column == "ready_by" {
				requireDay(t, c.Text, low)
			}
		}
	}
}

// partOfOne says whether a number, as numbersIn has it, is a whole one and a part of one in the words: "7 3/4".
func partOfOne(n, low string) bool {
	return slices.ContainsFunc(regexp.MustCompile(`(\d+)[ -]([1357])/([248])`).FindAllStringSubmatch(low, -1), func(m []string) bool {
		whole, _ := strconv.Atoi(m[1])
		part, _ := strconv.Atoi(m[2])
		of, _ := strconv.Atoi(m[3])
		return strings.Trim(strings.Replace(strconv.FormatFloat(float64(whole)+float64(part)/float64(of), 'f', -1, 64), ".", "", 1), "0") == n
	})
}

// nextTo says whether a number, as numbersIn has it, is the one behind that of the first packs in the words.
func nextTo(n, low string) bool {
	at := strings.Index(low, "first ")
	if at < 0 {
		return false
	}
	for i := 1; i < 1000; i++ {
		if strings.Trim(strconv.Itoa(i+1), "0") == n && (strings.HasPrefix(low[at:], fmt.Sprintf("first %d", i)) || wordsSay(strings.Trim(strconv.Itoa(i), "0"), low[at:])) {
			return true
		}
	}
	return false
}

// productIn says whether a number, as numbersIn has it, is so many times what a pack holds in the words.
func productIn(n, low string) bool {
	var all []float64
	for w := range strings.FieldsFuncSeq(strings.NewReplacer("½", "0.5", "1/2", "0.5", "¾", "0.75", "3/4", "0.75", "¼", "0.25").Replace(low), func(c rune) bool { return !strings.ContainsRune("0123456789.,abcdefghijklmnopqrstuvwxyz", c) }) {
		w = strings.Trim(w, ".,")
		if v, err := strconv.ParseFloat(strings.TrimRight(strings.ReplaceAll(w, ",", "."), "abcdefghijklmnopqrstuvwxyz"), 64); err == nil {
			all = append(all, v)
		}
		if i := slices.Index(strings.Fields("zero one two three four five six seven eight nine ten eleven twelve"), w); i > 0 {
			all = append(all, float64(i))
		} else if w == "half" {
			all = append(all, 0.5)
		}
	}
	for _, a := range all {
		for _, b := range append(all, 1) {
			if strings.Trim(strings.Replace(strings.TrimRight(strconv.FormatFloat(a*b, 'f', 6, 64), "0"), ".", "", 1), "0") == n {
				return true
			}
		}
	}
	return false
}

// wordsSay says whether a number, as numbersIn has it, is written out in words: of up to 999, with or without cents or hundreds
// behind it in words too.
func wordsSay(n, low string) bool {
	low = " " + strings.NewReplacer("-", " ", " and ", " ", ",", " ", ".", " ", "\n", " ", " dollars", "", " pounds", "", " quid", "").Replace(low) + " "
	small := strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens := strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
	var name func(i int) string
	name = func(i int) string {
		switch {
		case i < 20:
			return small[i]
		case i < 100:
			return strings.TrimSuffix(tens[i/10]+" "+small[i%10], " zero")
		}
		return strings.TrimSuffix(small[i/100]+" hundred "+name(i%100), " zero")
	}
	for i := 1; i < 1000; i++ {
		if strings.Trim(strconv.Itoa(i), "0") != n && !strings.HasPrefix(n, strconv.Itoa(i)) {
			continue
		}
		for _, one := range []string{name(i), strings.Replace(name(i), "one hundred", "a hundred", 1), strings.Replace(name(i), "one hundred", "hundred", 1)} {
			if strings.Contains(low, " "+one+" ") && strings.Trim(strconv.Itoa(i), "0") == n {
				return true
			}
			for j := 10; j < 100; j++ {
				if strings.Contains(low, " "+one+" "+name(j)+" ") && strings.Trim(fmt.Sprintf("%d%d", i, j), "0") == n {
					return true
				}
			}
		}
	}
	return strings.Contains(low, "tenner") && n == "1" || strings.Contains(low, "fiver") && n == "5"
}

// takenOff says whether a number, as numbersIn has it, is what a percentage in the words leaves of an amount in them.
func takenOff(n, low string) bool {
	var all []float64
	for _, one := range digits.FindAllString(low, -1) {
		if v, err := strconv.ParseFloat(one, 64); err == nil {
			all = append(all, v)
		}
	}
	for _, p := range all {
		for _, q := range all {
			left := strconv.FormatFloat(math.Round(p*(100-q)*1e6)/1e8, 'f', -1, 64)
			if strings.Contains(low, "%") && strings.Trim(strings.Replace(left, ".", "", 1), "0") == n {
				return true
			}
		}
	}
	return false
}

// unitNumbers are the digits of units.
var unitNumbers = regexp.MustCompile(`\b(?:yd|m|ft)\^?3\b`)

// requireDay checks that the year and the day of a date stand in its words, and its month as a number or a name.
func requireDay(t require.TestingT, day, low string) {
	d, err := time.Parse(time.DateOnly, day)
	require.NoError(t, err)
	if n := regexp.MustCompile(`\b(\d+|two)\)? (day|week)s?(?: (?:from|of)|$)`).FindStringSubmatch(low); n != nil { // the day it is counted from stands there, or in the heading
		days, err := strconv.Atoi(strings.Replace(n[1], "two", "2", 1))
		require.NoError(t, err)
		d = d.AddDate(0, 0, -days*map[string]int{"day": 1, "week": 7}[n[2]])
		require.Contains(t, low, d.Format("2"))
		return
	}
	if regexp.MustCompile(`\d{4}|[./-]\d\d\b`).MatchString(low) {
		require.Contains(t, low, d.Format("06"))
	}
	if regexp.MustCompile(`(?:end|last day) of`).MatchString(low) {
		require.Equal(t, 1, d.AddDate(0, 0, 1).Day())
	} else {
		require.Contains(t, low, d.Format("2"))
	}
	require.True(t, strings.Contains(low, strings.ToLower(d.Format("Jan"))) || strings.Contains(low, d.Format("1")), "%s from %q", day, low)
}

// requireReadsBack checks that the CSV reads with no problem but for the cells that are named as missing.
func requireReadsBack(t require.TestingT, p *Proposal) {
	if len(p.Rows) == 0 {
		return
	}
	whole := true
	money := ""
	for _, row := range slices.Concat(p.Rows, p.Delivery) {
		whole = whole && row.Complete()
		for _, column := range []string{"price", "breaks", "delivery", "free_over", "order_fee", "load_fee", "haul", "min_order"} {
			money += row.Text(column)
		}
	}
	settings := `currency = "USD"`
	for sign, code := range map[string]string{"£": "GBP", "€": "EUR", "EUR": "EUR", "CHF": "CHF"} {
		if strings.Contains(money, sign) {
			settings = `currency = "` + code + `"`
		}
	}
	if !whole {
		p = completed(p)
	}
	sources := files.Sources{
		Quotes:   files.Source{R: strings.NewReader(p.CSV())},
		Settings: files.Source{R: strings.NewReader(settings)},
	}
	if len(p.Delivery) > 0 {
		sources.Delivery.R = strings.NewReader(p.DeliveryCSV())
	}
	job, rep, err := files.Read(sources, files.Options{Today: habit.AnyDay, QuotesOnly: true})
	require.NoError(t, err)
	if strings.ContainsAny(money, "¥") || rare.MatchString(money) {
		return // a currency for which no setting is made here
	}
	require.NoError(t, rep.Err(), "%s\n%s\n%s", settings, p.CSV(), p.DeliveryCSV())
	require.Len(t, job.Quotes, len(p.Rows))
}

var rare = regexp.MustCompile(`[A-Z]{2,3} ?\$?\d|[A-Z]+\$`)

// completed fills what is missing, so that the rest can be read.
func completed(p *Proposal) *Proposal {
	return &Proposal{Rows: completedRows(p.Rows), Delivery: completedRows(p.Delivery)}
}

func completedRows(rows []Row) []Row {
	var out []Row
	for i := range rows {
		row := Row{Cells: maps.Clone(rows[i].Cells)}
		for _, column := range rows[i].Missing {
			row.Cells[column] = Cell{Text: standIns[column]}
		}
		out = append(out, row)
	}
	return out
}
