package tables

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
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

// mostMatter is how many of the seats that matter most plan.json names.
const mostMatter = 10

// PlanJSON writes plan.json, version 1, seat by seat without holding it in
// memory. Places are metres in world axes, corners pixels in the order top-left,
// top-right, bottom-right, bottom-left of the card as somebody sees it who faces its front; a seat without
// a card has empty "card" and "corners". Errors are those of w.
func PlanJSON(w io.Writer, b *brief.Brief) error {
	p := b.Plan
	j := &jsonWriter{bufio.NewWriterSize(w, 1<<16)}
	view := p.Marks[0].View
	j.put(`{"version":`, PlanVersion, `,"code":`, text(b.Code), `,"title":`, text(p.Stunt.Title))
	j.put(`,"picture":`, pair(view.Width, view.Height), ",\n\"camera\":")
	j.camera(view)
	j.put(",\n\"marks\":")
	j.list(len(p.Marks), func(i int) { j.mark(b, i) })
	j.put(",\n")
	if s := b.Outlook.Stray; s != nil { // how far the camera may stray from the cross, in metres
		metres := func(r mosaic.Reach) string { return decimal(r.Distance.Metres(), metreDigits) }
		j.put(`"stray":{"left":`, metres(s.Left), `,"right":`, metres(s.Right), `,"nearer":`, metres(s.Nearer))
		j.put(`,"back":`, metres(s.Back), `,"up":`, metres(s.Up), `,"down":`, metres(s.Down), "},\n")
	}
	j.put(`"palette":`)
	j.list(len(p.Stunt.Colours), func(i int) {
		c := &p.Stunt.Colours[i]
		j.put(`{"name":`, text(c.Name), `,"hex":`, text(c.RGB.Hex()), `}`)
	})
	j.put(",\n\"seats\":")
	j.list(len(p.Stands.Seats), func(i int) { j.seat(p, i) })
	j.put(",\n\"cues\":")
	j.list(len(p.Cues), func(i int) { j.cue(p, i, &b.Outlook.Cues[i]) })
	j.put(",\n\"cards\":")
	j.list(len(p.Cards), func(i int) {
		c := &p.Cards[i]
		j.put(`{"id":`, text(c.ID), `,"sides":`, pair(int(c.Sides[0]), int(c.Sides[1])), `}`)
	})
	j.put(",\n\"hands\":")
	j.list(len(p.Stands.Seats), func(seat int) {
		j.list(len(p.Hands), func(cue int) {
			h := p.Hands[cue][seat]
			j.put(pair(int(h.Card), int(h.Side)))
		})
	})
	j.put(",\n\"advice\":")
	j.list(len(b.Outlook.Advice), func(i int) { j.advised(&b.Outlook.Advice[i]) })
	j.put("}\n")
	return j.Flush()
}

// jsonWriter writes JSON piece by piece. Errors stay in it until Flush.
type jsonWriter struct{ *bufio.Writer }

// text is written in quotes.
type text string

// put writes text in quotes, numbers, and JSON as it is.
func (j *jsonWriter) put(pieces ...any) {
	for _, piece := range pieces {
		if t, ok := piece.(text); ok {
			quoted, _ := json.Marshal(string(t)) // a string always marshals
			j.Write(quoted)
		} else {
			fmt.Fprint(j, piece)
		}
	}
}

// list writes n entries.
func (j *jsonWriter) list(n int, entry func(i int)) {
	j.put(`[`)
	for i := range n {
		if i > 0 {
			j.put(`,`)
		}
		entry(i)
	}
	j.put(`]`)
}

func pair(a, b int) string { return fmt.Sprintf("[%d,%d]", a, b) }

// decimal is v with at most so many digits after the point and nothing that need not be there; JSON has no NaN or
// infinity, they become 0.
func decimal(v float64, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "0"
	}
	said := strconv.FormatFloat(v, 'f', digits, 64)
	if digits > 0 {
		said = strings.TrimSuffix(strings.TrimRight(said, "0"), ".")
	}
	if said == "-0" {
		return "0"
	}
	return said
}

func decimals[F float32 | float64](list []F, digits int) string {
	all := make([]string, len(list))
	for i, v := range list {
		all[i] = decimal(float64(v), digits)
	}
	return "[" + strings.Join(all, ",") + "]"
}

func (j *jsonWriter) camera(v *camera.View) {
	j.put(`{"position":`, decimals(v.Position[:], metreDigits), `,"rotation":`)
	j.list(len(v.Rotation), func(i int) { j.put(decimals(v.Rotation[i][:], rotationDigits)) })
	j.put(`,"focal_px":`, decimal(v.Focal, focalDigits), `,"center":`, decimals(v.Center[:], focalDigits), `}`)
}

// mark writes marks[i], with its scores on a phone by cue, where a cue without text has 0; the first one is
// always called "camera".
func (j *jsonWriter) mark(b *brief.Brief, i int) {
	m := &b.Plan.Marks[i]
	name := m.View.Name
	if i == 0 {
		name = "camera"
	}
	phone := make([]float64, len(b.Outlook.Cues))
	for cue := range phone {
		if by := b.Outlook.Cues[cue].Phone; by != nil {
			phone[cue] = by[i].Score
		}
	}
	j.put("\n{\"name\":", text(name), `,"picture":`, pair(m.View.Width, m.View.Height), `,"camera":`)
	j.camera(m.View)
	j.put(`,"visible":`, decimals(m.Sight.Seen, shareDigits))
	j.put(`,"scores":`, decimals(m.Scores, shareDigits), `,"phone":`, decimals(phone, shareDigits), `}`)
}

