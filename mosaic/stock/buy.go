package stock

import (
	"fmt"
	"maps"
	"slices"
)

// Supply is one colour of card stock, or white card for printing.
type Supply struct {
	Name  string
	Stock int // sheets that can be had, or Unlimited
	Have  int // of these, sheets that are there already
	Pack  int // sheets in a pack; 0 = not known, sheets are counted singly
	Cents int // price of a pack; 0 = not known
	// White marks the colour of bare card: printing a side in it takes no toner.
	White bool
}

// most is how many sheets there are at most; the stock is limited.
func (s *Supply) most() int { return max(s.Stock, s.Have) }

// Work is what making costs. DefaultWork has assumptions to start from.
type Work struct {
	Paper          Supply // the white card that is printed
	TonerCents     int    // flooding one side with toner
	WageCents      int    // an hour of work; 0 where everybody helps for nothing
	SheetSeconds   int    // to number one card, where no label does
	BondSeconds    int    // more, to put two sheets back to back
	PrintSeconds   int    // more, for each side that is flooded
	SpoiledPercent int    // of the cards that are printed or bonded
	SheetsPerCard  int    // that one colour of a card takes, put together side by side; 0 = 1
}

// DefaultWork are assumptions, all common practice, no source: a volunteer's hour
// counts nothing in money, gluing two sheets takes 20 s, a flooded page 6 s and 25
// cents of toner, white card comes in packs of 250 for 15.00, and 2 % spoil.
func DefaultWork() Work {
	return Work{
		Paper:          Supply{Name: "white card", Stock: Unlimited, Pack: 250, Cents: 1500, White: true},
		TonerCents:     25,
		SheetSeconds:   2,
		BondSeconds:    20,
		PrintSeconds:   6,
		SpoiledPercent: 2,
	}
}

// Pile is a number of like cards in one section.
type Pile struct {
	Section int
	Sides   [2]int16 // colours of the two sides
	Count   int
}

// Line is what one colour, or the white card, comes to.
type Line struct {
	Colour  int // index of the supplies; −1 = Work.Paper
	Cards   int // sheets in the cards that people hold
	Spoiled int // sheets more, for cards that go wrong in the making
	Spares  int // and for spares
	Forgone int // for spares that the stock does not leave
	Packs   int // to buy; single sheets where the pack is not known
	Left    int // sheets over in the end
	Cents   int // to pay
	Short   int // sheets that cannot be had
}

// Sheets is how many a line takes in all.
func (l *Line) Sheets() int { return l.Cards + l.Spoiled + l.Spares }

// Bill is what one way of making the cards takes.
type Bill struct {
	Making  Making
	Lines   []Line // colours that are used, by index, then the white card
	Cards   int    // to make, spoiled ones and spares included
	Spoiled int    // of these
	Spares  int    // of these
	Kept    []Pile // the spares, by section and colour
	Sheets  int    // of card stock, spares and spoiled ones included
	Toner   int    // sides to flood
	// Minutes of work, rounded up.
	Minutes    int
	GoodsCents int // stock, paper and toner
	TonerCents int // of these
	WorkCents  int
	Priced     bool // every line that has to be bought has a price
}

// Cents is goods and work together.
func (b *Bill) Cents() int { return b.GoodsCents + b.WorkCents }

// Short says whether something cannot be had that people are to hold.
func (b *Bill) Short() bool {
	return slices.ContainsFunc(b.Lines, func(l Line) bool { return l.Short > 0 })
}

// Lacks says whether the stock does not reach for all cards and all spares.
func (b *Bill) Lacks() bool {
	return slices.ContainsFunc(b.Lines, func(l Line) bool { return l.Short+l.Forgone > 0 })
}

// Lacking is by colour, of so many, how many sheets more there would have to be for all cards and all spares.
func (b *Bill) Lacking(colours int) []int {
	out := make([]int, colours)
	for _, l := range b.Lines {
		if l.Colour >= 0 {
			out[l.Colour] = l.Short + l.Forgone
		}
	}
	return out
}

