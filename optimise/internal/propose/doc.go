// Package propose finds good purchases before the proof begins: it completes a
// count of packs to a whole answer of the model at what it costs ([Completer]),
// exchanges packs while that saves money, mends what does not fill the beds, and
// places what is bought ([Settle]). It only proposes; the search proves, and the
// bill prices.
package propose
