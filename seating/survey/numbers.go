package survey

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// maxRowSeats is the most seats of a row that are read as numbers.
const maxRowSeats = 10_000

// seatText is what a cell says of the seats of a row: how many there are, or their numbers.
type seatText struct {
	count int
	spans [][2]int // numbers that are there; nil = counted
	gone  [][2]int // numbers among them that are not
	step  int      // 2 = odd or even ones, 1 = every one, 0 = it does not say
	each  bool     // it says that each of several rows has them
	list  bool     // single numbers, three or more
	falls bool     // the higher numbers stand before the lower ones
}

const (
	howMany  = "it is no whole number of seats"
	writeIts = `write how many seats the row has, such as 18, or their numbers, such as "1-18", "2-20 even", ` +
		`"1-18 (no 7)"`
)

// fewSeats is the highest number that may as well say how many seats are missing.
const fewSeats = 3

// Words behind the numbers of seats that are not there, and before them.
var (
	goneWords = []string{"missing", "gone", "absent", "removed", "broken", "fehlt", "fehlen", "manque"}
	butWords  = []string{"no", "not", "except", "excl", "excluding", "without", "minus", "less", "but", "lacking",
		"lacks", "skip", "ohne", "außer", "sauf", "sans", "salvo", "excepto", "senza", "tranne", "manca", "falta",
		"zonder", "behalve", "uden", "uten", "utan", "kromě", "bez"}
)

// readSeats reads "18", "18 seats", "18 each", "1-18", "2-20 even", "1–12, 14–18", "1-18 (no 7)", "1-18, 7 missing" or
// "seats 1 to 18"; why says what is wrong, and unsure that it may mean two things.
func readSeats(text string) (c seatText, why string, unsure bool) {
	if n, ok := cells.Number(text); ok {
		c.count = n
		return c, "", false
	}
	const most = 500 // bytes
	if len(text) > most {
		return c, howMany, false
	}
	bare := strings.TrimSpace(strings.NewReplacer("each", "", "je ", "", "per row", "", "a row", "", "/ row", "",
		"/row", "",
		"in every row", "", "every row", "").Replace(strings.ToLower(text)))
	c.each = bare != strings.TrimSpace(strings.ToLower(text))
	if n, ok := cells.Number(bare); ok {
		c.count = n
		return c, "", false
	}
	words := seatWords(bare)
	var here [][2]int // of this part of the list
	singles, parity, except, few := 0, -1, false, false
	keep := func(gone bool) {
		if gone {
			c.gone = append(c.gone, here...)
		} else {
			c.spans = append(c.spans, here...)
		}
		here = nil
	}
	for i := 0; i < len(words); i++ {
		word := words[i]
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		n, number := seatNumber(word)
		switch {
		case number:
			to := n
			if next == "-" && i+2 < len(words) {
				if to, number = seatNumber(words[i+2]); !number {
					return c, howMany, false
				}
				i += 2
			} else if !except {
				singles++
			}
			c.falls = c.falls || to < n || !except && len(c.spans) > 0 && to < c.spans[len(c.spans)-1][0]
			here = append(here, [2]int{min(n, to), max(n, to)})
		case word == "," || word == ";":
			keep(except)
		case word == "(": // what is in brackets is missing as a whole, or not
			keep(except)
			end := slices.Index(words[i:], ")")
			if end < 0 {
				end = len(words) - i
			}
			except = except || slices.ContainsFunc(words[i:i+end], func(word string) bool {
				return slices.Contains(goneWords, word) || slices.Contains(butWords, word)
			})
		case word == ")":
			keep(except)
			except = false
		case word == "and" || word == "&" || word == "seat" || word == "seats" || word == "numbers" ||
			word == "number" || word == "nos" ||
			word == "places" || word == "chairs" || word == "from" || word == "only" || word == "all" ||
			word == "every" || word == "numbered" || word == "is" || word == "are" ||
			word == "no" && i == 0 || word == "del" || word == "il" || word == "nr" || word == "#" || word == ".":
		case slices.Contains([]string{"even", "evens", "odd", "odds", "gerade", "ungerade", "paires", "impaires",
			"pares", "impares", "pari", "dispari"}, word):
			c.step, parity = 2, 0
			if slices.Contains([]byte("ouid"), word[0]) {
				parity = 1
			}
		case slices.Contains(goneWords, word) && len(here) > 0 && !isNumber(next):
			few = few || len(here) == 1 && here[0][1] <= fewSeats
			singles -= min(singles, len(here))
			keep(true)
		case slices.Contains(butWords, word) || slices.Contains(goneWords, word):
			n, _ := seatNumber(next)
			few = few || (word == "less" || word == "minus") && n <= fewSeats
			keep(except)
			except = true
		default:
			return c, howMany, false
		}
	}
	keep(except)
	c.list = singles > 2 && singles == len(c.spans)
	if few {
		return c, "it may be the number of the missing seat, or how many are missing", true
	}
	return c.checked(parity, singles)
}

