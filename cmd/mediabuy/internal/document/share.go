package document

import "mediabuy/optimise/share"

// Share is the machine-readable answer of share.
type Share struct {
	*share.Document
	Files []string `json:"files,omitempty"`
}
