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
	for i := range t.Cues {
		pixels := t.o.Cues[i].Pixels
		for k, shrunk := range t.o.Cues[i].Phone {
			film := t.Marks[k].Scores[i]
			out = append(out, reportView{
				Cue: cueWords(t.Plan, i), Mark: t.Marks[k].View.Name,
				Score: score(film), Verdict: string(legibility.VerdictOf(film)),
				Phone: score(shrunk.Score), OnPhone: string(shrunk.Verdict),
				Pixels: fmt.Sprintf("%.0f", pixels[k]), Small: fmt.Sprintf("%.0f", shrunk.Pixels),
			})
		}
	}
	return out
}

// atLeast is a score in whole hundredths, rounded down, so that it agrees with its verdict.
func atLeast(v float64) string { return score(float64(int(float64(v*100)+1e-9)) / 100) }

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
	for i := range t.Cues {
		look := &t.o.Cues[i]
		if look.Day == nil {
			continue
		}
		d := reportDay{Cue: cueWords(t.Plan, i), Planned: look.Planned}
		if len(t.Marks) > 1 {
			d.Mark = t.Marks[t.WorstMark(i)].View.Name
		}
		for k := range look.Day {
			d.add(t.Plan, &look.Day[k])
		}
		for n, s := range look.Matter[:min(len(look.Matter), NamedSeats)] {
			f := look.Falls[s]
			d.Most = append(d.Most, fmt.Sprintf("%d. %s: %s if the seat is empty, %s if the card is wrong", n+1,
				t.Stands.ID(int(s)), points(f.Empty), points(f.Wrong)))
		}
		if look.Falls != nil {
			d.Map = fmt.Sprintf("pictures/matter-%d.png", i+1)
		}
		for _, u := range look.Unwanted {
			d.Unwanted = append(d.Unwanted, reportUnwanted{t.Stands.Sections[u.Section].Name, u.How, u.Reads})
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
	if o.What == legibility.EmptySeats {
		if line := lineOf(&d.Empty, o.Way, cell); len(line.Cells) > len(d.Shares) {
			d.Shares = append(d.Shares, cell.At)
		}
		return
	}
	switch o.What {
	case legibility.Uneven:
		cell.At = strconv.FormatFloat(o.Share, 'f', -1, 64) + " times"
	case legibility.RowOff, legibility.RowReversed:
		cell.At = "any row"
	}
	line := lineOf(&d.Others, map[legibility.Mischief]string{
		legibility.WrongCards: "Cards wrong", legibility.Late: "People late", legibility.Uneven: "Hands more uneven",
		legibility.RowOff: "A row laid one seat off", legibility.RowReversed: "A row laid backwards",
	}[o.What], cell)
	if o.Worst >= 0 {
		seat := &p.Stands.Seats[o.Worst]
		section := &p.Stands.Sections[seat.Section]
		line.Cells = append(line.Cells, reportScore{"the worst, " + section.Name + "-" + section.Rows[seat.Row].Name,
			atLeast(o.WorstScore), string(legibility.VerdictOf(o.WorstScore))})
	}
}

// lineOf puts a cell on the table's last line, or on a new one where that is of something else.
func lineOf(table *[]reportDayLine, what string, cell reportScore) *reportDayLine {
	if n := len(*table); n == 0 || (*table)[n-1].What != what {
		*table = append(*table, reportDayLine{What: what})
	}
	line := &(*table)[len(*table)-1]
	line.Cells = append(line.Cells, cell)
	return line
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
	for i := range t.Cues {
		if s := t.o.Cues[i].Sizes; s != nil {
			out = append(out, reportSizes{Cue: cueWords(t.Plan, i), Rules: s.Rules(), Says: fmt.Sprintf(
				"The lowest letter would be %.1f m high, square to the lens, and is %.1f m away.", s.High,
				s.Distance)})
		}
	}
	return out
}
