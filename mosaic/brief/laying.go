package brief

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating/say"
)

// Laying is how cards get to the people, and which helper has which rows.
type Laying struct {
	How    string // "laying" or "passing"
	Steps  []string
	Stints []StintLine // none: no row gets a card
	Done   string      // what a helper ticks
	Speed  string
}

// StintLine is what one helper has.
type StintLine struct{ Helper, Rows, Bags, Cards, About string }

func (t *teller) laying() Laying {
	spec := t.Stunt.Laying
	out := Laying{How: LayWord(t.Plan), Steps: laySteps(t.Plan), Done: passOr(t.Plan, "set out", "laid")}
	list := shareOut(t.Plan, t.rows, t.work.helpers)
	for i := range list {
		s := &list[i]
		var parts []string
		for _, rows := range Stretches(s.rows, func(a, b *Row) bool { return a.Section == b.Section }) {
			name := rows[0].Name
			if len(rows) > 1 {
				name += " to " + rows[len(rows)-1].Name
			}
			parts = append(parts, strings.ReplaceAll(name, " ", say.Glue))
		}
		out.Stints = append(out.Stints, StintLine{strconv.Itoa(i + 1), strings.Join(parts, ", "),
			say.Thousands(len(s.rows)), say.Thousands(s.cards), say.Minutes(s.took)})
	}
	out.Speed = "At " + passOr(t.Plan, say.Seconds(spec.PerRow)+" a row to hand a bag in", say.Seconds(spec.PerCard)+
		" a card and "+say.Seconds(spec.PerRow)+" a row") + " (assumed: time the first rows)."
	if n := t.work.helpers - len(list); n > 0 {
		out.Speed += fmt.Sprintf(" %s to spare: at the stacks of spares.", say.Count(n, "helper"))
	}
	out.Speed += " Rows follow each other as they do in the bags' order: a helper who is missing is replaced by the " +
		"next who is done."
	return out
}

// laySteps say what a helper does, row by row (common practice, no source).
func laySteps(p *mosaic.Plan) []string {
	steps := []string{
		"Walk only on the steps and in the aisles, never on seats. Take no more bags than you can carry with a hand " +
			"free, and keep aisles clear: set no bag down on a step.",
		"Take your rows in the order below. At each row read the bag's label: the row, and at which end it begins, " +
			"LEFT or RIGHT as the camera sees the stands: as you have them when you stand before the front row and " +
			"look up at the seats. In the row, your back to the row behind, they are the other way round.",
	}
	if p.Stunt.Laying.Pass {
		return append(steps, "Before the doors: set the row's bag on the seat at that end, never in the aisle, its "+
			"strip on top, and leave the cards in it.", "When people sit and the caller says so: give the strip and "+
			"the pile to whoever sits at that end. Everybody takes the card whose label names their seat, with "+
			"those that lie under it without a label, and passes the rest on: it is the top one unless a seat "+
			"before them is empty. Nobody stands up.", "An empty seat's card goes to the end with the rest. At the "+
			"other end no card is left over but those; too few or too many means that somebody took a wrong one: "+
			"the leader goes along the row with the strip.", "Cards of wheelchair and companion places are handed "+
			"over in person.", "The empty bag stays with the strip: the cards come back into it after the take.")
	}
	wind := "If a card slides, turn it a little, so that a corner lies against the seat's back or the row behind."
	if p.Stunt.Outdoors {
		wind = "Wind: lay cards as late as you can, tuck an edge between board and back, or put a strip of tape " +
			"over a corner that comes off by hand. If cards fly, stop and tell the crew."
	}
	return append(steps, "Take the pile out as it is. The top card is for the first seat at that end, the next one "+
		"for the next seat, and so on. Skip a place where the strip shows none.", "Lay each card flat in the middle "+
		"of its seat: label up, its arrow to the row behind. Several cards for one seat lie on each other, the one "+
		"with the label on top.", wind, "Cards of wheelchair and companion places are handed over in person, or lie "+
		"on the chair that stands there.", "After the last seat the bag is empty. If a card is missing or left "+
		"over, go back along the row with the strip and find where it is one seat off: never fill up from the end.",
		"Leave bag and strip under the first card, on the seat and never in the aisle: the leader checks with the "+
			"strip, and the cards come back into the bag after the take.")
}

// stint is what one helper has: rows in laying order, and how long they take.
type stint struct {
	rows  []*Row
	cards int
	took  time.Duration
}

// shareOut gives helpers rows that follow each other, so that the longest stint is as short as it can be.
func shareOut(p *mosaic.Plan, sections [][]Row, helpers int) []stint {
	var rows []*Row
	low, high := time.Duration(0), time.Duration(0)
	for _, section := range sections {
		for i := range section {
			if row := &section[i]; row.Placards > 0 {
				rows = append(rows, row)
				low, high = max(low, rowTime(p, row)), high+rowTime(p, row)
			}
		}
	}
	for low < high { // the least that is enough, by halves
		most := (low + high) / 2
		if len(stints(p, rows, most)) <= helpers {
			high = most
		} else {
			low = most + 1
		}
	}
	return stints(p, rows, high)
}

// stints are as few as there can be if none is longer than most.
func stints(p *mosaic.Plan, rows []*Row, most time.Duration) (out []stint) {
	for i, row := range rows {
		took := rowTime(p, row)
		if i == 0 || out[len(out)-1].took+took > most {
			out = append(out, stint{})
		}
		s := &out[len(out)-1]
		s.rows, s.took = append(s.rows, row), s.took+took
		s.cards += row.All()
	}
	return out
}

// rowTime is how long one helper has to do with a row.
func rowTime(p *mosaic.Plan, row *Row) time.Duration {
	spec := p.Stunt.Laying
	if spec.Pass {
		return spec.PerRow
	}
	return spec.PerRow + time.Duration(row.All())*spec.PerCard
}
