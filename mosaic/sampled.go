package mosaic

import (
	"bytes"
	"fmt"
	"math"
	"slices"

	"everyseat/seating"
)

// sampled is the light of an image at seats, before it is exposed: a cue that shows what one before it
// showed, perhaps exposed in another way, need not open the image again.
type sampled struct {
	data          []byte
	fit           string
	focus         [2]float64
	seats         []int32
	frames        int
	covered, fine []light
	drawn         *drawn // nil for a photograph
}

// sampled opens the cue's image and samples it, or finds it sampled. The lights are the caller's own.
func (m *maker) sampled(cue *Cue, i int, seats []int32) (*sampled, error) {
	for k := range m.samples {
		if s := &m.samples[k]; s.is(cue, seats) {
			own := *s
			own.covered, own.fine = slices.Clone(s.covered), slices.Clone(s.fine)
			return &own, nil
		}
	}
	key := fmt.Sprintf("cue[%d].image", i)
	art, fault := openImage(cue.ImageName, cue.Image)
	if fault != nil {
		fault.Key = key
		return nil, fault
	}
	cells, frame := m.cells[0], box{0, 0, float64(m.p.Marks[0].View.Width), float64(m.p.Marks[0].View.Height)}
	if cue.Fit == "flat" {
		cells, frame = m.flatCells(), box{math.Inf(-1), math.Inf(-1), math.Inf(1), math.Inf(1)}
	}
	into := extent(cells, seats).meet(frame)
	if into.empty() {
		return nil, &seating.Fault{Key: key, What: "none of the seats that should show the image is in the picture", Hint: "turn the camera, or name other sections in on = […]"}
	}
	s := sampled{data: cue.Image, fit: cue.Fit, focus: cue.Focus, seats: seats, frames: art.frames}
	at := art.place(into, cue.Fit == "fill", cue.Focus)
	s.covered, s.fine = art.seatLight(cells, seats, at)
	if len(s.fine) > 0 {
		if main, all := art.mainShades(); isDrawing(main, all) {
			s.drawn = &drawn{art, cells, at, main}
		}
	}
	m.samples = append(m.samples, s)
	s.covered, s.fine = slices.Clone(s.covered), slices.Clone(s.fine)
	return &s, nil
}

func (s *sampled) is(cue *Cue, seats []int32) bool {
	return s.fit == cue.Fit && s.focus == cue.Focus && slices.Equal(s.seats, seats) && bytes.Equal(s.data, cue.Image)
}
