package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// What a label says cue by cue: when, and which card with which side. A moment is never cut off; where the
// label is small, the words round it go first, then the cue's name, then type and columns.

// leastCueName is the room in millimetres that a cue's name keeps where it is cut.
const leastCueName = 12.0

// cueNumber stands before a cue; the one cue of a plan has none.
func (l *labels) cueNumber(cue int) string {
	switch {
	case len(l.plan.Cues) == 1:
		return ""
	case l.wording == brief.InSigns:
		return strconv.Itoa(cue + 1)
	}
	return "Cue " + strconv.Itoa(cue+1)
}

// cueIndent is where the words begin after the widest number, in millimetres.
func (l *labels) cueIndent() float64 {
	if len(l.plan.Cues) == 1 {
		return 0
	}
	return bold.Width(l.body, l.cueNumber(len(l.plan.Cues)-1)) + float64(1.6*regular.Width(l.body, " "))
}

// cueWhen says when a cue is; short and with signs a name stands only where there is no moment, and at most
// so wide in millimetres.
func (l *labels) cueWhen(cue int, room float64) string {
	at, name := l.plan.Cues[cue].At, strings.TrimSpace(brief.QuotedCue(l.plan, cue))
	if at != "" && l.wording != brief.InSigns {
		at = "at" + glue + at
	}
	switch {
	case at != "" && name != "" && l.wording == brief.InFull:
		at += ", " + name
	case at != "":
	case name == "" && len(l.plan.Cues) > 1:
		return ""
	case name != "" && l.wording != brief.InFull:
		at = regular.Shorten(name, l.body, max(room, leastCueName))
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
		return say.Capital(words)
	}
	return words
}

// cueDo says what to do at a cue, and with cards of two colours which one and which side.
func (l *labels) cueDo(h brief.Act) string {
	show := "show "
	if l.wording == brief.InSigns {
		show = ""
	}
	if h.Card < 0 {
		return show + "no card"
	}
	card := l.plan.Cards[h.Card]
	colour := l.plan.Stunt.Colours[card.Sides[h.Side]].Name
	after := h.Words(l.wording)
	switch {
	case card.Sides[0] == card.Sides[1]:
		return show + colour + after
	case l.wording == brief.InSigns:
		return fmt.Sprintf("%s (%s/%s side"+glue+"%s)%s", colour, l.palette[card.Sides[0]].Letter,
			l.palette[card.Sides[1]].Letter, sideName(h.Side), after)
	}
	return show + colour + " (card " + card.ID + ", side" + glue + sideName(h.Side) + ")" + after
}

// sideName is what paper and tables call a side of a card: A is the first colour of its name, B the second.
func sideName(side int8) string { return string(rune('A' + side)) }

// cueLine is one line of a cue: when in plain type, then what to do in bold.
type cueLine struct{ when, do string }

// cueLines set a cue in a column of this width, in millimetres.
func (l *labels) cueLines(cue int, h brief.Act, width float64) []cueLine {
	width -= l.cueIndent()
	do := l.cueDo(h)
	when := l.cueWhen(cue, width-bold.Width(l.body, " "+do))
	if when == "" {
		when = glue // a line to write on
	}
	lines := regular.Wrap(when, l.body, width)
	out := make([]cueLine, len(lines))
	for i := range lines {
		out[i].when = lines[i]
	}
	last := &out[len(out)-1]
	if last.when = strings.TrimSpace(last.when); last.when != "" {
		last.when += " "
	}
	room := width - regular.Width(l.body, last.when)
	if fits := bold.Wrap(do, l.body, room); len(fits) == 1 {
		last.do = fits[0]
		return out
	}
	for _, line := range bold.Wrap(do, l.body, width) { // words that belong together stay together
		out = append(out, cueLine{do: line})
	}
	return out
}

// cueActs are the different things that anybody does at each cue.
func cueActs(p *mosaic.Plan) [][]brief.Act {
	all := make([][]brief.Act, len(p.Hands))
	for cue := range p.Hands {
		seen := map[brief.Act]bool{}
		for s := range p.Hands[cue] {
			h := brief.ActOf(p, cue, int32(s))
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
func (l *labels) cues(p *paper.Pen, x, y float64, seat int) {
	width := l.columnWidth()
	at := 0
	for cue := range l.plan.Cues {
		lines := l.cueLines(cue, brief.ActOf(l.plan, cue, int32(seat)), width)
		if at > 0 && at+len(lines) > l.columnHigh {
			x, at = x+width+columnGap, 0
		}
		p.Text(x, y+float64(float64(at)*l.cueStep()), l.body, bold, l.cueNumber(cue))
		for i, line := range lines {
			left, base := x+l.cueIndent(), y+float64(float64(at+i)*l.cueStep())
			p.Text(left, base, l.body, regular, line.when)
			p.Text(left+regular.Width(l.body, line.when), base, l.body, bold, line.do)
		}
		at += len(lines)
	}
}

// columnWidth is that of a column of cues, in millimetres.
func (l *labels) columnWidth() float64 {
	return (l.width - 2*paper.Pad - float64(columnGap*float64(l.across-1))) / float64(l.across)
}

// cueStep is from line to line of the cues, in millimetres.
func (l *labels) cueStep() float64 { return paper.LineHeight(l.body) * cueLeading }
