package seating

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// field is what a column or a label of a survey means.
type field uint8

const (
	noField field = iota
	fSection
	fRow
	fRows
	fSeats
	fBench
	fMissing
	fReserved
	fWheelchair
	fCompanion
	fPlatform
	fRail
	fNobody
	fPitch
	fRise
	fRun
	fFirstRow
	fSeatBoard
	fAisle
	fCross
	fRadius
	fKind
	fFrom
	fStart
	fStep
	fPosted
	fPeople
	fUnits
)

// fieldWords are the names that crews give columns and labels, in small letters and single blanks.
var fieldWords = []struct {
	field field
	words []string
}{
	{fSection, []string{"section", "sec", "sect", "block", "stand", "stands", "bleacher", "bay", "section name", "area"}},
	{fRow, []string{"row", "row name", "row no", "row number", "row id", "row nr", "tier", "row label"}},
	{fRows, []string{"rows", "number of rows", "no of rows", "row count"}},
	{fSeats, []string{"seats", "seat", "seat count", "number of seats", "no of seats", "nr of seats", "seats per row", "seats in row", "seats row", "places", "chairs", "seats counted", "counted", "count", "people per row"}},
	{fBench, []string{"bench", "bench length", "bench len", "length", "row length", "bench size", "length of bench", "plank", "board length"}},
	{fPitch, []string{"pitch", "seat pitch", "seat width", "seat spacing", "spacing", "width per seat", "width per person", "bench pitch"}},
	{fMissing, []string{"missing", "missing seats", "seats missing", "gone", "broken", "not there", "removed", "absent", "gaps", "missing places"}},
	{fReserved, []string{"reserved", "reserved seats", "kept", "kept free", "reserved for"}},
	{fWheelchair, []string{"wheelchair", "wheelchairs", "wheelchair places", "wheelchair spaces", "accessible"}},
	{fCompanion, []string{"companion", "companions", "companion seats"}},
	{fPlatform, []string{"platform", "camera platform"}},
	{fRail, []string{"rail", "rails", "railing"}},
	{fNobody, []string{"nobody", "closed", "blocked", "empty"}},
	{fRise, []string{"rise", "riser", "row rise", "step height", "rise per row", "step up"}},
	{fRun, []string{"run", "tread", "row depth", "depth", "row spacing", "run per row", "step depth", "row to row"}},
	{fFirstRow, []string{"first row", "first row height", "front row height", "height of first row", "front height", "height of front row"}},
	{fSeatBoard, []string{"seat board", "seat board height", "seat height", "bench height", "height of seat board", "seatboard"}},
	{fAisle, []string{"aisle", "aisle width", "aisle to next", "aisle to the next", "aisle right", "aisle on the right", "gap"}},
	{fCross, []string{"cross aisle", "crossaisle", "cross aisle behind", "walkway", "walkway behind", "cross aisle depth"}},
	{fRadius, []string{"radius", "curve", "curve radius"}},
	{fKind, []string{"kind", "type", "seating", "kind of seating"}},
	{fFrom, []string{"numbered from", "numbers from", "seat numbers from", "seats from", "from", "seat 1 at"}},
	{fStart, []string{"first seat", "first number", "first seat number", "start", "seat numbers start"}},
	{fStep, []string{"number step", "seat number step", "step of numbers"}},
	{fPosted, []string{"posted", "posted capacity", "posted count", "posted load", "posted limit", "posted occupant load", "occupant load", "max occupancy", "maximum occupancy", "sign says", "capacity sign", "posted occupancy", "maximum occupant load"}},
	{fPeople, []string{"people", "people invited", "invited", "students", "guests", "roster", "people expected", "head count", "headcount"}},
	{fUnits, []string{"unit", "units", "all lengths in", "all measures in", "lengths in", "measured in", "lengths", "all lengths"}},
}

// fieldOf finds what a name means and which unit it gives.
func fieldOf(text string) (f field, unit Length) {
	words, unit := splitUnit(text)
	if i := meaning(words, len(fieldWords), func(i int) []string { return fieldWords[i].words }); i >= 0 {
		return fieldWords[i].field, unit
	}
	return noField, unit
}

// splitUnit takes a unit off the end of a name: "Rise (in)", "run [mm]", "pitch, cm", "rise in inches".
func splitUnit(text string) (words string, unit Length) {
	fields := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '"' && r != '\'' })
	if n := len(fields); n > 1 {
		if unit = unitWord(fields[n-1]); unit != 0 {
			if fields = fields[:n-1]; len(fields) > 1 && fields[len(fields)-1] == "in" {
				fields = fields[:len(fields)-1]
			}
		}
	}
	return strings.Join(fields, " "), unit
}

// unitWord is the length of a unit, or 0.
func unitWord(word string) Length {
	word = foldLength(word)
	for _, u := range lengthUnits {
		if u.word == word {
			return u.size
		}
	}
	return 0
}

// plain is text in small letters, with single blanks for everything else.
func plain(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

// nothing says whether a cell says that there is nothing.
func nothing(text string) bool {
	switch plain(text) {
	case "", "none", "no", "n a", "na", "nil", "0":
		return !strings.ContainsAny(text, "?!")
	}
	return false
}

// wholeNumber reads "15", "15.0", "1,200" or "15 seats".
func wholeNumber(text string) (int, error) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, word := range []string{"seats", "seat", "places", "people", "persons", "pers.", "rows", "chairs"} {
		t = strings.TrimSpace(strings.TrimSuffix(t, word))
	}
	t = strings.TrimSuffix(t, ".0")
	if head, tail, ok := strings.Cut(t, ","); ok && len(tail) == 3 && len(head) <= 3 && head != "" && head != "0" {
		t = head + tail
	}
	n, err := strconv.Atoi(t)
	if err != nil || t[0] == '+' || n > MaxPeople || n < 0 {
		return 0, fmt.Errorf("no whole number")
	}
	return n, nil
}

