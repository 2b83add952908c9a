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
	sys, err := o.answer.system(&quotes.Settings{Currency: "USD"})
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
