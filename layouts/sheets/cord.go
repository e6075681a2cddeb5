package sheets

import (
	"fmt"
	"io"
	"math"
	"math/big"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// NeedsCord says whether people with cards sit on benches, which may have no seat numbers.
func NeedsCord(p *mosaic.Plan) bool { return len(brief.Cords(p)) > 0 }

// PitchCord writes cord.pdf: for benches without seat numbers, a drawing of the cord or tape that shows where each
// seat is, one for every pitch and way of numbering, its marks numbered and measured from the row's end in both units.
// Errors are *seating.Fault.
func PitchCord(w io.Writer, b *brief.Brief) error {
	return running(w, b, "Pitch cord", "Pitch cord: where each seat is on a bench", func(f *flow) {
		cords := brief.Cords(b.Plan)
		if len(cords) == 0 {
			f.Paragraph("Nobody with a card sits on a bench in this plan: no cord is needed.", 12)
			return
		}
		f.Paragraph("For benches without seat numbers. Where the numbers are painted on the bench, this page is not "+
			"needed.", 11)
		f.Y += 1
		f.Steps(paper.SizeBody,
			"Take a cord or tape that does not stretch. Make a loop at one end: that is 0. Tie a knot or draw a mark "+
				"at every length below, measured from the loop each time and never from mark to mark, and write the "+
				"mark's number beside it.",
			"Hold the loop at the end of the row that is named below, lay the cord along the seat board and pull it "+
				"tight. On a curved bench it follows the curve. Where a bench is longer than its row of seats, leave "+
				"as much over at one end as at the other.",
			"One seat lies between two marks; its number stands in the box between them. A seat that is missing "+
				"keeps its two marks. Lay the cards, or put a strip of tape at every mark the night before, and go "+
				"on to the next row.")
		for i := range cords {
			f.cord(&cords[i])
		}
	})
}

// The drawing of a cord, in lines of as many seats as the paper is wide for. Millimetres.
const (
	cordSeat = 16.5 // least width of a seat
	cordLoop = 9.0  // before the first mark
	cordRest = 8.0  // after the last one
	cordHigh = 25.0 // of a line
	cordSize = 9.0  // points
)

func (f *flow) cord(c *brief.Cord) {
	names := make([]string, len(c.Sections))
	for i, k := range c.Sections {
		names[i] = f.plan.Stands.Sections[k].Name
	}
	title := "Section "
	if len(names) > 1 {
		title = "Sections "
	}
	room := f.Inner() - cordLoop - cordRest
	seats := max(1, int(room/cordSeat))
	f.Need(float64(paper.LineHeight(paper.SizeHead)*3) + float64(cordHigh*float64(min((c.Places+seats-1)/seats, 3))))
	f.Heading(fmt.Sprintf("%s: %s, a mark every %s (%s)", title+strings.Join(names, ", "), say.Count(c.Places, "seat"),
		inInches(c.Pitch), inCentimetres(c.Pitch)))
	camera, person := "LEFT", "right"
	if c.Numbers.From == seating.Right {
		camera, person = "RIGHT", "left"
	}
	whole := c.Pitch * seating.Length(c.Places)
	f.Paragraph(fmt.Sprintf("Loop at the %s end of the row as the camera sees it: that is your %s hand when you sit "+
		"there. The whole cord is %s (%s) long.",
		camera, person, inInches(whole), inCentimetres(whole)), paper.SizeBody)
	for from := 0; from < c.Places; from += seats {
		f.Need(cordHigh)
		f.cordLine(c, from, min(from+seats, c.Places), room/float64(seats))
		f.Y += cordHigh
	}
}

// cordLine draws the seats from one mark to another, each mark a knot with its number above and its distance from the
// loop below.
func (f *flow) cordLine(c *brief.Cord, from, to int, step float64) {
	x, y := f.Left()+cordLoop, f.Y+10
	at := func(mark int) float64 { return x + float64(float64(mark-from)*step) }
	f.Stroke(black, 0.9)
	end := at(to)
	if to < c.Places {
		end += 4 // it goes on
	}
	f.Line(x-4, y, end, y)
	if from == 0 {
		f.Circle(x-6, y, 2, paper.Outline)
	}
	for mark := from; mark <= to; mark++ {
		x := at(mark)
		f.Fill(black)
		f.Circle(x, y, 1.3, paper.Area)
		f.TextMiddle(x, y-2.2, cordSize, bold, strconv.Itoa(mark))
		if l := c.Pitch * seating.Length(mark); mark > 0 {
			f.TextMiddle(x, y+5.2, cordSize-1, bold, inInches(l))
			f.TextMiddle(x, y+9, cordSize-1, regular, inCentimetres(l))
		} else {
			f.TextMiddle(x, y+5.2, cordSize-1, regular, "loop")
		}
		if mark < to {
			n := strconv.Itoa(c.Numbers.Start + mark*c.Numbers.Step)
			f.StrokeWidth(0.3)
			f.Box(x+step/2-4.5, y-7, 9, 5.4)
			f.TextMiddle(x+step/2, y-4.3+paper.CapHeight(10)/2, bold.SizeFor(n, 8, 10), bold, n)
		}
	}
}

// inInches is a length to the next sixteenth of an inch: "19 11/16 in".
func inInches(l seating.Length) string {
	n := int64(math.Round(float64(l) / float64(seating.Inch) * 16))
	whole, part := n/16, big.NewRat(n%16, 16)
	switch {
	case n%16 == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return part.String() + " in"
	}
	return fmt.Sprintf("%d %s in", whole, part)
}

// inCentimetres is a length to the next millimetre: "50.8 cm".
func inCentimetres(l seating.Length) string {
	return fmt.Sprintf("%g cm", math.Round(float64(l)/float64(seating.Millimetre))/10)
}
