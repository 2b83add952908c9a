package main

import (
	"errors"
	"io/fs"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

type mediaOptions struct {
	media  string
	answer answerFlags
}

func newMediaCommand(a *app) *cobra.Command {
	o := &mediaOptions{}
	c := &cobra.Command{
		Use:   "media [JOB]",
		Short: "the media table: names, values, sources",
		Long: `Lists the media with their other names, their properties and where each figure
comes from: the built-in table, with what media.csv of the job adds to it. A figure
is one value or low - usual - high.

In --json each property is [low, usual, high]: dry_density and held_water in kg of
one litre, voids, rinse_loss and settle as shares, rinse_minutes for 100 L.`,
		Example: `  mediabuy media
  mediabuy media spring --units metric`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runMedia(a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *mediaOptions) addFlags(fs *pflag.FlagSet) {
	fs.StringVar(&o.media, "media", "", "read media.csv from `FILE` instead; - is standard input")
	o.answer.addFlags(fs)
}

func runMedia(a *app, o *mediaOptions, dir string) error {
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	sys, err := a.habitOf(dir, &o.answer)
	if err != nil {
		return err
	}
	table, rep := files.BuiltinMedia(), &quotes.Report{}
	src, raw, err := a.source(dir, o.media, files.MediaFile)
	switch {
	case err == nil && src.R != nil:
		if table, rep, err = files.ReadMedia(src); err != nil {
			return err
		}
		if !rep.OK() {
			return &filesError{rep: rep, texts: texts{src.Name: raw}}
		}
	case err != nil && !(o.media == "" && errors.Is(err, fs.ErrNotExist)):
		return err
	}
	if o.answer.json {
		return a.printJSON(document.NewMedia(table, rep))
	}
	return a.print(show.Media(table, rep.Warnings, a.style(sys)))
}

// habitOf is the habit of units of a job: the one asked for, else that of its settings.
func (a *app) habitOf(dir string, f *answerFlags) (units.System, error) {
	src, raw, err := a.source(dir, "", files.SettingsFile)
	if err != nil {
		return 0, err
	}
	set, rep, err := files.ReadSettings(src, files.Options{Today: a.now()})
	if err != nil {
		return 0, err
	}
	if !rep.OK() {
		return 0, &filesError{rep: rep, texts: texts{src.Name: raw}}
	}
	return f.system(set)
}
