package stock

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic/colour"
)

// Never is the cost of a colour that a seat must not show.
const Never = math.MaxInt32

// MaxCost is the largest cost of a colour that a seat may show.
const MaxCost = 1 << 30

// Assign gives every seat a colour at the least total cost that the stock allows:
// the exact optimum of the transportation problem.
//
// stock[c] is the number of sheets of colour c that may be used, or Unlimited. The
// cost of colour c at seat s is cost[s*len(stock)+c], 0…MaxCost or Never. The result
// is the colour by seat and the total cost. Among plans of equal cost the choice is
// fixed by the input: lower seats and lower colours move first.
//
// Where the cards do not suffice the error is a *Short; other errors say what is
// wrong with the input.
//
// The method is that of shortest augmenting paths (Ahuja, Magnanti, Orlin, "Network
// Flows", 1993, chapter 9), on the graph of the colours alone: every seat begins with
// its cheapest colour, and while a colour is used more than there is stock, one card
// is moved along the cheapest chain of colours that ends where there is stock left.
// Each chain costs O(k²) for k colours plus O(k log n) for n seats in the heaps.
func Assign(cost []int32, stock []int) ([]int16, int64, error) {
	if err := checkCosts(cost, stock); err != nil {
		return nil, 0, err
	}
	a := newAssigner(cost, stock)
	a.balance()
	if short := a.short(); short != nil {
		return nil, 0, short
	}
	var total int64
	for s, c := range a.colour {
		total += int64(cost[s*a.k+int(c)])
	}
	return a.colour, total, nil
}

func checkCosts(cost []int32, stock []int) error {
	k := len(stock)
	if k == 0 || k > MaxColours {
		return fmt.Errorf("%d colours; give 1 to %d", k, MaxColours)
	}
	for c, have := range stock {
		if have < Unlimited {
			return fmt.Errorf("colour %d has a stock of %d; give a count, or %d for unlimited", c, have, Unlimited)
		}
	}
	if len(cost)%k != 0 {
		return fmt.Errorf("%d costs do not divide by %d colours", len(cost), k)
	}
	for i, c := range cost {
		if c < 0 || c > MaxCost && c != Never {
			return fmt.Errorf("the cost of colour %d at seat %d is %d; give 0 to %d", i%k, i/k, c, MaxCost)
		}
	}
	return nil
}

// Short says that there are not cards enough.
type Short struct {
	Seats   int   // seats that go without a card however the cards are dealt
	Colours []int // the colours, all used up, that these seats could take
	Wanted  []int // by colour: seats whose cheapest colour it is
	Stock   []int // by colour: as given
}

// Error is one line, with colours by their number: how many cards are short, and how many of which colour are
// wanted beyond its stock.
func (e *Short) Error() string {
	if len(e.Colours) == 0 {
		return fmt.Sprintf("seats that may take no colour at all: %d", e.Seats)
	}
	var some, over []string
	for _, c := range e.Colours {
		some = append(some, fmt.Sprintf("colour %d", c))
		if e.Wanted[c] > e.Stock[c] {
			over = append(over, fmt.Sprintf("; colour %d: %d wanted, %d in stock", c, e.Wanted[c], e.Stock[c]))
		}
	}
	return fmt.Sprintf("cards short among %s: %d%s", strings.Join(some, ", "), e.Seats, strings.Join(over, ""))
}

// move is one seat's change of colour in a heap: what it costs more in the upper
// half (it may be negative), the seat in the lower, so that whole values compare.
type move int64

const noMove = move(math.MaxInt64)

func newMove(cost int32, seat int) move { return move(int64(cost)<<32 | int64(seat)) }

func (m move) cost() int64 { return int64(m) >> 32 }
func (m move) seat() int   { return int(uint32(m)) }

// far is a distance beyond any chain of colours.
const far = math.MaxInt64 / 2

// assigner holds a deal of colours that is always the cheapest for its counts.
type assigner struct {
	k      int
	cost   []int32
	stock  []int
	colour []int16 // by seat; None where every colour is Never
	wanted []int
	count  []int
	heaps  []moveHeap // of colour a's seats to colour b at [a*k+b]; entries of seats that left linger
	best   []move     // the cheapest true entry of each heap, or noMove
	// potential[c] is the length of the cheapest chain to c so far; with it every
	// chain's steps cost zero or more.
	potential []int64
	dist      []int64 // of the last search
	from      []int
	done      []bool
}

