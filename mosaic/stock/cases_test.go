package stock

import (
	"fmt"
	"strings"
)

// numbers is SplitMix64 (Steele, Lea, Flood 2014): a fixed stream of random
// numbers, so that committed tables stay true whatever the standard library does.
type numbers uint64

func (n *numbers) next() uint64 {
	*n += 0x9e3779b97f4a7c15
	z := uint64(*n)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below is a number in 0…n−1.
func (n *numbers) below(limit int) int { return int(n.next() % uint64(limit)) }

// problem is one transportation problem.
type problem struct {
	cost  []int32
	stock []int
}

func (p problem) seats() int { return len(p.cost) / len(p.stock) }

// randomProblem has seats and colours; `tight` colours share about nine tenths of what
// would be wanted of them, the others have room for all. Every other seed draws
// costs from few values, so that ties abound, and every fourth forbids some colours.
func randomProblem(seed uint64, seats, colours, tight int) problem {
	rng := numbers(seed)
	p := problem{cost: make([]int32, seats*colours), stock: make([]int, colours)}
	top := 1_000_000
	if seed%2 == 1 {
		top = 8
	}
	for i := range p.cost {
		p.cost[i] = int32(rng.below(top))
	}
	if seed%4 >= 2 {
		for range seats / 2 {
			// The last colour stays open to all, so that the problem has an answer.
			p.cost[rng.below(seats)*colours+rng.below(colours-1)] = Never
		}
	}
	for c := range p.stock {
		p.stock[c] = seats
		if c < tight {
			p.stock[c] = rng.below(seats*9/(10*colours) + 1)
		}
	}
	return p
}

// pictureProblem is like a real stunt: every seat wants one of a few mixed colours, its
// cost a distance in three channels times a weight; `tight` colours have six tenths of what is wanted.
func pictureProblem(seed uint64, seats, colours, tight int) problem {
	rng := numbers(seed)
	palette := make([][3]int, colours)
	for c := range palette {
		palette[c] = [3]int{rng.below(256), rng.below(256), rng.below(256)}
	}
	p := problem{cost: make([]int32, seats*colours), stock: make([]int, colours)}
	wanted := make([]int, colours)
	for s := range seats {
		want := [3]int{rng.below(256), rng.below(256), rng.below(256)}
		weight := 16 + rng.below(241)
		row := p.cost[s*colours : (s+1)*colours]
		for c, have := range palette {
			d := 0
			for i := range have {
				d += (have[i] - want[i]) * (have[i] - want[i])
			}
			row[c] = int32(d * weight)
		}
		wanted[cheapest(row)]++
	}
	for c := range p.stock {
		p.stock[c] = seats
		if c < tight {
			p.stock[c] = wanted[c] * 6 / 10
		}
	}
	return p
}

// text is how the outside solvers read a problem: seats, colours, the stock, then
// the costs seat by seat.
func (p problem) text() string {
	var b strings.Builder
	fmt.Fprintln(&b, p.seats(), len(p.stock))
	for _, n := range p.stock {
		fmt.Fprint(&b, n, " ")
	}
	fmt.Fprintln(&b)
	for _, c := range p.cost {
		fmt.Fprint(&b, c, " ")
	}
	fmt.Fprintln(&b)
	return b.String()
}
