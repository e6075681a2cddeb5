package legibility

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Mischief is a kind of what goes wrong on the day.
type Mischief string

// The kinds, and the ways in which people are missing.
const (
	EmptySeats  Mischief = "seats empty"
	WrongCards  Mischief = "cards wrong"
	RowOff      Mischief = "a row laid one seat off"
	RowReversed Mischief = "a row laid backwards"
	Late        Mischief = "still down"
	Uneven      Mischief = "held unevenly"
)

// The ways in which seats are empty.
const (
	Singly  = "one here, one there"
	Groups  = "groups of five"
	Busload = "a late bus"
	RowEnds = "row ends"
)

// A late bus is this many people side by side and this many rows (ours, no source);
// at a row's end so many are missing together.
const (
	busWide, busRows = 10, 4
	endSeats         = 4
)

// Outcome is how the text reads with one thing gone wrong. Hands are uneven as o says in every
// one of them. Where seats are empty or cards wrong, nothing else is; with rows, late
// people and more uneven hands also what o expects to be empty and wrong is.
type Outcome struct {
	What    Mischief
	Way     string  // of empty seats; "" otherwise
	Share   float64 // of the seats, cards or people; of Uneven the factor on the error of hand; 0 for rows
	Score   float64 // 0…1
	Verdict Verdict
	// Worst is the first seat of the row that does most harm, as a Field seat, and WorstScore the
	// score with it; −1 unless a row goes wrong.
	Worst      int
	WorstScore float64
}

// The shares and factors that are tried, beside those of Judge.
var (
	lateShares  = []float64{0.10, 0.25, 0.50}
	handFactors = []float64{2, 3}
)

// How often chance is tried, and how many rows at most; for very many seats fewer, since a
// look takes longer there and chance evens out.
const (
	dayTries = 6
	dayRows  = 12
	many     = 20_000
)

// Shows is what a seat shows.
type Shows uint8

// What it can show, of a text.
const (
	ShowsGround Shows = iota
	ShowsInk
	ShowsNothing
)

// Day simulates what goes wrong. before is what each seat shows until it moves, where that
// is not nothing at all (nil).
func (c *Chances) Day(before []Shows) []Outcome {
	d := day{judge: c.judge, before: before, tries: dayTries, rows: c.judge.field.rows()}
	most := dayRows
	if len(d.field.Seats) > many {
		d.tries, most = 2, 4
	}
	for _, way := range []string{Singly, Groups, Busload, RowEnds} {
		for _, share := range emptyShares {
			d.add(Outcome{What: EmptySeats, Way: way, Share: share}, d.empty(way, share))
		}
	}
	for _, share := range wrongShares {
		d.add(Outcome{What: WrongCards, Share: share}, func(k int) (*Mishap, []bool) {
			return strike(d.field, d.rng(k), 0, share, false, &d.o), d.ink
		})
	}
	for _, share := range lateShares {
		d.add(Outcome{What: Late, Share: share}, d.late(share))
	}
	for _, factor := range handFactors {
		o := d.o
		o.HandHeight, o.HandSideways = float64(o.HandHeight*factor), float64(o.HandSideways*factor)
		o.HandTilt = float64(o.HandTilt * factor)
		d.add(Outcome{What: Uneven, Share: factor}, func(k int) (*Mishap, []bool) {
			return strike(d.field, d.rng(k), o.Empty, o.Wrong, k%3 == 2, &o), d.ink
		})
	}
	rows := d.inkedRows(most)
	d.addRows(RowOff, rows, shifted)
	d.addRows(RowReversed, rows, reversed)
	return d.run()
}

// day collects what is to be looked at, to look at all of it in parallel.
type day struct {
	*judge
	before []Shows
	tries  int
	rows   [][2]int
	out    []Outcome
	looks  []dayLook
}

// dayLook is one picture of one outcome.
type dayLook struct {
	outcome int
	row     int // first seat of it, or −1
	draw    func() (*Mishap, []bool)
	chance  float64
}

// rng gives try k the same chances in all outcomes, so that more is worse.
func (d *day) rng(k int) *rand.Rand { return d.judge.rng(uint64(300 + k)) }

func (d *day) add(o Outcome, draw func(k int) (*Mishap, []bool)) {
	o.Worst = -1
	for k := range d.tries {
		d.looks = append(d.looks, dayLook{outcome: len(d.out), row: -1,
			draw: func() (*Mishap, []bool) { return draw(k) }})
	}
	d.out = append(d.out, o)
}

// addRows lets each of the rows go wrong for itself, with what else is expected.
func (d *day) addRows(what Mischief, rows [][2]int, wrong func(ink, empty []bool, way int)) {
	if len(rows) == 0 {
		return
	}
	for _, row := range rows {
		for k := range 2 {
			d.looks = append(d.looks, dayLook{outcome: len(d.out), row: row[0], draw: func() (*Mishap, []bool) {
				m, ink := d.expected(k), slices.Clone(d.ink)
				wrong(ink[row[0]:row[1]], m.empty[row[0]:row[1]], k)
				return m, ink
			}})
		}
	}
	d.out = append(d.out, Outcome{What: what, Worst: -1})
}

