package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// cardSheet is one sheet of one card, as it is printed: all of a card of one colour, or a side of a card of two.
type cardSheet struct {
	row     *brief.Row
	seat    int // index in row.seats
	card    int16
	side    int8 // that shows the sheet's colour
	nth, of int  // of the seat's cards
	spare   bool // a spare of a row's section, and card is its colour
}

// stockCards are cards of coloured stock with black print on them.
type stockCards struct {
	*cardLabels
	grid  paper.Grid
	tiles *paper.Tiling // of a card larger than the paper; nil = grid
	dark  *labelSheets  // white labels for cards on which black cannot be read; nil where there are none
}

func newStock(b *brief.Brief, size mosaic.PaperSize) (*stockCards, error) {
	p := b.Plan
	if p.Stunt.Card.Kind == mosaic.Printed {
		return nil, &seating.Fault{Key: "print.placards",
			What: "the cards are white card that is printed, not coloured stock",
			Hint: fmt.Sprintf("write placards = %q, or kind = %q under [card]", mosaic.FullColoured, mosaic.Sheet)}
	}
	grid, tiles, err := layCards(p, size)
	if err != nil {
		return nil, err
	}
	c, err := newCardLabels(b, &grid, tiles)
	if err != nil {
		return nil, err
	}
	c.back.bare, c.foot.bare = true, true
	s := &stockCards{cardLabels: c, grid: grid, tiles: tiles}
	return s, s.designDark(size)
}

// designDark designs the white labels where a colour needs some.
func (s *stockCards) designDark(size mosaic.PaperSize) error {
	sections := s.brief.Rows
	for c := range s.plan.Stunt.Colours {
		if s.plan.Stunt.WhiteLabel(c) && len(s.cardSheets(sections, int16(c))) > 0 {
			grid, err := darkGrid(s.plan, size, s.tiles != nil)
			if err != nil {
				return err
			}
			s.dark, err = designLabels(s.brief, grid, cardNotes(s.plan)...)
			return err
		}
	}
	return nil
}

