package sheets

import (
	"cmp"
	"io"
	"slices"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/people"
)

// Bands puts bands.pdf (over brief.PerFile bands: bands-1.pdf …): a wrist band or ticket for every seat
// on which anybody may sit, on the stunt's own sheet of labels or on plain paper to be cut into strips. With
// groups they lie group by group, in the order of the roster, and the seats that stay free come last, for
// late-comers. Errors are *seating.Fault.
func Bands(b *brief.Brief, put put) error {
	d, err := newBands(b)
	if err != nil {
		return err
	}
	return putParts(put, "bands", chunks(bandSeats(b.Plan)), d.file)
}

// bands is their design. Millimetres, points.
type bands struct {
	brief  *brief.Brief
	plan   *mosaic.Plan
	grid   paper.Grid
	peeled bool   // labels; else strips to cut
	named  bool   // with names
	code   string // of the list of people

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

func newBands(told *brief.Brief) (*bands, error) {
	p := told.Plan
	size, err := checkedPaper(p)
	if err != nil {
		return nil, err
	}
	b := &bands{brief: told, plan: p, peeled: p.Stunt.Print.BandGrid != nil, named: brief.NamesOnPaper(p), lines: 4}
	if b.peeled {
		if b.grid, err = measuredGrid(p.Stunt.Print.BandGrid, "print.band_grid", size, printMargin(p)); err != nil {
			return nil, err
		}
	} else {
		sheet := sheetOf(size)
		b.grid = paper.Grid{Sheet: sheet, Columns: 1, Rows: int((sheet.Height - edgeMargin - footerMargin) / bandHigh),
			Left: edgeMargin, Top: edgeMargin, Width: sheet.Width - 2*edgeMargin, Height: bandHigh,
			Across: sheet.Width, Down: bandHigh, Peeled: true}
	}
	if b.named {
		b.lines++
	}
	if !b.fit() {
		return nil, fault("print.band_grid", "take larger labels: about 50 × 25 mm at least",
			"a band has no room on a label of %.1f × %.1f mm", b.grid.Width, b.grid.Height)
	}
	if p.People != nil {
		b.code = p.People.Code()
	}
	return b, nil
}

// fit shares the band out between the id and the words, side by side or one below the other; it is false
// where neither has room.
func (b *bands) fit() bool {
	longest := 0.0
	for i := range b.plan.Stands.Seats {
		longest = max(longest, bold.Width(1, b.plan.Stands.ID(i)))
	}
	inner, high := b.grid.Width-2*bandPad, b.grid.Height-2*bandPad
	wanted := longest * high * 0.8 / paper.CapHeight(1)
	for _, b.beside = range []bool{inner > 2.2*high, false} {
		text, room := high*0.6, inner
		b.left, b.id = inner, high*0.34
		if b.beside {
			b.left, b.id = min(wanted+bandGap, inner*0.48), high
			text, room = high, b.left-bandGap
		}
		b.size = min(bandMost, text/float64(b.lines)/paper.LineHeight(1))
		if b.size >= bandLeast && longest*bandID/paper.CapHeight(1) <= room && b.id >= bandID && inner >= bandWide {
			return true
		}
	}
	return false
}

func bandSeats(p *mosaic.Plan) []int32 {
	var seats, free []int32
	for _, s := range p.Order {
		switch seat := &p.Stands.Seats[s]; {
		case seat.Use != seating.UseCard && seat.Use != seating.UsePerson:
		case p.People != nil && p.People.Person[s] == people.None:
			if brief.KeptMark(seat) == "" { // kept places are given out in person
				free = append(free, s)
			}
		default:
			seats = append(seats, s)
		}
	}
	if p.People != nil {
		group := func(s int32) int { return int(p.People.Roster.People[p.People.Person[s]].Group) }
		slices.SortStableFunc(seats, func(a, b int32) int { return cmp.Compare(group(a), group(b)) })
	}
	return append(seats, free...)
}

func (b *bands) file(seats []int32, w io.Writer) error {
	what := "Bands"
	if b.plan.People != nil {
		what += ", list " + b.code
	}
	d := newDocument(b.brief, what, b.grid.Sheet)
	if b.named {
		what += ", with names: for each wearer alone, given out by " + brief.NameKeeper(b.plan)
	}
	per := b.grid.Places()
	for k, seat := range seats {
		if k%per == 0 {
			d.AddPage()
			if !b.peeled {
				d.CutLines(&b.grid)
				d.Footer(what, (len(seats)+per-1)/per)
			}
		}
		x, y := b.grid.Place(k % per)
		b.band(&d.Pen, x, y, int(seat))
	}
	return d.Write(w)
}

func (b *bands) band(p *paper.Pen, x, y float64, seat int) {
	x, y = x+bandPad, y+bandPad
	inner, high := b.grid.Width-2*bandPad, b.grid.Height-2*bandPad
	width := b.left
	if b.beside {
		width -= bandGap
	}
	id := b.plan.Stands.ID(seat)
	size := bold.SizeFor(id, width, b.id*0.8/paper.Capital*paper.PointsPerMM)
	lines := b.words(seat)
	text := float64(len(lines)) * paper.LineHeight(b.size)
	if b.beside {
		p.Text(x, y+high/2+paper.CapHeight(size)/2, size, bold, id)
		x, y, inner = x+b.left, y+(high-text)/2, inner-b.left
	} else {
		p.Text(x, y+paper.CapHeight(size)+0.5, size, bold, id)
		y += b.id + (high-b.id-text)/2
	}
	weight := bold
	for i, line := range lines {
		size := max(weight.SizeFor(line, inner, b.size), b.size*0.75)
		p.Text(x, y+float64((float64(i)+0.8)*paper.LineHeight(b.size)), size, weight, weight.Shorten(line, size,
			inner))
		weight = regular
	}
}

// words are the lines of a band: the seat, the group, the person, door and time, the plan.
func (b *bands) words(seat int) []string {
	lines := []string{seatInWords(b.plan, seat)}
	code := "Plan " + string(b.brief.Code)
	if p := b.plan; p.People == nil {
		lines = append(lines, p.Stunt.Title, p.Stunt.Date, code)
	} else if who := p.People.Person[seat]; who == people.None {
		lines = append(lines, "free, for whoever comes late", code+", list "+b.code)
	} else {
		person := &p.People.Roster.People[who]
		lines = append(lines, p.People.Roster.Groups[person.Group].Name)
		code += ", list " + b.code
		if b.named && person.Name != "" {
			lines = append(lines, person.Name)
			code += ", private" // short: it must not be cut off
		}
		lines = append(lines, b.brief.Paper.Comes[person.Group], code)
	}
	return slices.DeleteFunc(lines, func(s string) bool { return s == "" })
}
