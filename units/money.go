package units

// Money is an exact decimal amount in the job's one currency. The zero value is no money and ready to use. It never
// rounds by itself: a bill calls Round once per line, as an invoice would. Compare with Equal or Cmp, never with ==.
type Money struct {
	amount Decimal
}

// M reads a plain amount such as "12.50", for constants and tests. It panics on anything else; text from outside goes
// through ParseMoney.
func M(s string) Money { return Money{D(s)} }

// MoneyOf makes money of a decimal number of the currency's main unit (dollars, not cents).
func MoneyOf(d Decimal) Money { return Money{d} }

// Add gives m + n, exactly.
func (m Money) Add(n Money) Money { return Money{m.amount.Add(n.amount)} }

// Sub gives m − n, exactly.
func (m Money) Sub(n Money) Money { return Money{m.amount.Sub(n.amount)} }

// Times gives m × d, exactly.
func (m Money) Times(d Decimal) Money { return Money{m.amount.Mul(d)} }

// Neg gives −m.
func (m Money) Neg() Money { return Money{m.amount.Neg()} }

// Cmp is −1, 0 or +1 as m is less than, equal to or greater than n.
func (m Money) Cmp(n Money) int { return m.amount.Cmp(n.amount) }

// Equal says whether m and n are the same amount.
func (m Money) Equal(n Money) bool { return m.amount.Equal(n.amount) }

// Sign is −1, 0 or +1.
func (m Money) Sign() int { return m.amount.Sign() }

// IsZero says whether m is no money.
func (m Money) IsZero() bool { return m.amount.IsZero() }

// Round rounds to so many digits after the point, half away from zero, as an invoice does: 2 digits are cents.
func (m Money) Round(digits int) Money { return Money{m.amount.Round(digits)} }

// Text gives m rounded as by Round with exactly so many digits after the point and no currency sign: "1234.50".
func (m Money) Text(digits int) string { return m.amount.Text(digits) }

// String gives all digits of m, unrounded and without a currency sign.
func (m Money) String() string { return m.amount.String() }

// MarshalText gives String: unrounded digits, in quotes in JSON. Answers that promise the currency's digits use Text.
func (m Money) MarshalText() ([]byte, error) { return m.amount.MarshalText() }

// Float gives the nearest float64, for models and charts; bills stay in Money.
func (m Money) Float() float64 { return m.amount.Float() }

// Decimal gives the number of the currency's main unit.
func (m Money) Decimal() Decimal { return m.amount }
