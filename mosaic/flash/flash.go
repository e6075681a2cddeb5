// Package flash says whether a sequence of cues flashes dangerously. Start with Check.
//
// The limits are those of WCAG 2.0–2.2, success criterion 2.3.1 (three flashes or
// below threshold), with the whole picture as the field that is looked at:
//
//   - a general flash is a pair of opposing changes in relative luminance of 10 % of
//     the maximum or more, where the darker image is below 0.80;
//   - a red flash is a pair of opposing changes to and from a saturated red,
//     R/(R+G+B) ≥ 0.8 in linear light, one of them by more than 0.2 in the CIE 1976
//     UCS diagram (the working definition of WCAG 2.2);
//   - more than three flashes in any one second over more than a quarter of the
//     picture are refused. Exactly three pass, and exactly a quarter passes.
//
// Where the text leaves a choice, the stricter reading is taken. A flash belongs to
// the second in which its first change falls, so that anything that goes on faster
// than three times a second is found. Seats need not flash at the same moment, only
// in the same second. And changes that many seats make at one moment also count for
// the picture as a whole: two halves that flash in turn flash twice as often.
//
// A pass is no promise that nobody is harmed; it is what the published limit asks.
package flash

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"
)

// The limits. Luminances and distances are in millionths, shares of the picture in
// trillionths: whole numbers decide alike on every processor.
const (
	MaxFlashes = 3 // in any one second
	millionth  = 1_000_000
	wholeFrame = 1_000_000_000_000

	changeStep = 100_000 // 10 % of the maximum luminance
	darkBelow  = 800_000 // 0.80
	redStep    = 200_000 // 0.2 in u′v′
	// A quarter, and a millionth for the rounding of many small shares.
	areaLimit = wholeFrame/4 + rounding
	rounding  = wholeFrame / 1_000_000
)

// Second is the window in which flashes are counted. It is a second less a
// millisecond, so that exactly three a second pass when thirds of a second are
// written in whole milliseconds.
const Second = time.Second - time.Millisecond

// Change is one seat's new look at one moment.
type Change struct {
	At   time.Duration // from the start of the sequence
	Seat int32
	Look int16 // index of the looks
	Cue  int16 // from 0; the cue that the change belongs to
}

// Danger is what was found in one second.
type Danger struct {
	Cue  int           // from 0: the cue whose change is one too many
	From time.Duration // when that second begins
	Area float64       // share of the picture, 0…1, when the limit was passed
}

// Report is the answer. General and Red refuse the sequence; Hurried only warns, of
// more than three changes of any one seat in a second. Nil is all clear.
type Report struct {
	General, Red, Hurried *Danger
}

// Refused says whether the sequence may not be shown.
func (r Report) Refused() bool { return r.General != nil || r.Red != nil }

// Check looks for flashes. shares[s] is the part of the picture that seat s fills, 0…1,
// all together 1 at most; looks are what a seat can look like, those of cards at
// rest among them; start[s] is seat s's look before the first change. Changes may
// come in any order; those of one seat at one moment count as one, the last given.
// A change to the look that is already there is none.
func Check(shares []float64, looks []Look, start []int16, changes []Change) (Report, error) {
	area, err := areas(shares)
	if err != nil {
		return Report{}, err
	}
	if err := checkChanges(len(shares), len(looks), start, changes); err != nil {
		return Report{}, err
	}
	var general, red, hurried counter
	general.halves = make([]half, 0, len(changes))
	var edges []edge
	for seat, own := range bySeat(changes, start) {
		edges = luminanceEdges(edges[:0], looks, start[seat], own)
		general.seat(area[seat], edges)
		edges = redEdges(edges[:0], looks, start[seat], own)
		red.seat(area[seat], edges)
		edges = edges[:0]
		for _, c := range own { // of whatever size
			edges = append(edges, edge{at: c.At, cue: c.Cue})
		}
		hurried.add(area[seat], crowded(edges))
	}
	return Report{General: general.danger(areaLimit), Red: red.danger(areaLimit), Hurried: hurried.danger(-1)}, nil
}

func areas(shares []float64) ([]int64, error) {
	area := make([]int64, len(shares))
	var sum int64
	for s, share := range shares {
		if !(share >= 0 && share <= 1) {
			return nil, fmt.Errorf("seat %d fills %v of the picture; give 0 to 1", s, share)
		}
		area[s] = int64(math.Round(share * wholeFrame))
		sum += area[s]
	}
	// Each share may have been rounded up by half a trillionth, and the caller's sum by a little more.
	if sum > wholeFrame+rounding {
		return nil, fmt.Errorf("the seats fill %.6f of the picture; 1 is all of it", float64(sum)/wholeFrame)
	}
	return area, nil
}

func checkChanges(seats, looks int, start []int16, changes []Change) error {
	if len(start) != seats {
		return fmt.Errorf("%d seats, but the looks of %d at the start", seats, len(start))
	}
	for s, look := range start {
		if look < 0 || int(look) >= looks {
			return fmt.Errorf("seat %d starts with look %d of %d", s, look, looks)
		}
	}
	for _, c := range changes {
		switch {
		case c.Seat < 0 || int(c.Seat) >= seats:
			return fmt.Errorf("a change of seat %d; there are %d seats", c.Seat, seats)
		case c.Look < 0 || int(c.Look) >= looks:
			return fmt.Errorf("seat %d changes to look %d of %d", c.Seat, c.Look, looks)
		case c.At < 0:
			return fmt.Errorf("seat %d changes at %v, before the start", c.Seat, c.At)
		}
	}
	return nil
}

// bySeat parts the changes by seat, each seat's in order of time. The last of several at one moment, as given, is
// left, and none that changes nothing.
func bySeat(changes []Change, start []int16) [][]Change {
	end := make([]int, len(start)+1) // end[s+1] counts, then is where seat s's changes end
	for _, c := range changes {
		end[c.Seat+1]++
	}
	for s := range start {
		end[s+1] += end[s]
	}
	sorted := make([]Change, len(changes))
	next := slices.Clone(end)
	for _, c := range changes {
		sorted[next[c.Seat]] = c
		next[c.Seat]++
	}
	parts := make([][]Change, len(start))
	for s, look := range start {
		own := sorted[end[s]:end[s+1]]
		slices.SortStableFunc(own, func(a, b Change) int { return cmp.Compare(a.At, b.At) })
		parts[s] = own[:0]
		for i, c := range own {
			if (i+1 == len(own) || own[i+1].At != c.At) && c.Look != look {
				parts[s] = append(parts[s], c)
				look = c.Look
			}
		}
	}
	return parts
}
