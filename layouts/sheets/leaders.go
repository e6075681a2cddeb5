package sheets

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Leaders writes leaders.pdf: a map of every block for every cue, for whoever looks after it. Each
// seat has its colour by letter and pattern and its number, both readable at arm's length; a
// block too large for that goes over several sheets. Neighbours are faint. The sheet says which
// way the camera is, names both lefts and rights, and holds the two-minute check. Errors are
// *seating.Fault.
func Leaders(w io.Writer, p *mosaic.Plan) error {
	if err := checkType(p); err != nil {
		return err
	}
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return err
	}
	list := leaderBlocks(p)
	width, height := paper.Width, paper.Height
	if lieFlat(list, width, height) {
		width, height = height, width
	}
	f := newFlow(p, "Leaders", width, height)
	if len(list) == 0 {
		f.title("Leaders", occasion(p))
		f.paragraph("No block has a card in this plan.", 12)
		return f.finish(w)
	}
	first := true
	for i := range list {
		for cue := range p.Cues {
			for _, t := range list[i].tiles(width, height) {
				if !first {
					f.newPage()
				}
				first = false
				l := leaderSheet{flow: f, block: &list[i], tile: t, cue: cue}
				l.draw()
			}
		}
	}
	return f.finish(w)
}

// lieFlat says whether the paper lies on its side: where that takes fewer sheets, or as many with larger seats.
func lieFlat(list []leaderBlock, width, height float64) bool {
	upright, flat := 0, 0
	var seat [2]float64 // the smallest, upright and on its side
	for i := range list {
		upright += tilesOf(&list[i], width, height)
		flat += tilesOf(&list[i], height, width)
		for k, size := range [2][2]float64{{width, height}, {height, width}} {
			for _, t := range list[i].tiles(size[0], size[1]) {
				w, h := t.seatSize(size[0]-2*(edgeMargin+labelPad), size[1]-edgeMargin-leaderHead-leaderCheck-footerMargin)
				if seat[k] == 0 || w*h < seat[k] {
					seat[k] = w * h
				}
			}
		}
	}
	return flat < upright || flat == upright && seat[1] > seat[0]
}

// leaderBlock is one block: rows of one section.
type leaderBlock struct {
	name        string
	section     int
	first, last int // rows, last included
	columns     int // half places: a row that is centred may lie half a place off
	seats       []int32
	people      int
}

// leaderBlocks lists the blocks in which anybody holds a card, by section and row.
func leaderBlocks(p *mosaic.Plan) []leaderBlock {
	var list []leaderBlock
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		if len(sec.Rows) == 0 {
			continue
		}
		var here []leaderBlock
		at := map[string]int{}
		for r := range sec.Rows {
			for s := sec.Rows[r].First; s < sec.Rows[r].Last; s++ {
				name := p.Blocks[s]
				i, ok := at[name]
				if !ok {
					i = len(here)
					at[name] = i
					here = append(here, leaderBlock{name: name, section: k, first: r})
				}
				b := &here[i]
				b.last = r
				b.seats = append(b.seats, int32(s))
				if len(p.Kit(nil, int32(s))) > 0 {
					b.people++
				}
			}
		}
		for _, b := range here {
			if b.people > 0 {
				b.columns = mostPlaces(sec)
				list = append(list, b)
			}
		}
	}
	return list
}

func mostPlaces(sec *seating.Section) int {
	most := 0
	for r := range sec.Rows {
		most = max(most, sec.Rows[r].Places)
	}
	return most
}

// Sizes of a leader's map, in millimetres. Figures of 12 points are over 16 minutes of arc high at
// 60 cm, an arm's length; ISO 9241-3 asks for that at least.
const (
	leaderLeast   = 9.6 // width of a seat
	leaderMost    = 24.0
	leaderCell    = 15.5 // least height of a seat
	leaderHighest = 25.0
	leaderFigures = 12.0 // points
	leaderHead    = 40.0 // above the map
	leaderFoot    = 60.0 // below it: half a row of neighbours, the way to the camera, the check
	leaderCheck   = 52.0 // of that without the neighbours
	leaderSide    = 19.0 // row names on the left
	leaderTick    = 22.0 // counts to tick on the right
	leaderBeside  = 1.7  // faint neighbours on either side, in seats
)

