package mosaic

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// What the crew need not say. Common practice, no source, unless another is named.
const (
	defaultMarkHeight   = 160 * seating.Centimetre
	defaultPictureWide  = 3840 // UHD-1, SMPTE ST 2036-1
	defaultPictureHigh  = 2160
	defaultHandHeight   = 4 * seating.Centimetre
	defaultHandSideways = 2 * seating.Centimetre
	defaultHandTilt     = 8 // degrees
	defaultHelpers      = 6
	defaultPerCard      = 6 * time.Second
	defaultPerRow       = 20 * time.Second
	defaultUp           = 2 * time.Second
	defaultHold         = 15 * time.Second
	defaultWave         = 4 * time.Second
	defaultReady        = 4 * time.Second // from READY to UP

	// ExpectedEmpty and ExpectedWrong are the shares of empty seats and of wrong cards under
	// which every verdict is given: nobody films the perfect picture.
	ExpectedEmpty = 0.08
	ExpectedWrong = 0.01
)

// filled is a copy of s with everything that was left open decided.
func filled(s *Stunt) *Stunt {
	f := *s
	f.Cues = slices.Clone(s.Cues)
	f.Marks = slices.Clone(s.Marks)

	if f.Stands.Expected == 0 {
		f.Stands.Expected = seating.DefaultExpected
	}
	fillCard(&f.Card, f.Print.Paper, len(f.Cues))
	fillMark(&f.Camera, "camera", "camera")
	for i := range f.Marks {
		fillMark(&f.Marks[i], fmt.Sprintf("mark %d", i+1), fmt.Sprintf("mark[%d]", i))
		if s.Marks[i].Picture == [2]int{} {
			f.Marks[i].Picture = f.Camera.Picture
		}
	}
	for i := range f.Cues {
		fillCue(&f.Cues[i], f.Colours, i)
	}
	if f.Laying.Helpers == 0 {
		f.Laying.Helpers = defaultHelpers
	}
	if f.Laying.PerCard == 0 {
		f.Laying.PerCard = defaultPerCard
	}
	if f.Laying.PerRow == 0 {
		f.Laying.PerRow = defaultPerRow
	}
	if f.Print.Paper == "" {
		f.Print.Paper = "Letter"
	}
	if f.Print.Placards == "" {
		f.Print.Placards = Labels
	}
	if f.Print.PerSheet == 0 {
		f.Print.PerSheet = 4 // labels, cut once across
	}
	return &f
}

func fillCard(c *CardSpec, paper string, cues int) {
	if c.Width == 0 && c.Height == 0 {
		c.Width, c.Height = 11*seating.Inch, 17*seating.Inch/2 // ANSI Letter
		if strings.HasPrefix(paper, "A") {
			c.Width, c.Height = 297*seating.Millimetre, 210*seating.Millimetre // ISO 216 A4
		}
	}
	if c.Orientation == "" {
		c.Orientation = "auto"
	}
	if c.Held == camera.Lap { // nobody shows a message on the laps
		c.Held = camera.Eyes
	}
	if c.Kind == "" { // with two cues the front sheet is dropped to the lap
		c.Kind = Sheet
		if cues > 2 {
			c.Kind = Bonded
		}
	}
	if c.HandHeight == 0 {
		c.HandHeight = defaultHandHeight
	}
	if c.HandSideways == 0 {
		c.HandSideways = defaultHandSideways
	}
	if c.HandTilt == 0 {
		c.HandTilt = defaultHandTilt
	}
}

func fillMark(m *camera.Mark, name, key string) {
	m.Key = key
	if m.Name == "" {
		m.Name = name
	}
	if m.Height == 0 {
		m.Height = defaultMarkHeight
	}
	if m.Picture == [2]int{} {
		m.Picture = [2]int{defaultPictureWide, defaultPictureHigh}
	}
}

// fillCue names the cue, and takes the first colour as ground and the second as
// ink where the cue does not say.
func fillCue(c *Cue, colours []Colour, i int) {
	if c.Name == "" {
		c.Name = strings.Join(strings.Fields(c.Text), " ")
	}
	if c.Name == "" {
		c.Name = fmt.Sprintf("cue %d", i+1)
	}
	if c.Ground == "" && len(colours) > 0 {
		c.Ground = colours[0].Name
	}
	if c.Ink == "" && c.Text != "" {
		for _, k := range colours {
			if k.Name != c.Ground {
				c.Ink = k.Name
				break
			}
		}
	}
	if c.UpWithin == 0 {
		c.UpWithin = defaultUp
	}
	if c.Transition == "" {
		c.Transition = AtOnce
	}
	if c.Takes == 0 && c.Transition != AtOnce {
		c.Takes = defaultWave
	}
}

// taken says what was taken for granted and matters to what the camera sees.
func taken(s *Stunt) []string {
	var out []string
	marks := append([]camera.Mark{s.Camera}, s.Marks...)
	for i := range marks {
		if marks[i].Height != 0 {
			continue
		}
		of, table := "the camera", "[camera]"
		if i > 0 {
			table = "[[mark]]"
			if of = fmt.Sprintf("mark %d", i); marks[i].Name != "" {
				of = fmt.Sprintf("mark %q", marks[i].Name)
			}
		}
		out = append(out, fmt.Sprintf("The height of %s is not given: %s above the floor is taken, in somebody's hands. Write height = … under %s.", of, span(defaultMarkHeight.Metres()), table))
	}
	return out
}
