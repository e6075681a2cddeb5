package sheets

import (
	"fmt"
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
)

// Calldown writes calldown.pdf: which group comes from which room, through which door, at which time,
// to which rows; then a slip to cut off for every group's leader. Names are on the slips only where the stunt asks
// for them, and then each slip says who may hold it. Without groups it is a form to fill in by hand, block by block.
// Errors are *seating.Fault.
func Calldown(w io.Writer, b *brief.Brief) error {
	c := calldown{words: &b.Paper.Calldown}
	what := "Calldown"
	if c.words.List != "" {
		what += ", list " + c.words.List
	}
	var err error
	if c.flow, err = uprightFlow(b, what); err != nil {
		return err
	}
	c.Title("Calldown: who comes when, through which door", b.Paper.Occasion)
	if c.words.List == "" {
		c.form()
		return c.Finish(w)
	}
	c.Paragraph(c.words.Total, paper.SizeBody)
	c.Y += 2
	c.Boxed("Before the first door opens", []string{
		"The custodian has opened the stands, the ways and exits are free, the cards lie where they belong.",
		"Nobody runs, nobody stops in an aisle or a door; whoever waits stands along the wall.",
		"An alarm means: card down, and walk out by the nearest exit. Leaders count their group outside.",
	})
	c.table()
	for _, wrong := range c.words.Wrong {
		c.Lines(c.Left(), c.Inner(), wrong, paper.SizeBody, bold)
	}
	c.Y += 1
	c.Paragraph(c.words.Counting, paper.SizeSmall)
	c.Y += 2
	if c.words.Kept != "" {
		c.Pair("Kept places", c.words.Kept)
	}
	c.Pair("Free seats", c.words.Free)
	if c.words.Keeper != "" {
		c.FooterFrom(what + ", with names: for " + c.words.Keeper + " alone")
	}
	for i := range c.words.Slips {
		c.slip(&c.words.Slips[i], i == 0)
	}
	return c.Finish(w)
}

// calldown is the sheet with its words.
type calldown struct {
	*flow
	words *brief.Calldown
}

func (c *calldown) table() {
	var rows [][]paper.Cell
	for _, l := range c.words.Arrivals {
		rows = append(rows, []paper.Cell{{Text: l.Time, Bold: true}, {Text: l.Leaves}, {Text: l.Group, Bold: true}, {Text: l.People, Bold: true},
			{Text: l.Room}, {Text: l.Door}, {Text: l.Where}, {Tick: true}})
	}
	c.Table([]paper.Column{{Head: "At the door"}, {Head: "Leaves"}, {Head: "Group", Share: 1.5},
		{Head: "People", Right: true}, {Head: "From room", Share: 1}, {Head: "Door", Share: 1},
		{Head: "To rows", Share: 1.6}, {Head: "In"}}, rows, 9.5)
}

// slip is one group's: to cut off, and to be held by its leader.
func (c *calldown) slip(s *brief.Slip, first bool) {
	high := c.slipHead(s, true)
	for _, part := range s.Parts {
		high += c.PairHeight(part[1], slipIndent)
	}
	high += slipCounts
	if first || c.words.Keeper != "" || c.Y+high > c.Bottom() {
		c.NewPage() // names of two groups never share a sheet
	} else {
		c.Cuts(func() { c.Line(0, c.Y, c.Width, c.Y) }) // between two slips
		c.Y += 3
	}
	c.Continued = s.Group + ", continued"
	c.slipHead(s, false)
	for _, part := range s.Parts {
		c.PairAt(part[0], part[1], paper.SizeBody, slipIndent)
	}
	c.counts(s)
	if len(s.Names) > 0 {
		c.names(s.Names)
	}
	const size = 7.5
	c.Y += 2
	c.Text(c.Left(), c.Y+1.5, size, regular, regular.Shorten("Plan "+string(c.brief.Code)+", "+s.Foot, size, c.Inner()))
	c.Y += 3.5
	c.Continued = ""
}

// Sizes of a slip: millimetres, points.
const (
	slipIndent = 27.0
	slipName   = 18.0
	slipCounts = 24.0 // the lines for the count, and the cut
)

