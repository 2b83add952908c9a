// Package files reads a buying job, a folder of plain files a grower keeps in a
// spreadsheet, into the records of package quotes.
//
// Call [Read] with the files; it answers with a [quotes.Job] and every problem and
// warning found in all of them. gocsv matches headings to columns and the number of
// cells to the headings; what a cell says is converted here, so that each problem
// has its place. How the files are written is csvfile's to know.
package files
