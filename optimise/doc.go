// Package optimise finds the cheapest safe purchase that fills a job's beds.
//
// Call [Solve] with a job read by package quotes; it answers with a [Plan]: what
// to buy, how it comes, where it goes, what every table weighs, and the exact
// bill. Package bill prices any purchase, package suitability says what may go where,
// [Verify] holds a plan against
// the job's own words, [Compare] sets quotes side by side, [ExportModel] gives
// the model as data for any solver.
//
// # The model
//
// Its sets, letters, rows and the reason why merging what is alike changes nothing
// stand in package internal/model.
//
// # How it is solved
//
// What stones go in which bed costs nothing by itself, so the search works on the
// purchase alone; that the beds can be filled with it, within every weight and
// share, is asked of a small linear program for each site, which answers a
// purchase that does not fit with a row that it breaks (propose.Placer). The same rows
// steer a search by exchange that finds good purchases before the proof begins
// (internal/propose). The proof is a branch and bound over lp_solve's linear programs
// (internal/search). What it answers is placed once more in the tidiest way,
// priced exactly, and held against the job by [Verify].
//
// # What is counted how
//
// Readings where the terms of trade leave room, each the one that does not cost
// the buyer money without a word:
//
//   - free_over and min_order look at all goods a supplier sends to a site,
//     before tax; where prices carry tax it is taken off first.
//   - max_deliveries counts drops, not their loads.
//   - Where a supplier's rows state different handling, the highest of the rows
//     used is paid, once.
//   - A load fee without a size of load is paid once for the order.
//   - A bed given by volume alone counts as flooded to its surface.
//   - A table's weight goes by the media table's density, also where a quote
//     states another.
package optimise
