package sheets

import (
	"io"
	"slices"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// Packet writes packet.pdf, what an administrator and a fire official must see to say yes: the
// cautions, what is asked, the picture from the mark, the head count against capacity, the map, the
// crowd, the work, the money, and lines to sign. Errors are *seating.Fault.
func Packet(w io.Writer, b *brief.Brief) error {
	if p := b.Plan; len(p.Marks) == 0 || p.Marks[0].View == nil || len(p.Cues) == 0 {
		return errNoCamera
	}
	f, err := uprightFlow(b, "Request for approval")
	if err != nil {
		return err
	}
	k := packet{flow: f, words: &b.Paper.Packet}
	k.asked()
	k.heads()
	k.seen()
	k.crowd()
	k.floor()
	k.effort()
	k.sign()
	return f.Finish(w)
}

type packet struct {
	*flow
	words *brief.Packet
}

// asked is the first page: cautions, and what somebody says yes to.
func (k *packet) asked() {
	w := k.words
	k.Title(w.Title, "A card stunt: people in the stands hold up coloured cards that make a message for one camera.")
	k.Boxed("Cautions, before anything else", k.brief.Paper.Cautions)
	k.Heading("What is asked")
	k.Pair("What", w.What)
	k.Pair("When", w.When)
	k.Pair("Where", w.Where)
	k.Pair("Who", w.Who)
	k.Pair("Asked by", w.AskedBy)
	k.Pair("Says yes", w.SaysYes)
}

// seen is the picture, and what else it may be read as.
func (k *packet) seen() {
	k.NewPage()
	k.Heading("What the film will show")
	k.pictures()
	k.Paragraph("From the camera's place, as much of the film's frame as the cards take. Only the cards are drawn; "+
		"the film shows people too.", paper.SizeSmall)
	k.Y += 1
	if k.words.Texts {
		k.Paragraph("Other readings are what a text spells when one section goes wrong, and nobody wants. A dot is no "+
			"letter. No list of bad words is kept: whoever signs reads them aloud and judges.", paper.SizeSmall)
	}
	for i := range k.words.Readings {
		k.reading(&k.words.Readings[i], i)
	}
	k.Pair("Flashing", k.words.Flashing)
}

// pictures are those of all cues: over the whole width where that leaves the page half free, or else in two columns.
func (k *packet) pictures() {
	const gap = 5.0
	columns := 2
	caption := paper.LineHeight(9) + 3
	wide := newClosePicture(k.brief.Plan, 0, 0, 0, k.Inner()).height + caption
	if float64(len(k.brief.Plan.Cues))*wide <= (k.Bottom()-k.Y)/2 {
		columns = 1
	}
	k.Y += 2
	if len(k.brief.Plan.Cues) == 1 {
		width := k.Inner()
		q := newClosePicture(k.brief.Plan, 0, k.Left(), k.Y, width)
		if high := (k.Bottom() - k.Y) * 0.4; q.height > high {
			width = q.width * high / q.height
			q = newClosePicture(k.brief.Plan, 0, (k.Left()+k.Right()-width)/2, k.Y, width)
		}
		q.draw(&k.Pen)
		k.Y += q.height + 3
		return
	}
	width := (k.Inner() - float64(gap*float64(columns-1))) / float64(columns)
	for first := 0; first < len(k.brief.Plan.Cues); first += columns {
		high := newClosePicture(k.brief.Plan, first, 0, 0, width).height
		k.Need(high + caption)
		for i := range min(columns, len(k.brief.Plan.Cues)-first) {
			q := newClosePicture(k.brief.Plan, first+i, k.Left()+float64(float64(i)*(width+gap)), k.Y, width)
			q.draw(&k.Pen)
			k.Text(q.x, k.Y+high+paper.LineHeight(9), 9, regular,
				regular.Shorten(say.Capital(brief.CueName(k.brief.Plan, first+i)), 9, width))
		}
		k.Y += high + caption
	}
}

// reading says what a cue spells, whether it reads, and what it may be taken for.
func (k *packet) reading(r *brief.CueReading, cue int) {
	k.Need(4 * paper.LineHeight(paper.SizeBody)) // with its other readings
	name := regular.Shorten(r.Name, paper.SizeBody, k.Inner()*0.6)
	k.Pair("Cue "+strconv.Itoa(cue+1), say.Quoted(name)+": "+r.Says)
	if r.Others != "" {
		k.Pair("Other readings", r.Others)
	}
}

// heads is the head count against what the survey and the sign allow.
func (k *packet) heads() {
	k.Heading("Head count against capacity")
	var rows [][]paper.Cell
	for _, h := range k.words.Heads {
		cells := []paper.Cell{{Text: h.Name, Bold: h.All}}
		for _, n := range h.Counts {
			cells = append(cells, paper.Cell{Text: n, Bold: h.All})
		}
		rows = append(rows, cells)
	}
	k.Table([]paper.Column{{Head: "", Share: 1}, {Head: "Seats", Right: true}, {Head: "Capacity", Right: true},
		{Head: "With cards", Right: true},
		{Head: "Without", Right: true}, {Head: "Kept free", Right: true}, {Head: "People", Right: true}}, rows, 9.5)
	k.Paragraph("Capacity counts 18 in (457 mm) of bench a person (IBC 2021, 1004.6), and a person a place elsewhere, "+
		"as help and never as approval.", paper.SizeSmall)
	k.Y += 1
	k.Lines(k.Left(), k.Inner(), k.words.Posted, paper.SizeBody, bold)
}

// floor is the map.
func (k *packet) floor() {
	k.NewPage()
	k.Heading("The map: aisles, lanes, exits, wheelchair places")
	const below = 46.0
	f := newFloorPlan(k.brief.Plan, k.Left(), k.Y+2, k.Inner(), k.Bottom()-k.Y-2-below)
	f.draw(&k.Pen)
	k.Y += 2 + f.depth + 6
	k.mapKey()
	k.Paragraph("The camera's side is at the bottom: left and right are as the camera sees them.", paper.SizeSmall)
	k.Y += 1
	k.Pair("Wheelchairs", k.words.Wheelchairs)
	k.Pair("Exits", k.words.Exits)
}

// mapKey shows each sign of the map beside what it means.
func (k *packet) mapKey() {
	const w, h, gap, size = 5.0, 3.6, 6.0, 9.0
	p := &k.Pen
	box := func(x, y float64) {
		p.Stroke(black, 0.25)
		p.Box(x, y, w, h)
	}
	letter := func(s string) func(x, y float64) {
		return func(x, y float64) {
			box(x, y)
			p.TextMiddle(x+w/2, y+h/2+paper.CapHeight(8)/2, 8, bold, s)
		}
	}
	x := k.Left()
	k.Y += 1
	for _, sign := range []struct {
		words string
		draw  func(x, y float64)
	}{
		{"a person with a card", func(x, y float64) { p.Fill(greySeat); p.Filled(x, y, w, h); box(x, y) }},
		{"a person without", box},
		{"kept free", func(x, y float64) { box(x, y); p.Cross(x, y, w, h) }},
		{"wheelchair place", letter("W")},
		{"companion", letter("C")},
		{"a lane that stays free", func(x, y float64) {
			box(x, y)
			p.StrokeColour(greyLane)
			p.Hatched(x, y, w, h, 1.5)
		}},
		{"an exit", func(x, y float64) { p.Fill(black); p.Filled(x, y+h/2-0.7, w, 1.4) }},
		{"what the lens takes in", func(x, y float64) {
			p.Stroke(grey, 0.2)
			p.Dashed(1.5, 1.5)
			p.Line(x, y+h/2, x+w, y+h/2)
			p.Solid()
		}},
	} {
		wide := w + 1.5 + regular.Width(size, sign.words)
		if x > k.Left() && x+wide > k.Right() {
			x, k.Y = k.Left(), k.Y+paper.LineHeight(size)+1
		}
		sign.draw(x, k.Y)
		p.Text(x+w+1.5, k.Y+h/2+paper.CapHeight(size)/2, size, regular, sign.words)
		x += wide + gap
	}
	k.Y += h + 1.5
}

// crowd is who looks after the people, and who may not be filmed.
func (k *packet) crowd() {
	k.Heading("Crowd, and who may not be filmed")
	k.Pair("Crowd managers", k.words.Managers)
	k.Pair("Leaders", k.words.Leaders)
	k.Pair("Not filmed", k.words.NotFilmed)
	k.Pair("Told before",
		"Everybody hears: exits, no jumping, nothing thrown, alarm means card down and walk; that it is filmed; that "+
			"nobody has to take part.")
}

// effort is helpers, hours, money, doors and keys.
func (k *packet) effort() {
	k.NewPage()
	k.Heading("Helpers, hours, money")
	k.Pair("Before", k.words.Before)
	k.Pair("On the day", k.words.OnTheDay)
	k.Pair("Money", k.words.Money)
	k.Heading("Doors and keys")
	if len(k.words.Doors) == 0 {
		k.Paragraph("Which doors and keys are needed is not in the stunt file (keys = [...]): "+
			"____________________________________________", paper.SizeBody)
		return
	}
	var rows [][]paper.Cell
	for _, d := range k.words.Doors {
		rows = append(rows, []paper.Cell{{Text: d.Name, Bold: true}, {Text: d.From}, {Text: "______________________"},
			{Text: "after the sweep"}, {Tick: true}})
	}
	k.Table([]paper.Column{{Head: "Door or key", Share: 1}, {Head: "Open"}, {Head: "By whom"}, {Head: "Closed"},
		{Head: "Done"}}, rows, paper.SizeBody)
}

// sign is the lines to sign.
func (k *packet) sign() {
	k.Heading("Decision")
	k.Paragraph("Yes means: this plan, with the code at the foot of the page, on this day. Any change of seats, "+
		"people or lanes needs a new yes.", paper.SizeBody)
	for _, s := range append(slices.Clone(k.words.Signs), "asks for it") {
		k.Need(14)
		k.Y += 11
		k.Tick(k.Left(), k.Y-1.5)
		k.Text(k.Left()+paper.TickSide+1, k.Y, 9, regular, "yes")
		k.Tick(k.Left()+14, k.Y-1.5)
		k.Text(k.Left()+14+paper.TickSide+1, k.Y, 9, regular, "no")
		x := k.Left() + 30
		width := k.Right() - x
		k.Blank(x, k.Y, width*0.62, s)
		k.Blank(x+float64(width*0.66), k.Y, width*0.34, "date")
		k.Y += 3
	}
}
