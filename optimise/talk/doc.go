// Package talk works out what may be told to a supplier at the next talk: at which
// lower prices more would be bought of what, and what free delivery or a smaller step
// would bring. Prices come from the exact break-evens, are rounded down to what can be
// asked, and each is planned again before it is told: what is told is the purchase of
// that plan.
//
// A talk holds nothing of another supplier: no name, no item, no price. Where a price to
// be told happens to be one that another asks, the one a cent lower is told.
package talk
