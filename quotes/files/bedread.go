package files

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// rawBed is a row of beds.csv as text.
type rawBed struct {
	Bed       string `csv:"bed" cell:"required"`
	Count     string `csv:"count" cell:"number"`
	Length    string `csv:"length" cell:"number"`
	Width     string `csv:"width" cell:"number"`
	Depth     string `csv:"depth" cell:"number"`
	Volume    string `csv:"volume" cell:"number"`
	Top       string `csv:"top" cell:"number"`
	TopVolume string `csv:"top_volume" cell:"number"`
	TopMedia  string `csv:"top_media"`
	Only      string `csv:"only"`
	Avoid     string `csv:"avoid"`
	MaxShare  string `csv:"max_share" cell:"number"`
	MinSize   string `csv:"min_size" cell:"number"`
	MaxSize   string `csv:"max_size" cell:"number"`
	Table     string `csv:"table"`
	Limit     string `csv:"limit" cell:"number"`
	OwnWeight string `csv:"own_weight" cell:"number"`
	WaterLine string `csv:"water_line" cell:"number"`
	Displaced string `csv:"displaced" cell:"number"`
	Site      string `csv:"site"`
	Member    string `csv:"member" cell:"number"`
}

// bedRow is a bed being read, with the row it comes from.
type bedRow struct {
	*quotes.Bed
	row *row
	bad map[string]bool // headings whose cells could not be used
}

// bedBook is what the other files need to know of beds.csv.
type bedBook struct {
	rows  []*bedRow
	sites spelling.Spellings
	lost  bool // rows or columns could not be read, so a site may stand in them
	none  bool // there are no beds, so any site may be meant
}

// bedRows reads beds.csv.
func (x *reader) bedRows(src Source, media *quotes.MediaTable) (*bedBook, error) {
	b := &bedBook{}
	s, err := readSheet[rawBed](x, src)
	if err != nil || s == nil {
		b.lost = true
		return b, err
	}
	b.lost = s.incomplete
	if len(s.rows) == 0 && !s.incomplete {
		x.problem(s.head, "", "there is no row under the headings", "at least one bed", noRowHint)
	}
	var members, tables spelling.Spellings
	first := map[string]*bedRow{}
	for _, r := range s.rows {
		q := &bedRow{Bed: &quotes.Bed{Pos: r.Pos, Count: 1, WaterLine: quotes.DefaultWaterLine}, row: r, bad: map[string]bool{}}
		if c := r.cell("bed"); x.need(c, "a name for the bed", "give each row a short name of its own, such as north 1") {
			q.Name = spelling.Tidy(c.text)
			if f := first[spelling.NameKey(q.Name)]; f != nil {
				x.fail(c, fmt.Sprintf("%s is the name of the bed on line %d too", spelling.Quoted(q.Name), f.Line), "a name of its own",
					"beds that are alike may share a row, with their number under count")
			} else {
				first[spelling.NameKey(q.Name)] = q
			}
		}
		q.Site = b.sites.Name(r.cell("site").text)
		q.Table = tables.Name(r.cell("table").text)
		x.members(q, &members)
		x.bed(q, media)
		b.rows = append(b.rows, q)
	}
	x.allOrNone(b.rows, "site", len(b.sites.Names) > 0, "every bed's site, or none")
	x.allOrNone(b.rows, "member", len(members.Names) > 0, "who pays for every bed, or none")
	x.tables(b.rows, tables.Names)
	return b, nil
}

func (q *bedRow) get(ok bool, heading string) {
	if !ok {
		q.bad[heading] = true
	}
}

// bed fills q from its row, but for its name, site, table and members.
func (x *reader) bed(q *bedRow, media *quotes.MediaTable) {
	at := q.row.cell
	q.get(set(at("count"), &q.Count, x.whole("leave the cell empty for one bed; a bed not to be filled is taken out")), "count")
	x.measures(q)
	list := func(c *cell) ([]*quotes.Medium, bool) { return x.mediaList(media, c) }
	q.get(set(at("only"), &q.Only, list), "only")
	q.get(set(at("avoid"), &q.Avoid, list), "avoid")
	for _, m := range q.Only {
		if slices.Contains(q.Avoid, m) {
			x.fail(at("avoid"), m.Name+" stands under only too", "each medium under one of the two", "take it out of one of the two cells")
		}
	}
	if c := at("top_media"); c.blank() {
		q.TopMedia = defaultTop(media, x.set.AllowRoughTop)
	} else {
		q.get(set(c, &q.TopMedia, list), "top_media")
	}
	q.get(set(at("max_share"), &q.MaxShare, func(c *cell) ([]quotes.Share, bool) { return x.shares(media, c) }), "max_share")
	x.sizes(q)
	q.get(set(at("limit"), &q.Limit, func(c *cell) (*units.Kilograms, bool) {
		m, ok := x.mass(c, false)
		return &m, ok
	}), "limit")
	q.get(set(at("own_weight"), &q.OwnWeight, func(c *cell) (units.Kilograms, bool) { return x.mass(c, true) }), "own_weight")
	if c := at("water_line"); spelling.WordKey(c.text) == "none" {
		q.NeverFloods = true
		q.WaterLine = 0
	} else {
		q.get(set(c, &q.WaterLine, func(c *cell) (units.Millimetres, bool) { return x.length(c, true) }), "water_line")
		if !c.blank() && !q.bad["water_line"] && q.Depth > 0 && q.WaterLine >= q.Depth {
			x.fail(c, fmt.Sprintf("%s lies at or below the bottom of the media, which would count as a bed that never floods", spelling.Quoted(c.text)),
				"less than the depth, or none", "write how far below the surface the flood stands; write none for a bed that never floods")
		}
	}
}

