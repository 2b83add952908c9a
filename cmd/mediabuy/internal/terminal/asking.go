package terminal

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"golang.org/x/term"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/quotes/message"
)

// Answer puts what is asked to a person at a terminal, one after the other; an empty answer leaves all that is left open.
// Without a terminal the proposal stays as it is.
func Answer(p *message.Proposal, stdin io.Reader, out io.Writer) (*message.Proposal, error) {
	under := stdin
	if i, ok := stdin.(*Inlet); ok {
		under = i.R
	}
	file, isFile := under.(*os.File)
	if !isFile || !term.IsTerminal(int(file.Fd())) {
		return p, nil
	}
	return answerFrom(p, stdin, out)
}

// answerFrom asks on out and reads numbers from in, one a line.
func answerFrom(p *message.Proposal, in io.Reader, out io.Writer) (*message.Proposal, error) {
	lines := bufio.NewScanner(in)
	for len(p.Asked) > 0 {
		q := p.Asked[0]
		fmt.Fprint(out, show.Question(p, q), "which one, 1 to ", len(q.Readings), ", or nothing to leave it open: ")
		if !lines.Scan() {
			if lines.Err() != nil {
				fmt.Fprintln(out)
			}
			return p, lines.Err()
		}
		said := strings.TrimSpace(lines.Text())
		if said == "" {
			return p, nil
		}
		n, err := strconv.Atoi(said)
		if err != nil || n < 1 || n > len(q.Readings) {
			fmt.Fprintf(out, "%q is none of them; write a number from 1 to %d\n", said, len(q.Readings))
			continue
		}
		if p, err = p.Answer(0, n-1); err != nil {
			return nil, err
		}
	}
	return p, nil
}
