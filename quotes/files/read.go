package files

import (
	"bytes"
	"cmp"
	"errors"
	"slices"
	"time"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Sources are the files of a job. Quotes and Beds are required; see [Options] for
// a job without beds.
type Sources struct {
	Quotes, Beds, Delivery, Media, Settings Source
}

// SourcesOf is the files of a job out of their texts by their usual names. One that is not
// among them is not there.
func SourcesOf(texts map[string][]byte) Sources {
	src := func(name string) Source {
		text, ok := texts[name]
		if !ok {
			return Source{Name: name}
		}
		return Source{Name: name, R: bytes.NewReader(text)}
	}
	return Sources{Quotes: src(QuotesFile), Beds: src(BedsFile), Delivery: src(DeliveryFile), Media: src(MediaFile), Settings: src(SettingsFile)}
}

// The usual names of a job's files.
const (
	QuotesFile   = "quotes.csv"
	BedsFile     = "beds.csv"
	DeliveryFile = "delivery.csv"
	MediaFile    = "media.csv"
	SettingsFile = "job.toml"
)

// Options say how to read a job.
type Options struct {
	// Today is the clock: the pricing day of a job whose settings name none. It must be set.
	Today time.Time
	// QuotesOnly allows a job without beds, whose quotes are only compared.
	QuotesOnly bool
	// Reader is the habit of units of warnings and reasons; nil means that of the currency.
	Reader *units.System
}

// errNoClock is a mistake of the caller, not of the files.
var errNoClock = errors.New("reading a job: options have no clock, want Today set")

// Read reads and checks all files of a job. The report holds every problem and
// warning of all of them, in the order of the files. With any problem the job is
// nil. The error is only for a file that cannot be read at all; then both others
// are nil.
func Read(files Sources, opt Options) (*quotes.Job, *quotes.Report, error) {
	if opt.Today.IsZero() {
		return nil, nil, errNoClock
	}
	files = files.named()
	x := &reader{opt: opt}
	job, err := x.job(files)
	if err != nil {
		return nil, nil, err
	}
	x.rep.Sort([]string{files.Quotes.Name, files.Beds.Name, files.Delivery.Name, files.Media.Name, files.Settings.Name})
	if !x.rep.OK() {
		return nil, &x.rep, nil
	}
	return job, &x.rep, nil
}

// named gives files without a name their usual one.
func (f Sources) named() Sources {
	f.Quotes.Name = cmp.Or(f.Quotes.Name, QuotesFile)
	f.Beds.Name = cmp.Or(f.Beds.Name, BedsFile)
	f.Delivery.Name = cmp.Or(f.Delivery.Name, DeliveryFile)
	f.Media.Name = cmp.Or(f.Media.Name, MediaFile)
	f.Settings.Name = cmp.Or(f.Settings.Name, SettingsFile)
	return f
}

// job reads the files in the order in which they need one another: settings say
// how numbers read, quotes and beds name media, delivery names suppliers and sites.
func (x *reader) job(f Sources) (*quotes.Job, error) {
	if err := x.settings(f.Settings); err != nil {
		return nil, err
	}
	media := BuiltinMedia()
	if f.Media.R != nil {
		if err := x.media(media, f.Media); err != nil {
			return nil, err
		}
	}
	q, err := x.quotesFile(f.Quotes, media)
	if err != nil {
		return nil, err
	}
	b, err := x.bedsFile(f.Beds, media)
	if err != nil {
		return nil, err
	}
	rows, err := x.deliveryRows(f.Delivery, q, b)
	if err != nil {
		return nil, err
	}
	ways := x.ways(q, rows)
	if !q.lost && !b.lost && x.rep.OK() {
		x.farApart(b.rows)
		x.gaps(q, b, ways)
		x.across(q, b, ways)
	}
	job := &quotes.Job{Settings: x.set, Media: media, Delivery: ways}
	for _, r := range q.rows {
		job.Quotes = append(job.Quotes, r.Quote)
	}
	if x.rep.OK() {
		quotes.TellApart(job.Quotes)
	}
	for _, r := range b.rows {
		job.Beds = append(job.Beds, r.Bed)
	}
	return job, nil
}

func (x *reader) quotesFile(src Source, media *quotes.MediaTable) (*quoteBook, error) {
	if src.R == nil {
		x.problem(quotes.Beginning(src.Name), "", "the file is not there", "a file with one row for each quote", "mediabuy new writes an empty one with every heading")
		return &quoteBook{lost: true}, nil
	}
	return x.quoteRows(src, media)
}

func (x *reader) bedsFile(src Source, media *quotes.MediaTable) (*bedBook, error) {
	switch {
	case src.R != nil:
		return x.bedRows(src, media)
	case x.opt.QuotesOnly:
		return &bedBook{none: true}, nil
	}
	x.problem(quotes.Beginning(src.Name), "", "the file is not there", "a file with one row for each bed", "mediabuy new writes an empty one with every heading")
	return &bedBook{lost: true}, nil
}

// ways joins the shorthand of quotes.csv and the rows of delivery.csv; a
// supplier may have one or the other.
func (x *reader) ways(q *quoteBook, rows []*deliveryRow) []*quotes.Delivery {
	var out []*quotes.Delivery
	for _, d := range x.shorthand(q) {
		out = append(out, d.Delivery)
		i := slices.IndexFunc(rows, func(r *deliveryRow) bool { return r.Supplier == d.Supplier })
		if i >= 0 {
			what := "a delivery fee"
			if d.cell.heading == "free_over" {
				what = "a free_over"
			}
			x.fail(d.cell, d.Supplier+" has "+what+" here and a row in "+rows[i].Pos.String()+" too", "one of the two",
				"empty the delivery and free_over cells of its quotes")
		}
	}
	for _, r := range rows {
		out = append(out, r.Delivery)
	}
	return out
}
