package main

import (
	"fmt"
	"time"

	"github.com/spf13/pflag"
)

// searchLimit is how long a verb may search, a part of its options.
type searchLimit struct {
	timeLimit time.Duration // 0 leaves it to the job
}

// addFlag declares the flag; words say what it stops and what follows.
func (l *searchLimit) addFlag(fs *pflag.FlagSet, words string) {
	fs.DurationVar(&l.timeLimit, "time-limit", 0, words)
}

func (l searchLimit) check() error {
	if l.timeLimit < 0 {
		return &usageError{fmt.Sprintf("--time-limit %v is below 0", l.timeLimit), "write a time such as 30s, or leave it out"}
	}
	return nil
}
