package tables

import (
	"bufio"
	"encoding/json"
	"io"
	"math"
	"strconv"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// PlanVersion is the version of plan.json that PlanJSON writes and ReadPlan reads.
const PlanVersion = 1

// Digits after the point in plan.json. Rounding keeps the file short and hides what processors may
// differ in: the last bits of floating-point results.
const (
	metreDigits    = 6  // a micrometre
	pixelDigits    = 4  // corners
	areaDigits     = 1  // square pixels
	shareDigits    = 4  // shares and scores
	focalDigits    = 6  // pixels
	rotationDigits = 12 // a turn of 1e-12 moves nothing by a millionth of a pixel
)

// PlanJSON writes plan.json, version 1, seat by seat without holding it in
// memory. Places are metres in world axes, corners pixels in the order top-left,
// top-right, bottom-right, bottom-left of the card as somebody sees it who faces its front; a seat without
// a card has empty "card" and "corners". Errors are those of w.
func PlanJSON(w io.Writer, p *mosaic.Plan) error {
	j := &jsonWriter{out: bufio.NewWriterSize(w, 1<<16)}
	view := p.Marks[0].View
	j.raw(`{"version":`).integer(PlanVersion)
	j.raw(`,"code":`).text(p.Code)
	j.raw(`,"title":`).text(p.Stunt.Title)
	j.raw(`,"picture":[`).integer(view.Width).raw(`,`).integer(view.Height).raw(`]`)
	j.raw(",\n\"camera\":")
	j.camera(view)
	j.raw(",\n\"marks\":[")
	for i := range p.Marks {
		j.comma(i)
		j.mark(p, i)
	}
	j.raw("],\n")
	j.stray(p)
	j.raw("\"palette\":[")
	for i, c := range p.Stunt.Colours {
		j.comma(i).raw(`{"name":`).text(c.Name)
		j.raw(`,"hex":`).text(c.RGB.Hex()).raw(`}`)
	}
	j.raw("],\n\"seats\":[")
	for i := range p.Stands.Seats {
		j.comma(i).raw("\n")
		j.seat(p, i)
	}
	j.raw("],\n\"cues\":[")
	for i := range p.Cues {
		j.comma(i)
		j.cue(p, i)
	}
	j.raw("],\n\"cards\":[")
	for i, c := range p.Cards {
		j.comma(i).raw(`{"id":`).text(c.ID)
		j.raw(`,"sides":[`).integer(int(c.Sides[0])).raw(`,`).integer(int(c.Sides[1])).raw(`]}`)
	}
	j.raw("],\n\"hands\":[")
	for seat := range p.Stands.Seats {
		j.comma(seat).raw(`[`)
		for cue := range p.Hands {
			h := p.Hands[cue][seat]
			j.comma(cue).raw(`[`).integer(int(h.Card)).raw(`,`).integer(int(h.Side)).raw(`]`)
		}
		j.raw(`]`)
	}
	j.raw("],\n\"advice\":[")
	for i := range p.Advice {
		j.comma(i)
		j.advised(&p.Advice[i])
	}
	j.raw("]}\n")
	return j.finish()
}

// jsonWriter writes JSON piece by piece; the first error stays.
type jsonWriter struct {
	out *bufio.Writer
	buf []byte
	err error
}

func (j *jsonWriter) finish() error {
	if j.err != nil {
		return j.err
	}
	return j.out.Flush()
}

func (j *jsonWriter) raw(s string) *jsonWriter {
	if j.err == nil {
		_, j.err = j.out.WriteString(s)
	}
	return j
}

func (j *jsonWriter) bytes() *jsonWriter {
	if j.err == nil {
		_, j.err = j.out.Write(j.buf)
	}
	return j
}

// comma parts list entries.
func (j *jsonWriter) comma(i int) *jsonWriter {
	if i > 0 {
		j.raw(",")
	}
	return j
}

func (j *jsonWriter) integer(n int) *jsonWriter {
	j.buf = strconv.AppendInt(j.buf[:0], int64(n), 10)
	return j.bytes()
}

func (j *jsonWriter) text(s string) *jsonWriter {
	b, err := json.Marshal(s)
	if err != nil { // a string always marshals
		j.err = err
		return j
	}
	j.buf = append(j.buf[:0], b...)
	return j.bytes()
}

// float writes v rounded to so many digits, the shortest way.
func (j *jsonWriter) float(v float64, digits int) *jsonWriter {
	j.buf = appendRounded(j.buf[:0], v, digits)
	return j.bytes()
}

func (j *jsonWriter) floats(list []float64, digits int) *jsonWriter {
	j.raw(`[`)
	for i, v := range list {
		j.comma(i).float(v, digits)
	}
	return j.raw(`]`)
}

// appendRounded writes v with at most so many digits after the point and
// nothing that need not be there; JSON has no NaN or infinity, they become 0.
func appendRounded(b []byte, v float64, digits int) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(b, '0')
	}
	from := len(b)
	b = strconv.AppendFloat(b, v, 'f', digits, 64)
	if digits > 0 {
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
		if b[len(b)-1] == '.' {
			b = b[:len(b)-1]
		}
	}
	if string(b[from:]) == "-0" {
		b = append(b[:from], '0')
	}
	return b
}

