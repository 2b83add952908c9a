// Package firstjob asks for a new job in the order in which a grower knows it: where
// it is, the beds, their limits, then what each yard wrote.
package firstjob

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/message"
	"mediabuy/quotes/tomlfile"
	"mediabuy/units"
)

// asker puts questions on out and reads answers from in, one a line.
type asker struct {
	in    *bufio.Scanner
	out   io.Writer
	over  bool      // no more answers come
	today time.Time // the pricing day, where settings state none
	left  int

	place, unit, tax string              // what was answered of the settings
	kinds            []map[string]string // the beds so far, what was answered by column
}

// back is the answer that goes back to the question before.
const back = "<"

// errBack says that the question before is asked for.
var errBack = errors.New("there is no question before this one")

// line asks and gives what is answered, the usual where that is nothing.
func (a *asker) line(question, usual string) string {
	if usual != "" {
		question += " [" + usual + "]"
	}
	fmt.Fprint(a.out, question, ": ")
	if a.over = !a.in.Scan(); a.over {
		return usual
	}
	return cmp.Or(strings.TrimSpace(a.in.Text()), usual)
}

// broken is why no more answers come, where it is not that they are over: an interrupt, or a failing disk.
func (a *asker) broken() error {
	err := a.in.Err()
	if err != nil {
		fmt.Fprintln(a.out)
	}
	return err
}

// until asks again while an answer is no good, and fails where no more answers come.
func (a *asker) until(question, usual string, good func(string) error) (string, error) {
	for {
		said := a.line(question, usual)
		if err := a.broken(); err != nil {
			return "", err
		}
		if said == back {
			return "", errBack
		}
		err := good(said)
		if err == nil {
			return said, nil
		}
		fmt.Fprintln(a.out, err)
		if a.over {
			return "", fmt.Errorf("%s: %w", question, err)
		}
	}
}

// Job is what the answers come to.
type Job struct {
	Files  map[string][]byte
	Report *quotes.Report // what is still to mend in them
	Left   int            // parts of messages that are not in them: not understood, or left open
}

// Ask asks for the files of a job. They are read together before they are given back.
func Ask(in io.Reader, out io.Writer, today time.Time) (*Job, error) {
	a := &asker{in: bufio.NewScanner(in), out: out, today: today}
	a.in.Buffer(nil, 1<<20)
	job := files.Templates()
	fmt.Fprintf(out, "A lone %s goes back to the question before.\n", back)
	var settings string
	for step := 0; step < 3; {
		var err error
		switch step {
		case 0:
			settings, err = a.settings()
			job[files.SettingsFile] = []byte(settings)
		case 1:
			var beds string
			beds, err = a.beds(settings, (&quotes.Settings{Currency: units.CurrencyOf(a.place)}).System())
			job[files.BedsFile] = []byte(beds)
		case 2:
			err = a.yards(job, settings)
		}
		switch {
		case errors.Is(err, errBack):
			step--
		case err != nil:
			return nil, err
		default:
			step++
		}
	}
	_, rep, err := files.Read(files.SourcesOf(job), files.Options{Today: today})
	return &Job{job, rep, a.left}, err
}

// settings asks where the job is, and gives job.toml. Come back to from the beds, it
// begins with its last question.
func (a *asker) settings() (string, error) {
	ask := []func() error{a.askPlace, a.askUnit, a.askTax}
	at := 0
	if a.place != "" {
		at = len(ask) - 1
	}
	for at < len(ask) {
		err := ask[at]()
		switch {
		case errors.Is(err, errBack) && at == 0:
			fmt.Fprintln(a.out, err)
		case errors.Is(err, errBack):
			at--
		case err != nil:
			return "", err
		default:
			at++
		}
	}
	f, err := tomlfile.Open(files.Templates()[files.SettingsFile])
	if err != nil {
		return "", err
	}
	for _, set := range []struct {
		key   tomlfile.Key
		value string
	}{{tomlfile.Key{"currency"}, units.CurrencyOf(a.place)}, {tomlfile.Key{"units", "length"}, a.unit}, {tomlfile.Key{"tax"}, a.tax}} {
		if set.value == "" {
			continue
		}
		if f, err = f.Set(set.key, set.value); err != nil {
			return "", err
		}
	}
	return string(f.Bytes()), nil
}

