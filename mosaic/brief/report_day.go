package brief

import (
	"fmt"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
)

// reportView is how a cue's text reads from one mark.
type reportView struct {
	Cue, Mark      string
	Score, Verdict string
	Phone, OnPhone string
	Pixels, Small  string
}

// views lists every text from every mark, and on a phone.
func (t *teller) views() (out []reportView) {
	p := t.p
	for i := range p.Cues {
		pixels := t.o.Cues[i].Pixels
		for k, shrunk := range t.o.Cues[i].Phone {
			score := p.Marks[k].Scores[i]
			out = append(out, reportView{
				Cue: cueWords(p, i), Mark: p.Marks[k].View.Name,
				Score: hundredths(score), Verdict: string(legibility.VerdictOf(score)),
				Phone: hundredths(shrunk.Score), OnPhone: string(shrunk.Verdict),
				Pixels: fmt.Sprintf("%.0f", pixels[k]), Small: fmt.Sprintf("%.0f", shrunk.Pixels),
			})
		}
	}
	return out
}

func hundredths(score float64) string { return strconv.FormatFloat(score, 'f', 2, 64) }

// atLeast is a score in whole hundredths, rounded down, so that it agrees with its verdict.
func atLeast(score float64) string { return hundredths(float64(int(float64(score*100)+1e-9)) / 100) }

func cueWords(p *mosaic.Plan, i int) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s", i+1, p.Cues[i].Name))
}

// reportDay is what may go wrong with a cue's text.
type reportDay struct {
	Cue, Mark string // Mark is "" where there is one only
	Shares    []string
	Empty     []reportDayLine
	Others    []reportDayLine
	Most      []string // the seats that matter most
	Map       string   // "" where there is none
	Planned   string
	Unwanted  []reportUnwanted
}

type reportDayLine struct {
	What  string
	Cells []reportScore
}

type reportScore struct{ At, Score, Verdict string }

type reportUnwanted struct{ Section, How, Reads string }

// NamedSeats is how many of the seats that matter most have a number on the map, and a line in the report.
const NamedSeats = 10

// days is what may go wrong with each text.
func (t *teller) days() (out []reportDay) {
	p := t.p
	for i := range p.Cues {
		look := &t.o.Cues[i]
		all := look.Day
		if all == nil {
			continue
		}
		d := reportDay{Cue: cueWords(p, i)}
		if len(p.Marks) > 1 {
			d.Mark = p.Marks[p.WorstMark(i)].View.Name
		}
		for k := range all {
			d.add(p, &all[k])
		}
		for n, s := range look.Matter[:min(len(look.Matter), NamedSeats)] {
			f := look.Falls[s]
			d.Most = append(d.Most, fmt.Sprintf("%d. %s: %s if the seat is empty, %s if the card is wrong", n+1, p.Stands.ID(int(s)), points(f.Empty), points(f.Wrong)))
		}
		if look.Falls != nil {
			d.Map = fmt.Sprintf("pictures/matter-%d.png", i+1)
		}
		d.Planned = look.Planned
		for _, u := range look.Unwanted {
			d.Unwanted = append(d.Unwanted, reportUnwanted{p.Stands.Sections[u.Section].Name, u.How, u.Reads})
		}
		out = append(out, d)
	}
	return out
}

// points is what of 100 is lost, from millionths.
func points(fall int32) string {
	if fall < 0 {
		return "nothing"
	}
	return strconv.FormatFloat(float64(fall)/1e4, 'f', 1, 64)
}

// add puts an outcome into its table.
func (d *reportDay) add(p *mosaic.Plan, o *legibility.Outcome) {
	cell := reportScore{percent(o.Share), atLeast(o.Score), string(o.Verdict)}
	what := map[legibility.Mischief]string{
		legibility.WrongCards: "Cards wrong", legibility.Late: "People late", legibility.Uneven: "Hands more uneven",
		legibility.RowOff: "A row laid one seat off", legibility.RowReversed: "A row laid backwards",
	}[o.What]
	switch o.What {
	case legibility.EmptySeats:
		if len(d.Empty) == 0 || d.Empty[len(d.Empty)-1].What != o.Way {
			d.Empty = append(d.Empty, reportDayLine{What: o.Way})
		}
		line := &d.Empty[len(d.Empty)-1]
		line.Cells = append(line.Cells, cell)
		if len(line.Cells) > len(d.Shares) {
			d.Shares = append(d.Shares, cell.At)
		}
		return
	case legibility.Uneven:
		cell.At = strconv.FormatFloat(o.Share, 'f', -1, 64) + " times"
	case legibility.RowOff, legibility.RowReversed:
		cell.At = "any row"
	}
	if len(d.Others) == 0 || d.Others[len(d.Others)-1].What != what {
		d.Others = append(d.Others, reportDayLine{What: what})
	}
	line := &d.Others[len(d.Others)-1]
	line.Cells = append(line.Cells, cell)
	if o.Worst >= 0 {
		seat := &p.Stands.Seats[o.Worst]
		section := &p.Stands.Sections[seat.Section]
		line.Cells = append(line.Cells, reportScore{
			"the worst, " + section.Name + "-" + section.Rows[seat.Row].Name, atLeast(o.WorstScore), string(legibility.VerdictOf(o.WorstScore)),
		})
	}
}

// reportLight is a pair of colours as the light grows.
type reportLight struct {
	A, B string
	At   []reportLit
}

type reportLit struct{ A, B, Says, Lost string }

// reportLight is the pairs that matter, with their colours as recorded.
func (t *teller) reportLight() (out []reportLight) {
	for _, pair := range t.o.Light {
		line := reportLight{A: pair.A, B: pair.B}
		for _, at := range pair.At {
			lit := reportLit{A: at.A.Hex(), B: at.B.Hex(), Says: fmt.Sprintf("%.1f to 1", at.Contrast)}
			if !pair.Text {
				lit.Says = fmt.Sprintf("CIEDE2000 %.1f", at.Differ)
			}
			if pair.Lost >= 0 && at.Stops >= pair.Lost {
				lit.Lost = "lost"
			}
			line.At = append(line.At, lit)
		}
		out = append(out, line)
	}
	return out
}

// reportSizes is how a cue's text stands beside published rules.
type reportSizes struct {
	Cue, Says string
	Rules     []outlook.Rule
}

func (t *teller) reportSizes() (out []reportSizes) {
	p := t.p
	for i := range p.Cues {
		s := t.o.Cues[i].Sizes
		if s == nil {
			continue
		}
		out = append(out, reportSizes{
			Cue:   cueWords(p, i),
			Says:  fmt.Sprintf("The lowest letter would be %.1f m high, square to the lens, and is %.1f m away.", s.High, s.Distance),
			Rules: s.Rules(),
		})
	}
	return out
}
