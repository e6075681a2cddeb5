package stuntfile

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/seating"
)

func (r *reader) cues(s scope, st *mosaic.Stunt) {
	for _, c := range s.each("cue") {
		st.Cues = append(st.Cues, r.cue(c))
	}
}

func (r *reader) cue(s scope) mosaic.Cue {
	var c mosaic.Cue
	s.text("name", &c.Name)
	if s.text("text", &c.Text) && strings.TrimSpace(c.Text) == "" {
		r.faultAt(s.t.byName["text"].val.at.from, "the text is empty", "write the message, or leave the line out")
	}
	r.image(s, &c)
	r.painted(s, &c)
	s.text("ink", &c.Ink)
	s.text("ground", &c.Ground)
	s.texts("on", &c.On)
	r.cueRows(s, &c.Rows)
	s.text("fit", &c.Fit)
	s.word("reduce", (*string)(&c.Reduce), string(mosaic.Flat), string(mosaic.Diffuse))
	r.exposure(s, &c.Exposure)
	r.focus(s, &c.Focus)
	r.at(s, &c)
	s.duration("up", &c.UpWithin)
	s.duration("hold", &c.Hold)
	s.word("transition", (*string)(&c.Transition), string(mosaic.AtOnce), string(mosaic.LeftToRight), string(mosaic.RightToLeft),
		string(mosaic.BottomToTop), string(mosaic.FromMiddle), string(mosaic.RowByRow))
	s.duration("takes", &c.Takes)
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

// exposure reads the stops of an image, or that they are found.
func (r *reader) exposure(s scope, to **float64) {
	v := s.find("exposure")
	if v == nil || v.kind == unstable.String && v.text == "auto" {
		return
	}
	stops, ok := real(v)
	if !ok {
		s.wrong(v, "exposure", `"auto" or a number of stops without quotes`, "1 is twice the light, -1 half of it, 0 the image as it is")
		return
	}
	*to = &stops
}

// focus reads the point of an image that stays in sight.
func (r *reader) focus(s scope, to *[2]float64) {
	v := s.find("focus")
	if v == nil {
		return
	}
	ok := v.kind == unstable.Array && len(v.items) == 2
	for i := 0; ok && i < 2; i++ {
		to[i], ok = real(v.items[i])
		ok = ok && to[i] >= 0 && to[i] <= 1
	}
	if !ok {
		s.wrong(v, "focus", "two shares from 0 to 1", "write focus = [0.5, 0.3]: from the image's left and from its top")
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

const rowsHint = `write rows = ["3..10"], front first; "3.." is all rows from 3 to the back, and "B-3..10" is of section B alone`

// cueRows reads one range of rows or a list of them.
func (r *reader) cueRows(s scope, to *[]seating.RowRange) {
	v := s.find("rows")
	if v == nil {
		return
	}
	items := []*value{v}
	if v.kind == unstable.Array {
		items = v.items
	}
	if len(items) == 0 {
		r.faultAt(v.at.from, "rows names no row", "leave the line out if all rows show the cue")
		return
	}
	for _, item := range items {
		rows, ok := parseRows(item.text)
		if item.kind != unstable.String || !ok {
			s.wrong(item, "rows", `rows such as "3..10"`, rowsHint)
			return
		}
		*to = append(*to, rows)
	}
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
	rows = seating.RowRange{Section: strings.TrimSpace(section), From: strings.TrimSpace(from), To: strings.TrimSpace(to)}
	return rows, (rows.From != "" || rows.To != "") && named == (rows.Section != "") && !strings.Contains(rest, "-")
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
