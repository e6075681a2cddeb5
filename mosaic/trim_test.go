package mosaic

import (
	"math"
	"slices"
	"testing"

	"everyseat/seating"
)

// trimmed counts the seats with cards that are empty at a share.
func trimmed(p *Plan, trim []uint8, share int) (empty, all int) {
	for s := range p.Stands.Seats {
		if p.Stands.Seats[s].Use == seating.UseCard {
			all++
			if int(trim[s]) >= share {
				empty++
			}
		} else if trim[s] != 0 {
			empty = math.MinInt
		}
	}
	return empty, all
}

// As many seats stay empty as a share leaves over, counted by hand, and only seats with cards.
func TestTrimCounts(t *testing.T) {
	for _, stunt := range []*Stunt{gullhaven(), crowded()} {
		p, err := Make(stunt)
		if err != nil {
			t.Fatal(err)
		}
		trim := p.Trim()
		for _, share := range TrimShares {
			empty, all := trimmed(p, trim, share)
			if want := all * (100 - share) / 100; empty != want {
				t.Errorf("at %d %%: %d of %d seats are empty, want %d", share, empty, all, want)
			}
		}
		if !slices.Equal(trim, p.Trim()) {
			t.Error("two answers differ")
		}
	}
}

// Where there is ground enough no seat of a letter drops out, nor a wheelchair place; and what
// drops out lies farther from the letters than what stays, within the width of a seat. Distances are
// measured in the picture, in seats as it shows them.
func TestTrimSparesTheMessage(t *testing.T) {
	stunt := gullhaven()
	stunt.Stands.Sections[0].Reserved = []seating.Reserved{{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 2}}, For: "wheelchair"}}
	p, err := Make(stunt)
	if err != nil {
		t.Fatal(err)
	}
	trim := p.Trim()
	wide, high := seatInPicture(p)
	farthest := func(s int) float64 { // seats to the nearest letter
		best := math.Inf(1)
		for k, c := range p.Cues[0].Colours {
			if c == 1 { // the ink
				a, b := p.Marks[0].Sight.Corners[s], p.Marks[0].Sight.Corners[k]
				best = min(best, max(math.Abs(a[0][0]+a[2][0]-b[0][0]-b[2][0])/2/wide, math.Abs(a[0][1]+a[2][1]-b[0][1]-b[2][1])/2/high))
			}
		}
		return best
	}
	near, far, out := math.Inf(1), 0.0, 0
	for s := range p.Stands.Seats {
		seat := &p.Stands.Seats[s]
		switch ink := p.Cues[0].Colours[s] == 1; {
		case seat.Use != seating.UseCard:
		case trim[s] > 0 && (ink || seat.For != ""):
			t.Errorf("%s drops out at %d %%: ink %v, for %q", p.Stands.ID(s), trim[s], ink, seat.For)
		case trim[s] > 0:
			near, out = min(near, farthest(s)), out+1
		case !ink && seat.For == "":
			far = max(far, farthest(s))
		}
	}
	// Both ends of both distances are counted in whole cells.
	if out == 0 || far > near+2 {
		t.Errorf("of %d seats that drop out one lies %.1f seats from a letter, and one that stays %.1f", out, near, far)
	}
}

// seatInPicture is how far neighbours lie apart in the middle of the picture.
func seatInPicture(p *Plan) (wide, high float64) {
	row, next := p.Stands.Sections[1].Rows[6], p.Stands.Sections[1].Rows[7]
	at := p.Marks[0].Sight.Corners
	return math.Abs(at[row.First+1][0][0] - at[row.First][0][0]), math.Abs(at[next.First][0][1] - at[row.First][0][1])
}

// A message that is nothing but letters is thinned out, and no two neighbours go before they must.
func TestTrimThinsOut(t *testing.T) {
	stunt := gullhaven()
	stunt.Cues = []Cue{{Name: "all", Ground: "navy"}}
	for k := range stunt.Stands.Sections {
		for _, r := range []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"} {
			stunt.Cues[0].Painted = append(stunt.Cues[0].Painted, Paint{Section: stunt.Stands.Sections[k].Name, Seats: seating.SeatRange{Row: r, From: 1, To: 12}, Colour: "gold"})
		}
	}
	p, err := Make(stunt)
	if err != nil {
		t.Fatal(err)
	}
	trim := p.Trim()
	for s := 0; s+1 < len(trim); s++ {
		a, b := &p.Stands.Seats[s], &p.Stands.Seats[s+1]
		if a.Section == b.Section && a.Row == b.Row && trim[s] >= 80 && trim[s+1] >= 80 {
			t.Errorf("%s and its neighbour are both empty at 80 %%", p.Stands.ID(s))
		}
	}
}
