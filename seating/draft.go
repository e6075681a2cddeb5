package seating

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// draft is one section while Build works on it.
type draft struct {
	index  int
	spec   SectionSpec // with defaults filled in
	names  []string
	byName map[string]int // rows by NameKey
	places []int
	total  int         // of the places
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
func (d *draft) fault(key, hint, what string, args ...any) error {
	return Wrong(sectionKey(d.index, key), hint, what, args...)
}

func sectionKey(index int, key string) string {
	return strings.TrimSuffix(fmt.Sprintf("section[%d].%s", index, key), ".")
}

// under gives a fault without a key its own.
func (d *draft) under(key string, err error) error {
	if f, ok := err.(*Fault); ok {
		return d.fault(key, f.Hint, "%s", f.What)
	}
	return err
}

// newDraft checks one section and fills in its defaults.
func newDraft(index int, spec SectionSpec) (*draft, error) {
	d := &draft{index: index, spec: spec}
	for _, step := range []func() error{
		d.checkKinds, d.countRows, d.checkLengths, d.countPlaces, d.nameRows, d.stepBack, d.checkCurve,
		d.markMissing, d.markReserved,
	} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return d, nil
}

func (d *draft) checkKinds() (err error) {
	s := &d.spec
	if s.Name, err = CheckName(s.Name); err != nil {
		return d.under("name", err)
	}
	switch {
	case s.Kind > Floor:
		return d.fault("kind", "it is bench, chairs or floor", "there is no such kind of seating")
	case s.Posture > Standing:
		return d.fault("posture", "it is sitting, kneeling or standing", "there is no such posture")
	case s.Align > AlignRight:
		return d.fault("align", "it is left, right or centre", "there is no such alignment")
	case s.Kind == Floor && s.Rise != 0:
		return d.fault("rise", "leave it out, or make the kind bench or chairs", "a floor block has no rise")
	case s.Kind == Floor && s.Radius != 0:
		return d.fault("radius", "leave it out, or make the kind chairs", "a floor block is straight")
	}
	return nil
}

// nameRows names the rows and checks the numbers of their seats.
func (d *draft) nameRows() (err error) {
	if d.names, err = d.spec.RowNames.names(d.spec.Rows); err != nil {
		return d.under("row_names", err)
	}
	d.byName = make(map[string]int, len(d.names))
	for r, n := range d.names {
		d.byName[NameKey(n)] = r
	}
	return d.under("seat_numbers", d.spec.SeatNumbers.Check(slices.Max(d.places)))
}

// countRows finds the number of rows, given or as long as the lists.
func (d *draft) countRows() error {
	s := &d.spec
	for _, n := range []int{len(s.Seats), len(s.Bench), len(s.RowNames.Names)} {
		if s.Rows == 0 && n > 1 {
			s.Rows = n
		}
	}
	const one = "give one number for all rows, or one a row from the front to the back"
	switch seats, benches := len(s.Seats), len(s.Bench); {
	case s.Rows <= 0:
		return d.fault("rows", "say how many rows the section has", "there are no rows")
	case s.Rows > MaxRows:
		return d.fault("rows", fmt.Sprintf("a section has at most %d", MaxRows), "%d rows are too many", s.Rows)
	case seats == 0 && benches == 0:
		return d.fault("seats", "give seats, or the bench's length and the pitch",
			"nothing says how many seats a row has")
	case seats > 1 && seats != s.Rows:
		return d.fault("seats", one, "the list has %d entries for %d rows", seats, s.Rows)
	case benches > 1 && benches != s.Rows:
		return d.fault("bench", one, "the list has %d entries for %d rows", benches, s.Rows)
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
			return d.fault("place.facing",
				"write facing = 0 to look toward the camera's side, 90 to its right, -90 to its left",
				"%v degrees are no way to face", p.Facing)
		}
		measures = append(measures, Measure{"place", &p.Across, -MaxReach, MaxReach},
			Measure{"place", &p.Away, -MaxReach, MaxReach})
	}
	for i := range s.Bench {
		measures = append(measures, Measure{"bench", &s.Bench[i], 0, MaxReach})
	}
	for _, m := range measures {
		if *m.Length < 0 && m.Low >= 0 {
			return d.fault(m.Key, "give the length without its sign", "%v is negative", m.Length)
		}
		if !m.Holds(*m.Length) {
			return d.fault(m.Key, fmt.Sprintf("it lies between %v and %v: look at the unit", m.Low, m.High),
				"%v cannot be right", m.Length)
		}
	}
	return nil
}

