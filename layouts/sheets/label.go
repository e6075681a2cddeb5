package sheets

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/seating/say"
)

// labels is the design of the placards of one plan: everything that all of its files share.
type labels struct {
	brief   *brief.Brief
	plan    *mosaic.Plan
	width   float64 // of one placard, millimetres
	height  float64
	palette []paper.Swatch
	ink     colour.RGB
	bare    bool // nothing but ink is printed: patches have the card's own colour

	acts         [][]brief.Act // by cue, what anybody does
	notes        []string      // what may stand below the seat in words: which card and which side this is
	idUp, idDown float64       // how far the ids reach above and below their baseline, in parts of their size

	body       float64 // type sizes, points: of what to do,
	words      float64 // of the seat in words
	small      float64 // and of the note and the care lines
	noteLines  int     // at most
	idMost     float64
	panel      float64 // width of the patches on the right, millimetres
	top        float64 // height of the part with the id and the patches
	across     int     // columns of cues
	wording    brief.Wording
	columnHigh int // lines of a column of cues
	care       []string
}

const (
	arrowWidth  = 11.0 // of the UP arrow
	leastIDRoom = 8.5  // millimetres of height that the id needs to be read at arm's length
	columnGap   = 5.0
	lowLabel    = 45.0 // millimetres of height and width under which a label has few words
	narrowLabel = 120.0
	cueLeading  = 1.1  // of the line height
	captionAir  = 0.8  // between a patch and the accents of its name
	idAir       = 1.2  // millimetres between the id's lowest stroke and the line below
	highestID   = 62.0 // millimetres of the part with the id
	mostID      = 4.6  // of the type of the cues: what to do is not lost beside the id
)

// armsLength is the type size, in points, that is read at arm's length: see leaderFigures.
const armsLength = 12.0

// startDesign is what labels of every size have in common; notes are all that placard may be given.
func startDesign(b *brief.Brief, notes ...string) *labels {
	p := b.Plan
	l := &labels{brief: b, plan: p, palette: palette(p), ink: black, acts: cueActs(p), notes: notes}
	// At least as capitals do, further with a descender or with stacked accents.
	l.idUp, l.idDown = bold.Reach("0123456789-")
	l.idUp = max(l.idUp, paper.Capital)
	for k := range p.Stands.Sections {
		names := p.Stands.Sections[k].Name
		for r := range p.Stands.Sections[k].Rows {
			names += p.Stands.Sections[k].Rows[r].Name
		}
		up, down := bold.Reach(names)
		l.idUp, l.idDown = max(l.idUp, up), max(l.idDown, down)
	}
	return l
}

// sized is the design for labels of this size in millimetres; it is false where they are too small for what they have
// to say.
func (l *labels) sized(width, height float64) (*labels, bool) {
	other := *l
	other.width, other.height = width, height
	return &other, other.fit()
}

// fit shares the height of a placard out between the id, the seat in words, the cues and the care lines; it is false
// where there is no room for them. What to do at a cue comes first: its type is as large as leaves the id its share.
func (l *labels) fit() bool {
	for _, try := range [...]struct {
		wording brief.Wording
		across  int
		least   float64 // points
		share   float64 // of the height that the id and the patches get
	}{
		{brief.InFull, 1, armsLength, 0.3}, {brief.InFull, 2, armsLength, 0.3}, {brief.InShort, 1, armsLength, 0.25},
		{brief.InShort, 2, armsLength, 0.2}, {brief.InFull, 1, 9, 0.25}, {brief.InShort, 2, 9, 0.2},
		{brief.InSigns, 2, 9, 0.15}, {brief.InShort, 1, 7, 0}, {brief.InShort, 2, 7, 0}, {brief.InSigns, 3, 7, 0},
		{brief.InSigns, 1, 7, 0},
	} {
		l.wording, l.across = try.wording, try.across
		if l.fitType(try.least, max(leastIDRoom, l.height*try.share)) {
			return true
		}
	}
	return false
}

