package sheets

import (
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// Laying writes laying.pdf: how a card is laid, or how a row's cards are passed on, and which helper has
// which rows, shared out so that all end at about the same time. Errors are *seating.Fault.
func Laying(w io.Writer, b *brief.Brief) error {
	lay := &b.Paper.Laying
	f, err := uprightFlow(b, say.Capital(lay.How))
	if err != nil {
		return err
	}
	f.Title(say.Capital(lay.How)+": how, and who has which rows", b.Paper.Occasion)
	if len(lay.Stints) == 0 {
		f.Paragraph("No row gets a card in this plan.", 12)
		return f.Finish(w)
	}
	f.Heading("How")
	f.Steps(11, lay.Steps...)
	f.Heading("Who has which rows")
	var rows [][]paper.Cell
	for _, s := range lay.Stints {
		rows = append(rows, []paper.Cell{{Text: s.Helper, Bold: true}, {Text: s.Rows}, {Text: s.Bags}, {Text: s.Cards}, {Text: s.About},
			{Text: "______________"}, {Text: lay.Done, Tick: true}})
	}
	f.Table([]paper.Column{{Head: "Helper"}, {Head: "Rows, in this order", Share: 1}, {Head: "Bags", Right: true},
		{Head: "Cards", Right: true}, {Head: "About", Right: true}, {Head: "Name or sign"}, {Head: ""}}, rows, 10)
	f.Paragraph(lay.Speed, paper.SizeSmall)
	return f.Finish(w)
}
