package sheets

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// stockCards are cards of coloured stock with black print on them.
type stockCards struct {
	*cardLabels
	dark *labelSheets // white labels for cards on which black cannot be read; nil where there are none
}

func newStock(b *brief.Brief, size mosaic.PaperSize) (*stockCards, error) {
	if b.Plan.Stunt.Card.Kind == mosaic.Printed {
		return nil, fault("print.placards", fmt.Sprintf("write placards = %q, or kind = %q under [card]",
			mosaic.FullColoured, mosaic.Sheet), "the cards are white card that is printed, not coloured stock")
	}
	c, err := newCardLabels(b, size)
	if err != nil {
		return nil, err
	}
	c.back.bare, c.foot.bare = true, true
	s := &stockCards{cardLabels: c}
	for c := range b.Plan.Stunt.Colours {
		if b.Plan.Stunt.WhiteLabel(c) && len(s.cardSheets(int16(c))) > 0 {
			grid, err := darkGrid(b.Plan, size, s.tiles != nil)
			if err != nil {
				return nil, err
			}
			s.dark, err = designLabels(b, grid, cardNotes(b.Plan)...)
			return s, err
		}
	}
	return s, nil
}

// cardLabels are labels that are printed on the card itself.
type cardLabels struct {
	brief *brief.Brief
	plan  *mosaic.Plan
	grid  paper.Grid
	tiles *paper.Tiling // of a card larger than the paper; nil = grid
	reach float64       // what the printer leaves white, and labels keep from the card's edges
	back  *labels       // on the blank back of a card of one colour
	foot  *labels       // along the lower edge of a side that the camera sees, too
}

// footHeight is room for the line that says which sheet of which job this is.
const footHeight = 4.6

// A foot grows up to a third of the card for words of this type size, in points, and patches so high, in millimetres.
const (
	leastFootType  = armsLength
	leastFootPatch = 12.0
)

func newCardLabels(b *brief.Brief, size mosaic.PaperSize) (c *cardLabels, err error) {
	p := b.Plan
	c = &cardLabels{brief: b, plan: p, reach: printMargin(p)}
	if c.grid, c.tiles, err = layCards(p, size); err != nil {
		return nil, err
	}
	cardWidth, cardHeight := p.CardSize()
	width, height := c.grid.Width, c.grid.Height
	third := height / 3
	if c.tiles != nil { // the label lies on one piece
		third = millimetres(cardHeight) / 3
		width, height = c.tiles.Free()
	}
	width, height = width-2*c.reach, height-2*c.reach-footHeight
	fits := false
	design := startDesign(b, cardNotes(p)...)
	if width > 0 && height > 0 {
		c.back, fits = design.sized(width, height)
	}
	// A foot is as low as its words can be read at; the camera sees it.
	for h := 24.0; fits && h <= height && (c.foot == nil ||
		(c.foot.body < leastFootType || c.foot.top < leastFootPatch) && h <= third); h += 2 {
		if foot, ok := design.sized(width, h); ok {
			c.foot = foot
		}
	}
	if !fits {
		return nil, fault("card.size", "larger cards, or placards = \"labels\" under [print]",
			"a card of %s × %s has no room for a label with %s", cardWidth, cardHeight, say.Count(len(p.Cues), "cue"))
	}
	return c, nil
}

// start begins a file of cards, and says in which jobs they come.
func (c *cardLabels) start(what string, cards int) (*paper.Document, []paper.Job) {
	if c.tiles != nil {
		return newDocument(c.brief, what, c.tiles.Piece.Sheet), c.tiles.Jobs(cards)
	}
	d := newDocument(c.brief, what, c.grid.Sheet)
	d.Loose = cards > packed
	return d, c.grid.Jobs(cards)
}

func (c *cardLabels) sides(f *cardSheet) [2]int16 {
	if f.spare {
		return [2]int16{f.card, f.card}
	}
	return c.plan.Cards[f.card].Sides
}

// place is where the label's top left corner goes on a card at (x, y).
func (c *cardLabels) place(l *labels, x, y float64) (float64, float64) {
	if l == c.back {
		return x + c.reach, y + c.reach
	}
	height := c.grid.Height
	if c.tiles != nil {
		height = c.tiles.CardHeight
	}
	return x + c.reach, y + height - c.reach - footHeight - l.height
}

