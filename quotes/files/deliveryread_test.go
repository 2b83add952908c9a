package files

import (
	"slices"
	"testing"

	"mediabuy/quotes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadShorthand(t *testing.T) {
	job, rep := mustRead(t, Sources{
		Quotes: text("supplier,medium,pack,price,delivery,free_over\nLow Ford,pumice,50 L,12,,\nlow ford,lava rock,50 L,12,40,300\nTansy Hill,lava rock,50 L,12,0,\n"),
		Beds:   text("bed,volume\ntub,100 L\n"),
	}, Options{})
	require.Empty(t, rep.Warnings)
	require.Len(t, job.Delivery, 2)
	d := job.Delivery[0]
	assert.Equal(t, "quotes.csv:3:28", d.Pos.String())
	assert.Equal(t, []any{"Low Ford", "", "delivered", true, true, "40", "300"},
		[]any{d.Supplier, d.Site, d.Name, d.Shorthand, d.HandlingSet, d.OrderFee.String(), d.FreeOver.String()})
	assert.Equal(t, quotes.Forms, d.Covers)
	assert.True(t, job.Delivery[1].OrderFee.IsZero())
}

// A limit of value with no fee that it could waive is delivery for nothing.
func TestReadFreeOverAlone(t *testing.T) {
	job, rep := mustRead(t, Sources{
		Quotes: text("supplier,medium,pack,price,free_over\nLow Ford,pumice,50 L,12,300\n"),
		Beds:   text("bed,volume\ntub,100 L\n"),
	}, Options{})
	require.Len(t, rep.Warnings, 1)
	assert.Equal(t, "quotes.csv:2:25", rep.Warnings[0].Pos.String())
	assert.Contains(t, rep.Warnings[0].Found, "taken to deliver free")
	require.Len(t, job.Delivery, 1)
	assert.True(t, job.Delivery[0].OrderFee.IsZero())
	assert.Equal(t, "300", job.Delivery[0].FreeOver.String())
}

// A row for a site without a bed is still a row: its supplier does not deliver free.
func TestReadSiteWithoutBed(t *testing.T) {
	job, rep := mustRead(t, Sources{
		Quotes:   text("supplier,medium,pack,price\nLow Ford,pumice,50 L,12\nTansy Hill,pumice,50 L,12\n"),
		Beds:     text("bed,volume,site\ntub,100 L,School Yard\n"),
		Delivery: text("supplier,site,order_fee\nLow Ford,Shool yard,60\nTansy Hill,school yard,70\nTansy Hill,shool  YARD,80\n"),
	}, Options{})
	var sites []string
	for _, d := range job.Delivery {
		sites = append(sites, d.Site)
	}
	assert.Equal(t, []string{"Shool yard", "School Yard", "Shool yard"}, sites)
	assert.Equal(t, []string{"School Yard"}, quotes.Sites(job))
	nowhere := slices.DeleteFunc(slices.Clone(rep.Warnings), func(p *quotes.Problem) bool { return p.Heading != "site" })
	require.Len(t, nowhere, 2)
	assert.Equal(t, `delivery.csv:2:10: site: no bed stands at "Shool yard", so the row brings nothing`, nowhere[0].Error())
	assert.Equal(t, `did you mean "School Yard"?`, nowhere[0].Hint)
	require.Len(t, rep.Warnings, 3)
	assert.Contains(t, rep.Warnings[0].Found, "Low Ford quotes in the form bag, but no delivery row brings it to School Yard")
}

// A blank handling cell takes the highest stated, so that no fee is lost.
func TestReadHandlingFilled(t *testing.T) {
	job, rep := mustRead(t, Sources{
		Quotes:   text("supplier,medium,pack,price\nLow Ford,pumice,50 L,12\n"),
		Beds:     text("bed,volume\ntub,100 L\n"),
		Delivery: text("supplier,name,handling,order_fee\nLow Ford,a,10,1\nLow Ford,b,25,1\nLow Ford,c,,1\nLow Ford,d,0,1\n"),
	}, Options{})
	assert.Len(t, rep.Warnings, 2)
	var got []string
	for _, d := range job.Delivery {
		got = append(got, d.Handling.String())
	}
	assert.Equal(t, []string{"10", "25", "25", "0"}, got)
}
