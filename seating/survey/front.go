package survey

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// Front says which end of a section's lines, as they stand in the table, is the front row.
type Front uint8

// The ends. FrontUnsaid leaves it to what the table says.
const (
	FrontUnsaid Front = iota
	FirstLine
	LastLine
)

// FrontWords are the words for the two ends, in the order of the constants from FirstLine.
var FrontWords = [...]string{"first line", "last line"}

// clue is one sign of where the front is.
type clue struct {
	end Front
	by  string // words that follow "row 1 is the front one, "
}

// sides are the words that stand at the front (1) and at the back (-1) of stands.
var sides = map[string]int{"front": 1, "frontmost": 1, "floor": 1, "court": 1, "courtside": 1, "field": 1,
	"pitch": 1, "pitchside": 1, "stage": 1, "camera": 1, "lowest": 1, "bottom": 1, "lower": 1, "low": 1, "ground": 1,
	"ice": 1, "track": 1, "back": -1, "rear": -1, "wall": -1, "top": -1, "topmost": -1, "highest": -1, "upper": -1,
	"high": -1, "rearmost": -1, "behind": -1, "farthest": -1, "furthest": -1, "grass": 1, "touchline": 1, "vorne": 1,
	"vorn": 1, "unten": 1, "spielfeld": 1, "feld": 1, "bühne": 1, "kamera": 1, "devant": 1, "bas": 1, "scène": 1,
	"terrain": 1, "delante": 1, "abajo": 1, "campo": 1, "escenario": 1, "davanti": 1, "palco": 1, "veld": 1,
	"voor": 1, "forrest": 1, "foran": 1, "fram": 1, "nederst": 1, "scen": 1, "frente": 1, "dichtst": 1, "hinten": -1,
	"oben": -1, "derrière": -1, "haut": -1, "detrás": -1, "arriba": -1, "dietro": -1, "achter": -1, "bagerst": -1,
	"bak": -1, "øverst": -1, "överst": -1}

// filler are words that may stand beside those of a side without changing what is meant.
var filler = strings.Fields("the is are at of here side end this in on to by nearest closest near close next right " +
	"v längst bij het " +
	"am la el ganz ist reihe rang fila rij rad très be being from row rows line lines most one all seat seats " +
	"way facing toward towards stands playing against along just")

// sideSaid is 1 where words say front, -1 for back and 0 for neither or both; bare says that they say nothing else.
// What is farthest from the front is the back.
func sideSaid(words []string) (side int, bare bool) {
	bare = true
	far := false
	for _, word := range words {
		s := sides[word]
		switch {
		case word == "farthest" || word == "furthest":
			far = true
		case s == 0:
			bare = bare && slices.Contains(filler, word)
		case side == 0:
			side = s
		case side != s:
			return 0, false
		}
	}
	if far {
		return -max(side, -side, 1), bare
	}
	return side, bare
}

// sideOfText is sideSaid of a text's words.
func sideOfText(text string) (side int, bare bool) {
	return sideSaid(strings.Fields(cells.Plain(text)))
}

// claim is what a sentence says of the order of rows: that the first line, the last one, the lowest name or the row
// of a name is at a side.
type claim struct {
	about string // "first", "last", "lowest" or "row"
	name  string
	side  int
}

// claims reads sentences such as "Row 1 is at the top", "listed from back to front", "A = back row" or "top row
// first"; unsure says that one speaks of order and of a side and is not understood.
func claims(text string) (all []claim, unsure bool) {
	const most = 300 // bytes
	if len(text) > most || !strings.ContainsFunc(text, unicode.IsLetter) {
		return nil, false
	}
	for _, part := range strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(",;.\n()", c) }) {
		c, ok := claimOf(part)
		if ok {
			all = append(all, c)
		} else if words := strings.Fields(cells.Plain(part)); slices.ContainsFunc(words, isOrder) &&
			slices.ContainsFunc(words, func(word string) bool { return sides[word] != 0 }) {
			unsure = true
		}
	}
	return all, unsure
}

// orderWords speak of the order of lines or of names.
var orderWords = strings.Fields("listed list lists order ordered numbered numbering numbers lettered letters " +
	"counted counting count start " +
	"starts starting begin begins beginning first last run runs go goes given written measured drawn table " +
	"sheet sorted row rows names named tables")

// firmWords are those of them without which nobody speaks of an order.
var firmWords = strings.Fields("listed list lists order ordered numbered numbering lettered counted start starts " +
	"starting begin begins " +
	"beginning sorted")

func isOrder(word string) bool { return slices.Contains(firmWords, word) }

