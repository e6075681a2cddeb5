package sheets

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Trial writes trial.pdf, the hour of the week before: twelve people in two rows of six at the real mark,
// with a card of every colour, an empty seat and two ways of holding, and what to look at
// afterwards. Errors are *seating.Fault.
func Trial(w io.Writer, p *mosaic.Plan) error {
	if len(p.Marks) == 0 || p.Marks[0].View == nil {
		return errNoCamera
	}
	f, err := uprightFlow(p, "Trial with twelve people")
	if err != nil {
		return err
	}
	f.title("Trial: twelve people, the week before", occasion(p))
	t := trial{flow: f}
	if !t.choose() {
		f.paragraph("No section has two rows one behind the other with six people with cards each: sit twelve people as near to that as the stands allow, in two rows.", 12)
	} else {
		t.why()
		t.seats()
	}
	t.shots()
	t.look()
	return f.finish(w)
}

// trialRow is six people of a row, and in the back row an empty seat among them.
const (
	trialPeople = 6
	trialEmpty  = 3 // place in the back row that stays empty
)

// trial is the two rows.
type trial struct {
	*flow
	front, back []int32 // six seats; seven, of which one stays empty
}

// choose takes two rows in the middle of the section that is seen largest: the back row's seven
// neighbours lie round the front row's six.
func (t *trial) choose() bool {
	best := math.Inf(-1)
	st := t.plan.Stands
	for k := range st.Sections {
		sec := &st.Sections[k]
		for r := 0; r+1 < len(sec.Rows); r++ {
			front, back := t.middle(&sec.Rows[r], trialPeople), t.middle(&sec.Rows[r+1], trialPeople+1)
			if front == nil || back == nil {
				continue
			}
			score := t.worth(k, r, front)
			if score > best {
				best, t.front, t.back = score, front, back
			}
		}
	}
	return t.front != nil
}

// middle is so many neighbours with cards nearest to the row's middle, or nil.
func (t *trial) middle(row *seating.Row, n int) []int32 {
	best, off := -1, math.MaxInt
	seats := t.plan.Stands.Seats
	for from := row.First; from+n <= row.Last; from++ {
		whole := int(seats[from+n-1].Place-seats[from].Place) == n-1
		for s := from; s < from+n && whole; s++ {
			whole = seats[s].Use == seating.UseCard && seats[s].For == "" && !t.plan.Marks[0].Sight.Behind[s]
		}
		if d := 2*int(seats[from].Place) + n - row.Places; whole && max(d, -d) < off {
			best, off = from, max(d, -d)
		}
	}
	if best < 0 {
		return nil
	}
	out := make([]int32, n)
	for i := range out {
		out[i] = int32(best + i)
	}
	return out
}

// worth is higher in the middle rows of stands, in front of the lens.
func (t *trial) worth(section, row int, front []int32) float64 {
	st := t.plan.Stands
	sec := &st.Sections[section]
	away := math.Abs(float64(2*row+2-len(sec.Rows))) / float64(len(sec.Rows))
	v := t.plan.Marks[0].View
	px, depth := v.Project(st.Seats[front[trialPeople/2]].Position)
	aside := 2.0
	if depth > 0 {
		aside = math.Abs(px[0]-v.Center[0]) / float64(v.Width)
	}
	score := -away - 2*aside
	if sec.Spec.Kind == seating.Floor {
		score -= 10
	}
	return math.Round(score * 1000)
}

func (t *trial) why() {
	p := t.plan
	at := p.Marks[0].View.Position
	hour := "at the hour of the take (not in the stunt file yet)"
	if p.Stunt.Day.Take != "" {
		hour = "at the hour of the take, " + p.Stunt.Day.Take
	}
	t.paragraph("Until this is filmed, colours and lens are guesses. It takes half an hour, twelve people, "+plural(len(p.Stunt.Colours), "colour")+" of card and a tape.", sizeBody)
	t.y += 1
	t.pair("Where", fmt.Sprintf("Lens %s above the floor, %s before the front row, on the tape cross of camera.pdf; the same lamps on, the same daylight.", span(at[2]), span(at[1])), sizeBody)
	t.pair("When", "A week before, "+hour+".", sizeBody)
	t.pair("Bring", "The camera that will film, tripod, tape; twelve cards of the real stock: "+t.cards()+", and two more of each; nothing need be printed on them.", sizeBody)
}

// cards counts the trial's cards by colour.
func (t *trial) cards() string {
	counts := make([]int, len(t.plan.Stunt.Colours))
	for row := range 2 {
		for person := range trialPeople {
			counts[t.cardAt(row, person)]++
		}
	}
	var parts []string
	for c, n := range counts {
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, t.plan.Stunt.Colours[c].Name))
		}
	}
	return strings.Join(parts, ", ")
}

// cardAt is the colour that a person of the trial holds: the palette in turn, so that twelve people
// show twelve colours; where the back row would repeat the front one, it goes on by one.
func (t *trial) cardAt(row, person int) int {
	n := len(t.plan.Stunt.Colours)
	at := person + row*trialPeople
	if row > 0 && trialPeople%n == 0 {
		at++
	}
	return at % n
}