// checked says what is wrong with numbers that were read.
func (c seatText) checked(parity, singles int) (seatText, string, bool) {
	slices.SortFunc(c.spans, func(a, b [2]int) int { return a[0] - b[0] })
	total := 0
	for i, s := range c.spans {
		total += s[1] - s[0] + 1
		if i > 0 && s[0] <= c.spans[i-1][1] {
			return c, fmt.Sprintf("seat %d is in it twice", s[0]), true
		}
		if parity >= 0 && (s[0]%2 != parity || s[1]%2 != parity) {
			return c, fmt.Sprintf("%d-%d are not all odd, or not all even", s[0], s[1]), true
		}
	}
	switch {
	case len(c.spans) == 0:
		return c, howMany, false
	case singles == len(c.spans) && !c.list && (len(c.gone) > 0 || singles > 1):
		return c, "it may be a number of seats or the numbers of some", true
	case singles == len(c.spans) && !c.list:
		return c, "it may be a number of seats or the number of one", true
	case total > maxRowSeats || c.spans[len(c.spans)-1][1] > maxRowSeats*10:
		return c, "that many seats cannot be", false
	}
	for _, g := range c.gone {
		if !slices.ContainsFunc(c.spans, func(s [2]int) bool { return s[0] <= g[0] && g[1] <= s[1] }) {
			return c, fmt.Sprintf("seat %d is not among those that are there", g[0]), true
		}
		if c.step == 2 && g[0] == g[1] && g[0]%2 != parity {
			return c, fmt.Sprintf("seat %d is not among those that are there", g[0]), true
		}
	}
	if c.step == 0 && !c.list {
		for _, s := range c.spans {
			if (s[1]-s[0])%2 == 1 {
				c.step = 1
			}
		}
		if slices.ContainsFunc(c.gone, func(g [2]int) bool { return (g[0]-c.spans[0][0])%2 == 1 }) {
			c.step = 1
		}
	}
	return c, "", false
}

func isNumber(word string) bool {
	_, ok := seatNumber(word)
	return ok && word != ""
}

// seatWords parts a list of seats into words, numbers and signs; all dashes, "to" and ".." become "-".
func seatWords(text string) []string {
	text = strings.NewReplacer("–", "-", "—", "-", "‒", "-", "−", "-", "..", "-", "…", "-", "w/o", "without", "t/m",
		"-", "no.",
		"no ", "nos.", "nos ").Replace(text)
	var out []string
	for rest := strings.TrimSpace(text); rest != ""; rest = strings.TrimLeft(rest, " \t\n\u00a0") {
		c := rune(rest[0])
		class := func(is func(rune) bool) int {
			if n := strings.IndexFunc(rest, func(r rune) bool { return !is(r) }); n > 0 {
				return n
			}
			return len(rest)
		}
		n := 1
		switch {
		case unicode.IsDigit(c):
			n = class(func(r rune) bool { return r >= '0' && r <= '9' })
		case c >= 0x80 || unicode.IsLetter(c):
			n = class(func(r rune) bool { return r >= 0x80 || unicode.IsLetter(r) })
		}
		word := rest[:max(n, 1)]
		rest = rest[len(word):]
		switch word {
		case "to", "through", "thru", "until", "bis", "à", "al", "au", "til", "till", "tot", "do", "až":
			word = "-"
		}
		out = append(out, word)
	}
	return out
}

// doubtful is the range of a cell that may be every seat or every second one, if there is one: both its ends are odd,
// or even. What starts at 1 is every seat unless another range of the table starts at 2.
func (c *seatText) doubtful() (span [2]int, ok bool) {
	if c.step != 0 || c.list {
		return span, false
	}
	for _, s := range c.spans {
		if s[0] != s[1] {
			return s, true
		}
	}
	return span, false
}

