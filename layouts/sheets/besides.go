package sheets

import (
	"fmt"

	"everyseat/mosaic"
	"everyseat/seating"
)

// besides lists what is needed beside the cards' stock, as this plan has them made and laid.
func (t *tally) besides() {
	w := workOf(t.plan, t.sections)
	if w.cards == 0 || t.plan.Bill() == nil {
		return
	}
	t.heading("And besides")
	var rows [][]cell
	add := func(what, much, use string) { rows = append(rows, []cell{{text: what}, {text: much}, {text: use}}) }
	t.labelPaper(&w, add)
	if pairs := pairsGlued(t.plan); pairs > 0 {
		add("glue that does not wrinkle paper", plural(pairs, "card"), "to put two sheets back to back")
	}
	if n := t.plan.SheetsPerCard(); n > 1 {
		add("glue that does not wrinkle paper", plural(t.plan.Bill().Cards, "card"), fmt.Sprintf("to put each together of %d sheets", n))
	}
	add("bags or large envelopes", plural(w.bags, "row"), "one for the cards of each row, its strip and its label")
	add("plain paper", "a ream", "the other sheets of this set, banner pages and what jams")
	if cords := cordsOf(t.plan); len(cords) > 0 {
		longest := seating.Length(0)
		for _, c := range cords {
			longest = max(longest, c.pitch*seating.Length(c.places))
		}
		much := span(longest.Metres()) + " and a loop"
		if len(cords) > 1 {
			much = fmt.Sprintf("%d, each at most %s", len(cords), much)
		}
		add("cord that does not stretch", much, "to find the seats on benches without numbers: cord.pdf")
	}
	add("bright tape", "a roll", "the tape cross for the camera, and to cover cables")
	t.table([]column{{head: "What"}, {head: "For how much"}, {head: "Use", share: 1}}, rows, sizeSmall+0.5)
}

// labelPaper adds what labels are printed on.
func (t *tally) labelPaper(w *work, add func(what, much, use string)) {
	sheets, grid := labelSheetsOf(t.plan)
	if sheets == 0 {
		return
	}
	if t.plan.Stunt.Print.Grid != nil {
		add("sheets of stick-on labels", plural(sheets, "sheet"), fmt.Sprintf("%d on each, %.1f × %.1f mm; a tenth more for jams", grid.places(), grid.width, grid.height))
		return
	}
	add("white paper for labels", plural(sheets, "sheet"), fmt.Sprintf("%d labels on each, which are cut; a tenth more for jams", grid.places()))
	add("glue sticks or tape", plural(w.labels, "label"), "to stick the labels on the cards")
}

// labelSheetsOf is how many sheets of labels are stuck on cards, and how they lie on them.
func labelSheetsOf(p *mosaic.Plan) (sheets int, grid sheetGrid) {
	pl, err := newPlacards(p)
	if err != nil {
		return 0, grid
	}
	switch pl := pl.(type) {
	case *labelSheets:
		return pl.run().sheets, pl.grid
	case *stockCards:
		if pl.dark == nil {
			return 0, grid
		}
		sections := laid(p)
		for c := range p.Stunt.Colours {
			if p.Stunt.WhiteLabel(c) {
				for _, j := range printJobs(len(pl.leavesOf(sections, int16(c))), &pl.dark.grid) {
					sheets += j.sheets
				}
			}
		}
		return sheets, pl.dark.grid
	}
	return 0, grid
}

// pairsGlued is how many cards are two sheets back to back.
func pairsGlued(p *mosaic.Plan) int {
	if string(p.Bill().Making) != string(mosaic.Bonded) {
		return 0
	}
	n := 0
	for _, row := range p.Tally() {
		for c, count := range row.Cards {
			if sides := p.Cards[c].Sides; sides[0] != sides[1] {
				n += count
			}
		}
	}
	return n
}