// slipHead is the group's name and its number of people; with measure it only gives its height.
func (c *calldown) slipHead(s *brief.Slip, measure bool) float64 {
	const least = 11.0
	room := c.Inner() - bold.Width(slipName, s.People) - 6
	size := max(bold.SizeFor(s.Group, room, slipName), least)
	lines := bold.Wrap(s.Group, size, room)
	high := paper.CapHeight(slipName) + 1 + float64(float64(len(lines)-1)*paper.LineHeight(size)) + 1.5
	if measure {
		return high
	}
	c.Need(high)
	base := c.Y + paper.CapHeight(slipName) + 1
	c.TextRight(c.Right(), base, slipName, bold, s.People)
	for n, line := range lines {
		c.Text(c.Left(), base+float64(float64(n)*paper.LineHeight(size)), size, bold, line)
	}
	c.Y += high
	return high
}

// counts are the lines to write the count on.
func (c *calldown) counts(s *brief.Slip) {
	c.Y += 9
	wide := (c.Inner() - 12) / 4
	for i, under := range []string{"counted in the room", "counted at the door", "counted when all sit", s.Missing} {
		c.Blank(c.Left()+float64(float64(i)*(wide+4)), c.Y, wide, under)
	}
	c.Y += 5
}

// names lists who sits where, in two columns.
func (c *calldown) names(list [][2]string) {
	const size = 9.0
	c.Lines(c.Left(), c.Inner(),
		"Names: this sheet may be held by "+c.words.Keeper+" alone, is not left lying about, and is given back and "+
			"destroyed after the take.", size, bold)
	c.Y += 1
	half := (len(list) + 1) / 2
	rows := make([][]paper.Cell, half)
	for i := range rows {
		rows[i] = []paper.Cell{{Text: list[i][0], Bold: true}, {Text: list[i][1]}, {}, {}}
		if k := i + half; k < len(list) {
			rows[i][2], rows[i][3] = paper.Cell{Text: list[k][0], Bold: true}, paper.Cell{Text: list[k][1]}
		}
	}
	c.Table([]paper.Column{{Head: "Seat"}, {Head: "Name", Share: 1}, {Head: "Seat"}, {Head: "Name", Share: 1}},
		rows, size)
}

// form is what is printed where no groups are given: a form, block by block.
func (c *calldown) form() {
	c.Boxed("No groups are in the stunt file yet", []string{
		"Fill this in by hand: which group goes to which block, from which room, through which door, at which time.",
		"Or write a [[group]] for each class, club or choir (name, people, room, door), or roster = \"roster.csv\" under " +
			"[people], and build again: then everybody has a seat, doors have their times, and every leader gets a slip.",
	})
	var rows [][]paper.Cell
	for _, b := range c.words.Form {
		line := []paper.Cell{{Text: b.Block, Bold: true}, {Text: b.Rows}, {Text: b.Seats, Bold: true}}
		for range 4 {
			line = append(line, paper.Cell{})
		}
		rows = append(rows, line)
	}
	c.Table([]paper.Column{{Head: "Block"}, {Head: "Rows", Share: 1.2}, {Head: "Seats", Right: true},
		{Head: "Group", Share: 1.6}, {Head: "From room", Share: 1.2}, {Head: "Door", Share: 0.9},
		{Head: "Time", Share: 0.6}}, rows, 11)
	c.Paragraph(c.words.Door, paper.SizeSmall)
}

// writtenOfPeople is what the sheets print of the groups, and of people where names are wanted.
func writtenOfPeople(p *mosaic.Plan) []written {
	if p.People == nil {
		return nil
	}
	who := &p.Stunt.People
	all := []written{{"people.held_by", who.HeldBy}}
	for i := range p.People.Roster.Groups {
		g := &p.People.Roster.Groups[i]
		key := "people.roster"
		if i < len(who.Groups) { // parties come first
			key = fmt.Sprintf("group[%d]", i)
		}
		for _, text := range []string{g.Name, g.Leader, g.Room, g.Door, g.Time} {
			all = append(all, written{key, text})
		}
	}
	if who.Names {
		for i := range p.People.Roster.People {
			all = append(all, written{"people.roster", p.People.Roster.People[i].Name})
		}
	}
	return all
}
