package quotes

import (
	"cmp"
	"time"

	"mediabuy/units"
)

// Job is everything one purchase needs to know, checked and in base units.
type Job struct {
	Settings Settings
	Media    *MediaTable
	Quotes   []*Quote    // in file order
	Beds     []*Bed      // in file order
	Delivery []*Delivery // in file order, the shorthand of quotes.csv included
}

// Settings is job.toml with every default filled in.
type Settings struct {
	// Reader is the habit of units asked for by whoever reads; nil: that of the currency.
	Reader           *units.System
	Currency         string // ISO 4217 code
	CurrencyDigits   int    // digits after the decimal mark in that currency
	Date             Date   // pricing day
	NeedBy           Date   // zero: no day is asked for
	Tax              units.Decimal
	TaxIncluded      bool
	AllowUntested    bool
	AllowUnknownSize bool
	AllowRoughTop    bool
	LabourRate       units.Money   // money for one hour of rinsing
	Extra            units.Decimal // spare to buy beyond what the beds take: 0.05 is 5 %
	Weights          Weights       // never empty
	Sure             float64       // chance asked for that the buy fills every bed; 0: none
	LayerMix         LayerMix      // never empty
	LeastShare       float64       // smallest part of a layer a quote may fill if it fills any
	Buyer            Buyer
	MaxSuppliers     int           // 0: no limit
	MaxDeliveries    int           // 0: no limit; counts drops, not loads
	MaxQuotes        int           // most quotes to buy of; 0: no limit. No key sets it: see optimise.Alternatives
	SameMix          bool          // the same shares of the same quotes in that layer of every bed. No key sets it either
	Budget           *units.Money  // nil: no limit
	TimeLimit        time.Duration // 0: no limit
}

// System is the habit of units of whoever reads a job, unless another is asked for:
// that of the United States where the job is in its dollars.
func (s *Settings) System() units.System {
	if s.Currency == "USD" {
		return units.US
	}
	return units.Metric
}

// Speaks is the habit of units that words about a job are in: the reader's, where one
// was asked for. How cells are read never hangs on it.
func (s *Settings) Speaks() units.System {
	if s.Reader != nil {
		return *s.Reader
	}
	return s.System()
}

// LayerMix says how many quotes may fill one layer of a bed.
type LayerMix string

// The two ways to mix.
const (
	AnyMix LayerMix = "any"
	OneMix LayerMix = "one" // a single quote fills each layer of each bed; beds of one row alike
)

// Buyer is who buys, as it stands on papers.
type Buyer struct {
	Name, Phone, Email, Address string
	// Sites say by name of site where goods are set down and how a truck gets there.
	Sites map[string]DropSpot
}

// DropSpot is where goods are set down at a site and how a truck gets there.
type DropSpot struct{ Drop, Access string }

// Date is a calendar day; the zero Date means that none was given.
type Date struct{ time.Time }

// String writes the day as ISO 8601, or an empty string for the zero Date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.Format(time.DateOnly)
}

// DateOf is the calendar day of t.
func DateOf(t time.Time) Date {
	return Date{time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)}
}

// Form is how a supplier packs what it sells.
type Form string

// The forms goods come in. The zero Form is invalid.
const (
	Bag  Form = "bag"
	Bulk Form = "bulk"
	Sack Form = "sack" // a bulk bag
)

// Forms lists every form, in the order used for printing.
var Forms = []Form{Bag, Bulk, Sack}

// HeaviestBag is the weight above which no hand lifts a bag, so that one may be a bulk bag (common practice, no source).
const HeaviestBag units.Kilograms = 100

// BreakKind says which packs a price break reaches.
type BreakKind string

// The kinds of price break.
const (
	AllUnits    BreakKind = "all-units"   // the price reached applies to every pack
	Incremental BreakKind = "incremental" // each pack at the price of its own place
)

// Break is a lower price from a number of packs on.
type Break struct {
	From  units.Decimal
	Price units.Money
}

// AcidTest is the outcome of an acid drop on a sample.
type AcidTest string

