package tables

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"everyseat/mosaic"
)

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
	out := csv.NewWriter(w)
	if err := out.Write(header(p)); err != nil {
		return err
	}
	line := make([]string, 0, 7+2*len(p.Cues))
	for k, seat := range p.Order {
		line = record(line[:0], p, k, seat)
		for i, cell := range line {
			line[i] = Plain(cell)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
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
		line = append(line, colourName(p, p.Cues[i].Colours[seat]))
	}
	for i := range p.Cues {
		line = append(line, cardName(p, p.Hands[i][seat]))
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

func colourName(p *mosaic.Plan, index int16) string {
	if index < 0 {
		return ""
	}
	return p.Stunt.Colours[index].Name
}

// cardName is "NAVY A": the card's id and the side that faces the camera.
func cardName(p *mosaic.Plan, h mosaic.Hold) string {
	if h.Card < 0 {
		return ""
	}
	return p.Cards[h.Card].ID + " " + string(rune('A'+h.Side))
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