func (a *asker) askPlace() (err error) {
	a.place, err = a.until("Where are you: us, canada, uk, europe, australia, new zealand, or a currency such as CHF", "us", func(said string) error {
		if _, ok := units.CurrencyDigits(units.CurrencyOf(said)); !ok {
			return fmt.Errorf("%q is no country of these and no currency of ISO 4217", said)
		}
		return nil
	})
	return err
}

func (a *asker) askUnit() (err error) {
	a.unit, err = a.until("Unit of a length that is written without one: ft, in, m, cm, mm or none", "none", func(said string) error {
		if _, err := units.ParseLength("1 "+said, units.Options{}); err != nil && said != "none" {
			return fmt.Errorf("%q is no unit of length", said)
		}
		return nil
	})
	if a.unit == "none" {
		a.unit = ""
	}
	return err
}

func (a *asker) askTax() (err error) {
	a.tax, err = a.until("Tax that comes on top of the prices, such as 7.5% (nothing if there is none or prices hold it)", "", func(said string) error {
		if said == "" {
			return nil
		}
		if _, err := units.ParsePercent(said, units.MarkUnknown); err != nil {
			return fmt.Errorf("%q is no percentage such as 7.5%%", said)
		}
		return nil
	})
	return err
}

// examples of a bed's measures, in the reader's habit of units.
var examples = map[units.System][5]string{units.US: {"4x8 ft", "12 in", "2 in", "1200 lb", "1/2 in"}, units.Metric: {"2.4x1.2 m", "300 mm", "50 mm", "500 kg", "12 mm"}}

// bedColumns are the columns of beds.csv that the questions about beds fill.
var bedColumns = []string{"bed", "count", "length", "width", "depth", "top", "table", "limit", "min_size"}

// asked are the columns in the order of their questions; the width is answered with the length.
var asked = []string{"count", "length", "depth", "top", "limit", "table", "min_size"}

// skipped reports whether a column is not asked: a table where there is no limit to share.
func skipped(column string, kind map[string]string) bool {
	return column == "table" && kind["limit"] == ""
}

// lengths are the columns that take a number without a unit in the unit of the settings.
var lengths = []string{"length", "depth", "top", "min_size"}

// bare reports whether an answer has numbers and no unit.
func bare(said string) bool {
	return strings.ContainsAny(said, "0123456789") && strings.Trim(said, "0123456789.,/ xX×*") == ""
}

