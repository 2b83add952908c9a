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
// # How a message is read
//
//  0. A paste of several messages is cut where each has a supplier of its own, and
//     every part is read by itself: see letters.go.
//  1. Signature, headings of a mail, quoted lines and tables are found by line, and
//     amounts in words are set in digits. A quoted question names what the answer
//     below it is about; nothing else of it is read.
//  2. In the rest, facts are found by their words: a price for a pack, a break, a
//     pack, a grain size, a day, a delivery fee and so on. The longest wins.
//  3. Commas, full stops, brackets and line ends make clauses. A clause that holds
//     a "not", a "was", an "about" or the like is left unread as a whole.
//  4. A clause that names one medium is about it; one that names none is about the
//     medium before it. Where that leaves two readings, the facts stay unread.
//  5. The facts about a medium make one row for each pack with a price of its own.
//     What holds for the order goes into the rows of its supplier, or into rows of
//     delivery.csv if it is more than two cells can hold.
//  6. The rows are read back by [quotes.Read]. A cell it refuses is taken out again,
//     of delivery.csv the whole row, as some of its charges would be too few; the
//     words are listed as not understood, with the problem as it is told there.
//
// What reads in two ways or three, or contradicts itself with nothing between to
// tell the two apart, is asked: see [Proposal.Asked]. Each answer is a whole
// reading, and none stands in a row before it is given.
//
// How much is read is measured on messages whose facts were written down
// beforehand: go test -run '^$' -bench Facts.
//
// The words known to suppliers' messages here are common practice, no source.
package message
