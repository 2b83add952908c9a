package units_test

import (
	"testing"

	"mediabuy/units"
)

func BenchmarkParseVolume(b *testing.B) {
	for b.Loop() {
		if _, err := units.ParseVolume("1 1/2 cu yd", units.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseMoney(b *testing.B) {
	for b.Loop() {
		if _, err := units.ParseMoney("$1,234.50", units.MarkPoint); err != nil {
			b.Fatal(err)
		}
	}
}

// One line of a bill: packs × price, tax, rounding, sum.
func BenchmarkBillLine(b *testing.B) {
	price, packs, tax, sum := units.M("27.495"), units.D("12.5"), units.D("0.0825"), units.M("0")
	for b.Loop() {
		goods := price.Times(packs).Round(2)
		sum = units.M("0").Add(goods).Add(goods.Times(tax).Round(2))
	}
	// 12.5 × 27.495 = 343.6875, on the bill 343.69; tax 28.354425, on the bill 28.35.
	if want := "372.04"; sum.Text(2) != want {
		b.Fatalf("the line is %s, want %s", sum.Text(2), want)
	}
}

func BenchmarkSplit(b *testing.B) {
	weights := []float64{1200, 340.5, 764.55, 0, 99.9, 4000, 12, 1}
	for b.Loop() {
		units.Split(123_456, weights)
	}
}
