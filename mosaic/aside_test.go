package mosaic

import (
	"strconv"
	"strings"
	"testing"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// A text off the middle, or on fewer rows or sections than there are, says why, and which way: judged by where the
// cards of the letters lie in the picture of a camera in the middle.
func TestOffTheMiddleSaysWhy(t *testing.T) {
	on := gullhaven()
	on.Cues[0].On = []string{"A", "B"}
	painted := gullhaven()
	for row := range 12 {
		seats := seating.SeatRange{Row: strconv.Itoa(row + 1), From: 1, To: 12}
		painted.Cues[0].Painted = append(painted.Cues[0].Painted, Paint{Section: "C", Seats: seats, Colour: "gold"})
	}
	hidden := gullhaven()
	hidden.Room.Obstacles = []camera.Obstacle{{
		Name: "screen", Kind: "box", Across: 8 * seating.Metre, Away: -2 * seating.Metre,
		Width: 8 * seating.Metre, Depth: seating.Metre / 10, Height: 8 * seating.Metre,
	}}
	aisle := gullhaven()
	aisle.Cues[0].Text = "HELLO"
	narrow := gullhaven()
	narrow.Cues[0].Text = "HI"
	low := gullhaven()
	low.Cues[0].Text = "SEA BREEZE"
	for name, c := range map[string]struct {
		stunt *Stunt
		want  []string
	}{
		"as it is": {gullhaven(), nil},
		"on":       {on, []string{"seats left of the middle of all that are in sight: on = […] does not name section C"}},
		"painted":  {painted, []string{"section C is painted by hand"}},
		"hidden":   {hidden, []string{"too little can be seen of section C"}},
		"aisle":    {aisle, []string{"would lie across an aisle"}},
		"narrow":   {narrow, []string{"leave sections empty"}},
		"low":      {low, []string{"the letters use ", " of 12 rows: higher ones do not fit side by side"}},
	} {
		p := mustMake(t, c.stunt)
		notes := strings.Join(p.Cues[0].Text.Notes, "; ")
		for _, want := range c.want {
			if !strings.Contains(notes, want) {
				t.Errorf("%s: %q does not say %q", name, notes, want)
			}
		}
		off := inkOff(p)
		for side, off := range map[string]float64{"left": -off, "right": off} {
			if said := strings.Contains(notes, side+" of the middle"); said && off < 0.7 || !said && off > 1.3 {
				t.Errorf("%s: %.1f seats off the middle, notes %q", name, off, notes)
			}
		}
	}
}

// inkOff is how many seats the middle of the white cards lies right of the middle of the picture, before which
// the camera stands.
func inkOff(p *Plan) float64 {
	cells, wide := p.Cells, 0.0
	var white []int32
	for i, c := range p.Cues[0].Colours {
		if c == 1 {
			white = append(white, int32(i))
			wide += cells[i][1][0] - cells[i][0][0]
		}
	}
	b := extent(cells, white)
	return ((b[0]+b[2])/2 - float64(p.Marks[0].View.Width)/2) / wide * float64(len(white))
}
