package quotes_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes"
	"mediabuy/units"
)

func TestItemWords(t *testing.T) {
	for item, want := range map[string]string{"": "lava rock", "Lava Rock": "Lava Rock", "red lava rock 3/4": "red lava rock 3/4", "red stone": "red stone (lava rock)"} {
		q := &quotes.Quote{Item: item, Medium: &quotes.Medium{Name: "lava rock"}}
		assert.Equal(t, want, q.ItemWords())
	}
}

func TestPacksWords(t *testing.T) {
	two := units.DecimalFromInt(2)
	for form, want := range map[quotes.Form]string{quotes.Bag: "2 × 1 yd3 bag", quotes.Sack: "2 × 1 yd3 bulk bag", quotes.Bulk: "2 × 1 yd3"} {
		q := &quotes.Quote{Form: form}
		q.Pack.Raw = "1 yd3"
		assert.Equal(t, want, q.PacksWords(two))
	}
}

// What one supplier calls the same is told apart by what differs: the pack, else the size, else both, else the name too.
func TestToldApart(t *testing.T) {
	lava := &quotes.Medium{Name: "lava rock"}
	for _, c := range []struct {
		rows [][4]string // supplier, item, pack, size
		want []string
	}{
		{[][4]string{{"A", "Lava", "50 L", "8-16 mm"}, {"A", "lava", "10 L", "8-16 mm"}, {"B", "lava", "50 L", ""}}, []string{"Lava (50 L bag)", "lava (10 L bag)", "lava"}},
		{[][4]string{{"A", "lava", "50 L", "8-16 mm"}, {"A", "lava", "50 L", "16-32 mm"}}, []string{"lava (8-16 mm)", "lava (16-32 mm)"}},
		{[][4]string{{"A", "", "50 L", "8-16 mm"}, {"A", "", "50 L", "16-32 mm"}, {"A", "", "10 L", "8-16 mm"}}, []string{"lava rock (50 L bag, 8-16 mm)", "lava rock (50 L bag, 16-32 mm)", "lava rock (10 L bag, 8-16 mm)"}},
		{[][4]string{{"A", "lava", "50 L", ""}, {"A", "lava", "50 L", ""}}, []string{"lava (50 L bag, quote 0)", "lava (50 L bag, quote 1)"}},
	} {
		var list []*quotes.Quote
		for i, row := range c.rows {
			q := &quotes.Quote{Name: strconv.Itoa(i), Supplier: row[0], Item: row[1], Medium: lava, Form: quotes.Bag}
			q.Pack.Raw, q.Size.Raw = row[2], row[3]
			list = append(list, q)
		}
		for range 2 { // and once more, the same
			quotes.TellApart(list)
			for i, q := range list {
				assert.Equal(t, c.want[i], q.Called())
			}
		}
	}
	made := &quotes.Quote{Name: "Moor End/pebbles#2", Supplier: "Moor End", Item: "pebbles", Medium: lava, Apart: quotes.Apart{Pack: "10 L bag"}}
	assert.Equal(t, "pebbles (10 L bag) of Moor End", made.NameWords())
	made.Name = "pebbles-10"
	assert.Equal(t, "pebbles-10", made.NameWords(), "a name that somebody gave")
	q := &quotes.Quote{Item: "red stone", Medium: lava, Apart: quotes.Apart{Pack: "50 L bag", Other: "8-16 mm"}}
	assert.Equal(t, "red stone (lava rock) (8-16 mm)", q.ItemWords())
	assert.Equal(t, "red stone (lava rock) (50 L bag, 8-16 mm)", q.ItemAlone())
}
