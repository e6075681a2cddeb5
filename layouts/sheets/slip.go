package sheets

import (
	"fmt"
	"strconv"
	"strings"
)

// slip opens a row: how many cards of each colour, where to start, in which order, what stays empty.
func (l *labels) slip(p *pen, x, y float64, row *rowWork) {
	inner := l.width - 2*labelPad
	x += labelPad
	bar := capMM(l.words) * 2.1
	p.fillColour(black)
	p.filled(x, y+labelPad, inner, bar)
	p.inkColour(white)
	base := y + labelPad + bar/2 + capMM(l.words)/2
	after := plural(row.placards, "label") + " after this slip"
	p.textRight(x+inner-2, base, l.words, regular, after)
	name := "ROW " + row.name(l.plan)
	p.text(x+2, base, sizeFor(name, bold, inner-8-textWidth(l.words, regular, after), l.words), bold, name)
	p.inkColour(black)

	top := y + labelPad + bar
	room := l.height - 2*labelPad - bar
	size, lines := l.slipLines(row, inner, room)
	y = top + lineHeight(size)*0.4
	for _, line := range lines {
		y += lineHeight(line.size)
		p.text(x, y, line.size, line.weight, line.text)
	}
}

// slipLine is one line of a slip as it is printed.
type slipLine struct {
	text   string
	size   float64
	weight weight
}

// slipLines sets the slip as large as the place allows; what can be read on the row's
// strip too is left out where it does not fit.
func (l *labels) slipLines(row *rowWork, width, room float64) (size float64, lines []slipLine) {
	count := cardCount(l.plan, row.cards)
	rest := []string{"Nothing is laid in this row."}
	if row.placards > 0 {
		rest = []string{
			row.depth(l.plan) + " " + startWords(l.plan.Stunt.Laying.Pass, row.leftToRight(l.plan)) + " " + l.walk(row),
			labelWords(l.plan, row) + l.inOrder(row) + ".",
			l.idle(row),
		}
	}
	for size = min(l.body*1.5, 16); ; size -= 0.5 {
		lines = lines[:0]
		for _, t := range wrapText(count, size*1.35, bold, width) {
			lines = append(lines, slipLine{t, size * 1.35, bold})
		}
		for _, words := range rest {
			for _, t := range wrapText(words, size, regular, width) {
				lines = append(lines, slipLine{t, size, regular})
			}
		}
		high := lineHeight(size) * 0.4
		for _, t := range lines {
			high += lineHeight(t.size)
		}
		if high <= room {
			return size, lines
		}
		if size <= 7 && len(rest) > 1 {
			rest = rest[:len(rest)-1]
			size = l.body
		}
	}
}

// inOrder is the row's runs in laying order; gaps are left out, see idle.
func (l *labels) inOrder(row *rowWork) string {
	var list []place
	for k, seat := range row.seats {
		if len(row.kits[k]) > 0 {
			list = append(list, place{seat, row.kits[k]})
		}
	}
	return runWords(runsOf(l.plan, list))
}

// walk names the first and the last seat that get a card.
func (l *labels) walk(row *rowWork) string {
	first, last := -1, -1
	for k := range row.seats {
		if len(row.kits[k]) > 0 {
			if first < 0 {
				first = k
			}
			last = k
		}
	}
	seats := l.plan.Stands.Seats
	return fmt.Sprintf("First seat"+glue+"%d, last seat"+glue+"%d.", seats[row.seats[first]].Number, seats[row.seats[last]].Number)
}

// idle lists the seats that get nothing, with the reason.
func (l *labels) idle(row *rowWork) string {
	var parts []string
	for k, seat := range row.seats {
		if len(row.kits[k]) == 0 {
			s := &l.plan.Stands.Seats[seat]
			parts = append(parts, fmt.Sprintf("%d (%s)", s.Number, idleWord(s)))
		}
	}
	missing := l.plan.Stands.Sections[row.section].Rows[row.row].Places - len(row.seats)
	words := ""
	if len(parts) > 0 {
		const most = 12
		more := ""
		if len(parts) > most {
			more = " and " + strconv.Itoa(len(parts)-most) + " more, see the row's strip"
			parts = parts[:most]
		}
		words = "Lay nothing on seat " + strings.Join(parts, ", ") + more + "."
	}
	if missing > 0 {
		words = strings.TrimSpace(words + " " + plural(missing, "place") + " in this row has no seat.")
	}
	return strings.Replace(words, "places in this row has", "places in this row have", 1)
}
