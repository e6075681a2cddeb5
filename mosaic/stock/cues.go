package stock

import (
	"errors"
	"fmt"
	"math/bits"
	"slices"
)

// Cue is what one cue asks of the seats that show a card at it.
type Cue struct {
	Seats []int32 // ascending
	Cost  []int32 // of colour c at Seats[i]: Cost[i*colours+c], as for Assign
}

// Colours is the answer over several cues.
type Colours struct {
	ByCue [][]int16 // [cue][seat], None where the seat shows no card
	Cost  int64
	Least int64 // no answer costs less; equal to Cost, the answer is an optimum

	prices []int64 // a sheet of each colour, by which the cues shared
}

// maxRounds bounds how often every cue is dealt again with the others as they are. A
// round never makes the answer worse.
const maxRounds = 4

// AssignCues gives the seats 0…seats−1 their colours over all cues. A person needs one
// sheet of each colour that they ever show, however often; no more people ever show a
// colour than its stock has sheets.
//
// Where the cues' own optima fit the stock together, they are the answer, an exact
// optimum. Otherwise scarce colours get prices, so that the cues share them, and cue after
// cue is dealt exactly with the others as they are (a colour that a person has anyway
// takes nothing from the stock), first with prices and then without, while that helps.
// Colours.Least, which prices give as well, bounds what a perfect answer could save.
//
// before, where it is not nil, is an answer for nearly the same stock: its prices are taken as
// they are, which is much faster, and the bound is weaker. An empty answer has no prices, and
// all that is found out is whether the cards suffice. Errors are those of Assign.
func AssignCues(cues []Cue, seats int, stock []int, before *Colours) (*Colours, error) {
	d := &dealer{before: before, cues: cues, stock: stock, out: &Colours{ByCue: make([][]int16, len(cues))}}
	for q, cue := range cues {
		if err := cue.check(seats, len(stock)); err != nil {
			return nil, fmt.Errorf("cue %d: %w", q+1, err)
		}
		d.out.ByCue[q] = slices.Repeat([]int16{None}, seats)
	}
	for q := range cues { // each by itself, which may be all
		colours, cost, err := Assign(cues[q].Cost, stock)
		if err != nil {
			return nil, err
		}
		d.put(q, colours)
		d.out.Least += cost
	}
	d.out.Cost = d.out.Least
	for c, n := range d.used(d.held(-1)) {
		if stock[c] != Unlimited && n > stock[c] {
			return d.out, d.together()
		}
	}
	return d.out, nil
}

func (c Cue) check(seats, colours int) error {
	if len(c.Cost) != len(c.Seats)*colours {
		return fmt.Errorf("%d costs for %d seats and %d colours", len(c.Cost), len(c.Seats), colours)
	}
	for i, s := range c.Seats {
		if s < 0 || int(s) >= seats || i > 0 && s <= c.Seats[i-1] {
			return fmt.Errorf("seat %d is not one of 0 to %d in ascending order", s, seats-1)
		}
	}
	return nil
}

type dealer struct {
	before *Colours // whose prices are taken; nil = they are looked for
	cues   []Cue
	stock  []int
	prices []int64 // a sheet, while cards are shared out; nil = none
	out    *Colours
}

func (d *dealer) put(q int, colours []int16) {
	for i, s := range d.cues[q].Seats {
		d.out.ByCue[q][s] = colours[i]
	}
}

// held are the colours that each seat shows at all cues but one, as bits.
func (d *dealer) held(but int) []uint64 {
	var held []uint64
	for q, colours := range d.out.ByCue {
		if held == nil {
			held = make([]uint64, len(colours))
		}
		for s, c := range colours {
			if q != but && c != None {
				held[s] |= 1 << c
			}
		}
	}
	return held
}

func (d *dealer) used(held []uint64) []int {
	used := make([]int, len(d.stock))
	for _, own := range held {
		for ; own != 0; own &= own - 1 {
			used[bits.TrailingZeros64(own)]++
		}
	}
	return used
}

// together deals one cue at a time on top of the others, without prices and with them, and
// keeps what costs less; of two that cost the same, what is shared more fairly.
func (d *dealer) together() error {
	err := d.rounds(maxRounds, true)
	if err != nil || d.out.Cost == d.out.Least || d.before != nil && d.before.prices == nil {
		return err
	}
	plain, other := d.out, *d
	other.out = &Colours{Least: plain.Least}
	for _, colours := range plain.ByCue {
		other.out.ByCue = append(other.out.ByCue, slices.Clone(colours))
	}
	if err := other.priced(plain.Cost); err != nil {
		return err
	}
	d.out.Least = max(d.out.Least, other.out.Least)
	if other.out.Cost < plain.Cost || other.out.Cost == plain.Cost && other.worst() < d.worst() {
		other.out.Least = d.out.Least
		*d.out = *other.out
	}
	return nil
}

// rounds deals every cue again with the others as they are, while that helps; afresh begins with nobody having a card.
func (d *dealer) rounds(most int, afresh bool) error {
	for _, colours := range d.out.ByCue {
		for s := range colours {
			if afresh {
				colours[s] = None
			}
		}
	}
	before := int64(-1)
	for range most {
		d.out.Cost = 0
		for q := range d.cues {
			cost, err := d.deal(q)
			if err != nil {
				return err
			}
			d.out.Cost += cost
		}
		if d.out.Cost == before {
			break
		}
		before = d.out.Cost
	}
	return nil
}

