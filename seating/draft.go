package seating

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
)

// draft is one section while Build works on it.
type draft struct {
	index  int
	spec   SectionSpec // with defaults filled in
	names  []string
	byName map[string]int // rows by NameKey
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

// under gives a fault without a key its own.
func (d *draft) under(key string, err error) error {
	if f, ok := err.(*Fault); ok {
		return d.fault(key, f.What, f.Hint)
	}
	return err
}

// newDraft checks one section and fills in its defaults.
func newDraft(index int, spec SectionSpec) (*draft, error) {
	d := &draft{index: index, spec: spec}
	for _, step := range []func() error{
		d.checkName, d.checkKinds, d.countRows, d.checkLengths, d.countPlaces,
		d.nameRows, d.checkNumbers, d.stepBack, d.checkCurve, d.markMissing, d.markReserved,
	} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return d, nil
}

func (d *draft) checkName() (err error) {
	d.spec.Name, err = CheckName(d.spec.Name)
	return d.under("name", err)
}

func (d *draft) nameRows() (err error) {
	d.names, err = d.spec.RowNames.names(d.spec.Rows)
	d.byName = make(map[string]int, len(d.names))
	for r, n := range d.names {
		d.byName[NameKey(n)] = r
	}
	return d.under("row_names", err)
}

func (d *draft) checkNumbers() error {
	return d.under("seat_numbers", d.spec.SeatNumbers.Check(slices.Max(d.places)))
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
		return d.fault("rows", fmt.Sprintf("%d rows are too many", s.Rows),
			fmt.Sprintf("a section has at most %d", MaxRows))
	case len(s.Seats) == 0 && len(s.Bench) == 0:
		return d.fault("seats", "nothing says how many seats a row has",
			"give seats, or the bench's length and the pitch")
	}
	for _, list := range []struct {
		key string
		n   int
	}{{"seats", len(s.Seats)}, {"bench", len(s.Bench)}} {
		if list.n > 1 && list.n != s.Rows {
			return d.fault(list.key, fmt.Sprintf("the list has %d entries for %d rows", list.n, s.Rows),
				"give one number for all rows, or one a row from the front to the back")
		}
	}
	return nil
}

