//go:build !cgo || windows

package beginning

// Known says that this build cannot tell: it begins with Go.
const Known = false

// OutputClosed is not known here.
func OutputClosed() bool { return false }
