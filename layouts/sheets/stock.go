package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// millimetres is a length in the unit of paper.
func millimetres(l seating.Length) float64 { return float64(l) / float64(seating.Millimetre) }

// printMargin is what the printer leaves white at every edge, in millimetres.
func printMargin(p *mosaic.Plan) float64 {
	if m := p.Stunt.Print.Margin; m > 0 {
		return millimetres(m)
	}
	return millimetres(mosaic.UsualMargin)
}

// heldSize is the card as it is held.
func heldSize(p *mosaic.Plan) (width, height seating.Length) {
	if p.Scene != nil {
		return p.Scene.Card.Width, p.Scene.Card.Height
	}
	return p.Stunt.Card.Width, p.Stunt.Card.Height
}

// leaf is one sheet of one card, as it is printed: all of a card of one colour, or a side of a card of two.
type leaf struct {
	row     *rowWork
	seat    int // index in row.seats
	card    int16
	side    int8 // that shows the sheet's colour
	nth, of int  // of the seat's cards
	spare   bool // a spare of a row's section, and card is its colour
}

// stockCards are cards of coloured stock with black print on them.
type stockCards struct {
	*cardLabels
	grid  sheetGrid
	tiles *tiling      // of a card larger than the paper; nil = grid
	dark  *labelSheets // white labels for cards on which black cannot be read; nil where there are none
}

func newStock(p *mosaic.Plan, paper Paper) (*stockCards, error) {
	if p.Stunt.Card.Kind == mosaic.Printed {
		return nil, &seating.Fault{Key: "print.placards", What: "the cards are white card that is printed, not coloured stock",
			Hint: fmt.Sprintf("write placards = %q, or kind = %q under [card]", mosaic.FullColoured, mosaic.Sheet)}
	}
	grid, tiles, err := layCards(p, paper)
	if err != nil {
		return nil, err
	}
	c, err := newCardLabels(p, &grid, tiles)
	if err != nil {
		return nil, err
	}
	c.back.bare, c.foot.bare = true, true
	s := &stockCards{cardLabels: c, grid: grid, tiles: tiles}
	return s, s.designDark(paper)
}

// designDark designs the white labels where a colour needs some.
func (s *stockCards) designDark(paper Paper) error {
	sections := laid(s.plan)
	for c := range s.plan.Stunt.Colours {
		if s.plan.Stunt.WhiteLabel(c) && len(s.leavesOf(sections, int16(c))) > 0 {
			grid, err := darkGrid(s.plan, paper, s.tiles != nil)
			if err != nil {
				return err
			}
			s.dark, err = designLabels(s.plan, grid, cardNotes(s.plan)...)
			return err
		}
	}
	return nil
}

// layCards lays cards on the paper, or where they are larger and the stunt wants it, the paper on them.
func layCards(p *mosaic.Plan, paper Paper) (sheetGrid, *tiling, error) {
	width, height := heldSize(p)
	grid := gridOf(paper, millimetres(width), millimetres(height))
	if grid.places() > 0 {
		return grid, nil, nil
	}
	if p.Stunt.Print.Tile {
		tiles, err := newTiling(p, paper)
		return grid, tiles, err
	}
	hint := "tile = true under [print] to put it together of several sheets, or smaller cards"
	for _, other := range Papers {
		if g := gridOf(other, millimetres(width), millimetres(height)); g.places() > 0 {
			hint = "paper = \"" + other.Name + "\" under [print], or tile = true to put it together of several sheets"
			break
		}
	}
	return grid, nil, &seating.Fault{Key: "card.size", What: fmt.Sprintf("a card of %s × %s is larger than %s paper", width, height, paper.Name), Hint: hint}
}

// cardLabels are labels that are printed on the card itself.
type cardLabels struct {
	plan  *mosaic.Plan
	reach float64
	back  *labels // on the blank back of a card of one colour
	foot  *labels // along the lower edge of a side that the camera sees, too
}

// footHeight is room for the line that says which sheet of which job this is.
const footHeight = 4.6

// A foot grows up to a third of the card for words of this type size, in points, and patches so high, in millimetres.
const (
	leastFootType  = armsLength
	leastFootPatch = 12.0
)

func newCardLabels(p *mosaic.Plan, g *sheetGrid, tiles *tiling) (*cardLabels, error) {
	c := &cardLabels{plan: p, reach: printMargin(p)}
	inset := c.inset()
	width, height := g.width, g.height
	third := height / 3
	if tiles != nil { // the label lies on one piece
		_, high := heldSize(p)
		third = millimetres(high) / 3
		width, height = tiles.labelRoom()
	}
	width, height = width-2*inset, height-2*inset-footHeight
	fits := false
	if width > 0 && height > 0 {
		c.back, fits = newDesign(p, width, height, cardNotes(p)...)
	}
	// A foot is as low as its words can be read at; the camera sees it.
	for h := 24.0; fits && h <= height && (c.foot == nil || (c.foot.body < leastFootType || c.foot.top < leastFootPatch) && h <= third); h += 2 {
		if foot, ok := newDesign(p, width, h, cardNotes(p)...); ok {
			c.foot = foot
		}
	}
	if !fits {
		held, high := heldSize(p)
		return nil, &seating.Fault{Key: "card.size", What: fmt.Sprintf("a card of %s × %s has no room for a label with %s", held, high, plural(len(p.Cues), "cue")),
			Hint: "larger cards, or placards = \"labels\" under [print]"}
	}
	return c, nil
}

