package share

import (
	"fmt"
	"slices"

	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
	"mediabuy/units"
)

// NoMembersError says that a job names nobody to share its bill.
type NoMembersError struct{}

func (NoMembersError) Error() string {
	return "no bed names a member, so there is nobody to share the bill"
}

// club is the members of a job and what each owns.
type club struct {
	job    *quotes.Job
	names  []string             // sorted
	owns   [][]float64          // by bed, then member: the share of the bed, 0 to 1
	holds  []costgame.Group     // by bed: the members with a share
	litres []units.Litres       // by bed: placed, all of its count, spare volume left out
	tables map[string]tableRoom // tables with a limit
}

// tableRoom is what the beds of one table have together.
type tableRoom struct {
	litres float64
	own    float64 // kg of frames, liners and plants
	limit  float64 // kg
}

func newClub(job *quotes.Job) (*club, error) {
	c := &club{job: job, tables: map[string]tableRoom{}}
	for _, b := range job.Beds {
		for _, p := range b.Member {
			if !slices.Contains(c.names, p.Member) {
				c.names = append(c.names, p.Member)
			}
		}
	}
	slices.Sort(c.names)
	switch n := len(c.names); {
	case n == 0:
		return nil, NoMembersError{}
	case n > costgame.MaxPlayers:
		return nil, fmt.Errorf("%d members share the bill, want at most %d: let some of them be named together", n, costgame.MaxPlayers)
	}
	for _, b := range job.Beds {
		if len(b.Member) == 0 {
			return nil, fmt.Errorf("%s: bed %q has no member, while others have one", b.Pos, b.Name)
		}
		sum := 0.0
		for _, p := range b.Member {
			sum += p.Parts.Float()
		}
		own := make([]float64, len(c.names))
		var holds costgame.Group
		for _, p := range b.Member {
			i, _ := slices.BinarySearch(c.names, p.Member)
			own[i] = p.Parts.Float() / sum
			holds |= costgame.One(i)
		}
		c.owns, c.holds = append(c.owns, own), append(c.holds, holds)
		v := (max(0, b.LayerLitres(quotes.Top)) + max(0, b.LayerLitres(quotes.Base))) * units.Litres(b.Count)
		c.litres = append(c.litres, v)
		if b.Table != "" && b.Limit != nil {
			t := c.tables[b.Table]
			t.litres += float64(v)
			t.own += float64(b.OwnWeight) * float64(b.Count)
			t.limit = float64(*b.Limit)
			c.tables[b.Table] = t
		}
	}
	return c, nil
}

func (c *club) all() costgame.Group { return costgame.All(len(c.names)) }

// list names the members of a group, sorted.
func (c *club) list(g costgame.Group) []string {
	var out []string
	for _, i := range g.Players() {
		out = append(out, c.names[i])
	}
	return out
}

// part is the share of bed b that group g owns. A bed whose members are all in
// the group is owned whole, without rounding.
func (c *club) part(b int, g costgame.Group) float64 {
	switch own := c.holds[b] & g; own {
	case c.holds[b]:
		return 1
	case 0:
		return 0
	default:
		return own.Sum(c.owns[b])
	}
}

// litresOf is the placed litres of each member.
func (c *club) litresOf() []units.Litres {
	out := make([]units.Litres, len(c.names))
	for b, v := range c.litres {
		for i, own := range c.owns[b] {
			out[i] += v * units.Litres(own)
		}
	}
	return out
}

// groupJob is the job of group g going alone; see the package comment.
func (c *club) groupJob(g costgame.Group) *quotes.Job {
	j := *c.job
	j.Settings.Budget = nil
	j.Beds = nil
	mine := map[string]tableRoom{} // the group's part of each table
	for b, bed := range c.job.Beds {
		if f := c.part(b, g); f > 0 && bed.Table != "" && bed.Limit != nil {
			t := mine[bed.Table]
			t.litres += f * float64(c.litres[b])
			t.own += f * float64(bed.OwnWeight) * float64(bed.Count)
			mine[bed.Table] = t
		}
	}
	for b, bed := range c.job.Beds {
		f := c.part(b, g)
		if f == 0 {
			continue
		}
		slice := bed
		if f < 1 {
			slice = scaled(bed, f)
		}
		if bed.Table != "" && bed.Limit != nil {
			all, own := c.tables[bed.Table], mine[bed.Table]
			if own.litres < all.litres {
				limit := units.Kilograms(own.own + (all.limit-all.own)*own.litres/all.litres)
				copied := *slice
				copied.Limit = &limit
				slice = &copied
			}
		}
		j.Beds = append(j.Beds, slice)
	}
	return &j
}

// scaled is a slice across a bed: f of its length, or of its volumes, and of all
// that goes with them. Depths stay, so layers and water line do too. A limit of
// its own goes down with it; one of a shared table is the table's business.
func scaled(bed *quotes.Bed, f float64) *quotes.Bed {
	b := *bed
	b.Length *= units.Millimetres(f)
	b.Volume *= units.Litres(f)
	b.TopVolume *= units.Litres(f)
	b.Displaced *= units.Litres(f)
	b.OwnWeight *= units.Kilograms(f)
	if b.Table == "" && b.Limit != nil {
		limit := *b.Limit * units.Kilograms(f)
		b.Limit = &limit
	}
	return &b
}
