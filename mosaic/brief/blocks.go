package brief

import (
	"fmt"
	"math"
	"slices"

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
func blocks(p *mosaic.Plan) (list []Block) {
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		first := len(list)
		at := map[string]int{}
		for r := range sec.Rows {
			for s := sec.Rows[r].First; s < sec.Rows[r].Last; s++ {
				name := p.Blocks[s]
				i, ok := at[name]
				if !ok {
					i = len(list)
					at[name] = i
					list = append(list, Block{Name: name, Section: k, First: r, Columns: MostPlaces(sec)})
				}
				b := &list[i]
				b.Last = r
				b.Seats = append(b.Seats, int32(s))
				b.People += min(len(p.CardsOf(nil, int32(s))), 1)
			}
		}
		held := slices.DeleteFunc(list[first:], func(b Block) bool { return b.People == 0 })
		for i := range held {
			held[i].tell(p, sec)
		}
		list = list[:first+len(held)]
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
	b.Check = fmt.Sprintf("Two-minute check, twenty seconds a row (%d s for this block): hold the row's strip "+
		"beside the row. Look at both ends, then at every place where the colour changes, then count the cards. "+
		"Tick the row when it is right. A wrong card is changed from the spares; an empty seat stays empty and "+
		"nobody moves up, unless the crew says so.", 20*(b.Last-b.First+1))
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
	sin, cos := math.Sincos(p.Stands.Sections[b.Section].Facing)
	dx, dy := at[0]-m[0], at[1]-m[1]
	ahead := float64(dx*sin) - float64(dy*cos)
	right := float64(dx*cos) + float64(dy*sin) // of a camera before the section
	turn = math.Atan2(right, ahead)
	where := "straight ahead of this block"
	if degrees := int(math.Round(math.Abs(turn) * 180 / math.Pi)); degrees >= 3 {
		person, camera := "left", "right"
		if turn <= 0 {
			person, camera = camera, person
		}
		where = fmt.Sprintf("%d° to the %s of straight ahead when you sit here (to the %s as the camera sees it)",
			degrees, person, camera)
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
