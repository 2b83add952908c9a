package plaintext_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes/internal/plaintext"
)

func TestAnswered(t *testing.T) {
	const below = "\n____\nFrom: Jo Medina\nSent: Tuesday, April 28, 2026 7:51 AM\nTo: Ray Pell\nSubject: lava\n\nRay, what is lava? Budget is $600."
	for above, want := range map[string]string{
		"Jo,\n\nlava is $88 a yard.\n\nRay":      "\nRay, what is lava? Budget is $600.",
		"Hi Jo, lava is $88 a yard.\n\nRay":      "\nRay, what is lava? Budget is $600.",
		"Hello Jo!\nlava is $88 a yard.\n\nRay":  "\nRay, what is lava? Budget is $600.",
		"Hello Tam,\nlava is $88 a yard.\n\nRay": "", // somebody else's offer may stand below
		"lava is $88 a yard.\n\nRay":             "",
	} {
		var got strings.Builder
		for _, at := range plaintext.Answered(above + below) {
			got.WriteString((above + below)[at[0]:at[1]])
		}
		assert.Equal(t, want, got.String(), above)
	}
}
