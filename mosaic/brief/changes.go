package brief

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating/say"
)

// Printed is what an earlier plan gives its seats, as its paper has it.
type Printed struct {
	Code  string
	Seats map[string]Given // by name
}

// Given is what one seat gets: its cards by name, and by cue the colour that they show, "" = none.
type Given struct {
	Row   string // as it is called on paper
	Cards []string
	Shows []string
}

func (g *Given) cards() string {
	if len(g.Cards) == 0 {
		return "nothing"
	}
	return strings.Join(g.Cards, " + ")
}

// GivenOf is what a plan gives one of its seats.
func GivenOf(p *mosaic.Plan, seat int32) Given {
	s := &p.Stands.Seats[seat]
	sec := &p.Stands.Sections[s.Section]
	g := Given{Row: sec.Name + "-" + sec.Rows[s.Row].Name, Shows: make([]string, len(p.Hands))}
	for _, c := range p.CardsOf(nil, seat) {
		g.Cards = append(g.Cards, p.Cards[c].ID)
	}
	for cue, hands := range p.Hands {
		if h := hands[seat]; h.Card >= 0 {
			g.Shows[cue] = p.Stunt.Colours[p.Cards[h.Card].Sides[h.Side]].Name
		}
	}
	return g
}

// Changes is what seats get otherwise than on an earlier plan's paper.
type Changes struct {
	From, To string // codes
	Said     string // how many seats, in which rows
	Rows     []ChangedRow
	Cards    []CardChange
	Anew     []string // sheets to print anew, with their pages
}

// ChangedRow is a row in which seats change; those of a row that the plan has no more come last.
type ChangedRow struct {
	Name, Depth string
	Swaps       []Swap
}

// Swap is what changes at one seat.
type Swap struct {
	Seat, Out, In, From string
	Was, Now            Given
}

// CardChange is how many cards of a kind come into people's hands and out of them.
type CardChange struct{ Card, In, Out, More string }

// ChangesOf holds what a plan gives its seats against what an earlier one gave.
func ChangesOf(p *mosaic.Plan, now Code, printed *Printed) *Changes {
	c := &Changes{From: printed.Code, To: string(now)}
	count := map[string][2]int{} // of cards in and out
	add := func(row ChangedRow, sw Swap, k int) {
		if n := len(c.Rows); n == 0 || c.Rows[n-1].Name != row.Name {
			c.Rows = append(c.Rows, row)
		}
		swaps := &c.Rows[len(c.Rows)-1].Swaps
		*swaps = append(*swaps, sw)
		for way, cards := range [][]string{sw.Now.Cards, sw.Was.Cards} {
			for _, card := range cards {
				n := count[card]
				n[way] += k
				count[card] = n
			}
		}
	}
	gone := maps.Clone(printed.Seats)
	for _, seats := range Stretches(p.Order, sameRow(p)) {
		at := &p.Stands.Seats[seats[0]]
		row := Row{Section: int(at.Section), Row: int(at.Row)}
		for _, seat := range seats {
			name, is := p.Stands.ID(int(seat)), GivenOf(p, seat)
			was := printed.Seats[name]
			delete(gone, name)
			same := slices.Equal(was.Cards, is.Cards)
			if same && slices.Equal(was.Shows, is.Shows) {
				continue
			}
			sw := Swap{Seat: name, Out: was.cards(), In: is.cards(), Was: was, Now: is}
			k := 1
			switch {
			case same:
				sw.Out, sw.In, k = "–", "the same, with its new label", 0
			case len(is.Cards) > 0:
				sw.From = "spares of " + p.Stands.Sections[row.Section].Name
			}
			add(ChangedRow{Name: is.Row, Depth: row.Depth(p)}, sw, k)
		}
	}
	names := slices.SortedFunc(maps.Keys(gone), func(a, b string) int {
		return strings.Compare(gone[a].Row+"\x00"+a, gone[b].Row+"\x00"+b)
	})
	for _, name := range names {
		if was := gone[name]; len(was.Cards) > 0 {
			add(ChangedRow{Name: was.Row, Depth: "Seats that this plan does not have any more."},
				Swap{Seat: name, Out: was.cards(), In: "nothing", Was: was}, 1)
		}
	}
	for _, card := range slices.Sorted(maps.Keys(count)) {
		if n := count[card]; n != [2]int{} {
			more := ""
			if d := n[0] - n[1]; d > 0 {
				more = say.Thousands(d)
			}
			c.Cards = append(c.Cards, CardChange{card, say.Thousands(n[0]), say.Thousands(n[1]), more})
		}
	}
	c.Said = c.said(len(p.Order))
	return c
}

// said counts what changes.
func (c *Changes) said(all int) string {
	seats := 0
	rows := make([]string, len(c.Rows))
	for i, r := range c.Rows {
		seats += len(r.Swaps)
		rows[i] = r.Name
	}
	if seats == 0 {
		return fmt.Sprintf("Since plan %s every seat gets and shows the same.", c.From)
	}
	return fmt.Sprintf("Since plan %s other cards or labels are for %s of %s, in %s: %s.", c.From,
		say.Thousands(seats),
		say.Count(all, "seat"), say.Count(len(c.Rows), "row"), say.FirstFew(rows))
}

// PagesAnew says which pages of a sheet are to be printed anew, of so many; "" = none.
func PagesAnew(sheet string, pages []int, of int) string {
	switch {
	case len(pages) == 0:
		return ""
	case len(pages) == of:
		return sheet + ": all of it"
	}
	var runs []string
	for _, run := range Stretches(pages, func(a, b int) bool { return b == a+1 }) {
		said := strconv.Itoa(run[0])
		if n := len(run); n > 1 {
			said += "–" + strconv.Itoa(run[n-1])
		}
		runs = append(runs, said)
	}
	word := "pages"
	if len(pages) == 1 {
		word = "page"
	}
	return fmt.Sprintf("%s: %s %s of %d", sheet, word, say.List(runs), of)
}
