package files

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// rawSettings is job.toml before its values are looked at, so that each wrong
// one is reported by itself.
type rawSettings struct {
	Currency         any `toml:"currency"`
	Decimal          any `toml:"decimal"`
	Units            any `toml:"units"`
	Date             any `toml:"date"`
	NeedBy           any `toml:"need_by"`
	Tax              any `toml:"tax"`
	TaxIncluded      any `toml:"tax_included"`
	AllowUntested    any `toml:"allow_untested"`
	AllowUnknownSize any `toml:"allow_unknown_size"`
	AllowRoughTop    any `toml:"allow_rough_top"`
	LabourRate       any `toml:"labour_rate"`
	Extra            any `toml:"extra"`
	Weights          any `toml:"weights"`
	Sure             any `toml:"sure"`
	LayerMix         any `toml:"layer_mix"`
	LeastShare       any `toml:"least_share"`
	Buyer            any `toml:"buyer"`
	MaxSuppliers     any `toml:"max_suppliers"`
	MaxDeliveries    any `toml:"max_deliveries"`
	Budget           any `toml:"budget"`
	TimeLimit        any `toml:"time_limit"`
}

var (
	settingNames = []string{"currency", "decimal", "units", "date", "need_by", "tax", "tax_included", "allow_untested", "allow_unknown_size",
		"allow_rough_top", "labour_rate", "extra", "weights", "sure", "layer_mix", "least_share", "buyer", "max_suppliers", "max_deliveries", "budget", "time_limit"}
	unitKinds = []string{"volume", "mass", "length", "density"}
)

const noLimitHint = "leave the setting out for no limit"

// maxExtra is the most spare volume believed: twice what is needed.
var maxExtra = units.DecimalFromInt(1)

// maxTimeLimit keeps a slip of the keyboard from meaning years.
const maxTimeLimit = 30 * 24 * time.Hour

// settings reads job.toml over the defaults.
func (x *reader) settings(src Source) error {
	x.set = quotes.Settings{Currency: "USD", CurrencyDigits: 2, Date: quotes.DateOf(x.opt.Today), Weights: quotes.HeavyWeights, LayerMix: quotes.AnyMix, Reader: x.opt.Reader}
	if src.R == nil {
		return nil
	}
	text, ok, err := x.decode(src)
	if err != nil || !ok {
		x.unsettled = true
		return err
	}
	var raw rawSettings
	if !x.decodeTOML(src.Name, []byte(text), &raw) {
		x.unsettled = true
		return nil
	}
	at, err := tomlPlaces([]byte(text))
	if err != nil {
		return fmt.Errorf("finding the settings of %s: %w", src.Name, err)
	}
	s := &settingsReader{reader: x, name: src.Name, at: at}
	s.fill(&raw)
	return nil
}

// decodeTOML decodes strictly and reports what is no TOML or no setting.
func (x *reader) decodeTOML(name string, text []byte, raw *rawSettings) bool {
	err := toml.NewDecoder(bytes.NewReader(text)).DisallowUnknownFields().Decode(raw)
	var strict *toml.StrictMissingError
	var bad *toml.DecodeError
	switch {
	case err == nil:
		return true
	case errors.As(err, &strict):
		for i := range strict.Errors {
			e := &strict.Errors[i]
			line, col := e.Position()
			word := strings.Join(e.Key(), ".")
			x.problem(quotes.Pos{File: name, Line: line, Col: col}, "", fmt.Sprintf("%s is no setting", spelling.Quoted(word)), "a setting of job.toml",
				spelling.DidYouMean(word, settingNames, "they are "+listed(settingNames)))
		}
		return true
	case errors.As(err, &bad):
		line, col := bad.Position()
		x.problem(quotes.Pos{File: name, Line: line, Col: col}, strings.Join(bad.Key(), "."), strings.TrimPrefix(bad.Error(), "toml: "), "a line of TOML",
			`a setting is one line such as tax = "8%"; units stand under [units]`)
		return false
	}
	x.problem(quotes.Beginning(name), "", err.Error(), "a file of TOML", "mediabuy new writes one with every setting")
	return false
}

// tomlPlaces finds the line and column of every key, under its dotted name.
func tomlPlaces(text []byte) (map[string]quotes.Pos, error) {
	at := map[string]quotes.Pos{}
	var p unstable.Parser
	p.Reset(text)
	var table []string
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			table = keyOf(&p, e, nil, at)
		case unstable.KeyValue:
			placeKeyValue(&p, e, table, at)
		}
	}
	return at, p.Error()
}

func placeKeyValue(p *unstable.Parser, e *unstable.Node, above []string, at map[string]quotes.Pos) {
	key := keyOf(p, e, above, at)
	if v := e.Value(); v.Kind == unstable.InlineTable {
		for it := v.Children(); it.Next(); {
			placeKeyValue(p, it.Node(), key, at)
		}
	}
}

