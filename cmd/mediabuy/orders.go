package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"mediabuy/quotes/files"
)

// mostOrders bounds how many files of a folder are looked at for orders.
const mostOrders = 500

// ordersIn are the CSVs that lie in a folder, by name; none where there is no folder.
func ordersIn(dir string) ([]files.Source, error) {
	if info, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir() {
		return nil, nil
	}
	list, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("looking for orders in %s: %w", dir, err)
	}
	var out []files.Source
	for _, f := range list {
		if !f.Type().IsRegular() || !strings.EqualFold(filepath.Ext(f.Name()), ".csv") {
			continue
		}
		if len(out) == mostOrders {
			return nil, fmt.Errorf("more than %d CSVs lie in %s, too many to look for orders; put those that are done into another folder", mostOrders, dir)
		}
		name := filepath.Join(dir, f.Name())
		text, err := readPlain(name)
		if err != nil {
			return nil, err
		}
		out = append(out, files.Source{Name: name, R: bytes.NewReader(text)})
	}
	return out, nil
}

// readPlain reads a plain file, a little more than [files.MaxFileBytes] at most.
func readPlain(name string) ([]byte, error) {
	file, err := openPlain(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, files.MaxFileBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return text, nil
}
