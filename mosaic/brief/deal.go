package brief

import (
	"fmt"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Deal is how the row bags are made up from the stacks of cards.
type Deal struct {
	Looks    string      // head of what a stack looks like, or holds
	Stacks   []StackLine // the last one is of all; none: no row gets a card
	Steps    []string
	Sections []DealSection
	Bags     int
}

// StackLine is one stack.
type StackLine struct {
	Name, Looks, Cards string
	Colour, Other      int // of the palette, −1 = none
}

// DealSection is the bags of a section, and what is left of the stacks after it.
type DealSection struct {
	Name, After string
	Bags        []Bag
}

// Bag is one row's.
type Bag struct {
	Row   string // as it is called
	Line  string // what is put in, in order
	Place string // section and row in full
	Begin string // where the row is begun
	Cards string // the count
}

func (t *teller) deal() Deal {
	out := Deal{Bags: t.work.bags}
	if out.Bags == 0 {
		return out
	}
	d := dealing{t, cardsIn(slices.Concat(t.rows...))}
	out.Looks, out.Stacks = d.stacks()
	out.Steps = d.steps()
	for _, rows := range t.rows {
		s := DealSection{Name: t.Stands.Sections[rows[0].Section].Name}
		for i := range rows {
			if r := &rows[i]; r.Placards > 0 {
				s.Bags = append(s.Bags, d.bag(r))
				for c, n := range r.Cards {
					d.remain[c] -= n
				}
			}
		}
		s.After = d.after(s.Name)
		out.Sections = append(out.Sections, s)
	}
	return out
}

// dealing keeps count of what is left of every stack.
type dealing struct {
	*teller
	remain []int
}

func (d *dealing) bag(r *Row) Bag {
	side, start := seating.Right, "RIGHT"
	if r.LeftToRight {
		side, start = seating.Left, "LEFT"
	}
	start += " end as the camera sees it"
	if n := Neighbour(d.Stands, r.Section, side); n != "" {
		start += " (" + n + ")"
	}
	section := &d.Stands.Sections[r.Section]
	return Bag{
		Row: r.Name, Line: "From the " + start + ": " + RunWords(Runs(d.Plan, Dealt(r))) + ".",
		Begin: "Begin at the " + start + ".",
		Place: "Section " + section.Name + ", row " + section.Rows[r.Row].Name, Cards: CardCount(d.Plan, r.Cards),
	}
}

// stacks are what to set out before the first bag; printed cards lie in row order, a stack a section.
func (d *dealing) stacks() (looks string, out []StackLine) {
	all := StackLine{Name: "All stacks", Cards: say.Thousands(d.work.cards), Colour: -1, Other: -1}
	bags := "for " + say.Count(d.work.bags, "bag")
	if d.printed() {
		for _, rows := range d.rows {
			out = append(out, StackLine{"Section " + d.Stands.Sections[rows[0].Section].Name,
				"the printed cards in row order, the first row on top", say.Thousands(sum(cardsIn(rows))), -1, -1})
		}
		all.Looks = bags + "; the spares of spares.pdf stay apart"
		return "What it holds", append(out, all)
	}
	for c, n := range d.remain {
		if n == 0 {
			continue
		}
		card := d.Plan.Cards[c]
		line := StackLine{card.ID, "one colour: " + d.colour(c, 0), say.Thousands(n), int(card.Sides[0]), -1}
		if card.Sides[0] != card.Sides[1] {
			line.Looks, line.Other = "side A "+d.colour(c, 0)+", side B "+d.colour(c, 1), int(card.Sides[1])
		}
		out = append(out, line)
	}
	all.Looks = bags + "; spares stay in their packs"
	return "What it looks like", append(out, all)
}

func (d *dealing) steps() []string {
	steps := []string{
		"Take the bags in this order. One reads the line aloud, one takes the cards, one counts.",
		"Take the cards of a bag in the order of its line, and put each one on the last: " + d.lineWords(),
		"Turn the finished pile over: the card of the first seat is now on top. Count the pile against its check " +
			"count, tick, and lay the row's strip on top.",
		"Close the bag and stick its label on. After every section count what is left of the stacks: if it is not " +
			"what the sheet says, the fault is in that section and nowhere before.",
	}
	order, at := d.printedOrder()
	return append(d.making(), slices.Insert(steps, at, order...)...)
}

func (d *dealing) lineWords() string {
	card := d.Plan.Cards[0]
	which := " from the stack " + card.ID
	switch {
	case d.printed() && card.Sides[0] != card.Sides[1]:
		which = ", side A " + d.colour(0, 0) + " and side B " + d.colour(0, 1)
	case d.printed():
		which = ", both sides " + d.colour(0, 0)
	}
	words := "“3 " + card.ID + "” is three cards" + which + "."
	for _, rows := range d.rows {
		for i := range rows {
			for _, kit := range rows[i].Kits {
				if len(kit) > 1 {
					name := KitName(d.Plan, kit)
					order := strings.ReplaceAll(name+" + "+name, " + ", ", ")
					return words + fmt.Sprintf(" “2 × (%s)” is for two people %d cards each, in this order: %s. "+
						"They stay together.", name, len(kit), order)
				}
			}
		}
	}
	return words
}

func (d *dealing) colour(card, side int) string {
	return d.Stunt.Colours[d.Plan.Cards[card].Sides[side]].Name
}

// printed says whether the cards come out of the printer whole, in row order.
func (d *dealing) printed() bool { return d.Stunt.Print.Placards == mosaic.FullColoured }

// making says how cards of two colours are put together; those that are printed come so out of the printer.
func (d *dealing) making() []string {
	const first = "Make the cards of two colours before anything else: "
	switch {
	case !TwoColoured(d.Plan) || d.Stunt.Card.Kind == mosaic.Printed:
		return nil
	case d.Stunt.Print.Placards == mosaic.OnStock:
		return []string{first + "the two sheets that name the same seat and the same card are glued back to back, " +
			"print outside, both arrows up. A colour on which black cannot be read has no print there: take a bare " +
			"sheet of it. Keep every stack in row order."}
	}
	return []string{first + "a sheet of each colour glued back to back, as many of each card as its stack has. " +
		"Cards that go wrong are made again; spares are not glued: they stay single sheets of one colour."}
}

// printedOrder says when labels go on, and what order printed cards keep; at is the step before which that belongs.
func (d *dealing) printedOrder() (steps []string, at int) {
	switch d.Stunt.Print.Placards {
	case mosaic.OnStock:
		if d.work.labels > 0 {
			steps = []string{"Stick the white labels on before dealing, a stack at a time and in their printed " +
				"order, one on each card where their banner page says: then that stack too lies in row order."}
		}
		return append(steps, "The printed stacks stay in the order in which they were printed, the first row on "+
			"top, and are dealt from the top: the next card of a stack is the next seat's, and its label names the "+
			"row of the bag."), 0
	case mosaic.FullColoured:
		return []string{"The printed cards lie in row order already, whatever their colours. Leave them so, in one " +
			"stack a section, its first row on top: each bag takes its next cards from the top, and its line is the " +
			"check."}, 0
	}
	return []string{"Now this row's labels go on, its slip first: one on each card where the slip says, from the " +
		"top of the pile in the order in which they were printed; of cards that stay together, on the first. Where " +
		"a label names another colour than its card, the pile is wrong."}, 3
}

// after says what must be left of the stacks after a section.
func (d *dealing) after(section string) string {
	var parts []string
	for c, n := range d.remain {
		parts = append(parts, say.Thousands(n)+say.Glue+d.Plan.Cards[c].ID)
	}
	hold := " the stacks hold "
	if d.printed() {
		hold = " its stack is used up, and the others hold "
	}
	return fmt.Sprintf("After section %s%s%s = %s.", section, hold, strings.Join(parts, ", "), say.Count(sum(d.remain),
		"card"))
}
