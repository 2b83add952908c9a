package document

import (
	"mediabuy/papers"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Request is the machine-readable answer of request.
type Request struct {
	Needs     []documentNeed `json:"needs"`
	Suppliers []string       `json:"suppliers"`
	Files     []string       `json:"files"`
}

type documentNeed struct {
	Site   string       `json:"site"`
	Layer  quotes.Layer `json:"layer"`
	Size   string       `json:"size"`
	Media  []string     `json:"media"`
	Litres float64      `json:"litres"`
}

func NewRequest(requests []*papers.Request) Request {
	doc := Request{}
	for _, n := range requests[0].Needs {
		doc.Needs = append(doc.Needs, documentNeed{n.Site, n.Layer, n.Size, n.Media, units.Tidy(float64(n.Litres))})
	}
	for _, r := range requests {
		doc.Suppliers = append(doc.Suppliers, r.Supplier)
	}
	return doc
}