// cardLabels are labels that are printed on the card itself.
type cardLabels struct {
	brief *brief.Brief
	plan  *mosaic.Plan
	reach float64 // what the printer leaves white, and labels keep from the card's edges
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

func newCardLabels(b *brief.Brief, g *paper.Grid, tiles *paper.Tiling) (*cardLabels, error) {
	p := b.Plan
	c := &cardLabels{brief: b, plan: p, reach: printMargin(p)}
	width, height := g.Width, g.Height
	third := height / 3
	if tiles != nil { // the label lies on one piece
		_, high := heldSize(p)
		third = millimetres(high) / 3
		width, height = tiles.Free()
	}
	width, height = width-2*c.reach, height-2*c.reach-footHeight
	fits := false
	if width > 0 && height > 0 {
		c.back, fits = newDesign(b, width, height, cardNotes(p)...)
	}
	// A foot is as low as its words can be read at; the camera sees it.
	for h := 24.0; fits && h <= height && (c.foot == nil ||
		(c.foot.body < leastFootType || c.foot.top < leastFootPatch) && h <= third); h += 2 {
		if foot, ok := newDesign(b, width, h, cardNotes(p)...); ok {
			c.foot = foot
		}
	}
	if !fits {
		held, high := heldSize(p)
		return nil, &seating.Fault{Key: "card.size", What: fmt.Sprintf("a card of %s × %s has no room for a label with %s",
			held, high, say.Count(len(p.Cues), "cue")),
			Hint: "larger cards, or placards = \"labels\" under [print]"}
	}
	return c, nil
}

// place is where the label's top left corner goes on a card at (x, y).
func (c *cardLabels) place(l *labels, x, y, height float64) (float64, float64) {
	if l == c.back {
		return x + c.reach, y + c.reach
	}
	return x + c.reach, y + height - c.reach - footHeight - l.height
}

// note says which card or side this is, or nothing where a person has one card of one colour.
func (c *cardLabels) note(f *cardSheet) string { return cardNote(c.plan, f.card, f.side, f.nth, f.of) }

func cardNote(p *mosaic.Plan, index int16, side int8, nth, of int) string {
	card := p.Cards[index]
	var parts []string
	if of > 1 {
		parts = append(parts, fmt.Sprintf("Card %d of %d: %s.", nth, of, card.ID))
	}
	if card.Sides[0] != card.Sides[1] {
		name := func(s int8) string { return p.Stunt.Colours[card.Sides[s]].Name }
		parts = append(parts, fmt.Sprintf("Side %s, %s: while you read this, the camera sees %s.", sideName(side),
			name(side), name(1-side)))
	}
	return strings.Join(parts, " ")
}

// cardNotes are all that the plan's cards may have.
func cardNotes(p *mosaic.Plan) []string {
	most := 0
	var kit []int16
	for s := range p.Stands.Seats {
		kit = p.CardsOf(kit[:0], int32(s))
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
func (c *cardLabels) footLine(p *paper.Pen, x, y float64, g *paper.Grid, words string) {
	const size = 6.5
	x += c.reach + paper.Pad
	if c.plan.Flashing != "" {
		words += ". FLASHING: " + c.plan.Flashing
	}
	p.Text(x, y+g.Height-c.reach-1.6, size, regular, regular.Shorten(words, size, g.Width-2*(c.reach+paper.Pad)))
}

// files puts a file for every colour of stock.
func (s *stockCards) files(put put) error {
	sections := s.brief.Rows
	for c, id := range mosaic.ColourIDs(s.plan.Stunt.Colours) {
		write := s.file
		if s.plan.Stunt.WhiteLabel(c) {
			write = s.darkFile
		}
		parts := slices.Collect(slices.Chunk(s.cardSheets(sections, int16(c)), brief.PerFile))
		err := putParts(put, "placards-"+seating.FileName(id), parts, func(part []cardSheet, w io.Writer) error {
			return write(int16(c), part, w)
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// cardSheets lists the sheets of one colour that are printed, in laying order. A card of two colours carries
// its label on both sides; only where black cannot be read on one of them does that side stay
// bare, and only where it cannot on either does side A get a white label.
func (s *stockCards) cardSheets(sections [][]brief.Row, colour int16) []cardSheet {
	var cards []cardSheet
	for _, rows := range sections {
		for i := range rows {
			for k, kit := range rows[i].Kits {
				for n, card := range kit {
					for _, side := range brief.PrintedSides(s.plan, card) {
						if s.plan.Cards[card].Sides[side] == colour {
							cards = append(cards, cardSheet{row: &rows[i], seat: k, card: card, side: side, nth: n + 1, of: len(kit)})
						}
					}
				}
			}
		}
	}
	return cards
}

// file prints the cards of one colour.
func (s *stockCards) file(colour int16, cards []cardSheet, w io.Writer) error {
	if s.tiles != nil {
		return s.tiledFile(colour, cards, w)
	}
	name := s.colour(colour)
	d := newDocument(s.brief, "Placards on "+name, s.grid.Sheet)
	d.Loose = len(cards) > packed
	for _, j := range s.grid.Jobs(len(cards)) {
		s.back.banner(d, &banner{
			Job: j, what: "Placards on " + name, load: say.Count(j.Sheets, "sheet") + " of " + name, colour: colour,
			steps: stockSteps(&s.grid, &j, d.Page()+1, name), rows: rowCounts(s.plan, cards[j.First:j.First+j.Count]),
		})
		for sheet := range j.Sheets {
			p := d.AddPage()
			if s.grid.Places() > 1 {
				d.Show(d.Stamp("ticks", d.Width, d.Height, func(p *paper.Pen) { p.CutTicks(&s.grid, s.reach) }), 0, 0)
			}
			for place, n := range j.On(sheet) {
				x, y := s.grid.Place(place)
				s.label(d, x, y, &cards[n])
				s.footLine(p, x, y, &s.grid, fmt.Sprintf("Plan %s. Placards on %s, %s", string(s.brief.Code), name, j.Where(sheet, place)))
			}
		}
	}
	return d.Write(w)
}

// label prints the label of one sheet of a card at (x, y).
func (s *stockCards) label(d *paper.Document, x, y float64, f *cardSheet) {
	l := s.back
	if sides := s.plan.Cards[f.card].Sides; sides[0] != sides[1] {
		l = s.foot
	}
	height := s.grid.Height
	if s.tiles != nil {
		height = s.tiles.CardHeight
	}
	x, y = s.place(l, x, y, height)
	l.placard(d, x, y, int(f.row.Seats[f.seat]), f.row.Kits[f.seat], s.note(f))
}

// darkFile prints white labels to stick on dark cards, in the order in which these are laid.
func (s *stockCards) darkFile(colour int16, cards []cardSheet, w io.Writer) error {
	l, name := s.dark, s.colour(colour)
	what := "Labels for " + name
	where := "the back of a card of " + name
	if brief.TwoColoured(s.plan) {
		where = "a card's " + name + " side (of a card of one colour, on its back), low down"
	}
	under := "Black cannot be read on " + name + ": these labels are stuck on."
	if s.tiles != nil {
		under += fmt.Sprintf(" Each card is first put together of %s.", say.Count(s.tiles.Count(), "sheet"))
	}
	d := newDocument(s.brief, what, l.grid.Sheet)
	d.Loose = len(cards) > packed
	jobs := l.grid.Jobs(len(cards))
	pages := jobPages(jobs)
	for _, j := range jobs {
		s.back.banner(d, &banner{
			Job: j, what: what, load: l.load(j.Sheets), under: under, colour: colour,
			steps: labelSteps(l, &j, d.Page()+1, where), rows: rowCounts(s.plan, cards[j.First:j.First+j.Count]),
		})
		for sheet := range j.Sheets {
			l.startSheet(d, what, pages)
			for place, n := range j.On(sheet) {
				f := &cards[n]
				x, y := l.grid.Place(place)
				l.placard(d, x, y, int(f.row.Seats[f.seat]), f.row.Kits[f.seat], s.note(f))
				l.note(&d.Pen, x, y, j.Where(sheet, place))
			}
		}
	}
	return d.Write(w)
}

// note stands in the rim of a label, where the cut leaves it.
func (l *labels) note(p *paper.Pen, x, y float64, words string) {
	const size = 5.5
	if l.plan.Flashing != "" {
		words += ". FLASHING: " + l.plan.Flashing
	}
	p.TextRight(x+l.width-paper.Pad, y+paper.Pad-0.9, size, regular, regular.Shorten(words, size, l.width-2*paper.Pad))
}

// rowCounts says how many pieces of each row there are: "B-1 14, B-2 13".
func rowCounts(p *mosaic.Plan, cards []cardSheet) string {
	var parts []string
	for i := 0; i < len(cards); {
		end := i + 1
		for end < len(cards) && cards[end].row == cards[i].row && cards[end].spare == cards[i].spare {
			end++
		}
		name := cards[i].row.Name
		if cards[i].spare {
			name = "spares of section " + p.Stands.Sections[cards[i].row.Section].Name
		}
		parts = append(parts, name+glue+strconv.Itoa(end-i))
		i = end
	}
	return strings.Join(parts, ", ")
}