// countPlaces finds the places in each row: counted, or whole pitches that fit on the bench.
func (d *draft) countPlaces() error {
	s := &d.spec
	d.places = make([]int, s.Rows)
	for r := range d.places {
		bench := s.bench(r)
		n := int(bench / s.Pitch)
		if len(s.Seats) > 0 {
			n = s.Seats[min(r, len(s.Seats)-1)]
		}
		switch d.total += n; {
		case n < 0:
			return d.fault("seats", "give 0 for a row without seats", "%d seats cannot be", n)
		case len(s.Bench) > 0 && n <= MaxSeats && Length(n)*s.Pitch > bench:
			return d.fault("seats",
				fmt.Sprintf("%d fit; leave out seats or bench, or correct the pitch", bench/s.Pitch),
				"%d seats of %v do not fit on a bench of %v", n, s.Pitch, bench)
		case n > MaxSeats || d.total > MaxSeats:
			return d.fault("seats", "look for a digit too many", "the section has more than %d seats", MaxSeats)
		case Length(n)*s.Pitch > MaxReach:
			return d.fault("seats", "look for a digit too many", "%d seats of %v make a row longer than %v",
				n, s.Pitch, MaxReach)
		}
		d.places[r] = n
	}
	if d.total == 0 {
		return d.fault("seats", "count the seats of each row, or measure the bench and the pitch",
			"the section has no seats")
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
	return 0, d.fault(key, rowHint(name, d.names), "section %s has no row %q", d.spec.Name, name)
}

// stepBack finds how far back each row begins.
func (d *draft) stepBack() error {
	behind := make([]Length, d.spec.Rows)
	for i, a := range d.spec.CrossAisles {
		key := fmt.Sprintf("cross_aisles[%d]", i)
		r, err := d.row(key, a.After)
		switch {
		case err != nil:
			return err
		case a.Depth <= 0 || a.Depth > MaxReach:
			return d.fault(key, "measure from the row before to the row behind",
				"a cross-aisle cannot be %v deep", a.Depth)
		case behind[r] != 0:
			return d.fault(key, "add them up", "there are two cross-aisles behind row %s", d.names[r])
		case r == d.spec.Rows-1:
			return d.fault(key, "leave it out",
				"row %s is the last one: no row is behind that cross-aisle", d.names[r])
		}
		behind[r] = a.Depth
	}
	d.fronts = make([]Length, d.spec.Rows+1)
	for r, b := range behind {
		d.fronts[r+1] = d.fronts[r] + d.spec.Run + b
	}
	if d.depth() > MaxReach {
		return d.fault("run", "look at the unit", "the section is %v deep", d.depth())
	}
	if top := d.spec.FirstRow + Length(d.spec.Rows)*d.spec.Rise; top > maxHeight {
		return d.fault("rise", "look at the unit", "the last row would be %v up", top)
	}
	return nil
}

// depth is from the front row's front edge to the back row's back edge.
func (d *draft) depth() Length { return d.fronts[d.spec.Rows] }

// ReservedFor are the words for whom seats may be reserved. Only on the first two is a person.
var ReservedFor = [...]string{"wheelchair", "companion", "platform", "rail", "nobody"}

func (d *draft) markMissing() error {
	d.flags = make([][]special, d.spec.Rows)
	for i, r := range d.spec.Missing {
		row, first, last, err := d.seatRange(fmt.Sprintf("missing[%d]", i), r)
		if err != nil {
			return err
		}
		for p := first; p <= last; p++ {
			d.flags[row][p].missing = true
		}
	}
	return d.wholeRows("missing", d.spec.MissingRows, func(f *special) error {
		f.missing = true
		return nil
	})
}

// wholeRows marks every place of rows; an end that is "" is the section's own.
func (d *draft) wholeRows(key string, rows []RowRange, mark func(f *special) error) error {
	for _, r := range rows {
		ends := [2]int{0, d.spec.Rows - 1}
		for i, name := range []string{r.From, r.To} {
			if name == "" {
				continue
			}
			at, err := d.row(key, name)
			if err != nil {
				return err
			}
			ends[i] = at
		}
		if ends[0] > ends[1] {
			return d.fault(key, fmt.Sprintf("name the row nearer to the front first: %q", r.To+".."+r.From),
				"in section %s row %s lies behind row %s", d.spec.Name, r.From, r.To)
		}
		for row := ends[0]; row <= ends[1]; row++ {
			if d.flags[row] == nil {
				d.flags[row] = make([]special, d.places[row])
			}
			if d.listed += d.places[row]; d.listed > maxListed {
				return d.fault(key, "name each row once", "the section's ranges name more than %d seats", maxListed)
			}
			for p := range d.flags[row] {
				if err := mark(&d.flags[row][p]); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// markReserved flags the places that are kept for a use; missing seats inside a range stay missing.
func (d *draft) markReserved() error {
	for i, res := range d.spec.Reserved {
		key := fmt.Sprintf("reserved[%d]", i)
		if !slices.Contains(ReservedFor[:], res.For) {
			return d.fault(key, "it is wheelchair, companion, platform, rail or nobody",
				"seats cannot be reserved for %q", res.For)
		}
		for _, r := range res.Seats {
			row, first, last, err := d.seatRange(key, r)
			if err != nil {
				return err
			}
			for p := first; p <= last; p++ {
				f := &d.flags[row][p]
				if (p == first || p == last) && f.missing {
					return d.fault(key, "leave it out of one of the two",
						"seat %s is missing and cannot be reserved", d.seatName(row, p))
				}
				if f.used != 0 && d.spec.Reserved[f.used-1].For != res.For {
					return d.fault(key, "decide for one", "seat %s is reserved for two uses", d.seatName(row, p))
				}
				f.used = int32(i) + 1
			}
		}
		err := d.wholeRows(key, res.Rows, func(f *special) error {
			switch {
			case f.missing:
			case f.used != 0 && d.spec.Reserved[f.used-1].For != res.For:
				return d.fault(key, "decide for one", "a seat of these rows is reserved for two uses")
			default:
				f.used = int32(i) + 1
			}
			return nil
		})
		if err != nil {
			return err
		}
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
		return 0, 0, 0, d.fault(key, "name another row", "row %s of section %s has no seats",
			d.names[row], d.spec.Name)
	}
	at := [2]int{r.From, cmp.Or(r.To, r.From)}
	for i, n := range at {
		p, ok := d.spec.SeatNumbers.Place(n, d.places[row])
		if !ok {
			return 0, 0, 0, d.fault(key, "the nearest is seat "+d.seatName(row, p),
				"row %s of section %s has no seat %d", d.names[row], d.spec.Name, n)
		}
		at[i] = p
	}
	slices.Sort(at[:])
	if d.listed += 1 + at[1] - at[0]; d.listed > maxListed {
		return 0, 0, 0, d.fault(key, "name each seat once",
			"the section's ranges name more than %d seats", maxListed)
	}
	if d.flags[row] == nil {
		d.flags[row] = make([]special, d.places[row])
	}
	return row, at[0], at[1], nil
}

func (d *draft) missing(row, place int) bool {
	return d.flags[row] != nil && d.flags[row][place].missing
}

func (d *draft) seatName(row, place int) string {
	return seatID(d.spec.Name, d.names[row], d.spec.SeatNumbers.Number(place, d.places[row]))
}
