package web

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"mediabuy/quotes/files/jobtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/papers/received"
	"mediabuy/quotes/files"
)

// multi sends a form with files: a field whose name ends in .csv is a file of the field before the dot.
func (v *visitor) multi(path string, fields [][2]string) *httptest.ResponseRecorder {
	v.t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for _, f := range fields {
		if field, ok := strings.CutSuffix(f[0], ".csv"); ok {
			w, err := m.CreateFormFile(field, f[0])
			require.NoError(v.t, err)
			_, err = w.Write([]byte(f[1]))
			require.NoError(v.t, err)
			continue
		}
		require.NoError(v.t, m.WriteField(f[0], f[1]))
	}
	require.NoError(v.t, m.Close())
	r := v.request("POST", path, &b)
	r.Header.Set("Content-Type", m.FormDataContentType())
	return v.do(r)
}

// What came is typed beside what was ordered, or read from the sheet for the gate; the letter says what is short. The
// job's files stay as they are.
func TestReceive(t *testing.T) {
	v := opened(t, Options{})
	before, err := v.h.folder.Read()
	require.NoError(t, err)
	v.get("/part/strip")
	page := v.get("/receive")
	gate := linksTo(t, page, "/papers/gate/")
	require.Len(t, gate, 3*2+1, "a sheet for each supplier as PDF and CSV, and all of them")
	assert.Contains(t, page, "6.5 × 1 short ton")

	w := v.multi("/receive", nil)
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "Nothing is counted yet")

	// All gravel and shale came, of 41 bags 38, of which 2 were torn.
	typed := [][2]string{{"day", "2026-05-05"}, {"came.0", "6.5"}, {"came.1", "38 bags"}, {"refused.1", "2"}, {"note.1", "torn"}, {"came.2", "2"}}
	w = v.multi("/receive", typed)
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	page = w.Body.String()
	assert.Contains(t, page, "No order was named, so today's plan stands for the order.")
	assert.Contains(t, page, "at the quotes that hold on 2026-05-05; what is there is counted as paid for and what is missing as not coming.")
	assert.Contains(t, page, "41 × 50 L bag ordered, 38 came. Refused: 2 (torn). Short by 5")
	assert.Contains(t, page, "letter-tansy-hill-supply.pdf")
	assert.NotContains(t, page, "letter-low-ford")
	w = v.multi("/receive/letter/letter-tansy-hill-supply.pdf", typed)
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.True(t, strings.HasPrefix(w.Body.String(), "%PDF"))
	assert.Contains(t, w.Header().Get("Content-Disposition"), "letter-tansy-hill-supply.pdf")
	assert.Equal(t, http.StatusNotFound, v.multi("/receive/letter/letter-low-ford-quarry.pdf", typed).Code)

	// A bill is held against the order: 6.5 tons at 56.00 in place of 54.00.
	billed := v.multi("/receive", append(slices.Clone(typed), [2]string{"billed.0", "$56"})).Body.String()
	assert.Contains(t, billed, "Before tax the bills ask for $13.00 more than was agreed for what was kept.")
	assert.Contains(t, billed, "$56.00 each on the bill, $54.00 each in the order, for the 6.5 × 1 short ton that we kept")
	assert.NotContains(t, page, "What was billed")

	// The same from files: the order as it was sent and the sheet filled in, which go along with the next request.
	v.get("/papers")
	order := v.do(v.request("GET", "/papers/order/order-tansy-hill-supply.csv", nil)).Body.String()
	sheet := v.do(v.request("GET", "/papers/gate/gate-tansy-hill-supply.csv", nil)).Body.String()
	filled := strings.Replace(sheet, "pebbles-50,,,,,,", "pebbles-50,,38,,2,2026-05-05,torn", 1)
	require.NotEqual(t, sheet, filled)
	w = v.multi("/receive", [][2]string{{"orders.csv", order}, {"counts.csv", filled}})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	page = w.Body.String()
	assert.NotContains(t, page, "No order was named")
	assert.Contains(t, page, "41 × 50 L bag ordered, 38 came. Refused: 2 (torn). Short by 5")
	assert.Contains(t, page, "counts.csv goes along.")
	w = v.multi("/receive/letter/letter-tansy-hill-supply.pdf", [][2]string{{"orders.name", "o.csv"}, {"orders.text", order}, {"counts.name", "c.csv"}, {"counts.text", filled}})
	require.Equal(t, http.StatusOK, w.Code, w.Body)

	// What cannot be read is told at its row, or by its file and place.
	w = v.multi("/receive", [][2]string{{"came.1", "many"}, {"counts.csv", sheet}})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), `aria-invalid="true"`)
	assert.Contains(t, w.Body.String(), "counts.csv:3:")
	w = v.multi("/receive", [][2]string{{"orders.csv", order}, {"orders.csv", order}, {"came.1", "1"}})
	assert.Contains(t, w.Body.String(), "is read from orders.csv:2 already")
	after, err := v.h.folder.Read()
	require.NoError(t, err)
	assert.Equal(t, before, after)
}

