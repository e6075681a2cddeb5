package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
)

// labels is the design of the placards of one plan: everything that all of its files share.
type labels struct {
	plan    *mosaic.Plan
	width   float64 // of one placard, millimetres
	height  float64
	letters []string
	ink     colour.RGB
	bare    bool // nothing but ink is printed: patches have the card's own colour

	acts         [][]act  // by cue, what anybody does
	notes        []string // what may stand below the seat in words: which card and which side this is
	idUp, idDown float64  // how far the ids reach above and below their baseline, in parts of their size

	body       float64 // type sizes, points: of what to do,
	words      float64 // of the seat in words
	small      float64 // and of the note and the care lines
	noteLines  int     // at most
	idMost     float64
	panel      float64 // width of the patches on the right, millimetres
	top        float64 // height of the part with the id and the patches
	across     int     // columns of cues
	wording    wording
	columnHigh int // lines of a column of cues
	care       []string
}

const (
	labelPad    = 3.5  // between cut and print
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

// newDesign makes the design of labels of this size in millimetres; it is false where they are too
// small for what they have to say.
func newDesign(p *mosaic.Plan, width, height float64, notes ...string) (*labels, bool) {
	return startDesign(p, notes...).sized(width, height)
}

// startDesign is what labels of every size have in common; notes are all that placard may be given.
func startDesign(p *mosaic.Plan, notes ...string) *labels {
	l := &labels{plan: p, letters: mosaic.ColourLetters(p.Stunt.Colours), ink: black, acts: cueActs(p), notes: notes}
	l.idUp, l.idDown = idReach(p)
	return l
}

// sized is the design for another size, false as newDesign's.
func (l *labels) sized(width, height float64) (*labels, bool) {
	other := *l
	other.width, other.height = width, height
	return &other, other.fit()
}

// idReach is how far the seat ids reach above and below their baseline, in parts of their size: at least as
// capitals do, further with a descender or with stacked accents.
func idReach(p *mosaic.Plan) (up, down float64) {
	up, down = faces()[bold].reach("0123456789-")
	for k := range p.Stands.Sections {
		names := p.Stands.Sections[k].Name
		for r := range p.Stands.Sections[k].Rows {
			names += p.Stands.Sections[k].Rows[r].Name
		}
		u, d := faces()[bold].reach(names)
		up, down = max(up, u), max(down, d)
	}
	return max(up, capHeight), down
}

// fit shares the height of a placard out between the id, the seat in words, the cues and the care
// lines; it is false where there is no room for them. What to do at a cue comes first: its type is as large as
// leaves the id its share.
func (l *labels) fit() bool {
	for _, try := range [...]struct {
		wording
		across int
		least  float64 // points
		share  float64 // of the height that the id and the patches get
	}{
		{inFull, 1, armsLength, 0.3}, {inFull, 2, armsLength, 0.3}, {inShort, 1, armsLength, 0.25}, {inShort, 2, armsLength, 0.2},
		{inFull, 1, 9, 0.25}, {inShort, 2, 9, 0.2}, {inSigns, 2, 9, 0.15}, {inShort, 1, 7, 0}, {inShort, 2, 7, 0}, {inSigns, 3, 7, 0}, {inSigns, 1, 7, 0},
	} {
		l.wording, l.across = try.wording, try.across
		if l.fitType(try.least, max(leastIDRoom, l.height*try.share)) {
			return true
		}
	}
	return false
}

// fitType takes the largest type, least points or more, that leaves the id so many millimetres; a little smaller where that
// keeps cues from being broken into lines.
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
	inner := l.width - 2*labelPad
	l.body, l.panel, l.words = body, inner*0.27, body*1.15
	l.columnHigh = columnLines(l.mostLines(l.columnWidth()), l.across)
	l.fitCare(inner)
	l.noteLines = 0
	for _, note := range l.notes {
		l.noteLines = max(l.noteLines, len(wrapText(note, l.small, bold, inner)))
	}
	l.top = l.height - 2*labelPad - lineHeight(l.words) - float64(l.columnHigh)*l.cueStep() - float64(len(l.care)+l.noteLines)*lineHeight(l.small)
	if l.top < room {
		return false
	}
	l.top = min(l.top, highestID)
	l.idMost = min((l.top-idAir)/(l.idUp+l.idDown)*pointsPerMM, mostID*l.body)
	return true
}

// fitCare sets the care lines smaller than what to do, and a little smaller still where that saves a line.
func (l *labels) fitCare(inner float64) {
	l.small = max(min(l.body*0.75, 16), min(l.body, 8))
	l.care = wrapText(l.careWords(), l.small, regular, inner)
	for size := l.small - 0.5; size >= max(l.small*0.85, min(l.body, 8)); size -= 0.5 {
		if tight := wrapText(l.careWords(), size, regular, inner); len(tight) < len(l.care) {
			l.small, l.care = size, tight
			return
		}
	}
}

// careWords say how the card is held and kept; on a small label every line counts.
func (l *labels) careWords() string {
	words := heldWords(l.plan)
	side := "this label towards you, the colour towards the camera"
	if twoColoured(l.plan) {
		side = "the colour that is named towards the camera"
	}
	if l.height < lowLabel && l.width < narrowLabel {
		return words + " Colour to the camera. Keep it for a second take. Do not throw it."
	}
	return words + " Arrow up, " + side + ". Lower it when you are told. Keep it for a second take. Do not throw it."
}

// twoColoured says whether the plan has cards of two colours.
func twoColoured(p *mosaic.Plan) bool {
	return slices.ContainsFunc(p.Cards, func(c mosaic.Card) bool { return c.Sides[0] != c.Sides[1] })
}

