// Package orderbook is the orders that lie in folders: which are there, which numbers they
// have, and what becomes of them when others are written there.
package orderbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"mediabuy/disk"
	"mediabuy/papers"
	"mediabuy/papers/received"
	"mediabuy/papers/safe"
	"mediabuy/quotes/files"
)

// most bounds how many files of a folder are looked at for orders.
const most = 500

// Own is the folder in which the orders of a job lie.
func Own(job string) string { return filepath.Join(job, received.OrdersFolder) }

// In are the CSVs that lie in a folder, by name; none where there is no folder.
func In(dir string) ([]files.Source, error) {
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
		if len(out) == most {
			return nil, fmt.Errorf("more than %d CSVs lie in %s, too many to look for orders; put those that are done into another folder", most, dir)
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

// Numbers are the numbers of orders that lie in a job's folder, or in the folders to which
// further ones go.
func Numbers(dir string, further ...string) (received.Numbers, error) {
	var all []files.Source
	seen := map[string]bool{}
	for _, at := range append(further, Own(dir)) {
		for _, folder := range []string{at, filepath.Join(at, received.ReplacedFolder)} {
			if folder = filepath.Clean(folder); seen[folder] {
				continue
			}
			seen[folder] = true
			list, err := In(folder)
			if err != nil {
				return nil, err
			}
			all = append(all, list...)
		}
	}
	return received.NumbersOf(all)
}

// File is one file by its path within a folder.
type File struct {
	Name string
	Data []byte
}

// Aside is what becomes of orders that lie in a folder into which others are written.
type Aside struct {
	Keep  []File   // copies of those that are written over
	Still []string // those that stay and of which receive counts deliveries, each in words
}

// SetAside looks at the orders in a folder and in that of the job. names are the files
// that are to be written into the folder for some orders.
func SetAside(job, folder string, names []string, orders []*papers.Order) (Aside, error) {
	var out Aside
	fresh := map[string]bool{}
	for _, o := range orders {
		fresh[o.Number] = true
	}
	own := Own(job)
	there, err := In(own)
	if err != nil {
		return out, err
	}
	if filepath.Clean(own) != filepath.Clean(folder) {
		more, err := In(folder)
		if err != nil {
			return out, err
		}
		there = append(there, more...)
	}
	for _, src := range there {
		text, err := io.ReadAll(src.R)
		if err != nil {
			return out, fmt.Errorf("reading %s: %w", src.Name, err)
		}
		number := received.NumberOf(string(text))
		if number == "" || fresh[number] {
			continue
		}
		base := strings.TrimSuffix(filepath.Base(src.Name), filepath.Ext(src.Name))
		if filepath.Dir(src.Name) != filepath.Clean(folder) || !slices.Contains(names, filepath.Base(src.Name)) {
			if filepath.Dir(src.Name) == filepath.Clean(own) {
				out.Still = append(out.Still, fmt.Sprintf("%s, order %s", src.Name, number))
			}
			continue
		}
		name, err := freeName(folder, base, number, text)
		if err != nil {
			return out, err
		}
		for _, ext := range []string{".csv", ".pdf", ".html"} {
			data, err := readPlain(strings.TrimSuffix(src.Name, filepath.Ext(src.Name)) + ext)
			if errors.Is(err, fs.ErrNotExist) {
				continue
			}
			if err != nil {
				return out, err
			}
			out.Keep = append(out.Keep, File{name + ext, data})
		}
	}
	return out, nil
}

// freeName is the name, without its ending, under which an order is kept: one that no
// other order is kept under.
func freeName(folder, base, number string, text []byte) (string, error) {
	for i := 1; ; i++ {
		words := []string{base, number}
		if i > 1 {
			words = append(words, fmt.Sprint(i))
		}
		name := filepath.Join(received.ReplacedFolder, safe.FileName(words...))
		had, err := readPlain(filepath.Join(folder, name+".csv"))
		if errors.Is(err, fs.ErrNotExist) || err == nil && bytes.Equal(had, text) {
			return name, nil
		}
		if err != nil {
			return "", err
		}
	}
}

// readPlain reads a plain file, a little more than [files.MaxFileBytes] at most.
func readPlain(name string) ([]byte, error) {
	file, err := disk.Open(nil, name)
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
