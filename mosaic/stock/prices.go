package stock

import (
	"math"
	"math/bits"
	"slices"
)

// The search for prices.
const (
	priceRounds  = 50
	moreRounds   = 20   // from these prices on, where like seats are told apart
	fullRounds   = 2    // of them over all seats, where prices were found on some
	someSeats    = 2000 // on which prices are found where there are many more
	mostPriced   = 7    // colours: a person's best kit is looked for among all sets of them
	pricedPasses = 2    // over all cues with prices, before the passes without
	toldApart    = 64   // one part of so many by which like seats differ while cards are shared out
)

// market finds a price a sheet for the scarce colours, so that people who each take what is best
// for them, prices included, want no more than there is: Lagrangian relaxation with subgradient
// steps (Held, Wolfe, Crowder, "Validation of subgradient optimization", Mathematical
// Programming 6, 1974). What they then pay in all, less the worth of the stock, is less than no
// plan can cost.
type market struct {
	cues   []Cue
	stock  []int
	rows   [][]int32 // by cue and seat: where in Cost its row begins, or −1
	prices []int64
	priced []int // colours that have or may have a price

	// of one person at a time
	best  int64
	kit   uint64
	takes []int64 // by depth and cue: the cheapest cost so far
}

func newMarket(d *dealer, cues []Cue) *market {
	m := &market{cues: cues, stock: d.stock, prices: make([]int64, len(d.stock))}
	for q := range d.cues {
		row := make([]int32, len(d.out.ByCue[q]))
		for s := range row {
			row[s] = -1
		}
		for i, s := range d.cues[q].Seats {
			row[s] = int32(i * len(d.stock))
		}
		m.rows = append(m.rows, row)
	}
	m.takes = make([]int64, (mostPriced+1)*len(d.cues))
	return m
}

// settle looks for prices, from a plan's cost, and gives the most that the bound came to.
func (m *market) settle(cost int64, rounds int) int64 {
	seats := len(m.rows[0])
	step := 1
	if seats > 2*someSeats {
		step = seats / someSeats
	}
	most, kept := int64(math.MinInt64), slices.Clone(m.prices)
	slow := 1.0
	since := 0
	for round := range rounds {
		stride := step
		if round >= rounds-fullRounds {
			stride = 1
		}
		if stride == 1 && round == rounds-fullRounds && step > 1 {
			most, since = math.MinInt64, 0
		}
		bound, used := m.ask(stride)
		if bound > most {
			most, since = bound, 0
			copy(kept, m.prices)
		} else if since++; since >= 4 {
			slow, since = slow/2, 0
			copy(m.prices, kept)
		}
		if !m.move(used, cost/int64(stride), bound, stride, slow) {
			break
		}
	}
	copy(m.prices, kept)
	if step > 1 { // the last word is over all seats
		most, _ = m.ask(1)
	}
	return most
}

// ask lets every stride-th person choose, and gives the bound and the sheets they take.
func (m *market) ask(stride int) (bound int64, used []int) {
	used = make([]int, len(m.stock))
	for s := 0; s < len(m.rows[0]); s += stride {
		m.choose(s)
		bound += m.best
		for kit := m.kit; kit != 0; kit &= kit - 1 {
			used[bits.TrailingZeros64(kit)]++
		}
	}
	for _, c := range m.priced {
		bound -= m.prices[c] * int64(m.stock[c]) / int64(stride)
	}
	return bound, used
}

// move raises the prices of what is wanted too much and lowers the others; it says whether
// any changed. A colour that is wanted too much for the first time gets its first price.
func (m *market) move(used []int, cost, bound int64, stride int, slow float64) bool {
	for c, n := range used {
		scarce := m.stock[c] != Unlimited && n*stride > m.stock[c]
		if scarce && !slices.Contains(m.priced, c) && len(m.priced) < mostPriced {
			m.priced = append(m.priced, c)
		}
	}
	var norm float64
	for _, c := range m.priced {
		over := float64(used[c]) - float64(m.stock[c])/float64(stride)
		if over > 0 || m.prices[c] > 0 {
			norm += float64(over * over)
		}
	}
	if norm == 0 {
		return false
	}
	gap := math.Max(float64(cost-bound), 1)
	changed := false
	for _, c := range m.priced {
		over := float64(used[c]) - float64(m.stock[c])/float64(stride)
		price := max(0, m.prices[c]+int64(math.Round(over*slow*gap/norm)))
		changed = changed || price != m.prices[c]
		m.prices[c] = price
	}
	return changed
}

// choose finds the kit of a person that costs least, the price of its sheets included: all sets
// of priced colours are gone through, with what has no price free to all.
func (m *market) choose(seat int) {
	var priced uint64
	for _, c := range m.priced {
		priced |= 1 << c
	}
	k := len(m.stock)
	for q := range m.cues {
		m.takes[q] = 0
		if at := m.rows[q][seat]; at >= 0 {
			m.takes[q] = math.MaxInt64 / 1024
			for c, v := range m.cues[q].Cost[at : int(at)+k] {
				if v != Never && priced>>c&1 == 0 {
					m.takes[q] = min(m.takes[q], int64(v))
				}
			}
		}
	}
	m.best, m.kit = math.MaxInt64, 0
	m.extend(seat, 0, 0, 0, 0)
	kit := m.kit
	for q := range m.cues { // what has no price comes on top, where it is what the person shows
		if at := m.rows[q][seat]; at >= 0 {
			best := cheapestOf(m.cues[q].Cost[at:int(at)+k], ^priced&(1<<k-1)|kit)
			if best != None && priced>>best&1 == 0 {
				m.kit |= 1 << best
			}
		}
	}
}

// extend tries what the person may still take beside a set of colours.
func (m *market) extend(seat, depth, from int, paid int64, set uint64) {
	n := len(m.cues)
	now := m.takes[depth*n : (depth+1)*n]
	sum := paid
	for _, v := range now {
		sum += v
	}
	if sum < m.best {
		m.best, m.kit = sum, set
	}
	for i := from; i < len(m.priced); i++ {
		c := m.priced[i]
		next := m.takes[(depth+1)*n : (depth+2)*n]
		saves := int64(0)
		for q := range now {
			next[q] = now[q]
			if at := m.rows[q][seat]; at >= 0 {
				if v := m.cues[q].Cost[int(at)+c]; v != Never && int64(v) < now[q] {
					next[q] = int64(v)
					saves += now[q] - int64(v)
				}
			}
		}
		if saves > 0 {
			m.extend(seat, depth+1, i+1, paid+m.prices[c], set|1<<c)
		}
	}
}
