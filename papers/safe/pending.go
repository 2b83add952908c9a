package safe

import "os"

// Where says how a pending file is written. The zero value is a path of its own.
type Where struct {
	// Root is the folder that name is in and that nothing may lead out of; nil for
	// a name that is a path.
	Root *os.Root
	// Perm are the permissions of a new file; Keep leaves those of one that is there.
	Perm os.FileMode
	Keep bool
}
