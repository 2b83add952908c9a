package csvfile

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var known = []string{"quote", "supplier", "pack", "price", "breaks", "notes"}

func open(t *testing.T, raw string) *Sheet {
	t.Helper()
	s, err := Open([]byte(raw), known)
	require.NoError(t, err)
	return s
}

func text(t *testing.T, s *Sheet) string {
	t.Helper()
	b, err := s.Bytes()
	require.NoError(t, err)
	return string(b)
}

const mixed = "# spring\nSupplier,my own,price,notes\nTansy Hill,keep,29.50,\"a, b\"\n# between\n\n  Wick Lane , x ,27,\n"

func TestEditsLeaveTheRestAlone(t *testing.T) {
	for _, c := range []struct {
		name, from string
		edit       func(*Sheet) (*Sheet, error)
		want       string
	}{
		{"a cell", mixed, func(s *Sheet) (*Sheet, error) { return s.Set(map[Place]string{{3, 2}: "28"}) }, strings.Replace(mixed, "29.50", "28", 1)},
		{"a quoted cell", mixed, func(s *Sheet) (*Sheet, error) { return s.Set(map[Place]string{{3, 3}: "b"}) }, strings.Replace(mixed, `"a, b"`, "b", 1)},
		{"a cell that needs quotes", mixed, func(s *Sheet) (*Sheet, error) { return s.Set(map[Place]string{{6, 3}: `4'6", wide`}) }, strings.Replace(mixed, ",27,\n", ",27,\"4'6\"\", wide\"\n", 1)},
		{"spaces around a cell stay", mixed, func(s *Sheet) (*Sheet, error) { return s.Set(map[Place]string{{6, 1}: "y"}) }, strings.Replace(mixed, ` x ,`, ` y,`, 1)},
		{"two cells", mixed, func(s *Sheet) (*Sheet, error) {
			return s.Set(map[Place]string{{3, 0}: "Low Ford", {6, 2}: "26"})
		}, strings.NewReplacer("Tansy Hill", "Low Ford", ",27,", ",26,").Replace(mixed)},
		{"a row goes", mixed, func(s *Sheet) (*Sheet, error) { return s.Delete(3) }, strings.Replace(mixed, "Tansy Hill,keep,29.50,\"a, b\"\n", "", 1)},
		{"a row comes", mixed, func(s *Sheet) (*Sheet, error) {
			return s.Append([]map[string]string{{"price": "9", "supplier": "#1 Stone"}})
		}, mixed + "\"#1 Stone\",,9,\n"},
		{"a row with a new column", "supplier;price\nA;1\nB;2;3\n# x\n", func(s *Sheet) (*Sheet, error) {
			return s.Append([]map[string]string{{"pack": "50 L"}})
		}, "supplier;price;pack\nA;1;\nB;2;3\n# x\n;;50 L\n"},
		{"the last line has no end", "supplier,price\r\nA,1", func(s *Sheet) (*Sheet, error) {
			return s.Append([]map[string]string{{"supplier": "B"}})
		}, "supplier,price\r\nA,1\r\nB,\r\n"},
		{"a short row is made longer", "supplier,price,notes\nA\n", func(s *Sheet) (*Sheet, error) {
			return s.Set(map[Place]string{{2, 2}: "n"})
		}, "supplier,price,notes\nA,,n\n"},
		{"marks of other programs", "\ufeffsep=;\r\nsupplier;price\r\nA;1\r\n", func(s *Sheet) (*Sheet, error) {
			return s.Set(map[Place]string{{3, 1}: "2"})
		}, "\ufeffsep=;\r\nsupplier;price\r\nA;2\r\n"},
		{"lines ended by CR", "supplier,price\rA,1\rB,2", func(s *Sheet) (*Sheet, error) {
			return s.Set(map[Place]string{{2, 1}: "7"})
		}, "supplier,price\rA,7\rB,2"},
		{"the same heading twice", "price,price\n1,2\n", func(s *Sheet) (*Sheet, error) {
			return s.Append([]map[string]string{{"price": "5"}})
		}, "price,price\n1,2\n5,\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.edit(open(t, c.from))
			require.NoError(t, err)
			assert.Equal(t, c.want, text(t, got))
		})
	}
}

func TestComments(t *testing.T) {
	s := open(t, mixed)
	require.Len(t, s.Rows, 3)
	assert.Equal(t, "between", s.Rows[1].Comment)
	assert.Equal(t, []int{3, 4, 6}, []int{s.Rows[0].Line, s.Rows[1].Line, s.Rows[2].Line})
	assert.Equal(t, 0, s.Column("supplier"))
	assert.Equal(t, -1, s.Column("breaks"))
}

