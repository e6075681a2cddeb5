package brief

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating/say"
)

// Laying is how cards get to the people, and which helper has which rows.
type Laying struct {
	How    string // "laying" or "passing"
	Steps  []string
	Stints []StintLine // none: no row gets a card
	Done   string      // what a helper ticks
	Speed  string
}

// StintLine is what one helper has.
type StintLine struct{ Helper, Rows, Bags, Cards, About string }

func (t *teller) laying() Laying {
	spec := t.Stunt.Laying
	out := Laying{How: LayWord(t.Plan), Steps: laySteps(t.Plan), Done: passOr(t.Plan, "set out", "laid")}
	list := shareOut(t.Plan, t.rows, t.work.helpers)
	for i := range list {
		s := &list[i]
		var parts []string
		for _, rows := range Stretches(s.rows, func(a, b *Row) bool { return a.Section == b.Section }) {
			name := rows[0].Name
			if len(rows) > 1 {
				name += " to " + rows[len(rows)-1].Name
			}
			parts = append(parts, strings.ReplaceAll(name, " ", say.Glue))
		}
		out.Stints = append(out.Stints, StintLine{strconv.Itoa(i + 1), strings.Join(parts, ", "),
			say.Thousands(len(s.rows)), say.Thousands(s.cards), say.Minutes(s.took)})
	}
	out.Speed = "At " + passOr(t.Plan, say.Seconds(spec.PerRow)+" a row to hand a bag in", say.Seconds(spec.PerCard)+
		" a card and "+say.Seconds(spec.PerRow)+" a row") + " (assumed: time the first rows)."
	if n := t.work.helpers - len(list); n > 0 {
		out.Speed += fmt.Sprintf(" %s to spare: at the stacks of spares.", say.Count(n, "helper"))
	}
	out.Speed += " Rows follow each other as they do in the bags' order: a helper who is missing is replaced by the " +
		"next who is done."
	return out
}

// laySteps say what a helper does, row by row (common practice, no source).
func laySteps(p *mosaic.Plan) []string {
	steps := []string{
		"Walk only on the steps and in the aisles, never on seats. Take no more bags than you can carry with a hand " +
			"free, and keep aisles clear: set no bag down on a step.",
		"Take your rows in the order below. At each row read the bag's label: the row, and at which end it begins, " +
			"LEFT or RIGHT as the camera sees the stands: as you have them when you stand before the front row and " +
			"look up at the seats. In the row, your back to the row behind, they are the other way round.",
	}
	if p.Stunt.Laying.Pass {
		return append(steps,
			"Before the doors: set the row's bag on the seat at that end, never in the aisle, its strip on top, and "+
				"leave the cards in it.",
			"When people sit and the caller says so: give the strip and the pile to whoever sits at that end. "+
				"Everybody takes the card whose label names their seat, with those that lie under it without a "+
				"label, and passes the rest on: it is the top one unless a seat before them is empty. Nobody stands "+
				"up.",
			"An empty seat's card goes to the end with the rest. At the other end no card is left over but those; "+
				"too few or too many means that somebody took a wrong one: the leader goes along the row with the "+
				"strip.",
			"Cards of wheelchair and companion places are handed over in person.",
			"The empty bag stays with the strip: the cards come back into it after the take.")
	}
	wind := "If a card slides, turn it a little, so that a corner lies against the seat's back or the row behind."
	if p.Stunt.Outdoors {
		wind = "Wind: lay cards as late as you can, tuck an edge between board and back, or put a strip of tape " +
			"over a corner that comes off by hand. If cards fly, stop and tell the crew."
	}
	return append(steps,
		"Take the pile out as it is. The top card is for the first seat at that end, the next one for the next seat, "+
			"and so on. Skip a place where the strip shows none.",
		"Lay each card flat in the middle of its seat: label up, its arrow to the row behind. Several cards for one "+
			"seat lie on each other, the one with the label on top.",
		wind,
		"Cards of wheelchair and companion places are handed over in person, or lie on the chair that stands there.",
		"After the last seat the bag is empty. If a card is missing or left over, go back along the row with the "+
			"strip and find where it is one seat off: never fill up from the end.",
		"Leave bag and strip under the first card, on the seat and never in the aisle: the leader checks with the "+
			"strip, and the cards come back into the bag after the take.")
}

// stint is what one helper has: rows in laying order, and how long they take.
type stint struct {
	rows  []*Row
	cards int
	took  time.Duration
}

// shareOut gives helpers rows that follow each other, so that the longest stint is as short as it can be.
func shareOut(p *mosaic.Plan, sections [][]Row, helpers int) []stint {
	var rows []*Row
	low, high := time.Duration(0), time.Duration(0)
	for _, section := range sections {
		for i := range section {
			if row := &section[i]; row.Placards > 0 {
				rows = append(rows, row)
				low, high = max(low, rowTime(p, row)), high+rowTime(p, row)
			}
		}
	}
	// As few as there can be if none is longer than most.
	within := func(most time.Duration) (out []stint) {
		for i, row := range rows {
			if i == 0 || out[len(out)-1].took+rowTime(p, row) > most {
				out = append(out, stint{})
			}
			s := &out[len(out)-1]
			s.rows, s.cards, s.took = append(s.rows, row), s.cards+row.All(), s.took+rowTime(p, row)
		}
		return out
	}
	more := sort.Search(int(high-low), func(n int) bool { return len(within(low+time.Duration(n))) <= helpers })
	return within(low + time.Duration(more))
}

func rowTime(p *mosaic.Plan, row *Row) time.Duration {
	spec := p.Stunt.Laying
	if spec.Pass {
		return spec.PerRow
	}
	return spec.PerRow + time.Duration(row.All())*spec.PerCard
}

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
