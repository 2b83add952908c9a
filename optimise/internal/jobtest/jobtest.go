// Package jobtest makes jobs for tests out of the text of their files.
package jobtest

import (
	"strings"
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

// Files are the texts of a job's files; an empty one is a file that is not there.
type Files struct{ Quotes, Beds, Delivery, Media, Settings string }

// Job reads the files, which must have no problems.
func (f Files) Job(t require.TestingT) *quotes.Job {
	src := func(name, text string) files.Source {
		if text == "" {
			return files.Source{Name: name}
		}
		return files.Source{Name: name, R: strings.NewReader(text)}
	}
	job, rep, err := files.Read(files.Sources{
		Quotes: src(files.QuotesFile, f.Quotes), Beds: src(files.BedsFile, f.Beds), Delivery: src(files.DeliveryFile, f.Delivery),
		Media: src(files.MediaFile, f.Media), Settings: src(files.SettingsFile, f.Settings),
	}, files.Options{Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	return job
}