// Outcomes of the acid drop.
const (
	Untested AcidTest = "untested"
	NoFizz   AcidTest = "none"
	Fizzed   AcidTest = "fizzed"
)

// Quote is one thing a supplier offers to sell.
type Quote struct {
	Pos
	Name     string
	Supplier string
	Item     string
	Medium   *Medium
	Form     Form

	Pack       units.Amount    // as written: a volume, or a weight
	PackLitres units.Litres    // loose volume of one pack, as sold
	PackMass   units.Kilograms // dry weight of one pack

	Step       units.Decimal // smallest amount sold, in packs; > 0
	Price      units.Money   // one pack, before breaks
	Breaks     []Break       // rising From, falling Price
	BreakKind  BreakKind
	BreakGroup string         // "" : its breaks are its own
	MinQty     units.Decimal  // 0: none
	MaxQty     *units.Decimal // nil: none

	Size      Grain
	Density   units.Density // as the yard states it; 0: the medium's
	Carbonate AcidTest
	RinseLoss Spread[float64] // share lost as fines on rinsing
	CountOn   float64         // share of what it places that is counted on; 0: all. No cell sets it: see package risk
	Fill      Spread[float64] // what a pack really holds, as a share of what it is sold as
	Tax       units.Decimal   // share added to this line: 0.08 is 8 %

	ValidUntil Date
	ReadyBy    Date
	Notes      string

	// MoreOf is the name of the quote whose goods these are, bought before; "" for what is on offer. In a layer both are one
	// thing. No cell sets it: see optimise.FinishWith.
	MoreOf string

	// Apart is what tells it from what its supplier calls the same. No cell sets it: see [TellApart].
	Apart Apart
}

// Thing is the name of what q sells: its own, or that of the quote whose goods it is more of.
func (q *Quote) Thing() string { return cmp.Or(q.MoreOf, q.Name) }

// Placed is the placed volume one pack yields, in litres:
// pack litres × (1 − rinse loss) × (1 − settle).
func (q *Quote) Placed() units.Litres {
	return units.Litres(float64(q.PackLitres) * (1 - q.RinseLoss.Usual) * (1 - q.Medium.Settle.Usual))
}

// Yield is the placed litres that one pack of q is counted on to fill: what it
// places, less the spare that the job asks for and what is held back to be sure.
//
//	(1 + extra)·Σ placed ≤ Σ placed(q)·packs
func (j *Job) Yield(q *Quote) units.Litres {
	share := 1 / (1 + j.Settings.Extra.Float())
	if q.CountOn > 0 {
		share = min(share, q.CountOn)
	}
	return units.Litres(float64(q.Placed()) * share)
}

// Levels lists the prices in order: the first from 0 packs, then every break.
func (q *Quote) Levels() []Break {
	return append([]Break{{Price: q.Price}}, q.Breaks...)
}

// Medium is one row of the media table.
type Medium struct {
	Pos          // zero for a row of the built-in table
	Name         string
	OtherNames   []string
	DryDensity   Spread[units.Density] // loose, dry
	HeldWater    Spread[float64]       // kg of water held by one litre when drained
	Voids        Spread[float64]       // share of space between grains that is empty when drained
	Feel         Feel
	Carbonate    MediumCarbonate
	BreaksDown   bool            // rots or crumbles in water
	RinseLoss    Spread[float64] // share lost as fines
	Settle       Spread[float64] // share of height lost once placed
	RinseMinutes Spread[float64] // per 100 L as bought
	// Citations are the sources of the built-in figures; a job's own row says its
	// source in words, or has none.
	Citations []Citation
	Source    string
}

// Citation is where a figure of a medium comes from, and how far that can be
// trusted: "seen" was read at the body's own address, "seen in a copy" was not,
// "computed" is arithmetic, "memory" was not read now, "common practice" has no
// source.
type Citation struct {
	Property string // the heading of the figure
	Figure   string // what the source says
	Body     string // author or body, title, year; "" for none
	Address  string // of the body itself; "" for none
	Mark     string
}

