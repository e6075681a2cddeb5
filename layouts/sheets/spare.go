package sheets

import "slices"

// spareLeaves are the spares, section by section, as many of each colour as the bill has.
func (c *printedCards) spareLeaves(sections [][]rowWork) []leaf {
	var list []leaf
	counts := c.plan.SpareTally()
	for i, rows := range withCards(sections) {
		for index, n := range counts[i] {
			spare := leaf{row: &rows[0], card: int16(index), spare: true}
			list = append(list, slices.Repeat([]leaf{spare}, n)...)
		}
	}
	return list
}

// sides are the colours of a leaf's card.
func (c *printedCards) sides(f *leaf) [2]int16 {
	if f.spare {
		return [2]int16{f.card, f.card}
	}
	return c.plan.Cards[f.card].Sides
}

// spareName says what a spare is.
func (c *printedCards) spareName(f *leaf) string {
	return "SPARE " + c.colour(f.card) + ", section " + c.plan.Stands.Sections[f.row.section].Name
}

// spareLabel stands on the back of a spare instead of a seat's label, in a label's place at (x, y).
func (c *printedCards) spareLabel(p *pen, x, y float64, l *labels, f *leaf) {
	words := "Of the " + c.colour(f.card) + " that a section shows some are kept for cards that are lost or spoiled. This one has no seat."
	if twoColoured(c.plan) {
		words += " Two spares held back to back stand in for a card of two colours."
	}
	words += " " + heldWords(c.plan) + " Keep it for a second take. Do not throw it."
	p.inkColour(l.ink)
	inner, room := l.width-2*labelPad, l.height-2*labelPad
	name := c.spareName(f)
	size := sizeFor(name, bold, inner, 28)
	x, y = x+labelPad, y+labelPad+capMM(size)
	p.text(x, y, size, bold, name)
	room -= lineHeight(size)
	for body := 14.0; body >= 6; body -= 0.5 {
		lines := wrapText(words, body, regular, inner)
		if float64(len(lines))*lineHeight(body) > room && body > 6 {
			continue
		}
		y += 2
		for _, line := range lines {
			y += lineHeight(body)
			p.text(x, y, body, regular, line)
		}
		return
	}
}