func (d *day) expected(k int) *Mishap {
	return strike(d.field, d.rng(k), d.o.Empty, d.o.Wrong, k%3 == 2, &d.o)
}

func (d *day) run() []Outcome {
	d.inParallel(len(d.looks), func(j *judge, i int) {
		m, ink := d.looks[i].draw()
		j.ink = ink
		d.looks[i].chance = chance(j.look(m, Coming{}))
	})
	for i := range d.out {
		d.settle(i)
	}
	return d.out
}

// settle takes the mean of an outcome's looks and, of rows, the worst one's.
func (d *day) settle(i int) {
	o := &d.out[i]
	sum, n := 0.0, 0
	worst := math.Inf(1)
	for k := 0; k < len(d.looks); k++ {
		l := &d.looks[k]
		if l.outcome != i {
			continue
		}
		sum, n = sum+l.chance, n+1
		if l.row >= 0 && k+1 < len(d.looks) && d.looks[k+1].row == l.row && d.looks[k+1].outcome == i {
			if c := math.Round((l.chance+d.looks[k+1].chance)/2*1e6) / 1e6; c < worst {
				worst, o.Worst = c, l.row
			}
		}
	}
	o.Score = d.settledScore(sum / float64(n))
	o.Verdict = VerdictOf(o.Score)
	if o.Worst >= 0 {
		o.WorstScore = d.settledScore(worst)
	}
}

// inkedRows are rows that show both ink and ground, at most so many, evenly chosen.
func (d *day) inkedRows(most int) [][2]int {
	var all [][2]int
	for _, r := range d.rows {
		if in := d.ink[r[0]:r[1]]; slices.Contains(in, true) && slices.Contains(in, false) {
			all = append(all, r)
		}
	}
	if len(all) <= most {
		return all
	}
	out := make([][2]int, most)
	for i := range out {
		out[i] = all[(2*i+1)*len(all)/(2*most)]
	}
	return out
}

// shifted lays a row one seat off, one way or the other: the seat at its beginning is passed over.
func shifted(ink, empty []bool, way int) {
	n := len(ink)
	if way%2 == 0 {
		copy(ink[1:], slices.Clone(ink[:n-1]))
		empty[0] = true
		return
	}
	copy(ink, slices.Clone(ink[1:]))
	empty[n-1] = true
}

func reversed(ink, _ []bool, _ int) { slices.Reverse(ink) }

// empty draws mishaps in which a share of the seats is empty in one way.
func (d *day) empty(way string, share float64) func(k int) (*Mishap, []bool) {
	return func(k int) (*Mishap, []bool) {
		rng := d.rng(k)
		switch way {
		case Singly, Groups:
			return strike(d.field, rng, share, 0, way == Groups, &d.o), d.ink
		}
		m := strike(d.field, rng, 0, 0, false, &d.o)
		gone := int(math.Round(share * float64(len(d.field.Seats))))
		for tries := 0; gone > 0 && tries < 20*len(d.rows); tries++ {
			if way == Busload {
				gone -= d.bus(m, rng, gone)
			} else {
				gone -= d.end(m, rng, gone)
			}
		}
		return m, d.ink
	}
}

// bus empties a block of neighbours in some rows of one section, at most so many seats.
func (d *day) bus(m *Mishap, rng *rand.Rand, most int) (gone int) {
	r := rng.IntN(len(d.rows))
	first := rng.IntN(max(d.rows[r][1]-d.rows[r][0]-busWide, 0) + 1)
	section := d.field.Seats[d.rows[r][0]].Section
	for k := r; k < min(r+busRows, len(d.rows)); k++ {
		a, b := d.rows[k][0], d.rows[k][1]
		if d.field.Seats[a].Section != section {
			break
		}
		for i := a + first; i < min(a+first+busWide, b) && gone < most; i++ {
			gone += m.leave(i)
		}
	}
	return gone
}

// end empties the outermost seats of a row that are still taken, at one end.
func (d *day) end(m *Mishap, rng *rand.Rand, most int) (gone int) {
	r := d.rows[rng.IntN(len(d.rows))]
	left := rng.IntN(2) == 0
	for k := range r[1] - r[0] {
		i := r[0] + k
		if !left {
			i = r[1] - 1 - k
		}
		if gone < min(most, endSeats) {
			gone += m.leave(i)
		}
	}
	return gone
}

// late draws mishaps in which a share of the people still shows what was there before.
func (d *day) late(share float64) func(k int) (*Mishap, []bool) {
	return func(k int) (*Mishap, []bool) {
		m, rng := d.expected(k), d.judge.rng(uint64(400+k))
		ink := slices.Clone(d.ink)
		for i := range ink {
			if rng.Float64() >= share {
				continue
			}
			if d.before == nil || d.before[i] == ShowsNothing {
				m.empty[i] = true
			} else {
				ink[i] = d.before[i] == ShowsInk
			}
		}
		return m, ink
	}
}
