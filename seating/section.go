package seating

import (
	"fmt"
	"strconv"
)

// draft is one section while Build works on it.
type draft struct {
	index  int
	spec   SectionSpec // with defaults filled in
	names  []string
	byName map[string]int // rows by nameKey
	places []int
	fronts []Length    // front edge of each row behind the section's front edge; one more for the back edge
	flags  [][]special // by row and place; nil where a row has nothing special
	listed int         // places in ranges so far, against maxListed
}

// special says what is special about a place.
type special struct {
	missing bool
	used    int32 // 1 + index into spec.Reserved
}

// fault puts the section's key before a key inside it.
func (d *draft) fault(key, what, hint string) error {
	return &Fault{Key: sectionKey(d.index, key), What: what, Hint: hint}
}

func sectionKey(index int, key string) string {
	s := "section[" + strconv.Itoa(index) + "]"
	if key != "" {
		s += "." + key
	}
	return s
}

// under gives a fault of a part its key.
func (d *draft) under(key string, err error) error {
	f, ok := err.(*Fault)
	if !ok {
		return err
	}
	return d.fault(key, f.What, f.Hint)
}

// newDraft checks one section and fills in its defaults.
func newDraft(index int, spec SectionSpec) (*draft, error) {
	d := &draft{index: index, spec: spec}
	for _, step := range []func() error{
		d.checkName, d.checkKinds, d.countRows, d.fillLengths, d.checkLengths, d.countPlaces,
		d.nameRows, d.checkNumbers, d.stepBack, d.checkCurve, d.markMissing, d.markReserved,
	} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return d, nil
}

func (d *draft) checkName() error {
	name, err := CheckName(d.spec.Name)
	d.spec.Name = name
	if err != nil {
		return d.under("name", err)
	}
	return nil
}

func (d *draft) checkKinds() error {
	s := &d.spec
	switch {
	case s.Kind > Floor:
		return d.fault("kind", "there is no such kind of seating", "it is bench, chairs or floor")
	case s.Posture > Standing:
		return d.fault("posture", "there is no such posture", "it is sitting, kneeling or standing")
	case s.Align > AlignRight:
		return d.fault("align", "there is no such alignment", "it is left, right or centre")
	case s.Kind == Floor && s.Rise != 0:
		return d.fault("rise", "a floor block has no rise", "leave it out, or make the kind bench or chairs")
	case s.Kind == Floor && s.Radius != 0:
		return d.fault("radius", "a floor block is straight", "leave it out, or make the kind chairs")
	}
	return nil
}

// countRows finds the number of rows, given or as long as the lists.
func (d *draft) countRows() error {
	s := &d.spec
	for _, n := range []int{len(s.Seats), len(s.Bench), len(s.RowNames.Names)} {
		if s.Rows == 0 && n > 1 {
			s.Rows = n
		}
	}
	switch {
	case s.Rows <= 0:
		return d.fault("rows", "there are no rows", "say how many rows the section has")
	case s.Rows > MaxRows:
		return d.fault("rows", fmt.Sprintf("%d rows are too many", s.Rows), fmt.Sprintf("a section has at most %d", MaxRows))
	case len(s.Seats) == 0 && len(s.Bench) == 0:
		return d.fault("seats", "nothing says how many seats a row has", "give seats, or the bench's length and the pitch")
	}
	for _, list := range []struct {
		key string
		n   int
	}{{"seats", len(s.Seats)}, {"bench", len(s.Bench)}} {
		if list.n > 1 && list.n != s.Rows {
			return d.fault(list.key, fmt.Sprintf("the list has %d entries for %d rows", list.n, s.Rows), "give one number for all rows, or one a row from the front to the back")
		}
	}
	return nil
}

// fillLengths puts common values where nothing was given.
func (d *draft) fillLengths() error {
	s := &d.spec
	fill := func(l *Length, bench, chairs, floor Length) {
		if *l == 0 {
			*l = [...]Length{bench, chairs, floor}[s.Kind]
		}
	}
	fill(&s.Pitch, DefaultPitch, DefaultPitch, DefaultFloorPitch)
	fill(&s.Rise, DefaultRise, DefaultRise, 0)
	fill(&s.Run, DefaultRun, DefaultChairRun, DefaultFloorRun)
	fill(&s.SeatBoard, DefaultSeatBoard, DefaultSeatBoard, 0)
	return nil
}

func (d *draft) checkLengths() error {
	s := &d.spec
	checks := []struct {
		key      string
		l        Length
		low, top Length
	}{
		{"rise", s.Rise, 0, maxRise}, {"run", s.Run, minRun, maxRun}, {"pitch", s.Pitch, minPitch, maxPitch},
		{"first_row", s.FirstRow, 0, maxHeight}, {"seat_board", s.SeatBoard, 0, maxBoard},
		{"aisle", s.Aisle, 0, maxReach}, {"radius", s.Radius, -maxReach, maxReach},
	}
	if s.Place != nil {
		checks = append(checks, []struct {
			key      string
			l        Length
			low, top Length
		}{{"place", s.Place.Across, -maxReach, maxReach}, {"place", s.Place.Away, -maxReach, maxReach}}...)
		if f := s.Place.Facing; !(f >= -3600 && f <= 3600) {
			return d.fault("place.facing", fmt.Sprintf("%v degrees are no way to face", f), "0 looks toward the camera's side, 90 to the camera's right, -90 to its left")
		}
	}
	for _, l := range s.Bench {
		checks = append(checks, struct {
			key      string
			l        Length
			low, top Length
		}{"bench", l, 0, maxReach})
	}
	for _, c := range checks {
		if c.l < 0 && c.low >= 0 {
			return d.fault(c.key, fmt.Sprintf("%v is negative", c.l), "give the length without its sign")
		}
		if c.l < c.low || c.l > c.top {
			return d.fault(c.key, fmt.Sprintf("%v cannot be right", c.l), fmt.Sprintf("it lies between %v and %v: look at the unit", c.low, c.top))
		}
	}
	return nil
}

