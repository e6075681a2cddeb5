// Package outlook foretells what may become of a plan: who does not come, what goes wrong, how far the camera may
// stray, what light and a phone do to it, and what would help. Start with Of.
package outlook

import (
	"context"
	"slices"
	"sync"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/marks"
	"everyseat/mosaic/stock"
	"everyseat/seating/together"
)

// Part is a part of an outlook; parts are joined with |. Each takes looks of its own.
type Part uint

// The parts.
const (
	Fewer    Part = 1 << iota // who stays away where few come, and how texts read then
	Unwanted                  // what texts read as when one section goes wrong
	Stray                     // how far the camera may stray
	Rows                      // which rows the camera does not see
	Light                     // what too much light loses
	Ways                      // other ways of making the cards
	Marks                     // marks that cannot work
	Phone                     // how texts read on a phone
	Day                       // what may go wrong with them on the day
	Falls                     // which seats matter most to them
	Sizes                     // how large they are
	Advice                    // what would make them read
	All      Part = 1<<iota - 1
)

// Outlook is what may become of a plan. Only the parts of Has are worked out.
type Outlook struct {
	Has      Part
	Cues     []Cue
	Trim     []uint8  // by seat, see mosaic.Plan.Trim
	Few      *Few     // with just the people who come
	Stray    *Reaches // nil where it is not known: of more than a few thousand seats
	Hidden   []string // sentences: which rows are hidden, and what would show them
	Vanish   []string // rows that show now and would not with the card one step lower
	Light    []LightPair
	Bills    []*stock.Bill // the ways of making cards that can show the plan, its own first
	Cheapest int           // of Bills, work included
	Marks    []marks.Caution
	Advice   []advice.Advised
}

// Cue is the outlook of one cue; all of it is empty where the cue has no text.
type Cue struct {
	Phone    []legibility.Shrunk  // by mark: its film shrunk to legibility.PhoneWidth pixels across
	Pixels   []float64            // by mark: of the film, that the smallest letter has, across or up
	Day      []legibility.Outcome // from the mark from which it reads worst; Outcome.Worst is a seat of Stands
	Falls    []legibility.Fall    // by seat, of the score from that mark; nil = more seats than legibility.MostFalls
	Matter   []int32              // the seats that do harm, the most first
	Trimmed  []Trimmed            // by mosaic.TrimShares
	Planned  string               // what it reads as without any fault
	Unwanted []Unwanting
	Sizes    *TextSizes // nil = nothing of it is seen
}

// Of works out the parts of a plan's outlook that are asked for, on all processors at once; progress is told what is
// begun, by one of them at a time. It stops when ctx ends; the error is ctx's.
func Of(ctx context.Context, p *mosaic.Plan, parts Part, progress func(doing string)) (*Outlook, error) {
	o := &Outlook{Has: parts, Cues: make([]Cue, len(p.Cues))}
	if parts&Fewer != 0 {
		o.Trim = p.Trim() // texts are read by it
	}
	type step struct {
		of    Part
		doing string
		work  func()
	}
	steps := []step{
		{Fewer | Unwanted | Phone | Day | Falls | Sizes, "reading what may become of the texts …", func() {
			for i := range p.Cues {
				if p.Cues[i].Text != nil && ctx.Err() == nil {
					o.Cues[i] = newText(p, i).outlook(parts, o.Trim)
				}
			}
		}},
		{Fewer, "reading it with just those who come …", func() { o.Few = FewOf(ctx, p) }},
		{Stray, "looking how far the camera may stray …", func() { o.Stray = stray(p) }},
		{Rows, "", func() { o.Hidden, o.Vanish = hiddenRows(p), vanishLower(p) }},
		{Light, "", func() { o.Light = light(p) }},
		{Ways, "", func() { o.Bills, o.Cheapest = ways(p) }},
		{Marks, "", func() { o.Marks = marks.Cautions(p) }},
		{Advice, "measuring what would help …", func() { o.Advice = advice.Measure(ctx, p) }},
	}
	steps = slices.DeleteFunc(steps, func(s step) bool { return s.of&parts == 0 })
	var telling sync.Mutex
	begins := func(doing string) bool {
		telling.Lock()
		defer telling.Unlock()
		if ctx.Err() == nil && doing != "" {
			progress(doing)
		}
		return ctx.Err() == nil
	}
	together.Each(len(steps), func(i int) {
		if begins(steps[i].doing) {
			steps[i].work()
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return o, nil
}

// ways are what the ways of making cards take that can show the plan: its own first, then the others.
func ways(p *mosaic.Plan) (bills []*stock.Bill, cheapest int) {
	if p.Bill == nil {
		return nil, 0
	}
	bills = []*stock.Bill{p.Bill}
	for _, making := range []stock.Making{stock.Sheet, stock.Bonded, stock.Printed} {
		if making == p.Bill.Making {
			continue
		}
		if b := p.BillAs(making); b != nil {
			bills = append(bills, b)
		}
	}
	return bills, stock.Cheapest(bills...)
}