// Orders that lie in the job's folder stand for the order, those of one thing told apart by their numbers; what is left
// empty is under way, and 0 says that it is not coming. 41 bags at 23.00 and two shale sacks are ordered, and 5 more
// bags at 29.50.
func TestReceiveAgainstOrdersThatLieThere(t *testing.T) {
	dir := jobFolder(t)
	v := opened(t, Options{Dir: dir})
	v.get("/part/strip")
	v.get("/papers")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "orders"), 0o755))
	lay := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "orders", name), []byte(text), 0o644))
	}
	for _, name := range []string{"order-tansy-hill-supply.csv", "order-wick-lane-stores.csv"} {
		lay(name, v.do(v.request("GET", "/papers/order/"+name, nil)).Body.String())
	}
	lay("more.csv", strings.Join(received.OrderHeads, ",")+"\n2026-05-01/1,Tansy Hill Supply,,2026-06-01,goods,pebbles-50,,,,5,,29.50,,147.50,USD\n")
	page := v.get("/receive")
	assert.Contains(t, page, "the orders in the job's folder")
	assert.NotContains(t, page, "6.5 × 1 short ton", "the gravel is on none of them")
	assert.Contains(t, page, "pebbles-50, order 2026-05-01/1")
	typed := [][2]string{{"day", "2026-05-05"}, {"came.0", "41"}, {"came.1", "0"}}
	w := v.multi("/receive", typed)
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	page = w.Body.String()
	assert.Contains(t, page, "No order was named, so those in the job's folder stand.")
	assert.Contains(t, page, "<h2 id=\"h-coming\">Under way</h2>")
	assert.Contains(t, page, "2026-06-01")
	assert.Contains(t, page, "what is there or under way is counted as paid for")
	assert.Contains(t, page, "letter-wick-lane-stores.pdf")
	assert.NotContains(t, page, "letter-tansy-hill")

	// What finishes the beds can be ordered, numbered on from what lies there. 41 + 5 bags are there or under way.
	name := regexp.MustCompile(`/receive/order/(order-wick-lane-stores-[0-9-]+[.]csv)`).FindStringSubmatch(page)
	require.NotNil(t, name, page)
	assert.Equal(t, "order-wick-lane-stores-2026-05-05-2.csv", name[1])
	w = v.multi(name[0], typed)
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.Contains(t, w.Body.String(), "\n2026-05-05/2,Wick Lane Stores,,,goods,shale-sack,")
	// The same is kept on a button, with the gravel that the first order left out: all of them and not twice.
	shown := regexp.MustCompile(`name="state" value="([0-9a-f]+)"`).FindStringSubmatch(page[strings.Index(page, "To finish the beds"):])
	require.NotNil(t, shown, page)
	keep := append(slices.Clone(typed), [2]string{"state", shown[1]})
	before, err := os.ReadDir(filepath.Join(dir, "orders"))
	require.NoError(t, err)
	assert.Equal(t, http.StatusConflict, v.multi("/receive/keep", append(slices.Clone(typed), [2]string{"state", "x"})).Code)
	kept := v.multi("/receive/keep", keep)
	require.Equal(t, http.StatusSeeOther, kept.Code, kept.Body)
	assert.Equal(t, w.Body.String(), v.read("orders/"+name[1]), "as it was handed out")
	assert.FileExists(t, filepath.Join(dir, "orders", "order-low-ford-quarry-2026-05-05-1.pdf"))
	assert.Contains(t, v.get("/receive?said=kept-more"), "orders that finish the beds lie in the folder")
	assert.Equal(t, http.StatusConflict, v.multi("/receive/keep", keep).Code, "the lines are others by now")
	require.Equal(t, http.StatusSeeOther, v.post("/undo", url.Values{"back": {"/receive"}}, false).Code)
	after, err := os.ReadDir(filepath.Join(dir, "orders"))
	require.NoError(t, err)
	assert.Len(t, after, len(before))

	// With it in the folder the sacks are under way, and the gravel is still to buy.
	lay(name[1], w.Body.String())
	page = v.multi("/receive", typed).Body.String()
	assert.NotContains(t, page, "/receive/order/order-wick")
	assert.Contains(t, page, "/receive/order/order-low-ford-quarry-2026-05-05-1.csv")

	// Today's plan, ordered under Papers, takes no number of an order that says something else.
	lay("more.csv", strings.Join(received.OrderHeads, ",")+"\n2026-04-06/1,Tansy Hill Supply,,2026-06-01,goods,pebbles-50,,,,5,,29.50,,147.50,USD\n")
	order := v.do(v.request("GET", "/papers/order/order-low-ford-quarry.csv", nil)).Body.String()
	assert.Contains(t, order, "\n2026-04-06/4,")
}

// Where today's plan stands for the order, what finishes the beds is not kept without it: the first orders would be
// forgotten.
func TestFinishIsNotKeptWithoutTheFirstOrders(t *testing.T) {
	v := opened(t, Options{Dir: jobFolder(t)})
	v.get("/part/strip")
	typed := [][2]string{{"day", "2026-05-05"}, {"came.0", "1"}}
	page := v.multi("/receive", typed).Body.String()
	require.Contains(t, page, "/receive/order/order-")
	assert.NotContains(t, page, "/receive/keep")
	w := v.multi("/receive/keep", append(typed, [2]string{"state", "x"}))
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), "the first would be forgotten")
	assert.NoDirExists(t, filepath.Join(v.h.opt.Dir, "orders"))
}