// Buy works out what the cards in these piles take when they are made this way.
//
//   - Sheet: a sheet of coloured stock a card; both sides must have one colour.
//   - Bonded: two sheets back to back; a card of one colour is a single sheet.
//   - Printed: a white card, toner on each side that is not white.
//
// Where Work says that a card takes several sheets, all of these are so many.
//
// Spares are single-coloured cards, by Spares for each colour and section: two of
// them held back to back stand in for a card of two colours. They are what the stock
// leaves when everybody has a card: where that is less, every section has its part of it.
func Buy(making Making, piles []Pile, supplies []Supply, work Work) (*Bill, error) {
	if err := checkBuy(making, piles, supplies, work); err != nil {
		return nil, err
	}
	b := &Bill{Making: making, Priced: true}
	work.SheetsPerCard = max(work.SheetsPerCard, 1)
	made, lines := b.toMake(piles, supplies, work)
	b.labour(made, supplies, work)
	b.TonerCents = b.Toner * work.TonerCents
	b.GoodsCents = b.TonerCents
	for c, line := range lines {
		if making != Printed && line.Sheets() > 0 {
			b.add(line, supplies[c])
		}
	}
	if each := work.SheetsPerCard; making == Printed && b.Cards > 0 {
		good := b.Cards - b.Spoiled - b.Spares
		b.add(Line{Colour: -1, Cards: good * each, Spoiled: b.Spoiled * each, Spares: b.Spares * each}, work.Paper)
	}
	return b, nil
}

func checkBuy(making Making, piles []Pile, supplies []Supply, work Work) error {
	if err := making.check(); err != nil {
		return err
	}
	for _, s := range append(slices.Clone(supplies), work.Paper) {
		switch {
		case s.Stock < Unlimited || s.Have < 0 || s.Pack < 0 || s.Cents < 0:
			return fmt.Errorf("%s: stock, pack and price cannot be negative", s.Name)
		case s.Cents > 0 && s.Pack == 0:
			return fmt.Errorf("%s has a price but no pack size", s.Name)
		}
	}
	for _, p := range piles {
		for _, c := range p.Sides {
			if c < 0 || int(c) >= len(supplies) {
				return fmt.Errorf("a card of colour %d; there are %d colours", c, len(supplies))
			}
		}
		if p.Count < 0 {
			return fmt.Errorf("section %d: %d cards", p.Section, p.Count)
		}
		if making == Sheet && p.Sides[0] != p.Sides[1] {
			return fmt.Errorf("section %d: a sheet has one colour, not %s and %s",
				p.Section, supplies[p.Sides[0]].Name, supplies[p.Sides[1]].Name)
		}
	}
	return nil
}

// toMake are the piles with spoiled cards and spares, which it counts, and the sheets by colour.
func (b *Bill) toMake(piles []Pile, supplies []Supply, work Work) ([]Pile, []Line) {
	lines := make([]Line, len(supplies))
	for c := range lines {
		lines[c].Colour = c
	}
	var made []Pile
	shown := map[Pile]int{} // cards that show a colour in a section; the key has no count
	var keys []Pile
	for _, p := range piles {
		if p.Count == 0 {
			continue
		}
		more := 0
		if b.Making == Printed || b.Making == Bonded && !p.plain() {
			more = (p.Count*work.SpoiledPercent + 99) / 100
		}
		b.Spoiled += more
		colours := p.Sides[:]
		if p.plain() {
			colours = colours[:1]
		}
		for _, c := range colours {
			lines[c].Cards += p.Count * work.SheetsPerCard
			lines[c].Spoiled += more * work.SheetsPerCard
			key := Pile{Section: p.Section, Sides: [2]int16{c, c}}
			if shown[key] == 0 {
				keys = append(keys, key)
			}
			shown[key] += p.Count
		}
		p.Count += more
		made = append(made, p)
	}
	wanted := make([]int, len(lines))
	for _, spare := range keys {
		wanted[spare.Sides[0]] += Spares(shown[spare])
	}
	before := make([]int, len(lines))
	for _, spare := range keys {
		c := spare.Sides[0]
		left := wanted[c]
		if s := &supplies[c]; b.Making != Printed && s.Stock != Unlimited {
			left = min(left, max(0, s.most()-lines[c].Cards-lines[c].Spoiled)/work.SheetsPerCard)
		}
		// Of what is left the sections up to here have left*before/wanted, so that all have their part.
		due := before[c] + Spares(shown[spare])
		spare.Count = left*due/wanted[c] - left*before[c]/wanted[c]
		lines[c].Forgone += (due - before[c] - spare.Count) * work.SheetsPerCard
		lines[c].Spares += spare.Count * work.SheetsPerCard
		before[c] = due
		b.Spares += spare.Count
		b.Kept = append(b.Kept, spare)
	}
	return append(made, b.Kept...), lines
}

