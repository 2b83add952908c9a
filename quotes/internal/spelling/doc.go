// Package spelling compares words as people type them: what two spellings of one
// name share, and the known word most like an unknown one.
package spelling
