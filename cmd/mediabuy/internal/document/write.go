package document

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"reflect"
	"strings"
)

// longList is the length from which a list of a document is written entry by entry.
const longList = 1000

// Write writes a document as indented JSON with a line end. The standard encoder
// holds the whole text in memory, twice; of ten thousand beds that is hundreds of
// megabytes, so a document with a long list is written piece by piece, to the same
// bytes.
func Write(w io.Writer, doc any) error {
	fields, ok := fieldsOf(reflect.ValueOf(doc))
	if !ok || !hasLong(fields) {
		return encoder(w, "").Encode(doc)
	}
	p := &pieces{w: bufio.NewWriterSize(w, 1<<16)}
	p.text("{")
	for i, f := range fields {
		if i > 0 {
			p.text(",")
		}
		p.text("\n  ")
		p.value("", f.name)
		p.text(": ")
		p.field(f.value)
	}
	p.text("\n}\n")
	if p.err != nil {
		return p.err
	}
	return p.w.Flush()
}

func encoder(w io.Writer, prefix string) *json.Encoder {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent(prefix, "  ")
	return enc
}

// field is one field of a document as JSON has it.
type field struct {
	name  string
	value reflect.Value
}

// fieldsOf lists what is written of a document: of those this package makes, whose
// tags hold a name and "omitempty" and no more. ok is false where doc is none.
func fieldsOf(v reflect.Value) (out []field, ok bool) {
	for v.Kind() == reflect.Pointer && !v.IsNil() {
		v = v.Elem()
	}
	if v.Kind() != reflect.Struct {
		return nil, false
	}
	for i := range v.NumField() {
		name, option, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
		switch {
		case name == "-" || !v.Type().Field(i).IsExported():
		case name == "" && v.Type().Field(i).Anonymous:
			inner, isStruct := fieldsOf(v.Field(i))
			if !isStruct {
				return nil, false
			}
			out = append(out, inner...)
		case name == "" || option != "" && option != "omitempty":
			return nil, false
		case option == "omitempty" && empty(v.Field(i)):
		default:
			out = append(out, field{name, v.Field(i)})
		}
	}
	return out, true
}

// empty is what omitempty leaves out.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.Array, reflect.String:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

func hasLong(fields []field) bool {
	for _, f := range fields {
		if f.value.Kind() == reflect.Slice && f.value.Len() >= longList {
			return true
		}
	}
	return false
}

// pieces writes the parts of a document, up to the first error.
type pieces struct {
	w    *bufio.Writer
	part bytes.Buffer
	err  error
}

func (p *pieces) text(s string) {
	if p.err == nil {
		_, p.err = p.w.WriteString(s)
	}
}

// value writes v, its further lines behind prefix.
func (p *pieces) value(prefix string, v any) {
	if p.err != nil {
		return
	}
	p.part.Reset()
	if p.err = encoder(&p.part, prefix).Encode(v); p.err == nil {
		_, p.err = p.w.Write(bytes.TrimSuffix(p.part.Bytes(), []byte("\n")))
	}
}

func (p *pieces) field(v reflect.Value) {
	if v.Kind() != reflect.Slice || v.Len() < longList {
		p.value("  ", v.Interface())
		return
	}
	p.text("[")
	for i := range v.Len() {
		if i > 0 {
			p.text(",")
		}
		p.text("\n    ")
		p.value("    ", v.Index(i).Interface())
	}
	p.text("\n  ]")
}
