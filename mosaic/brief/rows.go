package brief

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// Row is one row as the crew meets it: its seats in laying order and what they get.
type Row struct {
	Section, Row int
	Seats        []int32   // all seats of the row, in laying order
	Kits         [][]int16 // by Seats: the cards that each gets, of Plan.Cards
	Cards        []int     // how many of each of Plan.Cards
	Placards     int       // seats that get something
	Name         string    // as it is called on paper, for example B-7
	LeftToRight  bool      // the way it is walked, as the camera sees it
}

// Depth says in words which row of its section it is, since names do not tell front from back.
func (r *Row) Depth(p *mosaic.Plan) string {
	switch rows := len(p.Stands.Sections[r.Section].Rows); {
	case rows == 1:
		return "This section has this row alone."
	case r.Row == 0:
		return "This is the FRONT row."
	case r.Row == rows-1:
		return "This is the BACK row."
	default:
		return "This is row " + strconv.Itoa(r.Row+1) + " from the front."
	}
}

// All is how many cards the row takes.
func (r *Row) All() int { return sum(r.Cards) }

// cardsIn is how many of each of Plan.Cards rows take.
func cardsIn(rows []Row) []int {
	all := make([]int, len(rows[0].Cards))
	for i := range rows {
		plus(all, rows[i].Cards)
	}
	return all
}

// count counts the row's kits, of so many kinds of cards.
func (r *Row) count(kinds int) {
	r.Cards, r.Placards = make([]int, kinds), 0
	for _, kit := range r.Kits {
		r.Placards += min(len(kit), 1)
		for _, c := range kit {
			r.Cards[c]++
		}
	}
}

// Stretches cuts a list where neighbours are not alike.
func Stretches[T any](list []T, alike func(before, next T) bool) (out [][]T) {
	from := 0
	for i := range list {
		if i+1 == len(list) || !alike(list[i], list[i+1]) {
			out = append(out, list[from:i+1:i+1])
			from = i + 1
		}
	}
	return out
}

func sameRow(p *mosaic.Plan) func(a, b int32) bool {
	return func(a, b int32) bool {
		s, o := &p.Stands.Seats[a], &p.Stands.Seats[b]
		return s.Section == o.Section && s.Row == o.Row
	}
}

// Rows splits the plan's laying order into rows and sections; sections in which nobody holds a card are left out.
func Rows(p *mosaic.Plan) [][]Row {
	var rows []Row
	for _, seats := range Stretches(p.Order, sameRow(p)) {
		first, last := &p.Stands.Seats[seats[0]], &p.Stands.Seats[seats[len(seats)-1]]
		sec := &p.Stands.Sections[first.Section]
		r := Row{Section: int(first.Section), Row: int(first.Row), Seats: seats, Kits: make([][]int16, len(seats)),
			Name: sec.Name + "-" + sec.Rows[first.Row].Name, LeftToRight: first.Place <= last.Place}
		cards := make([]int16, 0, len(seats))
		for k, seat := range seats {
			from := len(cards)
			cards = p.CardsOf(cards, seat)
			r.Kits[k] = cards[from:len(cards):len(cards)]
		}
		r.count(len(p.Cards))
		rows = append(rows, r)
	}
	sections := Stretches(rows, func(a, b Row) bool { return a.Section == b.Section })
	return slices.DeleteFunc(sections, func(rows []Row) bool {
		return !slices.ContainsFunc(rows, func(r Row) bool { return r.Placards > 0 })
	})
}

// KitName says a kit in one word or two: "NAVY", or "NAVY + CREAM" for two cards.
func KitName(p *mosaic.Plan, kit []int16) string {
	names := make([]string, len(kit))
	for i, c := range kit {
		names[i] = p.Cards[c].ID
	}
	return strings.Join(names, " + ")
}

// CardCount is "12 NAVY, 6 CREAM = 18 cards".
func CardCount(p *mosaic.Plan, cards []int) string {
	if all := sum(cards); all > 0 {
		return strings.Join(amounts(cards, say.Glue, cardName(p)), ", ") + " = " + say.Count(all, "card")
	}
	return "no cards"
}

