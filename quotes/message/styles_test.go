package message

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/quotes/files"
)

// sold is a row of a quote to be put into words.
type sold struct {
	name, medium string
	size         string // "" when it is not told
	unit, plural string // what is priced
	pack         string
	price, low   int // of one, and of one where n or more are bought
	n, fee       int
	firm         string
}

// styles are the ways to write it that people have; each tells the price, the unit and the name, and some of the rest.
var styles = map[string]func(o sold) string{
	"a letter": func(o sold) string {
		return fmt.Sprintf("Dear Ada,\n\nthank you for asking. Our %s is $%d a %s; %d or more $%d. Delivery is $%d.\n\nKind regards,\nTam Pell\n%s", o.called(), o.price, o.unit, o.n, o.low, o.fee, o.firm)
	},
	"a label": func(o sold) string {
		return fmt.Sprintf("%s: %s %d/%s, %d+ %d, del %d", o.firm, o.called(), o.price, o.unit, o.n, o.low, o.fee)
	},
	"bullets": func(o sold) string {
		return fmt.Sprintf("%s\n* %s - $%d.00 / %s\n* %d %s and up - $%d.00\n* delivery: $%d.00", o.firm, o.called(), o.price, o.unit, o.n, o.plural, o.low, o.fee)
	},
	"dots": func(o sold) string {
		return fmt.Sprintf("%s\n%s ........ $%d %s\n   %d or more ...... $%d\nDelivery ......... $%d", o.firm, o.called(), o.price, o.unit, o.n, o.low, o.fee)
	},
	"tabs": func(o sold) string {
		return fmt.Sprintf("Supplier\tItem\tUnit\tPrice\t%d+\tDelivery\n%s\t%s\t%s\t%d\t%d\t%d", o.n, o.firm, o.called(), o.unit, o.price, o.low, o.fee)
	},
	"commas": func(o sold) string {
		return fmt.Sprintf("supplier,item,unit,price,delivery\n%s,%s,%s,%d,%d", o.firm, o.called(), o.unit, o.price, o.fee)
	},
	"strokes": func(o sold) string {
		return fmt.Sprintf("| Item | Price per %s | %d+ |\n|---|---|---|\n| %s | $%d | $%d |\nDelivery $%d. %s", o.unit, o.n, o.called(), o.price, o.low, o.fee, o.firm)
	},
	"a text": func(o sold) string {
		return fmt.Sprintf("hey %s is %d a %s, %d if u get %d+. %d to deliver", o.called(), o.price, o.unit, o.low, o.n, o.fee)
	},
	"an invoice": func(o sold) string {
		return fmt.Sprintf("Invoice no. 2231\n%s\n%d %s %s @ $%d = $%d\nDelivery $%d\nTotal $%d", o.firm, o.n, o.plural, o.called(), o.price, o.n*o.price, o.fee, o.n*o.price+o.fee)
	},
	"a sum in words": func(o sold) string {
		return fmt.Sprintf("%d %s of %s at %d is %d, plus %d delivery, %d in all. %s", o.n, o.plural, o.called(), o.price, o.n*o.price, o.fee, o.n*o.price+o.fee, o.firm)
	},
	"a form": func(o sold) string {
		return fmt.Sprintf("Supplier: %s\nProduct: %s\nUnit: %s\nPrice: $%d\nMinimum: 2\nDelivery: $%d", o.firm, o.called(), o.unit, o.price, o.fee)
	},
	"a forwarded mail": func(o sold) string {
		return fmt.Sprintf("From: %s <office@yard.example>\nDate: Mon, May 4, 2026\nSubject: Re: prices\n\nHi Ada,\n%s $%d per %s, %d and over $%d. We deliver for $%d.\nMeg", o.firm, o.called(), o.price, o.unit, o.n, o.low, o.fee)
	},
	"a note": func(o sold) string {
		return fmt.Sprintf("talked to Lou at %s. %s %d %s. over %d it's %d. truck %d", o.firm, o.called(), o.price, o.unit, o.n, o.low, o.fee)
	},
	"capitals": func(o sold) string {
		return strings.ToUpper(fmt.Sprintf("%s $%d per %s. %d %s or more $%d. delivery $%d. %s", o.called(), o.price, o.unit, o.n, o.plural, o.low, o.fee, o.firm))
	},
	"steps": func(o sold) string {
		return fmt.Sprintf("%s\n1-%d %s $%d\n%d+ %s $%d\nDelivery $%d\n%s", o.called(), o.n-1, o.plural, o.price, o.n, o.plural, o.low, o.fee, o.firm)
	},
	"fewer": func(o sold) string {
		return fmt.Sprintf("%s: $%d/%s under %d %s, $%d/%s %d %s and over. Delivery $%d flat. %s", o.called(), o.price, o.unit, o.n, o.plural, o.low, o.unit, o.n, o.plural, o.fee, o.firm)
	},
	"cash and card": func(o sold) string {
		return fmt.Sprintf("%s is $%d a %s cash, $%d if you use a card. Delivery $%d. %s", o.called(), o.price, o.unit, o.price+3, o.fee, o.firm)
	},
	"an earlier price": func(o sold) string {
		return fmt.Sprintf("%s was $%d, now $%d per %s. Delivery $%d. %s", o.called(), o.price+4, o.price, o.unit, o.fee, o.firm)
	},
	"a gap": func(o sold) string {
		return fmt.Sprintf("Item                  Unit     Price     %d+\n%s      %s      $%d     $%d\n%s", o.n, o.called(), o.unit, o.price, o.low, o.firm)
	},
	"the price first": func(o sold) string {
		return fmt.Sprintf("$%d/%s %s\n$%d trip (up to 8 yd)\n%s", o.price, o.unit, o.called(), o.fee, o.firm)
	},
	"an order in money": func(o sold) string {
		return fmt.Sprintf("%s %d a %s. Delivery %d, free over %d. Minimum order $%d. %s", o.called(), o.price, o.unit, o.fee, o.n*o.price, 2*o.price, o.firm)
	},
	"a day and a limit": func(o sold) string {
		return fmt.Sprintf("%s at $%d per %s until June 30, 2026, %d %s left. Delivery Tues and Thurs $%d. %s", o.called(), o.price, o.unit, o.n, o.plural, o.fee, o.firm)
	},
	"a load": func(o sold) string {
		return fmt.Sprintf("%s $%d/%s, min %d %s. $%d per load, truck will hold 14 yards. %s", o.called(), o.price, o.unit, o.n, o.plural, o.fee, o.firm)
	},
	"a percentage": func(o sold) string {
		return fmt.Sprintf("%s $%d a %s, 10%% off %d %s or more. Delivery $%d. %s", o.called(), o.price, o.unit, o.n, o.plural, o.fee, o.firm)
	},
	"a question": func(o sold) string {
		return fmt.Sprintf("%s: %s %d %s?, del %d?", o.firm, o.called(), o.price, o.unit, o.fee)
	},
}

