package sheets

import (
	"fmt"
	"strconv"
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

	body   float64 // type sizes, points
	words  float64
	idMost float64
	panel  float64 // width of the patches on the right, millimetres
	top    float64 // height of the part with the id and the patches
	across int     // columns of cues
	care   []string
}

const (
	labelPad     = 3.5  // between cut and print
	arrowWidth   = 11.0 // of the UP arrow
	leastIDRoom  = 8.5  // millimetres of height that the id needs to be read at arm's length
	columnGap    = 4.0
	leastCueName = 12.0 // millimetres for the cue's name before what to do
	lowLabel     = 45.0 // millimetres of height and width under which a label has few words
	narrowLabel  = 120.0
	cueLeading   = 1.1 // of the line height
)

// newDesign makes the design of labels of this size in millimetres; it is false where they are too
// small for what they have to say.
func newDesign(p *mosaic.Plan, width, height float64) (*labels, bool) {
	l := &labels{plan: p, width: width, height: height, letters: colourLetters(p.Stunt.Colours), ink: black}
	return l, l.fit()
}

// fit shares the height of a placard out between the id, the seat in words, the cues and the
// care lines; it is false where there is no room for them.
func (l *labels) fit() bool {
	scale := min(l.height/64, l.width/200*1.8)
	inner := l.width - 2*labelPad
	l.panel = inner * 0.27
	cues := len(l.plan.Cues)
	// Names of cues stay whole in one column, so small type comes before more columns; a
	// narrow label has no room for these.
	for _, try := range [...]struct {
		across int
		least  float64 // points
		share  float64 // of the height that the id and the patches get
	}{{1, 9.5, 0.3}, {2, 8.5, 0.3}, {3, 7, 0}, {1, 7, 0}} {
		l.across = try.across
		column := (inner - columnGap*float64(l.across-1)) / float64(l.across)
		lines := (cues + l.across - 1) / l.across
		for l.body = max(try.least, min(10.5*scale, 18)); l.body >= try.least; l.body -= 0.5 {
			if l.longestDo(l.body)+leastCueName > column {
				continue
			}
			l.words = l.body * 1.45
			l.care = wrapText(l.careWords(), l.body, regular, inner)
			l.top = l.height - 2*labelPad - lineHeight(l.words) -
				float64(len(l.care))*lineHeight(l.body) - float64(lines)*lineHeight(l.body)*cueLeading
			if l.top >= max(leastIDRoom, l.height*try.share) {
				l.top = min(l.top, 62)
				l.idMost = l.top * 0.8 / capHeight * pointsPerMM
				return true
			}
		}
	}
	return false
}

// longestDo is the width of the longest thing to do at a cue.
func (l *labels) longestDo(size float64) float64 {
	longest := textWidth(size, bold, l.doWords(mosaic.Hold{Card: -1}))
	for c := range l.plan.Cards {
		for side := range int8(2) {
			longest = max(longest, textWidth(size, bold, l.doWords(mosaic.Hold{Card: int16(c), Side: side})))
		}
	}
	return longest
}

// careWords say how the card is held and kept; on a small label every line counts.
func (l *labels) careWords() string {
	words := heldWords(l.plan)
	if l.height < lowLabel && l.width < narrowLabel {
		return words + " This side towards you. Keep it for a second take. Do not throw it."
	}
	return words + " Arrow up, this label towards you, the colour towards the camera." +
		" Lower it when you are told. Keep it for a second take. Do not throw it."
}

// placard is the label of one seat with its top left corner at (x, y); words are the seat in
// words. What many seats share is a stamp.
func (l *labels) placard(d *document, x, y float64, seat int, kit []int16, words string) {
	p := &d.page
	shared := d.stamp(fmt.Sprint(l.height, l.ink, l.showing(seat)), l.width, l.height, func(p *pen) { l.shared(p, seat, kit) })
	d.show(shared, x, y)

	p.inkColour(l.ink)
	id := l.plan.Stands.ID(seat)
	left := x + labelPad + arrowWidth + 4
	room := l.width - 2*labelPad - arrowWidth - 8 - l.panel
	size := sizeFor(id, bold, room, l.idMost)
	p.text(left, y+labelPad+l.top/2+capMM(size)/2, size, bold, id)
	inner := l.width - 2*labelPad
	size = max(sizeFor(words, regular, inner, l.words), l.body)
	p.text(x+labelPad, y+labelPad+l.top+lineHeight(l.words)*0.85, size, regular, shortenText(words, size, regular, inner))
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
		h := l.plan.Hands[cue][seat]
		fmt.Fprintf(&b, "%d.%d ", h.Card, h.Side)
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

	y := labelPad + l.top + lineHeight(l.words) + lineHeight(l.body)*0.95
	inner := l.width - 2*labelPad
	width := (inner - columnGap*float64(l.across-1)) / float64(l.across)
	lines := (len(l.plan.Cues) + l.across - 1) / l.across
	for cue := range l.plan.Cues {
		x := labelPad + float64(cue/lines)*(width+columnGap)
		l.cue(p, x, y+float64(cue%lines)*lineHeight(l.body)*cueLeading, width, seat, cue)
	}
	y += float64(lines-1)*lineHeight(l.body)*cueLeading + lineHeight(l.body)*cueLeading
	for i, line := range l.care {
		p.text(labelPad, y+float64(i)*lineHeight(l.body), l.body, regular, line)
	}
}

// patches shows the cards of the kit, each with its colours and its name.
func (l *labels) patches(p *pen, x, y float64, kit []int16) {
	const most = 4
	show := kit[:min(len(kit), most)]
	gap := 2.0
	w := (l.panel - gap*float64(len(show)-1)) / float64(len(show))
	caption := min(l.words, 15)
	h := l.top - lineHeight(caption)*0.9
	for i, c := range show {
		card := l.plan.Cards[c]
		cx := x + float64(i)*(w+gap)
		if card.Sides[0] == card.Sides[1] {
			l.patch(p, cx, y, w, h, card.Sides[0])
		} else {
			l.patch(p, cx, y, w/2, h, card.Sides[0])
			l.patch(p, cx+w/2, y, w/2, h, card.Sides[1])
		}
		size := sizeFor(card.ID, bold, w, caption)
		p.textMiddle(cx+w/2, y+l.top, size, bold, card.ID)
	}
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

// cue says what to do at one cue.
func (l *labels) cue(p *pen, x, y, width float64, seat, cue int) {
	c := &l.plan.Cues[cue]
	name := "Cue " + strconv.Itoa(cue+1)
	if len(l.plan.Cues) == 1 {
		name = "Cue"
	}
	name += quotedCue(l.plan, cue)
	if c.At != "" {
		name += " (" + c.At + ")"
	}
	do := l.doWords(l.plan.Hands[cue][seat])
	room := width - textWidth(l.body, bold, do) - textWidth(l.body, regular, ":  ")
	name = shortenText(name, l.body, regular, max(room, leastCueName)) + ": "
	p.text(x, y, l.body, regular, name)
	p.text(x+textWidth(l.body, regular, name), y, l.body, bold, do)
}

func (l *labels) doWords(h mosaic.Hold) string {
	if h.Card < 0 {
		return "show no card"
	}
	card := l.plan.Cards[h.Card]
	colour := l.plan.Stunt.Colours[card.Sides[h.Side]].Name
	if card.Sides[0] == card.Sides[1] {
		return "show " + colour
	}
	return "show " + colour + " (card " + card.ID + ", side " + sideName(h.Side) + ")"
}

// sideName is what paper and tables call a side of a card: A is the first colour of its name, B the second.
func sideName(side int8) string { return string(rune('A' + side)) }
