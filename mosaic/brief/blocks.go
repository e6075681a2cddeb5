package brief

import (
	"fmt"
	"math"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Block is one block: rows of one section.
type Block struct {
	Name        string
	Section     int
	First, Last int     // rows, last included
	Columns     int     // half places: a row that is centred may lie half a place off
	Seats       []int32 `json:"-"`
	People      int

	Title string
	Holds string  // how many people with cards
	Way   string  // how far the camera is and where; "" = there is none
	Turn  float64 `json:"-"` // of the way to it from straight ahead, radians, positive to the right as the camera sees it
	Check string  // before the take
}

// blocks lists the blocks in which anybody holds a card, by section and row.
func blocks(p *mosaic.Plan) []Block {
	var list []Block
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		if len(sec.Rows) == 0 {
			continue
		}
		var here []Block
		at := map[string]int{}
		for r := range sec.Rows {
			for s := sec.Rows[r].First; s < sec.Rows[r].Last; s++ {
				name := p.Blocks[s]
				i, ok := at[name]
				if !ok {
					i = len(here)
					at[name] = i
					here = append(here, Block{Name: name, Section: k, First: r})
				}
				b := &here[i]
				b.Last = r
				b.Seats = append(b.Seats, int32(s))
				if len(p.CardsOf(nil, int32(s))) > 0 {
					b.People++
				}
			}
		}
		for _, b := range here {
			if b.People > 0 {
				b.Columns = MostPlaces(sec)
				b.tell(p, sec)
				list = append(list, b)
			}
		}
	}
	return list
}

// tell says what stands on a leader's sheet.
func (b *Block) tell(p *mosaic.Plan, sec *seating.Section) {
	rows := "row " + sec.Rows[b.First].Name
	if b.Last > b.First {
		rows = "rows " + sec.Rows[b.First].Name + " to " + sec.Rows[b.Last].Name
	}
	b.Title = "Section " + sec.Name + ", " + rows
	if b.Name != "" {
		b.Title = "Block " + b.Name + ": section " + sec.Name + ", " + rows
	}
	b.Holds = say.Thousands(b.People) + " people with cards"
	if b.People == 1 {
		b.Holds = "1 person with a card"
	}
	b.Way, b.Turn = b.wayToMark(p)
	b.Check = fmt.Sprintf("Two-minute check, twenty seconds a row (%d s for this block): hold the row's strip beside "+
		"the row. Look at both ends, then at every place where the colour changes, then count the cards. Tick the row when it "+
		"is right. A wrong card is changed from the spares; an empty seat stays empty and nobody moves up, unless the crew "+
		"says so.", 20*(b.Last-b.First+1))
}

// wayToMark says how far the camera is from the block's middle and how far round from straight ahead;
// turn is in radians, positive to the right as the camera sees it.
func (b *Block) wayToMark(p *mosaic.Plan) (words string, turn float64) {
	if len(p.Marks) == 0 {
		return "", 0
	}
	at := p.Marks[0].View.Position
	var m seating.Point
	for _, s := range b.Seats {
		q := p.Stands.Seats[s].Position
		for i := range m {
			m[i] += q[i] / float64(len(b.Seats))
		}
	}
	facing := p.Stands.Sections[b.Section].Facing
	sin, cos := math.Sincos(facing)
	dx, dy := at[0]-m[0], at[1]-m[1]
	ahead, aside := float64(dx*sin)-float64(dy*cos), float64(dx*cos)+float64(dy*sin) // aside grows to the right of a camera before the section
	turn = math.Atan2(aside, ahead)
	degrees := int(math.Round(math.Abs(turn) * 180 / math.Pi))
	where := "straight ahead of this block"
	switch {
	case degrees < 3:
	case turn > 0:
		where = fmt.Sprintf("%d° to the left of straight ahead when you sit here (to the right as the camera sees it)",
			degrees)
	default:
		where = fmt.Sprintf("%d° to the right of straight ahead when you sit here (to the left as the camera sees it)",
			degrees)
	}
	hold := "Cards face straight ahead."
	if p.Stunt.Card.ToMark {
		hold = "Everybody turns the card to the camera."
	}
	return fmt.Sprintf("The camera is %s away, its lens %s above the floor, %s. %s %s", away(math.Hypot(dx, dy)),
		away(at[2]), where, hold, HeldWords(p)), turn
}

// CueLine is what a cue is called, when it comes and how it comes up.
func CueLine(p *mosaic.Plan, cue int) string {
	words := say.Capital(CueName(p, cue))
	if at := p.Cues[cue].At; at != "" {
		words += " at " + at
	}
	if how := Wave(p, cue); how != "" {
		words += ", " + how
	}
	return words
}
