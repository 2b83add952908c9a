package document

import (
	"mediabuy/cmd/mediabuy/internal/bedsheet"
	"mediabuy/optimise"
)

// Beds is the machine-readable answer of beds.
type Beds struct {
	*bedsheet.Sheet
	Warnings []optimise.DocumentComplaint `json:"warnings"`
}