func (p Pile) plain() bool { return p.Sides[0] == p.Sides[1] }

// labour counts the cards, the toner and the time.
func (b *Bill) labour(made []Pile, supplies []Supply, work Work) {
	seconds := 0
	for _, p := range made {
		sheets := work.SheetsPerCard
		each := work.SheetSeconds + (sheets-1)*work.BondSeconds // piece on piece
		if b.Making == Bonded && !p.plain() {
			each += sheets * work.BondSeconds
		}
		for _, c := range p.Sides {
			if b.Making == Printed && !supplies[c].White {
				each += work.PrintSeconds * sheets
				b.Toner += p.Count * sheets
			}
		}
		b.Cards += p.Count
		seconds += p.Count * each
	}
	b.Minutes = (seconds + 59) / 60
	b.WorkCents = (seconds*work.WageCents + 3599) / 3600
}

// add puts a line on the bill, with the packs that it takes.
func (b *Bill) add(l Line, s Supply) {
	need := l.Sheets()
	if s.Stock != Unlimited {
		l.Short = max(0, need-s.most())
	}
	buy := max(0, need-s.Have)
	pack := max(s.Pack, 1)
	l.Packs = (buy + pack - 1) / pack
	l.Left = s.Have + l.Packs*pack - need
	l.Cents = l.Packs * s.Cents
	if buy > 0 && s.Cents == 0 {
		b.Priced = false
	}
	b.Sheets += need
	b.GoodsCents += l.Cents
	b.Lines = append(b.Lines, l)
}

// Cheapest is the index of the bill that costs least, work included; bills that are
// short or not wholly priced come after those that are not. Ties go to the one
// with the fewest minutes, then the first. It is −1 where there are none.
func Cheapest(bills ...*Bill) int {
	best := -1
	for i, b := range bills {
		if best < 0 || b.before(bills[best]) {
			best = i
		}
	}
	return best
}

func (b *Bill) before(o *Bill) bool {
	switch {
	case b.Short() != o.Short():
		return o.Short()
	case b.Priced != o.Priced:
		return b.Priced
	case b.Cents() != o.Cents():
		return b.Cents() < o.Cents()
	}
	return b.Minutes < o.Minutes
}

// Piles counts the cards of the kit by section; section[seat] is 0 or more. They come by section, then by kind.
func (k *Kit) Piles(section []int) []Pile {
	count := map[[2]int]int{}
	seen := make([]int, len(k.Cards)) // seat+1 that was last seen to hold it
	for s := range section {
		for q := range k.Hands {
			if c := k.Hands[q][s].Card; c >= 0 && seen[c] != s+1 {
				seen[c] = s + 1
				count[[2]int{section[s], int(c)}]++
			}
		}
	}
	keys := slices.SortedFunc(maps.Keys(count), func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	piles := make([]Pile, len(keys))
	for i, key := range keys {
		piles[i] = Pile{Section: key[0], Sides: k.Cards[key[1]].Sides, Count: count[key]}
	}
	return piles
}

// LeastSpares is how many spares a colour has at least in every section that uses it.
const LeastSpares = 5

// Spares is how many spare sheets go with so many cards of a colour in one section: a
// tenth, and five at least (common practice, no source).
func Spares(cards int) int {
	if cards == 0 {
		return 0
	}
	return max(LeastSpares, (cards+9)/10)
}
