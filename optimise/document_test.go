package optimise

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// asObject writes a document as JSON and reads it back without its Go types.
func asObject(t testing.TB, doc any) map[string]any {
	text, err := json.Marshal(doc)
	require.NoError(t, err)
	var out map[string]any
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.UseNumber()
	require.NoError(t, dec.Decode(&out))
	return out
}

// fields wants exactly these fields, of these kinds: s a string, m money, n a
// number, k a number or null, l a list.
func fields(t testing.TB, what string, v any, want string) map[string]any {
	obj, ok := v.(map[string]any)
	require.True(t, ok, "%s is an object", what)
	kinds := map[string]string{}
	for f := range strings.FieldsSeq(want) {
		name, kind, _ := strings.Cut(f, ":")
		kinds[name] = kind
	}
	assert.Equal(t, slices.Sorted(maps.Keys(kinds)), slices.Sorted(maps.Keys(obj)), "fields of %s", what)
	for name, kind := range kinds {
		switch value := obj[name].(type) {
		case string:
			assert.Contains(t, "sm", kind, "%s.%s is a string", what, name)
			if kind == "m" {
				assert.Regexp(t, `^\d+\.\d\d$`, value, "%s.%s", what, name)
			}
		case json.Number:
			assert.Contains(t, "nk", kind, "%s.%s is a number", what, name)
		case []any:
			assert.Equal(t, "l", kind, "%s.%s is a list", what, name)
		case nil:
			assert.Equal(t, "k", kind, "%s.%s is null", what, name)
		default:
			assert.Fail(t, "kind", "%s.%s is a %T", what, name, value)
		}
	}
	return obj
}

func number(t testing.TB, v any) float64 {
	n, ok := v.(json.Number)
	require.True(t, ok, "%v is a number", v)
	f, err := n.Float64()
	require.NoError(t, err)
	return f
}

func cents(t testing.TB, v any) units.Decimal {
	d, err := units.ParsePlainDecimal(v.(string))
	require.NoError(t, err)
	return d
}

// inOrder wants the rows of a list sorted by the named fields.
func inOrder(t testing.TB, list []any, names ...string) {
	var keys []string
	for _, row := range list {
		key := ""
		for _, n := range names {
			key += row.(map[string]any)[n].(string) + "\x00"
		}
		keys = append(keys, key)
	}
	assert.True(t, slices.IsSorted(keys), "sorted by %v: %q", names, keys)
}

// checkDocument holds a plan's document against the form promised, and its sums
// against one another.
func checkDocument(t testing.TB, doc map[string]any) {
	fields(t, "plan", doc, "status:s currency:s proof:s total:m goods:m delivery:m tax:m rinsing:m lower_bound:m gap:m "+
		"purchases:l deliveries:l beds:l tables:l leftover:l refused:l warnings:l")
	goods, fees := units.Decimal{}, units.Decimal{}
	placed := map[string]float64{} // by quote: placed litres bought, then what is left of them
	list := doc["purchases"].([]any)
	inOrder(t, list, "quote", "site")
	for _, row := range list {
		p := fields(t, "purchase", row, "quote:s supplier:s medium:s form:s site:s packs:n pack_price:s break_from:n goods:m litres_sold:n litres_placed:n")
		goods = goods.Add(cents(t, p["goods"]))
		placed[p["quote"].(string)] += number(t, p["litres_placed"])
		assert.LessOrEqual(t, number(t, p["litres_placed"]), number(t, p["litres_sold"]))
	}
	list = doc["deliveries"].([]any)
	inOrder(t, list, "supplier", "site")
	for _, row := range list {
		d := fields(t, "delivery", row, "supplier:s site:s name:s loads:n fee:m")
		fees = fees.Add(cents(t, d["fee"]))
	}
	assert.True(t, goods.Equal(cents(t, doc["goods"])), "goods lines add up")
	assert.True(t, fees.Equal(cents(t, doc["delivery"])), "fees add up")
	sum := goods.Add(fees).Add(cents(t, doc["tax"])).Add(cents(t, doc["rinsing"]))
	assert.True(t, sum.Equal(cents(t, doc["total"])), "the parts add up to the total")
	assert.True(t, cents(t, doc["lower_bound"]).Add(cents(t, doc["gap"])).Equal(sum), "bound and gap add up to the total")

	tables := map[string]float64{}
	list = doc["beds"].([]any)
	inOrder(t, list, "bed")
	for _, row := range list {
		b := fields(t, "bed", row, "bed:s count:n site:s member:s layers:l flooded_kg:n usual_kg:n heavy_kg:n limit_kg:k table:s")
		inOrder(t, b["layers"].([]any), "layer")
		for _, lrow := range b["layers"].([]any) {
			l := fields(t, "layer", lrow, "layer:s demand_litres:n fill:l")
			inOrder(t, l["fill"].([]any), "quote")
			filled := 0.0
			for _, frow := range l["fill"].([]any) {
				f := fields(t, "fill", frow, "quote:s medium:s litres:n")
				filled += number(t, f["litres"])
				placed[f["quote"].(string)] -= number(t, f["litres"]) * number(t, b["count"])
			}
			assert.InDelta(t, number(t, l["demand_litres"]), filled, 1e-2, "bed %v %v is filled", b["bed"], l["layer"])
		}
		tables[b["table"].(string)] += number(t, b["flooded_kg"]) * number(t, b["count"])
		if b["limit_kg"] != nil {
			assert.Equal(t, "", b["table"])
			assert.LessOrEqual(t, number(t, b["flooded_kg"]), number(t, b["limit_kg"])*(1+1e-5))
		}
	}
	list = doc["tables"].([]any)
	inOrder(t, list, "table")
	for _, row := range list {
		tb := fields(t, "table", row, "table:s beds:l flooded_kg:n usual_kg:n heavy_kg:n limit_kg:k")
		assert.InDelta(t, tables[tb["table"].(string)], number(t, tb["flooded_kg"]), 1e-3)
		if tb["limit_kg"] != nil {
			assert.LessOrEqual(t, number(t, tb["flooded_kg"]), number(t, tb["limit_kg"])*(1+1e-5))
		}
	}
	list = doc["leftover"].([]any)
	inOrder(t, list, "quote")
	for _, row := range list {
		l := fields(t, "leftover", row, "quote:s litres:n")
		placed[l["quote"].(string)] -= number(t, l["litres"])
	}
	for q, v := range placed {
		assert.InDelta(t, 0, v, 0.05, "what is bought of %s is placed or left over", q)
	}
	list = doc["refused"].([]any)
	inOrder(t, list, "quote", "bed", "layer", "rule")
	for _, row := range list {
		r := fields(t, "refusal", row, "quote:s bed:s layer:s rule:s reason:s")
		assert.Contains(t, []string{"min_size", "max_size", "carbonate", "breaks_down", "top", "only", "avoid", "date", "unknown_size"}, r["rule"])
		assert.Contains(t, []string{"top", "base"}, r["layer"])
	}
	for _, row := range doc["warnings"].([]any) {
		fields(t, "warning", row, "file:s line:n column:n message:s")
	}
}