// leaderTile is the part of a block that one sheet shows.
type leaderTile struct {
	number, of         int
	fromRow, toRow     int // rows of the section, toRow not included
	fromPlace, toPlace int
}

// tiles shares a block out over sheets of this size, evenly.
func (b *leaderBlock) tiles(width, height float64) []leaderTile {
	room := width - 2*(edgeMargin+labelPad) - leaderSide - leaderTick
	across := max(1, int(room/leaderLeast-2*leaderBeside))
	down := max(1, int((height-edgeMargin-leaderHead-leaderFoot-footerMargin)/leaderCell))
	rows := b.last - b.first + 1
	nx, ny := (b.columns+across-1)/across, (rows+down-1)/down
	var list []leaderTile
	for y := range ny {
		for x := range nx {
			list = append(list, leaderTile{
				number: len(list) + 1, of: nx * ny,
				fromRow: b.first + rows*y/ny, toRow: b.first + rows*(y+1)/ny,
				fromPlace: b.columns * x / nx, toPlace: b.columns * (x + 1) / nx,
			})
		}
	}
	return list
}

// seatSize is how large a seat is drawn where the map has so much room, side columns and neighbours counted in.
func (t *leaderTile) seatSize(width, height float64) (cell, high float64) {
	places := float64(t.toPlace-t.fromPlace) + 2*leaderBeside
	rows := float64(t.toRow-t.fromRow) + leaderBeside // half a neighbour above, half a one below
	cell = min(leaderMost, math.Floor((width-leaderSide-leaderTick)/places*10)/10)
	return cell, math.Floor(max(leaderCell, min(height/rows, leaderHighest, 2*cell))*10) / 10
}

func tilesOf(b *leaderBlock, width, height float64) int { return len(b.tiles(width, height)) }

// leaderSheet is one page.
type leaderSheet struct {
	*flow
	block   *leaderBlock
	tile    leaderTile
	cue     int
	cell    float64 // width of a seat
	high    float64 // and its height
	figures float64 // size of the seat numbers, points
	x, y    float64 // of the map's left edge and top
}

func (l *leaderSheet) draw() {
	l.head()
	t := &l.tile
	places := float64(t.toPlace-t.fromPlace) + 2*leaderBeside
	room := l.width() - leaderSide - leaderTick
	l.cell, l.high = t.seatSize(l.width(), l.document.height-footerMargin-leaderCheck-l.flow.y)
	l.figures = l.figureSize()
	l.flow.y += 0.5 * leaderBeside * l.high
	l.x = l.left + leaderSide + (room-l.cell*places)/2 + leaderBeside*l.cell
	l.y = l.flow.y
	l.neighbours()
	l.rows()
	l.flow.y = l.y + float64(t.toRow-t.fromRow)*l.high + leaderBeside*0.5*l.high
	l.toCamera()
	l.twoMinutes()
}

// head names block, rows and cue, with the legend.
func (l *leaderSheet) head() {
	p, plan := l.pen(), l.plan
	sec := &plan.Stands.Sections[l.block.section]
	rows := "row " + sec.Rows[l.block.first].Name
	if l.block.last > l.block.first {
		rows = "rows " + sec.Rows[l.block.first].Name + " to " + sec.Rows[l.block.last].Name
	}
	title := "Section " + sec.Name + ", " + rows
	if l.block.name != "" {
		title = "Block " + l.block.name + ": section " + sec.Name + ", " + rows
	}
	l.flow.y += capMM(sizeTitle)
	p.text(l.left, l.flow.y, sizeFor(title, bold, l.width(), sizeTitle), bold, title)
	l.flow.y += lineHeight(11) * 1.05
	c := &plan.Cues[l.cue]
	under := sentenceCase(cueName(plan, l.cue))
	if c.At != "" {
		under += " at " + c.At
	}
	if how := waveWords(plan, l.cue); how != "" {
		under += ", " + how
	}
	under += ": " + plural(l.block.people, "person with a card")
	if l.block.people != 1 {
		under = under[:len(under)-len("persons with a card")-1] + " people with cards"
	}
	if t := &l.tile; t.of > 1 {
		under += fmt.Sprintf(". Sheet %d of %d of this block", t.number, t.of)
	}
	size := max(sizeFor(under, regular, l.width(), 11), 8)
	p.text(l.left, l.flow.y, size, regular, shortenText(under, size, regular, l.width()))
	l.flow.y += 2.5
	l.legend()
}

