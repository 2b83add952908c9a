package papers

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"mediabuy/optimise/bill"
	"mediabuy/units"
)

// tool finds a program of another maker that checks a paper. Where it is not
// installed the test is skipped, except under CI.
func tool(t *testing.T, name, debian string) string {
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("CI") != "true" {
		t.Skipf("%s is not installed (Debian: %s)", name, debian)
	}
	require.NoError(t, err)
	return path
}

// LibreOffice opens the report's spreadsheet and works the bill out again; in a
// second copy one price to try is changed, and it must come to the bill at the new price.
func TestLibreOfficeComesToTheSameBill(t *testing.T) {
	office := tool(t, "soffice", "libreoffice-calc-nogui")
	job, _ := gardens.job(t)
	items := []bill.Item{{Quote: named(t, job, "pebbles"), Site: "north", Steps: 22}, {Quote: named(t, job, "lava"), Site: "south", Steps: 3}, {Quote: named(t, job, "gravel"), Site: "north", Steps: 5}}
	plan := bought(t, job, items...)
	dir := t.TempDir()
	text := written(t, Input{Plan: plan}, asXLSX)

	// The stored results are taken out, so that every number has to be worked out.
	f, err := excelize.OpenReader(bytes.NewReader(text))
	require.NoError(t, err)
	require.NoError(t, f.UpdateLinkedValue())
	require.NoError(t, f.SaveAs(filepath.Join(dir, "same.xlsx")))
	rows, err := f.GetRows("Prices", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	changed := false
	for i, row := range rows {
		if len(row) > priceTry && row[priceTry] == "48.335" {
			at, err := excelize.CoordinatesToCellName(priceTry+1, i+1)
			require.NoError(t, err)
			require.NoError(t, f.SetCellFloat("Prices", at, 51.115, -1, 64))
			changed = true
		}
	}
	require.True(t, changed, "the price of gravel stands on the sheet of prices")
	require.NoError(t, f.SaveAs(filepath.Join(dir, "dearer.xlsx")))
	named(t, job, "gravel").Price = units.M("51.115")
	dearer := bought(t, job, items...)
	require.NotEqual(t, plan.Bill.Total.Text(2), dearer.Bill.Total.Text(2))

	// Every sheet as CSV, numbers unformatted: the filter's tokens are documented at
	// https://help.libreoffice.org/latest/en-US/text/shared/guide/csv_params.html (memory).
	cmd := exec.Command(office, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", dir, filepath.Join(dir, "same.xlsx"), filepath.Join(dir, "dearer.xlsx"))
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	for name, want := range map[string]*bill.Bill{"same": plan.Bill, "dearer": dearer.Bill} {
		got := map[string]string{}
		file, err := os.Open(filepath.Join(dir, name+"-Bill.csv"))
		require.NoError(t, err)
		defer file.Close()
		r := csv.NewReader(file)
		r.FieldsPerRecord = -1
		lines, err := r.ReadAll()
		require.NoError(t, err)
		for _, l := range lines {
			if len(l) > billAmount && l[billAmount] != "" && l[billSupplier] != "" {
				got[l[billSupplier]+l[billWhat]] = l[billAmount]
			}
		}
		for word, m := range map[string]units.Money{"Total": want.Total, "of which goods": want.Goods, "of which delivery": want.Delivery, "of which tax": want.Tax,
			"Tansy Hill SupplyTax": want.TaxOf["Tansy Hill Supply"], "own timeRinsing, by the hour": want.Rinsing} {
			d, err := units.ParsePlainDecimal(got[word])
			require.NoError(t, err, "%s of %s", word, name)
			assert.Equal(t, m.Text(2), d.Text(2), "%s of %s", word, name)
			assert.InDelta(t, m.Float(), d.Float(), 1e-9, "%s of %s is rounded, not only shown so", word, name)
		}
	}
}
