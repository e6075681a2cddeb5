package sheets

import (
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// rowWork is one row as the crew meets it: its seats in laying order and what they get.
type rowWork struct {
	section, row int
	seats        []int32 // all seats of the row, in laying order
	kits         [][]int16
	cards        []int // how many of each of Plan.Cards
	placards     int   // seats that get something
}

// name is how the row is called on paper, for example B-7.
func (r *rowWork) name(p *mosaic.Plan) string {
	s := &p.Stands.Sections[r.section]
	return s.Name + "-" + s.Rows[r.row].Name
}

// depth says in words which row of its section it is, since names do not tell front from back.
func (r *rowWork) depth(p *mosaic.Plan) string {
	switch rows := len(p.Stands.Sections[r.section].Rows); {
	case rows == 1:
		return "This section has this row alone."
	case r.row == 0:
		return "This is the FRONT row."
	case r.row == rows-1:
		return "This is the BACK row."
	default:
		return "This is row " + strconv.Itoa(r.row+1) + " from the front."
	}
}

// leftToRight is the way the row is walked, as the camera sees it.
func (r *rowWork) leftToRight(p *mosaic.Plan) bool {
	first, last := r.seats[0], r.seats[len(r.seats)-1]
	return p.Stands.Seats[first].Place <= p.Stands.Seats[last].Place
}

// laid splits the plan's laying order into rows and sections.
func laid(p *mosaic.Plan) [][]rowWork {
	var sections [][]rowWork
	for i := 0; i < len(p.Order); {
		first := &p.Stands.Seats[p.Order[i]]
		end := i + 1
		for end < len(p.Order) && p.Stands.Seats[p.Order[end]].Section == first.Section && p.Stands.Seats[p.Order[end]].Row == first.Row {
			end++
		}
		work := newRowWork(p, int(first.Section), int(first.Row), p.Order[i:end])
		if n := len(sections); n == 0 || sections[n-1][0].section != work.section {
			sections = append(sections, nil)
		}
		sections[len(sections)-1] = append(sections[len(sections)-1], work)
		i = end
	}
	return sections
}

func newRowWork(p *mosaic.Plan, section, row int, seats []int32) rowWork {
	work := rowWork{section: section, row: row, seats: seats, cards: make([]int, len(p.Cards))}
	work.kits = make([][]int16, len(seats))
	buf := make([]int16, 0, len(seats))
	for k, seat := range seats {
		from := len(buf)
		buf = p.Kit(buf, seat)
		kit := buf[from:len(buf):len(buf)]
		work.kits[k] = kit
		for _, c := range kit {
			work.cards[c]++
		}
		if len(kit) > 0 {
			work.placards++
		}
	}
	return work
}

// kitName says a kit in one word or two: "NAVY", or "NAVY + CREAM" for two cards.
func kitName(p *mosaic.Plan, kit []int16) string {
	names := make([]string, len(kit))
	for i, c := range kit {
		names[i] = p.Cards[c].ID
	}
	return strings.Join(names, " + ")
}

// cardCount is "12 NAVY, 6 CREAM = 18 cards".
func cardCount(p *mosaic.Plan, cards []int) string {
	var parts []string
	total := 0
	for c, n := range cards {
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+glue+p.Cards[c].ID)
			total += n
		}
	}
	if total == 0 {
		return "no cards"
	}
	return strings.Join(parts, ", ") + " = " + plural(total, "card")
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// idleWord says why a seat gets nothing.
func idleWord(s *seating.Seat) string {
	switch s.Use {
	case seating.UseReserved:
		if s.For != "" && s.For != "nobody" {
			return "kept for " + s.For
		}
		return "kept free"
	case seating.UsePerson:
		return "person without a card"
	case seating.UseDropped:
		return "left out"
	}
	return "no card"
}

// heldWords tells people how to hold the card, by their own body.
func heldWords(p *mosaic.Plan) string {
	switch p.Stunt.Card.Held {
	case camera.Lap:
		return "Hold it flat on your lap."
	case camera.Chest:
		return "Hold it up with " + wayRound(p) + ", its middle on your chest."
	case camera.Chin:
		return "Hold it up with " + wayRound(p) + ", top edge just under your chin."
	case camera.Overhead:
		return "Hold it up on straight arms with " + wayRound(p) + ", bottom edge over the top of your head."
	}
	return "Hold it up with " + wayRound(p) + ", top edge at your eyes."
}

// wayRound says which way round the card is held.
func wayRound(p *mosaic.Plan) string {
	width, height := p.Stunt.Card.Width, p.Stunt.Card.Height
	if p.Scene != nil {
		width, height = p.Scene.Card.Width, p.Scene.Card.Height
	}
	switch {
	case width > height:
		return "the long side level"
	case width < height:
		return "the long side upright"
	}
	return "both hands"
}

// startWords names the end to start from for somebody who works in the stands. The people in the
// row face the camera, so what is left for the camera is right for them.
func startWords(pass, leftToRight bool) string {
	camera, person := "RIGHT", "LEFT"
	if leftToRight {
		camera, person = person, camera
	}
	end := "the " + camera + " end as the camera sees it: that is the " + person + "-hand end when you sit in the row and face the camera."
	if pass {
		return "Hand the stack in at " + end + " Everybody takes the top card and passes the rest on."
	}
	return "Start at " + end
}

// labelWords says where the labels go.
func labelWords(p *mosaic.Plan, row *rowWork) string {
	where := "the back of "
	for _, kit := range row.kits {
		if len(kit) > 0 && p.Cards[kit[0]].Sides[0] != p.Cards[kit[0]].Sides[1] {
			where = "side A, low down, of " // the camera sees both sides
		}
	}
	for _, kit := range row.kits {
		if len(kit) > 1 {
			return "Put each label on " + where + "its first card, lay its other cards behind that one, and keep this order: "
		}
	}
	return "Put each label on " + where + "a card of its colour, and keep this order: "
}
