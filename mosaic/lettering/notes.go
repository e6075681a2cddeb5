package lettering

import (
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic/legibility"
)

// note says in plain words why the text stands where it does and is no larger.
func (s *search) note(d *draft, lay *Layout) {
	for i, in := range d.intervals {
		// how far the line stands right of the middle of its intervals, in seats
		off := (d.at[i][0] + d.end(i) - in[0].left - in[len(in)-1].right) / 2 / d.styles[i].pitch
		if math.Abs(off) < 1 {
			continue
		}
		which, side := "the text", "right"
		if len(d.items) > 1 {
			which = fmt.Sprintf("line %d", i+1)
		}
		if off < 0 {
			side = "left"
		}
		lay.Notes = append(lay.Notes,
			fmt.Sprintf("%s stands %.1f seats %s of the middle of the seats that it may use: %s",
				which, math.Abs(off), side, d.whyOff(i, off)))
	}
	if why := s.whyLow(d); why != "" {
		lay.Notes = append(lay.Notes, why)
	}
	carries := func(section int32) bool {
		return slices.ContainsFunc(lay.Letters, func(l Letter) bool { return l.Section == section })
	}
	for i := range s.g.field.Seats {
		if s.g.canvas.Places[i].Weight > 0 && !carries(s.g.field.Seats[i].Section) {
			lay.Notes = append(lay.Notes, s.whyNarrow(d))
			break
		}
	}
}

// whyOff is what keeps a line from the middle: a letter that would lie across an aisle there, or its reading.
func (d *draft) whyOff(line int, off float64) string {
	pitch := d.styles[line].pitch
	over := float64(slack * pitch)
	for k, it := range d.items[line] {
		x := d.at[line][k] - float64(off*pitch)
		holds := func(in interval) bool { return x >= in.left-over && x+it.width <= in.right+over }
		if !slices.ContainsFunc(d.intervals[line], holds) {
			return fmt.Sprintf("there its %c would lie across an aisle", it.rune)
		}
	}
	return "the letters read best there"
}

// whyLow says why the letters use fewer rows than there are, if they do.
func (s *search) whyLow(d *draft) string {
	rows := s.g.rows()
	used, full := int(math.Round(d.share*float64(rows))), rows
	if s.margin() {
		full -= 2
	}
	if used >= full {
		return ""
	}
	why := "higher ones do not fit side by side, since aisles and the ends of rows lean in the picture; " +
		"fewer letters can be larger"
	for _, h := range s.heights() {
		higher := s.shareRows(h, centred)
		if h > used && higher != nil && s.widths(styleFaces[0], higher, 1.2, 1) != nil {
			why = "they read best so"
			break
		}
	}
	return fmt.Sprintf("the letters use %d of %d rows: %s", used, rows, why)
}

// widthSpare is how much narrower than the widest letters are not called as wide as may be.
const widthSpare = 0.95

// whyNarrow says why letters leave sections empty.
func (s *search) whyNarrow(d *draft) string {
	broad := widest
	if len(d.styles) > 1 {
		broad = widestMany
	}
	for _, st := range d.styles {
		if st.wide >= widthSpare*broad*(st.base-st.top) {
			return "the letters are as wide as letters of their height may be, and leave sections empty: " +
				"more rows would make them wider"
		}
	}
	return "the letters leave sections empty: wider ones would meet an aisle or read no better"
}

// misfit says why nothing fits, and what would.
func misfit(f *Field, lines [][]sign) error {
	s := &search{g: survey(f, legibility.NewCanvas(f, legibility.Straight(f))), lines: lines}
	rows, n := s.g.rows(), len(lines)
	m := &Misfit{Small: true}
	switch {
	case rows < fewestRows:
		m.What = fmt.Sprintf("letters need at least %d rows, and the camera sees %d", fewestRows, rows)
		m.Hint = "use more rows, hold the cards higher, or raise the camera"
	case n > 1 && s.shareRows(rows, centred) == nil:
		m.What = fmt.Sprintf("%d lines do not fit: %d rows give each fewer than %d", n, rows, fewestRows)
		m.Hint = fmt.Sprintf("use fewer lines, or make %d cues of them", n)
		if n == 2 {
			m.Hint = "use fewer lines, or make two cues of them"
		}
	default:
		longest := 0
		for _, l := range lines {
			longest = max(longest, len(l))
		}
		m.What = fmt.Sprintf("%d letters do not fit: rows enough for letters share at most %d seats across "+
			"as the camera sees them, and a letter needs %.0f", longest, int(s.across()), fewestSeats)
		m.Hint = fmt.Sprintf("make two cues of it, use at most %d letters, or about %d seats across",
			s.most(longest), int(math.Ceil(float64(longest)*(fewestSeats+1.3))))
		if s.most(2) < 1 {
			m.Hint = "use wider sections: a letter must not cross an aisle"
		}
	}
	return m
}
