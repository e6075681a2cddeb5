package seating

import (
	"fmt"
	"strings"
)

// turnoutSlack is how far, in percent, expected people and seats may differ
// before it is worth a warning: common practice, no source.
const turnoutSlack = 5

// ExpectedPeople is People × Expected, rounded to the nearest whole person.
// The share is taken to a millionth, so that every processor rounds alike.
func (s *Spec) ExpectedPeople() int {
	share := int64(float64(s.Expected*1e6) + 0.5)
	return int((int64(s.People)*share + 500_000) / 1_000_000)
}

// warnings says in plain sentences which counts disagree, the gravest first.
func (s *Stands) warnings() (out []string) {
	warn := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	all := s.CountAll()
	posted, invited, seats := s.Spec.Posted, s.Spec.People, all.People()
	if posted > 0 && seats > posted {
		warn("TOO MANY PEOPLE: the plan seats %d, %d more than the posted limit of %d. "+
			"The posted limit and the fire official decide: take people out.", seats, seats-posted, posted)
	}
	if posted > 0 && invited > posted {
		warn("TOO MANY PEOPLE INVITED: if all %d come, they are %d more than the posted limit of %d. "+
			"The posted limit and the fire official decide.", invited, invited-posted, posted)
	}
	if posted > 0 && all.Capacity != posted {
		warn("The survey and the posted limit disagree: by the survey the stands hold %d people "+
			"(one for every 18 in of bench, IBC 2021 1004.6, or a chair each; floor blocks counted), the sign says "+
			"%d. Measure again or ask; the lower number holds until somebody with authority decides.", all.Capacity,
			posted)
	}
	if invited > 0 {
		expected := s.Spec.ExpectedPeople()
		empty := seats - expected
		lead := fmt.Sprintf("Of %d people invited, about %d are expected (%.4g %%)",
			invited, expected, s.Spec.Expected*100)
		if empty < 0 {
			warn("%s, and there are %d seats for them: %d would find none.", lead, seats, -empty)
		} else if empty*100 > seats*turnoutSlack {
			warn("%s for %d seats: %d seats (%d %%) would stay empty.", lead, seats, empty, (empty*100+seats/2)/seats)
		}
	}
	if wheelchairSeats, have, want := s.WheelchairPlaces(); have < want {
		warn("Wheelchair places: %d reserved; the 2010 ADA Standards, table 221.2.1.1, "+
			"ask for %d where there are %d seats. This is help, not approval: ask who decides at the venue.", have,
			want, wheelchairSeats)
	}
	for i := range s.Sections {
		out = append(out, s.Sections[i].Spec.unlikely()...)
	}
	return out
}

// likely are the measures that seating has, by key; what lies outside is more often a slip of the unit or of the
// column than a stand: common practice, no source.
var likely = map[string][2]Length{
	"pitch": {12 * Inch, 4 * Foot}, "rise": {2 * Inch, 30 * Inch}, "run": {14 * Inch, 10 * Foot},
	"seat_board": {8 * Inch, 32 * Inch}, "first_row": {0, 12 * Metre}, "aisle": {0, 40 * Metre},
}

// unlikely names a section's measures that no stand has.
func (s *SectionSpec) unlikely() (out []string) {
	swapped := s.Rise > s.Run && s.Kind != Floor
	if swapped {
		out = append(out,
			fmt.Sprintf("Section %s: its rise of %v is larger than its run of %v: look whether they are swapped.",
				s.Name, s.Rise, s.Run))
	}
	for _, m := range s.Measures() {
		ends, known := likely[m.Key]
		if !known || *m.Length == 0 || swapped && (m.Key == "rise" || m.Key == "run") {
			continue
		}
		if l := *m.Length; l < ends[0] || l > ends[1] {
			out = append(out,
				fmt.Sprintf("Section %s: a %s of %v is far from what stands have (%v to %v): look at the unit.",
					s.Name, strings.ReplaceAll(m.Key, "_", " "), l, ends[0], ends[1]))
		}
	}
	return out
}

// WheelchairSpaces is how many wheelchair spaces the 2010 ADA Standards, table
// 221.2.1.1, list for so many seats. It is help, never approval.
func WheelchairSpaces(seats int) int {
	for _, line := range []struct{ seats, spaces int }{{3, 0}, {25, 1}, {50, 2}, {150, 4}, {300, 5}, {500, 6}} {
		if seats <= line.seats {
			return line.spaces
		}
	}
	if seats <= 5000 {
		return 6 + (seats-500+149)/150
	}
	return 36 + (seats-5000+199)/200
}

// WheelchairPlaces counts the stands' seats, the wheelchair places kept among all
// seats, and what the table of WheelchairSpaces asks for. People who sit on the floor itself have no
// seats in its sense.
func (s *Stands) WheelchairPlaces() (seats, have, want int) {
	for i := range s.Sections {
		sec := &s.Sections[i]
		if sec.Spec.Kind != Floor || sec.Spec.SeatBoard > 0 {
			seats += sec.Last - sec.First
		}
		for _, seat := range s.Seats[sec.First:sec.Last] {
			if seat.For == "wheelchair" {
				have++
			}
		}
	}
	return seats, have, WheelchairSpaces(seats)
}