func newAssigner(cost []int32, stock []int) *assigner {
	k := len(stock)
	a := &assigner{
		k: k, cost: cost, stock: stock,
		colour: make([]int16, len(cost)/k),
		count:  make([]int, k),
		heaps:  make([]moveHeap, k*k), best: make([]move, k*k),
		potential: make([]int64, k),
		dist:      make([]int64, k), from: make([]int, k), done: make([]bool, k),
	}
	for s := range a.colour {
		a.colour[s] = cheapest(cost[s*k : s*k+k])
		if a.colour[s] != None {
			a.count[a.colour[s]]++
		}
	}
	a.wanted = slices.Clone(a.count)
	for i := range a.heaps {
		a.heaps[i] = make(moveHeap, 0, a.count[i/k])
	}
	for s, c := range a.colour {
		if c == None {
			continue
		}
		row := cost[s*k : s*k+k]
		for b, cost := range row {
			if cost != Never && b != int(c) {
				h := &a.heaps[int(c)*k+b]
				*h = append(*h, newMove(cost-row[c], s))
			}
		}
	}
	for i := range a.heaps {
		a.heaps[i].order()
		a.best[i] = a.heaps[i].top()
	}
	return a
}

func cheapest(row []int32) int16 { return cheapestOf(row, 1<<len(row)-1) }

func (a *assigner) over(c int) bool { return a.stock[c] != Unlimited && a.count[c] > a.stock[c] }
func (a *assigner) room(c int) bool { return a.stock[c] == Unlimited || a.count[c] < a.stock[c] }

// balance moves cards along cheapest chains until no colour is over its stock, or
// no chain leads to a colour with room.
func (a *assigner) balance() {
	for end := a.search(); end >= 0; end = a.search() {
		for c := range a.potential {
			a.potential[c] += min(a.dist[c], a.dist[end])
		}
		// One seat moves on each step of the chain, on the last step first, so that the steps before
		// still see their own seats.
		for c := end; a.from[c] >= 0; c = a.from[c] {
			b := a.from[c]
			a.recolour(a.best[b*a.k+c].seat(), b, c)
		}
	}
}

// search finds the cheapest chain from any colour over its stock to any with room
// (Dijkstra on reduced costs) and gives its end, or −1 where there is none.
func (a *assigner) search() int {
	for c := range a.k {
		a.dist[c], a.from[c], a.done[c] = far, -1, false
		if a.over(c) {
			a.dist[c] = 0
		}
	}
	for {
		c := -1
		for d := range a.k {
			if !a.done[d] && a.dist[d] < far && (c < 0 || a.dist[d] < a.dist[c]) {
				c = d
			}
		}
		if c < 0 || a.room(c) {
			return c
		}
		a.done[c] = true
		base := a.dist[c] + a.potential[c]
		for d, m := range a.best[c*a.k : c*a.k+a.k] {
			if m == noMove || a.done[d] {
				continue
			}
			if to := base + m.cost() - a.potential[d]; to < a.dist[d] {
				a.dist[d], a.from[d] = to, c
			}
		}
	}
}

func (a *assigner) recolour(seat, old, now int) {
	a.colour[seat] = int16(now)
	a.count[old]--
	a.count[now]++
	row := a.cost[seat*a.k : seat*a.k+a.k]
	for b, cost := range row {
		if cost != Never && b != now {
			i := now*a.k + b
			m := newMove(cost-row[now], seat)
			a.heaps[i].push(m)
			a.best[i] = min(a.best[i], m)
		}
	}
	for b := range a.k { // what seats that have left would cost goes from the top
		h := &a.heaps[old*a.k+b]
		for len(*h) > 0 && int(a.colour[(*h)[0].seat()]) != old {
			h.pop()
		}
		a.best[old*a.k+b] = h.top()
	}
}

// short is nil when every seat has a card. A last search that found no room has
// visited just the colours that the seats without a card can reach.
func (a *assigner) short() *Short {
	e := &Short{Wanted: a.wanted, Stock: a.stock, Seats: len(a.colour)}
	for c, n := range a.count {
		if a.over(c) {
			n = a.stock[c]
		}
		e.Seats -= n // the others have no colour that they may show
		if a.done[c] {
			e.Colours = append(e.Colours, c)
		}
	}
	if e.Seats == 0 {
		return nil
	}
	return e
}