func (o sold) called() string {
	if o.size == "" {
		return o.name
	}
	return o.name + " " + o.size
}

// facts are what a careful person may take from any of the styles. Fewest and most packs, days and what is free from a value
// stand in some.
func (o sold) facts() string {
	breaks := fmt.Sprintf("(?%d: %d ~ %d: %d ~ %d: %s)", o.n, o.low, o.n+1, o.low, o.n, strings.TrimSuffix(fmt.Sprintf("%.1f", 0.9*float64(o.price)), ".0"))
	size := ""
	if o.size != "" {
		size = " | size=(" + o.size + ")"
	}
	return fmt.Sprintf("quote: %s | supplier=(%s ~ %s) | pack=%s | price=%d | breaks=%s | min_qty=(2 ~ %d) | max_qty=(%d) | valid_until=(2026-06-30) | form=(bag ~ bulk ~ sack)%s\n",
		o.medium, o.firm, strings.ToUpper(o.firm), o.pack, o.price, strings.Replace(breaks, "(?", "(", 1), o.n, o.n, size) +
		fmt.Sprintf("terms: | fee|load_fee=(%d) | load_volume=(8 yd3 ~ 14 yd3) | free_over=(%d) | min_order=(%d)", o.fee, o.n*o.price, 2*o.price)
}

// TestAnyStyle writes a random row in a random style and reads it: what is read or asked is what was written, or is left to a
// person, and never another number.
func TestAnyStyle(t *testing.T) {
	names := slices.Sorted(maps.Keys(styles))
	require.GreaterOrEqual(t, len(names), 20)
	read := map[string][2]int{} // by style: prices, and those understood or asked
	rapid.Check(t, func(rt *rapid.T) {
		one := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(rt, label) }
		style := one("style", names...)
		o := sold{
			size: one("size", "", "3/4 in", "3/8 in", "#57", "1/2-3/4 in"), firm: one("firm", "Low Ford Quarry", "Marl Lane Supply", "Tarn End Stone"),
			n: rapid.IntRange(3, 40).Draw(rt, "n"), price: rapid.IntRange(20, 180).Draw(rt, "price"), fee: rapid.IntRange(25, 250).Draw(rt, "fee"),
		}
		o.low = rapid.IntRange(o.price/2+1, o.price-1).Draw(rt, "low")
		o.medium = one("medium", "lava rock", "pumice", "river gravel", "crushed granite", "expanded shale")
		o.name = map[string]string{"lava rock": "red lava", "river gravel": "pea gravel", "crushed granite": "granite", "pumice": "pumice", "expanded shale": "expanded shale"}[o.medium]
		o.unit = one("unit", "yard", "yd", "ton")
		o.plural, o.pack = o.unit+"s", "1 yd3"
		if o.unit == "ton" {
			o.pack = "1 ton"
		}
		f := fileFacts{name: style, text: styles[style](o), settings: "currency = \"USD\"\ndate = \"2026-05-04\"\n"}
		f.read(rt, o.facts())
		if style == "a question" || style == "cash and card" {
			v := f.quotes[0].facts["price"]
			v.asked, v.any = true, append(v.any, fmt.Sprint(o.price+3))
			f.quotes[0].facts["price"] = v
		}
		p, err := Parse(f.text, Options{Delivery: true, Settings: files.Source{Name: "job.toml", R: strings.NewReader(f.settings)}})
		require.NoError(rt, err)
		requireWhole(rt, p)
		got := f.judge(p)
		require.Empty(rt, got.faults, "%s\n%s", f.text, summary(p))
		all := read[style]
		all[0]++
		for _, e := range entries(p, files.QuotesFile, p.Rows) {
			if e.row.Text("price") != "" || len(e.asked["price"]) > 0 {
				all[1]++
				break
			}
		}
		read[style] = all
	})
	for _, name := range names {
		t.Logf("%s: a price was read or asked in %d of %d", name, read[name][1], read[name][0])
	}
}