// String is the citation on one line.
func (c Citation) String() string {
	words := c.Property + ": "
	if c.Figure != "" {
		words += c.Figure + ", "
	}
	if c.Body != "" {
		words += c.Body + ", "
	}
	return words + c.Mark
}

// Feel is how a medium treats the hands that plant in it.
type Feel string

// Feels.
const (
	Smooth Feel = "smooth"
	Rough  Feel = "rough"
	Sharp  Feel = "sharp"
)

// MediumCarbonate says whether a medium carries lime.
type MediumCarbonate string

// Carbonate classes of a medium.
const (
	CarbonateNone    MediumCarbonate = "none"
	CarbonateSuspect MediumCarbonate = "suspect"
	CarbonateYes     MediumCarbonate = "yes"
)

// Share is the most of a bed's volume that one medium may fill.
type Share struct {
	Medium *Medium
	Most   float64 // 0..1
}

// Part is one member's part in a bed; parts of a bed are relative to their sum.
type Part struct {
	Member string
	Parts  units.Decimal
}

// Bed is one bed, or several alike, to fill.
type Bed struct {
	Pos
	Name  string
	Count int // ≥ 1

	// Either the three inside measures, or the volumes; the others are zero.
	Length, Width, Depth, Top units.Millimetres
	Volume, TopVolume         units.Litres

	TopMedia []*Medium // media allowed in the top layer; filled in from the default when left out
	Only     []*Medium // empty: every medium
	Avoid    []*Medium
	MaxShare []Share
	MinSize  *units.Millimetres // nil: any
	MaxSize  *units.Millimetres
	MinRaw   string // as written, for messages
	MaxRaw   string

	Table     string           // "" : the limit is the bed's own
	Limit     *units.Kilograms // nil: not known; on a shared table, the same for every bed of it
	OwnWeight units.Kilograms  // of one bed

	NeverFloods bool
	WaterLine   units.Millimetres // below the media surface
	Displaced   units.Litres      // of one bed, from the base layer

	Site   string // "" only when the job names no site
	Member []Part // empty only when the job names no member
}

// Truck is one size of load of a way of delivery.
type Truck struct {
	Fee    units.Money      // for each load
	Volume *units.Litres    // what a load holds, as sold; nil: no limit
	Weight *units.Kilograms // what a load carries, dry; nil: no limit
}

// Sized reports whether a load has any limit.
func (t Truck) Sized() bool { return t.Volume != nil || t.Weight != nil }

// Words names the size of a load: "up to 8 yd³", "up to 8 yd³ or 10 short ton".
func (t Truck) Words(sys units.System) string {
	switch {
	case t.Volume != nil && t.Weight != nil:
		return "up to " + units.FormatVolume(*t.Volume, sys) + " or " + units.FormatMass(*t.Weight, sys)
	case t.Volume != nil:
		return "up to " + units.FormatVolume(*t.Volume, sys)
	case t.Weight != nil:
		return "up to " + units.FormatMass(*t.Weight, sys)
	}
	return "of any size"
}

// LoadHolds says whether a load of bulk carries one quote's goods.
type LoadHolds string

// What a load may hold.
const (
	HoldsOne LoadHolds = "one" // bulk of one quote, or bags and sacks together
	HoldsAny LoadHolds = "any"
)

// Delivered names a way of delivery that has no name of its own.
const Delivered = "delivered"

// Delivery is one way a supplier gets goods to a site.
type Delivery struct {
	Pos
	Supplier    string
	Site        string // "" : every site; one where no bed stands brings nothing
	Name        string
	Handling    units.Money
	HandlingSet bool   // false: the cell was blank
	Covers      []Form // never empty
	OrderFee    units.Money
	Trucks      []Truck // sizes of truck of the one service, cheapest load first; never empty
	LoadHolds   LoadHolds
	Haul        units.PerVolume
	FreeOver    *units.Money // nil: never waived
	MinOrder    *units.Money
	Tax         units.Decimal // share
	Shorthand   bool          // made from the delivery and free_over cells of quotes.csv
}