// ends are the words of a side that speak of rows and of nothing else.
var ends = strings.Fields("front back rear top bottom highest lowest upper lower frontmost rearmost topmost")

func claimOf(part string) (c claim, ok bool) {
	words := strings.Fields(cells.Plain(part))
	if len(words) < 2 || len(words) > 16 {
		return c, false
	}
	named := slices.ContainsFunc(words, func(word string) bool {
		return slices.Contains([]string{"numbered", "numbering", "numbers", "lettered", "letters", "named",
			"counted", "count"}, word)
	})
	about := "first"
	if named {
		about = "lowest"
	}
	// What is left when words of order and fillers are gone: sides, "to", and names of rows.
	var rest, said []string
	from := false
	for _, word := range words {
		if slices.Contains([]string{"from", "start", "starts", "starting", "begin", "begins", "beginning"}, word) {
			from = true
		}
		switch {
		case sides[word] != 0 || word == "to" || word == "first" || word == "last" || word == "down" || word == "up":
			rest = append(rest, word)
		case slices.Contains(filler, word) || slices.Contains(orderWords, word) || word == "with" ||
			word == "always" ||
			word == "and" || word == "please" || word == "note":
		default:
			said = append(said, word)
		}
	}
	var trimmed []string // without what joins them, and a side once
	for _, word := range rest {
		if word == "to" || word == "down" || word == "up" || len(trimmed) > 0 && sides[word] != 0 &&
			sides[word] == sides[trimmed[len(trimmed)-1]] {
			continue
		}
		trimmed = append(trimmed, word)
	}
	only := func(pattern ...string) bool { // S is a word of a side
		return slices.EqualFunc(trimmed, pattern, func(word, p string) bool {
			return word == p || p == "S" && sides[word] != 0
		})
	}
	switch {
	case len(said) == 0 && only("S", "S") && slices.Contains(rest, "to") && slices.Contains(ends,
		trimmed[0]): // back to front
		return claim{about: about, side: sides[trimmed[0]]}, true
	case len(said) == 0 && only("S") && from && (named || slices.Contains(ends, trimmed[0])): // listed from the back
		return claim{about: about, side: sides[trimmed[0]]}, true
	case len(said) == 0 && (only("S", "first") || only("first", "S")): // top row first
		return claim{about: about, side: sides[trimmed[0]] + sides[trimmed[1]]}, true
	case len(said) == 0 && (only("S", "last") || only("last", "S")):
		return claim{about: "last", side: sides[trimmed[0]] + sides[trimmed[1]]}, true
	}
	side, _ := sideSaid(words)
	if len(said) != 1 || side == 0 || named {
		return c, false
	}
	if slices.Contains(words, "first") || slices.Contains(words, "last") {
		return c, false
	}
	name := strings.ToUpper(said[0])
	if _, n := rankOf(name); n == 0 && ordinal(said[0]) == 0 {
		return c, false
	}
	if n := ordinal(said[0]); n > 0 {
		name = strconv.Itoa(n)
	}
	if len(name) <= 2 && unicode.IsLetter(rune(name[0])) && !strings.Contains(" "+part+" ", " "+name+" ") &&
		!strings.HasPrefix(part, name) { // "a" is an article unless it is written large
		return c, false
	}
	return claim{about: "row", name: name, side: side}, true
}

// ordinals in words, from the first.
var ordinals = []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
	"tenth", "eleventh", "twelfth"}

// ordinal is the number that "5th" or "fifth" says, or 0.
func ordinal(word string) int {
	word = strings.ToLower(word)
	if i := slices.Index(ordinals, word); i >= 0 {
		return i + 1
	}
	tail := strings.TrimLeft(word, "0123456789")
	n, ok := seatNumber(word[:len(word)-len(tail)])
	if !ok || !slices.Contains([]string{"st", "nd", "rd", "th", "er", "e", "ère", "ème", "ª", "º", "."}, tail) {
		return 0
	}
	return n
}

// rankOf is where a row's name stands among names of its kind: 7, C, R7; 0 for names that do not count.
func rankOf(name string) (kind string, n int) {
	head := strings.TrimRight(name, "0123456789")
	if n, ok := seatNumber(name[len(head):]); ok && len(head) <= 8 {
		return strings.ToUpper(head), n + 1
	}
	if len(name) <= 2 {
		if n := seating.AllLetters.Index(strings.ToUpper(name)); n > 0 {
			return "letters", n + 1
		}
	}
	return "", 0
}

