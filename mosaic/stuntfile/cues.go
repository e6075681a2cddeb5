package stuntfile

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/seating"
)

func (r *reader) cue(s scope, c *mosaic.Cue) {
	s.text("name", &c.Name)
	if s.text("text", &c.Text) && strings.TrimSpace(c.Text) == "" {
		s.fault(s.given("text"), "the text is empty", "write the message, or leave the line out")
	}
	s.file("image", func(name string, data []byte) error {
		c.ImageName, c.Image = name, data
		return nil
	})
	r.painted(s, c)
	s.text("ink", &c.Ink)
	s.text("ground", &c.Ground)
	s.texts("on", &c.On)
	r.cueRows(s, &c.Rows)
	s.text("fit", &c.Fit)
	word(s, "reduce", &c.Reduce, mosaic.Flat, mosaic.Diffuse)
	read(s, "exposure", &c.Exposure, `"auto" or a number of stops without quotes`,
		"write exposure = 1 for twice the light, -1 for half of it, 0 for the image as it is",
		func(v *value) (*float64, bool) {
			if stops, ok := real(v); ok {
				return &stops, true
			}
			return nil, v.auto()
		})
	read(s, "focus", &c.Focus, "two shares from 0 to 1",
		"write focus = [0.5, 0.3]: from the image's left and from its top",
		func(v *value) ([2]float64, bool) { return two(v, real, 0, 1) })
	if v := s.find("at"); v != nil { // words, or a bare number of counts or seconds
		if _, ok := real(v); ok {
			c.At = v.text
		} else {
			s.text("at", &c.At)
		}
	}
	s.duration("up", &c.UpWithin)
	s.duration("hold", &c.Hold)
	word(s, "transition", &c.Transition, mosaic.AtOnce, mosaic.LeftToRight, mosaic.RightToLeft, mosaic.BottomToTop,
		mosaic.FromMiddle, mosaic.RowByRow)
	s.duration("takes", &c.Takes)
}

// painted reads seats painted by hand, in the order of the file.
func (r *reader) painted(s scope, c *mosaic.Cue) {
	p, _ := s.inner("painted")
	for _, e := range p.t.entries {
		p.t.asked = append(p.t.asked, e.name)
		section, seats, ok := parseSeats(e.name)
		if !ok || section == "" {
			r.faultAt(e.key.from, fmt.Sprintf("%q is not a seat", e.name),
				`write painted = { "B-3-4" = "CREAM", "B-5-1..3" = "none" }: section, row, seat or seats`)
			continue
		}
		paint := mosaic.Paint{Section: section, Seats: seats}
		if p.readText(e.val, e.name, &paint.Colour) {
			if paint.Colour == none {
				paint.Colour = ""
			}
			c.Painted = append(c.Painted, paint)
		}
	}
}

// cueRows reads one range of rows or a list of them: "3..10", "3..", "..10", "3" or, with the section before it,
// "B-3..10".
func (r *reader) cueRows(s scope, to *[]seating.RowRange) {
	v := s.find("rows")
	if v == nil {
		return
	}
	if v.kind == unstable.Array && len(v.items) == 0 {
		s.fault(v, "rows names no row", "leave the line out if all rows show the cue")
		return
	}
	list(v, "rows", to, func(item *value, key string, rows *seating.RowRange) bool {
		var ok bool
		*rows, ok = parseRows(item.text)
		ok = ok && item.kind == unstable.String
		if !ok {
			s.wrong(item, key, `rows such as "3..10"`, `write rows = ["3..10"], front first; `+
				`"3.." is all rows from 3 to the back, and "B-3..10" is of section B alone`)
		}
		return ok
	})
}

// parseRows reads "3..10", "3..", "..10", "3" or, with the section before it, "B-3..10".
func parseRows(text string) (rows seating.RowRange, ok bool) {
	section, rest, named := strings.Cut(text, "-")
	if !named {
		section, rest = "", text
	}
	from, to, two := strings.Cut(rest, "..")
	if !two {
		to = from
	}
	rows = seating.RowRange{
		Section: strings.TrimSpace(section), From: strings.TrimSpace(from), To: strings.TrimSpace(to),
	}
	return rows, (rows.From != "" || rows.To != "") && named == (rows.Section != "") && !strings.Contains(rest, "-")
}