func TestDocumentKeepsItsPromises(t *testing.T) {
	solved := 0
	for seed := range uint64(12) {
		job := randjob.Job(seed, randjob.Simple(2, 7, 5))
		plan, err := Solve(context.Background(), job, Options{})
		require.NoError(t, err)
		if plan.Bill == nil {
			continue
		}
		solved++
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			doc := NewDocument(plan, &quotes.Report{Warnings: []*quotes.Problem{{Pos: quotes.Pos{File: "quotes.csv", Line: 3, Col: 9}, Found: "a warning"}}})
			checkDocument(t, asObject(t, doc))
			assert.Equal(t, "optimal", doc.Proof)

			text, err := json.Marshal(doc)
			require.NoError(t, err)
			dec := json.NewDecoder(bytes.NewReader(text))
			dec.DisallowUnknownFields()
			var back Document
			require.NoError(t, dec.Decode(&back))
			assert.Equal(t, doc, &back, "what is written reads back the same")
		})
	}
	require.Greater(t, solved, 5, "the seeds must give plans to look at")
}

func TestDocumentOfNothing(t *testing.T) {
	job := randjob.Job(1, randjob.Simple(2, 7, 5))
	plan := &Plan{Job: job, Fit: suitability.New(job), Status: Infeasible, Why: []Obstacle{
		{Table: "frame", Rule: RuleLimit, Over: 12.5, Remedy: "raise the limit by 12.5 kg"},
		{Bed: "bed 2", Layer: quotes.Top, Rule: "top", Short: 130, Remedy: "allow a rough top"},
	}}
	doc := asObject(t, NewDocument(plan, nil))
	fields(t, "plan", doc, "status:s currency:s infeasible:l purchases:l deliveries:l beds:l tables:l leftover:l refused:l warnings:l")
	assert.Empty(t, doc["purchases"])
	list := doc["infeasible"].([]any)
	require.Len(t, list, 2)
	table := fields(t, "obstacle", list[0], "table:s rule:s over_kg:n remedy:s")
	assert.InDelta(t, 12.5, number(t, table["over_kg"]), 0)
	bed := fields(t, "obstacle", list[1], "bed:s layer:s rule:s short_litres:n remedy:s")
	assert.InDelta(t, 130, number(t, bed["short_litres"]), 0)
}

func TestPriceText(t *testing.T) {
	for _, c := range []struct {
		price  string
		digits int
		want   string
	}{
		{"27.5", 2, "27.50"},
		{"0.125", 2, "0.125"}, // 400 × 0.125 is 50.00, 400 × 0.13 is not
		{"80", 0, "80"},
	} {
		assert.Equal(t, c.want, PriceText(units.M(c.price), c.digits))
	}
}

func TestMemberText(t *testing.T) {
	assert.Empty(t, MemberText(nil))
	assert.Equal(t, "school", MemberText([]quotes.Part{{Member: "school", Parts: units.D("3")}}))
	assert.Equal(t, "north plot: 2; school: 1", MemberText([]quotes.Part{{Member: "north plot", Parts: units.D("2")}, {Member: "school", Parts: units.D("1")}}))
}

func TestTidy(t *testing.T) {
	assert.InDelta(t, 0.3, units.Tidy(0.1+0.2), 0)
	assert.InDelta(t, -2.5, units.Tidy(-2.5), 0)
	assert.False(t, math.Signbit(units.Tidy(0)))
}

// A thousand beds and two hundred quotes: some four hundred thousand refusals.
func BenchmarkRefusals(b *testing.B) {
	job := randjob.Job(1, randjob.Simple(8, 200, 1000))
	fit := suitability.New(job)
	for b.Loop() {
		DocumentRefusals(fit)
	}
}
