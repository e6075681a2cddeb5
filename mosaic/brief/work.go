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
	w := &work{printing: run, helpers: max(p.Stunt.Laying.Helpers, 1), labels: Stickers(p)}
	for _, rows := range sections {
		for i := range rows {
			n := rows[i].All()
			w.cards += n
			w.longest = max(w.longest, n)
			w.bags += min(n, 1)
		}
	}
	if b := p.Bill; b != nil {
		w.making = time.Duration(b.Minutes) * time.Minute
	}
	cards, bags := time.Duration(w.cards), time.Duration(w.bags)
	w.print = time.Duration(run.Pages)*time.Minute/printPages + time.Duration(run.Jobs)*loadJob
	w.cut = time.Duration(run.Cuts)*cutPerPiece + time.Duration(run.Piles)*cutPerPile
	w.stick = time.Duration(w.labels) * stickPerLabel
	w.deal = cards*dealPerCard + bags*dealPerBag
	if spec := p.Stunt.Laying; spec.Pass {
		// Stacks are handed to the rows one after the other; the rows pass them on at the same time.
		w.lay = bags*spec.PerRow/time.Duration(w.helpers) + time.Duration(w.longest)*spec.PerCard
	} else {
		w.lay = (cards*spec.PerCard + bags*spec.PerRow) / time.Duration(w.helpers)
	}
	return w
}

// before says what is done before the day, and how long it takes one person.
func (w *work) before() string {
	var parts []string
	add := func(took time.Duration, what string) {
		parts = append(parts, fmt.Sprintf("%s (%s)", what, say.Minutes(took)))
	}
	add(w.print, "printing "+say.Count(w.printing.Sheets, "sheet"))
	if w.making > 0 {
		add(w.making, "making the cards")
	}
	if w.cut > 0 {
		add(w.cut, "cutting "+w.printing.cutWords())
	}
	if w.labels > 0 {
		add(w.stick, "sticking on "+say.Count(w.labels, "label"))
	}
	add(w.deal, "dealing "+say.Count(w.cards, "card")+" into "+say.Count(w.bags, "bag"))
	all := w.print + w.making + w.cut + w.stick + w.deal
	words := fmt.Sprintf("%s: %s of work for one person", say.Capital(strings.Join(parts, ", ")), say.Minutes(all))
	if w.helpers > 1 {
		words += fmt.Sprintf(", about %s for %d", say.Minutes(all/time.Duration(w.helpers)), w.helpers)
	}
	return words + "."
}

// sayWork is how long the cards take on the day, and before it one person, as the tally has it.
func (t *teller) sayWork() string {
	w, spec := t.work, t.Stunt.Laying
	out := fmt.Sprintf("%s %s %s %s takes about %s with %s, at %s a card and %s a row.", say.Capital(LayWord(t.Plan)),
		say.Count(w.cards, "card"), passOr(t.Plan, "along", "in"), say.Count(w.bags, "row"), say.Minutes(w.lay),
		say.Count(w.helpers, "helper"), say.Seconds(spec.PerCard), say.Seconds(spec.PerRow))
	if w.cards == 0 {
		return out
	}
	parts := []string{fmt.Sprintf("%s to deal them into %s (%s a card, %s a bag)", say.Minutes(w.deal),
		say.Count(w.bags, "row bag"), say.Seconds(dealPerCard), say.Seconds(dealPerBag))}
	if w.labels > 0 {
		parts = append(parts, fmt.Sprintf("%s to stick on %s (%s each)", say.Minutes(w.stick),
			say.Count(w.labels, "label"), say.Seconds(stickPerLabel)))
	}
	if w.making > 0 {
		parts = append(parts, say.Minutes(w.making)+" to make the cards")
	}
	return out + fmt.Sprintf(" Before that one person takes about %s; printing and cutting are in tally.pdf. These "+
		"speeds are assumed: time the first fifty.", say.List(parts))
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
