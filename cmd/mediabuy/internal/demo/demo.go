// Package demo holds the sample job: three invented suppliers' offers to the
// invented growers of Harrow Lane, who have twelve beds on four tables to fill.
//
// The files are embedded so that the program can write them anywhere; the same
// files stand in testdata/demo of the project, where other tools and tests find
// them, and a test keeps the two alike.
package demo

import (
	"embed"
	"io/fs"
)

//go:embed files
var files embed.FS

// Files gives the files of the sample job by name.
func Files() map[string][]byte {
	out := map[string][]byte{}
	entries, err := fs.ReadDir(files, "files")
	if err == nil {
		for _, e := range entries {
			if out[e.Name()], err = files.ReadFile("files/" + e.Name()); err != nil {
				break
			}
		}
	}
	if err != nil {
		panic("demo: " + err.Error()) // the files are part of the program and a test reads them
	}
	return out
}
