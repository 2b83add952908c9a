package main

import (
	"fmt"
	"os"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

type compareOptions struct {
	files  jobFiles
	answer answerFlags
	litres string
	per    string
}

func newCompareCommand(a *app) *cobra.Command {
	o := &compareOptions{}
	c := &cobra.Command{
		Use:   "compare [JOB | QUOTES | -]",
		Short: "every quote side by side in money per placed litre",
		Long: `Prices each quote as if it alone filled the beds it may go into, in whole packs,
delivered, taxed and rinsed, and sets them side by side per placed litre.

In place of a JOB it takes a file of quotes alone, or - for quotes pasted on
standard input. Then --litres says how much is needed, and the rules that hang on
a bed (grain size, top layer, media asked for or avoided) are not judged.`,
		Example: `  mediabuy compare
  mediabuy compare --per yd3
  mediabuy compare pasted.csv --litres 500
  mediabuy compare - --litres "2 yd3" < pasted.csv`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runCompare(a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *compareOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.answer.addFlags(fs)
	fs.StringVar(&o.litres, "litres", "", "compare at this placed `VOLUME`, such as 500 or \"2 yd3\"; a bare number is litres")
	fs.StringVar(&o.per, "per", "", "show money per `UNIT`: L, yd3, m3 or ft3; without it ft3 where units are us, else L")
}

// perUnits are the volumes that money may be shown per.
var perUnits = map[string]show.Per{
	"L":   {Name: "L", Litres: units.Litre, Digits: optimise.PerLitreDigits},
	"yd3": {Name: "yd³", Litres: units.CubicYard, Digits: 2},
	"m3":  {Name: "m³", Litres: units.CubicMetre, Digits: 2},
	"ft3": {Name: "ft³", Litres: units.CubicFoot, Digits: 2},
}

func runCompare(a *app, o *compareOptions, from string) error {
	if _, ok := perUnits[o.per]; !ok && o.per != "" {
		return &usageError{fmt.Sprintf("--per %q is not a choice", o.per), "write L, yd3, m3 or ft3"}
	}
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	litres, err := o.volume()
	if err != nil {
		return err
	}
	chosen := o.files
	alone := isFile(from)
	if alone {
		if chosen.quotes != "" {
			return &usageError{fmt.Sprintf("quotes are named twice: %s and --quotes %s", from, chosen.quotes), "name one of them"}
		}
		// The folder is not looked at: a file beside pasted quotes is of some other job.
		chosen.noFolder, chosen.quotes = true, from
	}
	opt := files.Options{QuotesOnly: alone || litres > 0, Reader: o.answer.reader()}
	in, err := a.load(from, chosen, opt)
	if err != nil {
		return err
	}
	if len(in.job.Beds) == 0 && litres == 0 {
		return &usageError{"there are no beds to say how much is needed", "add --litres, such as --litres 500"}
	}
	fit := suitability.New(in.job)
	list := optimise.Compare(in.job, fit, optimise.CompareOptions{Litres: litres})
	if litres == 0 {
		litres = in.job.Demand()
	}
	if o.answer.json {
		return a.printJSON(optimise.NewCompareDocument(in.job, fit, list, litres, in.rep))
	}
	sys, err := o.answer.system(&in.job.Settings)
	if err != nil {
		return err
	}
	per, chosenPer := perUnits[o.per]
	if !chosenPer {
		per.Name, per.Litres, per.Digits = optimise.ComparedPer(sys)
	}
	view := show.CompareView{Job: in.job, List: list, Litres: litres, Asked: o.asked(), Per: per, Warnings: in.rep.Warnings}
	return a.print(show.Compare(view, a.style(sys)))
}

// volume is what --litres asks for; 0 without it.
func (o *compareOptions) volume() (units.Litres, error) {
	if o.litres == "" {
		return 0, nil
	}
	v, err := units.ParseVolume(o.litres, units.Options{Mark: units.MarkPoint, Default: "L"})
	if err != nil {
		return 0, &usageError{"--litres: " + err.Error(), "write a volume such as 500 or \"2 yd3\""}
	}
	if v.Value <= 0 {
		return 0, &usageError{fmt.Sprintf("--litres %q is nothing to fill", o.litres), "write a volume above 0"}
	}
	return v.Value, nil
}

// asked is the volume of --litres with its unit, for people.
func (o *compareOptions) asked() string {
	if o.litres == "" || strings.ContainsFunc(o.litres, unicode.IsLetter) {
		return o.litres
	}
	return o.litres + " L"
}

// isFile reports whether what stands for a job is a file of quotes.
func isFile(name string) bool {
	if name == "-" {
		return true
	}
	info, err := os.Stat(name)
	return err == nil && !info.IsDir()
}