// cardNote says which card or side this is, or nothing where a person has one card of one colour.
func cardNote(p *mosaic.Plan, f *cardSheet) string {
	card := p.Cards[f.card]
	var parts []string
	if f.of > 1 {
		parts = append(parts, fmt.Sprintf("Card %d of %d: %s.", f.nth, f.of, card.ID))
	}
	if card.Sides[0] != card.Sides[1] {
		name := func(s int8) string { return p.Stunt.Colours[card.Sides[s]].Name }
		parts = append(parts, fmt.Sprintf("Side %s, %s: while you read this, the camera sees %s.", sideName(f.side),
			name(f.side), name(1-f.side)))
	}
	return strings.Join(parts, " ")
}

// cardNotes are all that the plan's cards may have.
func cardNotes(p *mosaic.Plan) (notes []string) {
	most := 0
	var kit []int16
	for s := range p.Stands.Seats {
		kit = p.CardsOf(kit[:0], int32(s))
		most = max(most, len(kit))
	}
	for c := range p.Cards {
		for side := range int8(2) {
			if note := cardNote(p, &cardSheet{card: int16(c), side: side, nth: most, of: most}); note != "" {
				notes = append(notes, note)
			}
		}
	}
	return notes
}

func (c *cardLabels) colour(index int16) string { return c.plan.Stunt.Colours[index].Name }

// footLine says which piece of paper this is, at the card's lower edge.
func (c *cardLabels) footLine(p *paper.Pen, x, y float64, words string) {
	const size = 6.5
	side := c.reach + paper.Pad
	p.Text(x+side, y+c.grid.Height-c.reach-1.6, size, regular,
		regular.Shorten(words+flashing(c.plan), size, c.grid.Width-2*side))
}

// flashing ends the line that tells a piece of paper apart: none goes without it.
func flashing(p *mosaic.Plan) string {
	if p.Flashing == "" {
		return ""
	}
	return ". FLASHING: " + p.Flashing
}

func (s *stockCards) files(put put) error {
	for c, id := range mosaic.ColourIDs(s.plan.Stunt.Colours) {
		file := func(cards []cardSheet, w io.Writer) error {
			if s.plan.Stunt.WhiteLabel(c) {
				return s.darkFile(int16(c), cards, w)
			}
			return s.file(int16(c), cards, w)
		}
		if err := putParts(put, "placards-"+seating.FileName(id), chunks(s.cardSheets(int16(c))), file); err != nil {
			return err
		}
	}
	return nil
}

// cardSheets lists the sheets of one colour that are printed, in laying order. A card of two colours carries
// its label on both sides; only where black cannot be read on one of them does that side stay
// bare, and only where it cannot on either does side A get a white label.
func (s *stockCards) cardSheets(colour int16) (cards []cardSheet) {
	for _, f := range allCards(s.brief.Rows...) {
		for _, f.side = range brief.PrintedSides(s.plan, f.card) {
			if s.sides(&f)[f.side] == colour {
				cards = append(cards, f)
			}
		}
	}
	return cards
}

// allCards are the cards of sections in laying order, a sheet each.
func allCards(sections ...[]brief.Row) (cards []cardSheet) {
	for _, rows := range sections {
		for i := range rows {
			for k, kit := range rows[i].Kits {
				for n, card := range kit {
					cards = append(cards, cardSheet{&rows[i], k, card, 1, n + 1, len(kit), false})
				}
			}
		}
	}
	return cards
}

func (s *stockCards) file(colour int16, cards []cardSheet, w io.Writer) error {
	name := s.colour(colour)
	d, jobs := s.start("Placards on "+name, len(cards))
	for _, j := range jobs {
		load := say.Count(j.Sheets, "sheet")
		steps := []string{
			"Put nothing but " + name + " into the tray: " + load + ". Keep a few more at hand for jams.",
			"Print " + pagesFrom(d.Page()+1, j.Sheets) + " on them: at actual size (100 %), on one side, in black. " +
				"This page goes on plain paper.",
		}
		if s.tiles != nil {
			steps = append(steps, tileSteps(s.tiles, s.plan)...)
		} else {
			steps = append(steps, pileSteps(&s.grid, &j, keepPile)...)
		}
		s.back.banner(d, &banner{Job: j, what: "Placards on " + name, load: load + " of " + name, colour: colour,
			steps: steps}, cards)
		for sheet := range j.Sheets {
			p := d.AddPage()
			if s.tiles != nil {
				s.tile(d, &j, sheet, cards)
				continue
			}
			if s.grid.Places() > 1 {
				d.Show(d.Stamp("ticks", d.Width, d.Height, func(p *paper.Pen) { p.CutTicks(&s.grid, s.reach) }), 0, 0)
			}
			for place, n := range j.On(sheet) {
				x, y := s.grid.Place(place)
				s.label(d, x, y, &cards[n])
				s.footLine(p, x, y, fmt.Sprintf("Plan %s. Placards on %s, %s", s.brief.Code, name, j.Where(sheet,
					place)))
			}
		}
	}
	return d.Write(w)
}

