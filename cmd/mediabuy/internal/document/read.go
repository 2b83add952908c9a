package document

import "mediabuy/quotes/message"

// Read is the machine-readable answer of read.
type Read struct {
	*message.Proposal
	Note          string         `json:"note"` // how the bytes were read, where that was a guess
	NotUnderstood []message.Span `json:"not_understood"`
	SetAside      []message.Span `json:"set_aside"`
}
