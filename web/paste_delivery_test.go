package web

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// byTheLoad is a message whose terms of delivery are more than two cells of quotes.csv can hold.
const byTheLoad = "This is Tam at Moor End. Washed lava 3/4 in, $68 a yard. Delivery $90 per load, a load is 12 yards. Minimum order $200.\n"

// Terms of delivery are shown beside the quotes, enter with them in one step and go with them in one.
func TestPasteWithTermsOfDelivery(t *testing.T) {
	for _, c := range []struct {
		name, pasted string
		change       func(url.Values)
		quotes       string // what is added to each file
		delivery     string
		see          string
	}{
		{"a fee by the load", byTheLoad, nil, ",Moor End,Washed lava,lava rock,,1 yd3,,$68,,,,3/4 in,,,,\n",
			"Moor End,,,,$90,12 yd3,,,,$200,\n", "/edit/quotes?said=added-both"},
		{"a fee for each kind of pack", "Moor End: pumice 3/8 in, 14.90 per 50 L bag. Delivery 15 for bags, 90 for loose.\n", nil, ",Moor End,pumice,pumice,bag,50 L,,14.90,,,,3/8 in,,,,\n",
			"Moor End,,bags,15,,,,,,,bag\nMoor End,,loose,90,,,,,,,bulk\n", "/edit/quotes?said=added-both"},
		{"a supplier said once for both", "Washed lava 3/4 in, $68 a yard. Haulage $4.50/yd.\n", func(f url.Values) { f.Set("supplier", "Moor End") }, ",Moor End,Washed lava,lava rock,,1 yd3,,$68,,,,3/4 in,,,,\n",
			"Moor End,,,,,,$4.50 / yd3,,,,\n", "/edit/quotes?said=added-both"},
		{"without the terms", byTheLoad, func(f url.Values) { f.Del("take.delivery.0") }, ",Moor End,Washed lava,lava rock,,1 yd3,,$68,,,,3/4 in,,,,\n", "", "/edit/quotes?said=added-quotes"},
		{"the terms alone", byTheLoad, func(f url.Values) { f.Del("take.0") }, "", "Moor End,,,,$90,12 yd3,,,,$200,\n", "/edit/delivery?said=added-delivery"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := opened(t, Options{})
			v.write(files.DeliveryFile, "supplier,site,name,order_fee,load_fee,load_volume,haul,handling,load_weight,min_order,covers\n")
			before, terms := v.read(files.QuotesFile), v.read(files.DeliveryFile)
			form := offered(t, v.paste(c.pasted, nil))
			if c.change != nil {
				c.change(form)
			}
			assert.Equal(t, before, v.read(files.QuotesFile), "nothing enters before the yes")
			assert.Equal(t, terms, v.read(files.DeliveryFile), "nothing enters before the yes")
			form.Set("op", "add")
			w := v.post("/paste/rows", form, false)
			require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
			assert.Equal(t, c.see, w.Header().Get("Location"))
			assert.Equal(t, before+c.quotes, v.read(files.QuotesFile))
			assert.Equal(t, terms+c.delivery, v.read(files.DeliveryFile))
			require.Equal(t, http.StatusSeeOther, v.post("/undo", nil, false).Code)
			assert.Equal(t, before, v.read(files.QuotesFile), "undone in one step")
			assert.Equal(t, terms, v.read(files.DeliveryFile), "undone in one step")
			assert.Equal(t, http.StatusConflict, v.post("/undo", nil, false).Code, "it was one step")
		})
	}
}

// Where one of the two files cannot be written, neither is.
func TestPasteIsWhollyWritten(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(v *visitor, dir string) // after the rows were looked at
		want  int
	}{
		{"delivery.csv was changed meanwhile", func(v *visitor, _ string) { v.write(files.DeliveryFile, "supplier,order_fee\n") }, http.StatusConflict},
		{"quotes.csv was changed meanwhile", func(v *visitor, _ string) { v.write(files.QuotesFile, v.read(files.QuotesFile)+"\n") }, http.StatusConflict},
		{"quotes.csv is a link", func(v *visitor, dir string) {
			require.NoError(v.t, os.Rename(filepath.Join(dir, files.QuotesFile), filepath.Join(dir, "elsewhere.csv")))
			require.NoError(v.t, os.Symlink("elsewhere.csv", filepath.Join(dir, files.QuotesFile)))
		}, http.StatusForbidden},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := jobFolder(t)
			v := opened(t, Options{Dir: dir})
			form := offered(t, v.paste(byTheLoad, nil))
			c.spoil(v, dir)
			before, terms := v.read(files.QuotesFile), v.read(files.DeliveryFile)
			form.Set("op", "add")
			w := v.post("/paste/rows", form, false)
			require.Equal(t, c.want, w.Code, w.Body)
			assert.Equal(t, before, v.read(files.QuotesFile))
			assert.Equal(t, terms, v.read(files.DeliveryFile))
			left, err := filepath.Glob(filepath.Join(dir, ".*"))
			require.NoError(t, err)
			assert.Empty(t, left, "nothing half written stays in the folder")
			assert.Equal(t, http.StatusConflict, v.post("/undo", nil, false).Code, "there is nothing to undo")
		})
	}
}

// Undo takes back both files or none.
func TestUndoOfTwoFilesIsWhole(t *testing.T) {
	v := opened(t, Options{})
	form := offered(t, v.paste(byTheLoad, nil))
	form.Set("op", "add")
	require.Equal(t, http.StatusSeeOther, v.post("/paste/rows", form, false).Code)
	theirs := v.read(files.DeliveryFile) + "\n"
	v.write(files.DeliveryFile, theirs)
	ours := v.read(files.QuotesFile)
	assert.Equal(t, http.StatusConflict, v.post("/undo", nil, false).Code)
	assert.Equal(t, ours, v.read(files.QuotesFile), "the other file is not taken back alone")
	assert.Equal(t, theirs, v.read(files.DeliveryFile))
}

// The problems that the rows would make are told before they are added: at the terms, and of what is in the job already.
func TestProblemsOfPastedTerms(t *testing.T) {
	v := opened(t, Options{})
	v.write(files.DeliveryFile, "supplier,load_fee\nMoor End,40\n")
	page := v.paste(byTheLoad, nil).Body.String()
	assert.NotContains(t, page, "a name of its own for each way", "ways without a name are alternatives")
	assert.Contains(t, page, `load_volume of delivery row 1</td>`, "word by word")

	v = opened(t, Options{})
	v.write(files.QuotesFile, "supplier,medium,pack,price,delivery,size\nMoor End,pumice,1 yd3,70,25,1/2 in\n")
	page = v.paste(byTheLoad, nil).Body.String()
	assert.Contains(t, page, "quotes.csv:2:", "a fee in the file and a row for it now")
	assert.Contains(t, page, "want one of the two")
}

// A table that does not know the rows for delivery.csv is refused like any other.
func TestPastedTermsAreChecked(t *testing.T) {
	v := opened(t, Options{})
	form := offered(t, v.paste(byTheLoad, nil))
	form.Set("op", "check")
	for name, value := range map[string]string{"h.delivery.0": "price", "cols.delivery": "many", "rows.delivery": "-1"} {
		bad := url.Values{}
		for k, w := range form {
			bad[k] = w
		}
		bad.Set(name, value)
		assert.Equal(t, http.StatusBadRequest, v.post("/paste/rows", bad, false).Code, name)
	}
	v = opened(t, Options{ReadOnly: true})
	form = offered(t, v.paste(byTheLoad, nil))
	form.Set("op", "add")
	assert.Equal(t, http.StatusForbidden, v.post("/paste/rows", form, false).Code)
}
