package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"mediabuy/optimise/risk"
	"mediabuy/units"
)

// tidyFlag asks for a plainer way to buy where it costs little more; "" does not.
type tidyFlag string

func (f *tidyFlag) addFlag(fs *pflag.FlagSet) {
	fs.StringVar((*string)(f), "tidy", "", "take the cheapest plainer way to buy (one supplier, two things, one stone in each layer (bought one way), the same mix in every bed) if it costs at most `SHARE` more than the cheapest; --tidy alone is 2%, another is written --tidy=3%")
	fs.Lookup("tidy").NoOptDefVal = fmt.Sprintf("%g%%", 100*risk.TidyWithin)
}

// share is what the buyer would pay more, as a fraction; asked is false without the
// flag.
func (f tidyFlag) share() (within float64, asked bool, err error) {
	if f == "" {
		return 0, false, nil
	}
	d, err := units.ParsePercent(string(f), units.DecimalMark(0))
	if err != nil {
		return 0, false, &usageError{fmt.Sprintf("--tidy %q is not a share", string(f)), "write --tidy for 2 %, or a share such as --tidy=3%"}
	}
	return d.Float(), true, nil
}