// fitType takes the largest type, least points or more, that leaves the id so many millimetres; a little smaller where
// that keeps cues from being broken into lines.
func (l *labels) fitType(least, room float64) bool {
	scale := min(l.height/64, l.width/200*1.8)
	for body := max(least, min(math.Floor(19*scale), 30)); body >= least; body -= 0.5 {
		if !l.setType(body, room) {
			continue
		}
		lines := l.allLines(body)
		for small := body - 0.5; small >= max(least, 0.75*body); small -= 0.5 {
			if l.allLines(small) < lines {
				return l.setType(small, room)
			}
		}
		return l.setType(body, room)
	}
	return false
}

// setType lays the label out in this type; it is false where that does not leave the id its room.
func (l *labels) setType(body, room float64) bool {
	inner := l.width - 2*paper.Pad
	l.body, l.panel, l.words = body, inner*0.27, body*1.15
	l.columnHigh = columnLines(l.mostLines(l.columnWidth()), l.across)
	// The care lines are smaller than what to do, and a little smaller still where that saves a line.
	l.small = max(min(body*0.75, 16), min(body, 8))
	l.care = regular.Wrap(l.careWords(), l.small, inner)
	for size := l.small - 0.5; size >= max(l.small*0.85, min(body, 8)); size -= 0.5 {
		if tight := regular.Wrap(l.careWords(), size, inner); len(tight) < len(l.care) {
			l.small, l.care = size, tight
			break
		}
	}
	l.noteLines = 0
	for _, note := range l.notes {
		l.noteLines = max(l.noteLines, len(bold.Wrap(note, l.small, inner)))
	}
	l.top = l.height - 2*paper.Pad - paper.LineHeight(l.words) - float64(float64(l.columnHigh)*l.cueStep()) -
		float64(float64(len(l.care)+l.noteLines)*paper.LineHeight(l.small))
	if l.top < room {
		return false
	}
	l.top = min(l.top, highestID)
	l.idMost = min((l.top-idAir)/(l.idUp+l.idDown)*paper.PointsPerMM, mostID*l.body)
	return true
}

// careWords say how the card is held and kept; on a small label every line counts.
func (l *labels) careWords() string {
	words := brief.HeldWords(l.plan)
	side := "this label towards you, the colour towards the camera"
	if brief.TwoColoured(l.plan) {
		side = "the colour that is named towards the camera"
	}
	if l.height < lowLabel && l.width < narrowLabel {
		return words + " Colour to the camera. Keep it for a second take. Do not throw it."
	}
	return words + " Arrow up, " + side + ". Lower it when you are told. Keep it for a second take. Do not throw it."
}

// placard is the label of one seat with its top left corner at (x, y); note is one of the design's, or "". What many
// seats share is a stamp.
func (l *labels) placard(d *paper.Document, x, y float64, seat int, kit []int16, note string) {
	p := &d.Pen
	shows := fmt.Sprint(l.height, l.ink, " ")
	for cue := range l.plan.Hands {
		h := brief.ActOf(l.plan, cue, int32(seat))
		shows += fmt.Sprintf("%d.%d.%d.%d ", h.Card, h.Side, h.Halves, h.After)
	}
	d.Show(d.Stamp(shows, l.width, l.height, func(p *paper.Pen) { l.shared(p, seat, kit) }), x, y)

	p.Ink(l.ink)
	id := l.plan.Stands.ID(seat)
	room := l.width - 2*paper.Pad - arrowWidth - 4 - l.panel - max(4, 0.02*l.width)
	size := bold.SizeFor(id, room, l.idMost)
	x, y = x+paper.Pad, y+paper.Pad
	// its strokes stand in the middle of their part
	up, down := l.idUp*size/paper.PointsPerMM, l.idDown*size/paper.PointsPerMM
	p.Text(x+arrowWidth+4, y+((l.top-idAir-up-down)/2+up), size, bold, id)
	inner := l.width - 2*paper.Pad
	words := seatInWords(l.plan, seat)
	size = max(regular.SizeFor(words, inner, l.words), l.small)
	p.Text(x, y+l.top+float64(paper.LineHeight(l.words)*0.85), size, regular, regular.Shorten(words, size, inner))
	for i, line := range bold.Wrap(note, l.small, inner) {
		p.Text(x, y+l.top+paper.LineHeight(l.words)+float64((float64(i)+0.8)*paper.LineHeight(l.small)), l.small, bold,
			line)
	}
}

