package sheets

import (
	"io"
	"slices"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// Packet writes packet.pdf, what an administrator and a fire official must see to say yes: the cautions, what is
// asked, the picture from the mark, the head count against capacity, the map, the crowd, the work, the money, and
// lines to sign. Errors are *seating.Fault.
func Packet(w io.Writer, b *brief.Brief) error {
	if err := hasPicture(b); err != nil {
		return err
	}
	f, err := uprightFlow(b, "Request for approval")
	if err != nil {
		return err
	}
	k := packet{f, &b.Paper.Packet}
	k.asked()
	k.seen()
	k.floor()
	k.effort()
	k.sign()
	return f.Finish(w)
}

type packet struct {
	*flow
	words *brief.Packet
}

// asked is the first page: cautions, what somebody says yes to, and the head count against what the survey and the
// sign allow.
func (k *packet) asked() {
	w := k.words
	k.Title(w.Title, "A card stunt: people in the stands hold up coloured cards that make a message for one camera.")
	k.Boxed("Cautions, before anything else", k.brief.Paper.Cautions)
	k.pairs("What is asked", [][2]string{{"What", w.What}, {"When", w.When}, {"Where", w.Where}, {"Who", w.Who},
		{"Asked by", w.AskedBy}, {"Says yes", w.SaysYes}})
	k.Heading("Head count against capacity")
	table(k.flow, 9.5, []column{{"", 1, 0}, {"Seats", 0, right}, {"Capacity", 0, right}, {"With cards", 0, right},
		{"Without", 0, right}, {"Kept free", 0, right}, {"People", 0, right}}, w.Heads,
		func(h *brief.HeadCount, cells []paper.Cell) {
			for i := range cells {
				cells[i].Bold = h.All
			}
		})
	k.Paragraph("Capacity counts 18 in (457 mm) of bench a person (IBC 2021, 1004.6), and a person a place "+
		"elsewhere, as help and never as approval.", paper.SizeSmall)
	k.Y += 1
	k.Lines(k.Left(), k.Inner(), w.Posted, paper.SizeBody, bold)
}

// pairs are words with what they are about, under a heading.
func (k *packet) pairs(heading string, list [][2]string) {
	k.Heading(heading)
	for _, pair := range list {
		k.Pair(pair[0], pair[1])
	}
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
		k.Paragraph("Other readings are what a text spells when one section goes wrong, and nobody wants. A dot is "+
			"no letter. No list of bad words is kept: whoever signs reads them aloud and judges.", paper.SizeSmall)
	}
	for i, r := range k.words.Readings {
		k.Need(4 * paper.LineHeight(paper.SizeBody)) // with its other readings
		name := regular.Shorten(r.Name, paper.SizeBody, k.Inner()*0.6)
		k.Pair("Cue "+strconv.Itoa(i+1), say.Quoted(name)+": "+r.Says)
		if r.Others != "" {
			k.Pair("Other readings", r.Others)
		}
	}
	k.Pair("Flashing", k.words.Flashing)
}

// pictures are those of all cues: over the whole width where that leaves the page half free, or else in two columns.
func (k *packet) pictures() {
	const gap = 5.0
	cues, half := len(k.plan.Cues), (k.Bottom()-k.Y)/2
	k.Y += 2
	if cues == 1 {
		q := k.lowered(newClosePicture(k.plan, 0, k.Left(), k.Y, k.Inner()), 0.4, newClosePicture)
		q.draw(&k.Pen)
		k.Y += q.height + 3
		return
	}
	columns, caption := 2, paper.LineHeight(9)+3
	wide := newClosePicture(k.plan, 0, 0, 0, k.Inner()).height + caption
	if float64(cues)*wide <= half {
		columns = 1
	}
	width := (k.Inner() - float64(gap*float64(columns-1))) / float64(columns)
	for first := 0; first < cues; first += columns {
		high := newClosePicture(k.plan, first, 0, 0, width).height
		k.Need(high + caption)
		for i := range min(columns, cues-first) {
			q := newClosePicture(k.plan, first+i, k.Left()+float64(float64(i)*(width+gap)), k.Y, width)
			q.draw(&k.Pen)
			k.Text(q.x, k.Y+high+paper.LineHeight(9), 9, regular,
				regular.Shorten(say.Capital(brief.CueName(k.plan, first+i)), 9, width))
		}
		k.Y += high + caption
	}
}

