package sheets

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Leaders writes leaders.pdf: a map of every block for every cue, for whoever looks after it. Each seat has its colour
// by letter and pattern and its number, both readable at arm's length; a block too large for that goes over several
// sheets. Neighbours are faint. The sheet says which way the camera is, names both lefts and rights, and holds the
// two-minute check. Errors are *seating.Fault.
func Leaders(w io.Writer, b *brief.Brief) error {
	p := b.Plan
	sheet, err := checkedSheet(p)
	if err != nil {
		return err
	}
	list := b.Paper.Blocks
	if lieFlat(list, sheet) {
		sheet = sheet.Turned()
	}
	f := newFlow(b, "Leaders", sheet)
	if len(list) == 0 {
		f.Title("Leaders", b.Paper.Occasion)
		f.Paragraph("No block has a card in this plan.", 12)
		return f.Finish(w)
	}
	first := true
	for i := range list {
		for cue := range p.Cues {
			for _, t := range blockTiles(&list[i], sheet) {
				if !first {
					f.NewPage()
				}
				first = false
				l := leaderSheet{flow: f, block: &list[i], tile: t, cue: cue}
				l.draw()
			}
		}
	}
	return f.Finish(w)
}

// lieFlat says whether the paper lies on its side: where that takes fewer sheets, or as many with larger seats.
func lieFlat(list []brief.Block, sheet paper.Sheet) bool {
	var sheets [2]int    // upright and on its side
	var least [2]float64 // the smallest seat's area
	for i := range list {
		for k, sheet := range [2]paper.Sheet{sheet, sheet.Turned()} {
			tiles := blockTiles(&list[i], sheet)
			sheets[k] += len(tiles)
			for _, t := range tiles {
				w, h := t.seatSize(sheet.Inner(), sheet.Height-edgeMargin-leaderHead-leaderCheck-footerMargin)
				if least[k] == 0 || w*h < least[k] {
					least[k] = w * h
				}
			}
		}
	}
	return sheets[1] < sheets[0] || sheets[1] == sheets[0] && least[1] > least[0]
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
func blockTiles(b *brief.Block, sheet paper.Sheet) []leaderTile {
	room := sheet.Inner() - leaderSide - leaderTick
	across := max(1, int(room/leaderLeast-2*leaderBeside))
	down := max(1, int((sheet.Height-edgeMargin-leaderHead-leaderFoot-footerMargin)/leaderCell))
	rows := b.Last - b.First + 1
	nx, ny := (b.Columns+across-1)/across, (rows+down-1)/down
	var list []leaderTile
	for y := range ny {
		for x := range nx {
			list = append(list, leaderTile{
				number: len(list) + 1, of: nx * ny,
				fromRow: b.First + rows*y/ny, toRow: b.First + rows*(y+1)/ny,
				fromPlace: b.Columns * x / nx, toPlace: b.Columns * (x + 1) / nx,
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

type leaderSheet struct {
	*flow
	block   *brief.Block
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
	room := l.Inner() - leaderSide - leaderTick
	l.cell, l.high = t.seatSize(l.Inner(), l.Height-footerMargin-leaderCheck-l.Y)
	l.figures = l.figureSize()
	l.Y += float64(0.5 * leaderBeside * l.high)
	l.x = l.Left() + leaderSide + (room-float64(l.cell*places))/2 + float64(leaderBeside*l.cell)
	l.y = l.Y
	l.neighbours()
	l.rows()
	l.Y = l.y + float64(float64(t.toRow-t.fromRow)*l.high) + float64(leaderBeside*0.5*l.high)
	l.toCamera()
	l.Y += 1.5
	l.Rule(0.4)
	l.Lines(l.Left(), l.Inner(), l.block.Check, paper.SizeBody, regular)
	l.Y += 7.5
	third := l.Inner() / 3
	l.Blank(l.Left(), l.Y, third-6, "leader")
	l.Blank(l.Left()+third, l.Y, third-6, "people counted")
	l.Blank(l.Left()+2*third, l.Y, third, "empty seats")
}

// head names block, rows and cue, and explains the letters that this cue shows.
func (l *leaderSheet) head() {
	l.Y += paper.CapHeight(paper.SizeTitle)
	l.Text(l.Left(), l.Y, bold.SizeFor(l.block.Title, l.Inner(), paper.SizeTitle), bold, l.block.Title)
	l.Y += paper.LineHeight(11) * 1.05
	under := brief.CueLine(l.plan, l.cue) + ": " + l.block.Holds
	if t := &l.tile; t.of > 1 {
		under += fmt.Sprintf(". Sheet %d of %d of this block", t.number, t.of)
	}
	size := max(regular.SizeFor(under, l.Inner(), 11), 8)
	l.Text(l.Left(), l.Y, size, regular, regular.Shorten(under, size, l.Inner()))
	l.Y += 2.5
	const h, w, letters = 6.5, 9.0, 10.0
	x := l.Left()
	for i := range l.plan.Stunt.Colours {
		name := l.plan.Stunt.Colours[i].Name
		need := w + 7 + bold.Width(letters, name)
		shows := func(s int32) bool { return l.plan.Cues[l.cue].Colours[s] == int16(i) }
		if x+need <= l.Right() && slices.ContainsFunc(l.block.Seats, shows) {
			l.Swatch(x, l.Y, w, h, l.Palette[i])
			l.Text(x+w+2, l.Y+h/2+paper.CapHeight(letters)/2, letters, bold, name)
			x += need
		}
	}
	l.Y += h + 4
	const whose = "Seen from the camera: the front row is at the bottom. Faint seats belong to other blocks; " +
		"crossed places have no seat. w = wheelchair place, c = companion."
	l.Text(l.Left(), l.Y+1, regular.SizeFor(whose, l.Inner(), 9.5), regular, whose)
	l.Y += 3
}

// column is where a place lies in the section's widest row, in places from the left.
func (l *leaderSheet) column(row *seating.Row, place int32) float64 {
	sec := &l.plan.Stands.Sections[l.block.Section]
	spare := float64(l.block.Columns - row.Places)
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
	sec := &l.plan.Stands.Sections[l.block.Section]
	t := &l.tile
	var kit []int16
	for r := t.fromRow; r < t.toRow; r++ {
		row := &sec.Rows[r]
		top := l.y + float64(float64(t.toRow-1-r)*l.high)
		name := "row " + row.Name
		l.Text(l.Left(), top+l.high/2+paper.CapHeight(leaderFigures)/2, bold.SizeFor(name, leaderSide-2,
			leaderFigures), bold, name)
		l.gaps(row, top)
		cards, people, inTile := 0, 0, false
		for s := row.First; s < row.Last; s++ {
			x := l.column(row, l.plan.Stands.Seats[s].Place)
			if l.plan.Blocks[s] != l.block.Name || x < float64(t.fromPlace) || x >= float64(t.toPlace) {
				continue
			}
			inTile = true
			if kit = l.plan.CardsOf(kit[:0], int32(s)); len(kit) > 0 {
				people, cards = people+1, cards+len(kit)
			}
			l.seat(l.x+float64((x-float64(t.fromPlace))*l.cell), top, s)
		}
		if inTile {
			right := l.Right() - leaderTick + 2
			l.Tick(right, top+l.high/2-2)
			l.Text(right+paper.TickSide+1.5, top+l.high/2-2+paper.CapHeight(9)/2, 9, regular, "right")
			l.Text(right, top+l.high/2+4.5, 9, bold, say.Count(cards, "card"))
			if cards != people {
				l.Text(right, top+l.high/2+8.2, 8, regular, say.Count(people, "seat"))
			}
		}
	}
}

// gaps crosses out the places of a row that have no seat.
func (l *leaderSheet) gaps(row *seating.Row, top float64) {
	l.Stroke(grey, 0.2)
	next := int32(0)
	cross := func(to int32) {
		for ; next < to; next++ {
			x := l.column(row, next)
			if x < float64(l.tile.fromPlace) || x >= float64(l.tile.toPlace) {
				continue
			}
			left := l.x + float64((x-float64(l.tile.fromPlace))*l.cell)
			l.Line(left+1, top+1, left+l.cell-1, top+l.high-1)
			l.Line(left+1, top+l.high-1, left+l.cell-1, top+1)
		}
	}
	for s := row.First; s < row.Last; s++ {
		cross(l.plan.Stands.Seats[s].Place)
		next++
	}
	cross(int32(row.Places))
}

func (l *leaderSheet) seat(x, y float64, s int) {
	const gap = 0.5
	w, h := l.cell-2*gap, l.high-2*gap
	scale := l.high / leaderCell
	patch := h - float64(5.6*scale)
	seat := &l.plan.Stands.Seats[s]
	c := l.plan.Cues[l.cue].Colours[s]
	if c >= 0 {
		stamp := l.Stamp(fmt.Sprintf("leader %d %.1f %.1f", c, w, h), w, h, func(p *paper.Pen) {
			p.Swatch(0, 0, w, patch, l.Palette[c])
			p.StrokeWidth(0.3)
			p.Box(0.1, 0.1, w-0.2, h-0.2)
		})
		l.Show(stamp, x+gap, y+gap)
	} else {
		l.Stroke(black, 0.3)
		l.Box(x+gap, y+gap, w, h)
		why := cmp.Or(map[seating.Use]string{seating.UseReserved: "free", seating.UseDropped: "out"}[seat.Use], "none")
		size := regular.SizeFor(why, w-1, 8*scale)
		l.TextMiddle(x+l.cell/2, y+gap+patch/2+paper.CapHeight(size)/2, size, regular, why)
	}
	n := strconv.Itoa(int(seat.Number))
	size, base := bold.SizeFor(n, w-0.6, l.figures), y+l.high-gap-float64(1.3*scale)
	l.TextMiddle(x+l.cell/2, base, size, bold, n)
	if mark := brief.KeptMark(seat); mark != "" {
		room := (w-bold.Width(size, n))/2 - markAir
		if beside := bold.SizeFor(mark, room, size); beside >= leastMark {
			l.Text(x+gap+0.5, base, beside, bold, mark)
			return
		}
		// No room beside a long number: in the patch's corner, on a plate.
		l.Fill(white)
		l.Filled(x+gap+0.5, y+gap+0.5, bold.Width(cornerMark, mark)+1, paper.CapHeight(cornerMark)+1.2)
		l.Ink(black)
		l.Text(x+gap+1, y+gap+1.1+paper.CapHeight(cornerMark), cornerMark, bold, mark)
	}
}

// Type sizes of the mark of a kept place, in points: the least beside a number, and that in the corner.
const (
	leastMark  = 8.0
	cornerMark = 9.0
)

// markAir keeps the mark of a kept place off its number and the seat's edge, in millimetres.
const markAir = 1.8

// figureSize is the size of the block's seat numbers: as large as seats are, and where places are kept, so that their
// marks stand beside the numbers as large as these, down to leaderFigures.
func (l *leaderSheet) figureSize() float64 {
	size := leaderFigures * l.high / leaderCell
	for _, s := range l.block.Seats {
		seat := &l.plan.Stands.Seats[s]
		mark, n := brief.KeptMark(seat), strconv.Itoa(int(seat.Number))
		for mark != "" && size > leaderFigures && bold.Width(size, n)+2*(bold.Width(size, mark)+markAir) > l.cell-1 {
			size -= 0.5
		}
	}
	return size
}

// neighbours draws the seats round the block faintly: the row before and the row behind, and what lies
// beside it, across an aisle or not.
func (l *leaderSheet) neighbours() {
	sec := &l.plan.Stands.Sections[l.block.Section]
	t := &l.tile
	left, right := l.x-float64(leaderBeside*l.cell),
		l.x+float64(float64(t.toPlace-t.fromPlace)*l.cell)+float64(leaderBeside*l.cell)
	top, bottom := l.y-float64(0.5*leaderBeside*l.high),
		l.y+float64(float64(t.toRow-t.fromRow)*l.high)+float64(0.5*leaderBeside*l.high)
	l.Ink(grey)
	l.Inside(left, top, right-left, bottom-top, func() {
		for r := max(0, t.fromRow-1); r < min(len(sec.Rows), t.toRow+1); r++ {
			row := &sec.Rows[r]
			y := l.y + float64(float64(t.toRow-1-r)*l.high)
			for s := row.First; s < row.Last; s++ {
				x := l.column(row, l.plan.Stands.Seats[s].Place)
				inside := l.plan.Blocks[s] == l.block.Name && r >= t.fromRow && r < t.toRow &&
					x >= float64(t.fromPlace) && x < float64(t.toPlace)
				if !inside && x > float64(t.fromPlace)-3 && x < float64(t.toPlace)+3 {
					l.faint(l.x+float64((x-float64(t.fromPlace))*l.cell), y, s)
				}
			}
		}
	})
	l.Ink(black)
	if t.fromPlace == 0 {
		l.beside(left, seating.Left)
	}
	if t.toPlace == l.block.Columns {
		l.beside(right-float64(leaderBeside*l.cell), seating.Right)
	}
}

func (l *leaderSheet) faint(x, y float64, s int) {
	l.Stroke(grey, 0.12)
	l.Box(x+1, y+1, l.cell-2, l.high-2)
	letter := ""
	if c := l.plan.Cues[l.cue].Colours[s]; c >= 0 {
		letter = l.Palette[c].Letter
	}
	l.TextMiddle(x+l.cell/2, y+l.high/2+paper.CapHeight(10)/2, 10, regular, letter)
}

// beside writes what lies at an end of the section's rows, over the nearest seats of the section there.
func (l *leaderSheet) beside(x float64, side seating.Side) {
	what := cmp.Or(brief.Neighbour(l.plan.Stands, l.block.Section, side), "end")
	width := float64(leaderBeside*l.cell) - 2
	if next := brief.SectionBeside(l.plan.Stands, l.block.Section, side); next >= 0 {
		sec := &l.plan.Stands.Sections[next]
		at := x + float64((leaderBeside-1)*l.cell) // the gap is the aisle
		if side == seating.Left {
			at = x
		}
		l.Ink(grey)
		for r := l.tile.fromRow; r < min(l.tile.toRow, len(sec.Rows)); r++ {
			row := &sec.Rows[r]
			s := row.First
			if side == seating.Left {
				s = row.Last - 1
			}
			if row.First < row.Last {
				l.faint(at, l.y+float64(float64(l.tile.toRow-1-r)*l.high), s)
			}
		}
		l.Ink(black)
	}
	size := 8.0
	for _, word := range strings.Fields(what) { // no name is broken
		size = max(regular.SizeFor(word, width, size), 5)
	}
	lines := regular.Wrap(what, size, width)
	y := l.y - 1 - float64(float64(len(lines)-1)*paper.LineHeight(size))
	for _, line := range lines {
		l.TextMiddle(x+leaderBeside*l.cell/2, y, size, regular, line)
		y += paper.LineHeight(size)
	}
}

// toCamera draws the way to the mark, and names both lefts and rights.
func (l *leaderSheet) toCamera() {
	y := l.Y + 4
	side := l.Inner()/2 - 18 // the arrow and its word stand between
	for i, texts := range [][2]string{{"LEFT as the camera sees it", "RIGHT as the camera sees it"},
		{"your right hand when you sit here", "your left hand when you sit here"}} {
		w := [2]paper.Weight{bold, regular}[i]
		size := min(w.SizeFor(texts[0], side, 10-float64(i)), w.SizeFor(texts[1], side, 10-float64(i)))
		l.Text(l.Left(), y+float64(float64(i)*paper.LineHeight(9)), size, w, texts[0])
		l.TextRight(l.Right(), y+float64(float64(i)*paper.LineHeight(9)), size, w, texts[1])
	}
	l.Y = y + paper.LineHeight(9) + 4
	if l.block.Way == "" {
		return
	}
	// The arrow points from the block to the mark; down the page is straight ahead.
	x, y := (l.Left()+l.Right())/2, y+2.2
	sin, cos := math.Sincos(l.block.Turn)
	at := func(along, across float64) [2]float64 {
		return [2]float64{x + float64(sin*along) + float64(cos*across), y + float64(cos*along) - float64(sin*across)}
	}
	l.Fill(black)
	l.Polygon(paper.Area, at(6, 0), at(0, -3.4), at(0, -1.2), at(-6, -1.2), at(-6, 1.2), at(0, 1.2), at(0, 3.4))
	l.Text(x+5, y+1, 8, bold, "camera")
	l.Lines(l.Left(), l.Inner(), l.block.Way, paper.SizeBody, regular)
}