// settle finds the step and the start of a section's seat numbers, and turns the numbers of its rows into places.
func (s *section) settle(r *reader) {
	var numbered, falls *line // the last ones
	rising := false
	for _, l := range s.lines {
		if l.text.spans != nil {
			numbered = l
		}
		if l.text.falls {
			falls = l
		}
		rising = rising || l.text.spans != nil && !l.text.falls
	}
	switch {
	case numbered == nil:
		return
	case falls == nil || s.has[fFrom]:
	case rising || !falls.leftToRight && !falls.text.list: // a list is written as the seats lie
		r.ask(falls.sheet, falls.row, falls.col,
			"its numbers fall: seat 1 may be on the right, as the camera sees the seats",
			`write the lower number first, and a column "numbered from" with left or right`)
		return
	default:
		s.spec.SeatNumbers.From = seating.Right
	}
	step := s.step(r)
	if step == 0 {
		return
	}
	low, high, even := 0, 0, true
	for _, l := range s.lines {
		t := &l.text
		if t.spans == nil {
			continue
		}
		if low == 0 || t.spans[0][0] < low {
			even = even && low == 0
			low = t.spans[0][0]
		} else if t.spans[0][0] > low {
			even = false
		}
		high = max(high, t.spans[len(t.spans)-1][1])
	}
	for _, l := range s.lines {
		for _, other := range []*line{s.lines[0], s.lines[len(s.lines)-1]} {
			if a, b := l.text.spans, other.text.spans; a != nil && b != nil && (a[0][0] > b[len(b)-1][1] ||
				b[0][0] > a[len(a)-1][1]) {
				r.ask(l.sheet, l.row, l.col,
					fmt.Sprintf("seats run on from row to row: rows %s and %s of section %s have no number in common",
						l.name, other.name, s.spec.Name),
					"rows are numbered alike here: write how many seats each row has")
				return
			}
		}
	}
	rule := &s.spec.SeatNumbers
	if rule.Start == 0 {
		rule.Start = low
	}
	rule.Step = step
	for _, l := range s.lines {
		if l.text.spans != nil && !s.number(r, l) {
			return
		}
	}
	if !even {
		s.spec.Align = seating.AlignLeft
		if rule.From == seating.Right {
			s.spec.Align = seating.AlignRight
		}
	}
	side := "left"
	if rule.From == seating.Right {
		side = "right"
	}
	lines := ""
	if !even {
		lines = "; rows lie so that their numbers line up"
	}
	kind := ""
	if step > 1 {
		kind = fmt.Sprintf(", every %s one", []string{"", "", "second", "third", "fourth"}[min(step, 4)])
	}
	r.note("Section %s: seats are numbered %d to %d%s, from the %s as the camera sees them%s.", s.spec.Name, low,
		high, kind, side, lines)
	if rule.Start == 1 && rule.Step == 1 && rule.From == seating.Left && even {
		*rule = seating.SeatNumbering{} // as they are counted anyway
	}
}

// number turns the numbers of one row into places, of which some are missing.
func (s *section) number(r *reader, l *line) bool {
	rule, t := s.spec.SeatNumbers, &l.text
	last := t.spans[len(t.spans)-1][1]
	for _, span := range t.spans {
		for _, n := range span {
			if n < rule.Start || (n-rule.Start)%rule.Step != 0 {
				r.ask(l.sheet, l.row, l.col,
					fmt.Sprintf("seat %d is not among the numbers of section %s, which start at %d and step by %d", n,
						s.spec.Name, rule.Start, rule.Step),
					"look at the numbers of the section's other rows")
				return false
			}
		}
	}
	l.seats, l.hasSeats = (last-rule.Start)/rule.Step+1, true
	r.places += l.seats
	if l.seats > maxRowSeats || r.places > seating.MaxSeats {
		r.loseOf(l, l.col, tooMany)
		l.seats = 0
		return true
	}
	next := rule.Start
	for _, span := range t.spans {
		if span[0] > next {
			l.holes = append(l.holes, [2]int{next, span[0] - rule.Step})
		}
		next = span[1] + rule.Step
	}
	for _, g := range t.gone {
		from := g[0] + (rule.Step-(g[0]-rule.Start)%rule.Step)%rule.Step
		to := g[1] - (g[1]-rule.Start)%rule.Step
		if from <= to {
			l.holes = append(l.holes, [2]int{from, to})
		}
	}
	slices.SortFunc(l.holes, func(a, b [2]int) int { return a[0] - b[0] })
	return true
}

