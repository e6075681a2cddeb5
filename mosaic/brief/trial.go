package brief

import (
	"fmt"
	"math"
	"strings"

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
	if len(t.Marks) == 0 || t.Marks[0].View == nil {
		return Trial{}
	}
	held := t.Stunt.Card.Held
	if t.Scene != nil {
		held = t.Scene.Card.Held
	}
	other := held + 1
	if held >= camera.Overhead { // there is none higher
		other = camera.Eyes
	}
	var names []string
	for _, c := range t.Stunt.Colours {
		names = append(names, c.Name)
	}
	out := Trial{Shots: [][2]string{
		{"Everybody resting, cards on the laps.", "faces and clothes: what shows between the cards"},
		{"Everybody holds the card up as planned, " + held.Words() + ".", "exposure, focus and white balance locked " +
			"here"},
		{"The same, but each card held another way, " + other.Words() + ".",
			"which rows show more; which way people keep up"},
		{"As planned again, but everybody in the back row changes to the card of the neighbour on the camera's left.",
			"two colours that look alike side by side"},
		{"READY, UP, HOLD, DOWN at the calls, twice.", "how long until the last card is up: ____ s"},
		{"Front row with hats or hoods, if such will be worn.", "what they hide of the back row"},
		{"As planned from two steps to the LEFT and to the RIGHT of the cross.", "how far the camera may stray"},
	}, Look: []string{
		"Each colour is told from every other, in colour and with the picture turned to grey: " + strings.Join(names,
			", ") + ". The lightest is not burnt out, the darkest is not black.",
		"The empty seat is seen as a gap and not as a dark card: ______________________",
		"Cards are as many pixels wide as above (count them): ______ × ______",
		"The frame's width at 5 m by the tape: ______ m. Write it into the stunt file (sees = …), build again, and " +
			"the code at the foot of all sheets changes.",
		"Decision: hold ______________, colours ______________, lens ______________, by: ______________",
	}}
	if front, back := t.trialRows(); front != nil {
		t.tellTrial(&out, front, back)
	}
	return out
}

// tellTrial says who sits where, with which card, and how large that is.
func (t *teller) tellTrial(out *Trial, front, back []int32) {
	at, n := t.Marks[0].View.Position, len(t.Stunt.Colours)
	out.When = "A week before, at the hour of the take (not in the stunt file yet)."
	if t.Stunt.Day.Take != "" {
		out.When = "A week before, at the hour of the take, " + t.Stunt.Day.Take + "."
	}
	cards := make([]int, n)
	for i, seats := range [][]int32{back, front} {
		first := &t.Stands.Seats[seats[0]]
		sec := &t.Stands.Sections[first.Section]
		row, person := TrialRow{Name: "row " + sec.Name + "-" + sec.Rows[first.Row].Name}, 0
		for k, s := range seats {
			seat := TrialSeat{t.Stands.ID(int(s)), -1}
			if i == 1 || k != trialEmpty {
				// The palette in turn, so that twelve people show twelve colours; where the back row would repeat the
				// front one, it goes on by one.
				at := person
				if i == 0 {
					at += trialPeople
				}
				if i == 0 && trialPeople%n == 0 {
					at++
				}
				seat.Colour = at % n
				cards[seat.Colour]++
				person++
			}
			row.Seats = append(row.Seats, seat)
		}
		out.Rows = append(out.Rows, row)
	}
	out.Intro = "Until this is filmed, colours and lens are guesses. It takes half an hour, twelve people, " +
		say.Count(n, "colour") + " of card and a tape."
	out.Where = fmt.Sprintf("Lens %s above the floor, %s before the front row, on the tape cross of camera.pdf; "+
		"the same lamps on, the same daylight.", away(at[2]), away(at[1]))
	out.Bring = "The camera that will film, tripod, tape; twelve cards of the real stock: " +
		strings.Join(amounts(cards, " ", t.colourName), ", ") + ", and two more of each; nothing need be printed on " +
		"them."
	if n > 2*trialPeople {
		out.TooMany = fmt.Sprint("There are ", n, " colours and twelve people: film again with the colours that are "+
			"left.")
	}
	var wide, high float64 // of the front row's cards in the plan's picture
	for _, s := range front {
		c := t.Marks[0].Sight.Corners[s]
		wide += (c[1][0] - c[0][0] + c[2][0] - c[3][0]) / 2 / trialPeople
		high += (c[3][1] - c[0][1] + c[2][1] - c[1][1]) / 2 / trialPeople
	}
	out.Pixels = fmt.Sprintf("On film each of these cards will be about %.0f × %.0f pixels wide and high. If yours "+
		"are much smaller, the lens is too wide or the mark too far.", math.Abs(wide), math.Abs(high))
}

// A row of the trial is six people, and in the back row an empty seat among them.
const (
	trialPeople = 6
	trialEmpty  = 3 // place in the back row that stays empty
)

// trialRows are two rows in the middle of the section that is seen largest: the back row's seven neighbours lie round
// the front row's six. They are nil where no two rows are there for it.
func (t *teller) trialRows() (front, back []int32) {
	best, v := math.Inf(-1), t.Marks[0].View
	for k := range t.Stands.Sections {
		rows := t.Stands.Sections[k].Rows
		for r := 0; r+1 < len(rows); r++ {
			before, behind := t.rowMiddle(&rows[r], trialPeople), t.rowMiddle(&rows[r+1], trialPeople+1)
			if before == nil || behind == nil {
				continue
			}
			// Better in the middle rows of stands, in front of the lens.
			fromMiddle, off := math.Abs(float64(2*r+2-len(rows)))/float64(len(rows)), 2.0
			if px, depth := v.Project(t.Stands.Seats[before[trialPeople/2]].Position); depth > 0 {
				off = math.Abs(px[0]-v.Center[0]) / float64(v.Width)
			}
			score := -fromMiddle - 2*off
			if t.Stands.Sections[k].Spec.Kind == seating.Floor {
				score -= 10
			}
			if score = math.Round(score * 1000); score > best {
				best, front, back = score, before, behind
			}
		}
	}
	return front, back
}

// rowMiddle is so many neighbours with cards nearest to the row's middle, or nil.
func (t *teller) rowMiddle(row *seating.Row, n int) []int32 {
	best, off := -1, math.MaxInt
	seats := t.Stands.Seats
	for from := row.First; from+n <= row.Last; from++ {
		whole := int(seats[from+n-1].Place-seats[from].Place) == n-1
		for s := from; s < from+n && whole; s++ {
			whole = seats[s].Use == seating.UseCard && seats[s].For == "" && !t.Marks[0].Sight.Behind[s]
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
