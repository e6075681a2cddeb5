package tables

import (
	"encoding/csv"
	"io"
	"strconv"

	"everyseat/mosaic/marks"
	"everyseat/seating"
)

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
	out := csv.NewWriter(w)
	// Errors stay in out until Flush.
	out.Write([]string{"across_m", "back_m", "height_m", "score_fixed", "score_replanned", "verdict"})
	write := func(s marks.Scored) {
		out.Write([]string{metres(s.Across), metres(s.Back), metres(s.Height), score(s.Fixed), score(s.Anew), string(m.Verdict(s.Fixed))})
	}
	write(m.Here)
	for i := range m.Patches {
		p := &m.Patches[i]
		for k := range p.Fixed {
			if s := (marks.Scored{Place: p.At(k%p.Cols, k/p.Cols), Fixed: p.Fixed[k], Anew: p.Anew[k]}); s.Fixed != marks.Unknown || s.Anew != marks.Unknown {
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
	out.Flush()
	return out.Error()
}

func metres(l seating.Length) string { return strconv.FormatFloat(l.Metres(), 'f', 2, 64) }

func score(s float64) string {
	if s == marks.Unknown {
		return ""
	}
	return strconv.FormatFloat(s, 'f', 3, 64)
}