func (j *jsonWriter) camera(v *camera.View) {
	j.raw(`{"position":`).floats(v.Position[:], metreDigits)
	j.raw(`,"rotation":[`)
	for i := range v.Rotation {
		j.comma(i).floats(v.Rotation[i][:], rotationDigits)
	}
	j.raw(`],"focal_px":`).float(v.Focal, focalDigits)
	j.raw(`,"center":`).floats(v.Center[:], focalDigits)
	j.raw(`}`)
}

// mark writes marks[i]; the first one is always called "camera".
func (j *jsonWriter) mark(p *mosaic.Plan, i int) {
	m := &p.Marks[i]
	name := m.View.Name
	if i == 0 {
		name = "camera"
	}
	j.raw("\n{\"name\":").text(name)
	j.raw(`,"picture":[`).integer(m.View.Width).raw(`,`).integer(m.View.Height).raw(`]`)
	j.raw(`,"camera":`)
	j.camera(m.View)
	j.raw(`,"visible":[`)
	for k, v := range m.Sight.Seen {
		j.comma(k).float(float64(v), shareDigits)
	}
	j.raw(`],"scores":`).floats(m.Scores, shareDigits)
	j.phone(p, i)
	j.raw(`}`)
}

func (j *jsonWriter) seat(p *mosaic.Plan, i int) {
	s := &p.Stands.Seats[i]
	section := &p.Stands.Sections[s.Section]
	j.raw(`{"id":`).text(p.Stands.ID(i))
	j.raw(`,"section":`).text(section.Name)
	j.raw(`,"row":`).text(section.Rows[s.Row].Name)
	j.raw(`,"seat":`).integer(int(s.Number))
	j.raw(`,"use":`).text(s.Use.String())
	j.raw(`,"block":`).text(block(p, int32(i)))
	j.raw(`,"position":`).floats(s.Position[:], metreDigits)
	j.raw(`,"card":`)
	quad, ok := p.Scene.CardQuad(i)
	j.quad(quad, ok)
	sight := p.Marks[0].Sight
	j.raw(`,"corners":`)
	j.corners(sight.Corners[i], ok)
	j.raw(`,"visible":`).float(float64(sight.Seen[i]), shareDigits)
	j.raw(`,"pixels":`).float(float64(sight.Pixels[i]), areaDigits)
	j.raw(`}`)
}

func (j *jsonWriter) quad(quad [4]seating.Point, ok bool) {
	j.raw(`[`)
	if ok {
		for i := range quad {
			j.comma(i).floats(quad[i][:], metreDigits)
		}
	}
	j.raw(`]`)
}

// corners stays empty where a corner lies behind the lens and so has no place in the picture.
func (j *jsonWriter) corners(c [4]camera.Pixel, ok bool) {
	for i := range c {
		for _, v := range c[i] {
			ok = ok && !math.IsNaN(v) && !math.IsInf(v, 0)
		}
	}
	j.raw(`[`)
	if ok {
		for i := range c {
			j.comma(i).floats(c[i][:], pixelDigits)
		}
	}
	j.raw(`]`)
}

func (j *jsonWriter) cue(p *mosaic.Plan, i int) {
	c := &p.Cues[i]
	j.raw("\n{\"name\":").text(c.Name)
	j.raw(`,"at":`).text(c.At)
	j.raw(`,"colours":[`)
	for i, v := range c.Colours {
		j.comma(i).integer(int(v))
	}
	j.raw(`],"legibility":`)
	j.reading(&c.Reading)
	j.chances(p, i)
	j.raw(`}`)
}

// advised writes what was tried for one cue, counted from 0, and what of it helps, best first.
func (j *jsonWriter) advised(a *mosaic.Advised) {
	j.raw("\n{\"cue\":").integer(a.Cue).raw(`,"before":`).float(a.Before, shareDigits)
	j.raw(`,"tried":`).integer(a.Tried).raw(`,"helps":[`)
	for i := range a.Advice {
		h := &a.Advice[i]
		j.comma(i).raw(`{"change":`).text(h.Change)
		j.raw(`,"do":`).text(h.Do)
		j.raw(`,"after":`).float(h.After, shareDigits)
		j.raw(`,"verdict":`).text(string(h.Verdict)).raw(`}`)
	}
	j.raw(`]}`)
}

func (j *jsonWriter) reading(r *legibility.Reading) {
	j.raw(`{"score":`).float(r.Score, shareDigits)
	j.raw(`,"verdict":`).text(string(r.Verdict))
	j.raw(`,"letters":[`)
	for i, l := range r.Letters {
		j.comma(i).raw(`{"letter":`).text(l.Letter)
		j.raw(`,"margin":`).float(l.Margin, shareDigits)
		j.raw(`,"rival":`).text(l.Rival)
		if l.Why != "" {
			j.raw(`,"why":`).text(l.Why)
		}
		j.raw(`}`)
	}
	j.raw(`],"empty_ok":`).float(r.EmptyOK, shareDigits)
	j.raw(`,"wrong_ok":`).float(r.WrongOK, shareDigits)
	j.raw(`}`)
}
