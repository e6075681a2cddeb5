package sheets

import (
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// Changes writes changes.pdf: for a crew that has laid an earlier plan's cards, the swaps that make this plan of them,
// a slip a row, and which sheets to print anew. Errors are *seating.Fault.
func Changes(w io.Writer, b *brief.Brief, c *brief.Changes) error {
	return running(w, b, "Changes", "Changes since plan "+c.From, func(f *flow) {
		f.Paragraph(c.Said, paper.SizeBody)
		f.Y += 1
		f.Pair("Before you start", "Look at the foot of the sheets that lie on the stands: this is for plan "+c.From+
			" alone. Afterwards it is plan "+c.To+".")
		if len(c.Anew) > 0 {
			f.Heading("Sheets to print anew")
			f.Dashes(c.Anew...)
		}
		if len(c.Cards) > 0 {
			f.Heading("Cards")
			f.Paragraph("What is taken out goes into the section's spares and comes from there again.", paper.SizeBody)
			table(f, paper.SizeBody, []column{{"Card", 1, strong}, {"Put in", 0, right}, {"Taken out", 0, right},
				{"More than before", 0, right}}, c.Cards, nil)
		}
		if len(c.Rows) > 0 {
			f.NewPage()
		}
		for _, r := range c.Rows {
			f.Continued = ""
			f.Heading("Row " + r.Name + ": " + say.Count(len(r.Swaps), "seat"))
			f.Continued = "Row " + r.Name + ", continued"
			f.Paragraph(r.Depth+" Plan "+c.From+" becomes plan "+c.To+".", paper.SizeSmall) // slips are cut apart
			table(f, paper.SizeBody, []column{{"Seat", 0, strong}, {"Take out", 1, 0}, {"Put in", 1, strong},
				{"From", 1, 0}, {"Done", 0, tick}}, r.Swaps, func(s *brief.Swap, cells []paper.Cell) {
				f.patch(&cells[1], s.Was.Cards)
				f.patch(&cells[2], s.Now.Cards)
			})
			f.Dashed(1.5, 1.5)
			f.Line(0, f.Y+2, f.Width, f.Y+2)
			f.Solid()
			f.Y += 2
		}
	})
}

// patch shows a single card in its colours, where this plan has such a card.
func (f *flow) patch(cell *paper.Cell, cards []string) {
	if len(cards) != 1 {
		return
	}
	for i := range f.plan.Cards {
		if c := &f.plan.Cards[i]; c.ID == cards[0] {
			cell.Colour = int(c.Sides[0]) + 1
			if c.Sides[1] != c.Sides[0] {
				cell.Other = int(c.Sides[1]) + 1
			}
		}
	}
}
