//go:build !windows

package disk

import "syscall"

// How to get leave, in the words of this system.
const (
	mayRead  = "give yourself leave to read it, as by chmod u+r"
	mayWrite = "give yourself leave, as by chmod u+w on the folder, or name another"
)

// systemKinds are the errors of POSIX, "System Interfaces, 2.3 Error Numbers", IEEE
// Std 1003.1 (memory).
var systemKinds = []systemKind{
	{syscall.ENOSPC, Full},
	{syscall.EDQUOT, Quota},
	{syscall.EFBIG, TooLarge},
	{syscall.EROFS, ReadOnly},
	{syscall.EACCES, Denied},
	{syscall.EPERM, Denied},
	{syscall.EIO, Fault},
	{syscall.ENOTDIR, NotFolder},
	{syscall.ENAMETOOLONG, LongName},
	{syscall.ELOOP, Circle},
	{syscall.EISDIR, Folder},
	{syscall.EBADF, Closed},
}