// months by their first letters in the languages whose spreadsheets are likeliest here.
var months = [12][]string{
	{"jan", "ene"}, {"feb", "fév", "fev"}, {"mar", "mär", "mrz"}, {"apr", "avr", "abr"}, {"may", "mai"}, {"jun", "juin"},
	{"jul", "juil"}, {"aug", "aoû", "ago"}, {"sep", "sept"}, {"oct", "okt"}, {"nov"}, {"dec", "dez", "déc", "dic"},
}

func monthOf(word string) int {
	for m, names := range months {
		for _, n := range names {
			if word == n || strings.HasPrefix(word, n) && len(n) >= 3 && len(word) <= 9 && isMonthTail(word) {
				return m + 1
			}
		}
	}
	return 0
}

// isMonthTail keeps words like "mark" from being taken for March: long forms are listed.
func isMonthTail(word string) bool {
	switch word {
	case "january", "february", "march", "april", "june", "july", "august", "september", "october", "november", "december", "januar", "februar", "märz", "juni", "juli", "oktober", "dezember":
		return true
	}
	return false
}

// mangledDate says what a text that looks like a date probably was before a
// spreadsheet made a date of it, like `"3-5" or "5-3"`; "" for other texts.
func mangledDate(text string) string {
	if len(text) > 40 {
		return ""
	}
	t := strings.ToLower(text)
	if head, tail, ok := strings.Cut(t, " "); ok && strings.Count(tail, ":") >= 1 && strings.Trim(tail, "0123456789:.apm ") == "" {
		t = head // a time of day behind the date
	}
	if head, tail, ok := strings.Cut(t, "t00:"); ok && strings.Trim(tail, "0123456789:.z") == "" {
		t = head
	}
	parts := strings.FieldsFunc(t, func(r rune) bool { return strings.ContainsRune("-/. \u00a0,", r) })
	if len(parts) < 2 || len(parts) > 3 {
		return ""
	}
	month := 0
	var numbers []int
	for _, p := range parts {
		if m := monthOf(p); m != 0 && month == 0 {
			month = m
			continue
		}
		n, err := strconv.Atoi(p)
		if err != nil || n < 0 || len(p) == 3 || len(p) > 4 {
			return ""
		}
		numbers = append(numbers, n)
	}
	switch {
	case month != 0 && len(numbers) > 0:
		n := numbers[0]
		if n > 999 && len(numbers) > 1 {
			n = numbers[1]
		}
		return asRange(month, n%100)
	case len(numbers) == 3 && strings.ContainsAny(t, "-/."):
		return numberDate(parts, numbers)
	}
	return ""
}

// numberDate reads 2026-05-09, 5/9/2026 and 09.05.26.
func numberDate(parts []string, n []int) string {
	a, b, year := n[0], n[1], parts[2]
	if len(parts[0]) == 4 {
		a, b, year = n[1], n[2], parts[0]
	}
	if len(year) != 4 && len(year) != 2 || a < 1 || b < 1 || a > 31 || b > 31 || min(a, b) > 12 {
		return ""
	}
	return asRange(a, b)
}

func asRange(a, b int) string {
	if a == b {
		return fmt.Sprintf(`"%d-%d"`, a, b)
	}
	return fmt.Sprintf(`"%d-%d" or "%d-%d"`, a, b, b, a)
}

// seatSpans reads "3, 7-9", "3;7–9", "seats 3 and 7 to 9" or "all" (from 0 to 0).
func seatSpans(text string) ([][2]int, error) {
	if len(text) > maxSpanText {
		return nil, fmt.Errorf("it is too long to be a list of seats")
	}
	t := strings.ToLower(text)
	for _, r := range []struct{ from, to string }{
		{"–", "-"}, {"—", "-"}, {"‒", "-"}, {"−", "-"}, {"..", "-"}, {"…", "-"}, {" through ", "-"}, {" thru ", "-"}, {" to ", "-"}, {" and ", ","},
		{"seats", " "}, {"seat", " "}, {"nos.", " "}, {"no.", " "}, {"#", " "},
	} {
		t = strings.ReplaceAll(t, r.from, r.to)
	}
	for strings.Contains(t, " -") || strings.Contains(t, "- ") {
		t = strings.ReplaceAll(strings.ReplaceAll(t, " -", "-"), "- ", "-")
	}
	if strings.TrimSpace(t) == "all" {
		return [][2]int{{0, 0}}, nil
	}
	var out [][2]int
	for _, part := range strings.FieldsFunc(t, func(r rune) bool { return r == ',' || r == ';' || r == '&' || r == '+' || unicode.IsSpace(r) }) {
		from, to, ranged := strings.Cut(part, "-")
		if !ranged {
			to = from
		}
		a, err := seatNumber(from)
		b, err2 := seatNumber(to)
		if err != nil || err2 != nil {
			return nil, fmt.Errorf("%q is no seat number or range like 3-5", part)
		}
		out = append(out, [2]int{a, b})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("it holds no seat numbers")
	}
	return out, nil
}

func seatNumber(text string) (int, error) {
	if text == "" || len(text) > 8 || strings.Trim(text, "0123456789") != "" {
		return 0, fmt.Errorf("no seat number")
	}
	return strconv.Atoi(text)
}
