package mosaic

import (
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// noteAside says why a text stands off the middle of the stands where the seats that carry it do.
func (m *maker) noteAside(cue *Cue, seats []int32, text *lettering.Layout) {
	cells := m.cells[0]
	if cue.Fit == "flat" {
		cells = m.flatCells()
	}
	all := m.inSight(cells, seats)
	own, whole := extent(cells, seats), extent(cells, all)
	off := (own[0] + own[2] - whole[0] - whole[2]) / 2 / meanWidth(cells, seats)
	if math.Abs(off) < 1 {
		return
	}
	side := "right"
	if off < 0 {
		side = "left"
	}
	text.Notes = append(text.Notes, fmt.Sprintf("the seats that carry the text lie %.1f seats %s of the middle of all that are in sight: %s", math.Abs(off), side, m.whyAside(cue, seats, all)))
}

// inSight are the seats with cards that have a cell, on the floor only if some of the given ones are.
func (m *maker) inSight(cells []camera.Cell, seats []int32) []int32 {
	stands := m.p.Stands
	floor := func(s int32) bool {
		return stands.Sections[stands.Seats[s].Section].Spec.Kind == seating.Floor
	}
	cards := make([]bool, len(stands.Seats))
	onFloor := slices.ContainsFunc(seats, floor)
	for s := range cards {
		cards[s] = stands.Seats[s].Use == seating.UseCard && (onFloor || !floor(int32(s)))
	}
	return m.usable(cards, cells)
}

func meanWidth(cells []camera.Cell, seats []int32) float64 {
	sum := 0.0
	for _, s := range seats {
		b := extent(cells, []int32{s})
		sum += b[2] - b[0]
	}
	return sum / float64(len(seats))
}

// whyAside names the sections of all that have none of the seats, or else what takes single seats away.
func (m *maker) whyAside(cue *Cue, seats, all []int32) string {
	stands := m.p.Stands
	there, has := make([]bool, len(stands.Sections)), make([]bool, len(stands.Sections))
	for _, s := range all {
		there[stands.Seats[s].Section] = true
	}
	for _, s := range seats {
		has[stands.Seats[s].Section] = true
	}
	bare := m.bare(cue)
	painted := slices.ContainsFunc(all, func(s int32) bool { return bare[s] && !has[stands.Seats[s].Section] })
	var without []string
	for k := range there {
		if there[k] && !has[k] {
			without = append(without, stands.Sections[k].Name)
		}
	}
	switch {
	case len(without) > 0 && len(cue.On) > 0:
		return "on = […] does not name section " + firstFew(without)
	case len(without) > 0 && len(cue.Rows) > 0:
		return "rows = [" + rowsKeys(cue.Rows) + "] leaves out section " + firstFew(without)
	case len(without) > 0 && painted:
		return "section " + firstFew(without) + " is painted by hand or hardly seen"
	case len(without) > 0:
		return "too little can be seen of section " + firstFew(without)
	case len(cue.Rows) > 0:
		return "rows = [" + rowsKeys(cue.Rows) + "] leaves out the others"
	}
	return "the others are painted by hand"
}
