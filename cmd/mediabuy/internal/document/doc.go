// Package document sets out, for machines, the answers that only the command
// makes. Answers of the library have theirs beside them, in files named document.
package document
