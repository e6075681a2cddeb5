package lettering

import (
	"fmt"
	"math"
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

// off is how far a line stands right of the middle of its spans, in seats.
func (d *draft) off(line int) float64 {
	at, spans := d.at[line], d.spans[line]
	end := at[len(at)-1] + d.items[line][len(at)-1].width
	return (at[0] + end - spans[0].left - spans[len(spans)-1].right) / 2 / d.styles[line].pitch
}

// whyOff is what keeps a line from the middle: a letter that would lie across an aisle there, or its reading.
func (d *draft) whyOff(line int, off float64) string {
	pitch := d.styles[line].pitch
	for k, it := range d.items[line] {
		x := d.at[line][k] - off*pitch
		inside := false
		for _, sp := range d.spans[line] {
			inside = inside || x >= sp.left-slack*pitch && x+it.width <= sp.right+slack*pitch
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
		bands := s.bands(h)
		if bands != nil && s.widths(styleFaces()[0], bands, 1.2, 1) != nil {
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