// What a job asks for in sureness is kept when its beds are finished, as the command keeps it: see receive_sure.txtar there.
// 10 bags more are enough in 94 of 100 cases, 7 at what bags usually hold.
func TestReceiveKeepsTheSurenessAsked(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		files.QuotesFile: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", files.BedsFile: "bed,volume\none,970 L\n",
		files.MediaFile:    "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\ngrit,1 kg/L,0,0,smooth,none,no,0%,0%\n",
		files.SettingsFile: "currency = \"USD\"\ndate = 2026-04-06\nsure = \"90%\"\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	v := opened(t, Options{Dir: dir})
	v.get("/part/strip")
	page := v.multi("/receive", [][2]string{{"came.0", "90"}}).Body.String()
	assert.Contains(t, page, "Pay $20.00 more")
	assert.Contains(t, page, "Every bed is then full in 94 of 100 cases; 90 are asked for.")
}

// A sheet for the next talk is there for every supplier who has quoted, and is made when it is asked for.
func TestTalkSheets(t *testing.T) {
	jobtest.Long(t)
	v := opened(t, Options{})
	v.get("/part/strip")
	links := linksTo(t, v.get("/papers"), "/papers/talk/")
	require.Len(t, links, 3*2+1)
	w := v.do(v.request("GET", links[1], nil))
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.True(t, strings.HasPrefix(w.Body.String(), "supplier,what,item,pack,price"), w.Body)
	assert.Contains(t, w.Body.String(), "at a lower price")
	w = v.do(v.request("GET", links[0], nil))
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.True(t, strings.HasPrefix(w.Body.String(), "%PDF"))
}

// The orders of the plan are kept in the job's folder on a button, all of them and once; what is left empty is then under
// way. Another order of such a name is never written over, nor is anything kept of a plan that is no longer the one shown.
func TestKeepOrders(t *testing.T) {
	dir := jobFolder(t)
	v := opened(t, Options{Dir: dir})
	v.get("/part/strip")
	page := v.get("/papers")
	assert.Contains(t, page, "Keep these orders in the job's folder")
	assert.Contains(t, v.get("/receive"), `keep them in the job's folder under Papers</a> first`)
	state := func() url.Values {
		found := regexp.MustCompile(`name="state" value="([0-9a-f]+)"`).FindStringSubmatch(v.get("/papers"))
		require.NotNil(t, found)
		return url.Values{"state": {found[1]}}
	}
	shown := state()
	assert.Equal(t, http.StatusConflict, v.post("/papers/order/keep", url.Values{"state": {"x"}}, false).Code)
	assert.NoDirExists(t, filepath.Join(dir, "orders"))

	const theirs = "orders/order-wick-lane-stores.csv"
	require.NoError(t, os.Mkdir(filepath.Join(dir, "orders"), 0o755))
	v.write(theirs, strings.Join(received.OrderHeads, ",")+"\n2026-04-01/1,Wick Lane Stores,,2026-06-01,goods,shale-sack,,,,5,,29.50,,147.50,USD\n")
	assert.Contains(t, v.get("/papers"), "There lies as well: order 2026-04-01/1 to Wick Lane Stores.")
	w := v.post("/papers/order/keep", shown, false)
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), theirs)
	list, err := os.ReadDir(filepath.Join(dir, "orders"))
	require.NoError(t, err)
	assert.Len(t, list, 1, "all of them or none")
	require.NoError(t, os.Remove(filepath.Join(dir, theirs)))

	order := v.do(v.request("GET", "/papers/order/order-tansy-hill-supply.csv", nil)).Body.String()
	w = v.post("/papers/order/keep", shown, false)
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	assert.Equal(t, order, v.read("orders/order-tansy-hill-supply.csv"), "as it was handed out")
	assert.FileExists(t, filepath.Join(dir, "orders", "order-tansy-hill-supply.pdf"))
	page = v.get("/papers?said=kept")
	assert.Contains(t, page, "These orders lie in the folder “orders” of the job")
	assert.NotContains(t, page, "Keep these orders")
	assert.Contains(t, v.get("/receive"), "What is left empty is still to come")
	w = v.multi("/receive", [][2]string{{"day", "2026-04-10"}, {"came.0", "6.5"}})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.Contains(t, w.Body.String(), "Under way")
	assert.NotContains(t, w.Body.String(), "letter-tansy-hill", "a late delivery is no complaint")
	require.Equal(t, http.StatusSeeOther, v.post("/papers/order/keep", shown, false).Code, "twice is once")

	require.Equal(t, http.StatusSeeOther, v.post("/undo", url.Values{"back": {"/papers"}}, false).Code)
	assert.NoFileExists(t, filepath.Join(dir, "orders", "order-tansy-hill-supply.csv"))
}
