package stock

import (
	"math/bits"
	"slices"
)

// maxOptions is how many of a pattern's equally good sets of cards are looked at when
// kinds are chosen; beyond it the first ones serve.
const maxOptions = 128

// pair is a card by the labels of its sides.
type pair [2]int8

// pattern is a sequence of colours with the colours numbered as they come, and all
// the sets of cards that serve it with the fewest cards, then the fewest changes.
type pattern struct {
	options [][]pair
	changes int
	cut     bool // there are more options than maxOptions
}

// patterns remembers what was solved: many sequences share a pattern.
type patterns struct {
	making  Making
	known   map[patternKey]*pattern
	changes map[string][]int // by labels, see changesBy
}

type patternKey struct {
	labels string
	may    uint32 // labels that a side which is over may repeat
}

func (p *patterns) get(q *sequence) *pattern {
	key := patternKey{labels: q.labels}
	if p.making != Sheet && len(q.colour)%2 == 1 {
		for label, c := range q.colour {
			key.may |= uint32(q.may>>c&1) << label
		}
	}
	if found, ok := p.known[key]; ok {
		return found
	}
	var solved *pattern
	if p.making == Sheet {
		solved = &pattern{options: [][]pair{nil}, changes: max(len(q.labels)-1, 0)}
		for label := range q.colour {
			solved.options[0] = append(solved.options[0], pair{int8(label), int8(label)})
		}
	} else {
		solved = twoPerCard(q.labels, len(q.colour), key.may)
	}
	p.known[key] = solved
	return solved
}

// changesBy are the fewest changes of a sequence with an odd number of colours, by the label
// that the side which is over repeats, and in the end where it makes a plain card.
func (p *patterns) changesBy(q *sequence) []int {
	if found, ok := p.changes[q.labels]; ok {
		return found
	}
	m := newMatcher(q.labels, len(q.colour), ^uint32(0))
	out := make([]int, m.colours+1)
	for v := range out {
		out[v] = len(q.labels)
	}
	m.spare(m.all(), func(v int, _ []pair, saved int, rest uint32) {
		out[v] = min(out[v], m.changes(saved+m.best(rest)))
	})
	p.changes[q.labels] = out
	return out
}

// fewestChanges are those of a sequence, whatever a side that is over repeats.
func (p *patterns) fewestChanges(q *sequence) int {
	if len(q.colour)%2 == 0 {
		return q.ways.changes
	}
	return slices.Min(p.changesBy(q))
}

// twoPerCard solves a pattern exactly. With an even number of colours the fewest
// cards are a perfect matching of them; each step between two colours of one
// card saves a change, so the changes are fewest where the matching weighs most,
// its weights the number of such steps. With an odd number one side is over: it
// makes one card plain, or repeats a colour v, which then has two partners y and u
// and saves all steps from and to either, but for those where v stands between
// y and u, of which one is lost. Only labels of may are repeated.
func twoPerCard(labels string, colours int, may uint32) *pattern {
	m := newMatcher(labels, colours, may)
	all := m.all()
	if colours%2 == 0 {
		m.matchings(all, nil)
		return m.pattern(m.best(all))
	}
	most := 0
	m.spare(all, func(_ int, _ []pair, saved int, rest uint32) { most = max(most, saved+m.best(rest)) })
	m.spare(all, func(_ int, cards []pair, saved int, rest uint32) {
		if saved+m.best(rest) == most {
			m.matchings(rest, cards)
		}
	})
	return m.pattern(most)
}

// matcher finds matchings of greatest weight; sets of labels are bits.
type matcher struct {
	labels  string
	colours int
	may     uint32                // labels that a side which is over may repeat
	weight  [MaxOwn][MaxOwn]int16 // steps between two labels
	near    [MaxOwn]uint32        // labels with a step to this one
	memo    memo
	options [][]pair
	cut     bool
}

func newMatcher(labels string, colours int, may uint32) *matcher {
	m := &matcher{labels: labels, colours: colours, may: may, memo: newMemo(colours)}
	for i := 1; i < len(labels); i++ {
		a, b := labels[i-1], labels[i]
		m.weight[a][b]++
		m.weight[b][a]++
		m.near[a] |= 1 << b
		m.near[b] |= 1 << a
	}
	return m
}

