package sheets

import (
	"fmt"
	"io"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating/people"
)

// arena has sections of 20 rows of 20 seats, and a group for every 25 people, through 40 doors.
func arena(b *testing.B, sections int) *mosaic.Plan {
	s := sample{rows: 20, seats: 20, plain: true, title: "Lantern Fair"}
	for k := range sections {
		s.sections = append(s.sections, fmt.Sprint("S", k))
	}
	p := s.plan(b)
	for k := range sections * 16 {
		p.Stunt.People.Groups = append(p.Stunt.People.Groups, people.Party{Name: fmt.Sprint("crew of boat ", k), People: 25, Room: "loft", Door: fmt.Sprint("door ", k%40)})
	}
	roster, err := people.Gather(p.Stunt.People.Groups, nil)
	if err != nil {
		b.Fatal(err)
	}
	n := len(p.Stands.Seats)
	p.People, err = people.Seat(roster, people.Hall{Stands: p.Stands, Order: p.Order, Weight: make([]int64, n), Unseen: make([]bool, n)})
	if err != nil {
		b.Fatal(err)
	}
	return p
}

// The calldown and the bands of 400, 10,000 and 100,000 people.
func BenchmarkPeopleSheets(b *testing.B) {
	for _, sections := range []int{1, 25, 250} {
		p := told(arena(b, sections))
		b.Run(fmt.Sprint("calldown/", sections*400), func(b *testing.B) {
			for b.Loop() {
				if err := Calldown(io.Discard, p); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprint("bands/", sections*400), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := Bands(p, func(_ string, write func(io.Writer) error) error { return write(io.Discard) }); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