func cardName(p *mosaic.Plan) func(c int) string {
	return func(c int) string { return p.Cards[c].ID }
}

// IdleWord says why a seat gets nothing.
func IdleWord(s *seating.Seat) string {
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

// HeldWords tells people how to hold the card, by their own body.
func HeldWords(p *mosaic.Plan) string {
	arms, where := "", "top edge at your eyes"
	switch p.Stunt.Card.Held {
	case camera.Lap:
		return "Hold it flat on your lap."
	case camera.Chest:
		where = "its middle on your chest"
	case camera.Chin:
		where = "top edge just under your chin"
	case camera.Overhead:
		arms, where = " on straight arms", "bottom edge over the top of your head"
	}
	return "Hold it up" + arms + " with " + wayRound(p, "both hands") + ", " + where + "."
}

// wayRound says which way round the card is held, square being what is said of one that has no long side.
func wayRound(p *mosaic.Plan, square string) string {
	switch width, height := p.CardSize(); {
	case width > height:
		return "the long side level"
	case width < height:
		return "the long side upright"
	}
	return square
}

// StartWords names the end to start from for somebody who works in the stands. The people in the
// row face the camera, so what is left for the camera is right for them.
func StartWords(pass, leftToRight bool) string {
	camera, person := "RIGHT", "LEFT"
	if leftToRight {
		camera, person = person, camera
	}
	end := "the " + camera + " end as the camera sees it: that is the " + person + "-hand end when you sit in the " +
		"row and face the camera."
	if pass {
		return "Hand the stack in at " + end + " Everybody takes the top card and passes the rest on."
	}
	return "Start at " + end
}

// LabelWords says where the labels go.
func LabelWords(p *mosaic.Plan, row *Row) string {
	where, card := "the back of ", "a card of its colour"
	for _, kit := range row.Kits {
		if len(kit) > 0 && p.Cards[kit[0]].Sides[0] != p.Cards[kit[0]].Sides[1] {
			where = "side A, low down, of " // the camera sees both sides
		}
		if len(kit) > 1 {
			card = "its first card, lay its other cards behind that one"
		}
	}
	return "Put each label on " + where + card + ", and keep this order: "
}

// Place is one place of a row, from the left as the camera sees it; Seat is −1 where there is none.
type Place struct {
	Seat int32
	Kit  []int16
}

// Places lays the row out from left to right, gaps included.
func Places(p *mosaic.Plan, r *Row) []Place {
	row := &p.Stands.Sections[r.Section].Rows[r.Row]
	list := make([]Place, row.Places)
	for i := range list {
		list[i].Seat = -1
	}
	for k, seat := range r.Seats {
		list[p.Stands.Seats[seat].Place] = Place{seat, r.Kits[k]}
	}
	return list
}

// Run is so many neighbouring places with the same cards, or with the same reason for none.
type Run struct {
	Count int
	What  string
	Gap   bool
}

// Runs counts runs in the order of the list.
func Runs(p *mosaic.Plan, list []Place) (runs []Run) {
	for _, pl := range list {
		r := Run{1, "no seat", true}
		switch {
		case len(pl.Kit) > 0:
			r.What, r.Gap = KitName(p, pl.Kit), false
		case pl.Seat >= 0:
			r.What = IdleWord(&p.Stands.Seats[pl.Seat])
		}
		if n := len(runs); n > 0 && runs[n-1].What == r.What && runs[n-1].Gap == r.Gap {
			runs[n-1].Count++
		} else {
			runs = append(runs, r)
		}
	}
	return runs
}

// RunWords is "4 NAVY, [1 no seat], 3 CREAM"; gaps stand in brackets, cards of one person so: 2 × (NAVY + CREAM).
func RunWords(runs []Run) string {
	parts := make([]string, len(runs))
	for i, r := range runs {
		what := r.What
		switch {
		case r.Gap:
			parts[i] = "[" + strings.ReplaceAll(strconv.Itoa(r.Count)+" "+what, " ", say.Glue) + "]"
			continue
		case strings.Count(what, " + ") == 1:
			what = strings.ReplaceAll(what, " + ", say.Glue+"+"+say.Glue)
		}
		if strings.Contains(what, "+") {
			what = "×" + say.Glue + "(" + what + ")"
		}
		parts[i] = strconv.Itoa(r.Count) + say.Glue + what
	}
	return strings.Join(parts, ", ")
}

// Neighbour says what lies at an end of the section's rows: an aisle to which section, or nothing known.
func Neighbour(st *seating.Stands, section int, side seating.Side) string {
	next := SectionBeside(st, section, side)
	if next < 0 {
		return ""
	}
	words := "section " + st.Sections[next].Name
	if st.Sections[min(section, next)].Spec.Aisle != 0 {
		words = "aisle, then " + words
	}
	return words
}

// SectionBeside is the next of the side-by-side sections on one side, or −1.
func SectionBeside(st *seating.Stands, section int, side seating.Side) int {
	if st.Sections[section].Spec.Place != nil {
		return -1
	}
	step := 1
	if side == seating.Left {
		step = -1
	}
	for i := section + step; i >= 0 && i < len(st.Sections); i += step {
		if st.Sections[i].Spec.Place == nil {
			return i
		}
	}
	return -1
}

// Dealt are the seats that get cards, in laying order.
func Dealt(row *Row) []Place {
	var list []Place
	for k, seat := range row.Seats {
		if len(row.Kits[k]) > 0 {
			list = append(list, Place{seat, row.Kits[k]})
		}
	}
	return list
}

// Cord is one cord: sections with the same pitch and the same way of numbering share it.
type Cord struct {
	Pitch    seating.Length
	Numbers  seating.SeatNumbering
	Sections []int
	Places   int // of the longest row
}

// Cords lists the cords, in the order of the sections.
func Cords(p *mosaic.Plan) []Cord {
	var cords []Cord
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		cards := slices.ContainsFunc(p.Stands.Seats[sec.First:sec.Last],
			func(s seating.Seat) bool { return s.Use == seating.UseCard })
		if sec.Spec.Kind != seating.Bench || !cards {
			continue
		}
		c := Cord{Pitch: sec.Spec.Pitch, Numbers: sec.Spec.SeatNumbers}
		c.Numbers.Start, c.Numbers.Step = max(c.Numbers.Start, 1), max(c.Numbers.Step, 1)
		i := slices.IndexFunc(cords, func(o Cord) bool { return o.Pitch == c.Pitch && o.Numbers == c.Numbers })
		if i < 0 {
			i = len(cords)
			cords = append(cords, c)
		}
		cords[i].Sections = append(cords[i].Sections, k)
		cords[i].Places = max(cords[i].Places, MostPlaces(sec))
	}
	return cords
}