// legend explains the letters that this cue shows.
func (l *leaderSheet) legend() {
	const h, w, size = 6.5, 9.0, 10.0
	x := l.left
	p := l.pen()
	for i := range l.plan.Stunt.Colours {
		name := l.plan.Stunt.Colours[i].Name
		need := w + 7 + textWidth(size, bold, name)
		if !l.shows(int16(i)) || x+need > l.right {
			continue
		}
		l.patch(x, l.flow.y, w, h, i)
		p.text(x+w+2, l.flow.y+h/2+capMM(size)/2, size, bold, name)
		x += need
	}
	l.flow.y += h + 4
	const whose = "Seen from the camera: the front row is at the bottom. Faint seats belong to other blocks; crossed places have no seat. w = wheelchair place, c = companion."
	p.text(l.left, l.flow.y+1, sizeFor(whose, regular, l.width(), 9.5), regular, whose)
	l.flow.y += 3
}

// shows says whether a seat of the block shows the colour at this cue.
func (l *leaderSheet) shows(c int16) bool {
	for _, s := range l.block.seats {
		if l.plan.Cues[l.cue].Colours[s] == c {
			return true
		}
	}
	return false
}

// column is where a place lies in the section's widest row, in places from the left.
func (l *leaderSheet) column(row *seating.Row, place int32) float64 {
	sec := &l.plan.Stands.Sections[l.block.section]
	spare := float64(l.block.columns - row.Places)
	switch sec.Spec.Align {
	case seating.AlignLeft:
		return float64(place)
	case seating.AlignRight:
		return float64(place) + spare
	}
	return float64(place) + spare/2
}

// rows draws the block's seats, the row in front at the bottom.
func (l *leaderSheet) rows() {
	p := l.pen()
	sec := &l.plan.Stands.Sections[l.block.section]
	t := &l.tile
	var kit []int16
	for r := t.fromRow; r < t.toRow; r++ {
		row := &sec.Rows[r]
		top := l.y + float64(t.toRow-1-r)*l.high
		name := "row " + row.Name
		p.text(l.left, top+l.high/2+capMM(leaderFigures)/2, sizeFor(name, bold, leaderSide-2, leaderFigures), bold, name)
		l.gaps(row, top)
		cards, people, inTile := 0, 0, false
		for s := row.First; s < row.Last; s++ {
			x := l.column(row, l.plan.Stands.Seats[s].Place)
			if l.plan.Blocks[s] != l.block.name || x < float64(t.fromPlace) || x >= float64(t.toPlace) {
				continue
			}
			inTile = true
			if kit = l.plan.Kit(kit[:0], int32(s)); len(kit) > 0 {
				people, cards = people+1, cards+len(kit)
			}
			l.seat(l.x+(x-float64(t.fromPlace))*l.cell, top, s)
		}
		if inTile {
			right := l.right - leaderTick + 2
			l.tick(right, top+l.high/2-2)
			p.text(right+tickSide+1.5, top+l.high/2-2+capMM(9)/2, 9, regular, "right")
			p.text(right, top+l.high/2+4.5, 9, bold, plural(cards, "card"))
			if cards != people {
				p.text(right, top+l.high/2+8.2, 8, regular, plural(people, "seat"))
			}
		}
	}
}

