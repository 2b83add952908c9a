// Package risk says how sure a purchase fills every bed, and finds the cheapest
// purchase that is as sure as is asked for.
//
// What is uncertain is the volume that a pack really holds, what rinsing loses,
// how far a bed settles, and the density of what is sold by weight. Each has a
// low, a usual and a high value and is drawn from the triangular law between them,
// once for each quote and order; see [Draws]. The same quote has the same draws
// whatever else is bought, so plans are compared on the same luck.
//
// In each draw what came is laid in the way that leaves the beds least short,
// within every weight and share (package propose). A purchase that is short is
// finished the cheapest way, as if it had been received.
//
// [NewAssessor] readies the question for a job, [Reach] meets a target.
package risk
