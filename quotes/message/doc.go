// Package message reads what suppliers write, sentences copied from a message or
// rows copied from a sheet with or without headings, into proposed rows of
// quotes.csv and, where what delivery costs needs it, of delivery.csv.
//
// Nothing here enters a job. [Parse] answers with a [Proposal]: the rows, for each
// cell the words it was read from and the rule that read them, and [Span]s that
// account for every byte of the message once. What says "not", "about" or
// "was" is not read at all: it is listed as not understood, with the reason, for a
// person to settle.
//
// How a message is read, from lines and tables by way of facts and clauses to rows that are read back, is told in
// DEVELOPERS.md.
//
// What reads in two ways or three, or contradicts itself with nothing between to
// tell the two apart, is asked: see [Proposal.Asked]. Each answer is a whole
// reading, and none stands in a row before it is given. What no rule reads is asked
// about as well, by the words near it.
//
// How much is read is measured on messages whose facts were written down
// beforehand: go test -run '^$' -bench Facts.
//
// The words known to suppliers' messages here are common practice, no source.
package message