// beds asks for the beds, a kind at a time, until one has no number. What an answer
// lacks is told at once, in the words in which the file would have it told, and a number
// without a unit is said with the one that it is read in.
func (a *asker) beds(settings string, habit units.System) (string, error) {
	such := examples[habit]
	n := len(a.kinds) // of the kind that is asked about
	for at := 0; ; {
		if n == len(a.kinds) {
			a.kinds = append(a.kinds, map[string]string{"bed": fmt.Sprintf("bed %d", n+1)})
		}
		kind := a.kinds[n]
		words := []string{
			fmt.Sprintf("Beds of kind %d: how many are alike (nothing ends the beds)", n+1),
			"  Length and width inside, such as " + such[0],
			"  Depth of media, such as " + such[1],
			"  Depth of a smooth top layer, such as " + such[2] + " (nothing for none)",
			"  Most weight one may carry flooded, or the table that it shares, such as " + such[3] + " (nothing if not known)",
			"  Table that shares that limit with other kinds, such as T1 (nothing if it is each bed's own)",
			"  Smallest grain, such as " + such[4] + " (nothing for any)",
		}
		c, doubted := asked[at], ""
		said, err := a.until(words[at], "", func(said string) error {
			kind[c] = said
			err := a.bedProblem(settings, n, c, doubted != said)
			doubted = said // a doubt is told once: who writes the same again means it
			if err != nil && a.readsBare(c, said) {
				return fmt.Errorf("%w; %s is read as %s %s", err, said, said, a.unit)
			}
			return err
		})
		switch {
		case errors.Is(err, errBack) && at > 0:
			delete(kind, c)
			if at--; skipped(asked[at], kind) {
				at--
			}
		case errors.Is(err, errBack):
			a.kinds = a.kinds[:n]
			if n == 0 {
				return "", err
			}
			n, at = n-1, len(asked)-1
		case err != nil:
			return "", err
		case at == 0 && said == "" && n == 0:
			return "", errors.New("no bed was named; a job needs at least one")
		case at == 0 && said == "":
			a.kinds = a.kinds[:n]
			rows := []string{strings.Join(bedColumns, ",")}
			for _, kind := range a.kinds {
				rows = append(rows, bedRow(kind))
			}
			return strings.Join(rows, "\n") + "\n", nil
		default:
			if a.readsBare(c, said) {
				fmt.Fprintf(a.out, "    read as %s %s\n", said, a.unit)
			}
			if at++; at < len(asked) && skipped(asked[at], kind) {
				at++
			}
			if at == len(asked) {
				n, at = n+1, 0
			}
		}
	}
}

// readsBare reports whether an answer is read in the unit of the settings.
func (a *asker) readsBare(column, said string) bool {
	return a.unit != "" && slices.Contains(lengths, column) && bare(said)
}

// bedRow is a row of beds.csv. Length and width are answered together and stand each in its own cell.
func bedRow(kind map[string]string) string {
	if sides := files.Sides(kind["length"], units.MarkUnknown); len(sides) == 2 {
		kind = maps.Clone(kind)
		kind["length"], kind["width"] = sides[0], sides[1]
	}
	var cells []string
	for _, column := range bedColumns {
		cells = append(cells, quoted(kind[column]))
	}
	return strings.Join(cells, ",")
}

// bedProblem reads the beds up to a kind of which some columns are answered, and says what is
// wrong with the last one answered, or doubtful where doubts are told; what is not asked yet is put in meanwhile.
func (a *asker) bedProblem(settings string, n int, column string, doubts bool) error {
	whole := maps.Clone(a.kinds[n])
	for later, some := range map[string]string{"length": "1 m x 1 m", "depth": "1 m"} {
		if _, asked := whole[later]; !asked {
			whole[later] = some
		}
	}
	job := files.Templates()
	job[files.SettingsFile] = []byte(settings)
	rows := []string{strings.Join(bedColumns, ",")}
	for _, kind := range append(slices.Clone(a.kinds[:n]), whole) {
		rows = append(rows, bedRow(kind))
	}
	job[files.BedsFile] = []byte(strings.Join(rows, "\n") + "\n")
	_, rep, err := files.Read(files.SourcesOf(job), files.Options{Today: a.today})
	if err != nil {
		return err
	}
	list := rep.Problems
	if doubts && column == "depth" {
		list = slices.Concat(list, rep.Warnings)
	}
	for _, p := range list {
		if p.File != files.BedsFile || p.Line != len(rows) || p.Heading != column && !(column == "length" && p.Heading == "width") && !(column == "table" && p.Heading == "limit") {
			continue
		}
		if p.Hint != "" {
			return fmt.Errorf("%s; %s", p.Message(), p.Hint)
		}
		return errors.New(p.Message())
	}
	return nil
}