// moveHeap is a binary heap with the least move on top. The standard heap goes
// through an interface, which takes most of the time here.
type moveHeap []move

func (h moveHeap) top() move {
	if len(h) == 0 {
		return noMove
	}
	return h[0]
}

// order makes a heap of entries in any order.
func (h moveHeap) order() {
	for i := len(h)/2 - 1; i >= 0; i-- {
		h.sink(i)
	}
}

func (h *moveHeap) push(m move) {
	*h = append(*h, m)
	a := *h
	i := len(a) - 1
	for i > 0 {
		up := (i - 1) / 2
		if a[up] <= m {
			break
		}
		a[i] = a[up]
		i = up
	}
	a[i] = m
}

func (h *moveHeap) pop() {
	a := *h
	last := len(a) - 1
	a[0] = a[last]
	*h = a[:last]
	if last > 0 {
		(*h).sink(0)
	}
}

func (h moveHeap) sink(i int) {
	m := h[i]
	for {
		down := 2*i + 1
		if down >= len(h) {
			break
		}
		if down+1 < len(h) && h[down+1] < h[down] {
			down++
		}
		if m <= h[down] {
			break
		}
		h[i] = h[down]
		i = down
	}
	h[i] = m
}

// The weights of a seat (ours; no outside source).
const (
	// fullSight is the weight of a seat that the camera sees wholly.
	fullSight = 256
	// leastSight keeps a hidden seat from being free: its neighbours in the stands, and a
	// camera that moves, still see it.
	leastSight = 16
	// mostWeight bounds what is given, and keeps cost under MaxCost.
	mostWeight = 16 * fullSight
	// strokeWeight is how much more it costs to get a seat of a letter's stroke wrong.
	strokeWeight = 4
	// costSteps is how fine a difference of colour counts: thousandths of one CIEDE2000 unit.
	costSteps = 1000
	// maxError bounds the difference; no two sRGB colours are farther apart, and
	// cost stays under MaxCost.
	maxError = 128 * costSteps
)

// CostUnit is what one CIEDE2000 unit costs at a seat of the ground that is seen wholly.
const CostUnit = fullSight * costSteps

// Want is what one seat ought to show.
type Want struct {
	Colour colour.Linear // the mean of the message over the seat's cell
	Seen   float64       // share of the card that the camera sees, 0…1
	Stroke bool          // part of a letter, not of the ground
	Weight float64       // beside a seat of the ground that is wholly seen; 0 = by Seen and Stroke
}

// Costs are the costs of every card colour at every seat, as Assign takes them: the
// CIEDE2000 difference times a weight of what the camera sees, strokes of letters
// heavier than ground. An exact colour costs nothing; of two wrong ones, a
// seat that is hardly seen still prefers the nearer.
func Costs(wants []Want, palette []colour.RGB) []int32 {
	labs := make([]colour.Lab, len(palette))
	for c, rgb := range palette {
		labs[c] = rgb.Linear().Lab()
	}
	cost := make([]int32, len(wants)*len(palette))
	// Letters and grounds repeat a handful of colours; a picture's are mostly its own.
	known := map[colour.Linear][]int32{}
	for s, w := range wants {
		errs, ok := known[w.Colour]
		if !ok {
			errs = make([]int32, len(labs))
			want := w.Colour.Lab()
			for c, lab := range labs {
				errs[c] = int32(min(math.Round(colour.CIEDE2000(want, lab)*costSteps), maxError))
			}
			known[w.Colour] = errs
		}
		weight := w.weight()
		row := cost[s*len(labs) : (s+1)*len(labs)]
		for c, e := range errs {
			row[c] = e * weight
		}
	}
	return cost
}

// Share is what the seat weighs beside one of the ground that is wholly seen.
func (w Want) Share() float64 { return float64(w.weight()) / fullSight }

// weight is what is given, or leastSight…fullSight, for a stroke strokeWeight times as much.
func (w Want) weight() int32 {
	if w.Weight > 0 {
		return int32(math.Round(min(max(w.Weight*fullSight, leastSight), mostWeight)))
	}
	weight := int32(math.Round(min(max(w.Seen, 0), 1) * fullSight))
	weight = max(weight, leastSight)
	if w.Stroke {
		weight *= strokeWeight
	}
	return weight
}
