package disk

import "os"

// Where says how files are written. The zero value is for paths.
type Where struct {
	// Root is the folder that the names are in and that nothing may lead out of; nil
	// for names that are paths.
	Root *os.Root
	// Perm are the permissions of a new file; Keep leaves those of one that is there.
	Perm os.FileMode
	Keep bool
	// Folders makes the folders that paths and names lead through, where they are not there.
	Folders bool
}
