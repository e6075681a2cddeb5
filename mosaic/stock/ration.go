package stock

import "slices"

// ration says whose side that is over repeats which colour, so that no more than these sheets
// are taken and the changes are fewest in all; people with one sequence may then have to be told
// apart. What there is plenty of stays open to everybody, so that kinds can be chosen.
// lacking are the colours of which more sheets would save changes.
func ration(seqs sequences, over []int, patterns *patterns) (out sequences, lacking []int16, err error) {
	r := newRationer(seqs, over, patterns)
	if len(r.scarce) == 0 {
		return seqs, nil, nil
	}
	var cost []int32
	for _, s := range r.seats {
		cost = append(cost, r.rows[seqs.bySeat[s]]...)
	}
	var sheets []int
	for _, c := range r.scarce {
		sheets = append(sheets, over[c])
	}
	given, _, err := Assign(cost, append(sheets, Unlimited))
	if err != nil {
		return seqs, nil, err
	}
	return r.told(given), r.lacking(given, over), nil
}

// rationer deals scarce sheets among the people who have a side that is over. A last colour stands for
// what costs no scarce sheet: a plain card, or a colour that there is plenty of.
type rationer struct {
	seqs     sequences
	patterns *patterns
	scarce   []int16
	plenty   uint64
	seats    []int // who have a side that could repeat a scarce colour
	rows     [][]int32
}

func newRationer(seqs sequences, over []int, patterns *patterns) *rationer {
	r := &rationer{seqs: seqs, patterns: patterns, plenty: ^uint64(0)}
	could := make([]int, MaxColours)
	for i := range seqs.list {
		q := &seqs.list[i]
		if q.repeats() {
			for _, c := range q.colour {
				could[c] += q.seats
			}
		}
	}
	for c, n := range over {
		if n != Unlimited && n < could[c] {
			r.scarce = append(r.scarce, int16(c))
			r.plenty &^= 1 << c
		}
	}
	r.rows = make([][]int32, len(seqs.list))
	for i := range seqs.list {
		q := &seqs.list[i]
		if !q.repeats() || !slices.ContainsFunc(q.colour, func(c int16) bool { return r.plenty>>c&1 == 0 }) {
			continue
		}
		// What each scarce colour costs in changes, then what anything else does. Of two that save the same, what is
		// not scarce is cheaper.
		changes, others := r.patterns.changesBy(q), len(r.scarce)
		row := slices.Repeat([]int32{Never}, others+1)
		row[others] = int32(2 * changes[len(q.colour)])
		for label, c := range q.colour {
			if k := slices.Index(r.scarce, c); k >= 0 {
				row[k] = int32(2*changes[label] + 1)
			} else {
				row[others] = min(row[others], int32(2*changes[label]))
			}
		}
		r.rows[i] = row
	}
	for s, i := range seqs.bySeat {
		if r.rows[i] != nil {
			r.seats = append(r.seats, s)
		}
	}
	return r
}

// repeats says whether a person has a side that is over and could repeat a colour.
func (q *sequence) repeats() bool { return len(q.colour)%2 == 1 && len(q.colour) > 1 }

// told are the sequences where people who are given different colours are told apart.
func (r *rationer) told(given []int16) sequences {
	type part struct {
		seq   int32
		given int16
	}
	out := sequences{bySeat: slices.Clone(r.seqs.bySeat)}
	known := map[part]int32{}
	for s, i := range r.seqs.bySeat {
		key := part{i, None}
		may := r.plenty
		if r.rows[i] != nil {
			if key.given = given[0]; int(key.given) < len(r.scarce) {
				may |= 1 << r.scarce[key.given]
			}
			given = given[1:]
		}
		at, ok := known[key]
		if !ok {
			at = int32(len(out.list))
			known[key] = at
			q := r.seqs.list[i]
			q.seats, q.may = 0, may
			out.list = append(out.list, q)
		}
		out.list[at].seats++
		out.bySeat[s] = at
	}
	return out
}

// lacking are the scarce colours, all given out, that would have saved somebody changes.
func (r *rationer) lacking(given []int16, over []int) []int16 {
	used := make([]int, len(r.scarce)+1)
	for _, g := range given {
		used[g]++
	}
	var out []int16
	for i, c := range r.scarce {
		if used[i] < over[c] {
			continue
		}
		for k, g := range given {
			row := r.rows[r.seqs.bySeat[r.seats[k]]]
			if row[i] != Never && row[i]/2 < row[g]/2 {
				out = append(out, c)
				break
			}
		}
	}
	return out
}
