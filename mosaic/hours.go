package mosaic

import "time"

// Speeds at which one person works before the day (common practice, no source): the crew times its first fifty.
const (
	DealPerCard   = 3 * time.Second  // to take a card off its stack
	DealPerBag    = 40 * time.Second // to count, label and close a bag
	StickPerLabel = 10 * time.Second // to peel or glue a label and press it on, at the same place of each card
)

// Dealing is how many cards go into how many row bags, and how long one person takes for it.
func (p *Plan) Dealing() (cards, bags int, took time.Duration) {
	cards, bags, _ = p.laid()
	return cards, bags, time.Duration(cards)*DealPerCard + time.Duration(bags)*DealPerBag
}

// Sticking is how many labels are stuck on cards, and how long one person takes for it: one for every seat with a
// card, or with stock that carries its own words one for each card that black cannot be read on.
func (p *Plan) Sticking() (labels int, took time.Duration) {
	switch p.Stunt.Print.Placards {
	case FullColoured:
	case OnStock:
		var kit []int16
		for s := range p.Stands.Seats {
			kit = p.Kit(kit[:0], int32(s))
			for _, c := range kit {
				if sides := p.Cards[c].Sides; p.Stunt.WhiteLabel(int(sides[0])) && p.Stunt.WhiteLabel(int(sides[1])) {
					labels++
				}
			}
		}
	default:
		labels = p.placards()
	}
	return labels, time.Duration(labels) * StickPerLabel
}
