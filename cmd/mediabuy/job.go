package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/disk"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

// jobFiles say where a job's files are read from, if not from its folder.
type jobFiles struct {
	quotes, beds, delivery, media string
	// noFolder says that there is no folder: only files named here are read.
	noFolder bool
}

func (f *jobFiles) addFlags(fs *pflag.FlagSet) {
	fs.StringVar(&f.quotes, "quotes", "", "read quotes from `FILE` instead; - is standard input")
	fs.StringVar(&f.beds, "beds", "", "read beds from `FILE` instead; - is standard input")
	fs.StringVar(&f.delivery, "delivery", "", "read delivery terms from `FILE` instead; - is standard input")
	fs.StringVar(&f.media, "media", "", "read media from `FILE` instead; - is standard input")
}

// stdinName is how standard input is named in messages.
const stdinName = "standard input"

// texts holds what stood in each file, by the name used in messages.
type texts map[string][]byte

// loaded is a job that may be worked on, with what was noticed in its files.
type loaded struct {
	job      *quotes.Job
	rep      *quotes.Report
	texts    texts
	patience beside.Patience
}

// load reads the job in dir. Problems in the files come back as a *filesError;
// warnings are in the report.
func (a *app) load(dir string, f jobFiles, opt files.Options) (*loaded, error) {
	sources, seen, err := a.open(dir, f)
	if err != nil {
		return nil, err
	}
	opt.Today = a.now()
	job, rep, err := files.Read(sources, opt)
	if err != nil {
		return nil, err
	}
	if !rep.OK() {
		return nil, &filesError{rep: rep, texts: seen}
	}
	return &loaded{job, rep, seen, a.patience}, nil
}

// plan is the cheapest plan of the job, as sure as it asks for. From then on the
// job is the one whose cheapest plan that is.
func (in *loaded) plan(ctx context.Context, opt optimise.Options) (*optimise.Plan, error) {
	t, err := in.tidied(ctx, "", opt)
	if err != nil {
		return nil, err
	}
	return t.Plan, nil
}

// tidied is the plan of the job, or a plainer one where that is asked for. From then
// on the job is the one whose cheapest plan that is.
func (in *loaded) tidied(ctx context.Context, tidy tidyFlag, opt optimise.Options) (*risk.Tidied, error) {
	within, asked, err := tidy.share()
	if err != nil {
		return nil, err
	}
	if asked {
		t, err := risk.Tidy(ctx, in.job, within, in.patience.OtherLimit(cmp.Or(opt.TimeLimit, in.job.Settings.TimeLimit), 0), opt)
		if err != nil {
			return nil, err
		}
		in.job = t.Job
		return t, nil
	}
	r, err := risk.Plan(ctx, in.job, opt)
	if err != nil {
		return nil, err
	}
	in.job = r.Job
	return &risk.Tidied{Reached: r, Cheapest: r}, nil
}

// notOwn refuses to write over one of the files that the job was read from.
func (in *loaded) notOwn(path string) error {
	to, err := os.Stat(path)
	if err != nil {
		return nil // nothing is there; what else is wrong shows on writing
	}
	for name := range in.texts {
		if from, err := os.Stat(name); err == nil && os.SameFile(from, to) {
			return &usageError{path + " is one of the job's own files and is not written over", "name another file"}
		}
	}
	return nil
}

// open reads the bytes of every file of the job that is there. A folder that is
// not there is a problem of the files.
func (a *app) open(dir string, f jobFiles) (files.Sources, texts, error) {
	var sources files.Sources
	if err := f.oneStdin(); err != nil {
		return sources, nil, err
	}
	if !f.noFolder && (f.quotes == "" || f.beds == "") {
		if err := jobFolder(dir); err != nil {
			return sources, nil, err
		}
	}
	seen := texts{}
	for _, one := range []struct {
		to      *files.Source
		instead string
		usual   string
	}{
		{&sources.Quotes, f.quotes, files.QuotesFile},
		{&sources.Beds, f.beds, files.BedsFile},
		{&sources.Delivery, f.delivery, files.DeliveryFile},
		{&sources.Media, f.media, files.MediaFile},
		{&sources.Settings, "", files.SettingsFile},
	} {
		if f.noFolder && one.instead == "" {
			one.to.Name = one.usual
			continue
		}
		src, text, err := a.source(dir, one.instead, one.usual)
		if err != nil {
			return sources, nil, err
		}
		*one.to = src
		seen[src.Name] = text
	}
	return sources, seen, nil
}

// source reads one file whole, up to a little more than [quotes.MaxFileBytes],
// so that problems can be shown in their line. A file of the folder may be
// missing; one that was asked for by name may not.
func (a *app) source(dir, instead, usual string) (files.Source, []byte, error) {
	name := instead
	if name == "" {
		name = filepath.Join(dir, usual)
	}
	var r io.Reader
	if name == "-" {
		name, r = stdinName, a.stdin
	} else {
		file, err := openPlain(name)
		switch {
		case errors.Is(err, fs.ErrNotExist) && instead == "":
			return files.Source{Name: name}, nil, nil
		case errors.Is(err, fs.ErrNotExist):
			return files.Source{}, nil, missing(name, "there is no such file", "a file of the form of "+usual, "mediabuy new DIR writes an empty one with every heading")
		case err != nil:
			return files.Source{}, nil, err
		}
		defer file.Close()
		r = file
	}
	text, err := io.ReadAll(io.LimitReader(r, files.MaxFileBytes+1))
	if err != nil {
		return files.Source{}, nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return files.Source{Name: name, R: bytes.NewReader(text)}, text, nil
}

// openPlain opens a plain file: what a pipe or a device would give is never waited
// for. Whatever else stands there is a problem of the files; where nothing does, the
// error is fs.ErrNotExist.
func openPlain(name string) (*os.File, error) {
	file, err := disk.Open(nil, name)
	if r := disk.Explain(err); r != nil {
		hint := r.Hint()
		if r.Kind == disk.Odd {
			hint += "; - reads from standard input"
		}
		return nil, missing(name, r.Found(), "a plain file", hint)
	}
	return file, err
}

// jobFolder refuses what is no folder to read a job from.
func jobFolder(dir string) error {
	info, err := disk.Look(dir)
	r := disk.Explain(err)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return noJob(dir, "there is no such folder")
	case r != nil:
		return missing(dir, r.Found(), wantedFolder, r.Hint())
	case err != nil:
		return err
	case !info.IsDir():
		return noJob(dir, "this is a file")
	}
	return nil
}

func (f jobFiles) oneStdin() error {
	n := 0
	for _, name := range []string{f.quotes, f.beds, f.delivery, f.media} {
		if name == "-" {
			n++
		}
	}
	if n > 1 {
		return &usageError{fmt.Sprintf("%d files are to come from standard input, which holds one", n), "write - for one of them and name the others"}
	}
	return nil
}

const wantedFolder = "a folder with quotes.csv and beds.csv"

func noJob(dir, found string) error {
	return missing(dir, found, wantedFolder, "mediabuy new DIR writes an empty job, mediabuy demo a sample one")
}

// missing is a file problem about a file or folder as a whole.
func missing(name, found, wanted, hint string) error {
	p := &quotes.Problem{Pos: quotes.Pos{File: name}, Severity: quotes.Error, Found: found, Wanted: wanted, Hint: hint}
	return &filesError{rep: &quotes.Report{Problems: []*quotes.Problem{p}}}
}