// seatInWords is "Section B, row 7, seat 12", and for whom it is kept.
func seatInWords(p *mosaic.Plan, seat int) string {
	s := &p.Stands.Seats[seat]
	section := &p.Stands.Sections[s.Section]
	words := fmt.Sprintf("Section %s, row %s, seat %d", section.Name, section.Rows[s.Row].Name, s.Number)
	if s.For != "" {
		words += " (" + s.For + ")"
	}
	return words
}

// shared draws the arrow, the patches, the cues and the care lines.
func (l *labels) shared(p *paper.Pen, seat int, kit []int16) {
	p.Ink(l.ink)
	const up = 8.5 // points
	p.UpArrow(paper.Pad, paper.Pad, arrowWidth, l.top-paper.CapHeight(up)-2.2, l.ink)
	p.TextMiddle(paper.Pad+arrowWidth/2, paper.Pad+l.top-1, up, bold, "UP")
	l.patches(p, l.width-paper.Pad-l.panel, paper.Pad, kit)

	y := paper.Pad + l.top + paper.LineHeight(l.words) + float64(float64(l.noteLines)*paper.LineHeight(l.small))
	l.cues(p, paper.Pad, y+float64(l.cueStep()*0.85), seat)
	y += float64(float64(l.columnHigh) * l.cueStep())
	for i, line := range l.care {
		p.Text(paper.Pad, y+float64(float64(i)*paper.LineHeight(l.small))+float64(paper.LineHeight(l.small)*0.85),
			l.small, regular, line)
	}
}

func (l *labels) patches(p *paper.Pen, x, y float64, kit []int16) {
	const most, gap, small = 4, 2.0, 7.0
	show := kit[:min(len(kit), most)]
	w := (l.panel - gap*float64(len(show)-1)) / float64(len(show))
	caption := min(l.words, 15)
	names, lines := make([][]string, len(show)), 1
	for i, c := range show {
		id := l.plan.Cards[c].ID
		names[i] = []string{id}
		if a, b, two := strings.Cut(id, "/"); two && bold.SizeFor(id, w, caption) < small {
			names[i], lines = []string{a + "/", b}, 2
		}
	}
	if lines > 1 {
		caption = min(caption, 10)
	}
	step := paper.LineHeight(caption) * 0.9
	h := l.top - float64(float64(lines)*step) - captionAir
	if h < leastPatch && len(show) == 1 && lines == 1 { // beside each other, where a label is low
		l.cardPatch(p, x, y, w*0.45, l.top, show[0])
		size := bold.SizeFor(names[0][0], w*0.52, caption)
		p.Text(x+float64(w*0.48), y+l.top/2+paper.CapHeight(size)/2, size, bold, names[0][0])
		return
	}
	for i, c := range show {
		cx := x + float64(float64(i)*(w+gap))
		l.cardPatch(p, cx, y, w, h, c)
		for n, name := range names[i] {
			p.TextMiddle(cx+w/2, y+l.top-float64(float64(lines-1-n)*step), bold.SizeFor(name, w, caption), bold, name)
		}
	}
}

// leastPatch is the height under which a patch's pattern cannot be seen, in millimetres.
const leastPatch = 6.0

func (l *labels) cardPatch(p *paper.Pen, x, y, w, h float64, card int16) {
	sides := l.plan.Cards[card].Sides
	if sides[0] == sides[1] {
		l.patch(p, x, y, w, h, sides[0])
		return
	}
	l.patch(p, x, y, w/2, h, sides[0])
	l.patch(p, x+w/2, y, w/2, h, sides[1])
}

func (l *labels) patch(p *paper.Pen, x, y, w, h float64, index int16) {
	swatch := l.palette[index]
	if l.bare {
		swatch.RGB = white
	}
	p.Ink(black) // of the letter on its white plate
	p.Swatch(x, y, w, h, swatch)
	p.Ink(l.ink)
}

