// Package jobtest makes jobs for tests out of the text of their files.
package jobtest

import (
	"time"

	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

// PlainMedia lose nothing and hold no water, so that sums can be done in the
// head: a litre of grit weighs 1 kg, of rock 2 kg and of fluff half a kilogram,
// flooded or not. Rock is rough, so it is refused in a top layer.
const PlainMedia = `medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes
grit,1 kg/L,0,0,smooth,none,no,0%,0%,30
rock,2 kg/L,0,0,rough,none,no,0%,0%,0
fluff,0.5 kg/L,0,0,smooth,none,no,0%,0%,0
`

// NoLoss has clay placed without loss, so that sums can be done in the head.
const NoLoss = "medium,rinse_loss,settle\nexpanded clay,0,0\n"

// Files are the texts of a job's files; an empty one is a file that is not there.
type Files struct {
	Quotes, Beds, Delivery, Media, Settings string
	Today                                   time.Time // the first of April 2026 where it is not set
}

// Job reads the files, which must have no problems. Without beds it is quotes alone.
func (f Files) Job(t require.TestingT) *quotes.Job {
	job, _ := f.Read(t)
	return job
}

// Read is Job with what the reader told beside it.
func (f Files) Read(t require.TestingT) (*quotes.Job, *quotes.Report) {
	job, rep := f.Try(t)
	require.NoError(t, rep.Err())
	return job, rep
}

// Try is Read of files that may have problems; then there is no job.
func (f Files) Try(t require.TestingT) (*quotes.Job, *quotes.Report) {
	texts := map[string][]byte{}
	for name, text := range map[string]string{
		files.QuotesFile: f.Quotes, files.BedsFile: f.Beds, files.DeliveryFile: f.Delivery, files.MediaFile: f.Media, files.SettingsFile: f.Settings,
	} {
		if text != "" {
			texts[name] = []byte(text)
		}
	}
	today := f.Today
	if today.IsZero() {
		today = time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)
	}
	job, rep, err := files.Read(files.SourcesOf(texts), files.Options{Today: today, QuotesOnly: f.Beds == ""})
	require.NoError(t, err)
	return job, rep
}
