package layouts

import (
	"fmt"
	"strconv"
	"time"

	"everyseat/layouts/pictures"
	"everyseat/layouts/sheets"
	"everyseat/mosaic"
)

// reportStrip is the whole sequence at a glance, rest before and after.
type reportStrip struct {
	Cells    []stripCell
	Length   string // how long the moving picture plays
	Slowed   bool   // it leaves out what would flash
	PictureW int
	PictureH int
}

// stripCell is one still with what is said below it.
type stripCell struct {
	Picture, Alt, Title string
	Lines               []string
}

func stripOf(p *mosaic.Plan, cues []reportCue, rest string) reportStrip {
	s := reportStrip{Slowed: p.Flashing != "", Length: strconv.FormatFloat(pictures.Length(p).Round(100*time.Millisecond).Seconds(), 'f', -1, 64) + " s"}
	if len(cues) > 0 {
		s.PictureW, s.PictureH = cues[0].PictureW, cues[0].PictureH
	}
	still := stripCell{Picture: "pictures/rest.png", Alt: rest, Title: "Rest"}
	before, after := still, still
	for i := range p.Cues {
		c := &p.Cues[i]
		if i == 0 {
			before.Lines = []string{"READY at " + sheets.Stamped(c.Times.Ready)}
		}
		s.Cells = append(s.Cells, stripCell{
			Picture: cues[i].Picture, Alt: cues[i].Alt, Title: strconv.Itoa(i+1) + " " + c.Name,
			Lines: stripLines(p, i),
		})
		after.Lines = []string{"from DOWN at " + sheets.Stamped(c.Times.Down)}
	}
	s.Cells = append(append([]stripCell{before}, s.Cells...), after)
	return s
}

// stripLines are when and how a cue comes up, how long it stays, and what follows.
func stripLines(p *mosaic.Plan, i int) []string {
	c := &p.Cues[i]
	var lines []string
	if c.At != "" {
		lines = append(lines, "at "+c.At)
	}
	up := "UP " + sheets.Stamped(c.Times.Up) + ", all at once"
	if spec := &p.Stunt.Cues[i]; c.Delay != nil {
		up = fmt.Sprintf("UP %s, %s in %s", sheets.Stamped(c.Times.Up), spec.Transition, shortSeconds(spec.Takes))
	}
	lines = append(lines, up, fmt.Sprintf("all up %s, HOLD %s", sheets.Stamped(c.Times.Full), shortSeconds(c.Times.Down-c.Times.Full)))
	down := "DOWN " + sheets.Stamped(c.Times.Down)
	if i+1 < len(p.Cues) {
		if gap := p.Cues[i+1].Times.Up - c.Times.Down; gap > 0 {
			down += ", rest " + shortSeconds(gap)
		} else {
			down += ", straight into the next"
		}
	}
	return append(lines, down)
}

func shortSeconds(d time.Duration) string {
	return strconv.FormatFloat(d.Seconds(), 'f', -1, 64) + " s"
}
