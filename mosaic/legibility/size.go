package legibility

// Boxes are the letters' boxes in the film: left, top, right, bottom, in its pixels; empty
// where too few of a letter's seats are seen.
func (c *Chances) Boxes() [][4]float64 {
	j := c.judge
	out := make([][4]float64, len(j.boxes))
	for i, b := range j.boxes {
		if b != ([4]float64{}) {
			out[i] = j.canvas.Warp.Box(b)
		}
	}
	return out
}

// Stroke is how wide an upright stroke of the letters is, in pixels of the film: the middle one of
// the runs of ink along the rows, times the width of a seat. 0 where there is none.
func (c *Chances) Stroke() float64 {
	j := c.judge
	var runs, wide []float64
	run := 0
	for i := range j.field.Seats {
		s := &j.field.Seats[i]
		if s.Pixels > 0 {
			wide = append(wide, s.Cell[1][0]-s.Cell[0][0])
		}
		if j.ink[i] {
			run++
		}
		last := i+1 == len(j.field.Seats) || j.field.Seats[i+1].Row != s.Row || j.field.Seats[i+1].Section != s.Section
		if run > 0 && (last || !j.ink[i+1]) {
			runs, run = append(runs, float64(run)), 0
		}
	}
	if len(runs) == 0 {
		return 0
	}
	return median(runs) * median(wide)
}