// placard is the label of one seat with its top left corner at (x, y); note is one of the design's, or "". What many
// seats share is a stamp.
func (l *labels) placard(d *document, x, y float64, seat int, kit []int16, note string) {
	p := &d.page
	shared := d.stamp(fmt.Sprint(l.height, l.ink, l.showing(seat)), l.width, l.height, func(p *pen) { l.shared(p, seat, kit) })
	d.show(shared, x, y)

	p.inkColour(l.ink)
	id := l.plan.Stands.ID(seat)
	left := x + labelPad + arrowWidth + 4
	room := l.width - 2*labelPad - arrowWidth - 4 - l.panel - max(4, 0.02*l.width)
	size := sizeFor(id, bold, room, l.idMost)
	p.text(left, y+labelPad+l.idBase(size), size, bold, id)
	inner := l.width - 2*labelPad
	words := l.inWords(seat)
	size = max(sizeFor(words, regular, inner, l.words), l.small)
	p.text(x+labelPad, y+labelPad+l.top+lineHeight(l.words)*0.85, size, regular, shortenText(words, size, regular, inner))
	for i, line := range wrapText(note, l.small, bold, inner) {
		p.text(x+labelPad, y+labelPad+l.top+lineHeight(l.words)+(float64(i)+0.8)*lineHeight(l.small), l.small, bold, line)
	}
}

// idBase is the baseline of an id below the upper rim, in millimetres: its strokes stand in the middle of their part.
func (l *labels) idBase(size float64) float64 {
	up, down := l.idUp*size/pointsPerMM, l.idDown*size/pointsPerMM
	return (l.top-idAir-up-down)/2 + up
}

// inWords is the seat in words.
func (l *labels) inWords(seat int) string {
	s := &l.plan.Stands.Seats[seat]
	section := &l.plan.Stands.Sections[s.Section]
	words := fmt.Sprintf("Section %s, row %s, seat %d", section.Name, section.Rows[s.Row].Name, s.Number)
	if s.For != "" {
		words += " (" + s.For + ")"
	}
	return words
}

// showing names what a seat shows cue by cue; seats that show the same share a stamp.
func (l *labels) showing(seat int) string {
	var b strings.Builder
	for cue := range l.plan.Hands {
		h := actOf(l.plan, cue, int32(seat))
		fmt.Fprintf(&b, "%d.%d.%d.%d ", h.Card, h.Side, h.halves, h.after)
	}
	return b.String()
}

// shared draws the arrow, the patches, the cues and the care lines.
func (l *labels) shared(p *pen, seat int, kit []int16) {
	p.inkColour(l.ink)
	const up = 8.5 // points
	p.upArrow(labelPad, labelPad, arrowWidth, l.top-capMM(up)-2.2, l.ink)
	p.textMiddle(labelPad+arrowWidth/2, labelPad+l.top-1, up, bold, "UP")
	l.patches(p, l.width-labelPad-l.panel, labelPad, kit)

	y := labelPad + l.top + lineHeight(l.words) + float64(l.noteLines)*lineHeight(l.small)
	l.cues(p, labelPad, y+l.cueStep()*0.85, seat)
	y += float64(l.columnHigh) * l.cueStep()
	for i, line := range l.care {
		p.text(labelPad, y+float64(i)*lineHeight(l.small)+lineHeight(l.small)*0.85, l.small, regular, line)
	}
}

// patches shows the cards of the kit, each with its colours and its name.
func (l *labels) patches(p *pen, x, y float64, kit []int16) {
	const most, gap, small = 4, 2.0, 7.0
	show := kit[:min(len(kit), most)]
	w := (l.panel - gap*float64(len(show)-1)) / float64(len(show))
	caption := min(l.words, 15)
	names, lines := make([][]string, len(show)), 1
	for i, c := range show {
		id := l.plan.Cards[c].ID
		names[i] = []string{id}
		if a, b, two := strings.Cut(id, "/"); two && sizeFor(id, bold, w, caption) < small {
			names[i], lines = []string{a + "/", b}, 2
		}
	}
	if lines > 1 {
		caption = min(caption, 10)
	}
	step := lineHeight(caption) * 0.9
	h := l.top - float64(lines)*step - captionAir
	if h < leastPatch && len(show) == 1 && lines == 1 { // beside each other, where a label is low
		l.cardPatch(p, x, y, w*0.45, l.top, show[0])
		size := sizeFor(names[0][0], bold, w*0.52, caption)
		p.text(x+w*0.48, y+l.top/2+capMM(size)/2, size, bold, names[0][0])
		return
	}
	for i, c := range show {
		cx := x + float64(i)*(w+gap)
		l.cardPatch(p, cx, y, w, h, c)
		for n, name := range names[i] {
			p.textMiddle(cx+w/2, y+l.top-float64(lines-1-n)*step, sizeFor(name, bold, w, caption), bold, name)
		}
	}
}

// leastPatch is the height under which a patch's pattern cannot be seen, in millimetres.
const leastPatch = 6.0

// cardPatch shows one card, both halves of one of two colours.
func (l *labels) cardPatch(p *pen, x, y, w, h float64, card int16) {
	sides := l.plan.Cards[card].Sides
	if sides[0] == sides[1] {
		l.patch(p, x, y, w, h, sides[0])
		return
	}
	l.patch(p, x, y, w/2, h, sides[0])
	l.patch(p, x+w/2, y, w/2, h, sides[1])
}

func (l *labels) patch(p *pen, x, y, w, h float64, index int16) {
	rgb := l.plan.Stunt.Colours[index].RGB
	if l.bare {
		rgb = white
	}
	p.inkColour(black) // of the letter on its white plate
	p.swatch(x, y, w, h, int(index), rgb, l.letters[index])
	p.inkColour(l.ink)
}