// defaultTop is what the top layer takes when a bed does not say: every medium
// that is smooth to the hands, or every one if the job allows a rough top.
func defaultTop(media *quotes.MediaTable, rough bool) []*quotes.Medium {
	return slices.DeleteFunc(media.All(), func(m *quotes.Medium) bool { return !rough && m.Feel != quotes.Smooth })
}

// sizes reads the smallest and largest grain allowed.
func (x *reader) sizes(q *bedRow) {
	read := func(c *cell) (*units.Millimetres, bool) {
		m, err := quotes.ParseSieve(c.text, x.grainOptions(c))
		v, ok := converted(x, c, m.Value, err)
		return &v, ok
	}
	lo, hi := q.row.cell("min_size"), q.row.cell("max_size")
	q.get(set(lo, &q.MinSize, read), "min_size")
	q.get(set(hi, &q.MaxSize, read), "max_size")
	if q.bad["min_size"] || q.bad["max_size"] {
		return
	}
	q.MinRaw, q.MaxRaw = lo.text, hi.text
	if q.MinSize != nil {
		x.believeGrain(lo, *q.MinSize)
	}
	if q.MinSize != nil && q.MaxSize != nil && *q.MinSize > *q.MaxSize {
		x.fail(hi, fmt.Sprintf("the largest grain is %s, but min_size is %s", spelling.Quoted(hi.text), spelling.Quoted(lo.text)), "a max_size of at least min_size", "are the two swapped?")
	}
}

// shares reads the most a medium may fill: "lava rock: 0.67; gravel: 0.5".
func (x *reader) shares(media *quotes.MediaTable, c *cell) ([]quotes.Share, bool) {
	var out []quotes.Share
	before := len(x.rep.Problems)
	for _, p := range parts(c.text) {
		name, share, ok := strings.Cut(p, ":")
		if !ok {
			x.fail(c, spelling.Quoted(p)+" is no share of a medium", "medium and share with a colon between, such as lava rock: 0.67; gravel: 0.5", "put a colon behind the medium, and a semicolon between media")
			continue
		}
		m, known := x.medium(media, c, spelling.Tidy(name))
		v, err := units.ParseShare(share, c.mark)
		if err != nil {
			x.failErr(c, err)
		}
		if !known || err != nil {
			continue
		}
		if slices.ContainsFunc(out, func(s quotes.Share) bool { return s.Medium == m }) {
			x.fail(c, m.Name+" stands there twice", "each medium once", "keep the share that is meant")
			continue
		}
		out = append(out, quotes.Share{Medium: m, Most: v.Float()})
	}
	return out, len(x.rep.Problems) == before
}

// members reads who pays for a bed: "north plot: 2; school: 1".
func (x *reader) members(q *bedRow, names *spelling.Spellings) {
	c := q.row.cell("member")
	if c.off {
		return
	}
	for _, p := range parts(c.text) {
		name, share, given := strings.Cut(p, ":")
		part := quotes.Part{Member: names.Name(name), Parts: units.DecimalFromInt(1)}
		if given {
			v, err := units.ParseNumber(share, c.mark)
			switch {
			case err != nil:
				x.failErr(c, err)
				q.bad["member"] = true
				continue
			case v.Sign() <= 0:
				x.fail(c, fmt.Sprintf("%s has %s parts", spelling.Quoted(spelling.Tidy(name)), v), "more than 0 parts for each member", "leave out a member who pays nothing")
				q.bad["member"] = true
				continue
			}
			part.Parts = v
		}
		switch {
		case part.Member == "":
			x.fail(c, spelling.Quoted(p)+" names no member", "member and parts, such as north plot: 2; school: 1", "write the member in front of the colon")
			q.bad["member"] = true
		case slices.ContainsFunc(q.Member, func(o quotes.Part) bool { return o.Member == part.Member }):
			x.fail(c, part.Member+" stands there twice", "each member once", "add the parts together")
			q.bad["member"] = true
		default:
			q.Member = append(q.Member, part)
		}
	}
}

// allOrNone reports beds that leave out a site or a member while others have one:
// a bed left out silently would be delivered to, or paid by, nobody.
func (x *reader) allOrNone(rows []*bedRow, heading string, some bool, wanted string) {
	if !some {
		return
	}
	for _, q := range rows {
		if c := q.row.cell(heading); c.blank() && !c.off {
			x.fail(c, "the cell is empty, while other beds have a "+heading, wanted, "write one here, or empty the whole column")
		}
	}
}
