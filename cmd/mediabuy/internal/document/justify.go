package document

// Justify is the machine-readable answer of justify.
type Justify struct {
	File     string   `json:"file"`
	Further  []string `json:"further,omitempty"` // the same report in other forms
	Currency string   `json:"currency"`
	Total    string   `json:"total"`
	Proof    string   `json:"proof"` // "optimal" or "bound"
}
