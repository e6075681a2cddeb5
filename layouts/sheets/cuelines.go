package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
)

// What a label says cue by cue: when, and which card with which side. A moment is never cut off; where the
// label is small, the words round it go first, then the cue's name, then type and columns.

// wording is how many words a cue takes.
type wording uint8

const (
	inFull  wording = iota // Cue 2 at count 33, “GLOW”: show CREAM (card NAVY/CREAM, side B)
	inShort                // Cue 2 at count 33: show CREAM (card NAVY/CREAM, side B)
	inSigns                // 2 count 33: CREAM (N/C side B), by the letters on the patches
)

// leastCueName is the room in millimetres that a cue's name keeps where it is cut.
const leastCueName = 12.0

// cueNumber stands before a cue; the one cue of a plan has none.
func (l *labels) cueNumber(cue int) string {
	switch {
	case len(l.plan.Cues) == 1:
		return ""
	case l.wording == inSigns:
		return strconv.Itoa(cue + 1)
	}
	return "Cue " + strconv.Itoa(cue+1)
}

// cueIndent is where the words begin after the widest number, in millimetres.
func (l *labels) cueIndent() float64 {
	if len(l.plan.Cues) == 1 {
		return 0
	}
	return textWidth(l.body, bold, l.cueNumber(len(l.plan.Cues)-1)) + 1.6*textWidth(l.body, regular, " ")
}

// cueWhen says when a cue is; short and with signs a name stands only where there is no moment, and at most
// so wide in millimetres.
func (l *labels) cueWhen(cue int, room float64) string {
	at, name := l.plan.Cues[cue].At, strings.TrimSpace(quotedCue(l.plan, cue))
	if at != "" && l.wording != inSigns {
		at = "at" + glue + at
	}
	switch {
	case at != "" && name != "" && l.wording == inFull:
		at += ", " + name
	case at != "":
	case name == "" && len(l.plan.Cues) > 1:
		return ""
	case name != "" && l.wording != inFull:
		at = shortenText(name, l.body, regular, max(room, leastCueName))
	default:
		at = name
	}
	if len(l.plan.Cues) == 1 && l.plan.Cues[cue].At == "" {
		at = strings.TrimSpace("Cue " + at)
	}
	return sentenceStart(at, len(l.plan.Cues) == 1) + ":"
}

// sentenceStart begins with a capital where nothing stands before it.
func sentenceStart(words string, first bool) string {
	if first {
		return sentenceCase(words)
	}
	return words
}

// cueDo says what to do at a cue, and with cards of two colours which one and which side.
func (l *labels) cueDo(h act) string {
	show := "show "
	if l.wording == inSigns {
		show = ""
	}
	if h.Card < 0 {
		return show + "no card"
	}
	card := l.plan.Cards[h.Card]
	colour := l.plan.Stunt.Colours[card.Sides[h.Side]].Name
	after := h.afterWords(l.wording)
	switch {
	case card.Sides[0] == card.Sides[1]:
		return show + colour + after
	case l.wording == inSigns:
		return fmt.Sprintf("%s (%s/%s side"+glue+"%s)%s", colour, l.letters[card.Sides[0]], l.letters[card.Sides[1]], sideName(h.Side), after)
	}
	return show + colour + " (card " + card.ID + ", side" + glue + sideName(h.Side) + ")" + after
}

// sideName is what paper and tables call a side of a card: A is the first colour of its name, B the second.
func sideName(side int8) string { return string(rune('A' + side)) }

// cueLine is one line of a cue: when in plain type, then what to do in bold.
type cueLine struct{ when, do string }

// cueLines set a cue in a column of this width, in millimetres.
func (l *labels) cueLines(cue int, h act, width float64) []cueLine {
	width -= l.cueIndent()
	do := l.cueDo(h)
	when := l.cueWhen(cue, width-textWidth(l.body, bold, " "+do))
	if when == "" {
		when = glue // a line to write on
	}
	lines := wrapText(when, l.body, regular, width)
	out := make([]cueLine, len(lines))
	for i := range lines {
		out[i].when = lines[i]
	}
	last := &out[len(out)-1]
	if last.when = strings.TrimSpace(last.when); last.when != "" {
		last.when += " "
	}
	room := width - textWidth(l.body, regular, last.when)
	if fits := wrapText(do, l.body, bold, room); len(fits) == 1 {
		last.do = fits[0]
		return out
	}
	for _, line := range wrapText(do, l.body, bold, width) { // words that belong together stay together
		out = append(out, cueLine{do: line})
	}
	return out
}

// cueActs are the different things that anybody does at each cue.
func cueActs(p *mosaic.Plan) [][]act {
	all := make([][]act, len(p.Hands))
	for cue := range p.Hands {
		seen := map[act]bool{}
		for s := range p.Hands[cue] {
			h := actOf(p, cue, int32(s))
			if !seen[h] {
				seen[h] = true
				all[cue] = append(all[cue], h)
			}
		}
	}
	return all
}

// mostLines are, by cue, the lines that it takes for those who have most to read.
func (l *labels) mostLines(width float64) []int {
	most := make([]int, len(l.acts))
	for cue, acts := range l.acts {
		for _, h := range acts {
			most[cue] = max(most[cue], len(l.cueLines(cue, h, width)))
		}
	}
	return most
}

// allLines is the sum of mostLines at a type size.
func (l *labels) allLines(body float64) int {
	other := *l
	other.body = body
	all := 0
	for _, n := range other.mostLines(l.columnWidth()) {
		all += n
	}
	return all
}

// columnLines is the least number of lines at which cues of so many lines each go into the columns in order.
func columnLines(lines []int, columns int) int {
	all := 0
	for _, n := range lines {
		all += n
	}
	for most := max((all+columns-1)/columns, slices.Max(append([]int{1}, lines...))); ; most++ {
		used, at := 1, 0
		for _, n := range lines {
			if at+n > most {
				used, at = used+1, 0
			}
			at += n
		}
		if used <= columns {
			return most
		}
	}
}

// cues draws what to do, column by column, with the first baseline at y.
func (l *labels) cues(p *pen, x, y float64, seat int) {
	width := l.columnWidth()
	at := 0
	for cue := range l.plan.Cues {
		lines := l.cueLines(cue, actOf(l.plan, cue, int32(seat)), width)
		if at > 0 && at+len(lines) > l.columnHigh {
			x, at = x+width+columnGap, 0
		}
		p.text(x, y+float64(at)*l.cueStep(), l.body, bold, l.cueNumber(cue))
		for i, line := range lines {
			left, base := x+l.cueIndent(), y+float64(at+i)*l.cueStep()
			p.text(left, base, l.body, regular, line.when)
			p.text(left+textWidth(l.body, regular, line.when), base, l.body, bold, line.do)
		}
		at += len(lines)
	}
}

// columnWidth is that of a column of cues, in millimetres.
func (l *labels) columnWidth() float64 {
	return (l.width - 2*labelPad - columnGap*float64(l.across-1)) / float64(l.across)
}

// cueStep is from line to line of the cues, in millimetres.
func (l *labels) cueStep() float64 { return lineHeight(l.body) * cueLeading }