// inset is how far a label stays from the card's edge.
func (c *cardLabels) inset() float64 { return c.reach }

// place is where the label's top left corner goes on a card at (x, y).
func (c *cardLabels) place(l *labels, x, y, height float64) (float64, float64) {
	if l == c.back {
		return x + c.inset(), y + c.inset()
	}
	return x + c.inset(), y + height - c.inset() - footHeight - l.height
}

// note says which card or side this is, or nothing where a person has one card of one colour.
func (c *cardLabels) note(f *leaf) string { return cardNote(c.plan, f.card, f.side, f.nth, f.of) }

func cardNote(p *mosaic.Plan, index int16, side int8, nth, of int) string {
	card := p.Cards[index]
	var parts []string
	if of > 1 {
		parts = append(parts, fmt.Sprintf("Card %d of %d: %s.", nth, of, card.ID))
	}
	if card.Sides[0] != card.Sides[1] {
		name := func(s int8) string { return p.Stunt.Colours[card.Sides[s]].Name }
		parts = append(parts, fmt.Sprintf("Side %s, %s: while you read this, the camera sees %s.", sideName(side), name(side), name(1-side)))
	}
	return strings.Join(parts, " ")
}

// cardNotes are all that the plan's cards may have.
func cardNotes(p *mosaic.Plan) []string {
	most := 0
	var kit []int16
	for s := range p.Stands.Seats {
		kit = p.Kit(kit[:0], int32(s))
		most = max(most, len(kit))
	}
	var notes []string
	for c := range p.Cards {
		for side := range int8(2) {
			if note := cardNote(p, int16(c), side, most, most); note != "" {
				notes = append(notes, note)
			}
		}
	}
	return notes
}

func (c *cardLabels) colour(index int16) string { return c.plan.Stunt.Colours[index].Name }

// footLine says which piece of paper this is, at the card's lower edge.
func (c *cardLabels) footLine(p *pen, x, y float64, g *sheetGrid, words string) {
	const size = 6.5
	x += c.inset() + labelPad
	if c.plan.Flashing != "" {
		words += ". FLASHING: " + c.plan.Flashing
	}
	p.text(x, y+g.height-c.reach-1.6, size, regular, shortenText(words, size, regular, g.width-2*(c.inset()+labelPad)))
}

// files puts a file for every colour of stock.
func (s *stockCards) files(put put) error {
	sections := laid(s.plan)
	for c, id := range mosaic.ColourIDs(s.plan.Stunt.Colours) {
		leaves := s.leavesOf(sections, int16(c))
		base := "placards-" + seating.FileName(id)
		parts := slices.Collect(slices.Chunk(leaves, PerFile))
		for i, part := range parts {
			write := func(w io.Writer) error { return s.file(int16(c), part, w) }
			if s.plan.Stunt.WhiteLabel(c) {
				write = func(w io.Writer) error { return s.darkFile(int16(c), part, w) }
			}
			if err := put(numbered(base, i, len(parts)), write); err != nil {
				return err
			}
		}
	}
	return nil
}

// leavesOf lists the sheets of one colour that are printed, in laying order. A card of two colours carries
// its label on both sides; only where black cannot be read on one of them does that side stay
// bare, and only where it cannot on either does side A get a white label.
func (s *stockCards) leavesOf(sections [][]rowWork, colour int16) []leaf {
	var leaves []leaf
	for _, rows := range sections {
		for i := range rows {
			for k, kit := range rows[i].kits {
				for n, card := range kit {
					for side := range s.printedSides(card) {
						if s.plan.Cards[card].Sides[side] == colour {
							leaves = append(leaves, leaf{row: &rows[i], seat: k, card: card, side: side, nth: n + 1, of: len(kit)})
						}
					}
				}
			}
		}
	}
	return leaves
}

// printedSides are the sides of a card that get a label.
func (s *stockCards) printedSides(card int16) func(func(int8) bool) {
	sides := s.plan.Cards[card].Sides
	switch dark := [2]bool{s.plan.Stunt.WhiteLabel(int(sides[0])), s.plan.Stunt.WhiteLabel(int(sides[1]))}; {
	case sides[0] == sides[1], dark[1]:
		return slices.Values([]int8{0})
	case dark[0]:
		return slices.Values([]int8{1})
	}
	return slices.Values([]int8{0, 1})
}

