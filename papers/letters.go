package papers

import (
	"mediabuy/papers/page"
	"mediabuy/quotes"
)

// LettersLacking are the letters of a job's names and words that a PDF cannot set; ""
// where it can set all. Papers of such a job are written as pages too.
func LettersLacking(job *quotes.Job) string {
	words := &page.List{}
	say := func(list ...string) { words.Items = append(words.Items, list...) }
	b := job.Settings.Buyer
	say(b.Name, b.Phone, b.Email, b.Address)
	for site, spot := range b.Sites {
		say(site, spot.Drop, spot.Access)
	}
	for _, q := range job.Quotes {
		say(q.Name, q.Supplier, q.Item, q.Medium.Name, q.Pack.Raw, q.Size.Raw)
	}
	for _, d := range job.Delivery {
		say(d.Supplier, d.Site, d.Name)
	}
	for _, b := range job.Beds {
		say(b.Name, b.Site, b.Table)
	}
	say(quotes.Members(job)...)
	p := &page.Page{Sections: []page.Section{{Blocks: []page.Block{words}}}}
	return p.Lacks()
}
