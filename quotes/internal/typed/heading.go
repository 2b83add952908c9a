package typed

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/wordlist"
)

// alsoCalled are headings of people's own sheets, by the heading that holds the same. "Qty" is none of quotes.csv: it may be what is there, or
// what is wanted.
var alsoCalled = map[string]map[string]bool{
	"supplier":    wordlist.Set("vendor seller yard company shop merchant store source firm"),
	"item":        wordlist.Set("product description goods article what"),
	"medium":      wordlist.Set("material media stone rock type kind"),
	"pack":        wordlist.Set("bag_size pack_size unit_size bag unit sold_by per volume"),
	"price":       wordlist.Set("cost unit_price unit_cost price_each each rate price_per_unit price_per_bag"),
	"breaks":      wordlist.Set("price_breaks discounts bulk_discount quantity_price volume_price"),
	"max_qty":     wordlist.Set("stock in_stock available qty_available on_hand"),
	"min_qty":     wordlist.Set("moq minimum min minimum_qty min_quantity"),
	"size":        wordlist.Set("grain grain_size particle_size grade grading gradation"),
	"valid_until": wordlist.Set("expires expiry valid good_until"),
	"delivery":    wordlist.Set("delivery_fee delivery_charge delivery_cost shipping freight"),
	"tax":         wordlist.Set("vat gst sales_tax tax_rate"),
	"notes":       wordlist.Set("comments comment remarks note"),
	"bed":         wordlist.Set("name bed_name planter tray"),
	"count":       wordlist.Set("qty quantity number how_many no beds"),
	"length":      wordlist.Set("l long len"),
	"width":       wordlist.Set("w wide"),
	"depth":       wordlist.Set("d deep height h media_depth"),
	"top":         wordlist.Set("top_layer top_depth"),
	"limit":       wordlist.Set("max_load max_weight weight_limit load_limit capacity"),
	"member":      wordlist.Set("owner who who_pays payer"),
	"site":        wordlist.Set("location place where"),
	"name":        wordlist.Set("truck vehicle service"),
	"min_order":   wordlist.Set("minimum_order minimum"),
}

// HeadingHint names the known heading that is meant by an unknown one: what people call it, or the most like it; all of them when
// neither is there. One that is not in the file yet is the likelier.
func HeadingHint(name string, known []string, there func(heading string) bool) string {
	free := slices.DeleteFunc(slices.Clone(known), there)
	if k := meant(name, free); k != "" {
		return "did you mean " + spelling.Quoted(k) + "?"
	}
	switch n := spelling.NearestHeading(name, append(free, known...)); {
	case n == "":
		return "the known headings are " + strings.Join(known, ", ")
	case slices.Contains(free, n):
		return "did you mean " + spelling.Quoted(n) + "?"
	default:
		return fmt.Sprintf("the nearest known heading is %s, which is there already", spelling.Quoted(n))
	}
}

// meant is the one of some headings that a heading of people's own sheets holds; "" where none does.
func meant(name string, among []string) string {
	i := slices.IndexFunc(among, func(k string) bool { return alsoCalled[k][strings.TrimRight(name, ".:")] })
	if i < 0 {
		return ""
	}
	return among[i]
}

// Called is the first of some headings by which people mean a known one; "" where none is.
func Called(heading string, names []string) string {
	i := slices.IndexFunc(names, func(n string) bool { return meant(n, []string{heading}) != "" })
	if i < 0 {
		return ""
	}
	return names[i]
}

// Renames tells how to write a heading line of which no heading is known.
func Renames(line, known []string) string {
	var out []string
	for _, name := range line {
		if k := meant(name, known); k != "" {
			out = append(out, fmt.Sprintf("%s for %s", k, spelling.Quoted(name)))
		}
	}
	all := "the known headings are " + strings.Join(known, ", ")
	if len(out) == 0 {
		return all
	}
	return "write " + strings.Join(out, ", ") + "; " + all
}
