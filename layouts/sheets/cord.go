package sheets

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// NeedsCord says whether people with cards sit on benches, which may have no seat numbers.
func NeedsCord(p *mosaic.Plan) bool { return len(cordsOf(p)) > 0 }

// PitchCord writes cord.pdf: for benches without seat numbers, a drawing of the cord or tape that shows
// where each seat is, one for every pitch and way of numbering, its marks numbered and measured from the
// row's end in both units. Errors are *seating.Fault.
func PitchCord(w io.Writer, p *mosaic.Plan) error {
	f, err := uprightFlow(p, "Pitch cord")
	if err != nil {
		return err
	}
	f.title("Pitch cord: where each seat is on a bench", occasion(p))
	cords := cordsOf(p)
	if len(cords) == 0 {
		f.paragraph("Nobody with a card sits on a bench in this plan: no cord is needed.", 12)
		return f.finish(w)
	}
	f.paragraph("For benches without seat numbers. Where the numbers are painted on the bench, this page is not needed.", 11)
	f.y += 1
	for i, s := range []string{
		"Take a cord or tape that does not stretch. Make a loop at one end: that is 0. Tie a knot or draw a mark at every length below, measured from the loop each time and never from mark to mark, and write the mark's number beside it.",
		"Hold the loop at the end of the row that is named below, lay the cord along the seat board and pull it tight. On a curved bench it follows the curve. Where a bench is longer than its row of seats, leave as much over at one end as at the other.",
		"One seat lies between two marks; its number stands in the box between them. A seat that is missing keeps its two marks. Lay the cards, or put a strip of tape at every mark the night before, and go on to the next row.",
	} {
		f.item(strconv.Itoa(i+1)+".", s, sizeBody)
	}
	for i := range cords {
		f.cord(&cords[i])
	}
	return f.finish(w)
}

// cord is one cord: sections with the same pitch and the same way of numbering share it.
type cord struct {
	pitch    seating.Length
	numbers  seating.SeatNumbering
	sections []int
	places   int // of the longest row
}

// cordsOf lists the cords, in the order of the sections.
func cordsOf(p *mosaic.Plan) []cord {
	var cords []cord
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		if sec.Spec.Kind != seating.Bench || !holdsCards(p, sec) {
			continue
		}
		c := cord{pitch: sec.Spec.Pitch, numbers: sec.Spec.SeatNumbers}
		c.numbers.Start, c.numbers.Step = max(c.numbers.Start, 1), max(c.numbers.Step, 1)
		i := slices.IndexFunc(cords, func(o cord) bool { return o.pitch == c.pitch && o.numbers == c.numbers })
		if i < 0 {
			i = len(cords)
			cords = append(cords, c)
		}
		cords[i].sections = append(cords[i].sections, k)
		cords[i].places = max(cords[i].places, mostPlaces(sec))
	}
	return cords
}

func holdsCards(p *mosaic.Plan, sec *seating.Section) bool {
	for s := sec.First; s < sec.Last; s++ {
		if p.Stands.Seats[s].Use == seating.UseCard {
			return true
		}
	}
	return false
}

// The drawing of a cord, in lines of as many seats as the paper is wide for. Millimetres.
const (
	cordSeat = 16.5 // least width of a seat
	cordLoop = 9.0  // before the first mark
	cordRest = 8.0  // after the last one
	cordHigh = 25.0 // of a line
	cordSize = 9.0  // points
)

// cord draws one cord with its measures.
func (f *flow) cord(c *cord) {
	names := make([]string, len(c.sections))
	for i, k := range c.sections {
		names[i] = f.plan.Stands.Sections[k].Name
	}
	title := "Section " + names[0]
	if len(names) > 1 {
		title = "Sections " + strings.Join(names, ", ")
	}
	room := f.width() - cordLoop - cordRest
	seats := max(1, int(room/cordSeat))
	f.need(lineHeight(sizeHead)*3 + cordHigh*float64(min((c.places+seats-1)/seats, 3)))
	f.heading(fmt.Sprintf("%s: %s, a mark every %s (%s)", title, plural(c.places, "seat"), inInches(c.pitch), inCentimetres(c.pitch)))
	camera, person := "LEFT", "right"
	if c.numbers.From == seating.Right {
		camera, person = "RIGHT", "left"
	}
	whole := c.pitch * seating.Length(c.places)
	f.paragraph(fmt.Sprintf("Loop at the %s end of the row as the camera sees it: that is your %s hand when you sit there. The whole cord is %s (%s) long.",
		camera, person, inInches(whole), inCentimetres(whole)), sizeBody)
	for from := 0; from < c.places; from += seats {
		f.need(cordHigh)
		f.cordLine(c, from, min(from+seats, c.places), room/float64(seats))
		f.y += cordHigh
	}
}

// cordLine draws the seats from one mark to another.
func (f *flow) cordLine(c *cord, from, to int, step float64) {
	p := f.pen()
	x, y := f.left+cordLoop, f.y+10
	at := func(mark int) float64 { return x + float64(mark-from)*step }
	p.lineColour(black)
	p.lineWidth(0.9)
	end := at(to)
	if to < c.places {
		end += 4 // it goes on
	}
	p.line(x-4, y, end, y)
	if from == 0 {
		p.pdf.Circle(x-6, y, 2, "D")
	}
	for mark := from; mark <= to; mark++ {
		f.cordMark(c, mark, at(mark), y)
		if mark == to {
			break
		}
		n := strconv.Itoa(c.numbers.Start + mark*c.numbers.Step)
		p.lineWidth(0.3)
		p.box(at(mark)+step/2-4.5, y-7, 9, 5.4)
		p.textMiddle(at(mark)+step/2, y-4.3+capMM(10)/2, sizeFor(n, bold, 8, 10), bold, n)
	}
}

// cordMark is a knot with its number above and its distance from the loop below.
func (f *flow) cordMark(c *cord, mark int, x, y float64) {
	p := f.pen()
	p.fillColour(black)
	p.pdf.Circle(x, y, 1.3, "F")
	p.textMiddle(x, y-2.2, cordSize, bold, strconv.Itoa(mark))
	if mark == 0 {
		p.textMiddle(x, y+5.2, cordSize-1, regular, "loop")
		return
	}
	l := c.pitch * seating.Length(mark)
	p.textMiddle(x, y+5.2, cordSize-1, bold, inInches(l))
	p.textMiddle(x, y+9, cordSize-1, regular, inCentimetres(l))
}

// inInches is a length to the next sixteenth of an inch: "19 11/16 in".
func inInches(l seating.Length) string {
	n := int64(math.Round(float64(l) / float64(seating.Inch) * 16))
	whole, part, of := n/16, n%16, int64(16)
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d in", part, of)
	}
	return fmt.Sprintf("%d %d/%d in", whole, part, of)
}

// inCentimetres is a length to the next millimetre: "50.8 cm".
func inCentimetres(l seating.Length) string {
	mm := int64(math.Round(float64(l) / float64(seating.Millimetre)))
	if mm%10 == 0 {
		return fmt.Sprintf("%d cm", mm/10)
	}
	return fmt.Sprintf("%d.%d cm", mm/10, mm%10)
}
