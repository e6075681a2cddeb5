package camera

import (
	"math"

	"everyseat/seating"
	"everyseat/seating/together"
)

// Columns gives where each seat's column crosses the middle row of its section in the picture: u of its left and right
// edge, half a pitch to each side. A column runs straight up the stands, the way that the seat faces. It is zero where
// that lies behind the lens.
func Columns(stands *seating.Stands, v *View) [][2]float64 {
	columns := make([][2]float64, len(stands.Seats))
	together.Each(len(stands.Sections), func(i int) {
		section := &stands.Sections[i]
		half := section.Spec.Pitch.Metres() / 2
		row := section.Rows[len(section.Rows)/2]
		middle := stands.Seats[row.First:row.Last]
		for s := section.First; s < section.Last; s++ {
			f := frameOf(stands.Seats[s].Position, stands.Seats[s].Facing)
			ahead, up := f.meets(middle)
			a, near1 := v.Project(f.at(-half, ahead, up+1))
			b, near2 := v.Project(f.at(half, ahead, up+1))
			if near1 >= near && near2 >= near {
				columns[s] = [2]float64{min(a[0], b[0]), max(a[0], b[0])}
			}
		}
	})
	return columns
}

// meets is how far ahead and up the row of some seats lies: where its nearest seat across does.
func (f *frame) meets(row []seating.Seat) (ahead, up float64) {
	least := math.Inf(1)
	for i := range row {
		if across, a, u := f.local(row[i].Position); math.Abs(across) < least {
			least, ahead, up = math.Abs(across), a, u
		}
	}
	return ahead, up
}