func (s *stockCards) label(d *paper.Document, x, y float64, f *cardSheet) {
	l := s.back
	if sides := s.sides(f); sides[0] != sides[1] {
		l = s.foot
	}
	x, y = s.place(l, x, y)
	l.placard(d, x, y, f.index(), f.kit(), cardNote(s.plan, f))
}

// darkFile prints white labels to stick on dark cards, in the order in which these are laid.
func (s *stockCards) darkFile(colour int16, cards []cardSheet, w io.Writer) error {
	name := s.colour(colour)
	where := "the back of a card of " + name
	if brief.TwoColoured(s.plan) {
		where = "a card's " + name + " side (of a card of one colour, on its back), low down"
	}
	under := "Black cannot be read on " + name + ": these labels are stuck on."
	if s.tiles != nil {
		under += fmt.Sprintf(" Each card is first put together of %s.", say.Count(s.tiles.Count(), "sheet"))
	}
	return s.dark.jobs(w, cards, where, banner{what: "Labels for " + name, under: under, colour: colour},
		func(d *paper.Document, x, y float64, f *cardSheet) {
			s.dark.placard(d, x, y, f.index(), f.kit(), cardNote(s.plan, f))
		})
}

// note stands in the rim of a label, where the cut leaves it.
func (l *labels) note(p *paper.Pen, x, y float64, words string) {
	const size = 5.5
	p.TextRight(x+l.width-paper.Pad, y+paper.Pad-0.9, size, regular,
		regular.Shorten(words+flashing(l.plan), size, l.width-2*paper.Pad))
}

// tileSteps say how a card is put together, and which piece the label is on: the check that none was turned or mixed
// up.
func tileSteps(t *paper.Tiling, p *mosaic.Plan) []string {
	width, height := p.CardSize()
	label := "The label is on piece 1, its upper left as you look at it."
	if brief.TwoColoured(p) {
		label = fmt.Sprintf("on piece %d, its lower left as you look at it.", t.LastRow()+1)
		if slices.ContainsFunc(p.Cards, func(c mosaic.Card) bool { return c.Sides[0] == c.Sides[1] }) {
			label = "on piece 1, of a card of two colours " + label
		}
		label = "The label is " + label
	}
	return []string{
		fmt.Sprintf("Each card is %d sheets that follow each other: %d side by side, %d one below the other, as you "+
			"look at the side with the marks. It becomes %s × %s.", t.Count(), t.Columns, t.Rows, width, height),
		"One card at a time: cut each sheet along the marks at its corners, and put it in its place at once.",
		"Glue piece 2 on piece 1 so that its cut edge meets the short lines of piece 1, and so on along the row; " +
			"then row on row. " + label,
		"Keep the cards in their order, with this page on top.",
	}
}

// bearsLabel says whether piece n carries the label: the first one of the card, or with foot of its last row.
func bearsLabel(t *paper.Tiling, n int, foot bool) bool {
	return foot && n == t.LastRow() || !foot && n == 0
}

// tile prints a sheet of a large card of one colour: the marks are on the side with the label.
func (s *stockCards) tile(d *paper.Document, j *paper.Job, sheet int, cards []cardSheet) {
	t := s.tiles
	f, n := &cards[j.First+sheet/t.Count()], sheet%t.Count()
	d.TileMarks(t, n, s.reach, black)
	d.TileNote(t, n, s.tileWords(f, j, sheet))
	if sides := s.sides(f); bearsLabel(t, n, sides[0] != sides[1]) {
		x, y := t.Card(n)
		s.label(d, x, y, f)
	}
}

// tileWords name the card of a piece, and the sheet.
func (c *cardLabels) tileWords(f *cardSheet, j *paper.Job, sheet int) string {
	what := "Seat "
	if f.spare {
		what = c.spareName(f)
	} else {
		what += c.plan.Stands.ID(f.index()) + ", " + c.plan.Cards[f.card].ID
	}
	return fmt.Sprintf("%s. Plan %s, %s", what, c.brief.Code, j.Where(sheet, 0))
}