// keyOf is the key of an expression under the table it stands in; its place is noted.
func keyOf(p *unstable.Parser, e *unstable.Node, above []string, at map[string]quotes.Pos) []string {
	key := append([]string(nil), above...)
	for it := e.Key(); it.Next(); {
		n := it.Node()
		key = append(key, string(n.Data))
		start := p.Shape(n.Raw).Start
		if name := strings.Join(key, "."); at[name] == (quotes.Pos{}) {
			at[name] = quotes.Pos{Line: start.Line, Col: start.Column}
		}
	}
	return key
}

// settingsReader reads the values of job.toml, each as if it were a cell.
type settingsReader struct {
	*reader
	name string
	at   map[string]quotes.Pos
}

// cell makes a cell of a text or number; a setting that is not there makes an
// empty one. ok is false, and reported, for other values.
func (s *settingsReader) cell(key string, v any) (c *cell, ok bool) {
	p := s.at[key]
	p.File = s.name
	c = &cell{Pos: p, heading: key, mark: s.mark}
	switch v := v.(type) {
	case nil:
	case string:
		c.text = strings.TrimSpace(v)
		if c.text == "" {
			s.fail(c, "the text is empty", "a value", "leave the setting out")
			return c, false
		}
	case int64:
		c.text, c.mark = fmt.Sprint(v), units.MarkPoint
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			s.fail(c, fmt.Sprintf("%v is not a number", v), "digits such as 12.50", "leave the setting out if there is no number")
			return c, false
		}
		c.text, c.mark = units.DecimalOf(v).String(), units.MarkPoint
	case toml.LocalDate:
		c.text = v.String()
	default:
		s.fail(c, fmt.Sprintf("the value is %s", kindOf(v)), "a text or a number", fmt.Sprintf("write one value behind %s =, a text in quote marks", key[strings.LastIndexByte(key, '.')+1:]))
		return c, false
	}
	return c, true
}

// kindOf names the kind of a TOML value in words.
func kindOf(v any) string {
	switch v.(type) {
	case bool:
		return "true or false"
	case []any:
		return "a list"
	case map[string]any:
		return "a table"
	case time.Time, toml.LocalDateTime, toml.LocalTime:
		return "a time of day"
	case string:
		return "a text"
	case toml.LocalDate:
		return "a date"
	}
	return "a number"
}

// setting reads one value into a field; a setting that is not there leaves it alone.
func setting[T any](s *settingsReader, key string, v any, to *T, read func(*cell) (T, bool)) bool {
	c, ok := s.cell(key, v)
	s.plainly(c, key == "need_by")
	return ok && set(c, to, read)
}

func (s *settingsReader) flag(key string, v any, to *bool) {
	switch b := v.(type) {
	case nil:
	case bool:
		*to = b
	default:
		c := &cell{Pos: s.at[key], heading: key}
		c.File = s.name
		s.fail(c, fmt.Sprintf("the value is %s", kindOf(v)), "true or false, without quote marks", fmt.Sprintf("write %s = true, or leave the setting out for false", key))
	}
}

// fill reads every setting; decimal, currency and units come first, as the others need them.
func (s *settingsReader) fill(raw *rawSettings) {
	before := len(s.rep.Problems)
	setting(s, "decimal", raw.Decimal, &s.mark, s.decimal)
	if setting(s, "currency", raw.Currency, &s.set.Currency, s.currency) && raw.Currency != nil {
		s.order = day.OrderOf(s.set.Currency)
	}
	s.units(raw.Units)
	s.unsettled = len(s.rep.Problems) > before
	money := s.grouped(raw)

	setting(s, "date", raw.Date, &s.set.Date, s.date)
	setting(s, "need_by", raw.NeedBy, &s.set.NeedBy, s.date)
	if !s.set.NeedBy.IsZero() && s.set.NeedBy.Before(s.set.Date.Time) {
		c, _ := s.cell("need_by", raw.NeedBy)
		s.warn(c, fmt.Sprintf("%s is before the pricing day %s", s.set.NeedBy, s.set.Date), "is the year right?")
	}
	setting(s, "tax", raw.Tax, &s.set.Tax, s.percent)
	s.flag("tax_included", raw.TaxIncluded, &s.set.TaxIncluded)
	s.flag("allow_untested", raw.AllowUntested, &s.set.AllowUntested)
	s.flag("allow_unknown_size", raw.AllowUnknownSize, &s.set.AllowUnknownSize)
	s.flag("allow_rough_top", raw.AllowRoughTop, &s.set.AllowRoughTop)
	setting(s, "labour_rate", raw.LabourRate, &s.set.LabourRate, money)
	setting(s, "extra", raw.Extra, &s.set.Extra, s.extra)
	s.mixing(raw)
	s.buyer(raw.Buyer)
	setting(s, "max_suppliers", raw.MaxSuppliers, &s.set.MaxSuppliers, s.whole(noLimitHint))
	setting(s, "max_deliveries", raw.MaxDeliveries, &s.set.MaxDeliveries, s.whole(noLimitHint))
	setting(s, "budget", raw.Budget, &s.set.Budget, func(c *cell) (*units.Money, bool) {
		m, ok := money(c)
		return &m, ok
	})
	setting(s, "time_limit", raw.TimeLimit, &s.set.TimeLimit, s.timeLimit)
}

