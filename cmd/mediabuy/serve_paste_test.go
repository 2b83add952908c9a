package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A yard's message brings quotes and terms of delivery: both are shown, corrected in place, saved by one yes and taken
// back by one undo.
func TestServePasteBringsDeliveryToo(t *testing.T) {
	dir := sampleJob(t)
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		return string(data)
	}
	quotesBefore, deliveryBefore := read("quotes.csv"), read("delivery.csv")
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 900)
	b.complaints()
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"paste"))
	b.until(`document.querySelector(".strip .total")`)
	b.fill("pasted", "this is Sam at Moor End. Washed lava 3/4 in, $68 a yard. Delivery $90 per load, a load is 12 yards. Minimum order $200.")
	b.do(chromedp.Click(`//button[text()="Read it"]`))
	b.until(`document.getElementById("v.delivery.0.0")`)
	assert.Equal(t, "Moor End", eval[string](b, `document.getElementById("v.0.0").value`))
	assert.Equal(t, "Moor End", eval[string](b, `document.getElementById("v.delivery.0.0").value`))
	assert.Contains(t, b.text("confirm"), "Yes, add 1 row to quotes.csv and 1 row to delivery.csv")
	b.shoot("confirm-delivery-1280")
	b.size(390, 800)
	assert.LessOrEqual(t, eval[float64](b, `document.documentElement.scrollWidth`), 390.0, "nothing sticks out on a phone")
	b.shoot("confirm-delivery-390")
	b.size(1280, 900)

	fee := eval[string](b, `document.querySelector('[aria-label="load_fee of pasted delivery row 1"]').id`)
	b.fill(fee, "$9O")
	b.until(`document.querySelector("#confirm [aria-invalid]")`)
	assert.Contains(t, b.text("confirm"), `"$9O" is not`, "a bad cell of the terms is told in the words of check")
	b.fill(fee, "$95")
	b.until(`!document.querySelector("#confirm [aria-invalid]")`)
	assert.Equal(t, quotesBefore, read("quotes.csv"), "nothing enters the job before the yes")
	assert.Equal(t, deliveryBefore, read("delivery.csv"), "nothing enters the job before the yes")

	b.do(chromedp.Click(`//button[@value="add"]`))
	b.until(`document.getElementById("sheet") && document.body.innerText.includes("The rows are in quotes.csv and delivery.csv.")`)
	b.until(`document.querySelector(".strip .total")`)
	added := strings.TrimPrefix(read("quotes.csv"), quotesBefore)
	assert.Contains(t, added, ",Moor End,Washed lava,lava rock,")
	terms := strings.Split(strings.TrimSpace(read("delivery.csv")), "\n")
	assert.Contains(t, terms[len(terms)-1], "Moor End,")
	assert.Contains(t, terms[len(terms)-1], "$95,12 yd3")
	status, _, stderr := runHere(t.Context(), "check", dir)
	require.Equal(t, exitDone, status, stderr)

	b.do(chromedp.Click(`#undo button`))
	b.until(`document.body.innerText.includes("Undone.")`)
	assert.Equal(t, quotesBefore, read("quotes.csv"))
	assert.Equal(t, deliveryBefore, read("delivery.csv"))
}

// A message that reads in two ways is answered by a click, on a desk and on a phone: nothing of it is ticked before.
func TestServePasteAsksByClick(t *testing.T) {
	dir := sampleJob(t)
	read := func() string {
		data, err := os.ReadFile(filepath.Join(dir, "quotes.csv"))
		require.NoError(t, err)
		return string(data)
	}
	before := read()
	b := browser(t)
	link := serving(t, dir)
	b.size(1280, 900)
	b.complaints()
	b.do(chromedp.Navigate(link), chromedp.Navigate(strings.SplitN(link, "?", 2)[0]+"paste"))
	b.until(`document.querySelector(".strip .total")`)
	b.fill("pasted", "This is Sam at Moor End. Washed lava 3/4 in, $68 a yard, over 10 yards 61.\nPumice 2 cu ft bags, pallet of 40 for $480. Basalt is about $52 a ton while it lasts, $55 after.")
	b.do(chromedp.Click(`//button[text()="Read it"]`))
	b.until(`document.getElementById("questions")`)
	assert.Contains(t, b.text("questions"), "3 questions before this can enter")
	assert.Equal(t, 0, eval[int](b, `document.querySelectorAll("#confirm input[type=checkbox]:checked").length`), "no row with an open question is ticked")
	b.shoot("questions-1280")
	b.size(390, 800)
	assert.LessOrEqual(t, eval[float64](b, `document.documentElement.scrollWidth`), 390.0, "nothing sticks out on a phone")
	b.shoot("questions-390")
	b.size(1280, 900)

	b.do(chromedp.Click(`//button[text()="from 11"]`))
	b.until(`document.getElementById("questions")?.innerText.includes("2 questions before this can enter")`)
	b.do(chromedp.Click(`//button[text()="leave it out"]`))
	b.until(`document.getElementById("questions")?.innerText.includes("1 question before this can enter")`)
	b.do(chromedp.Click(`//button[text()="one pack of 40"]`))
	b.until(`document.getElementById("questions")?.innerText.includes("All questions are answered")`)
	assert.Equal(t, before, read(), "nothing enters the job before the yes")
	b.until(`document.querySelectorAll("#confirm input[type=checkbox]:checked").length == 2`)
	b.do(chromedp.Click(`//button[@value="add"]`))
	b.until(`document.getElementById("sheet")`)
	added := strings.TrimPrefix(read(), before)
	assert.Contains(t, added, "11: 61")
	assert.Contains(t, added, "80 cu ft")
	assert.NotContains(t, added, "52", "what was left out enters nothing")
}
