package sheets

import (
	"io"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// Trial writes trial.pdf, the hour of the week before: twelve people in two rows of six at the real mark, with a card
// of every colour, an empty seat and two ways of holding, and what to look at afterwards. Errors are *seating.Fault.
func Trial(w io.Writer, b *brief.Brief) error {
	if len(b.Plan.Marks) == 0 || b.Plan.Marks[0].View == nil {
		return errNoCamera
	}
	return running(w, b, "Trial with twelve people", "Trial: twelve people, the week before", func(f *flow) {
		t := &b.Paper.Trial
		if len(t.Rows) == 0 {
			f.Paragraph("No section has two rows one behind the other with six people with cards each: sit twelve "+
				"people as near to that as the stands allow, in two rows.", 12)
		} else {
			f.Paragraph(t.Intro, paper.SizeBody)
			f.Y += 1
			f.Pair("Where", t.Where)
			f.Pair("When", t.When)
			f.Pair("Bring", t.Bring)
			f.trialSeats(t)
		}
		f.Heading("What to film, ten seconds each")
		type shot struct{ Number, What, For string }
		var shots []shot
		for i, s := range t.Shots {
			shots = append(shots, shot{strconv.Itoa(i + 1), s[0], s[1]})
		}
		table(f, 9.5, []column{{"Shot", 0, strong}, {"What", 1.4, 0}, {"For", 1, 0}, {"Done", 0, tick}}, shots, nil)
		f.Heading("What to read off the film, full size")
		f.Dashes(t.Look...)
	})
}

// trialSeats draws both rows as the camera sees them and names the seats.
func (f *flow) trialSeats(t *brief.Trial) {
	f.Heading("Who sits where, as the camera sees it")
	if t.TooMany != "" {
		f.Paragraph(t.TooMany, paper.SizeBody)
	}
	const high, label, across = 21.0, 26.0, 7
	cellWidth := min((f.Inner()-label)/across, 22)
	f.Need(2*high + 22)
	f.Y += 3
	left := f.Left() + label
	for i, row := range t.Rows {
		x, name := left, "back row"
		if i == 1 {
			x, name = x+cellWidth/2, "front row"
		}
		f.Text(f.Left(), f.Y+high/2, 10, bold, name)
		f.Text(f.Left(), f.Y+high/2+paper.LineHeight(9), 9, regular, regular.Shorten(row.Name, 9, label-2))
		for k := range row.Seats {
			f.trialSeat(x+float64(float64(k)*cellWidth), f.Y, cellWidth, high, &row.Seats[k])
		}
		f.Y += high + 1.5
	}
	f.Y += 3
	end := left + float64(cellWidth*across)
	f.Text(left, f.Y, 9, bold, "LEFT as the camera sees it")
	f.TextRight(end, f.Y, 9, bold, "RIGHT as the camera sees it")
	f.Y += paper.LineHeight(8.5)
	f.Text(left, f.Y, 8.5, regular, "right hand of whoever sits there")
	f.TextRight(end, f.Y, 8.5, regular, "left hand of whoever sits there")
	f.Y += 3
	f.Paragraph(t.Pixels, paper.SizeBody)
}

// trialSeat is one place of the drawing.
func (f *flow) trialSeat(x, y, w, h float64, s *brief.TrialSeat) {
	f.Stroke(black, 0.3)
	if s.Colour < 0 {
		f.Dashed(1.5, 1)
		f.Box(x+0.6, y+0.6, w-1.2, h-1.2)
		f.Solid()
		f.TextMiddle(x+w/2, y+h/2-1, 9, bold, "EMPTY")
	} else {
		f.Swatch(x+0.6, y+0.6, w-1.2, h-9.5, f.Palette[s.Colour])
		f.Box(x+0.6, y+0.6, w-1.2, h-1.2)
		name := f.plan.Stunt.Colours[s.Colour].Name
		size := max(regular.SizeFor(name, w-2, 8), paper.SizeLeast)
		f.TextMiddle(x+w/2, y+h-5.2, size, regular, regular.Shorten(name, size, w-2))
	}
	size := max(bold.SizeFor(s.ID, w-2, 8), paper.SizeLeast)
	f.TextMiddle(x+w/2, y+h-1.8, size, bold, bold.Shorten(s.ID, size, w-1.4))
}