func (j *jsonWriter) seat(p *mosaic.Plan, i int) {
	s, sight := &p.Stands.Seats[i], p.Marks[0].Sight
	section := &p.Stands.Sections[s.Section]
	j.put("\n{\"id\":", text(p.Stands.ID(i)), `,"section":`, text(section.Name))
	j.put(`,"row":`, text(section.Rows[s.Row].Name), `,"seat":`, s.Number, `,"use":`, text(s.Use.String()))
	j.put(`,"block":`, text(block(p, int32(i))), `,"position":`, decimals(s.Position[:], metreDigits), `,"card":`)
	card, holds := p.Scene.CardQuad(i)
	corners := 0
	if holds {
		corners = len(card)
	}
	j.list(corners, func(k int) { j.put(decimals(card[k][:], metreDigits)) })
	// Empty where a corner lies behind the lens and so has no place in the picture.
	for _, c := range sight.Corners[i] {
		for _, v := range c {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				corners = 0
			}
		}
	}
	j.put(`,"corners":`)
	j.list(corners, func(k int) { j.put(decimals(sight.Corners[i][k][:], pixelDigits)) })
	j.put(`,"visible":`, decimal(float64(sight.Seen[i]), shareDigits))
	j.put(`,"pixels":`, decimal(float64(sight.Pixels[i]), areaDigits), `}`)
}

func (j *jsonWriter) cue(p *mosaic.Plan, i int, look *outlook.Cue) {
	c := &p.Cues[i]
	j.put("\n{\"name\":", text(c.Name), `,"at":`, text(c.At), `,"colours":`)
	j.list(len(c.Colours), func(k int) { j.put(c.Colours[k]) })
	r := &c.Reading
	j.put(`,"legibility":{"score":`, decimal(r.Score, shareDigits), `,"verdict":`, text(r.Verdict), `,"letters":`)
	j.list(len(r.Letters), func(k int) {
		l := &r.Letters[k]
		j.put(`{"letter":`, text(l.Letter), `,"margin":`, decimal(l.Margin, shareDigits), `,"rival":`, text(l.Rival))
		if l.Why != "" {
			j.put(`,"why":`, text(l.Why))
		}
		j.put(`}`)
	})
	j.put(`,"empty_ok":`, decimal(r.EmptyOK, shareDigits), `,"wrong_ok":`, decimal(r.WrongOK, shareDigits), `}`)
	if look.Phone != nil {
		j.chances(p, look)
	}
	j.put(`}`)
}

// chances writes what may become of a cue's text: on a phone from the worst mark, on the day, with which
// seats missing or wrong, and what it reads as when a section goes wrong.
func (j *jsonWriter) chances(p *mosaic.Plan, c *outlook.Cue) {
	worst := c.Phone[0]
	for _, s := range c.Phone {
		if s.Score < worst.Score {
			worst = s
		}
	}
	j.put(`,"phone":{"width":`, legibility.PhoneWidth, `,"score":`, decimal(worst.Score, shareDigits))
	j.put(`,"verdict":`, text(worst.Verdict), `},"day":`)
	j.list(len(c.Day), func(i int) { j.outcome(p, &c.Day[i]) })
	j.put(`,"matter":`)
	j.list(min(len(c.Matter), mostMatter), func(i int) {
		seat := c.Matter[i]
		share := func(millionths int) string { return decimal(float64(millionths)/1e6, shareDigits) }
		j.put(`{"seat":`, text(p.Stands.ID(int(seat))))
		j.put(`,"empty":`, share(int(c.Falls[seat].Empty)), `,"wrong":`, share(int(c.Falls[seat].Wrong)), `}`)
	})
	j.put(`,"unwanted":`)
	j.list(len(c.Unwanted), func(i int) {
		u := &c.Unwanted[i]
		j.put(`{"section":`, text(p.Stands.Sections[u.Section].Name))
		j.put(`,"how":`, text(u.How), `,"reads":`, text(u.Reads), `}`)
	})
}

func (j *jsonWriter) outcome(p *mosaic.Plan, o *legibility.Outcome) {
	j.put("\n{\"what\":", text(o.What))
	if o.Way != "" {
		j.put(`,"way":`, text(o.Way))
	}
	switch {
	case o.What == legibility.Uneven:
		j.put(`,"times":`, decimal(o.Share, shareDigits))
	case o.Share > 0:
		j.put(`,"share":`, decimal(o.Share, shareDigits))
	}
	j.put(`,"score":`, decimal(o.Score, shareDigits), `,"verdict":`, text(o.Verdict))
	if o.Worst >= 0 {
		seat := &p.Stands.Seats[o.Worst]
		section := &p.Stands.Sections[seat.Section]
		j.put(`,"worst":{"section":`, text(section.Name), `,"row":`, text(section.Rows[seat.Row].Name))
		j.put(`,"score":`, decimal(o.WorstScore, shareDigits), `}`)
	}
	j.put(`}`)
}

// advised writes what was tried for one cue, counted from 0, and what of it helps, best first.
func (j *jsonWriter) advised(a *advice.Advised) {
	j.put("\n{\"cue\":", a.Cue, `,"before":`, decimal(a.Before, shareDigits), `,"tried":`, a.Tried, `,"helps":`)
	j.list(len(a.Advice), func(i int) {
		h := &a.Advice[i]
		j.put(`{"change":`, text(h.Change), `,"do":`, text(h.Do))
		j.put(`,"after":`, decimal(h.After, shareDigits), `,"verdict":`, text(h.Verdict), `}`)
	})
	j.put(`}`)
}