// seats draws both rows as the camera sees them and names the seats.
func (t *trial) seats() {
	t.heading("Who sits where, as the camera sees it")
	if n := len(t.plan.Stunt.Colours); n > 2*trialPeople {
		t.paragraph(fmt.Sprintf("There are %d colours and twelve people: film again with the colours that are left.", n), sizeBody)
	}
	const high, label = 21.0, 26.0
	cellWidth := min((t.width()-label)/(trialPeople+1), 22)
	t.need(2*high + 22)
	t.y += 3
	for i, seats := range [][]int32{t.back, t.front} {
		x := t.left + label
		if i == 1 {
			x += cellWidth / 2
		}
		name := "back row"
		if i == 1 {
			name = "front row"
		}
		p := t.pen()
		first := &t.plan.Stands.Seats[seats[0]]
		sec := &t.plan.Stands.Sections[first.Section]
		p.text(t.left, t.y+high/2, 10, bold, name)
		p.text(t.left, t.y+high/2+lineHeight(9), 9, regular, shortenText("row "+sec.Name+"-"+sec.Rows[first.Row].Name, 9, regular, label-2))
		n := 0
		for k, s := range seats {
			empty := i == 0 && k == trialEmpty
			t.seat(x+float64(k)*cellWidth, t.y, cellWidth, high, s, empty, 1-i, n)
			if !empty {
				n++
			}
		}
		t.y += high + 1.5
	}
	p := t.pen()
	t.y += 3
	p.text(t.left+label, t.y, 9, bold, "LEFT as the camera sees it")
	right := t.left + label + cellWidth*(trialPeople+1)
	p.textRight(right, t.y, 9, bold, "RIGHT as the camera sees it")
	t.y += lineHeight(8.5)
	p.text(t.left+label, t.y, 8.5, regular, "right hand of whoever sits there")
	p.textRight(right, t.y, 8.5, regular, "left hand of whoever sits there")
	t.y += 3
	t.paragraph("On film each of these cards will be about "+t.pixels()+" pixels wide and high. If yours are much smaller, the lens is too wide or the mark too far.", sizeBody)
}

// seat is one place of the drawing.
func (t *trial) seat(x, y, w, h float64, seat int32, empty bool, row, person int) {
	p := t.pen()
	p.lineColour(black)
	p.lineWidth(0.3)
	id := t.plan.Stands.ID(int(seat))
	if empty {
		p.dashed(1.5, 1)
		p.box(x+0.6, y+0.6, w-1.2, h-1.2)
		p.solid()
		p.textMiddle(x+w/2, y+h/2-1, 9, bold, "EMPTY")
	} else {
		c := t.cardAt(row, person)
		t.patch(x+0.6, y+0.6, w-1.2, h-9.5, c)
		p.box(x+0.6, y+0.6, w-1.2, h-1.2)
		name := t.plan.Stunt.Colours[c].Name
		size := sizeFor(name, regular, w-2, 8)
		if size < sizeLeast {
			size, name = sizeLeast, shortenText(name, sizeLeast, regular, w-2)
		}
		p.textMiddle(x+w/2, y+h-5.2, size, regular, name)
	}
	size := sizeFor(id, bold, w-2, 8)
	p.textMiddle(x+w/2, y+h-1.8, max(size, sizeLeast), bold, shortenText(id, max(size, sizeLeast), bold, w-1.4))
}

// pixels is how large the front row's cards are in the plan's picture.
func (t *trial) pixels() string {
	var wide, high float64
	for _, s := range t.front {
		c := t.plan.Marks[0].Sight.Corners[s]
		wide += (c[1][0] - c[0][0] + c[2][0] - c[3][0]) / 2 / trialPeople
		high += (c[3][1] - c[0][1] + c[2][1] - c[1][1]) / 2 / trialPeople
	}
	return fmt.Sprintf("%.0f × %.0f", math.Abs(wide), math.Abs(high))
}

// otherHold is the second way of holding: one step higher, or lower where there is no higher one.
func otherHold(h camera.Held) camera.Held {
	if h >= camera.Overhead {
		return camera.Eyes
	}
	return h + 1
}

// shots is the list of what to film.
func (t *trial) shots() {
	t.heading("What to film, ten seconds each")
	p := t.plan
	held := p.Stunt.Card.Held
	if p.Scene != nil {
		held = p.Scene.Card.Held
	}
	other := otherHold(held)
	var rows [][]cell
	for i, s := range [][2]string{
		{"Everybody resting, cards on the laps.", "faces and clothes: what shows between the cards"},
		{"Everybody holds the card up as planned, " + held.Words() + ".", "exposure, focus and white balance locked here"},
		{"The same, but each card held another way, " + other.Words() + ".", "which rows show more; which way people keep up"},
		{"As planned again, but everybody in the back row changes to the card of the neighbour on the camera's left.", "two colours that look alike side by side"},
		{"READY, UP, HOLD, DOWN at the calls, twice.", "how long until the last card is up: ____ s"},
		{"Front row with hats or hoods, if such will be worn.", "what they hide of the back row"},
		{"As planned from two steps to the LEFT and to the RIGHT of the cross.", "how far the camera may stray"},
	} {
		rows = append(rows, []cell{{text: strconv.Itoa(i + 1), bold: true}, {text: s[0]}, {text: s[1]}, {tick: true}})
	}
	t.table([]column{{head: "Shot"}, {head: "What", share: 1.4}, {head: "For", share: 1}, {head: "Done"}}, rows, 9.5)
}

// look is what to read off the film, on a large screen.
func (t *trial) look() {
	t.heading("What to read off the film, full size")
	var names []string
	for _, c := range t.plan.Stunt.Colours {
		names = append(names, c.Name)
	}
	for _, s := range []string{
		"Each colour is told from every other, in colour and with the picture turned to grey: " + strings.Join(names, ", ") + ". The lightest is not burnt out, the darkest is not black.",
		"The empty seat is seen as a gap and not as a dark card: ______________________",
		"Cards are as many pixels wide as above (count them): ______ × ______",
		"The frame's width at 5 m by the tape: ______ m. Write it into the stunt file (sees = …), build again, and the code at the foot of all sheets changes.",
		"Decision: hold ______________, colours ______________, lens ______________, by: ______________",
	} {
		t.item("–", s, sizeBody)
	}
}
