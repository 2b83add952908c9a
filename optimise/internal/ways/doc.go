// Package ways knows in which ways the layers of a table or a bed can be filled, one quote
// each, within the limits that tie them together: which of them costs least, and rows that
// all of them satisfy.
package ways