func TestEncodings(t *testing.T) {
	latin := "supplier,price\nCaf\xe9,1\n"
	s := open(t, latin)
	assert.Equal(t, "Café", s.Rows[0].Cells[0].Text)
	out, err := s.Set(map[Place]string{{2, 1}: "2"})
	require.NoError(t, err)
	assert.Equal(t, "supplier,price\nCaf\xe9,2\n", text(t, out))
	out, err = s.Set(map[Place]string{{2, 0}: "石"})
	require.NoError(t, err)
	_, err = out.Bytes()
	assert.ErrorContains(t, err, "Windows-1252")

	// A byte that Windows-1252 has no sign for would be lost on writing.
	_, err = Open([]byte("supplier,price\nCaf\xe9,1\x90\n"), known)
	assert.ErrorContains(t, err, "0x90 is in no encoding known here")

	wide := append([]byte{0xFF, 0xFE}, []byte("p\x00r\x00i\x00c\x00e\x00\n\x001\x00\n\x00")...)
	w, err := Open(wide, known)
	require.NoError(t, err)
	assert.Equal(t, "1", w.Rows[0].Cells[0].Text)
	back, err := w.Bytes()
	require.NoError(t, err)
	assert.Equal(t, wide, back)
}

func TestWhatCannotBe(t *testing.T) {
	_, err := Open([]byte("a\x00b"), known)
	assert.ErrorContains(t, err, "U+0000")
	s := open(t, mixed)
	_, err = s.Set(map[Place]string{{4, 0}: "x"})
	assert.ErrorContains(t, err, "no row begins on line 4")
	_, err = s.Set(map[Place]string{{3, 9}: "x"})
	assert.ErrorContains(t, err, "line 3 has no cell 10")
	_, err = s.Delete(99)
	assert.Error(t, err)
	_, err = s.AddColumn("price")
	assert.ErrorContains(t, err, "there already")
	_, err = open(t, "# only\n").Append([]map[string]string{{"price": "1"}})
	assert.ErrorContains(t, err, "no heading line")
}

// Whatever is written into a cell is read back from it, and every other cell
// stays what it was.
func TestSetReadsBack(t *testing.T) {
	word := rapid.StringMatching(`[a-z0-9#"',; é-]{0,8}`)
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(word, 3, 3), 1, 5).Draw(t, "rows")
		for i := range rows {
			rows[i][0] = "r" + rows[i][0] // neither blank nor a comment
		}
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		w.UseCRLF = rapid.Bool().Draw(t, "crlf")
		require.NoError(t, w.Write([]string{"supplier", "price", "notes"}))
		require.NoError(t, w.WriteAll(rows))
		s, err := Open(b.Bytes(), known)
		require.NoError(t, err)
		require.Len(t, s.Rows, len(rows))
		at := rapid.IntRange(0, len(rows)-1).Draw(t, "row")
		col := rapid.IntRange(0, 2).Draw(t, "col")
		value := "v" + word.Draw(t, "value")
		out, err := s.Set(map[Place]string{{s.Rows[at].Line, col}: value})
		require.NoError(t, err)
		for i, row := range out.Rows {
			for j, c := range row.Cells {
				want := s.Rows[i].Cells[j].Text
				if i == at && j == col {
					want = value
				}
				require.Equal(t, want, c.Text)
			}
		}
		same, err := out.Set(map[Place]string{{out.Rows[at].Line, col}: s.Rows[at].Cells[col].Text})
		require.NoError(t, err)
		require.Len(t, same.Rows, len(rows))
	})
}

// A file of few bytes may have very many rows that lack very many cells; an edit of it
// takes no longer than the file is long. Looked through cell by cell it takes hours.
func TestSetInManyShortRows(t *testing.T) {
	const n = 20000
	s := open(t, "price"+strings.Repeat(",", n)+"\n"+strings.Repeat("1\n", n))
	require.Len(t, s.Rows, n)
	out, err := s.Set(map[Place]string{{s.Rows[0].Line, 0}: "2", {s.Rows[n-1].Line, 3}: "c", {s.Rows[n-1].Line, 1}: "a", {s.Rows[n-1].Line, 2}: ""})
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(text(t, out), "\n1\n1,a,,c\n"))
	assert.Equal(t, "2", out.Rows[0].Cells[0].Text)
}

// Opened and written again without an edit a file is the same, whatever it holds.
func FuzzOpen(f *testing.F) {
	for _, s := range []string{mixed, "a\tb\n1\t\"x\ny\"\n", "sep=;\nprice;1\r\n", "price\r1\r2", "\"\",\n\"#\",,\nprice,\"a", "price\n\"a\"b,\" c\n#x"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		s, err := Open(raw, known)
		if err != nil {
			require.Nil(t, s)
			return
		}
		back, err := s.Bytes()
		require.NoError(t, err)
		require.Equal(t, string(raw), string(back))
		for at, row := range s.Rows {
			for i, c := range row.Cells {
				require.LessOrEqual(t, c.from, c.to)
				if i > 0 {
					require.Less(t, row.Cells[i-1].to, c.from+1)
				}
			}
			// Each edit reads the file anew, so of a long one some rows are enough.
			if len(row.Cells) > 0 && (at < 5 || at == len(s.Rows)-1) {
				_, err := s.Set(map[Place]string{{row.Line, 0}: "x"})
				require.NoError(t, err)
				_, err = s.Delete(row.Line)
				require.NoError(t, err)
			}
		}
	})
}