// MostPlaces is how many places the section's longest row has.
func MostPlaces(sec *seating.Section) int {
	most := 0
	for r := range sec.Rows {
		most = max(most, sec.Rows[r].Places)
	}
	return most
}

// Wording is how many words a cue takes on a label.
type Wording uint8

// The wordings.
const (
	InFull  Wording = iota // Cue 2 at count 33, “GLOW”: show CREAM (card NAVY/CREAM, side B)
	InShort                // Cue 2 at count 33: show CREAM (card NAVY/CREAM, side B)
	InSigns                // 2 count 33: CREAM (N/C side B), by the letters on the patches
)

// Act is what somebody does at a cue: what to hold and, where it comes up as a wave, when and after whom.
type Act struct {
	mosaic.Hold
	Halves int // half seconds after the call UP; −1 = at the call, with everybody
	After  Lead
}

// Lead is whom somebody follows in a wave.
type Lead uint8

const (
	Nobody Lead = iota
	rightHand
	leftHand
	rowInFront
)

var leads = [...][2]string{ // in full, and in short
	rightHand:  {": follow the card at your right hand", ", follow your right"},
	leftHand:   {": follow the card at your left hand", ", follow your left"},
	rowInFront: {": follow the row in front of you", ", follow the row in front"},
}

const halfSecond = 500 * time.Millisecond