// priced shares scarce colours out by their prices, beginning anew, and then deals without.
func (d *dealer) priced(cost int64) error {
	own := d.cues
	d.cues = apart(own)
	if d.before != nil {
		d.prices = d.before.prices
	} else {
		m := newMarket(d, own)
		d.out.Least = max(d.out.Least, m.settle(cost, priceRounds))
		shared := newMarket(d, d.cues)
		shared.prices, shared.priced = m.prices, m.priced
		shared.settle(cost+cost/toldApart, moreRounds)
		d.prices = shared.prices
	}
	d.out.prices = d.prices
	if err := d.rounds(pricedPasses, true); err != nil {
		return err
	}
	d.cues, d.prices = own, nil
	return d.rounds(maxRounds, false)
}

// worst is the dearest cue.
func (d *dealer) worst() int64 {
	var most int64
	for q, cue := range d.cues {
		var sum int64
		for i, s := range cue.Seats {
			sum += int64(cue.Cost[i*len(d.stock)+int(d.out.ByCue[q][s])])
		}
		most = max(most, sum)
	}
	return most
}

// apart makes like seats differ a little, each in its own way at every cue: where all would pay
// the same for a colour, some of each cue then get it, and not all of one.
func apart(cues []Cue) []Cue {
	out := make([]Cue, len(cues))
	for q, cue := range cues {
		out[q] = Cue{cue.Seats, slices.Clone(cue.Cost)}
		for i, s := range cue.Seats {
			k := len(cue.Cost) / len(cue.Seats)
			more := int64(mixed(uint64(q)<<32|uint64(s)) % 256)
			for c := i * k; c < (i+1)*k; c++ {
				if v := int64(cue.Cost[c]); v != Never {
					out[q].Cost[c] = int32(min(v+v*more/(256*toldApart), MaxCost))
				}
			}
		}
	}
	return out
}

// deal is exact for cue q. One more colour, without limit, stands for the best of those
// that the seat has anyway. People who have no card yet and come only at a later cue
// take part as seats that may have any, so that one is left for each of them.
func (d *dealer) deal(q int) (int64, error) {
	k := len(d.stock)
	held := d.held(q)
	stock := make([]int, k+1)
	for c, used := range d.used(held) {
		stock[c] = d.stock[c]
		if stock[c] != Unlimited {
			stock[c] -= used
		}
	}
	stock[k] = Unlimited
	cue := &d.cues[q]
	var cost []int32
	own := make([]int16, len(cue.Seats)) // the best colour that the seat has
	for i, s := range cue.Seats {
		row := cue.Cost[i*k : (i+1)*k]
		own[i] = cheapestOf(row, held[s])
		cost = append(cost, row...)
		for c, price := range d.prices {
			if at := &cost[len(cost)-k+c]; price > 0 && *at != Never && held[s]>>c&1 == 0 {
				*at = int32(min(int64(*at)+price, MaxCost))
			}
		}
		if own[i] == None {
			cost = append(cost, Never)
		} else {
			cost = append(cost, row[own[i]])
		}
	}
	come := make([]bool, len(held))
	for _, s := range cue.Seats {
		come[s] = true
	}
	for _, cue := range d.cues {
		for _, s := range cue.Seats {
			if held[s] == 0 && !come[s] {
				come[s] = true
				cost = append(append(cost, make([]int32, k)...), Never)
			}
		}
	}
	colours, total, err := Assign(cost, stock)
	if short, ok := errors.AsType[*Short](err); ok {
		// The seats that only wait and the colour that stands for others mean nothing to the caller.
		return 0, &Short{Seats: short.Seats, Colours: short.Colours, Wanted: d.wanted(), Stock: d.stock}
	} else if err != nil {
		return 0, err
	}
	colours = colours[:len(cue.Seats)]
	for i, c := range colours {
		if int(c) == k {
			colours[i] = own[i]
		}
	}
	d.put(q, colours)
	return total, nil
}

// wanted are the sheets by colour, were there plenty of all.
func (d *dealer) wanted() []int {
	held := make([]uint64, len(d.out.ByCue[0]))
	for _, cue := range d.cues {
		for i, s := range cue.Seats {
			if c := cheapest(cue.Cost[i*len(d.stock) : (i+1)*len(d.stock)]); c != None {
				held[s] |= 1 << c
			}
		}
	}
	return d.used(held)
}

// cheapestOf is the cheapest of the colours in a set that the seat may show.
func cheapestOf(row []int32, set uint64) int16 {
	best := int16(None)
	for ; set != 0; set &= set - 1 {
		c := int16(bits.TrailingZeros64(set))
		if row[c] != Never && (best == None || row[c] < row[best]) {
			best = c
		}
	}
	return best
}

// mixed is a whole number that looks like chance (the finaliser of SplitMix64; Steele, Lea, Flood 2014).
func mixed(n uint64) uint64 {
	n = (n + 1) * 0x9e3779b97f4a7c15
	n = (n ^ n>>30) * 0xbf58476d1ce4e5b9
	n = (n ^ n>>27) * 0x94d049bb133111eb
	return n ^ n>>31
}
