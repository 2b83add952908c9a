package typing

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/tomlfile"
	"mediabuy/units"
)

// setting is one setting of the job as a field: what it is called, what it does, and
// what is to be typed.
type setting struct {
	key     string // with points, as in a problem's heading
	name    string
	why     string
	example string
	metric  string   // the example for a metric reader, where it is another
	choices []choice // it is chosen and not typed
}

// choice is a value and what it means; the value "" leaves the setting out.
type choice struct{ Value, Words string }

type settingGroup struct {
	name     string
	settings []setting
}

var yesNo = []choice{{"", "no"}, {"true", "yes"}}

// settingGroups are all settings in the order in which somebody who begins asks for
// them. A test holds them to the commented file of a new job.
var settingGroups = []settingGroup{
	{"Money and units", []setting{
		{key: "currency", name: "Currency", why: "The money of every price. It also says which units answers and papers are in, and the size of their paper: US for USD.", example: "USD"},
		{key: "tax", name: "Tax", why: "On goods and delivery, for every row that states none of its own.", example: "8%"},
		{key: "tax_included", name: "Prices already carry their tax", why: "Then none is added.", choices: yesNo},
		{key: "decimal", name: "Decimal mark", why: "How a number such as 1,234 reads, if the files leave it open.", choices: []choice{{"", "each column shows it"}, {".", "point: 1,234.50"}, {",", "comma: 1.234,50"}}},
		{key: "units.length", name: "Unit of a bare length", why: "With it a length may be a number alone. Without it each length needs its unit beside it, as grain sizes do unless this is in or mm.", example: "ft", metric: "mm"},
		{key: "units.volume", name: "Unit of a bare volume", why: "As for lengths.", example: "ft3", metric: "L"},
		{key: "units.mass", name: "Unit of a bare weight", why: "As for lengths.", example: "lb", metric: "kg"},
		{key: "units.density", name: "Unit of a bare density", why: "As for lengths.", example: "lb/ft3", metric: "kg/L"},
	}},
	{"Days", []setting{
		{key: "date", name: "Pricing day", why: "Quotes that ended before it are refused. Left out it is today.", example: "2026-04-01"},
		{key: "need_by", name: "Needed by", why: "What is ready later is refused. It stands on orders and requests.", example: "2026-05-15"},
	}},
	{"Limits of the purchase", []setting{
		{key: "budget", name: "Most money for all of it", why: "With delivery and tax. Left out there is no limit.", example: "1500"},
		{key: "max_suppliers", name: "Most suppliers", why: "Fewer telephone calls, at a price that the answer tells. Left out there is no limit.", example: "2"},
		{key: "max_deliveries", name: "Most deliveries", why: "Drops made, all sites together. Left out there is no limit.", example: "3"},
		{key: "labour_rate", name: "Worth of an hour of rinsing", why: "Your own time, in money. It is part of the total, and on no order.", example: "12"},
		{key: "time_limit", name: "Longest search", why: "What is found by then is shown, with how much could still be saved.", example: "30s"},
	}},
	{"How sure, and how mixed", []setting{
		{key: "extra", name: "Spare to buy", why: "More than the beds take. It is bought and not placed, so it weighs nothing in a bed.", example: "5%"},
		{key: "sure", name: "How sure every bed is full", why: "The cheapest purchase found that fills every bed with this chance.", example: "90%"},
		{key: "layer_mix", name: "Things bought in one layer of a bed", why: "A single one is easier to place; the same stone from bags and in bulk is two.", choices: []choice{{"", "any mix"}, {"one", "a single one"}}},
		{key: "least_share", name: "Least part of a layer", why: "A stone fills none of a layer, or at least this much of it.", example: "20%"},
	}},
	{"What keeps plants, fish and frames safe", []setting{
		{key: "weights", name: "Frames are held to", why: "Heavy is the high end of what a stone may weigh, the safe choice. A lot heavier than usual may overload a frame that is held to usual stone.", choices: []choice{{"", "heavy stone"}, {"usual", "stone of usual weight"}}},
		{key: "allow_untested", name: "Allow stone that may hold lime without an acid drop", why: "Lime raises the pH of the water. A drop of acid on a sample shows it.", choices: yesNo},
		{key: "allow_unknown_size", name: "Allow grain of unknown size", why: "Fine grain clogs drains. Ask the yard for its sieves.", choices: yesNo},
		{key: "allow_rough_top", name: "Allow a rough top layer", why: "Sharp stone hurts hands and stems.", choices: yesNo},
	}},
	{"Who buys, as it stands on papers", []setting{
		{key: "buyer.name", name: "Name", example: "The growers of Harrow Lane"},
		{key: "buyer.phone", name: "Telephone", example: "555 0100"},
		{key: "buyer.email", name: "Mail", example: "orders@harrow.example"},
		{key: "buyer.address", name: "Address", example: "1 Harrow Lane"},
		{key: "buyer.drop", name: "Where goods are set down", example: "on the hard standing behind the barn"},
		{key: "buyer.access", name: "How a truck gets there", example: "gate 10 ft wide, no overhead wires", metric: "gate 3 m wide, no overhead wires"},
	}},
}