// gaps crosses out the places of a row that have no seat.
func (l *leaderSheet) gaps(row *seating.Row, top float64) {
	p := l.pen()
	p.lineColour(grey)
	p.lineWidth(0.2)
	next := int32(0)
	cross := func(to int32) {
		for ; next < to; next++ {
			x := l.column(row, next)
			if x < float64(l.tile.fromPlace) || x >= float64(l.tile.toPlace) {
				continue
			}
			left := l.x + (x-float64(l.tile.fromPlace))*l.cell
			p.line(left+1, top+1, left+l.cell-1, top+l.high-1)
			p.line(left+1, top+l.high-1, left+l.cell-1, top+1)
		}
	}
	for s := row.First; s < row.Last; s++ {
		cross(l.plan.Stands.Seats[s].Place)
		next++
	}
	cross(int32(row.Places))
}

// seat draws one seat: what it shows, and its number.
func (l *leaderSheet) seat(x, y float64, s int) {
	const gap = 0.5
	w, h := l.cell-2*gap, l.high-2*gap
	scale := l.high / leaderCell
	patch := h - 5.6*scale
	p := l.pen()
	seat := &l.plan.Stands.Seats[s]
	c := l.plan.Cues[l.cue].Colours[s]
	if c >= 0 {
		stamp := l.stamp(fmt.Sprintf("leader %d %.1f %.1f", c, w, h), w, h, func(p *pen) {
			p.swatch(0, 0, w, patch, int(c), l.plan.Stunt.Colours[c].RGB, l.letters[c])
			p.lineWidth(0.3)
			p.box(0.1, 0.1, w-0.2, h-0.2)
		})
		l.show(stamp, x+gap, y+gap)
	} else {
		p.lineColour(black)
		p.lineWidth(0.3)
		p.box(x+gap, y+gap, w, h)
		why := idleShort(seat)
		size := sizeFor(why, regular, w-1, 8*scale)
		p.textMiddle(x+l.cell/2, y+gap+patch/2+capMM(size)/2, size, regular, why)
	}
	n := strconv.Itoa(int(seat.Number))
	size, base := sizeFor(n, bold, w-0.6, l.figures), y+l.high-gap-1.3*scale
	p.textMiddle(x+l.cell/2, base, size, bold, n)
	if mark := keptMark(seat); mark != "" {
		room := (w-textWidth(size, bold, n))/2 - markAir
		if beside := sizeFor(mark, bold, room, size); beside >= leastMark {
			p.text(x+gap+0.5, base, beside, bold, mark)
			return
		}
		// No room beside a long number: in the patch's corner, on a plate.
		p.fillColour(white)
		p.filled(x+gap+0.5, y+gap+0.5, textWidth(cornerMark, bold, mark)+1, capMM(cornerMark)+1.2)
		p.inkColour(black)
		p.text(x+gap+1, y+gap+1.1+capMM(cornerMark), cornerMark, bold, mark)
	}
}

// Type sizes of the mark of a kept place, in points: the least beside a number, and that in the corner.
const (
	leastMark  = 8.0
	cornerMark = 9.0
)

// markAir keeps the mark of a kept place off its number and the seat's edge, in millimetres.
const markAir = 1.8

// keptMark is the letter of a wheelchair or companion place, or "".
func keptMark(seat *seating.Seat) string {
	if seat.For == "wheelchair" || seat.For == "companion" {
		return seat.For[:1]
	}
	return ""
}

// figureSize is the size of the block's seat numbers: as large as seats are, and where places are kept, so that their
// marks stand beside the numbers as large as these, down to leaderFigures.
func (l *leaderSheet) figureSize() float64 {
	size := leaderFigures * l.high / leaderCell
	for _, s := range l.block.seats {
		seat := &l.plan.Stands.Seats[s]
		mark, n := keptMark(seat), strconv.Itoa(int(seat.Number))
		for mark != "" && size > leaderFigures && textWidth(size, bold, n)+2*(textWidth(size, bold, mark)+markAir) > l.cell-1 {
			size -= 0.5
		}
	}
	return size
}

// idleShort says in one word why a seat shows nothing.
func idleShort(s *seating.Seat) string {
	switch s.Use {
	case seating.UseReserved:
		return "free"
	case seating.UseDropped:
		return "out"
	}
	return "none"
}

