package message

import (
	"mediabuy/quotes"
	"mediabuy/units"
)

// kind is what a fact is about. The zero kind is invalid.
type kind int

const (
	aMedium    kind = iota + 1
	aPrice          // of one pack; unit may be empty
	aBreak          // a lower price from a number of packs on
	aTier           // a price from one number of packs to another
	aShort          // a number and a unit, which may be the price of one
	aPallet         // the price of a pallet of so many packs; from says how many
	aPack           // what a pack holds
	aForm           // bag, bulk, sack without a size
	aSame           // the pack of the item before
	aMin            // fewest packs
	aMax            // most packs
	aStep           // smallest amount
	aSize           // grain size
	aDensity        //
	anAcidTest      //
	aNote           // words that go to notes
	aLoss           // rinse_loss
	aTax            //
	aFeeTax         // of what bringing costs, and not of goods: fees says it
	aPercent        // so much off from a number of packs on; money is the percentage
	aValid          // valid_until
	aReady          // ready_by
	aDelivery       // fee for the order
	aFree           // free_over
	aClassFee       // order_fee of one kind of pack: classes says which
	aLoadFee        // load_fee
	aTruck          // load_fee and what the load holds, of one truck or several: loads
	aLoad           // what a load holds: load_volume or load_weight, column says which
	aHaul           // haul
	aSurcharge      // a charge on top of that for delivery, which no column of quotes.csv or delivery.csv takes by itself
	aMinOrder       // min_order
	aCollect        // the buyer fetches
	aPayer          // who pays a price, or how
	aSupplier       //
	aCell           // a table cell under a heading; column says which
	aHeading        // a heading of a table; read when a cell hangs on it
	anAside         //
	anUnclear       //
)

// about says whether a fact is about one medium and not about the whole message.
func (k kind) about() bool { return k >= aPrice && k <= aLoss || k == aCell }

// count is a number of packs or units as written.
type count struct {
	text  string // as it would stand in a cell
	value units.Decimal
}

// fact is one thing said in the message.
type fact struct {
	kind
	Range
	column string // the heading it fills; for an aCell and an aLoad
	text   string // the cell it makes
	why    string // the rule, or for anAside and anUnclear the reason

	money     units.Money
	from, to  count // aBreak, aTier, aMin, aMax, aStep
	counted   pack  // the unit of from
	unit      pack  // what the price is for, what a pack holds
	medium    *quotes.Medium
	classes   []classFee // of an aClassFee
	loads     []truck    // of an aTruck
	general   bool       // said of all packs of a form
	before    bool       // only holds behind a price: delivered
	otherwise bool       // only holds behind "free over": otherwise 12.50
	linked    bool       // a break that "for" or "if you take" may link to a price in front of it
	paid      bool       // a price whose head says who pays it
	filed     bool       // a fee that goes to delivery.csv, as one answer sets one row
	bare      bool       // a fee for a load with no word for delivery beside it
	threshold bool       // a number of packs whose price was not made out
	together  bool       // an aPallet of so many packs that no word calls a pallet
	outbid    bool       // a price left to a person as another stands behind it; none may take its place

	base    *fact // a price in the same words as a break that holds for the packs beyond a number alone
	graded  bool  // such a break
	ranged  bool  // an end of a price from one amount to another
	redone  bool  // a price that a correction behind it takes back
	head    *fact // the heading of a table that a cell's reading hangs on
	behind  *fact // the price that a "delivered" stands behind
	item    *item // what it was attached to
	refs    []Ref
	unclear string // why it was not used
	fees    string // of a tax, or a fee with its own: the tax on what bringing costs; "" when that is not said
	within  string // where a fee for delivery holds; "" when that is not said
	ask     *choice
	asked   bool // ask is put as a question
}

// drop leaves a fact to a person. The first reason stays.
func (f *fact) drop(why string) {
	if f.unclear == "" {
		f.unclear = why
	}
}

// token is a word, a number or a sign outside facts.
type token struct {
	Range
	word   string // in small letters; "" for signs
	number bool
	sign   byte // the first byte of a sign, '\n' for a line end that ends a sentence
}

// clause is what stands between two commas, stops, brackets or line ends.
type clause struct {
	Range
	facts    []*fact
	tokens   []token
	sentence int  // which sentence it stands in
	line     bool // the sentence began with a line
	cond     bool // opens with "if"
	poison   string
	cell     int    // the column of a table cell, -1 in sentences
	heading  string // of that column, "" when it has none
	row      int    // the row of the table
}