// units reads the table of default units.
func (s *settingsReader) units(v any) {
	table, ok := v.(map[string]any)
	if !ok {
		if v != nil {
			c := &cell{Pos: s.at["units"], heading: "units"}
			c.File = s.name
			s.fail(c, fmt.Sprintf("the value is %s", kindOf(v)), `a table, such as [units] with volume = "L" under it`, "write the kinds of unit on lines of their own under [units]")
		}
		return
	}
	for _, kind := range slices.Sorted(maps.Keys(table)) {
		if !slices.Contains(unitKinds, kind) {
			c := &cell{Pos: s.at["units."+kind], heading: "units"}
			c.File = s.name
			s.fail(c, spelling.Quoted(kind)+" is no kind of unit", listed(unitKinds), spelling.DidYouMean(kind, unitKinds, "take the line out, or name one of them"))
		}
	}
	setting(s, "units.volume", table["volume"], &s.unit.volume, unitReader(s.reader, units.ParseVolume, "a unit of volume, such as L or ft3"))
	setting(s, "units.mass", table["mass"], &s.unit.mass, unitReader(s.reader, units.ParseMass, "a unit of weight, such as kg or lb"))
	setting(s, "units.length", table["length"], &s.unit.length, unitReader(s.reader, units.ParseLength, "a unit of length, such as mm or in"))
	setting(s, "units.density", table["density"], &s.unit.density, unitReader(s.reader, units.ParseDensity, "a unit of density, such as kg/L or lb/ft3"))
}

func (x *reader) decimal(c *cell) (units.DecimalMark, bool) {
	switch c.text {
	case ".":
		return units.MarkPoint, true
	case ",":
		return units.MarkComma, true
	}
	x.fail(c, spelling.Quoted(c.text)+" is no decimal mark", `decimal = "." or decimal = ","`, "write the sign in front of the tenths; leave the setting out to have each column show it")
	return units.MarkUnknown, false
}

func (x *reader) currency(c *cell) (string, bool) {
	code := strings.ToUpper(c.text)
	digits, ok := units.CurrencyDigits(code)
	if !ok {
		x.fail(c, spelling.Quoted(c.text)+" is no known currency", "a three-letter code of ISO 4217, such as USD, CAD, EUR or GBP", "write the code, not a sign or a name")
		return "", false
	}
	x.set.CurrencyDigits = digits
	return code, true
}

// unitReader reads a default unit: a word that its parser takes behind a number.
func unitReader[Q ~float64](x *reader, parse func(string, units.Options) (units.Measure[Q], error), wanted string) func(*cell) (string, bool) {
	return func(c *cell) (string, bool) {
		m, err := parse("1 "+c.text, units.Options{})
		if _, nerr := units.ParseNumber(c.text, units.MarkPoint); err != nil || nerr == nil {
			hint := "write the unit alone, without a number"
			if nerr != nil {
				_, _, hint = words(err)
			}
			x.fail(c, spelling.Quoted(c.text)+" is no unit here", wanted, hint)
			return "", false
		}
		x.note(c, m.Note)
		return c.text, true
	}
}

func (x *reader) extra(c *cell) (units.Decimal, bool) {
	v, ok := x.percent(c)
	if ok && v.Cmp(maxExtra) > 0 {
		x.fail(c, spelling.Quoted(c.text)+" is more than the bed itself", "spare volume from 0% to 100%", "write 5 for one part in twenty")
		return units.Decimal{}, false
	}
	return v, ok
}

// timeLimit reads "30s" or "2m", or a number of seconds.
func (x *reader) timeLimit(c *cell) (time.Duration, bool) {
	d, err := time.ParseDuration(c.text)
	if n, nerr := units.ParseNumber(c.text, c.mark); nerr == nil {
		// The bound keeps the product inside a Duration.
		d, err = time.Duration(math.Min(n.Float(), 2*maxTimeLimit.Seconds())*float64(time.Second)), nil
	}
	if err != nil || d <= 0 || d > maxTimeLimit {
		x.fail(c, spelling.Quoted(c.text)+" is no time limit", `a time such as "30s" or "2m", or seconds, more than 0`, noLimitHint)
		return 0, false
	}
	return d, true
}
