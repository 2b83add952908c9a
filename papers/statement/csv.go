package statement

import (
	"bytes"
	"encoding/csv"
	"fmt"

	"mediabuy/optimise/share"
	"mediabuy/papers/safe"
	"mediabuy/units"
)

// MemberCSV is the statement of member i as a sheet: beds, media, money. Volumes
// are placed litres; money has the currency's digits and no sign.
func MemberCSV(res *share.Result, i int) []byte {
	m := res.Members[i]
	s := newSheet(res, "member", "row", "what", "site", "part", "litres", "money")
	for _, b := range m.Beds {
		s.add(safe.Cell(m.Name), "bed", safe.Cell(bedName(b.Bed)), safe.Cell(b.Bed.Site), fmt.Sprintf("%.6g", b.Share), litres(float64(b.Litres)), "")
	}
	for _, u := range m.Used {
		s.add(safe.Cell(m.Name), "media", safe.Cell(u.Quote.Name), safe.Cell(u.Site), "", litres(u.Litres), "")
	}
	s.add(safe.Cell(m.Name), "alone", "", "", "", "", s.maybe(m.Alone))
	s.add(safe.Cell(m.Name), "saves", "", "", "", "", s.maybe(m.Saves))
	s.add(safe.Cell(m.Name), "others pay if it left", "", "", "", "", s.maybe(m.Leaving))
	s.add(safe.Cell(m.Name), "pays", "", "", "", litres(float64(m.Litres)), s.maybe(&m.Pays))
	return s.bytes()
}

// TreasurerCSV is what every member pays, by every rule, one row a member and
// one for all.
func TreasurerCSV(res *share.Result) []byte {
	heads := []string{"member", "litres", "pays", "alone", "saves", "others pay if it left"}
	for _, sp := range res.Splits {
		heads = append(heads, "by "+string(sp.Rule))
	}
	s := newSheet(res, heads...)
	var all units.Litres
	sums := make([]units.Money, len(res.Splits))
	for i, m := range res.Members {
		cells := []string{safe.Cell(m.Name), litres(float64(m.Litres)), s.maybe(&m.Pays), s.maybe(m.Alone), s.maybe(m.Saves), s.maybe(m.Leaving)}
		for k, sp := range res.Splits {
			cells = append(cells, s.maybe(&sp.Pays[i]))
			sums[k] = sums[k].Add(sp.Pays[i])
		}
		s.add(cells...)
		all += m.Litres
	}
	cells := []string{"all", litres(float64(all)), s.maybe(&res.Total), "", "", ""}
	for k := range sums {
		cells = append(cells, s.maybe(&sums[k]))
	}
	s.add(cells...)
	return s.bytes()
}

// sheet collects a CSV file.
type sheet struct {
	digits int
	rows   [][]string
}

func newSheet(res *share.Result, heads ...string) *sheet {
	return &sheet{digits: res.Plan.Job.Settings.CurrencyDigits, rows: [][]string{heads}}
}

func (s *sheet) add(cells ...string) { s.rows = append(s.rows, cells) }

func (s *sheet) bytes() []byte {
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(s.rows); err != nil {
		panic(err) // a buffer takes everything, and the separator is valid
	}
	return b.Bytes()
}

func (s *sheet) maybe(m *units.Money) string {
	if m == nil {
		return ""
	}
	return m.Text(s.digits)
}

func litres(v float64) string { return fmt.Sprintf("%.3f", v) }
