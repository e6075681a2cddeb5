package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// cardSheet is a piece of a job: a label, a row's slip, or one sheet of one card as it is printed: all of a card of
// one colour, or a side of a card of two.
type cardSheet struct {
	row     *brief.Row
	seat    int // index in row.Seats, or aSlip
	card    int16
	side    int8 // that shows the sheet's colour
	nth, of int  // of the seat's cards
	spare   bool // a spare of a row's section, and card is its colour
}

const aSlip = -1

// index is the seat's among all seats, kit its cards.
func (f *cardSheet) index() int   { return int(f.row.Seats[f.seat]) }
func (f *cardSheet) kit() []int16 { return f.row.Kits[f.seat] }

// banner is the page before a job: what to load, what to print on it, what to do with the pile.
type banner struct {
	paper.Job
	what   string // for the footer
	load   string
	under  string // a line below
	colour int16  // of the cards; −1 = of several
	steps  []string
}

// banner prints the page before a job of these pieces.
func (l *labels) banner(d *paper.Document, b *banner, pieces []cardSheet) {
	const body = 12.0
	p := d.AddPage()
	left, inner := d.Left(), d.Inner()
	if b.colour >= 0 {
		side := min(inner*0.14, 30)
		p.Swatch(left+inner-side, edgeMargin+4, side, side, l.palette[b.colour])
	}
	y := edgeMargin + 4 + paper.CapHeight(34)
	title := fmt.Sprintf("JOB %d OF %d", b.Number, b.Of)
	p.Text(left, y, bold.SizeFor(title, inner*0.8, 34), bold, title)
	load := "Load " + b.load
	y += 6 + paper.CapHeight(30)
	p.Text(left, y, bold.SizeFor(load, inner*0.82, 30), bold, load)
	y += 4
	y = p.TextLines(left, y, body, regular, regular.Wrap(b.under, body, inner)) + 3
	for i, step := range b.steps {
		y += 1.5
		p.Text(left, y+paper.LineHeight(body), body, bold, strconv.Itoa(i+1)+".")
		y = p.TextLines(left+8, y, body, regular, regular.Wrap(step, body, inner-8))
	}
	y += 4
	if l.plan.Flashing != "" { // no pile goes without it
		y = p.TextLines(left, y, 10, bold, bold.Wrap("FLASHING: "+l.plan.Flashing, 10, inner)) + 3
	}
	words := "Check: this job has for each row: " + rowCounts(l.plan, pieces[b.First:b.First+b.Count]) + "."
	room := d.Height - footerMargin - 2 - y
	size, lines := largest(words, 11, 5, inner, room)
	p.TextLines(left, y, size, regular, lines[:min(len(lines), int(room/paper.LineHeight(size)))])
	page := fmt.Sprintf("Plan %s, page %d", l.brief.Code, d.Page())
	foot := d.Height - footerMargin + 6.5
	p.TextRight(left+inner, foot, 8, regular, page)
	p.Text(left, foot, 8, regular,
		regular.Shorten(b.what+". "+l.plan.Stunt.Title, 8, inner-regular.Width(8, page)-5))
}

// largest sets words as large as they fit into so much room, in points from most down to least.
func largest(words string, most, least, width, room float64) (size float64, lines []string) {
	for size = most; ; size -= 0.5 {
		lines = regular.Wrap(words, size, width)
		if float64(len(lines))*paper.LineHeight(size) <= room || size <= least {
			return size, lines
		}
	}
}

// rowCounts says how many pieces of each row there are, slips not counted: "B-1 14, B-2 13".
func rowCounts(p *mosaic.Plan, pieces []cardSheet) string {
	pieces = slices.DeleteFunc(slices.Clone(pieces), func(f cardSheet) bool { return f.seat == aSlip })
	var parts []string
	for _, row := range brief.Stretches(pieces, func(a, b cardSheet) bool {
		return a.row == b.row &&
			a.spare == b.spare
	}) {
		name := row[0].row.Name
		if row[0].spare {
			name = "spares of section " + p.Stands.Sections[row[0].row.Section].Name
		}
		parts = append(parts, name+glue+strconv.Itoa(len(row)))
	}
	return strings.Join(parts, ", ")
}

// pagesFrom names the pages of a job after its banner.
func pagesFrom(page, n int) string {
	if n == 1 {
		return "page " + strconv.Itoa(page+1)
	}
	return fmt.Sprintf("pages %d to %d", page+1, page+n)
}

const keepPile = "Keep the pile in its order, with this page on top."

// pileSteps say how the printed pile is cut and stacked, but where a sheet is one piece; then come others.
func pileSteps(g *paper.Grid, j *paper.Job, then ...string) []string {
	if g.Places() == 1 || g.Peeled {
		return then
	}
	return append([]string{
		"Knock the pile square, sheet 1 on top and print up, and cut it as a whole along the marks.",
		fmt.Sprintf("Stack the %s that this gives: pile 1 on top of pile 2, and so on; each piece says its pile. Now "+
			"everything lies in order.", say.Count(j.Piles(), "pile")),
	}, then...)
}
