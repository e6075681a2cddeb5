package seating

import (
	"fmt"
	"slices"
)

// reservedUses are the words for whom seats may be reserved, and what that makes of them.
var reservedUses = []struct {
	word string
	use  Use
}{{"wheelchair", UseCard}, {"companion", UseCard}, {"platform", UseReserved}, {"rail", UseReserved}, {"nobody", UseReserved}}

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
		if reservedUse(res.For) < 0 {
			return d.fault(key, fmt.Sprintf("seats cannot be reserved for %q", res.For), "it is wheelchair, companion, platform, rail or nobody")
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
			return d.fault(key, fmt.Sprintf("seat %s is missing and cannot be reserved", seat), "leave it out of one of the two")
		}
		if f.used != 0 && d.spec.Reserved[f.used-1].For != d.spec.Reserved[reserved].For {
			return d.fault(key, fmt.Sprintf("seat %s is reserved for two uses", seat), "decide for one")
		}
		f.used = int32(reserved) + 1
	}
	return nil
}

func reservedUse(word string) int {
	for i, u := range reservedUses {
		if u.word == word {
			return i
		}
	}
	return -1
}

// seatRange finds the row and the places from the left, first to last, of a
// range as marked; both ends must be places of the row.
func (d *draft) seatRange(key string, r SeatRange) (row, first, last int, err error) {
	if row, err = d.row(key, r.Row); err != nil {
		return 0, 0, 0, err
	}
	if d.places[row] == 0 {
		return 0, 0, 0, d.fault(key, fmt.Sprintf("row %s of section %s has no seats", d.names[row], d.spec.Name), "name another row")
	}
	if r.To == 0 {
		r.To = r.From
	}
	at := [2]int{}
	for i, n := range []int{r.From, r.To} {
		p, ok := d.spec.SeatNumbers.place(n, d.places[row])
		if !ok {
			return 0, 0, 0, d.fault(key, fmt.Sprintf("row %s of section %s has no seat %d", d.names[row], d.spec.Name, n),
				fmt.Sprintf("the nearest is seat %s", d.seatName(row, p)))
		}
		at[i] = p
	}
	slices.Sort(at[:])
	if d.listed += 1 + at[1] - at[0]; d.listed > maxListed {
		return 0, 0, 0, d.fault(key, fmt.Sprintf("the section's ranges name more than %d seats", maxListed), "name each seat once")
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
	return seatID(d.spec.Name, d.names[row], d.spec.SeatNumbers.number(place, d.places[row]))
}
