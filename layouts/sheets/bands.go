package sheets

import (
	"fmt"
	"io"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
)

// Bands puts bands.pdf (over PerFile bands: bands-1.pdf …): a wrist band or ticket for every seat
// on which anybody may sit, on the stunt's own sheet of labels or on plain paper to be cut into strips. With
// groups they lie group by group, in the order of the roster, and the seats that stay free come last, for
// late-comers. Errors are *seating.Fault.
func Bands(p *mosaic.Plan, put func(name string, write func(io.Writer) error) error) error {
	if err := checkType(p); err != nil {
		return err
	}
	b, err := newBands(p)
	if err != nil {
		return err
	}
	seats := bandSeats(p)
	files := (len(seats) + PerFile - 1) / PerFile
	for i := range files {
		part := seats[i*PerFile : min((i+1)*PerFile, len(seats))]
		if err := put(numbered("bands", i, files), func(w io.Writer) error { return b.file(part, w) }); err != nil {
			return err
		}
	}
	return nil
}

// bands is their design. Millimetres, points.
type bands struct {
	plan   *mosaic.Plan
	grid   sheetGrid
	peeled bool   // labels; else strips to cut
	named  bool   // with names
	code   string // of the list of people
	when   *arrivals
	by     map[int]int // group: its place in when.list

	beside bool    // the words stand beside the id; else below it
	left   float64 // width of the id's part, where they do
	id     float64 // height of the id
	size   float64 // of the words
	lines  int     // of them: the seat, the group, the person, door and time, the plan
}

// Sizes of a band, in millimetres and points.
const (
	bandHigh  = 25.4 // of a strip on plain paper: wrist bands are about an inch wide
	bandPad   = 2.0
	bandLeast = 5.5
	bandMost  = 13.0
	bandID    = 3.5  // least height of the id: figures of 16 minutes of arc at 75 cm
	bandGap   = 4.0  // between the id and the words beside it
	bandWide  = 30.0 // least width of what is printed
)

func newBands(p *mosaic.Plan) (*bands, error) {
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return nil, err
	}
	b := &bands{plan: p, peeled: p.Stunt.Print.BandGrid != nil, named: namesOnPaper(p)}
	if b.peeled {
		if b.grid, err = measuredGrid(p.Stunt.Print.BandGrid, "print.band_grid", paper, printMargin(p)); err != nil {
			return nil, err
		}
	} else {
		usable := paper.Height - edgeMargin - footerMargin
		b.grid = sheetGrid{sheetWidth: paper.Width, sheetHeight: paper.Height, columns: 1, rows: int(usable / bandHigh),
			left: edgeMargin, top: edgeMargin, width: paper.Width - 2*edgeMargin, height: bandHigh, across: paper.Width, down: bandHigh, alongRows: true}
	}
	if b.lines = 4; b.named {
		b.lines = 5
	}
	if !b.fit() {
		return nil, &seating.Fault{Key: "print.band_grid", What: fmt.Sprintf("a band has no room on a label of %.1f × %.1f mm", b.grid.width, b.grid.height), Hint: "take larger labels: about 50 × 25 mm at least"}
	}
	if p.People != nil {
		b.code = p.People.Code()
		b.when = dayOf(p).arrivals
		b.by = map[int]int{}
		for i, one := range b.when.list {
			b.by[one.group] = i
		}
	}
	return b, nil
}

// fit shares the band out between the id and the words, side by side or one below the other; it is false
// where neither has room.
func (b *bands) fit() bool {
	longest := 0.0
	for i := range b.plan.Stands.Seats {
		longest = max(longest, textWidth(1, bold, b.plan.Stands.ID(i)))
	}
	inner, high := b.grid.width-2*bandPad, b.grid.height-2*bandPad
	wanted := longest * high * 0.8 / capMM(1)
	for _, b.beside = range []bool{inner > 2.2*high, false} {
		text := high * 0.6
		b.left, b.id = inner, high*0.34
		if b.beside {
			text = high
			b.left, b.id = min(wanted+bandGap, inner*0.48), high
		}
		b.size = min(bandMost, text/float64(b.lines)/lineHeight(1))
		room := b.left
		if b.beside {
			room -= bandGap
		}
		if b.size >= bandLeast && longest*bandID/capMM(1) <= room && b.id >= bandID && inner >= bandWide {
			return true
		}
	}
	return false
}

