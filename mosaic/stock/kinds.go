package stock

import (
	"cmp"
	"slices"
)

// kind is a card as one number, so that arrays can be asked about it.
type kind int16

const allKinds = MaxColours * MaxColours

func (q *sequence) kind(p pair) kind {
	c := q.card(p)
	return kind(c.Sides[0]*MaxColours + c.Sides[1])
}

// chooseKinds picks one of each sequence's options so that together they need few
// kinds of card. The least would be a hitting-set problem; this goes from the
// sequences with the least freedom to those with most, adding as few kinds as
// possible, and then takes out every kind that the others can replace. No choice has
// fewer kinds than least.
func chooseKinds(list []sequence) (cards []Card, least int) {
	c := &chooser{list: list, order: make([]int32, len(list))}
	for i := range c.order {
		c.order[i] = int32(i)
	}
	slices.SortStableFunc(c.order, func(a, b int32) int {
		return cmp.Compare(len(list[a].ways.options), len(list[b].ways.options))
	})
	c.survey()
	c.add()
	for c.remove() {
	}
	c.settle()
	for k, used := range c.used {
		if used > 0 {
			cards = append(cards, Card{[2]int16{int16(k / MaxColours), int16(k % MaxColours)}})
		}
	}
	return cards, c.least
}

type chooser struct {
	list   []sequence
	order  []int32         // least freedom first
	used   [allKinds]int32 // sequences that use the kind now
	served [allKinds]int32 // sequences that have an option with the kind
	least  int
}

// survey counts which kinds could serve whom, and works out the lower bound: kinds
// that some sequence cannot do without, and further ones for sequences that have
// no kind in common with each other.
func (c *chooser) survey() {
	var needed [allKinds]bool
	var seen [allKinds]int32 // options of the present sequence with the kind
	each := func(i int32, do func(k kind, options int32)) {
		q := &c.list[i]
		var touched []kind
		for _, option := range q.ways.options {
			for _, p := range option {
				k := q.kind(p)
				if seen[k]++; seen[k] == 1 {
					touched = append(touched, k)
				}
			}
		}
		for _, k := range touched {
			do(k, seen[k])
			seen[k] = 0
		}
	}
	for _, i := range c.order {
		each(i, func(k kind, options int32) {
			c.served[k]++
			if w := c.list[i].ways; !w.cut && int(options) == len(w.options) && !needed[k] {
				needed[k] = true
				c.least++
			}
		})
	}
	var taken [allKinds]bool
	for _, i := range c.order {
		more := c.fewestOutside(i, &needed)
		if more == 0 || c.list[i].ways.cut {
			continue
		}
		clash := false
		each(i, func(k kind, _ int32) { clash = clash || taken[k] })
		if !clash {
			c.least += more
			each(i, func(k kind, _ int32) { taken[k] = taken[k] || !needed[k] })
		}
	}
}

// fewestOutside is the least number of kinds that sequence i needs beyond a set.
func (c *chooser) fewestOutside(i int32, set *[allKinds]bool) int {
	q := &c.list[i]
	fewest := MaxOwn
	for _, option := range q.ways.options {
		n := 0
		for _, p := range option {
			if !set[q.kind(p)] {
				n++
			}
		}
		fewest = min(fewest, n)
	}
	return fewest
}

// add gives each sequence the option that brings the fewest new kinds; among such,
// the one whose new kinds could serve most sequences.
func (c *chooser) add() {
	for _, i := range c.order {
		q := &c.list[i]
		fewest, serve := MaxOwn+1, int32(0)
		for w, option := range q.ways.options {
			n, s := 0, int32(0)
			for _, p := range option {
				if k := q.kind(p); c.used[k] == 0 {
					n++
					s += c.served[k]
				}
			}
			if n < fewest || n == fewest && s > serve {
				q.way, fewest, serve = w, n, s
			}
		}
		c.count(q, 1)
	}
}

func (c *chooser) count(q *sequence, by int32) {
	for _, p := range q.ways.options[q.way] {
		c.used[q.kind(p)] += by
	}
}

// choose takes another option for a sequence.
func (c *chooser) choose(q *sequence, way int) {
	c.count(q, -1)
	q.way = way
	c.count(q, 1)
}

// remove takes out a kind that can be spared, the least used first, and says whether there was any: all who use it
// have options of other kinds in use.
func (c *chooser) remove() bool {
	users := make([][]int32, allKinds)
	var order []kind
	for i := range c.list {
		q := &c.list[i]
		for _, p := range q.ways.options[q.way] {
			k := q.kind(p)
			if len(users[k]) == 0 {
				order = append(order, k)
			}
			users[k] = append(users[k], int32(i))
		}
	}
	slices.SortFunc(order, func(a, b kind) int {
		return cmp.Or(cmp.Compare(len(users[a]), len(users[b])), cmp.Compare(a, b))
	})
	for _, k := range order {
		ways := make([]int, 0, len(users[k]))
		for _, i := range users[k] {
			q := &c.list[i]
			way := slices.IndexFunc(q.ways.options, func(option []pair) bool {
				return !slices.ContainsFunc(option, func(p pair) bool {
					return q.kind(p) == k || c.used[q.kind(p)] == 0
				})
			})
			if way < 0 {
				break
			}
			ways = append(ways, way)
		}
		if len(ways) < len(users[k]) {
			continue
		}
		for n, i := range users[k] {
			c.choose(&c.list[i], ways[n])
		}
		return true // the lists of users are true no longer
	}
	return false
}

// settle lets everybody have as many plain cards as the kinds allow: they are cheaper.
func (c *chooser) settle() {
	for i := range c.list {
		q := &c.list[i]
		most := -1
		way := q.way
		for w, option := range q.ways.options {
			plain := 0
			for _, p := range option {
				if c.used[q.kind(p)] == 0 {
					plain = -1
					break
				}
				if p[0] == p[1] {
					plain++
				}
			}
			if plain > most {
				way, most = w, plain
			}
		}
		c.choose(q, way)
	}
}
