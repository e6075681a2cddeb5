package brief

import (
	"fmt"
	"math"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// Trial is the hour of the week before: twelve people at the real mark.
type Trial struct {
	Intro, Where, When, Bring string
	Rows                      []TrialRow // the back one first; none: no two rows are there for it
	TooMany                   string     // "" = twelve people show all colours
	Pixels                    string
	Shots                     [][2]string // what is filmed, and what for
	Look                      []string
}

// TrialRow is one of the two rows.
type TrialRow struct {
	Name  string
	Seats []TrialSeat
}

// TrialSeat is a seat and the colour that is held there, −1 = it stays empty.
type TrialSeat struct {
	ID     string
	Colour int
}

func (t *teller) trial() Trial {
	p := t.p
	if len(p.Marks) == 0 || p.Marks[0].View == nil {
		return Trial{}
	}
	held := p.Stunt.Card.Held
	if p.Scene != nil {
		held = p.Scene.Card.Held
	}
	var names []string
	for _, c := range p.Stunt.Colours {
		names = append(names, c.Name)
	}
	out := Trial{Shots: [][2]string{
		{"Everybody resting, cards on the laps.", "faces and clothes: what shows between the cards"},
		{"Everybody holds the card up as planned, " + held.Words() + ".", "exposure, focus and white balance locked here"},
		{"The same, but each card held another way, " + otherHold(held).Words() + ".", "which rows show more; which way people keep up"},
		{"As planned again, but everybody in the back row changes to the card of the neighbour on the camera's left.",
			"two colours that look alike side by side"},
		{"READY, UP, HOLD, DOWN at the calls, twice.", "how long until the last card is up: ____ s"},
		{"Front row with hats or hoods, if such will be worn.", "what they hide of the back row"},
		{"As planned from two steps to the LEFT and to the RIGHT of the cross.", "how far the camera may stray"},
	}, Look: []string{
		"Each colour is told from every other, in colour and with the picture turned to grey: " + strings.Join(names, ", ") +
			". The lightest is not burnt out, the darkest is not black.",
		"The empty seat is seen as a gap and not as a dark card: ______________________",
		"Cards are as many pixels wide as above (count them): ______ × ______",
		"The frame's width at 5 m by the tape: ______ m. Write it into the stunt file (sees = …), build again, and the " +
			"code at the foot of all sheets changes.",
		"Decision: hold ______________, colours ______________, lens ______________, by: ______________",
	}}
	rows := trialRows{plan: p}
	if rows.choose() {
		rows.tell(&out)
	}
	return out
}

// trialRows are the two rows.
type trialRows struct {
	plan        *mosaic.Plan
	front, back []int32 // six seats; seven, of which one stays empty
}

func (t *trialRows) tell(out *Trial) {
	p := t.plan
	at := p.Marks[0].View.Position
	hour := "at the hour of the take (not in the stunt file yet)"
	if p.Stunt.Day.Take != "" {
		hour = "at the hour of the take, " + p.Stunt.Day.Take
	}
	n := len(p.Stunt.Colours)
	out.Intro = "Until this is filmed, colours and lens are guesses. It takes half an hour, twelve people, " + say.Count(n, "colour") + " of card and a tape."
	out.Where = fmt.Sprintf("Lens %s above the floor, %s before the front row, on the tape cross of camera.pdf; "+
		"the same lamps on, the same daylight.", away(at[2]), away(at[1]))
	out.When = "A week before, " + hour + "."
	out.Bring = "The camera that will film, tripod, tape; twelve cards of the real stock: " + t.cards() + ", and two " +
		"more of each; nothing need be printed on them."
	if n > 2*trialPeople {
		out.TooMany = fmt.Sprintf("There are %d colours and twelve people: film again with the colours that are left.", n)
	}
	for back, seats := range [][]int32{1: t.back, 0: t.front} {
		first := &p.Stands.Seats[seats[0]]
		sec := &p.Stands.Sections[first.Section]
		row, person := TrialRow{Name: "row " + sec.Name + "-" + sec.Rows[first.Row].Name}, 0
		for k, s := range seats {
			seat := TrialSeat{p.Stands.ID(int(s)), -1}
			if back == 0 || k != trialEmpty {
				seat.Colour = t.cardAt(back, person)
				person++
			}
			row.Seats = append(row.Seats, seat)
		}
		out.Rows = append([]TrialRow{row}, out.Rows...)
	}
	out.Pixels = "On film each of these cards will be about " + t.pixels() + " pixels wide and high. If yours are much " +
		"smaller, the lens is too wide or the mark too far."
}

// trialRow is six people of a row, and in the back row an empty seat among them.
const (
	trialPeople = 6
	trialEmpty  = 3 // place in the back row that stays empty
)

// choose takes two rows in the middle of the section that is seen largest: the back row's seven
// neighbours lie round the front row's six.
func (t *trialRows) choose() bool {
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
func (t *trialRows) middle(row *seating.Row, n int) []int32 {
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
func (t *trialRows) worth(section, row int, front []int32) float64 {
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

// cards counts the trial's cards by colour.
func (t *trialRows) cards() string {
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
func (t *trialRows) cardAt(row, person int) int {
	n := len(t.plan.Stunt.Colours)
	at := person + row*trialPeople
	if row > 0 && trialPeople%n == 0 {
		at++
	}
	return at % n
}

// pixels is how large the front row's cards are in the plan's picture.
func (t *trialRows) pixels() string {
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
