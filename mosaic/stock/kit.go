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
//
// Of each colour only so many sheets (or Unlimited) are over for such sides; nil is plenty of
// all. The cards are as few. Among kits that take no more than these sheets the changes, of all
// people together, are the fewest: who repeats which colour is again a transportation
// problem (Assign).
func NewKit(cues [][]int16, making Making, over []int) (*Kit, error) {
	if err := checkCues(cues, making); err != nil {
		return nil, err
	}
	if len(cues) == 0 {
		return &Kit{}, nil
	}
	seqs, err := distinct(cues)
	if err != nil {
		return nil, err
	}
	patterns := &patterns{making: making, known: map[patternKey]*pattern{}, changes: map[string][]int{}}
	var lacking []int16
	if over != nil && making != Sheet {
		if seqs, lacking, err = ration(seqs, over, patterns); err != nil {
			return nil, err
		}
	}
	for i := range seqs.list {
		seqs.list[i].ways = patterns.get(&seqs.list[i])
	}
	cards, least := chooseKinds(seqs.list)
	kit := &Kit{Cards: cards, Made: make([]int, len(cards)), LeastKinds: least, Lacking: lacking}
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
	if err := making.check(); err != nil {
		return err
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
	seats  int
	colour []int16 // by label of the pattern: numbered as they come
	labels string  // by step: without None, each run of one colour once
	may    uint64  // colours that a side which is over may repeat
	ways   *pattern
	way    int // the chosen one of ways.options
}

type sequences struct {
	list   []sequence // by first seat
	bySeat []int32
}

func distinct(cues [][]int16) (sequences, error) {
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
			q, err := newSequence(key)
			if err != nil {
				return seqs, err
			}
			seqs.list = append(seqs.list, q)
		}
		seqs.list[i].seats++
		seqs.bySeat[s] = i
	}
	return seqs, nil
}

func newSequence(key []byte) (sequence, error) {
	q := sequence{may: ^uint64(0), raw: make([]int16, len(key))}
	var label [MaxColours]int8 // by colour, from 1
	labels := make([]byte, 0, len(key))
	for i, b := range key {
		c := int16(b) + None
		q.raw[i] = c
		if c == None {
			continue
		}
		if label[c] == 0 {
			q.colour = append(q.colour, c)
			label[c] = int8(len(q.colour))
		}
		if now := byte(label[c] - 1); len(labels) == 0 || labels[len(labels)-1] != now {
			labels = append(labels, now)
		}
	}
	if len(q.colour) > MaxOwn {
		return q, fmt.Errorf("one person shows %d colours; %d at most", len(q.colour), MaxOwn)
	}
	q.labels = string(labels)
	return q, nil
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
