package stock

import (
	"fmt"
	"slices"
)

// MaxOwn bounds the different colours that one person shows over all cues; up to it the
// fewest cards and the fewest changes of card are exact for every sequence of colours.
const MaxOwn = 32

// Card is one kind of card, by the colours of its two sides, the lower first. A
// card with one colour on both sides is a plain sheet.
type Card struct{ Sides [2]int16 }

// Plain says whether both sides have one colour.
func (c Card) Plain() bool { return c.Sides[0] == c.Sides[1] }

// Hold is what a person holds up: an index of Kit.Cards and the side that is shown.
// Card is −1 where nothing is shown.
type Hold struct {
	Card int16
	Side int8
}

// Kit says which cards there are and who shows which of them when.
type Kit struct {
	Cards []Card   // kinds, by their sides
	Made  []int    // by kind: how many people hold one (no spares)
	Hands [][]Hold // [cue][seat]

	Total      int // cards in all
	Changes    int // of card, all people together; turning over is no change
	Most       int // cards that one person holds, at most
	LeastKinds int // no kit with so few cards and changes has fewer kinds than this

	// LeastChanges is Changes, were there sheets for every side; Lacking are the colours
	// of which more sheets would bring them nearer to it.
	LeastChanges int
	Lacking      []int16
}

// NewKit finds the cards that show cues[cue][seat], the colour or None of every seat at every
// cue. Each person gets the fewest cards; with that, the fewest changes of card: a
// change is when another card is taken than the one shown last, also across
// cues at which the person shows none, and turning over is free. Both are exact for
// every sequence. Then the whole has few kinds of card: that is a search, and
// Kit.LeastKinds is what it can be held against.
//
// Sheet has one colour a card, Bonded and Printed have two. A side that nobody
// needs repeats a colour of the same person, so that no card shows a colour that
// its holder never shows.
func NewKit(cues [][]int16, making Making) (*Kit, error) { return NewKitOf(cues, making, nil) }

// NewKitOf is NewKit where of each colour only so many sheets (or Unlimited) are over for
// sides that nobody needs; nil is plenty of all. The cards are as few. Among kits that take no
// more than these sheets the changes, of all people together, are the fewest: who
// repeats which colour is again a transportation problem (Assign).
func NewKitOf(cues [][]int16, making Making, over []int) (*Kit, error) {
	if err := checkCues(cues, making); err != nil {
		return nil, err
	}
	if len(cues) == 0 {
		return &Kit{}, nil
	}
	seqs := distinct(cues)
	patterns := newPatterns(making)
	for i := range seqs.list {
		if err := seqs.list[i].number(); err != nil {
			return nil, err
		}
	}
	var lacking []int16
	if over != nil && making != Sheet {
		var err error
		if seqs, lacking, err = ration(seqs, over, patterns); err != nil {
			return nil, err
		}
	}
	for i := range seqs.list {
		seqs.list[i].ways = patterns.get(&seqs.list[i])
	}
	kinds := chooseKinds(seqs.list)
	kit := &Kit{Cards: kinds.cards, Made: make([]int, len(kinds.cards)), LeastKinds: kinds.least, Lacking: lacking}
	kit.fill(cues, seqs)
	kit.LeastChanges = kit.Changes
	if len(lacking) > 0 {
		kit.LeastChanges = 0
		for i := range seqs.list {
			kit.LeastChanges += seqs.list[i].seats * patterns.fewestChanges(&seqs.list[i])
		}
	}
	return kit, nil
}

func checkCues(cues [][]int16, making Making) error {
	if making != Sheet && making != Bonded && making != Printed {
		return fmt.Errorf("cards are made as %q; choose %s, %s or %s", making, Sheet, Bonded, Printed)
	}
	for q, colours := range cues {
		if len(colours) != len(cues[0]) {
			return fmt.Errorf("cue %d has %d seats, cue 1 has %d", q+1, len(colours), len(cues[0]))
		}
		for s, c := range colours {
			if c < None || c >= MaxColours {
				return fmt.Errorf("cue %d, seat %d: colour %d; give %d to %d", q+1, s, c, None, MaxColours-1)
			}
		}
	}
	return nil
}

