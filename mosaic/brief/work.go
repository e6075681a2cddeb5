package brief

import (
	"fmt"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating/say"
)

// Speeds at which people work (common practice, no source): the crew times its first fifty.
const (
	dealPerCard   = 3 * time.Second  // to take a card off its stack
	dealPerBag    = 40 * time.Second // to count, label and close a bag
	stickPerLabel = 10 * time.Second // to peel or glue a label and press it on, at the same place of each card
	cutPerPiece   = 4 * time.Second  // at a trimmer, a few sheets at a time
	cutPerPile    = 3 * time.Minute  // a job's pile, cut as a whole and stacked
)

// work is what there is to do, and how long it takes.
type work struct {
	cards, bags, longest int // cards in people's hands; rows that get any; most in one row
	labels               int // that are stuck on
	printing             PrintRun
	making, print, cut   time.Duration // for one person
	stick, deal          time.Duration
	lay                  time.Duration // for all helpers together
	helpers              int
}

// newWork counts the work of the plan.
func newWork(p *mosaic.Plan, sections [][]Row, run PrintRun) *work {
	w := &work{printing: run, helpers: max(p.Stunt.Laying.Helpers, 1)}
	for _, rows := range sections {
		for i := range rows {
			n := rows[i].All()
			w.cards += n
			w.longest = max(w.longest, n)
			if n > 0 {
				w.bags++
			}
		}
	}
	if b := p.Bill; b != nil {
		w.making = time.Duration(b.Minutes) * time.Minute
	}
	w.print = w.printing.time()
	w.cut = w.printing.cutting()
	w.labels = Stickers(p)
	w.stick = time.Duration(w.labels) * stickPerLabel
	w.deal = time.Duration(w.cards)*dealPerCard + time.Duration(w.bags)*dealPerBag
	spec := p.Stunt.Laying
	if spec.Pass {
		// Stacks are handed to the rows one after the other; the rows pass them on at the same time.
		w.lay = time.Duration(w.bags)*spec.PerRow/time.Duration(w.helpers) + time.Duration(w.longest)*spec.PerCard
	} else {
		w.lay = (time.Duration(w.cards)*spec.PerCard + time.Duration(w.bags)*spec.PerRow) / time.Duration(w.helpers)
	}
	return w
}

// before says what is done before the day, and how long it takes one person.
func (w *work) before() string {
	parts := []string{fmt.Sprintf("printing %s (%s)", say.Count(w.printing.Sheets, "sheet"), say.Minutes(w.print))}
	if w.making > 0 {
		parts = append(parts, fmt.Sprintf("making the cards (%s)", say.Minutes(w.making)))
	}
	if w.cut > 0 {
		parts = append(parts, fmt.Sprintf("cutting %s (%s)", w.printing.cutWords(), say.Minutes(w.cut)))
	}
	if w.labels > 0 {
		parts = append(parts, fmt.Sprintf("sticking on %s (%s)", say.Count(w.labels, "label"), say.Minutes(w.stick)))
	}
	parts = append(parts, fmt.Sprintf("dealing %s into %s (%s)", say.Count(w.cards, "card"), say.Count(w.bags, "bag"), say.Minutes(w.deal)))
	all := w.print + w.making + w.cut + w.stick + w.deal
	words := fmt.Sprintf("%s: %s of work for one person", say.Capital(strings.Join(parts, ", ")), say.Minutes(all))
	if w.helpers > 1 {
		words += fmt.Sprintf(", about %s for %d", say.Minutes(all/time.Duration(w.helpers)), w.helpers)
	}
	return words + "."
}

// sayWork is how long the cards take on the day, and before it.
func (t *teller) sayWork() string {
	w, spec := t.work, t.p.Stunt.Laying
	how, along := "Laying", "in"
	if spec.Pass {
		how, along = "Passing", "along"
	}
	return fmt.Sprintf("%s %s %s %s takes about %s with %s, at %s a card and %s a row.", how, say.Count(w.cards, "card"), along, say.Count(w.bags, "row"),
		say.Minutes(w.lay), say.Count(w.helpers, "helper"), say.Seconds(spec.PerCard), say.Seconds(spec.PerRow)) + t.sayBefore()
}

// sayBefore is the work of one person before the day, as the tally has it.
func (t *teller) sayBefore() string {
	w := t.work
	if w.cards == 0 {
		return ""
	}
	parts := []string{fmt.Sprintf("%s to deal them into %s (%s a card, %s a bag)", say.Minutes(w.deal), say.Count(w.bags, "row bag"),
		say.Seconds(dealPerCard), say.Seconds(dealPerBag))}
	if w.labels > 0 {
		parts = append(parts, fmt.Sprintf("%s to stick on %s (%s each)", say.Minutes(w.stick), say.Count(w.labels, "label"), say.Seconds(stickPerLabel)))
	}
	if w.making > 0 {
		parts = append(parts, say.Minutes(w.making)+" to make the cards")
	}
	return fmt.Sprintf(" Before that one person takes about %s; printing and cutting are in tally.pdf. These speeds are assumed: time the first fifty.", say.List(parts))
}

// Stickers is how many labels are stuck on cards: one for every seat with a card, or with stock that carries its own
// words one for each card that black cannot be read on.
func Stickers(p *mosaic.Plan) (labels int) {
	var kit []int16
	for s := range p.Stands.Seats {
		kit = p.CardsOf(kit[:0], int32(s))
		switch p.Stunt.Print.Placards {
		case mosaic.FullColoured:
		case mosaic.OnStock:
			for _, c := range kit {
				if sides := p.Cards[c].Sides; p.Stunt.WhiteLabel(int(sides[0])) && p.Stunt.WhiteLabel(int(sides[1])) {
					labels++
				}
			}
		default:
			labels += min(len(kit), 1)
		}
	}
	return labels
}
