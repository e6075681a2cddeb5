package mosaic

import (
	"bufio"
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"io"
	"math"
)

// codeSigns are capitals and figures that nobody takes for each other: without 0 O 1 I L.
const codeSigns = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"

const codeLength = 8

// code is the eight characters in every footer. They come from all that a sheet
// shows, so that a sheet of another plan is told from this one's.
func code(p *Plan) string {
	sum := sha256.New()
	c := canon{bufio.NewWriter(sum), sum}
	c.stunt(p.Stunt)
	c.view(p)
	c.seats(p)
	c.cues(p)
	c.ways(p.Stunt)
	n := c.total()
	out := make([]byte, codeLength)
	for i := range out {
		out[i] = codeSigns[n%uint64(len(codeSigns))]
		n /= uint64(len(codeSigns))
	}
	return string(out)
}

// canon writes values so that different ones cannot run together: numbers in
// eight bytes, texts and lists with their length before them.
type canon struct {
	w   *bufio.Writer
	sum hash.Hash
}

func (c canon) number(values ...int64) {
	var b [8]byte
	for _, v := range values {
		binary.LittleEndian.PutUint64(b[:], uint64(v))
		c.w.Write(b[:]) // a hash takes everything
	}
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

func (c canon) stunt(s *Stunt) {
	c.text("everyseat plan 1", s.Title, s.Date, s.Contact)
	c.text(s.Print.Paper, s.FlashingRisk)
	c.number(int64(s.Print.PerSheet))
	c.placards(&s.Print)
	c.number(int64(len(s.Colours)))
	for _, k := range s.Colours {
		c.text(k.Name, k.RGB.Hex(), k.DarkestInk)
	}
	c.number(int64(s.Card.Width), int64(s.Card.Height), int64(s.Card.Held), truth(s.Card.ToMark))
	c.text(string(s.Card.Kind))
	c.number(truth(s.Laying.Pass), int64(s.Laying.Direction), truth(s.Laying.Serpentine), truth(s.Laying.FromBack))
}

func (c canon) placards(p *Print) {
	c.text(string(p.Placards))
	c.number(truth(p.WholePile), truth(p.ShortEdge), int64(p.Margin), truth(p.Tile), truth(p.Grid != nil))
	if g := p.Grid; g != nil {
		c.number(int64(g.Columns), int64(g.Rows))
		c.number(int64(g.Width), int64(g.Height), int64(g.Left), int64(g.Top), int64(g.Across), int64(g.Down))
	}
}

func (c canon) view(p *Plan) {
	c.number(int64(p.Scene.Card.Width), int64(p.Scene.Card.Height))
	c.number(int64(len(p.Marks)))
	for _, m := range p.Marks {
		c.text(m.View.Name)
		c.micro(m.View.Position[:]...)
		c.micro(m.View.Focal)
		for _, row := range m.View.Rotation {
			c.micro(row[:]...)
		}
		c.number(int64(m.View.Width), int64(m.View.Height))
	}
}

func (c canon) seats(p *Plan) {
	c.number(int64(len(p.Stands.Sections)))
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		c.text(sec.Name)
		c.number(int64(len(sec.Rows)))
		for _, row := range sec.Rows {
			c.text(row.Name)
			c.number(int64(row.First), int64(row.Last), int64(row.Places))
		}
	}
	c.number(int64(len(p.Stands.Seats)))
	for s := range p.Stands.Seats {
		seat := &p.Stands.Seats[s]
		c.number(int64(seat.Number)<<8|int64(seat.Use), int64(seat.Place))
		c.text(seat.For, p.Blocks[s])
	}
	for _, s := range p.Order {
		c.number(int64(s))
	}
}

func (c canon) cues(p *Plan) {
	c.number(int64(len(p.Cards)))
	for _, k := range p.Cards {
		c.text(k.ID)
		c.number(int64(k.Sides[0]), int64(k.Sides[1]))
	}
	c.number(int64(len(p.Cues)))
	for i := range p.Cues {
		c.text(p.Cues[i].Name, p.Cues[i].At)
		c.moments(&p.Cues[i])
		for s, k := range p.Cues[i].Colours {
			h := p.Hands[i][s]
			c.number(int64(k)<<32 ^ int64(h.Card)<<8 ^ int64(h.Side))
		}
	}
}

// ways are the exits and the camera's walk.
func (c canon) ways(s *Stunt) {
	for _, e := range s.Room.Exits {
		c.text(e.Name)
		c.number(int64(e.Across), int64(e.Away), int64(e.Width))
	}
	if s.Walks {
		c.text("walks")
	}
}

func (c canon) moments(cue *CuePlan) {
	c.number(int64(cue.Times.Up), int64(cue.Times.Full), int64(cue.Times.Down), int64(len(cue.Delay)))
	for _, d := range cue.Delay {
		c.number(int64(d))
	}
}

func truth(b bool) int64 {
	if b {
		return 1
	}
	return 0
}
