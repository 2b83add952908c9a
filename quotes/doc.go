// Package quotes reads a buying job, a folder of plain files a grower keeps in
// a spreadsheet, and turns it into checked values.
//
// Call [Read] with the files; it answers with a [Job] and every problem and
// warning found in all of them. A job with any problem must not be solved:
// [Report.OK] says so. Data lives in plain structs that later rooms only read.
//
// Every record keeps the [Pos] of the row it came from, so that a bill line, a
// refusal or a warning can always be traced back to a cell.
package quotes