// habit is the end that the names of lines point to: numbers and letters rise toward the back, by habit. jumbled
// says that they go neither up nor down.
func habit(lines []*line) (end Front, kind string, jumbled bool) {
	last := map[string]int{}
	step, lastGroup := 0, 0
	one := len(lines) > 0 && lines[0].lone(lines)
	for _, l := range lines {
		k, n := rankOf(l.name)
		if l.name == "" || n == 0 || l.group > 0 && l.group == lastGroup && !one {
			continue
		}
		lastGroup = l.group
		if was, ok := last[k]; ok && was != n {
			now := 1
			if n < was {
				now = -1
			}
			if step != 0 && step != now {
				return FrontUnsaid, "", true
			}
			step = now
			if kind = "numbers"; k == "letters" {
				kind = k
			}
		}
		last[k] = n
	}
	switch {
	case step > 0:
		return FirstLine, kind, false
	case step < 0:
		return LastLine, kind, false
	}
	return FrontUnsaid, "", false
}

// endAt is the end that lies toward a side, for something that is on the first (before < 0) or second half of the
// lines.
func endAt(side, before int) Front {
	switch {
	case side*before < 0:
		return FirstLine
	case side*before > 0:
		return LastLine
	}
	return FrontUnsaid
}

// called is the clue of words in the names of rows and in remarks beside them; against is the line whose words
// contradict.
func called(lines []*line) (c clue, ok bool, against *line) {
	runs := 0 // of lines with one side, one after the other
	var first, last, front *line
	middle := 0 // twice the place of the lines of the first side, from the middle
	for i, l := range lines {
		if l.side == 0 {
			continue
		}
		if first == nil {
			first = l
		}
		if front == nil && l.side > 0 {
			front = l
		}
		if last == nil || last.side != l.side || lines[i-1].side == 0 && i > 1 {
			runs++
		}
		if last = l; l.side == first.side {
			middle += 2*i - len(lines) + 1
		}
	}
	if first == nil {
		return c, false, nil
	}
	if first.side != last.side {
		middle = -1
	} else if runs > 1 {
		middle = 0
	}
	end := endAt(first.side, middle)
	if end == FrontUnsaid || runs > 2 {
		return c, false, last
	}
	by := cmp.Or(front, first)
	return clue{end, fmt.Sprintf("by the words %q at %s", seating.Shown(by.sideText),
		by.sheet.Address(by.row, max(by.sideCol, 0)))}, true, nil
}

// grown is the clue of a column that grows toward the back: heights, or distances from the front.
func grown(lines []*line) (c clue, ok bool) {
	step, last := 0, -1
	for i, l := range lines {
		if !l.hasHeight {
			continue
		}
		if last >= 0 {
			now := 1
			if l.height < lines[last].height {
				now = -1
			}
			if l.height == lines[last].height || step != 0 && now != step {
				return c, false
			}
			step = now
		}
		last = i
	}
	switch {
	case step > 0:
		return clue{FirstLine, "as the heights say"}, true
	case step < 0:
		return clue{LastLine, "as the heights say"}, true
	}
	return c, false
}

// told is the clue of a sentence's claim for a section's lines.
func (c claim) told(lines []*line, by string) (clue, bool) {
	end := FrontUnsaid
	switch c.about {
	case "first":
		end = endAt(c.side, -1)
	case "last":
		end = endAt(c.side, 1)
	case "lowest":
		if up, _, _ := habit(lines); up == FirstLine {
			end = endAt(c.side, -1)
		} else if up == LastLine {
			end = endAt(c.side, 1)
		}
	case "row":
		for i, l := range lines {
			if strings.EqualFold(l.name, c.name) {
				end = endAt(c.side, 2*i-len(lines)+1)
			}
		}
	}
	return clue{end, by}, end != FrontUnsaid
}

