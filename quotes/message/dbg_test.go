package message

import (
	"fmt"
	"os"
	"testing"
)

func TestDbg(t *testing.T) {
	if os.Getenv("MSG") == "" {
		t.Skip()
	}
	p, err := Parse(os.Getenv("MSG"), Options{Supplier: "Low Ford"})
	fmt.Println(summary(p), err)
	for _, s := range p.Spans {
		fmt.Printf("%q %s %s %v\n", s.Words, s.Use, s.Why, s.Cells)
	}
}
