package quotes

import "strings"

// ItemWords is what a supplier calls a thing, and what it is where its words do not say.
func (q *Quote) ItemWords() string {
	switch {
	case q.Item == "":
		return q.Medium.Name
	case strings.Contains(strings.ToLower(q.Item), strings.ToLower(q.Medium.Name)):
		return q.Item
	}
	return q.Item + " (" + q.Medium.Name + ")"
}
