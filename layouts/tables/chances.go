package tables

import (
	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
)

// mostMatter is how many of the seats that matter most plan.json names.
const mostMatter = 10

// phone writes a mark's scores on a phone, by cue; a cue without text has 0.
func (j *jsonWriter) phone(p *mosaic.Plan, mark int) {
	var scores []float64
	for cue := range p.Cues {
		score := 0.0
		if by := p.Phone(cue); by != nil {
			score = by[mark].Score
		}
		scores = append(scores, score)
	}
	j.raw(`,"phone":`).floats(scores, shareDigits)
}

// chances writes what may become of a cue's text: on a phone from the worst mark, on the day, with which
// seats missing or wrong, and what it reads as when a section goes wrong. A cue without text has none of it.
func (j *jsonWriter) chances(p *mosaic.Plan, cue int) {
	by := p.Phone(cue)
	if by == nil {
		return
	}
	worst := by[0]
	for _, s := range by {
		if s.Score < worst.Score {
			worst = s
		}
	}
	j.raw(`,"phone":{"width":`).integer(legibility.PhoneWidth)
	j.raw(`,"score":`).float(worst.Score, shareDigits)
	j.raw(`,"verdict":`).text(string(worst.Verdict)).raw(`}`)
	j.raw(`,"day":[`)
	for i, o := range p.Day(cue) {
		j.comma(i).raw("\n")
		j.outcome(p, &o)
	}
	j.raw(`],"matter":[`)
	falls := p.Falls(cue)
	for i, s := range p.MatterMost(cue, mostMatter) {
		j.comma(i).raw(`{"seat":`).text(p.Stands.ID(int(s)))
		j.raw(`,"empty":`).float(float64(falls[s].Empty)/1e6, shareDigits)
		j.raw(`,"wrong":`).float(float64(falls[s].Wrong)/1e6, shareDigits).raw(`}`)
	}
	j.raw(`],"unwanted":[`)
	unwanted, _ := p.Unwanted(cue)
	for i, u := range unwanted {
		j.comma(i).raw(`{"section":`).text(p.Stands.Sections[u.Section].Name)
		j.raw(`,"how":`).text(u.How).raw(`,"reads":`).text(u.Reads).raw(`}`)
	}
	j.raw(`]`)
}

func (j *jsonWriter) outcome(p *mosaic.Plan, o *legibility.Outcome) {
	j.raw(`{"what":`).text(string(o.What))
	if o.Way != "" {
		j.raw(`,"way":`).text(o.Way)
	}
	switch {
	case o.What == legibility.Uneven:
		j.raw(`,"times":`).float(o.Share, shareDigits)
	case o.Share > 0:
		j.raw(`,"share":`).float(o.Share, shareDigits)
	}
	j.raw(`,"score":`).float(o.Score, shareDigits)
	j.raw(`,"verdict":`).text(string(o.Verdict))
	if o.Worst >= 0 {
		seat := &p.Stands.Seats[o.Worst]
		section := &p.Stands.Sections[seat.Section]
		j.raw(`,"worst":{"section":`).text(section.Name).raw(`,"row":`).text(section.Rows[seat.Row].Name)
		j.raw(`,"score":`).float(o.WorstScore, shareDigits).raw(`}`)
	}
	j.raw(`}`)
}

// stray writes how far the camera may stray from the cross, in metres; nothing where that is not known.
func (j *jsonWriter) stray(p *mosaic.Plan) {
	s, known := p.Stray()
	if !known {
		return
	}
	j.raw("\"stray\":{")
	for i, way := range []struct {
		name  string
		reach mosaic.Reach
	}{{"left", s.Left}, {"right", s.Right}, {"nearer", s.Nearer}, {"back", s.Back}, {"up", s.Up}, {"down", s.Down}} {
		j.comma(i).text(way.name).raw(`:`).float(way.reach.Distance.Metres(), metreDigits)
	}
	j.raw("},\n")
}