// checkLengths puts common values where nothing was given, and holds all lengths to their limits.
func (d *draft) checkLengths() error {
	s := &d.spec
	fill := func(l *Length, bench, chairs, floor Length) {
		*l = cmp.Or(*l, [...]Length{bench, chairs, floor}[s.Kind])
	}
	fill(&s.Pitch, DefaultPitch, DefaultPitch, DefaultFloorPitch)
	fill(&s.Rise, DefaultRise, DefaultRise, 0)
	fill(&s.Run, DefaultRun, DefaultChairRun, DefaultFloorRun)
	fill(&s.SeatBoard, DefaultSeatBoard, DefaultSeatBoard, 0)
	measures := s.Measures()
	if p := s.Place; p != nil {
		if !(p.Facing >= -3600 && p.Facing <= 3600) {
			return d.fault("place.facing", fmt.Sprintf("%v degrees are no way to face", p.Facing),
				"0 looks toward the camera's side, 90 to the camera's right, -90 to its left")
		}
		measures = append(measures, Measure{"place", &p.Across, -MaxReach, MaxReach},
			Measure{"place", &p.Away, -MaxReach, MaxReach})
	}
	for i := range s.Bench {
		measures = append(measures, Measure{"bench", &s.Bench[i], 0, MaxReach})
	}
	for _, m := range measures {
		if *m.Length < 0 && m.Low >= 0 {
			return d.fault(m.Key, fmt.Sprintf("%v is negative", m.Length), "give the length without its sign")
		}
		if !m.Holds(*m.Length) {
			return d.fault(m.Key, fmt.Sprintf("%v cannot be right", m.Length),
				fmt.Sprintf("it lies between %v and %v: look at the unit", m.Low, m.High))
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
		bench := s.bench(r)
		n := int(bench / s.Pitch)
		if len(s.Seats) > 0 {
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
			return d.fault("seats", fmt.Sprintf("the section has more than %d seats", MaxSeats),
				"look for a digit too many")
		}
		if Length(n)*s.Pitch > MaxReach {
			return d.fault("seats", fmt.Sprintf("%d seats of %v make a row longer than %v", n, s.Pitch, MaxReach),
				"look for a digit too many")
		}
		d.places[r] = n
	}
	if sum == 0 {
		return d.fault("seats", "the section has no seats",
			"count the seats of each row, or measure the bench and the pitch")
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

// row finds a row by its name; capitals do not matter.
func (d *draft) row(key, name string) (int, error) {
	if r, ok := d.byName[NameKey(name)]; ok {
		return r, nil
	}
	return 0, d.fault(key, fmt.Sprintf("section %s has no row %q", d.spec.Name, name), rowHint(name, d.names))
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
		case a.Depth <= 0 || a.Depth > MaxReach:
			return d.fault(key, fmt.Sprintf("a cross-aisle cannot be %v deep", a.Depth),
				"measure from the row before to the row behind")
		case behind[r] != 0:
			return d.fault(key, fmt.Sprintf("there are two cross-aisles behind row %s", d.names[r]), "add them up")
		case r == d.spec.Rows-1:
			return d.fault(key, fmt.Sprintf("row %s is the last one: no row is behind that cross-aisle", d.names[r]),
				"leave it out")
		}
		behind[r] = a.Depth
	}
	d.fronts = make([]Length, d.spec.Rows+1)
	for r, b := range behind {
		d.fronts[r+1] = d.fronts[r] + d.spec.Run + b
	}
	if d.depth() > MaxReach {
		return d.fault("run", fmt.Sprintf("the section is %v deep", d.depth()), "look at the unit")
	}
	if top := d.spec.FirstRow + Length(d.spec.Rows)*d.spec.Rise; top > maxHeight {
		return d.fault("rise", fmt.Sprintf("the last row would be %v up", top), "look at the unit")
	}
	return nil
}

// depth is from the front row's front edge to the back row's back edge.
func (d *draft) depth() Length { return d.fronts[d.spec.Rows] }

// ReservedFor are the words for whom seats may be reserved. Only on the first two is a person.
var ReservedFor = [...]string{"wheelchair", "companion", "platform", "rail", "nobody"}

// markMissing flags the places that are not there.
func (d *draft) markMissing() error {
	d.flags = make([][]special, d.spec.Rows)
	for i, r := range d.spec.Missing {
		key := fmt.Sprintf("missing[%d]", i)
		row, first, last, err := d.seatRange(key, r)
		if err != nil {
			return err
		}
		for p := first; p <= last; p++ {
			d.flags[row][p].missing = true
		}
	}
	return nil
}

// markReserved flags the places that are kept for a use.
func (d *draft) markReserved() error {
	for i, res := range d.spec.Reserved {
		key := fmt.Sprintf("reserved[%d]", i)
		if !slices.Contains(ReservedFor[:], res.For) {
			return d.fault(key, fmt.Sprintf("seats cannot be reserved for %q", res.For),
				"it is wheelchair, companion, platform, rail or nobody")
		}
		for _, r := range res.Seats {
			if err := d.reserve(key, r, i); err != nil {
				return err
			}
		}
	}
	return nil
}

// reserve keeps one range; missing seats inside it stay missing.
func (d *draft) reserve(key string, r SeatRange, reserved int) error {
	row, first, last, err := d.seatRange(key, r)
	if err != nil {
		return err
	}
	for p := first; p <= last; p++ {
		f := &d.flags[row][p]
		seat := d.seatName(row, p)
		if (p == first || p == last) && f.missing {
			return d.fault(key, fmt.Sprintf("seat %s is missing and cannot be reserved", seat),
				"leave it out of one of the two")
		}
		if f.used != 0 && d.spec.Reserved[f.used-1].For != d.spec.Reserved[reserved].For {
			return d.fault(key, fmt.Sprintf("seat %s is reserved for two uses", seat), "decide for one")
		}
		f.used = int32(reserved) + 1
	}
	return nil
}

// seatRange finds the row and the places from the left, first to last, of a
// range as marked; both ends must be places of the row.
func (d *draft) seatRange(key string, r SeatRange) (row, first, last int, err error) {
	if row, err = d.row(key, r.Row); err != nil {
		return 0, 0, 0, err
	}
	if d.places[row] == 0 {
		return 0, 0, 0, d.fault(key, fmt.Sprintf("row %s of section %s has no seats", d.names[row], d.spec.Name),
			"name another row")
	}
	if r.To == 0 {
		r.To = r.From
	}
	at := [2]int{}
	for i, n := range []int{r.From, r.To} {
		p, ok := d.spec.SeatNumbers.Place(n, d.places[row])
		if !ok {
			return 0, 0, 0, d.fault(key, fmt.Sprintf("row %s of section %s has no seat %d", d.names[row], d.spec.Name, n),
				"the nearest is seat "+d.seatName(row, p))
		}
		at[i] = p
	}
	slices.Sort(at[:])
	if d.listed += 1 + at[1] - at[0]; d.listed > maxListed {
		return 0, 0, 0, d.fault(key, fmt.Sprintf("the section's ranges name more than %d seats", maxListed),
			"name each seat once")
	}
	if d.flags[row] == nil {
		d.flags[row] = make([]special, d.places[row])
	}
	return row, at[0], at[1], nil
}

// missing says whether a place is not there.
func (d *draft) missing(row, place int) bool {
	return d.flags[row] != nil && d.flags[row][place].missing
}

// seatName is the id of a place.
func (d *draft) seatName(row, place int) string {
	return seatID(d.spec.Name, d.names[row], d.spec.SeatNumbers.Number(place, d.places[row]))
}
