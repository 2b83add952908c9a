package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/disk"
	"mediabuy/optimise"
	"mediabuy/quotes/files"
)

type exportOptions struct {
	files  jobFiles
	lp     string
	mps    string
	merged bool
}

func newExportCommand(a *app) *cobra.Command {
	o := &exportOptions{}
	c := &cobra.Command{
		Use:   "export [JOB] --lp FILE | --mps FILE",
		Short: "the model as LP or MPS text for any solver",
		Long: `Writes the buying model of the job as text that other solvers read, so that the
answer can be checked without trusting this program. The optimum of the model is
the total before rounding to cents; add the constant named in the heading. The
sureness that a job asks for with sure is left out: it is not a row of any model.`,
		Example: `  mediabuy export --lp model.lp
  mediabuy export spring --mps - | less`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runExport(a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *exportOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	fs.StringVar(&o.lp, "lp", "", "write the model as LP text, its rows written out as sums, to `FILE`; - is standard output")
	fs.StringVar(&o.mps, "mps", "", "write the model as MPS text in free columns to `FILE`; - is standard output")
	fs.BoolVar(&o.merged, "merged", false, "write the model as it is solved, with alike beds and quotes made one")
}

func runExport(a *app, o *exportOptions, dir string) error {
	switch {
	case o.lp == "" && o.mps == "":
		return &usageError{"export needs a file to write", "add --lp FILE or --mps FILE; - is standard output"}
	case o.lp == "-" && o.mps == "-":
		return &usageError{"two models are to go to standard output, which takes one", "name a file for one of them"}
	}
	in, err := a.load(dir, o.files, files.Options{})
	if err != nil {
		return err
	}
	for _, name := range []string{o.lp, o.mps} {
		if err := in.notOwn(name); err != nil {
			return err
		}
	}
	model := optimise.ExportModel(in.job, o.merged)
	var named []disk.Edit
	for _, out := range []disk.Edit{{Name: o.lp, Write: model.WriteLP}, {Name: o.mps, Write: model.WriteMPS}} {
		switch out.Name {
		case "":
		case "-":
			if err := out.Write(a.stdout); err != nil {
				return err
			}
		default:
			named = append(named, out)
		}
	}
	if err := disk.Write(disk.Where{Perm: filePerm}, named...); err != nil {
		return err
	}
	if in.job.Settings.Sure > 0 {
		fmt.Fprintf(a.stderr, "mediabuy: the model leaves out sure = %.3g of %s: its optimum is what is cheapest without, and plan may say more\n", 100*in.job.Settings.Sure, files.SettingsFile)
	}
	return nil
}
