package disk

import "syscall"

// How to get leave, in the words of this system.
const (
	mayRead  = "give yourself leave to read it under Security in its properties"
	mayWrite = "see in its properties that it is not set to be read only, or name another folder"
)

// systemKinds are "System Error Codes", Microsoft Learn (memory).
var systemKinds = []systemKind{
	{syscall.Errno(112), Full},      // ERROR_DISK_FULL
	{syscall.Errno(39), Full},       // ERROR_HANDLE_DISK_FULL
	{syscall.Errno(1295), Quota},    // ERROR_DISK_QUOTA_EXCEEDED
	{syscall.Errno(223), TooLarge},  // ERROR_FILE_TOO_LARGE
	{syscall.Errno(19), ReadOnly},   // ERROR_WRITE_PROTECT
	{syscall.Errno(5), Denied},      // ERROR_ACCESS_DENIED
	{syscall.Errno(32), Busy},       // ERROR_SHARING_VIOLATION
	{syscall.Errno(33), Busy},       // ERROR_LOCK_VIOLATION
	{syscall.Errno(1117), Fault},    // ERROR_IO_DEVICE
	{syscall.Errno(267), NotFolder}, // ERROR_DIRECTORY
	{syscall.Errno(206), LongName},  // ERROR_FILENAME_EXCED_RANGE
	{syscall.Errno(1921), Circle},   // ERROR_CANT_RESOLVE_FILENAME
	{syscall.Errno(6), Closed},      // ERROR_INVALID_HANDLE
	{syscall.EISDIR, Folder},        // what package os itself answers
}
