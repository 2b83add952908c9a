package web

import (
	"archive/zip"
	"context"
	"fmt"
	"io"
)

// zipped writes papers into one archive. It carries no day, so that the same job
// gives the same bytes.
func zipped(ctx context.Context, w io.Writer, list []paper) error {
	z := zip.NewWriter(w)
	for _, p := range list {
		f, err := z.Create(p.name)
		if err == nil {
			err = p.make(ctx, f)
		}
		if err != nil {
			return fmt.Errorf("making %s: %w", p.name, err)
		}
	}
	if err := z.Close(); err != nil {
		return fmt.Errorf("closing the archive: %w", err)
	}
	return nil
}