// neighbours draws the seats round the block faintly: the row before and the row behind, and what lies
// beside it, across an aisle or not.
func (l *leaderSheet) neighbours() {
	p := l.pen()
	sec := &l.plan.Stands.Sections[l.block.section]
	t := &l.tile
	left, right := l.x-leaderBeside*l.cell, l.x+float64(t.toPlace-t.fromPlace)*l.cell+leaderBeside*l.cell
	top, bottom := l.y-0.5*leaderBeside*l.high, l.y+float64(t.toRow-t.fromRow)*l.high+0.5*leaderBeside*l.high
	p.inkColour(grey)
	p.inside(left, top, right-left, bottom-top, func() {
		for r := max(0, t.fromRow-1); r < min(len(sec.Rows), t.toRow+1); r++ {
			row := &sec.Rows[r]
			y := l.y + float64(t.toRow-1-r)*l.high
			for s := row.First; s < row.Last; s++ {
				x := l.column(row, l.plan.Stands.Seats[s].Place)
				inside := l.plan.Blocks[s] == l.block.name && r >= t.fromRow && r < t.toRow && x >= float64(t.fromPlace) && x < float64(t.toPlace)
				if !inside && x > float64(t.fromPlace)-3 && x < float64(t.toPlace)+3 {
					l.faint(l.x+(x-float64(t.fromPlace))*l.cell, y, s)
				}
			}
		}
	})
	p.inkColour(black)
	if t.fromPlace == 0 {
		l.beside(left, seating.Left)
	}
	if t.toPlace == l.block.columns {
		l.beside(right-leaderBeside*l.cell, seating.Right)
	}
}

func (l *leaderSheet) faint(x, y float64, s int) {
	p := l.pen()
	p.lineColour(grey)
	p.lineWidth(0.12)
	p.box(x+1, y+1, l.cell-2, l.high-2)
	letter := ""
	if c := l.plan.Cues[l.cue].Colours[s]; c >= 0 {
		letter = l.letters[c]
	}
	p.textMiddle(x+l.cell/2, y+l.high/2+capMM(10)/2, 10, regular, letter)
}

// beside writes what lies at an end of the section's rows, over the nearest seats of the section there.
func (l *leaderSheet) beside(x float64, side seating.Side) {
	what := neighbour(l.plan.Stands, l.block.section, side)
	if what == "" {
		what = "end"
	}
	p := l.pen()
	width := leaderBeside*l.cell - 2
	if next := sectionBeside(l.plan.Stands, l.block.section, side); next >= 0 {
		sec := &l.plan.Stands.Sections[next]
		at := x + (leaderBeside-1)*l.cell // the gap is the aisle
		if side == seating.Left {
			at = x
		}
		p.inkColour(grey)
		for r := l.tile.fromRow; r < min(l.tile.toRow, len(sec.Rows)); r++ {
			row := &sec.Rows[r]
			s := row.First
			if side == seating.Left {
				s = row.Last - 1
			}
			if row.First < row.Last {
				l.faint(at, l.y+float64(l.tile.toRow-1-r)*l.high, s)
			}
		}
		p.inkColour(black)
	}
	size := 8.0
	for _, word := range strings.Fields(what) { // no name is broken
		size = max(sizeFor(word, regular, width, size), 5)
	}
	lines := wrapText(what, size, regular, width)
	y := l.y - 1 - float64(len(lines)-1)*lineHeight(size)
	for _, line := range lines {
		p.textMiddle(x+leaderBeside*l.cell/2, y, size, regular, line)
		y += lineHeight(size)
	}
}

// toCamera draws the way to the mark, and names both lefts and rights.
func (l *leaderSheet) toCamera() {
	p := l.pen()
	y := l.flow.y + 4
	side := l.width()/2 - 18 // the arrow and its word stand between
	for i, texts := range [][2]string{{"LEFT as the camera sees it", "RIGHT as the camera sees it"}, {"your right hand when you sit here", "your left hand when you sit here"}} {
		w := [2]weight{bold, regular}[i]
		size := min(sizeFor(texts[0], w, side, 10-float64(i)), sizeFor(texts[1], w, side, 10-float64(i)))
		p.text(l.left, y+float64(i)*lineHeight(9), size, w, texts[0])
		p.textRight(l.right, y+float64(i)*lineHeight(9), size, w, texts[1])
	}
	middle := (l.left + l.right) / 2
	words, turn := l.wayToMark()
	if words != "" {
		l.arrow(middle, y+2.2, turn)
	}
	l.flow.y = y + lineHeight(9) + 4
	if words != "" {
		l.lines(l.left, l.width(), words, sizeBody, regular)
	}
}

