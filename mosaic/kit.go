package mosaic

import (
	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// made is a kit and what it takes. tight are, by colour, the sheets that were lacking only because with
// sides that repeat colours other cards are spoiled; nil = none.
type made struct {
	*stock.Kit
	bill  *stock.Bill
	tight []int
}

// kit is the fewest cards that show the plan, with the fewest changes that the stock allows, and
// what they take. A side of a card that nobody needs repeats a colour where that saves changes; of a
// scarce colour only as far as sheets are over when everybody has what they must show.
func (p *Plan) kit(making stock.Making) (*made, error) {
	if making != stock.Bonded || !p.Stunt.limited() {
		return p.kitOf(making, nil)
	}
	// Nothing repeated takes the fewest sheets.
	over := make([]int, len(p.Stunt.Colours))
	kit, err := p.kitOf(making, over)
	if err != nil || kit.bill.Short() {
		return kit, err
	}
	if free, err := p.kitOf(making, nil); err != nil || !free.bill.Short() {
		return free, err
	}
	if kit.Changes == kit.LeastChanges {
		return kit, nil
	}
	for c, k := range p.Stunt.Colours {
		over[c] = stock.Unlimited
		if k.Sheets >= 0 {
			over[c] = p.cardsIn(&k)
		}
	}
	for _, line := range kit.bill.Lines {
		if c := line.Colour; over[c] != stock.Unlimited {
			over[c] -= line.Sheets() / p.SheetsPerCard()
		}
	}
	// A sheet more may take a spare and another bonded card that is spoiled, so what may be
	// repeated is found by counting.
	const rounds = 12
	for range rounds {
		more, err := p.kitOf(making, over)
		if err != nil {
			return nil, err
		}
		if !more.bill.Short() {
			more.tight = kit.tight
			return more, nil
		}
		if p.fewer(over, more.bill) {
			continue
		}
		if kit.tight == nil {
			kit.tight = make([]int, len(over))
			for _, line := range more.bill.Lines {
				kit.tight[line.Colour] = line.Short
			}
		}
		for c := range over {
			if over[c] != stock.Unlimited {
				over[c] = over[c] * 3 / 4
			}
		}
	}
	return kit, nil
}

// fewer takes off what was repeated too much and says whether there was any.
func (p *Plan) fewer(over []int, bill *stock.Bill) bool {
	any := false
	for _, line := range bill.Lines {
		if c := line.Colour; line.Short > 0 && over[c] > 0 {
			over[c] -= min(over[c], (line.Short+p.SheetsPerCard()-1)/p.SheetsPerCard())
			any = true
		}
	}
	return any
}

func (p *Plan) kitOf(making stock.Making, over []int) (*made, error) {
	kit, err := stock.NewKitOf(p.colours(), making, over)
	if err != nil {
		return nil, &seating.Fault{Key: "cue", What: err.Error()}
	}
	bill, err := stock.Buy(making, kit.Piles(p.sections()), p.Stunt.supplies(), p.making())
	if err != nil {
		return nil, &seating.Fault{Key: "colour", What: err.Error()}
	}
	return &made{Kit: kit, bill: bill}, nil
}

// Kit appends to buf the cards that a seat is given, as indices into p.Cards,
// each once, in the order in which the seat first shows them.
func (p *Plan) Kit(buf []int16, seat int32) []int16 {
	start := len(buf)
cues:
	for cue := range p.Hands {
		card := p.Hands[cue][seat].Card
		if card < 0 {
			continue
		}
		for _, has := range buf[start:] {
			if has == card {
				continue cues
			}
		}
		buf = append(buf, card)
	}
	return buf
}

// Spares is how many more cards of a colour to make for a section that shows n of it.
func Spares(n int) int { return stock.Spares(n) }