func (m *matcher) pattern(saved int) *pattern {
	return &pattern{options: m.options, changes: m.changes(saved), cut: m.cut}
}

func (m *matcher) changes(saved int) int { return max(len(m.labels)-1-saved, 0) }

// all are the labels.
func (m *matcher) all() uint32 { return uint32(1)<<m.colours - 1 }

// best is the greatest weight of a matching among these labels. Labels are numbered
// along the sequence, so that what is left after the lowest ones takes few forms.
func (m *matcher) best(set uint32) int {
	if set&(set-1) == 0 {
		return 0
	}
	if known, ok := m.memo.get(set); ok {
		return known
	}
	low := bits.TrailingZeros32(set)
	rest := set &^ (1 << low)
	most := m.best(rest)
	for others := m.near[low] & rest; others != 0; others &= others - 1 {
		other := bits.TrailingZeros32(others)
		most = max(most, int(m.weight[low][other])+m.best(rest&^(1<<other)))
	}
	m.memo.put(set, most)
	return most
}

// matchings adds every perfect matching of greatest weight of an even set, with the
// cards that are fixed before, to the options.
func (m *matcher) matchings(set uint32, cards []pair) {
	if len(m.options) == maxOptions {
		m.cut = true
		return
	}
	if set == 0 {
		m.options = append(m.options, append([]pair(nil), cards...))
		return
	}
	low := bits.TrailingZeros32(set)
	rest := set &^ (1 << low)
	for others := rest; others != 0 && !m.cut; others &= others - 1 {
		other := bits.TrailingZeros32(others)
		left := rest &^ (1 << other)
		if int(m.weight[low][other])+m.best(left) == m.best(set) {
			m.matchings(left, append(cards, pair{int8(low), int8(other)}))
		}
	}
}

// spare calls each way to use the side that is over: the label that it repeats, or their number
// where it makes a plain card, the one or two cards that it touches, the changes that
// these save, and the labels left for the others.
func (m *matcher) spare(all uint32, each func(v int, cards []pair, saved int, rest uint32)) {
	var cards [MaxOwn]pair // room for the others, so that nothing is allocated
	for y := range m.colours {
		cards[0] = pair{int8(y), int8(y)}
		each(m.colours, cards[:1], 0, all&^(1<<y))
	}
	for v := range m.colours {
		if m.may>>v&1 == 0 {
			continue
		}
		for u := range m.colours {
			for y := range u {
				if u != v && y != v {
					saved := int(m.weight[v][y]) + int(m.weight[v][u]) - m.between(v, y, u)
					cards[0], cards[1] = pair{int8(v), int8(y)}, pair{int8(v), int8(u)}
					each(v, cards[:2], saved, all&^(1<<v|1<<y|1<<u))
				}
			}
		}
	}
}

// between counts where v stands between y and u, either way round.
func (m *matcher) between(v, y, u int) int {
	if m.weight[v][y] == 0 || m.weight[v][u] == 0 {
		return 0
	}
	n := 0
	for i := 1; i+1 < len(m.labels); i++ {
		a, b := int(m.labels[i-1]), int(m.labels[i+1])
		if int(m.labels[i]) == v && (a == y && b == u || a == u && b == y) {
			n++
		}
	}
	return n
}

// memo remembers a small number for each set: in an array while that is small.
type memo struct {
	few  []int16 // one more than the number; 0 = not known
	many map[uint32]int16
}

// fewLabels is up to how many labels the array is used; it has 64 KiB then.
const fewLabels = 15

func newMemo(labels int) memo {
	if labels <= fewLabels {
		return memo{few: make([]int16, 1<<labels)}
	}
	return memo{many: map[uint32]int16{}}
}

func (m memo) get(set uint32) (n int, known bool) {
	if m.few != nil {
		return int(m.few[set]) - 1, m.few[set] > 0
	}
	got, known := m.many[set]
	return int(got), known
}

func (m memo) put(set uint32, n int) {
	if m.few != nil {
		m.few[set] = int16(n + 1)
	} else {
		m.many[set] = int16(n)
	}
}
