package message

import (
	"flag"
	"os"
	"testing"
)

// TestMain has the property tests draw the same messages each time where CI is set:
// a reader of anyone's words has words to learn, which must not stop other work. On
// a developer's machine they are drawn anew, and by the fuzz target.
func TestMain(m *testing.M) {
	flag.Parse()
	if os.Getenv("CI") == "true" {
		if err := flag.Set("rapid.seed", "20261125"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
