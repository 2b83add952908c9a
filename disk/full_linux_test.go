package disk

import (
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// fullDisk is a disk with room for 64 KiB.
func fullDisk(t *testing.T) string {
	dir := t.TempDir()
	if err := syscall.Mount("none", dir, "tmpfs", 0, "size=64k"); err != nil {
		t.Skip("no disk can be mounted here: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	return dir
}
