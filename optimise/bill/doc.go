// Package bill is the exact arithmetic of money: what a purchase costs, from the
// quotes and the delivery terms alone, in decimal money, rounded as an invoice is.
//
// Call [Price] with a purchase. What else the bill goes by is exported for those
// who estimate or draw it: which way goods come ([DropsTo]), which packs reach a
// price break together ([Pools]), which tax is really added ([GoodsTax],
// [DropTax]), what counts towards free delivery ([BeforeTax]).
//
// The rows of the buying model say the same in their own words, on purpose: each
// checks the other, and a plan whose bill and model differ is not shown.
package bill
