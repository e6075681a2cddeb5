// Package tables writes a plan for spreadsheets and programs: Seats and
// Workbook a line a seat, PlanJSON everything. ReadPlan reads plan.json back.
package tables

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/marks"
	"everyseat/seating"
	"everyseat/seating/people"
)

// writeCSV writes a header, then what lines puts.
func writeCSV(w io.Writer, header []string, lines func(put func(...string))) error {
	out := csv.NewWriter(w)
	put := func(cells ...string) { out.Write(cells) } // errors stay in out until Flush
	put(header...)
	lines(put)
	out.Flush()
	return out.Error()
}

// Seats writes seats.csv: a header, then a line a seat in laying order with
//
//	order      1, 2, 3 … in laying order
//	seat_id    SECTION-ROW-SEAT
//	section, row, seat, block
//	use        card, reserved, person or dropped
//	cue_1 …    the colour shown at each cue; empty = none
//	card_1 …   the card and its side that show it, for example "NAVY A"; empty = none
//	up_1 …     where a cue comes up as a wave: seconds after the call UP; empty = no card
//
// Lines end in \n. Text that a spreadsheet would run as a formula is made
// harmless, see Plain. Errors are those of w.
func Seats(w io.Writer, p *mosaic.Plan) error {
	return writeCSV(w, header(p), func(put func(...string)) {
		var line []string
		for k, seat := range p.Order {
			line = record(line[:0], p, k, seat)
			for i, cell := range line {
				line[i] = Plain(cell)
			}
			put(line...)
		}
	})
}

// Changes writes changes.csv: a header, then a line for each seat that gets something else than before, with
//
//	seat_id, row
//	was, now            its cards, " + " between them; empty = none
//	was_shows, now_shows  the colour at each cue, ", " between them
//
// Text and line ends are as in Seats. Errors are those of w.
func Changes(w io.Writer, c *brief.Changes) error {
	return writeCSV(w, []string{"seat_id", "row", "was", "now", "was_shows", "now_shows"}, func(put func(...string)) {
		for _, r := range c.Rows {
			for _, s := range r.Swaps {
				put(Plain(s.Seat), Plain(r.Name), Plain(strings.Join(s.Was.Cards, " + ")),
					Plain(strings.Join(s.Now.Cards, " + ")),
					Plain(strings.Join(s.Was.Shows, ", ")), Plain(strings.Join(s.Now.Shows, ", ")))
			}
		}
	})
}

func header(p *mosaic.Plan) []string {
	h := []string{"order", "seat_id", "section", "row", "seat", "block", "use"}
	for _, name := range []string{"cue_", "card_"} {
		for i := range p.Cues {
			h = append(h, name+strconv.Itoa(i+1))
		}
	}
	for _, i := range waves(p) {
		h = append(h, "up_"+strconv.Itoa(i+1))
	}
	return h
}

// waves are the cues that come up as a wave, at each seat in its own moment.
func waves(p *mosaic.Plan) (cues []int) {
	for i := range p.Cues {
		if p.Cues[i].Delay != nil {
			cues = append(cues, i)
		}
	}
	return cues
}

// record appends the cells of the k-th seat in laying order.
func record(line []string, p *mosaic.Plan, k int, seat int32) []string {
	s := &p.Stands.Seats[seat]
	section := &p.Stands.Sections[s.Section]
	line = append(line,
		strconv.Itoa(k+1), p.Stands.ID(int(seat)),
		section.Name, section.Rows[s.Row].Name, strconv.Itoa(int(s.Number)),
		block(p, seat), s.Use.String())
	for i := range p.Cues {
		colour := ""
		if k := p.Cues[i].Colours[seat]; k >= 0 {
			colour = p.Stunt.Colours[k].Name
		}
		line = append(line, colour)
	}
	for i := range p.Cues {
		card := "" // its id and the side that faces the camera
		if h := p.Hands[i][seat]; h.Card >= 0 {
			card = p.Cards[h.Card].ID + " " + string(rune('A'+h.Side))
		}
		line = append(line, card)
	}
	for _, i := range waves(p) {
		up := "" // seconds after the call UP
		if p.Hands[i][seat].Card >= 0 {
			up = strconv.FormatFloat(p.Cues[i].Delay[seat].Seconds(), 'f', 1, 64)
		}
		line = append(line, up)
	}
	return line
}

func block(p *mosaic.Plan, seat int32) string {
	if len(p.Blocks) == 0 {
		return ""
	}
	return p.Blocks[seat]
}

// Plain puts an apostrophe before text that a spreadsheet would take for a
// formula when it opens a CSV file: text that begins with = + - @, or with a tab or
// a line end before them (common practice, no source). Other text stays as it is.
func Plain(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r\n", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

// People writes people.csv: a header, then a line a person, group by group in the roster's order, with
//
//	person   the roster's name or code; of a group that was only counted, its name and a number
//	group    the group's name
//	seat_id  SECTION-ROW-SEAT; empty for who may not be filmed and watches from beside the camera
//	block    the seat's block
//
// Lines end in \n; text that a spreadsheet would run as a formula is made harmless, see Plain. The
// file may hold names and stays on the machine. Errors are those of w.
func People(w io.Writer, p *mosaic.Plan, s *people.Seated) error {
	return writeCSV(w, []string{"person", "group", "seat_id", "block"}, func(put func(...string)) {
		for i, person := range s.Roster.People {
			id, in := "", ""
			if seat := s.Seat[i]; seat != people.None {
				id, in = p.Stands.ID(int(seat)), block(p, seat)
			}
			put(Plain(s.Roster.Called(i)), Plain(s.Roster.Groups[person.Group].Name), Plain(id), Plain(in))
		}
	})
}

// Marks writes marks.csv: a header, then a line a place with
//
//	across_m, back_m, height_m  where the lens is; metres, back is before the front row
//	score_fixed                 0…1 of the plan as it is, in thousandths
//	score_replanned             the same, planned anew for this place
//	verdict                     of the plan as it is: reads, marginal, does not read or picture
//
// What was not worked out is empty. The first line is the stunt's own mark; then come the
// maps' places row by row from the stands, left to right, those left out where no camera
// can be; then the best place, if it is not the mark; then the way of a walk. Errors are those of w.
func Marks(w io.Writer, m *marks.Map) error {
	header := []string{"across_m", "back_m", "height_m", "score_fixed", "score_replanned", "verdict"}
	return writeCSV(w, header, func(put func(...string)) {
		write := func(s marks.Scored) {
			put(metres(s.Across), metres(s.Back), metres(s.Height), score(s.Fixed), score(s.Anew),
				string(m.Verdict(s.Fixed)))
		}
		write(m.Here)
		for i := range m.Patches {
			p := &m.Patches[i]
			for k := range p.Fixed {
				s := marks.Scored{Place: p.At(k%p.Cols, k/p.Cols), Fixed: p.Fixed[k], Anew: p.Anew[k]}
				if s.Fixed != marks.Unknown || s.Anew != marks.Unknown {
					write(s)
				}
			}
		}
		if m.BestPlan != nil {
			write(m.Best)
		}
		if m.Walk != nil {
			for _, s := range m.Walk.Steps {
				write(s.Scored)
			}
		}
	})
}

func metres(l seating.Length) string { return strconv.FormatFloat(l.Metres(), 'f', 2, 64) }

func score(s float64) string {
	if s == marks.Unknown {
		return ""
	}
	return strconv.FormatFloat(s, 'f', 3, 64)
}
