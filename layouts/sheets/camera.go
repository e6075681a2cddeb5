package sheets

import (
	"errors"
	"fmt"
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// errNoCamera is for plans that were not made by mosaic.Make.
var errNoCamera = errors.New("the plan has no camera")

// Camera writes camera.pdf, one page for the person at the lens: the picture as it should look with sections and rows
// named at its sides, where the tape cross is and how to measure it, the lens, what lies at each edge of the frame,
// what to lock, and the caution. Errors are *seating.Fault.
func Camera(w io.Writer, b *brief.Brief) error {
	if err := hasPicture(b); err != nil {
		return err
	}
	// All of it is one page: type and picture shrink until they fit.
	for size, share := paper.SizeBody, 0.42; ; size, share = max(size-0.5, paper.SizeLeast), share-0.02 {
		f, err := uprightFlow(b, "Camera")
		if err != nil {
			return err
		}
		f.Title("Camera: what it should look like", b.Paper.Occasion)
		f.lensPictures(size, share)
		for _, pair := range b.Paper.Camera {
			f.PairAt(pair[0], pair[1], size, 30)
		}
		if f.Page() == 1 || share < 0.1 {
			return f.Finish(w)
		}
	}
}

// hasPicture says whether the plan has one to show.
func hasPicture(b *brief.Brief) error {
	if p := b.Plan; len(p.Marks) == 0 || p.Marks[0].View == nil || len(p.Cues) == 0 {
		return errNoCamera
	}
	return nil
}

const rowTickRoom = 6.0 // beside the picture

// lensPictures draws the frame at the first cue over the whole width and the next cues below it, with words for a
// sheet of this type; the first takes at most a share of the page's height that is left.
func (f *flow) lensPictures(size, share float64) {
	q := f.lowered(newPicture(f.plan, 0, f.Left()+rowTickRoom, f.Y, f.Inner()-2*rowTickRoom), share, newPicture)
	q.draw(&f.Pen)
	q.ticks(&f.Pen)
	f.Y += q.height + 7.5
	more := f.otherCues()
	words := "Above: the whole frame at " + brief.CueName(f.plan, 0)
	if more > 0 {
		words += ", and the other cues cut to the cards"
	}
	if n := len(f.plan.Cues) - 1 - more; n > 0 {
		words += fmt.Sprintf("; %s more in pictures/", say.Count(n, "cue"))
	}
	f.Paragraph(words+". Rows at the sides, sections below; heads before the cards are not drawn. If letters stand "+
		"mirrored, stop: the rows were laid from the wrong end.", paper.SizeSmall*size/paper.SizeBody)
	f.Y += 1
}

// lowered is a picture made anew in the middle of the page where it takes more than a share of the height that is
// left.
func (f *flow) lowered(q picture, share float64, anew func(p *mosaic.Plan, cue int, x, y,
	width float64) picture) picture {
	high := (f.Bottom() - f.Y) * share
	if q.height <= high {
		return q
	}
	width := q.width * high / q.height
	return anew(f.plan, q.cue, (f.Left()+f.Right()-width)/2, f.Y, width)
}

// otherCues draws the cues after the first one, cut to the cards, as many as the page has room for, and counts them.
func (f *flow) otherCues() int {
	const gap, columns, most = 4.0, 3, 9
	more := min(len(f.plan.Cues)-1, most)
	across := min(more, columns)
	width := min((f.Inner()-float64(gap*float64(across-1)))/float64(max(across, 1)), f.Inner()/2)
	for i := range more {
		s := newClosePicture(f.plan, i+1, f.Left()+float64(float64(i%columns)*(width+gap)), f.Y, width)
		s.draw(&f.Pen)
		f.Text(s.x, s.y+s.height+paper.LineHeight(8), 8, regular,
			regular.Shorten(say.Capital(brief.CueName(f.plan, i+1)), 8, width))
		if i%columns == columns-1 || i == more-1 {
			f.Y += s.height + paper.LineHeight(8) + 2
		}
	}
	return more
}
