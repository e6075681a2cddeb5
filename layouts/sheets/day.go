package sheets

import (
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// RunSheet writes runsheet.pdf: the cautions first, the signal plan, and on a page of its own the day by the clock.
// Errors are *seating.Fault.
func RunSheet(w io.Writer, b *brief.Brief) error {
	return running(w, b, "Run sheet", "Run sheet", func(f *flow) {
		r := &b.Paper.RunSheet
		f.Boxed("Before anything else", b.Paper.Cautions)
		if r.Before != "" {
			f.Heading("Before the day")
			f.Paragraph(r.Before, paper.SizeBody)
		}
		f.signals(r)
		if len(r.Outdoors) > 0 {
			f.Heading("Outdoors")
			f.Dashes(r.Outdoors...)
		}
		whoToAsk := func() {
			f.Heading("Who to ask")
			f.Pair("Contact", r.Contact)
			f.Pair("Says stop", "Anybody. The custodian of the stands and the fire official without giving a reason.")
		}
		early := f.Y+paper.LineHeight(paper.SizeHead)*1.6+4*paper.LineHeight(paper.SizeBody) <= f.Bottom()
		if early {
			whoToAsk()
		}
		f.NewPage() // the clock hangs by the door on a page of its own
		f.Heading("The day by the clock")
		if r.Note != "" {
			f.Paragraph(r.Note, paper.SizeSmall)
		}
		table(f, 9.5, []column{{"Clock", 0, strong}, {"Take", 0, 0}, {"What", 3, 0}, {"Who", 1.15, 0},
			{"Done", 0, tick}}, r.Steps, func(s *brief.Step, cells []paper.Cell) { cells[2].Bold = s.IsTake })
		if !early {
			whoToAsk()
		}
	})
}

func (f *flow) signals(r *brief.RunSheet) {
	f.Heading("Signals")
	f.Dashes(
		r.Calls+" Beside the lens a flag goes up at READY and drops at UP; leaders, who see the flag, echo both "+
			"with a raised arm.",
		"DOWN is a sound, a whistle or the caller's voice, since faces are behind cards and see no flag.",
		"A long whistle at any time means: card down, sit, listen. An alarm means card down and walk.")
	if len(r.Cues) == 0 {
		return
	}
	f.Y += 1
	table(f, 9.5, []column{{"Cue", 0, strong}, {"Name", 1.4, 0}, {"When", 1, 0}, {"READY", 0, right},
		{"UP", 0, right | strong}, {"all up", 0, right}, {"DOWN", 0, right}}, r.Cues, nil)
	f.Paragraph("Minutes and seconds from "+r.From+"; what is before it has a dash. From the call UP everybody has "+
		"the card up; HOLD is silent; before the first cue and after the last the card lies on the lap.",
		paper.SizeSmall)
	if r.Waves != "" {
		f.Dashes(r.Waves)
	}
}

// Calldown writes calldown.pdf: which group comes from which room, through which door, at which time, to which rows;
// then a slip to cut off for every group's leader. Names are on the slips only where the stunt asks for them, and then
// each slip says who may hold it. Without groups it is a form to fill in by hand, block by block. Errors are
// *seating.Fault.
func Calldown(w io.Writer, b *brief.Brief) error {
	words, what := &b.Paper.Calldown, "Calldown"
	if words.List != "" {
		what += ", list " + words.List
	}
	return running(w, b, what, "Calldown: who comes when, through which door", func(f *flow) {
		c := calldown{f, words}
		if words.List == "" {
			c.form()
			return
		}
		c.Paragraph(words.Total, paper.SizeBody)
		c.Y += 2
		c.Boxed("Before the first door opens", []string{
			"The custodian has opened the stands, the ways and exits are free, the cards lie where they belong.",
			"Nobody runs, nobody stops in an aisle or a door; whoever waits stands along the wall.",
			"An alarm means: card down, and walk out by the nearest exit. Leaders count their group outside.",
		})
		table(f, 9.5, []column{{"At the door", 0, strong}, {"Leaves", 0, 0}, {"Group", 1.5, strong},
			{"People", 0, right | strong}, {"From room", 1, 0}, {"Door", 1, 0}, {"To rows", 1.6, 0}, {"In", 0, tick}},
			words.Arrivals, nil)
		for _, wrong := range words.Wrong {
			c.Lines(c.Left(), c.Inner(), wrong, paper.SizeBody, bold)
		}
		c.Y += 1
		c.Paragraph(words.Counting, paper.SizeSmall)
		c.Y += 2
		if words.Kept != "" {
			c.Pair("Kept places", words.Kept)
		}
		c.Pair("Free seats", words.Free)
		if words.Keeper != "" {
			c.FooterFrom(what + ", with names: for " + words.Keeper + " alone")
		}
		for i := range words.Slips {
			c.slip(&words.Slips[i], i == 0)
		}
	})
}

type calldown struct {
	*flow
	words *brief.Calldown
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
	c.Y += 9
	wide := (c.Inner() - 12) / 4
	for i, under := range []string{"counted in the room", "counted at the door", "counted when all sit", s.Missing} {
		c.Blank(c.Left()+float64(float64(i)*(wide+4)), c.Y, wide, under)
	}
	c.Y += 5
	if len(s.Names) > 0 {
		c.names(s.Names)
	}
	const size = 7.5
	c.Y += 2
	foot := "Plan " + string(c.brief.Code) + ", " + s.Foot
	c.Text(c.Left(), c.Y+1.5, size, regular, regular.Shorten(foot, size, c.Inner()))
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

func (c *calldown) names(list [][2]string) {
	const size = 9.0
	c.Lines(c.Left(), c.Inner(), "Names: this sheet may be held by "+c.words.Keeper+" alone, is not left lying "+
		"about, and is given back and destroyed after the take.", size, bold)
	c.Y += 1
	half := (len(list) + 1) / 2
	rows := make([]struct{ Texts []string }, half)
	for i, pair := range list {
		rows[i%half].Texts = append(rows[i%half].Texts, pair[:]...)
	}
	table(c.flow, size, []column{{"Seat", 0, strong}, {"Name", 1, 0}, {"Seat", 0, strong}, {"Name", 1, 0}}, rows, nil)
}

// form is what is printed where no groups are given: a form, block by block.
func (c *calldown) form() {
	c.Boxed("No groups are in the stunt file yet", []string{
		"Fill this in by hand: which group goes to which block, from which room, through which door, at which time.",
		"Or write a [[group]] for each class, club or choir (name, people, room, door), or roster = \"roster.csv\" " +
			"under [people], and build again: then everybody has a seat, doors have their times, and every leader " +
			"gets a slip.",
	})
	table(c.flow, 11, []column{{"Block", 0, strong}, {"Rows", 1.2, 0}, {"Seats", 0, right | strong}, {"Group", 1.6, 0},
		{"From room", 1.2, 0}, {"Door", 0.9, 0}, {"Time", 0.6, 0}}, c.words.Form, nil)
	if c.words.Free != "" {
		c.Y += 2
		c.Pair("Free seats", c.words.Free)
	}
	c.Paragraph(c.words.Door, paper.SizeSmall)
}
