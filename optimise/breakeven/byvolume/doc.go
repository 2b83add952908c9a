// Package byvolume sets one way of buying against another by the volume to be
// placed: bags against bulk, or any two sides.
//
// What a side costs is a staircase: whole packs, breaks, loads and free delivery
// come in steps, so every step is priced by the exact bill, and buying more than is
// placed is allowed where it costs less. Past the last break and every threshold of
// delivery each quote runs on at a lasting rate; where one side's is the lower, the
// winner is settled and nothing beyond need be looked at.
package byvolume
