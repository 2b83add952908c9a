package share

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// every is a random job of three members with every kind of term, on two sites.
func every(seed uint64) *quotes.Job {
	s := randjob.All(2, 2, 5, 4)
	s.Members, s.Counts = 3, seed%3 == 0
	return randjob.Job(seed, s)
}

// small is a random job of four members with plain terms.
func small(seed uint64) *quotes.Job {
	s := randjob.Simple(3, 8, 6)
	s.Members = 4
	job := randjob.Job(seed, s)
	if seed%2 == 0 { // some beds shared
		b := job.Beds[0]
		b.Member = append(b.Member, quotes.Part{Member: "member D", Parts: units.DecimalFromInt(2)})
	}
	return job
}

const seeds = 8

// Every group's cost is that of its own job solved from nothing, every split
// adds up to the cent, and every split is tested against every group by adding up
// here what the library says of it.
func TestRandomJobs(t *testing.T) {
	jobtest.Long(t)
	few := jobtest.Seeds(seeds/2, seeds)
	ctx := context.Background()
	for seed := range 2 * few {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			job := small(seed)
			if seed >= few {
				job = every(seed)
			}
			res := solve(t, job, Options{})
			if res.Plan.Bill == nil {
				return
			}
			c, err := newClub(job)
			require.NoError(t, err)
			cost := map[string]*units.Money{}
			for g := costgame.Group(1); g < c.all(); g++ {
				p, err := optimise.Solve(ctx, c.groupJob(g), optimise.Options{CutOff: noCutOff})
				require.NoError(t, err)
				if p.Bill != nil {
					cost[storeKey(c.list(g))] = &p.Bill.Total
				}
			}
			require.Len(t, res.Groups, int(c.all())-1)
			for _, g := range res.Groups {
				want := cost[storeKey(g.Members)]
				if want == nil || g.Cost == nil {
					require.Equal(t, want, g.Cost, "%v", g.Members)
					continue
				}
				// Two orders that the search holds for equal may be rounded apart.
				require.InDelta(t, want.Float(), g.Cost.Float(), 0.011+mostRounding(res), "%v", g.Members)
			}
			for _, sp := range res.Splits {
				require.Equal(t, res.Total.String(), sum(sp.Pays).String(), "%s", sp.Rule)
				assertTested(t, res, sp)
			}
			if nucleolus := by(t, res, Nucleolus); !nucleolus.Stable {
				for _, sp := range res.Splits {
					assert.False(t, sp.Stable, "%s would keep every group, so the nucleolus should", sp.Rule)
				}
			}
		})
	}
}

// mostRounding is what the rounding of lines can move a bill by: half a cent
// for each line, drop and tax of a bill of any size here.
func mostRounding(res *Result) float64 {
	b := res.Plan.Bill
	return 0.005 * float64(len(b.Lines)+len(b.Drops)+len(b.TaxOf)+1)
}

// assertTested holds the objections of a split against every group.
func assertTested(t *testing.T, res *Result, sp Split) {
	t.Helper()
	at := map[string]units.Money{}
	for i, m := range res.Members {
		at[m.Name] = sp.Pays[i]
	}
	said := map[string]string{}
	for _, o := range sp.Objections {
		said[storeKey(o.Members)] = o.By.String()
	}
	odd := units.MoneyOf(units.DecimalFromInt(int64(len(res.Members)))).Times(units.D("0.01"))
	for _, g := range res.Groups {
		if g.Cost == nil {
			assert.NotContains(t, said, storeKey(g.Members))
			continue
		}
		var pay units.Money
		for _, name := range g.Members {
			pay = pay.Add(at[name])
		}
		more := pay.Sub(*g.Cost)
		switch text, ok := said[storeKey(g.Members)]; {
		case ok:
			assert.Equal(t, more.String(), text)
			assert.Positive(t, more.Sign())
		default:
			assert.Negative(t, more.Cmp(odd), "%v pay %s more than alone by %s and nobody says so", g.Members, more, sp.Rule)
		}
	}
	assert.Equal(t, len(said) == 0, sp.Stable)
}

// Where terms allow separate orders, one order is never dearer than two: each
// group's cost is at most the sum of any two parts, to the cents of rounding. The
// jobs have no stock limits, no counts and one way to deliver, which are the
// exceptions.
func TestPooledIsNeverDearer(t *testing.T) {
	for seed := range uint64(seeds) {
		s := randjob.Simple(3, 8, 6)
		s.Members, s.Stock = 4, false
		job := randjob.Job(seed, s)
		c, err := newClub(job)
		require.NoError(t, err)
		cost := map[costgame.Group]float64{}
		for g := costgame.Group(1); g <= c.all(); g++ {
			p, err := optimise.Solve(context.Background(), c.groupJob(g), optimise.Options{CutOff: noCutOff})
			require.NoError(t, err)
			if p.Bill != nil {
				cost[g] = p.Bill.Total.Float()
			}
		}
		for g := range cost {
			for a := (g - 1) & g; a != 0; a = (a - 1) & g {
				x, okX := cost[a]
				y, okY := cost[g&^a]
				if okX && okY {
					assert.LessOrEqual(t, cost[g], x+y+0.15, "seed %d: %v together cost more than %v and %v", seed, c.list(g), c.list(a), c.list(g&^a))
				}
			}
		}
	}
}

