package brief

import (
	"bufio"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"hash"
	"io"
	"math"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Code is in every footer: XXXX-YYYY. Sheets of the same first half may lie together on the stands: every seat has the
// same cards, sides and words, in the same order. The second half changes with whatever else a paper shows.
type Code string

const halfCode = 4

// codeOf makes both halves: of what seats show and get, and of everything else on paper, which is what the sheets are
// told, what they draw and how they lie on paper.
func codeOf(p *mosaic.Plan, paper *Paper) Code {
	seats, rest := newCanon(), newCanon()
	seats.seats(p)
	rest.drawn(p)
	if err := json.NewEncoder(rest.w).Encode(paper); err != nil {
		panic(err) // numbers, texts and lists of them always marshal
	}
	return Code(say.Code(seats.total(), halfCode) + "-" + say.Code(rest.total(), halfCode))
}

// Differs says how a printed plan's code differs from this one's, "" = it does not; lie: the printed sheets may lie on
// the stands, but something else on the paper has changed.
func (c Code) Differs(printed string) (how string, lie bool) {
	seats, rest, _ := strings.Cut(string(c), "-")
	oldSeats, oldRest, _ := strings.Cut(printed, "-")
	switch {
	case seats != oldSeats:
		return "seats show or get something else", false
	case rest != oldRest:
		return "every seat shows and gets the same, but something else on the paper has changed", true
	}
	return "", true
}

// canon writes values so that different ones cannot run together: numbers in
// eight bytes, texts and lists with their length before them.
type canon struct {
	w   *bufio.Writer
	sum hash.Hash
}

func newCanon() canon {
	sum := sha256.New()
	return canon{bufio.NewWriter(sum), sum}
}

func (c canon) number(values ...int64) {
	binary.Write(c.w, binary.LittleEndian, values) // a hash takes everything
}

func (c canon) text(texts ...string) {
	for _, s := range texts {
		c.number(int64(len(s)))
		io.WriteString(c.w, s)
	}
}

// micro writes a float in whole millionths, far finer than anybody measures.
func (c canon) micro(values ...float64) {
	for _, v := range values {
		c.number(int64(math.Round(v * 1e6)))
	}
}

func (c canon) total() uint64 {
	c.w.Flush()
	return binary.BigEndian.Uint64(c.sum.Sum(nil))
}

func truth(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// seats are the cards, and in laying order every seat with its name and what it does at each cue.
func (c canon) seats(p *mosaic.Plan) {
	width, height := p.CardSize()
	c.text("everyseat seats 1", string(p.Stunt.Card.Kind))
	c.number(int64(width), int64(height), int64(p.Stunt.Card.Held))
	letters := mosaic.ColourLetters(p.Stunt.Colours)
	for _, k := range p.Cards {
		c.text(k.ID)
		for _, side := range k.Sides {
			own := &p.Stunt.Colours[side]
			c.text(own.Name, own.RGB.Hex(), letters[side])
		}
	}
	c.number(int64(len(p.Cues)))
	for i := range p.Cues {
		c.text(p.Cues[i].Name, p.Cues[i].At)
	}
	for _, s := range p.Order {
		c.text(p.Stands.ID(int(s)), p.Stands.Seats[s].For)
		for cue := range p.Hands {
			a := ActOf(p, cue, s)
			c.number(int64(a.Card)<<32^int64(a.Side)<<16^int64(a.After), int64(a.Halves))
		}
	}
}

// drawn is what pictures, maps and labels on paper are drawn from, beside what the sheets are told.
func (c canon) drawn(p *mosaic.Plan) {
	c.text("everyseat paper 1")
	c.number(truth(p.Stunt.Card.ToMark))
	for i, m := range p.Marks {
		c.text(m.View.Name)
		c.micro(m.View.Position[:]...)
		if i > 0 {
			continue // of further marks the place alone is drawn
		}
		c.micro(m.View.Focal/float64(m.View.Width), float64(m.View.Width)/float64(m.View.Height))
		for _, row := range m.View.Rotation {
			c.micro(row[:]...)
		}
	}
	for s := range p.Stands.Seats {
		seat := &p.Stands.Seats[s]
		c.number(int64(seat.Use), int64(seat.Place))
		c.micro(seat.Position[:]...)
		c.text(p.Blocks[s])
	}
	c.room(p.Stunt)
	c.print(p)
}

func (c canon) room(s *mosaic.Stunt) {
	c.number(int64(len(s.Stands.Lanes)), int64(len(s.Room.Exits)), int64(len(s.Room.Obstacles)), truth(s.Walks))
	for _, l := range s.Stands.Lanes {
		c.text(l.Name)
		c.number(int64(l.Left), int64(l.Right), int64(l.Near), int64(l.Far))
	}
	for _, e := range s.Room.Exits {
		c.text(e.Name)
		c.number(int64(e.Across), int64(e.Away), int64(e.Width))
	}
	c.number(int64(len(s.Room.Spots)))
	for _, o := range s.Room.Spots {
		c.text(o.Name)
		c.number(int64(o.Left), int64(o.Right), int64(o.Near), int64(o.Far))
	}
	for _, o := range s.Room.Obstacles {
		c.text(o.Name)
		c.number(int64(o.Across), int64(o.Away), int64(o.Width), int64(o.Depth))
	}
}

// print is how pieces lie on their sheets.
func (c canon) print(p *mosaic.Plan) {
	print := &p.Stunt.Print
	labels := print.Placards != mosaic.FullColoured
	stickers := labels && print.Grid != nil
	c.text(print.Paper, string(print.Placards))
	c.number(truth(print.ShortEdge), int64(print.Margin), int64(p.SheetsPerCard()), truth(print.Bands),
		truth(stickers))
	switch {
	case stickers:
		c.grid(print.Grid)
	case labels:
		c.number(int64(print.PerSheet), truth(print.WholePile))
	}
	if print.Bands && print.BandGrid != nil {
		c.grid(print.BandGrid)
	}
}

func (c canon) grid(g *mosaic.LabelGrid) {
	c.number(int64(g.Columns), int64(g.Rows))
	for _, l := range []seating.Length{g.Width, g.Height, g.Left, g.Top, g.Across, g.Down} {
		c.number(int64(l))
	}
}
