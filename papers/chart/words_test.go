package chart

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/optimise/breakeven"
	"mediabuy/units"
)

func TestChangeWords(t *testing.T) {
	assert.Equal(t, "10 kg more on table A", ChangeWords("10 kg more on table A", units.Metric))
	assert.Equal(t, "22 lb more on table A", ChangeWords("10 kg more on table A", units.US))
	assert.Equal(t, "no weight limit", ChangeWords("no weight limit", units.US))
}

func TestSmallWords(t *testing.T) {
	less := func(n int64) units.Money { return units.MoneyOf(units.DecimalFromInt(-n)) }
	changes := []breakeven.Other{{Name: "10 kg more on bed one", Difference: less(3)}, {Name: "the top layer of one 1 in thinner", Difference: less(2), Unproven: true}}
	money := func(m units.Money) string { return "$" + m.Text(2) }
	assert.Equal(t, []string{"22 lb more on bed one: saves $3.00, if someone qualified finds that the frame carries it", "the top layer of one 1 in thinner: saves at least $2.00"}, SmallWords(changes, units.US, money))
	assert.Nil(t, SmallWords(nil, units.US, money))
}

func TestOrdinal(t *testing.T) {
	for n, want := range map[int64]string{1: "1st bag", 2: "2nd bag", 3: "3rd bag", 4: "4th bag", 11: "11th bag", 12: "12th bag", 13: "13th bag", 21: "21st bag", 112: "112th bag"} {
		assert.Equal(t, want, ordinal(units.DecimalFromInt(n), "bag"))
	}
}
