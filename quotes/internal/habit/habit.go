// Package habit tells what the files of a job say about how its people write: its media, its money, its decimal mark, its
// day, and what a ton or a day of three numbers is there.
package habit

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"time"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
	days "mediabuy/quotes/internal/day"
	"mediabuy/units"
)

// Job is what the files of a job say about reading a message.
type Job struct {
	media, settings []byte
	Table           *quotes.MediaTable
	Mark            units.DecimalMark // MarkUnknown: not said
	Currency        string            // "": not said
	Today           time.Time         // its day; zero: not said
	Tax             units.Decimal     // in percent, what it adds where a quote says nothing of tax; zero: nothing
}

// Habit is the decimal mark that the job's files or, where they leave it open, its currency tell.
func (j Job) Habit() units.DecimalMark {
	if j.Mark == units.MarkUnknown && pointCurrencies[j.Currency] {
		return units.MarkPoint
	}
	return j.Mark
}

// pointCurrencies are those of countries that write a point before the cents (common practice, no source).
var pointCurrencies = map[string]bool{"USD": true, "GBP": true, "AUD": true, "NZD": true, "INR": true}

// MetricTon says whether a ton is the metric one: the job's currency, or else the only signs of money in a message, is of a
// country that has no other (common practice, no source).
func (j Job) MetricTon(low string) bool {
	if j.Currency != "" {
		return j.Currency != "USD" && j.Currency != "CAD"
	}
	return strings.ContainsAny(low, "£€") && !strings.Contains(low, "$")
}

// In is the job with a currency for its settings, for reading rows where no job says one.
func (j Job) In(currency string) Job {
	j.settings = fmt.Appendf(nil, "currency = %q\n", currency)
	return j
}

// AnyDay is the clock for reading rows back: no cell's reading hangs on it.
var AnyDay = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// noJob is what is known with no job at all.
var noJob = sync.OnceValues(func() (Job, error) { return readJob(files.Source{}, files.Source{}) })

// Open reads media.csv and job.toml; without readers it is what is known with no job at all. The error comes from reading, or is a
// [quotes.ProblemsError] for a file that has problems of its own.
func Open(media, settings files.Source) (Job, error) {
	if media.R == nil && settings.R == nil {
		return noJob()
	}
	return readJob(media, settings)
}

// readJob reads media.csv and job.toml by way of one row that is in order.
func readJob(media, settings files.Source) (Job, error) {
	var j Job
	for _, f := range []struct {
		src files.Source
		to  *[]byte
	}{{media, &j.media}, {settings, &j.settings}} {
		if f.src.R == nil {
			continue
		}
		raw, err := io.ReadAll(io.LimitReader(f.src.R, files.MaxFileBytes+1))
		if err != nil {
			return j, fmt.Errorf("reading %s: %w", f.src.Name, err)
		}
		*f.to = raw
	}
	got, rep, err := j.Read("supplier,medium,pack,price\nyard,pumice,1 L,1\n", "", media.Name, settings.Name)
	if err != nil {
		return j, err
	}
	if err := rep.Err(); err != nil {
		return j, err
	}
	j.Table = got.Media
	if j.settings != nil {
		j.Currency = got.Settings.Currency
		if !got.Settings.TaxIncluded {
			j.Tax = got.Settings.Tax.Mul(units.D("100"))
		}
		if d := got.Settings.Date; !d.Equal(AnyDay) {
			j.Today = d.Time
		}
	}
	// 1,250 reads one way only where the job says which sign is the decimal mark.
	if got, rep, err = j.Read("supplier\tmedium\tpack\tprice\nyard\tpumice\t1 L\t1,250\n", "", "", ""); err != nil {
		return j, err
	}
	if rep.OK() {
		j.Mark = units.MarkPoint
		if got.Quotes[0].Price.Cmp(units.M("2")) < 0 {
			j.Mark = units.MarkComma
		}
	}
	return j, nil
}

// Read reads rows of quotes.csv, and of delivery.csv if there are any, under the job's media and settings.
func (j Job) Read(rows, delivery, mediaName, settingsName string) (*quotes.Job, *quotes.Report, error) {
	sources := files.Sources{Quotes: files.Source{R: strings.NewReader(rows)}, Media: files.Source{Name: mediaName}, Settings: files.Source{Name: settingsName}}
	if delivery != "" {
		sources.Delivery.R = strings.NewReader(delivery)
	}
	if j.media != nil {
		sources.Media.R = bytes.NewReader(j.media)
	}
	if j.settings != nil {
		sources.Settings.R = bytes.NewReader(j.settings)
	}
	return files.Read(sources, files.Options{Today: AnyDay, QuotesOnly: true})
}

// Rupee is the currency that "Rs." stands for: the job's where that is a rupee, else the Indian one (common practice, no source).
func (j Job) Rupee() string {
	if slices.Contains([]string{"PKR", "LKR", "NPR", "MUR", "SCR"}, j.Currency) {
		return j.Currency
	}
	return "INR"
}

// Day is a day as quotes.csv has it. What the country of the job's currency, or the day of the job, leaves open is not read.
func (j Job) Day(text string) (iso, bad string) {
	return days.One(text, j.Today, days.OrderOf(j.Currency))
}

// Days are all the days that a text may be, the earliest first.
func (j Job) Days(text string) []days.Reading {
	return days.Said(text, j.Today, days.OrderOf(j.Currency))
}
