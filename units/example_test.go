package units_test

import (
	"errors"
	"fmt"

	"mediabuy/units"
)

func ExampleDensity_Volume() {
	fmt.Println(units.Density(0.25).Volume(10), "L")
	// Output: 40 L
}

func ExampleParseVolume() {
	v, err := units.ParseVolume("2 cu yd", units.Options{})
	fmt.Println(v.Value, "L;", v.Raw, "because", v.By, err)
	// Output: 1529.109715968 L; 2 cu yd because 1 yd³ = 764.555 L <nil>
}

func ExampleParseAmount() {
	for _, text := range []string{"50 L", "1 ton"} {
		a, err := units.ParseAmount(text, units.Options{})
		if err != nil {
			fmt.Println(err)
			continue
		}
		if a.IsMass {
			fmt.Println(a.Mass.Value, "kg;", a.Mass.Note)
		} else {
			fmt.Println(a.Volume.Value, "L")
		}
	}
	// Output:
	// 50 L
	// 907.18474 kg; ton is read as the US short ton, 907.185 kg; write "tonne" for 1000 kg or "long ton" for 1016.05 kg
}

func ExampleParseMoney() {
	for _, text := range []string{"$1,234.50", "1.234,50 €", "1,234", "12.5O"} {
		m, err := units.ParseMoney(text, units.MarkUnknown)
		var parse *units.ParseError
		if errors.As(err, &parse) {
			fmt.Println(err)
			fmt.Println("  hint:", parse.Hint)
			continue
		}
		fmt.Println(m)
	}
	// Output:
	// 1234.5
	// 1234.5
	// "1,234" can be read as 1234 or 1.234, want a number that reads one way
	//   hint: write 1234, or say which sign is the decimal mark everywhere
	// "12.5O" is not an amount, want digits such as 12.50
	//   hint: the last sign is a letter O; write the digit 0
}

func ExampleMarkOf() {
	fmt.Println(units.MarkOf("10: 27,50; 40: 24,00"))
	fmt.Println(units.MarkOf("1,234"))
	// Output:
	// , false
	// unknown true
}

func ExampleSplit() {
	// 100.00 among three members who placed 1, 1 and 2 cubic metres, then among three who placed the same.
	fmt.Println(units.Split(10_000, []float64{1000, 1000, 2000}))
	fmt.Println(units.Split(10_000, []float64{1, 1, 1}))
	// Output:
	// [2500 2500 5000]
	// [3334 3333 3333]
}

func ExampleMoney_Round() {
	tax := units.M("329.94").Times(units.D("0.0825"))
	fmt.Println(tax, tax.Round(2))
	// Output: 27.22005 27.22
}

func ExamplePerVolume_For() {
	haul, err := units.ParsePerVolume("12.01 / yd3", units.MarkUnknown)
	fmt.Println(haul.For(units.CubicYard/2), err)
	// Output: 6.005 <nil>
}

func ExampleFormatVolume() {
	fmt.Println(units.FormatVolume(453, units.Metric), "or", units.FormatVolume(453, units.US))
	// Output: 453 L or 0.59 yd³
}

func ExampleFormatMoney() {
	fmt.Println(units.FormatMoney(units.M("1234.5"), "USD"), units.FormatMoney(units.M("1234.5"), "JPY"))
	// Output: $1,234.50 ¥1,235
}