// orient puts the lines of a section, which stand as in the table, in order from the front to the back.
func (s *section) orient(r *reader) {
	unranked := func(l *line) bool { _, n := rankOf(l.name); return l.name != "" && n == 0 }
	if slices.ContainsFunc(s.lines, unranked) {
		for _, l := range s.lines {
			l.name = cmp.Or(l.ordinal, l.name)
		}
	}
	end, kind, jumbled := habit(s.lines)
	if len(s.lines) < 2 {
		r.note("Section %s: its only row is taken as the front row.", s.spec.Name)
		return
	}
	strong := s.clues
	for _, t := range r.told {
		if t.sheet != s.lines[0].sheet {
			continue
		}
		if c, ok := t.claim.told(s.lines, fmt.Sprintf("by the words %q at %s", seating.Shown(t.text), t.at)); ok {
			strong = append(strong, c)
		}
	}
	c, ok, against := called(s.lines)
	if ok {
		strong = append(strong, c)
	}
	c, heights := grown(s.lines)
	if heights {
		strong = append(strong, c)
	}
	key := r.options.Front
	if own, ok := r.options.Fronts[s.spec.Name]; ok {
		key = own
	}
	by := ""
	switch drawn := !slices.ContainsFunc(s.lines, func(l *line) bool { return !l.drawn }); {
	case key != FrontUnsaid:
		end, by = key, fmt.Sprintf("as front = %q says", FrontWords[key-FirstLine])
	case against != nil:
		r.askSide(against.sheet, against.row, max(against.sideCol, 0),
			"with the other words for front and back it does not say which row is in front")
	case len(strong) > 0:
		for _, other := range strong[1:] {
			if other.end != strong[0].end {
				r.askFront(s, "Its %s is, %s, and its %s is, %s", FrontWords[strong[0].end-FirstLine], strong[0].by,
					FrontWords[other.end-FirstLine], other.by)
			}
		}
		end, by = strong[0].end, strong[0].by
		if jumbled && !heights {
			r.askFront(s, "Their names go neither up nor down: in which order do they lie?")
		}
	case jumbled:
		r.askFront(s, "Their names go neither up nor down, and nothing else says it")
	case r.unsure != nil:
		r.askFront(s, "%q at %s speaks of it and is not understood", seating.Shown(r.unsure.text), r.unsure.at)
	case end != FrontUnsaid:
		by = "by the habit that " + kind + " rise toward the back"
	case drawn && r.asked == nil:
		r.askFront(s, "Neither names of rows nor words say it")
	case !drawn && slices.ContainsFunc(s.lines, unranked):
		r.askFront(s, "Its names are in no order, and nothing else says it")
	default:
		end, by = FirstLine, "as the first line: nothing says otherwise"
	}
	up, _, _ := habit(s.lines)
	if up == FrontUnsaid {
		up = FirstLine
	}
	for from := 0; from < len(s.lines); { // rows that one line names lie as the others do
		to := from + 1
		for s.lines[from].group > 0 && to < len(s.lines) && s.lines[to].group == s.lines[from].group {
			to++
		}
		if in, _, _ := habit(ungrouped(s.lines[from:to])); to > from+1 && in != FrontUnsaid && in != up &&
			!s.lines[from].lone(s.lines) {
			slices.Reverse(s.lines[from:to])
			s.lines[from].gap, s.lines[to-1].gap = s.lines[to-1].gap, s.lines[from].gap
		}
		from = to
	}
	if s.turned = end == LastLine; s.turned {
		slices.Reverse(s.lines)
	} else if s.lines[0].drawn {
		r.note("Section %s: the front is at the top of its drawing. On a plan seen from above the camera there "+
			"has the paper's left on its right: "+
			"turn such a plan round, or the message is mirrored.", s.spec.Name)
	}
	s.front = by
}

// lone says whether the line stands for all rows of its section, which then lie as it names them.
func (l *line) lone(lines []*line) bool {
	return l.group == lines[len(lines)-1].group && l.group == lines[0].group
}

func ungrouped(lines []*line) []*line {
	out := make([]*line, len(lines))
	for i, l := range lines {
		out[i] = &line{name: l.name}
	}
	return out
}

// isOnlookers says whether a text names people who may sit in the stands, or look at them.
func isOnlookers(text string) bool {
	return slices.Contains([]string{"audience", "public", "spectators", "crowd", "fans", "viewers", "onlookers"},
		strings.TrimPrefix(cells.Plain(text), "the "))
}

// landmarkSide is the side of a text that stands outside the rows and says nothing else. Upper and lower are no
// places: blocks have such names.
func landmarkSide(text string) (side int, ok bool) {
	words := strings.Fields(cells.Plain(text))
	if slices.ContainsFunc(words, func(word string) bool {
		return slices.Contains([]string{"upper", "lower", "high", "low"}, word)
	}) {
		return 0, false
	}
	side, bare := sideSaid(words)
	return side, bare && side != 0
}

const maxMarks = 100

// landmark is a word that stands above or below rows, such as FIELD or BACK WALL.
type landmark struct {
	sheet    *sheet
	row, col int
	side     int
	text     string
}