// file prints the cards of one colour.
func (s *stockCards) file(colour int16, leaves []leaf, w io.Writer) error {
	if s.tiles != nil {
		return s.tiledFile(colour, leaves, w)
	}
	name := s.colour(colour)
	d := newDocument("Placards on "+name, s.grid.sheetWidth, s.grid.sheetHeight)
	d.packed = len(leaves) <= packed
	jobs := printJobs(len(leaves), &s.grid)
	for _, j := range jobs {
		page := d.pdf.PageNo() + 1
		s.back.banner(d, &banner{
			job: j, what: "Placards on " + name, load: plural(j.sheets, "sheet") + " of " + name, colour: colour,
			steps: stockSteps(&s.grid, &j, page, name), rows: rowCounts(s.plan, leaves[j.first:j.first+j.count]),
		})
		for sheet := range j.sheets {
			p := d.addPage()
			if s.grid.places() > 1 {
				d.show(d.stamp("ticks", d.width, d.height, func(p *pen) { p.cutTicks(&s.grid, s.reach) }), 0, 0)
			}
			p.inkColour(black)
			for place := range s.grid.places() {
				if n := j.piece(sheet, place); n >= 0 {
					x, y := s.grid.place(place)
					s.leaf(d, x, y, &leaves[n])
					s.footLine(p, x, y, &s.grid, fmt.Sprintf("Plan %s. Placards on %s, %s", s.plan.Code, name, j.where(sheet, place)))
				}
			}
		}
	}
	return d.write(w)
}

// where says where in its job a piece belongs, for whoever drops a pile.
func (j *printJob) where(sheet, place int) string {
	pile := ""
	if j.perSheet > 1 && !j.peeled {
		pile = fmt.Sprintf("pile %d, ", place+1)
	}
	return fmt.Sprintf("job %d of %d, %ssheet %d of %d", j.number, j.of, pile, sheet+1, j.sheets)
}

// leaf prints the label of one sheet of a card at (x, y).
func (s *stockCards) leaf(d *document, x, y float64, f *leaf) {
	l := s.back
	if sides := s.plan.Cards[f.card].Sides; sides[0] != sides[1] {
		l = s.foot
	}
	height := s.grid.height
	if s.tiles != nil {
		height = s.tiles.cardHeight
	}
	x, y = s.place(l, x, y, height)
	l.placard(d, x, y, int(f.row.seats[f.seat]), f.row.kits[f.seat], s.note(f))
}

// darkFile prints white labels to stick on dark cards, in the order in which these are laid.
func (s *stockCards) darkFile(colour int16, leaves []leaf, w io.Writer) error {
	l, name := s.dark, s.colour(colour)
	what := "Labels for " + name
	where := "the back of a card of " + name
	if twoColoured(s.plan) {
		where = "a card's " + name + " side (of a card of one colour, on its back), low down"
	}
	under := "Black cannot be read on " + name + ": these labels are stuck on."
	if s.tiles != nil {
		under += fmt.Sprintf(" Each card is first put together of %s.", plural(s.tiles.count(), "sheet"))
	}
	d := newDocument(what, l.grid.sheetWidth, l.grid.sheetHeight)
	d.packed = len(leaves) <= packed
	jobs := printJobs(len(leaves), &l.grid)
	pages := jobPages(jobs)
	for _, j := range jobs {
		page := d.pdf.PageNo() + 1
		s.back.banner(d, &banner{
			job: j, what: what, load: l.load(j.sheets), under: under, colour: colour,
			steps: labelSteps(l, &j, page, where), rows: rowCounts(s.plan, leaves[j.first:j.first+j.count]),
		})
		for sheet := range j.sheets {
			l.startSheet(d, what, pages)
			for place := range l.grid.places() {
				n := j.piece(sheet, place)
				if n < 0 {
					continue
				}
				f := &leaves[n]
				x, y := l.grid.place(place)
				l.placard(d, x, y, int(f.row.seats[f.seat]), f.row.kits[f.seat], s.note(f))
				l.note(&d.page, x, y, j.where(sheet, place))
			}
		}
	}
	return d.write(w)
}

// note stands in the rim of a label, where the cut leaves it.
func (l *labels) note(p *pen, x, y float64, words string) {
	const size = 5.5
	if l.plan.Flashing != "" {
		words += ". FLASHING: " + l.plan.Flashing
	}
	p.textRight(x+l.width-labelPad, y+labelPad-0.9, size, regular, shortenText(words, size, regular, l.width-2*labelPad))
}

// rowCounts says how many pieces of each row there are: "B-1 14, B-2 13".
func rowCounts(p *mosaic.Plan, leaves []leaf) string {
	var parts []string
	for i := 0; i < len(leaves); {
		end := i + 1
		for end < len(leaves) && leaves[end].row == leaves[i].row && leaves[end].spare == leaves[i].spare {
			end++
		}
		name := leaves[i].row.name(p)
		if leaves[i].spare {
			name = "spares of section " + p.Stands.Sections[leaves[i].row.section].Name
		}
		parts = append(parts, name+glue+strconv.Itoa(end-i))
		i = end
	}
	return strings.Join(parts, ", ")
}
