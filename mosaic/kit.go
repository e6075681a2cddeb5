package mosaic

import "everyseat/mosaic/stock"

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