// sequence is one person's colours over the cues; many share it.
type sequence struct {
	raw    []int16 // by cue, None included
	shown  []int16 // without None, each run of one colour once
	seats  int
	colour []int16 // by label of the pattern
	labels string  // shown, by label
	may    uint64  // colours that a side which is over may repeat
	ways   *pattern
	way    int // the chosen one of ways.options
}

type sequences struct {
	list   []sequence // by first seat
	bySeat []int32
}

func distinct(cues [][]int16) sequences {
	seqs := sequences{bySeat: make([]int32, len(cues[0]))}
	known := map[string]int32{}
	key := make([]byte, len(cues))
	for s := range cues[0] {
		for q := range cues {
			key[q] = byte(cues[q][s] - None)
		}
		i, ok := known[string(key)]
		if !ok {
			i = int32(len(seqs.list))
			known[string(key)] = i
			seqs.list = append(seqs.list, newSequence(key))
		}
		seqs.list[i].seats++
		seqs.bySeat[s] = i
	}
	return seqs
}

func newSequence(key []byte) sequence {
	both := make([]int16, 2*len(key)) // one piece of memory for raw and shown
	q := sequence{may: ^uint64(0), raw: both[:len(key)], shown: both[len(key):len(key)]}
	for i, b := range key {
		c := int16(b) + None
		q.raw[i] = c
		if c != None && (len(q.shown) == 0 || q.shown[len(q.shown)-1] != c) {
			q.shown = append(q.shown, c)
		}
	}
	return q
}

// number gives the sequence's colours numbers as they come.
func (q *sequence) number() error {
	var label [MaxColours]int8
	labels := make([]byte, len(q.shown))
	for i, c := range q.shown {
		if label[c] == 0 {
			q.colour = append(q.colour, c)
			label[c] = int8(len(q.colour))
		}
		labels[i] = byte(label[c] - 1)
	}
	if len(q.colour) > MaxOwn {
		return fmt.Errorf("one person shows %d colours; %d at most", len(q.colour), MaxOwn)
	}
	q.labels = string(labels)
	return nil
}

// card is the card of a pair of labels.
func (q *sequence) card(p pair) Card {
	a, b := q.colour[p[0]], q.colour[p[1]]
	return Card{[2]int16{min(a, b), max(a, b)}}
}

// fill counts the cards and hands them out.
func (k *Kit) fill(cues [][]int16, seqs sequences) {
	index := map[Card]int16{}
	for i, c := range k.Cards {
		index[c] = int16(i)
	}
	holds := make([][]Hold, len(seqs.list))
	for i := range seqs.list {
		q := &seqs.list[i]
		var own []int16
		for _, p := range q.ways.options[q.way] {
			own = append(own, index[q.card(p)])
		}
		slices.Sort(own)
		for _, c := range own {
			k.Made[c] += q.seats
		}
		k.Total += q.seats * len(own)
		k.Changes += q.seats * q.ways.changes
		k.Most = max(k.Most, len(own))
		holds[i] = k.play(q, own)
	}
	k.Hands = make([][]Hold, len(cues))
	for i := range k.Hands {
		k.Hands[i] = make([]Hold, len(seqs.bySeat))
		for s, seq := range seqs.bySeat {
			k.Hands[i][s] = holds[seq][i]
		}
	}
}

// play shows the sequence with a person's own cards and the fewest changes: keep
// the card while it serves, then take the one that will serve longest.
func (k *Kit) play(q *sequence, own []int16) []Hold {
	holds := make([]Hold, len(q.raw))
	hand := int16(-1)
	for i, c := range q.raw {
		if c == None {
			holds[i] = Hold{Card: -1}
			continue
		}
		if hand < 0 || k.serves(hand, q.raw[i:i+1]) == 0 {
			hand = slices.MaxFunc(own, func(a, b int16) int {
				return k.serves(a, q.raw[i:]) - k.serves(b, q.raw[i:])
			})
		}
		holds[i].Card = hand
		if k.Cards[hand].Sides[0] != c {
			holds[i].Side = 1
		}
	}
	return holds
}

// serves counts how many of these colours in a row the card has; None needs no card.
func (k *Kit) serves(card int16, colours []int16) int {
	sides := k.Cards[card].Sides
	for n, c := range colours {
		if c != None && c != sides[0] && c != sides[1] {
			return n
		}
	}
	return len(colours)
}