// floor is who looks after the people, who may not be filmed, and the map.
func (k *packet) floor() {
	w := k.words
	k.pairs("Crowd, and who may not be filmed", [][2]string{{"Crowd managers", w.Managers}, {"Leaders", w.Leaders},
		{"Not filmed", w.NotFilmed}, {"Told before", "Everybody hears: exits, no jumping, nothing thrown, alarm " +
			"means card down and walk; that it is filmed; that nobody has to take part."}})
	k.NewPage()
	k.Heading("The map: aisles, lanes, exits, wheelchair places")
	const below = 46.0
	f := newFloorPlan(k.plan, k.Left(), k.Y+2, k.Inner(), k.Bottom()-k.Y-2-below)
	f.draw(&k.Pen)
	k.Y += 2 + f.depth + 6
	k.mapKey()
	k.Paragraph("The camera's side is at the bottom: left and right are as the camera sees them.", paper.SizeSmall)
	k.Y += 1
	k.Pair("Wheelchairs", w.Wheelchairs)
	k.Pair("Exits", w.Exits)
}

// mapKey shows each sign of the map beside what it means.
func (k *packet) mapKey() {
	const w, h, gap, size = 5.0, 3.6, 6.0, 9.0
	box := func(x, y float64) {
		k.Stroke(black, 0.25)
		k.Box(x, y, w, h)
	}
	letter := func(s string) func(x, y float64) {
		return func(x, y float64) {
			box(x, y)
			k.TextMiddle(x+w/2, y+h/2+paper.CapHeight(8)/2, 8, bold, s)
		}
	}
	x := k.Left()
	k.Y += 1
	for _, sign := range []struct {
		words string
		draw  func(x, y float64)
	}{
		{"a person with a card", func(x, y float64) {
			k.Fill(greySeat)
			k.Filled(x, y, w, h)
			box(x, y)
		}},
		{"a person without", box},
		{"kept free", func(x, y float64) {
			box(x, y)
			k.Cross(x, y, w, h)
		}},
		{"wheelchair place", letter("W")},
		{"companion", letter("C")},
		{"a lane that stays free", func(x, y float64) {
			box(x, y)
			k.StrokeColour(greyLane)
			k.Hatched(x, y, w, h, 1.5)
		}},
		{"an exit", func(x, y float64) {
			k.Fill(black)
			k.Filled(x, y+h/2-0.7, w, 1.4)
		}},
		{"what the lens takes in", func(x, y float64) {
			k.Stroke(grey, 0.2)
			k.Dashed(1.5, 1.5)
			k.Line(x, y+h/2, x+w, y+h/2)
			k.Solid()
		}},
	} {
		wide := w + 1.5 + regular.Width(size, sign.words)
		if x > k.Left() && x+wide > k.Right() {
			x, k.Y = k.Left(), k.Y+paper.LineHeight(size)+1
		}
		sign.draw(x, k.Y)
		k.Text(x+w+1.5, k.Y+h/2+paper.CapHeight(size)/2, size, regular, sign.words)
		x += wide + gap
	}
	k.Y += h + 1.5
}

func (k *packet) effort() {
	k.NewPage()
	k.pairs("Helpers, hours, money", [][2]string{{"Before", k.words.Before}, {"On the day", k.words.OnTheDay},
		{"Money", k.words.Money}})
	k.Heading("Doors and keys")
	if len(k.words.Doors) == 0 {
		k.Paragraph("Which doors and keys are needed is not in the stunt file (keys = [...]): "+
			"____________________________________________", paper.SizeBody)
		return
	}
	table(k.flow, paper.SizeBody, []column{{"Door or key", 1, strong}, {"Open", 0, 0}, {"By whom", 0, 0},
		{"Closed", 0, 0}, {"Done", 0, tick}}, k.words.Doors, func(_ *brief.Door, cells []paper.Cell) {
		cells[2].Text, cells[3].Text = "______________________", "after the sweep"
	})
}

func (k *packet) sign() {
	k.Heading("Decision")
	k.Paragraph("Yes means: this plan, with the code at the foot of the page, on this day. Any change of seats, "+
		"people or lanes needs a new yes.", paper.SizeBody)
	for _, s := range append(slices.Clone(k.words.Signs), "asks for it") {
		k.Need(14)
		k.Y += 11
		for i, word := range []string{"yes", "no"} {
			x := k.Left() + float64(14*i)
			k.Tick(x, k.Y-1.5)
			k.Text(x+paper.TickSide+1, k.Y, 9, regular, word)
		}
		x := k.Left() + 30
		width := k.Right() - x
		k.Blank(x, k.Y, width*0.62, s)
		k.Blank(x+float64(width*0.66), k.Y, width*0.34, "date")
		k.Y += 3
	}
}