// ActOf is what a seat does at a cue.
func ActOf(p *mosaic.Plan, cue int, seat int32) Act {
	a := Act{Hold: p.Hands[cue][seat], Halves: -1}
	delay := p.Cues[cue].Delay
	if delay == nil {
		return a
	}
	// Left and right are the other way round for who faces the camera.
	row := &p.Stands.Sections[p.Stands.Seats[seat].Section].Rows[p.Stands.Seats[seat].Row]
	earlier := func(s int32) bool {
		return int(s) >= row.First && int(s) < row.Last && p.Stands.Seats[s].Use == seating.UseCard &&
			delay[s] < delay[seat]
	}
	a.Halves = int((delay[seat] + halfSecond/2) / halfSecond)
	switch how := p.Stunt.Cues[cue].Transition; {
	case a.Halves == 0:
	case how == mosaic.BottomToTop || how == mosaic.RowByRow:
		a.After = rowInFront
	case earlier(seat - 1):
		a.After = rightHand
	case earlier(seat + 1):
		a.After = leftHand
	}
	return a
}

// Words say when in a wave; nothing where all come up at once.
func (a Act) Words(w Wording) string {
	switch {
	case a.Halves < 0:
		return ""
	case a.Halves == 0 && w == InSigns:
		return " +0 s"
	case a.Halves == 0:
		return ", right at UP"
	}
	after := strings.TrimPrefix(fmt.Sprint(a.Halves/2), "0") + []string{"", "½"}[a.Halves%2] + say.Glue + "s" // "1½ s"
	if w == InSigns {
		return " +" + after
	}
	return ", " + after + " after UP" + leads[a.After][w]
}

// Wave say how a cue comes up, or nothing where all do at once.
func Wave(p *mosaic.Plan, cue int) string {
	if p.Cues[cue].Delay == nil {
		return ""
	}
	how := map[mosaic.Transition]string{
		mosaic.LeftToRight: "a wave from the LEFT to the RIGHT as the camera sees it",
		mosaic.RightToLeft: "a wave from the RIGHT to the LEFT as the camera sees it",
		mosaic.BottomToTop: "a wave from the front to the back",
		mosaic.FromMiddle:  "a wave from the middle to both ends",
		mosaic.RowByRow:    "a wave row by row, from the front",
	}[p.Stunt.Cues[cue].Transition]
	return how + " within " + say.Seconds(p.Stunt.Cues[cue].Takes)
}

// Waves tell the crew of all cues that come up as a wave, and how it is done; nothing where none does.
func Waves(p *mosaic.Plan) string {
	var parts []string
	for cue := range p.Cues {
		if how := Wave(p, cue); how != "" {
			parts = append(parts, fmt.Sprintf("cue %d comes up as %s", cue+1, how))
		}
	}
	if parts == nil {
		return ""
	}
	return "WAVES: " + strings.Join(parts, "; ") + ". Nobody need count: everybody follows the card beside them or " +
		"the row in front, as their label says; those whose label says “right at UP” begin. DOWN is for all at once."
}

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
	Turn  float64 `json:"-"` // of that from straight ahead, radians, positive to the right as the camera sees it
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
				i, ok := at[p.Blocks[s]]
				if !ok {
					i = len(list)
					at[p.Blocks[s]] = i
					list = append(list, Block{Name: p.Blocks[s], Section: k, First: r, Columns: MostPlaces(sec)})
				}
				b := &list[i]
				b.Last, b.Seats = r, append(b.Seats, int32(s))
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
	hold := "Cards face straight ahead. "
	if p.Stunt.Card.ToMark {
		hold = "Everybody turns the card to the camera. "
	}
	return fmt.Sprintf("The camera is %s away, its lens %s above the floor, %s. ", away(math.Hypot(dx, dy)),
		away(at[2]), where) + hold + HeldWords(p), turn
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
