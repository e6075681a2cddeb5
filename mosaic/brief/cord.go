package brief

import (
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Cord is one cord: sections with the same pitch and the same way of numbering share it.
type Cord struct {
	Pitch    seating.Length
	Numbers  seating.SeatNumbering
	Sections []int
	Places   int // of the longest row
}

// Cords lists the cords, in the order of the sections.
func Cords(p *mosaic.Plan) []Cord {
	var cords []Cord
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		cards := slices.ContainsFunc(p.Stands.Seats[sec.First:sec.Last],
			func(s seating.Seat) bool { return s.Use == seating.UseCard })
		if sec.Spec.Kind != seating.Bench || !cards {
			continue
		}
		c := Cord{Pitch: sec.Spec.Pitch, Numbers: sec.Spec.SeatNumbers}
		c.Numbers.Start, c.Numbers.Step = max(c.Numbers.Start, 1), max(c.Numbers.Step, 1)
		i := slices.IndexFunc(cords, func(o Cord) bool { return o.Pitch == c.Pitch && o.Numbers == c.Numbers })
		if i < 0 {
			i = len(cords)
			cords = append(cords, c)
		}
		cords[i].Sections = append(cords[i].Sections, k)
		cords[i].Places = max(cords[i].Places, MostPlaces(sec))
	}
	return cords
}

// MostPlaces is how many places the section's longest row has.
func MostPlaces(sec *seating.Section) int {
	most := 0
	for r := range sec.Rows {
		most = max(most, sec.Rows[r].Places)
	}
	return most
}
