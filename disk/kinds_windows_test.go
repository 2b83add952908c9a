package disk

import (
	"syscall"
	"testing"
)

var someFailures = []struct {
	err  error
	kind Kind
}{{syscall.Errno(112), Full}, {syscall.Errno(1295), Quota}, {syscall.Errno(19), ReadOnly}, {syscall.Errno(5), Denied}, {syscall.Errno(32), Busy}}

// pipe makes none: there is no file of that kind here.
func pipe(*testing.T, string) bool { return false }
