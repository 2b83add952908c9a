// Package quotes holds the records of a buying job, checked and in base units, and
// the rules of one quote: the price its packs reach ([Quote.PriceAt]), what a pack
// places ([Quote.Placed]), how long it takes to rinse ([Quote.RinseHours]), what a
// medium weighs flooded ([Quote.Flooded]), how a grain size reads ([ParseGrain]).
//
// Package quotes/files reads a job's files into these records. A job with any
// [Problem] must not be solved: [Report.OK] says so. Data lives in plain structs
// that later rooms only read.
//
// Every record keeps the [Pos] of the row it came from, so that a bill line, a
// refusal or a warning can always be traced back to a cell.
package quotes
