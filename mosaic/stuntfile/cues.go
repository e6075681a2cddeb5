package stuntfile

import (
	"fmt"

	"everyseat/mosaic"
)

func (r *reader) cues(s scope, st *mosaic.Stunt) {
	for _, c := range s.each("cue") {
		st.Cues = append(st.Cues, r.cue(c))
	}
}

func (r *reader) cue(s scope) mosaic.Cue {
	var c mosaic.Cue
	s.text("name", &c.Name)
	s.text("text", &c.Text)
	r.image(s, &c)
	r.painted(s, &c)
	s.text("ink", &c.Ink)
	s.text("ground", &c.Ground)
	s.texts("on", &c.On)
	s.text("fit", &c.Fit)
	r.at(s, &c)
	s.close()
	return c
}

func (r *reader) image(s scope, c *mosaic.Cue) {
	var name string
	if !s.text("image", &name) {
		return
	}
	if name, data, ok := r.file(s.t.byName["image"].val, "image"); ok {
		c.ImageName, c.Image = name, data
	}
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

// at reads the count or second of a cue: words, or a bare number.
func (r *reader) at(s scope, c *mosaic.Cue) {
	if v := s.find("at"); v != nil {
		if _, ok := real(v); ok {
			c.At = v.text
			return
		}
		s.text("at", &c.At)
	}
}
