package page

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"

	"github.com/xuri/excelize/v2"
)

// results works out every formula, by the path of its sheet within the file and
// the name of its cell.
func (x *xlsxWriter) results() (map[string]map[string]string, error) {
	path := map[string]string{}
	for i, s := range x.sheets {
		path[s] = fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)
	}
	out := map[string]map[string]string{}
	for _, f := range x.formula {
		v, err := x.file.CalcCellValue(f.sheet, f.cell, excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, fmt.Errorf("working out %s of sheet %q: %w", f.cell, f.sheet, err)
		}
		got, err := strconv.ParseFloat(v, 64)
		if err != nil {
			return nil, fmt.Errorf("working out %s of sheet %q: it comes to %q, want a number", f.cell, f.sheet, v)
		}
		if f.want != nil && math.Abs(got-*f.want) > formulaTol*max(1, math.Abs(*f.want)) {
			return nil, fmt.Errorf("working out %s of sheet %q: it comes to %s and the paper says %v, want both the same", f.cell, f.sheet, v, *f.want)
		}
		if out[path[f.sheet]] == nil {
			out[path[f.sheet]] = map[string]string{}
		}
		out[path[f.sheet]][f.cell] = v
	}
	return out, nil
}

// formulaTol is the noise of binary fractions, as a share: far under a cent.
const formulaTol = 1e-9

// formulaCell is a cell with a formula and no result, as the library writes it.
var formulaCell = regexp.MustCompile(`<c r="([A-Z]+[0-9]+)"( s="[0-9]+")? t="str"><f>([^<]*)</f></c>`)

// typesPart is the part that names the type of each part by the ending of its
// name, and typeOf one such line.
const typesPart = "[Content_Types].xml"

var typeOf = regexp.MustCompile(`<Default [^>]*></Default>`)

// sortTypes puts the lines of the types in order: once there is a picture, the
// library writes them in another order each time.
func sortTypes(text []byte) []byte {
	list := typeOf.FindAll(text, -1)
	slices.SortFunc(list, bytes.Compare)
	i := -1
	return typeOf.ReplaceAllFunc(bytes.Clone(text), func([]byte) []byte {
		i++
		return list[i]
	})
}

// repack writes the file again with each formula's result beside it. The parts
// keep their order and have no times, so the same page gives the same bytes.
func repack(w io.Writer, file []byte, results map[string]map[string]string) error {
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return err
	}
	out := zip.NewWriter(w)
	for _, part := range in.File {
		r, err := part.Open()
		if err != nil {
			return err
		}
		text, err := io.ReadAll(r)
		if err != nil {
			return err
		}
		if part.Name == typesPart {
			text = sortTypes(text)
		}
		if of := results[part.Name]; of != nil {
			put := 0
			text = formulaCell.ReplaceAllFunc(text, func(c []byte) []byte {
				m := formulaCell.FindSubmatch(c)
				v, ok := of[string(m[1])]
				if !ok {
					return c
				}
				put++
				return fmt.Appendf(nil, `<c r="%s"%s><f>%s</f><v>%s</v></c>`, m[1], m[2], m[3], v)
			})
			if put != len(of) {
				return fmt.Errorf("%s: %d results found their formula, want %d", part.Name, put, len(of))
			}
		}
		dst, err := out.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Deflate})
		if err != nil {
			return err
		}
		if _, err := dst.Write(text); err != nil {
			return err
		}
	}
	return out.Close()
}