// wayToMark says how far the camera is from the block's middle and how far round from straight ahead;
// turn is in radians, positive to the right as the camera sees it.
func (l *leaderSheet) wayToMark() (words string, turn float64) {
	if len(l.plan.Marks) == 0 {
		return "", 0
	}
	at := l.plan.Marks[0].View.Position
	var m seating.Point
	for _, s := range l.block.seats {
		q := l.plan.Stands.Seats[s].Position
		for i := range m {
			m[i] += q[i] / float64(len(l.block.seats))
		}
	}
	facing := l.plan.Stands.Sections[l.block.section].Facing
	sin, cos := math.Sincos(facing)
	dx, dy := at[0]-m[0], at[1]-m[1]
	ahead, aside := dx*sin-dy*cos, dx*cos+dy*sin // aside grows to the right of a camera before the section
	turn = math.Atan2(aside, ahead)
	degrees := int(math.Round(math.Abs(turn) * 180 / math.Pi))
	where := "straight ahead of this block"
	switch {
	case degrees < 3:
	case turn > 0:
		where = fmt.Sprintf("%d° to the left of straight ahead when you sit here (to the right as the camera sees it)", degrees)
	default:
		where = fmt.Sprintf("%d° to the right of straight ahead when you sit here (to the left as the camera sees it)", degrees)
	}
	hold := "Cards face straight ahead."
	if l.plan.Stunt.Card.ToMark {
		hold = "Everybody turns the card to the camera."
	}
	return fmt.Sprintf("The camera is %s away, its lens %s above the floor, %s. %s %s", span(math.Hypot(dx, dy)), span(at[2]), where, hold, heldWords(l.plan)), turn
}

// arrow points from the block to the mark; down the page is straight ahead.
func (l *leaderSheet) arrow(x, y, turn float64) {
	p := l.pen()
	sin, cos := math.Sincos(turn)
	at := func(along, across float64) [2]float64 {
		return [2]float64{x + sin*along + cos*across, y + cos*along - sin*across}
	}
	p.fillColour(black)
	p.polygon("F", at(6, 0), at(0, -3.4), at(0, -1.2), at(-6, -1.2), at(-6, 1.2), at(0, 1.2), at(0, 3.4))
	p.text(x+5, y+1, 8, bold, "camera")
}

// twoMinutes is the check before the take.
func (l *leaderSheet) twoMinutes() {
	rows := l.block.last - l.block.first + 1
	l.flow.y += 1.5
	l.rule(0.4)
	text := fmt.Sprintf("Two-minute check, twenty seconds a row (%d s for this block): hold the row's strip beside the row. Look at both ends, then at every place where the colour changes, "+
		"then count the cards. Tick the row when it is right. A wrong card is changed from the spares; an empty seat stays empty and nobody moves up, unless the crew says so.", 20*rows)
	l.lines(l.left, l.width(), text, sizeBody, regular)
	l.flow.y += 7.5
	third := l.width() / 3
	l.blank(l.left, l.flow.y, third-6, "leader")
	l.blank(l.left+third, l.flow.y, third-6, "people counted")
	l.blank(l.left+2*third, l.flow.y, third, "empty seats")
}

// sectionBeside is the next of the side-by-side sections on one side, or −1.
func sectionBeside(st *seating.Stands, section int, side seating.Side) int {
	if st.Sections[section].Spec.Place != nil {
		return -1
	}
	step := 1
	if side == seating.Left {
		step = -1
	}
	for i := section + step; i >= 0 && i < len(st.Sections); i += step {
		if st.Sections[i].Spec.Place == nil {
			return i
		}
	}
	return -1
}