// quoted is a cell in quote marks.
func quoted(s string) string {
	if s == "" {
		return ""
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}

// yards asks for what each yard wrote and puts the rows read from it into the job.
func (a *asker) yards(job map[string][]byte, settings string) error {
	type read struct {
		supplier string
		*message.Proposal
		left int
	}
	var all []read
	for {
		supplier := a.line("Paste what each yard wrote. Whose is the next (nothing ends)", "")
		if err := a.broken(); err != nil {
			return err
		}
		switch n := len(all) - 1; {
		case supplier == back && n < 0:
			return errBack
		case supplier == back:
			fmt.Fprintf(a.out, "What %s wrote is out again.\n", all[n].supplier)
			a.left -= all[n].left
			all = all[:n]
			continue
		}
		if supplier == "" {
			break
		}
		fmt.Fprintln(a.out, "Its message; a line with a single point ends it:")
		var text strings.Builder
		for a.in.Scan() && strings.TrimSpace(a.in.Text()) != "." {
			text.WriteString(a.in.Text() + "\n")
		}
		if err := a.broken(); err != nil {
			return err
		}
		p, _, err := message.ReadFrom(strings.NewReader(text.String()), supplier, message.Options{
			Supplier: supplier, Delivery: true, Settings: files.Source{Name: files.SettingsFile, R: strings.NewReader(settings)}, Today: a.today,
		})
		if err != nil {
			fmt.Fprintln(a.out, err)
			continue
		}
		if p, err = a.answers(p); err != nil {
			return err
		}
		fmt.Fprintf(a.out, "%s read.\n", units.Several(len(p.Rows), "row"))
		fmt.Fprint(a.out, show.Beware(p))
		unclear := slices.DeleteFunc(p.NotUnderstood(), func(s message.Span) bool { return names(p.Words(s.Range), supplier) })
		for _, s := range unclear {
			fmt.Fprintf(a.out, "  not understood: %q: %s\n", p.Words(s.Range), s.Why)
		}
		for _, q := range p.Asked {
			fmt.Fprintf(a.out, "  left open: %q: %s\n", p.Words(q.Range), q.Question)
		}
		a.left += len(unclear) + len(p.Asked)
		all = append(all, read{supplier, p, len(unclear) + len(p.Asked)})
	}
	whole := &message.Proposal{}
	for _, r := range all {
		whole.Rows, whole.Delivery = append(whole.Rows, r.Rows...), append(whole.Delivery, r.Delivery...)
	}
	if len(whole.Rows) > 0 {
		job[files.QuotesFile] = []byte(whole.CSV())
	}
	if len(whole.Delivery) > 0 {
		job[files.DeliveryFile] = []byte(whole.DeliveryCSV())
	}
	return nil
}

// names reports whether words say no more than whose the message is, which is given.
func names(words, supplier string) bool {
	trim := func(s string) string { return strings.Trim(strings.ToLower(s), " \t.,:;!-–—") }
	words = trim(words)
	if from, ok := strings.CutPrefix(words, "from"); ok && trim(from) == trim(supplier) {
		return true
	}
	return words == trim(supplier)
}

// answers puts what a message leaves open; nothing is entered unanswered.
func (a *asker) answers(p *message.Proposal) (*message.Proposal, error) {
	var before []*message.Proposal
	for len(p.Asked) > 0 {
		q := p.Asked[0]
		fmt.Fprint(a.out, show.Question(p, q))
		said := a.line(fmt.Sprintf("which one, 1 to %d, or nothing to leave it open", len(q.Readings)), "")
		if err := a.broken(); err != nil {
			return nil, err
		}
		if said == "" {
			return p, nil
		}
		if said == back {
			if n := len(before); n > 0 {
				p, before = before[n-1], before[:n-1]
			} else {
				fmt.Fprintln(a.out, errBack)
			}
			continue
		}
		n, err := strconv.Atoi(said)
		if err != nil || n < 1 || n > len(q.Readings) {
			fmt.Fprintf(a.out, "%q is none of them\n", said)
			continue
		}
		next, err := p.Answer(0, n-1)
		if err != nil {
			return nil, err
		}
		p, before = next, append(before, p)
	}
	return p, nil
}