// settingKey is the key of a field of a form: its names, each made safe, with points
// between. It is nil for what is no setting.
func settingKey(field string) tomlfile.Key {
	var key tomlfile.Key
	for part := range strings.SplitSeq(field, ".") {
		name, err := url.PathUnescape(part)
		if err != nil {
			return nil
		}
		key = append(key, name)
	}
	spot := len(key) == 3 && key[0] == "buyer" && (key[2] == "drop" || key[2] == "access")
	if !spot && !slices.ContainsFunc(settingGroups, func(g settingGroup) bool {
		return slices.ContainsFunc(g.settings, func(s setting) bool { return s.key == key.String() })
	}) {
		return nil
	}
	return key
}

// fieldName is a key as the name of a field.
func fieldName(key tomlfile.Key) string {
	var out []string
	for _, name := range key {
		out = append(out, strings.ReplaceAll(url.PathEscape(name), ".", "%2E"))
	}
	return strings.Join(out, ".")
}

// Group is settings that belong together.
type Group struct {
	Name   string
	Fields []settingView
}

// settingView is one field.
type settingView struct {
	ID, Name, Why, Example, Text string
	Choices                      []choice
	Marks                        []Mark
	Bad                          bool
}

// Settings sets the settings out as fields; job may be nil.
func Settings(f *tomlfile.File, job *quotes.Job, docs []Mark, metric bool) []Group {
	at := ByPlace(docs)
	field := func(s setting, key tomlfile.Key) settingView {
		v := settingView{ID: fieldName(key), Name: s.name, Why: s.why, Example: s.example, Choices: s.choices}
		if metric && s.metric != "" {
			v.Example = s.metric
		}
		v.Text, _ = f.Value(key)
		if len(v.Choices) > 0 && !slices.ContainsFunc(v.Choices, func(c choice) bool { return c.Value == v.Text }) {
			words := v.Text // what no choice means is shown as it stands
			if i := slices.IndexFunc(v.Choices, func(c choice) bool { return c.Value == "" }); i >= 0 && (v.Text == "false" || v.Text == string(quotes.HeavyWeights) || v.Text == string(quotes.AnyMix)) {
				words = v.Choices[i].Words + " (said in the file)"
			}
			v.Choices = append([]choice{{v.Text, words}}, v.Choices...)
		}
		v.Marks = at[v.ID]
		v.Bad = slices.ContainsFunc(v.Marks, func(m Mark) bool { return !m.Warning })
		return v
	}
	var out []Group
	for _, g := range settingGroups {
		v := Group{Name: g.name}
		for _, s := range g.settings {
			v.Fields = append(v.Fields, field(s, strings.Split(s.key, ".")))
		}
		out = append(out, v)
	}
	var sites []string
	if job != nil {
		sites = slices.DeleteFunc(slices.Clone(quotes.Sites(job)), func(s string) bool { return s == "" })
	}
	for _, site := range sites {
		last := &out[len(out)-1]
		last.Fields = append(last.Fields,
			field(setting{name: site + ": where goods are set down"}, tomlfile.Key{"buyer", site, "drop"}),
			field(setting{name: site + ": how a truck gets there"}, tomlfile.Key{"buyer", site, "access"}))
	}
	return out
}

// settingsSet is the settings with those of a form set, and what that changes in words;
// nil if nothing.
func settingsSet(text []byte, f *Form) (data []byte, words string, err error) {
	file, err := tomlfile.Open(text)
	if err != nil {
		return nil, "", err
	}
	var told []string
	for _, field := range f.fields {
		key := settingKey(field.name)
		if key == nil {
			return nil, "", fmt.Errorf("%q is no setting of %s", field.name, files.SettingsFile)
		}
		value := strings.TrimSpace(Flat(field.value))
		if was, _ := file.Value(key); Flat(was) == value {
			continue
		}
		if file, err = file.Set(key, value); err != nil {
			return nil, "", err
		}
		told = append(told, key.String())
	}
	if len(told) == 0 {
		return nil, "", nil
	}
	if len(told) > 2 {
		told = []string{fmt.Sprintf("%d settings", len(told))}
	}
	return file.Bytes(), units.Listed(told), nil
}
