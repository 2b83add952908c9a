package share

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
)

// storeFormat marks a file of solved groups, so that no other file is taken for
// one.
const storeFormat = "mediabuy solved groups 1"

// maxStoreBytes bounds what is read: 4095 groups of twelve long names are a few
// megabytes.
const maxStoreBytes = 64 << 20

// Store holds the proven costs of groups of one job's members, to go on with
// after a stop. The zero Store is empty.
type Store struct {
	job   string // contentHash
	costs map[string]*int64
}

// storeFile is a Store as it is kept: cost is in the currency's smallest unit,
// null for a group that has no plan of its own.
type storeFile struct {
	Format string      `json:"format"`
	Job    string      `json:"job"`
	Groups []storeItem `json:"groups"`
}

type storeItem struct {
	Members []string `json:"members"`
	Cost    *int64   `json:"cost"`
}

// storeKey joins sorted names by a sign that no cell of a file can hold.
func storeKey(members []string) string { return strings.Join(members, "\x00") }

// ReadStore reads what [Store.Write] wrote. name is for messages.
func ReadStore(r io.Reader, name string) (*Store, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxStoreBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	if len(text) > maxStoreBytes {
		return nil, fmt.Errorf("reading %s: it is longer than %d bytes, which no file of solved groups is", name, maxStoreBytes)
	}
	var f storeFile
	if err := json.Unmarshal(text, &f); err != nil || f.Format != storeFormat {
		return nil, fmt.Errorf("%s is not a file of solved groups; name a new file, or one written for this use", name)
	}
	s := &Store{job: f.Job, costs: map[string]*int64{}}
	for _, it := range f.Groups {
		key := storeKey(it.Members)
		if _, twice := s.costs[key]; twice || len(it.Members) == 0 || !slices.IsSorted(it.Members) || strings.Count(key, "\x00") != len(it.Members)-1 {
			return nil, fmt.Errorf("%s: the group %q is empty, unsorted, oddly named or there twice; remove the file to begin anew", name, strings.Join(it.Members, ", "))
		}
		s.costs[key] = it.Cost
	}
	return s, nil
}

// Write writes the store; ReadStore reads it.
func (s *Store) Write(w io.Writer) error {
	f := storeFile{Format: storeFormat, Job: s.job, Groups: []storeItem{}}
	keys := make([]string, 0, len(s.costs))
	for k := range s.costs {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	for _, k := range keys {
		f.Groups = append(f.Groups, storeItem{strings.Split(k, "\x00"), s.costs[k]})
	}
	if err := json.NewEncoder(w).Encode(f); err != nil {
		return fmt.Errorf("writing solved groups: %w", err)
	}
	return nil
}

// Len is the number of groups known.
func (s *Store) Len() int { return len(s.costs) }

// Fits reports whether the store is of this job's content: the same quotes,
// beds, members, delivery terms and settings.
func (s *Store) Fits(job *quotes.Job) (bool, error) {
	h, err := contentHash(job)
	return err == nil && s.job == h, err
}

// get looks up a group.
func (s *Store) get(c *club, g costgame.Group) (cost *int64, ok bool) {
	cost, ok = s.costs[storeKey(c.list(g))]
	return cost, ok
}

func (s *Store) put(c *club, g costgame.Group, cost *int64) {
	s.costs[storeKey(c.list(g))] = cost
}

// clone is a copy that later solves do not change.
func (s *Store) clone() *Store {
	out := &Store{job: s.job, costs: make(map[string]*int64, len(s.costs))}
	for k, v := range s.costs {
		out.costs[k] = v
	}
	return out
}