// slip opens a row: how many cards of each colour, where to start, in which order, what stays empty.
func (l *labels) slip(p *paper.Pen, x, y float64, row *brief.Row) {
	inner := l.width - 2*paper.Pad
	x += paper.Pad
	bar := paper.CapHeight(l.words) * 2.1
	p.Fill(black)
	p.Filled(x, y+paper.Pad, inner, bar)
	p.Ink(white)
	base := y + paper.Pad + bar/2 + paper.CapHeight(l.words)/2
	after := say.Count(row.Placards, "label") + " after this slip"
	p.TextRight(x+inner-2, base, l.words, regular, after)
	name := "ROW " + row.Name
	p.Text(x+2, base, bold.SizeFor(name, inner-8-regular.Width(l.words, after), l.words), bold, name)
	p.Ink(black)

	size, lines := l.slipLines(row, inner, l.height-2*paper.Pad-bar)
	y = y + paper.Pad + bar + float64(paper.LineHeight(size)*0.4)
	for _, line := range lines {
		y += paper.LineHeight(line.size)
		p.Text(x, y, line.size, line.weight, line.text)
	}
}

type setLine struct {
	text   string
	size   float64
	weight paper.Weight
}

// setLines adds text, set so in lines of this width.
func setLines(lines []setLine, text string, size float64, weight paper.Weight, width float64) []setLine {
	for _, line := range weight.Wrap(text, size, width) {
		lines = append(lines, setLine{line, size, weight})
	}
	return lines
}

// slipLines sets the slip as large as the place allows; what can be read on the row's
// strip too is left out where it does not fit.
func (l *labels) slipLines(row *brief.Row, width, room float64) (size float64, lines []setLine) {
	count := brief.CardCount(l.plan, row.Cards)
	rest := []string{"Nothing is laid in this row."}
	if dealt := brief.Dealt(row); len(dealt) > 0 {
		number := func(pl brief.Place) int32 { return l.plan.Stands.Seats[pl.Seat].Number }
		rest = []string{
			fmt.Sprintf("%s %s First seat"+glue+"%d, last seat"+glue+"%d.", row.Depth(l.plan),
				brief.StartWords(l.plan.Stunt.Laying.Pass, row.LeftToRight), number(dealt[0]),
				number(dealt[len(dealt)-1])),
			brief.LabelWords(l.plan, row) + brief.RunWords(brief.Runs(l.plan, dealt)) + ".",
			l.idle(row),
		}
	}
	for size = min(l.body*1.5, 16); ; size -= 0.5 {
		lines = setLines(lines[:0], count, size*1.35, bold, width)
		for _, words := range rest {
			lines = setLines(lines, words, size, regular, width)
		}
		high := paper.LineHeight(size) * 0.4
		for _, t := range lines {
			high += paper.LineHeight(t.size)
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

// idle lists the seats that get nothing, with the reason.
func (l *labels) idle(row *brief.Row) string {
	var parts []string
	for k, seat := range row.Seats {
		if len(row.Kits[k]) == 0 {
			s := &l.plan.Stands.Seats[seat]
			parts = append(parts, fmt.Sprintf("%d (%s)", s.Number, brief.IdleWord(s)))
		}
	}
	words := ""
	if len(parts) > 0 {
		const most = 12
		words = "Lay nothing on seat " + strings.Join(parts[:min(len(parts), most)], ", ")
		if more := len(parts) - most; more > 0 {
			words += " and " + strconv.Itoa(more) + " more, see the row's strip"
		}
		words += "."
	}
	if missing := l.plan.Stands.Sections[row.Section].Rows[row.Row].Places - len(row.Seats); missing > 0 {
		words = strings.TrimSpace(fmt.Sprintf("%s %s in this row %s no seat.", words, say.Count(missing, "place"),
			say.Have(missing)))
	}
	return words
}

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
// so wide in millimetres. It begins with a capital where nothing stands before it.
func (l *labels) cueWhen(cue int, room float64) string {
	at, name := l.plan.Cues[cue].At, strings.TrimSpace(brief.QuotedCue(l.plan, cue))
	alone := len(l.plan.Cues) == 1
	if at != "" && l.wording != brief.InSigns {
		at = "at" + glue + at
	}
	switch {
	case at != "" && name != "" && l.wording == brief.InFull:
		at += ", " + name
	case at != "":
	case name == "" && !alone:
		return ""
	case name != "" && l.wording != brief.InFull:
		at = regular.Shorten(name, l.body, max(room, leastCueName))
	default:
		at = name
	}
	if alone && l.plan.Cues[cue].At == "" {
		at = strings.TrimSpace("Cue " + at)
	}
	if alone {
		at = say.Capital(at)
	}
	return at + ":"
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
	for most := slices.Max(append([]int{1}, lines...)); ; most++ {
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