// The exceptions, each by hand; Apart says what separate orders would come to.
func TestPooledDearer(t *testing.T) {
	bedsCSV := "bed,volume,member\nb1,100 L,ash\nb2,100 L,birch\n"
	for _, c := range []struct {
		name, quotes, delivery, settings string
		total, apart                     string
	}{
		{
			// 100 L at 1.00 are in stock, the rest at 3.00. Each alone takes the cheap
			// ones; together 100 + 300.
			name: "stock", total: "400.00", apart: "200.00",
			quotes: "quote,supplier,medium,form,pack,price,max_qty,size,carbonate\ncheap,Tor Yard,expanded clay,bag,1 L,1.00,100,8-16 mm,none\n" +
				"dear,Tor Yard,expanded clay,bag,1 L,3.00,,8-16 mm,none\n",
		},
		{
			// Each of two suppliers has 100 L at 1.00, and one order may name one: the
			// other 100 L cost 3.00.
			name: "one supplier an order", total: "400.00", apart: "200.00", settings: "max_suppliers = 1\n",
			quotes: "quote,supplier,medium,form,pack,price,max_qty,size,carbonate\ncheap,Tor Yard,expanded clay,bag,1 L,1.00,100,8-16 mm,none\n" +
				"dear,Tor Yard,expanded clay,bag,1 L,3.00,,8-16 mm,none\nother,Ness Yard,expanded clay,bag,1 L,1.00,100,8-16 mm,none\n",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			res := solve(t, read(t, c.quotes, bedsCSV, c.delivery, c.settings), Options{})
			assert.Equal(t, c.total, res.Total.Text(2))
			require.NotNil(t, res.Apart)
			assert.Equal(t, c.apart, res.Apart.Total.Text(2))
			assert.Equal(t, [][]string{{"ash"}, {"birch"}}, res.Apart.Orders)
			assert.False(t, res.Chosen.Stable)
			assert.Contains(t, res.Chosen.Reason, "No split keeps every group from doing better alone")
		})
	}
}

// Two ways to one site: alone, the small plot takes the van and the large one the
// truck; one order must choose.
func TestPooledDearerByWays(t *testing.T) {
	// van: 10, one load of 50 L each 10; truck: 50. Small 50 L: 50 + 20 = 70;
	// large 400 L: 400 + 50 = 450. Together the truck: 450 + 50 = 500 < 520. So the
	// truck is barred to the small one's goods by its volume: a load of 400 L costs
	// 50 more, 450 L need two: 450 + 100 = 550, or van 450 + 10 + 90 = 550.
	res := solve(t, read(t, litreQuotes, "bed,volume,member\nb1,50 L,ash\nb2,400 L,birch\n",
		"supplier,name,order_fee,load_fee,load_volume\nTor Yard,van,10,10,50 L\nTor Yard,truck,0,50,400 L\n", ""), Options{})
	assert.Equal(t, "550.00", res.Total.Text(2))
	require.NotNil(t, res.Apart)
	assert.Equal(t, "520.00", res.Apart.Total.Text(2))
}

// The answer does not depend on how many groups are solved at once.
func TestWorkers(t *testing.T) {
	one := NewDocument(solve(t, small(3), Options{Workers: 1}), Nucleolus, nil)
	four := NewDocument(solve(t, small(3), Options{Workers: 4}), Nucleolus, nil)
	assert.Equal(t, one, four)
}

// Four equal plots: after the pooled order one solve serves every group of a size.
func TestAlikeGroupsAreSolvedOnce(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,member\nb1,100 L,ash\nb2,100 L,birch\nb3,100 L,cedar\nb4,100 L,dogwood\n", vanDelivery, "")
	c, err := newClub(job)
	require.NoError(t, err)
	l, err := newLikeness(c)
	require.NoError(t, err)
	words := map[string]bool{}
	for g := costgame.Group(1); g <= c.all(); g++ {
		words[l.word(g)] = true
	}
	assert.Len(t, words, 4)
	res := solve(t, job, Options{})
	assert.Equal(t, []string{"107.50", "107.50", "107.50", "107.50"}, pays(res.Chosen))

	// A bed of another depth, site or medium is not alike.
	other := read(t, litreQuotes, "bed,volume,only,member\nb1,100 L,expanded clay,ash\nb2,100 L,,birch\n", vanDelivery, "")
	c, err = newClub(other)
	require.NoError(t, err)
	l, err = newLikeness(c)
	require.NoError(t, err)
	assert.NotEqual(t, l.word(1), l.word(2))
}