// bandSeats are the seats in the order of their bands.
func bandSeats(p *mosaic.Plan) []int32 {
	var seats, free []int32
	for _, s := range p.Order {
		switch seat := &p.Stands.Seats[s]; {
		case seat.Use != seating.UseCard && seat.Use != seating.UsePerson:
		case p.People != nil && p.People.Person[s] == people.None:
			if keptMark(seat) == "" { // kept places are given out in person
				free = append(free, s)
			}
		default:
			seats = append(seats, s)
		}
	}
	if p.People == nil {
		return seats
	}
	groups := make([][]int32, len(p.People.Roster.Groups))
	for _, s := range seats {
		g := p.People.Roster.People[p.People.Person[s]].Group
		groups[g] = append(groups[g], s)
	}
	seats = seats[:0]
	for _, g := range groups {
		seats = append(seats, g...)
	}
	return append(seats, free...)
}

// file prints one file.
func (b *bands) file(seats []int32, w io.Writer) error {
	what := "Bands"
	if b.plan.People != nil {
		what += ", list " + b.code
	}
	d := newDocument(what, b.grid.sheetWidth, b.grid.sheetHeight)
	per := b.grid.places()
	pages := (len(seats) + per - 1) / per
	for k, seat := range seats {
		if k%per == 0 {
			d.addPage().inkColour(black)
			if !b.peeled {
				d.show(d.stamp("cuts", d.width, d.height, func(p *pen) { p.cutLines(&b.grid) }), 0, 0)
				d.footer(b.plan, b.footer(what), pages)
			}
		}
		x, y := b.grid.place(k % per)
		b.band(&d.page, x, y, int(seat))
	}
	return d.write(w)
}

// footer says on sheets of strips who may hold them.
func (b *bands) footer(what string) string {
	if b.named {
		what += ", with names: for each wearer alone, given out by " + nameKeeper(b.plan)
	}
	return what
}

// band prints one.
func (b *bands) band(p *pen, x, y float64, seat int) {
	x, y = x+bandPad, y+bandPad
	inner, high := b.grid.width-2*bandPad, b.grid.height-2*bandPad
	id := b.plan.Stands.ID(seat)
	most := b.id * 0.8 / capHeight * pointsPerMM
	width := b.left
	if b.beside {
		width -= bandGap
	}
	size := sizeFor(id, bold, width, most)
	lines := b.words(seat)
	text := float64(len(lines)) * lineHeight(b.size)
	if b.beside {
		p.text(x, y+high/2+capMM(size)/2, size, bold, id)
		x, y, inner = x+b.left, y+(high-text)/2, inner-b.left
	} else {
		p.text(x, y+capMM(size)+0.5, size, bold, id)
		y += b.id + (high-b.id-text)/2
	}
	for i, line := range lines {
		weight, least := regular, b.size*0.75
		if i == 0 {
			weight = bold
		}
		size := max(sizeFor(line, weight, inner, b.size), least)
		p.text(x, y+(float64(i)+0.8)*lineHeight(b.size), size, weight, shortenText(line, size, weight, inner))
	}
}

// words are the lines of a band: the seat, the group, the person, door and time, the plan.
func (b *bands) words(seat int) []string {
	s := &b.plan.Stands.Seats[seat]
	section := &b.plan.Stands.Sections[s.Section]
	lines := []string{fmt.Sprintf("Section %s, row %s, seat %d", section.Name, section.Rows[s.Row].Name, s.Number)}
	if s.For != "" {
		lines[0] += " (" + s.For + ")"
	}
	code := "Plan " + b.plan.Code
	add := func(texts ...string) []string {
		for _, t := range append(texts, code) {
			if t != "" {
				lines = append(lines, t)
			}
		}
		return lines
	}
	if b.plan.People == nil {
		return add(b.plan.Stunt.Title, b.plan.Stunt.Date)
	}
	code += ", list " + b.code
	who := b.plan.People.Person[seat]
	if who == people.None {
		return add("free, for whoever comes late")
	}
	person := &b.plan.People.Roster.People[who]
	group := &b.plan.People.Roster.Groups[person.Group]
	name := ""
	if b.named && person.Name != "" {
		name = person.Name
		code += ", for the wearer alone"
	}
	return add(group.Name, name, b.comes(int(person.Group)))
}

// comes says when and through which door the group comes.
func (b *bands) comes(g int) string {
	one := &b.when.list[b.by[g]]
	when := one.said
	if when == "" {
		when = b.when.when(one.at)
	}
	if door := b.plan.People.Roster.Groups[g].Door; door != "" {
		return when + ", " + door
	}
	return when
}
