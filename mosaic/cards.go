package mosaic

import (
	"fmt"
	"math/bits"
	"slices"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// MostCards is how many cards one person can hold and find the right one of
// (common practice, no source).
const MostCards = 8

// dealt is what everybody holds, and what it takes.
type dealt struct {
	*made
	cards   []Card
	hands   [][]Hold // [cue][seat]
	figures Figures
}

// handOut gives every seat the cards that show its colours, and counts what they take. A card's lighter side is its
// side A: the label is there, and white shows least on it.
func (m *maker) handOut() error {
	making := stock.Making(m.p.Stunt.Card.Kind)
	if err := m.p.checkHands(making); err != nil {
		return err
	}
	kit, err := m.p.fewestCards(making)
	if err != nil {
		return err
	}
	d := &dealt{made: kit, cards: make([]Card, len(kit.Cards)), hands: make([][]Hold, len(kit.Hands))}
	d.figures = Figures{
		Cards: kit.Total, Changes: kit.Changes, LeastChanges: kit.LeastChanges, Most: kit.Most,
		Kinds: len(kit.Cards), LeastKinds: kit.LeastKinds,
	}
	turned := make([]bool, len(kit.Cards))
	colours, ids := m.p.Stunt.Colours, ColourIDs(m.p.Stunt.Colours)
	light := func(k int16) float64 { return colour.Contrast(colours[k].RGB, colour.RGB{}) }
	for i, c := range kit.Cards {
		a, b := c.Sides[0], c.Sides[1]
		if turned[i] = light(b) > light(a); turned[i] {
			a, b = b, a
		}
		d.cards[i] = Card{ID: ids[a], Sides: [2]int16{a, b}}
		if !c.Plain() {
			d.cards[i].ID += "/" + ids[b]
		}
	}
	for i, hands := range kit.Hands {
		d.hands[i] = make([]Hold, len(hands))
		for s, h := range hands {
			d.hands[i][s] = Hold(h)
			if h.Card >= 0 && turned[h.Card] {
				d.hands[i][s].Side = 1 - h.Side
			}
		}
	}
	m.dealt = d
	return nil
}

// colours are the plan's colours by cue and seat.
func (p *Plan) colours() [][]int16 {
	return mapped(p.Cues, func(c CuePlan) []int16 { return c.Colours })
}

// mostHeld is who holds most cards, how many, and of how many colours.
func (p *Plan) mostHeld(making stock.Making) (seat, cards, colours int) {
	for s := range p.Stands.Seats {
		n := bits.OnesCount64(p.own(s))
		held := n
		if making != stock.Sheet {
			held = (n + 1) / 2
		}
		if held > cards {
			seat, cards, colours = s, held, n
		}
	}
	return seat, cards, colours
}

// own are the colours that a seat ever shows, as bits.
func (p *Plan) own(seat int) (own uint64) {
	for i := range p.Cues {
		if c := p.Cues[i].Colours[seat]; c != None {
			own |= 1 << c
		}
	}
	return own
}

// CardsEach is how many cards one person holds at most, made that way.
func (p *Plan) CardsEach(making stock.Making) int {
	_, cards, _ := p.mostHeld(making)
	return cards
}

// checkHands refuses what no hands can serve.
func (p *Plan) checkHands(making stock.Making) error {
	at, most, colours := p.mostHeld(making)
	if most <= MostCards {
		return nil
	}
	hint := "show fewer colours on the same seats, or make two stunts of it"
	if making == stock.Sheet && (most+1)/2 <= MostCards {
		hint = fmt.Sprintf("write kind = %q under [card]: two colours on each card make it %d", Bonded, (most+1)/2)
	}
	return &seating.Fault{
		Key: "card.kind",
		What: fmt.Sprintf("the person on %s would hold %d cards for %d colours, and hands can serve %d",
			p.Stands.ID(at), most, colours, MostCards),
		Hint: hint,
	}
}

// made is a kit and what it takes. tight are, by colour, the sheets that were lacking only because with
// sides that repeat colours other cards are spoiled; nil = none.
type made struct {
	*stock.Kit
	bill  *stock.Bill
	tight []int
}

// fewestCards are those that show the plan, with the fewest changes that the stock allows, and
// what they take. A side of a card that nobody needs repeats a colour where that saves changes; of a
// scarce colour only as far as sheets are over when everybody has what they must show.
func (p *Plan) fewestCards(making stock.Making) (*made, error) {
	if making != stock.Bonded || !p.Stunt.Limited() {
		return p.repeating(making, nil)
	}
	// Nothing repeated takes the fewest sheets.
	over := make([]int, len(p.Stunt.Colours))
	kit, err := p.repeating(making, over)
	if err != nil || kit.bill.Short() {
		return kit, err
	}
	if free, err := p.repeating(making, nil); err != nil || !free.bill.Lacks() {
		return free, err
	}
	if kit.Changes == kit.LeastChanges {
		return kit, nil
	}
	lacking := kit.bill.Lacking(len(over)) // no spare is given up for a change less
	for c, k := range p.Stunt.Colours {
		over[c] = p.cardsIn(&k)
	}
	for _, line := range kit.bill.Lines {
		if c := line.Colour; over[c] != stock.Unlimited {
			over[c] = max(0, over[c]-(line.Sheets()+line.Forgone)/p.SheetsPerCard())
		}
	}
	// A sheet more may take a spare and another bonded card that is spoiled, so what may be
	// repeated is found by counting.
	const rounds = 12
	for range rounds {
		more, err := p.repeating(making, over)
		if err != nil {
			return nil, err
		}
		beyond := more.bill.Lacking(len(over))
		for c := range beyond {
			beyond[c] = max(0, beyond[c]-lacking[c])
		}
		if slices.Max(beyond) == 0 {
			more.tight = kit.tight
			return more, nil
		}
		if p.fewer(over, beyond) {
			continue
		}
		if kit.tight == nil {
			kit.tight = beyond
		}
		for c := range over {
			if over[c] != stock.Unlimited {
				over[c] = over[c] * 3 / 4
			}
		}
	}
	return kit, nil
}

// fewer takes off what was repeated too much, by so many sheets of each colour, and says whether there was any.
func (p *Plan) fewer(over, sheets []int) (any bool) {
	for c, n := range sheets {
		if n > 0 && over[c] > 0 {
			over[c] -= min(over[c], p.cardsOf(n))
			any = true
		}
	}
	return any
}

// cardsOf is how many cards, or sides of cards, so many sheets take part in.
func (p *Plan) cardsOf(sheets int) int { return (sheets + p.SheetsPerCard() - 1) / p.SheetsPerCard() }

// repeating is a kit whose sides repeat a colour on at most so many cards, by colour; nil: wherever it helps.
func (p *Plan) repeating(making stock.Making, over []int) (*made, error) {
	kit, err := stock.NewKit(p.colours(), making, over)
	if err != nil {
		return nil, &seating.Fault{Key: "cue", What: err.Error()}
	}
	sections := mapped(p.Stands.Seats, func(s seating.Seat) int { return int(s.Section) })
	bill, err := stock.Buy(making, kit.Piles(sections), p.Stunt.supplies(), p.making())
	if err != nil {
		return nil, &seating.Fault{Key: "colour", What: err.Error()}
	}
	return &made{Kit: kit, bill: bill}, nil
}

// CardsOf appends to buf the cards that a seat is given, as indices into p.Cards,
// each once, in the order in which the seat first shows them.
func (p *Plan) CardsOf(buf []int16, seat int32) []int16 {
	start := len(buf)
	for _, hands := range p.Hands {
		if card := hands[seat].Card; card >= 0 && !slices.Contains(buf[start:], card) {
			buf = append(buf, card)
		}
	}
	return buf
}
