package document

// Justify is the machine-readable answer of justify.
type Justify struct {
	File     string `json:"file"`
	Currency string `json:"currency"`
	Total    string `json:"total"`
	Proof    string `json:"proof"` // "optimal" or "bound"
}
