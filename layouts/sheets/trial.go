package sheets

import (
	"io"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// Trial writes trial.pdf, the hour of the week before: twelve people in two rows of six at the real mark,
// with a card of every colour, an empty seat and two ways of holding, and what to look at
// afterwards. Errors are *seating.Fault.
func Trial(w io.Writer, b *brief.Brief) error {
	if len(b.Plan.Marks) == 0 || b.Plan.Marks[0].View == nil {
		return errNoCamera
	}
	f, err := uprightFlow(b, "Trial with twelve people")
	if err != nil {
		return err
	}
	f.Title("Trial: twelve people, the week before", b.Paper.Occasion)
	t := trial{f, &b.Paper.Trial}
	if len(t.words.Rows) == 0 {
		f.Paragraph("No section has two rows one behind the other with six people with cards each: sit twelve people as "+
			"near to that as the stands allow, in two rows.", 12)
	} else {
		t.Paragraph(t.words.Intro, paper.SizeBody)
		t.Y += 1
		t.Pair("Where", t.words.Where)
		t.Pair("When", t.words.When)
		t.Pair("Bring", t.words.Bring)
		t.seats()
	}
	t.Heading("What to film, ten seconds each")
	var rows [][]paper.Cell
	for i, s := range t.words.Shots {
		rows = append(rows, []paper.Cell{{Text: strconv.Itoa(i + 1), Bold: true}, {Text: s[0]}, {Text: s[1]}, {Tick: true}})
	}
	t.Table([]paper.Column{{Head: "Shot"}, {Head: "What", Share: 1.4}, {Head: "For", Share: 1}, {Head: "Done"}}, rows, 9.5)
	t.Heading("What to read off the film, full size")
	t.Dashes(t.words.Look...)
	return f.Finish(w)
}

// trial is the sheet with its words.
type trial struct {
	*flow
	words *brief.Trial
}

// seats draws both rows as the camera sees them and names the seats.
func (t *trial) seats() {
	t.Heading("Who sits where, as the camera sees it")
	if t.words.TooMany != "" {
		t.Paragraph(t.words.TooMany, paper.SizeBody)
	}
	const high, label, across = 21.0, 26.0, 7
	cellWidth := min((t.Inner()-label)/across, 22)
	t.Need(2*high + 22)
	t.Y += 3
	for i, row := range t.words.Rows {
		x, name := t.Left()+label, "back row"
		if i == 1 {
			x, name = x+cellWidth/2, "front row"
		}
		p := &t.Pen
		p.Text(t.Left(), t.Y+high/2, 10, bold, name)
		p.Text(t.Left(), t.Y+high/2+paper.LineHeight(9), 9, regular, regular.Shorten(row.Name, 9, label-2))
		for k := range row.Seats {
			t.seat(x+float64(float64(k)*cellWidth), t.Y, cellWidth, high, &row.Seats[k])
		}
		t.Y += high + 1.5
	}
	p := &t.Pen
	t.Y += 3
	p.Text(t.Left()+label, t.Y, 9, bold, "LEFT as the camera sees it")
	right := t.Left() + label + float64(cellWidth*across)
	p.TextRight(right, t.Y, 9, bold, "RIGHT as the camera sees it")
	t.Y += paper.LineHeight(8.5)
	p.Text(t.Left()+label, t.Y, 8.5, regular, "right hand of whoever sits there")
	p.TextRight(right, t.Y, 8.5, regular, "left hand of whoever sits there")
	t.Y += 3
	t.Paragraph(t.words.Pixels, paper.SizeBody)
}

// seat is one place of the drawing.
func (t *trial) seat(x, y, w, h float64, s *brief.TrialSeat) {
	p := &t.Pen
	p.Stroke(black, 0.3)
	if s.Colour < 0 {
		p.Dashed(1.5, 1)
		p.Box(x+0.6, y+0.6, w-1.2, h-1.2)
		p.Solid()
		p.TextMiddle(x+w/2, y+h/2-1, 9, bold, "EMPTY")
	} else {
		t.Swatch(x+0.6, y+0.6, w-1.2, h-9.5, t.Palette[s.Colour])
		p.Box(x+0.6, y+0.6, w-1.2, h-1.2)
		name := t.plan.Stunt.Colours[s.Colour].Name
		size := regular.SizeFor(name, w-2, 8)
		if size < paper.SizeLeast {
			size, name = paper.SizeLeast, regular.Shorten(name, paper.SizeLeast, w-2)
		}
		p.TextMiddle(x+w/2, y+h-5.2, size, regular, name)
	}
	size := bold.SizeFor(s.ID, w-2, 8)
	p.TextMiddle(x+w/2, y+h-1.8, max(size, paper.SizeLeast), bold, bold.Shorten(s.ID, max(size, paper.SizeLeast), w-1.4))
}
