package lettering

import (
	"fmt"
	"math"

	"everyseat/mosaic/legibility"
)

// note says in plain words why the text stands where it does and is no larger.
func (s *search) note(d *draft, lay *Layout) {
	for i := range d.items {
		if off := d.off(i); math.Abs(off) >= 1 {
			side := "right"
			if off < 0 {
				side = "left"
			}
			lay.Notes = append(lay.Notes, fmt.Sprintf("%s%.1f seats %s of the middle of the seats that it may use: %s", lineWord(i, len(d.items)), math.Abs(off), side, d.whyOff(i, off)))
		}
	}
	if why := s.whyLow(d); why != "" {
		lay.Notes = append(lay.Notes, why)
	}
	if s.unused(lay.Letters) {
		lay.Notes = append(lay.Notes, s.whyNarrow(d))
	}
}

// off is how far a line stands right of the middle of its intervals, in seats.
func (d *draft) off(line int) float64 {
	intervals := d.intervals[line]
	return (d.at[line][0] + d.end(line) - intervals[0].left - intervals[len(intervals)-1].right) / 2 / d.styles[line].pitch
}

// whyOff is what keeps a line from the middle: a letter that would lie across an aisle there, or its reading.
func (d *draft) whyOff(line int, off float64) string {
	pitch := d.styles[line].pitch
	over := float64(slack * pitch)
	for k, it := range d.items[line] {
		x := d.at[line][k] - float64(off*pitch)
		inside := false
		for _, sp := range d.intervals[line] {
			inside = inside || x >= sp.left-over && x+it.width <= sp.right+over
		}
		if !inside {
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
	why := "they read best so"
	if !s.fitsOver(used) {
		why = "higher ones do not fit side by side, since aisles and the ends of rows lean in the picture; fewer letters can be larger"
	}
	return fmt.Sprintf("the letters use %d of %d rows: %s", used, rows, why)
}

// fitsOver says whether letters fit on more than so many of the rows.
func (s *search) fitsOver(used int) bool {
	for _, h := range s.heights() {
		if h <= used {
			continue
		}
		rows := s.shareRows(h)
		if rows != nil && s.widths(styleFaces()[0], rows, 1.2, 1) != nil {
			return true
		}
	}
	return false
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
			return "the letters are as wide as letters of their height may be, and leave sections empty: more rows would make them wider"
		}
	}
	return "the letters leave sections empty: wider ones would meet an aisle or read no better"
}

// unused says whether a section of the field carries no letter.
func (s *search) unused(letters []Letter) bool {
	carry := map[int32]bool{}
	for _, l := range letters {
		carry[l.Section] = true
	}
	for i := range s.g.field.Seats {
		if s.g.canvas.Places[i].Weight > 0 && !carry[s.g.field.Seats[i].Section] {
			return true
		}
	}
	return false
}

func lineWord(i, of int) string {
	if of == 1 {
		return "the text stands "
	}
	return fmt.Sprintf("line %d stands ", i+1)
}

// misfit says why nothing fits, and what would.
func misfit(f *Field, lines [][]sign) error {
	c := legibility.NewCanvas(f, legibility.Straight(f))
	g := survey(f, c)
	n := len(lines)
	if g.rows() < fewestRows {
		return &Misfit{
			What: fmt.Sprintf("letters need at least %d rows, and the camera sees %d", fewestRows, g.rows()),
			Hint: "use more rows, hold the cards higher, or raise the camera", Small: true,
		}
	}
	if n > 1 && (&search{g: g, lines: lines}).shareRows(g.rows()) == nil {
		return &Misfit{
			What: fmt.Sprintf("%d lines do not fit: %d rows give each fewer than %d", n, g.rows(), fewestRows),
			Hint: fmt.Sprintf("use fewer lines, or make %s of them", cuesWord(n)), Small: true,
		}
	}
	longest := 0
	for _, l := range lines {
		longest = max(longest, len(l))
	}
	s := &search{g: g, lines: lines}
	hint := fmt.Sprintf("make two cues of it, use at most %d letters, or about %d seats across", s.most(longest), int(math.Ceil(float64(longest)*(fewestSeats+1.3))))
	across := s.across()
	if s.most(2) < 1 {
		hint = "use wider sections: a letter must not cross an aisle"
	}
	return &Misfit{
		What: fmt.Sprintf("%d letters do not fit: rows enough for letters share at most %d seats across as the camera sees them, and a letter needs %.0f", longest, int(across), fewestSeats),
		Hint: hint, Small: true,
	}
}

func cuesWord(n int) string {
	if n == 2 {
		return "two cues"
	}
	return fmt.Sprintf("%d cues", n)
}
