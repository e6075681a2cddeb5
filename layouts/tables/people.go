package tables

import (
	"encoding/csv"
	"io"

	"everyseat/mosaic"
	"everyseat/seating/people"
)

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
	out := csv.NewWriter(w)
	// Errors stay in out until Flush.
	out.Write([]string{"person", "group", "seat_id", "block"})
	for i := range s.Roster.People {
		id, in := "", ""
		if seat := s.Seat[i]; seat != people.None {
			id, in = p.Stands.ID(int(seat)), block(p, seat)
		}
		out.Write([]string{Plain(s.Roster.Called(i)), Plain(s.Roster.Groups[s.Roster.People[i].Group].Name), Plain(id), Plain(in)})
	}
	out.Flush()
	return out.Error()
}
