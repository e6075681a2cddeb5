package sheets

import (
	"errors"
	"fmt"
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// errNoCamera is for plans that were not made by mosaic.Make.
var errNoCamera = errors.New("the plan has no camera")

// Camera writes camera.pdf, one page for the person at the lens: the picture as it should look with
// sections and rows named at its sides, where the tape cross is and how to measure it, the lens,
// what lies at each edge of the frame, what to lock, and the caution. Errors are *seating.Fault.
func Camera(w io.Writer, b *brief.Brief) error {
	p := b.Plan
	if len(p.Marks) == 0 || p.Marks[0].View == nil || len(p.Cues) == 0 {
		return errNoCamera
	}
	// All of it is one page: type and picture shrink until they fit.
	for size, share := paper.SizeBody, 0.42; ; size, share = max(size-0.5, paper.SizeLeast), share-0.02 {
		f, err := uprightFlow(b, "Camera")
		if err != nil {
			return err
		}
		l := lensSheet{flow: f, size: size, share: share}
		f.Title("Camera: what it should look like", b.Paper.Occasion)
		l.pictures()
		for _, pair := range b.Paper.Camera {
			l.PairAt(pair[0], pair[1], size, 30)
		}
		if f.Page() == 1 || share < 0.1 {
			return f.Finish(w)
		}
	}
}

// lensSheet is the page.
type lensSheet struct {
	*flow
	size  float64 // of the type
	share float64 // of the page's height that the picture may take
}

const rowTickRoom = 6.0 // beside the picture

// pictures draws the frame at the first cue over the whole width and the next cues below it.
func (l *lensSheet) pictures() {
	q := newPicture(l.plan, 0, l.Left()+rowTickRoom, l.Y, l.Inner()-2*rowTickRoom)
	// A tall picture leaves room for the words.
	if high := (l.Bottom() - l.Y) * l.share; q.height > high {
		width := q.width * high / q.height
		q = newPicture(l.plan, 0, (l.Left()+l.Right()-width)/2, l.Y, width)
	}
	q.draw(&l.Pen)
	q.ticks(&l.Pen)
	l.Y += q.height + 7.5
	more := l.otherCues()
	words := "Above: the whole frame at " + brief.CueName(l.plan, 0)
	if more > 0 {
		words += ", and the other cues cut to the cards"
	}
	if n := len(l.plan.Cues) - 1 - more; n > 0 {
		words += fmt.Sprintf("; %s more in pictures/", say.Count(n, "cue"))
	}
	l.Paragraph(words+". Rows at the sides, sections below; heads before the cards are not drawn. If letters stand "+
		"mirrored, stop: the rows were laid from the wrong end.", paper.SizeSmall*l.size/paper.SizeBody)
	l.Y += 1
}

// otherCues draws the cues after the first one, cut to the cards, as many as the page has room for, and counts them.
func (l *lensSheet) otherCues() int {
	const gap, columns, most = 4.0, 3, 9
	more := min(len(l.plan.Cues)-1, most)
	across := min(more, columns)
	width := min((l.Inner()-float64(gap*float64(across-1)))/float64(max(across, 1)), l.Inner()/2)
	for i := range more {
		s := newClosePicture(l.plan, i+1, l.Left()+float64(float64(i%columns)*(width+gap)), l.Y, width)
		s.draw(&l.Pen)
		l.Text(s.x, s.y+s.height+paper.LineHeight(8), 8, regular,
			regular.Shorten(say.Capital(brief.CueName(l.plan, i+1)), 8, width))
		if i%columns == columns-1 || i == more-1 {
			l.Y += s.height + paper.LineHeight(8) + 2
		}
	}
	return more
}