// countPlaces finds the places in each row: counted, or whole pitches that fit on the bench.
func (d *draft) countPlaces() error {
	s := &d.spec
	d.places = make([]int, s.Rows)
	sum := 0
	for r := range d.places {
		n := 0
		switch bench := s.bench(r); {
		case len(s.Seats) == 0:
			n = int(bench / s.Pitch)
		default:
			n = s.Seats[min(r, len(s.Seats)-1)]
			if n < 0 {
				return d.fault("seats", fmt.Sprintf("%d seats cannot be", n), "give 0 for a row without seats")
			}
			if len(s.Bench) > 0 && n <= MaxSeats && Length(n)*s.Pitch > bench {
				return d.fault("seats", fmt.Sprintf("%d seats of %v do not fit on a bench of %v", n, s.Pitch, bench),
					fmt.Sprintf("%d fit; leave out seats or bench, or correct the pitch", bench/s.Pitch))
			}
		}
		if sum += n; n > MaxSeats || sum > MaxSeats {
			return d.fault("seats", fmt.Sprintf("the section has more than %d seats", MaxSeats), "look for a digit too many")
		}
		if Length(n)*s.Pitch > maxReach {
			return d.fault("seats", fmt.Sprintf("%d seats of %v make a row longer than %v", n, s.Pitch, maxReach), "look for a digit too many")
		}
		d.places[r] = n
	}
	if sum == 0 {
		return d.fault("seats", "the section has no seats", "count the seats of each row, or measure the bench and the pitch")
	}
	return nil
}

// bench is the length of a row's bench, or 0 where only seats were counted.
func (s *SectionSpec) bench(row int) Length {
	if len(s.Bench) == 0 {
		return 0
	}
	return s.Bench[min(row, len(s.Bench)-1)]
}

// width is the length of a row: its bench, or its places.
func (d *draft) width(row int) Length {
	return max(d.spec.bench(row), Length(d.places[row])*d.spec.Pitch)
}

func (d *draft) nameRows() error {
	names, err := d.spec.RowNames.names(d.spec.Rows)
	d.names = names
	if err != nil {
		return d.under("row_names", err)
	}
	d.byName = make(map[string]int, len(names))
	for r, n := range names {
		d.byName[nameKey(n)] = r
	}
	return nil
}

func (d *draft) checkNumbers() error {
	most := 0
	for _, n := range d.places {
		most = max(most, n)
	}
	if err := d.spec.SeatNumbers.check(most); err != nil {
		return d.under("seat_numbers", err)
	}
	return nil
}

// row finds a row by its name; capitals do not matter.
func (d *draft) row(key, name string) (int, error) {
	if r, ok := d.byName[nameKey(name)]; ok {
		return r, nil
	}
	return 0, d.fault(key, fmt.Sprintf("section %s has no row %q", d.spec.Name, name), fmt.Sprintf("the nearest is row %s", nearest(name, d.names)))
}

// stepBack finds how far back each row begins.
func (d *draft) stepBack() error {
	behind := make([]Length, d.spec.Rows)
	for i, a := range d.spec.CrossAisles {
		key := fmt.Sprintf("cross_aisles[%d]", i)
		r, err := d.row(key, a.After)
		if err != nil {
			return err
		}
		switch {
		case a.Depth <= 0 || a.Depth > maxReach:
			return d.fault(key, fmt.Sprintf("a cross-aisle cannot be %v deep", a.Depth), "measure from the row before to the row behind")
		case behind[r] != 0:
			return d.fault(key, fmt.Sprintf("there are two cross-aisles behind row %s", d.names[r]), "add them up")
		case r == d.spec.Rows-1:
			return d.fault(key, fmt.Sprintf("row %s is the last one: no row is behind that cross-aisle", d.names[r]), "leave it out")
		}
		behind[r] = a.Depth
	}
	d.fronts = make([]Length, d.spec.Rows+1)
	for r, b := range behind {
		d.fronts[r+1] = d.fronts[r] + d.spec.Run + b
	}
	if d.depth() > maxReach {
		return d.fault("run", fmt.Sprintf("the section is %v deep", d.depth()), "look at the unit")
	}
	if top := d.spec.FirstRow + Length(d.spec.Rows)*d.spec.Rise; top > maxHeight {
		return d.fault("rise", fmt.Sprintf("the last row would be %v up", top), "look at the unit")
	}
	return nil
}

// depth is from the front row's front edge to the back row's back edge.
func (d *draft) depth() Length { return d.fronts[d.spec.Rows] }