// heedWords reads what is left: words for a side beside rows, above and below them, and sentences about their order.
func (r *reader) heedWords() {
	var marks []landmark
	for _, s := range r.order {
		s.measure()
	}
	for _, s := range r.sheets {
		for row := range s.Rows() {
			for col := range s.Cols(row) {
				text := s.At(row, col).Text
				if !hasWord(text) || !s.open(row, col) || s.At(row, col).Date != "" {
					continue
				}
				lines := r.beside[place{s.index, row, 0}]
				if side, bare := sideOfText(text); bare && side != 0 && lines != nil {
					s.take(row, col)
					for _, l := range lines {
						if l.side == -side {
							r.askSide(s, row, col, fmt.Sprintf("%q says that the row is elsewhere",
								seating.Shown(l.sideText)))
						}
						l.side, l.sideText, l.sideCol = side, text, col
					}
					continue
				}
				if side, ok := landmarkSide(text); ok && lines == nil && len(marks) < maxMarks {
					marks = append(marks, landmark{s, row, col, side, text})
					continue
				}
				if r.tell(s, row, col, text) {
					s.take(row, col)
					r.askWhose(s, row, col)
				} else if _, unsure := claims(text); (unsure || isOnlookers(text)) && r.unsure == nil {
					r.unsure = &told{text: text, at: s.Address(row, col)}
				}
			}
		}
	}
	if len(r.order) <= seating.MaxSections {
		r.heedMarks(marks)
	}
}

// tell keeps what a text claims of the order of rows, and says whether it claims anything.
func (r *reader) tell(s *sheet, row, col int, text string) bool {
	all, _ := claims(text)
	if len(r.told) > maxMarks {
		return false
	}
	for _, c := range all {
		r.told = append(r.told, told{c, s, s.At(row, col).Text, s.Address(row, col)})
	}
	return len(all) > 0
}

// askSide asks about a word for front or back, unless Options say which row is in front.
func (r *reader) askSide(s *sheet, row, col int, why string) {
	if r.options.Front == FrontUnsaid && len(r.options.Fronts) == 0 {
		r.ask(s, row, col, why, `take the words away that do not hold, or write front = "first line" or front = `+
			`"last line" `+
			`under [stands]; for everyseat new --front "last line"`)
	}
}

// askWhose asks of which section a sentence speaks, where it stands below the first lines of one and above or beside
// another.
func (r *reader) askWhose(s *sheet, row, col int) {
	began, other := 0, false
	for _, sec := range r.order {
		if sec.lines[0].sheet == s && sec.from <= row {
			began++
		} else if sec.lines[0].sheet == s {
			other = true
		}
	}
	if began > 1 || began == 1 && other {
		r.askSide(s, row, col, "it may speak of one section, or of all")
	}
}

// told is a sentence about the order of rows.
type told struct {
	claim claim
	sheet *sheet
	text  string
	at    string
}

// measure finds the first and the last line of a section on the sheet of its first one.
func (s *section) measure() {
	s.from, s.to = s.lines[0].row, s.lines[0].row
	for _, l := range s.lines {
		if l.sheet == s.lines[0].sheet {
			s.from, s.to = min(s.from, l.row), max(s.to, l.row)
		}
	}
}

// heedMarks gives every section the nearest words above and below it; words between two sections are the nearer one's.
func (r *reader) heedMarks(marks []landmark) {
	for i := range marks {
		m := &marks[i]
		gap := [2]int{math.MaxInt, math.MaxInt} // to the sections below the words, and above them
		for _, s := range r.order {
			if s.lines[0].sheet == m.sheet && m.row < s.from {
				gap[0] = min(gap[0], s.from-m.row)
			} else if s.lines[0].sheet == m.sheet && m.row > s.to {
				gap[1] = min(gap[1], m.row-s.to)
			}
		}
		for _, s := range r.order {
			half := 0
			if m.row > s.to {
				half = 1
			}
			if s.lines[0].sheet == m.sheet && (m.row < s.from || m.row > s.to) && gap[half] <= gap[1-half] &&
				(half == 0 || s.near[half] == nil) {
				s.near[half] = m
			}
		}
	}
	var before *landmark // above a section
	for _, s := range r.order {
		for half, m := range s.near {
			if m == nil {
				continue
			}
			m.sheet.take(m.row, m.col)
			if strings.ContainsAny(m.text, []string{"↓⬇▼", "↑⬆▲"}[half]) {
				r.askSide(m.sheet, m.row, m.col, "its arrows point at the rows: what it names may lie behind them")
			}
			s.clues = append(s.clues, clue{endAt(m.side, 2*half-1), fmt.Sprintf("by the word %q at %s", m.text,
				m.sheet.Address(m.row, m.col))})
			if half == 0 && before != nil && before != m && before.sheet == m.sheet && before.side != m.side {
				r.ask(m.sheet, m.row, m.col, fmt.Sprintf("it may be the name of a section, or say where the front of "+
					"section %s is", s.spec.Name), `write "Section `+m.text+`" where it is a name`)
			}
			if half == 0 {
				before = m
			}
		}
	}
}