// step is the step of a section's seat numbers, or 0 where nothing settles it.
func (s *section) step(r *reader) int {
	step := 0
	if s.has[fStep] {
		return max(s.spec.SeatNumbers.Step, 1)
	}
	var by *line
	settle := func(l *line, to int) bool {
		if step != 0 && step != to {
			r.ask(l.sheet, l.row, l.col, fmt.Sprintf("seats of section %s step by %d here and by %d at %s",
				s.spec.Name, to, step, by.sheet.Address(by.row, by.col)),
				"a section has one way of numbering: make two sections of it, or write the numbers alike")
			return false
		}
		step, by = to, l
		return true
	}
	gcd, listed := 0, (*line)(nil)
	for _, l := range s.lines {
		t := &l.text
		if t.list {
			for i := 1; i < len(t.spans); i++ { // a line whose seats were lost has none
				gcd = divisor(gcd, t.spans[i][0]-t.spans[i-1][0])
				listed = l
			}
		}
		to := t.step
		if l.capacity > 0 && t.spans != nil {
			every, second := t.holds(1), t.holds(2)
			holes := slices.ContainsFunc(l.lists, func(c listCell) bool { return c.field == fMissing })
			switch n := l.capacity; {
			case n == every || n == every-t.less() || holes && second < n && n < every:
				to = 1
			case n == second || n == second-t.less() || holes && n < second:
				to = 2
			default:
				r.ask(l.sheet, l.row, l.col, fmt.Sprintf("the numbers are %d seats, and the row's own count is %d",
					every, l.capacity), "mend one of the two")
				return 0
			}
			if t.step != 0 {
				to = t.step
			}
		}
		if to != 0 && !settle(l, to) {
			return 0
		}
	}
	if listed != nil && (step == 0 || gcd%step != 0) && !settle(listed, gcd) {
		return 0
	}
	if step != 0 {
		return step
	}
	for _, l := range s.lines {
		if span, ok := l.text.doubtful(); ok && (span[0] != 1 || r.evenRange) {
			r.ask(l.sheet, l.row, l.col, fmt.Sprintf("%d-%d may be all of these seats, or every second one", span[0],
				span[1]),
				fmt.Sprintf(`write "%d-%d %s" for every second one; for all of them add a column "capacity" with %d`,
					span[0], span[1], []string{"even", "odd"}[span[0]%2], span[1]-span[0]+1))
			return 0
		}
	}
	return 1
}

// holds is how many seats the spans are with a step, less how many of them are gone.
func (t *seatText) holds(step int) (n int) {
	for _, s := range t.spans {
		n += (s[1]-s[0])/step + 1
	}
	return n
}

func (t *seatText) less() (n int) {
	for _, s := range t.gone {
		n += s[1] - s[0] + 1
	}
	return n
}

func divisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// eachOrAll finds out whether what stands beside several rows is each row's number of seats, or all rows' together.
func (s *section) eachOrAll(r *reader) {
	least, most := 0, 0
	for _, l := range s.lines {
		if n := l.seats; n > 0 && l.of < 2 {
			if least == 0 || n < least {
				least = n
			}
			most = max(most, n)
		}
	}
	last := 0
	for _, l := range s.lines {
		if l.of < 2 || l.each || l.seats == 0 || l.group == last {
			continue
		}
		last = l.group
		all := l.seats < fewest*l.of
		likeOthers := least > 0 && l.seats*2 >= least && l.seats <= most*2 && l.seats/l.of*2 < least
		if !all && !likeOthers {
			r.ask(l.sheet, l.row, l.col,
				fmt.Sprintf("it may be the seats of each of the %d rows, or of all of them together", l.of),
				fmt.Sprintf(`write "%d each", or give each row a line of its own`, l.seats))
		}
	}
}

// fewest is how many seats a row has at least where several rows' seats would be told together.
const fewest = 5
