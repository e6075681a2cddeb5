package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"everyseat/seating"
	"everyseat/seating/cells"
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
	fWheelchair // and those that follow, as seating.ReservedFor has them
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

// fieldNames are the names that crews give columns and labels, by field, in small letters and single blanks.
var fieldNames = [][]string{
	fSection: {"section", "sec", "sect", "block", "stand", "stands", "bleacher", "bay", "section name", "area"},
	fRow:     {"row", "row name", "row no", "row number", "row id", "row nr", "tier", "row label"},
	fRows:    {"rows", "number of rows", "no of rows", "row count"},
	fSeats: {
		"seats", "seat", "seat count", "number of seats", "no of seats", "nr of seats", "seats per row",
		"seats in row", "seats row", "places", "chairs", "seats counted", "counted", "count", "people per row",
	},
	fBench: {
		"bench", "bench length", "bench len", "length", "row length", "bench size", "length of bench", "plank",
		"board length",
	},
	fPitch: {
		"pitch", "seat pitch", "seat width", "seat spacing", "spacing", "width per seat", "width per person",
		"bench pitch",
	},
	fMissing: {
		"missing", "missing seats", "seats missing", "gone", "broken", "not there", "removed", "absent", "gaps",
		"missing places",
	},
	fReserved:   {"reserved", "reserved seats", "kept", "kept free", "reserved for"},
	fWheelchair: {"wheelchair", "wheelchairs", "wheelchair places", "wheelchair spaces", "accessible"},
	fCompanion:  {"companion", "companions", "companion seats"},
	fPlatform:   {"platform", "camera platform"},
	fRail:       {"rail", "rails", "railing"},
	fNobody:     {"nobody", "closed", "blocked", "empty"},
	fRise:       {"rise", "riser", "row rise", "step height", "rise per row", "step up"},
	fRun:        {"run", "tread", "row depth", "depth", "row spacing", "run per row", "step depth", "row to row"},
	fFirstRow: {
		"first row", "first row height", "front row height", "height of first row", "front height",
		"height of front row",
	},
	fSeatBoard: {
		"seat board", "seat board height", "seat height", "bench height", "height of seat board", "seatboard",
	},
	fAisle: {
		"aisle", "aisle width", "aisle to next", "aisle to the next", "aisle right", "aisle on the right", "gap",
	},
	fCross:  {"cross aisle", "crossaisle", "cross aisle behind", "walkway", "walkway behind", "cross aisle depth"},
	fRadius: {"radius", "curve", "curve radius"},
	fKind:   {"kind", "type", "seating", "kind of seating"},
	fFrom:   {"numbered from", "numbers from", "seat numbers from", "seats from", "from", "seat 1 at"},
	fStart:  {"first seat", "first number", "first seat number", "start", "seat numbers start"},
	fStep:   {"number step", "seat number step", "step of numbers"},
	fPosted: {
		"posted", "posted capacity", "posted count", "posted load", "posted limit", "posted occupant load",
		"occupant load", "max occupancy", "maximum occupancy", "sign says", "capacity sign", "posted occupancy",
		"maximum occupant load",
	},
	fPeople: {
		"people", "people invited", "invited", "students", "guests", "roster", "people expected", "head count",
		"headcount",
	},
	fUnits: {
		"unit", "units", "all lengths in", "all measures in", "lengths in", "measured in", "lengths",
		"all lengths",
	},
}

// fieldOf finds what a name means and which unit stands at its end: "Rise (in)", "run [mm]", "pitch, cm", "rise in
// inches".
func fieldOf(text string) (f field, unit seating.Length) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '"' && r != '\''
	})
	if n := len(words); n > 1 {
		if unit = seating.Unit(words[n-1]); unit != 0 {
			if words = words[:n-1]; n > 2 && words[n-2] == "in" {
				words = words[:n-2]
			}
		}
	}
	return field(max(0, cells.Meaning(strings.Join(words, " "), fieldNames))), unit
}

// nothing says whether a cell says that there is nothing.
func nothing(text string) bool {
	return slices.Contains([]string{"", "none", "no", "n a", "na", "nil", "0"}, cells.Plain(text)) &&
		!strings.ContainsAny(text, "?!")
}

func kindOf(text string) (kind seating.Kind, ok bool) {
	switch cells.Plain(text) {
	case "bench", "benches", "bleacher", "bleachers", "plank":
		return seating.Bench, true
	case "chair", "chairs", "seats":
		return seating.Chairs, true
	case "floor", "floor block", "on the floor":
		return seating.Floor, true
	}
	return 0, false
}

func sideOf(text string) (side seating.Side, ok bool) {
	switch cells.Plain(text) {
	case "left", "l", "from left", "camera left", "from the left":
		return seating.Left, true
	case "right", "r", "from right", "camera right", "from the right":
		return seating.Right, true
	}
	return 0, false
}

// sectionTitle takes "Section" and its like off a title, rowTitle "Row" off a row's name.
func sectionTitle(text string) string {
	return without(text, "section", "block", "stand", "bleacher", "sec.")
}

func rowTitle(text string) string {
	if name := without(text, "row"); name != text {
		return name
	}
	return strings.TrimSuffix(text, ".0")
}

// without takes the first of the words that a name stands behind off the text, with what parts them.
func without(text string, words ...string) string {
	for _, word := range words {
		if len(text) > len(word) && strings.EqualFold(text[:len(word)], word) {
			if name := strings.TrimLeft(text[len(word):], " :."); name != "" && len(name) < len(text)-len(word) {
				return name
			}
		}
	}
	return text
}

// seatRanges reads "3, 7-9", "3;7–9", "seats 3 and 7 to 9" or "all" (from 0 to 0).
func seatRanges(text string) ([][2]int, error) {
	const most = 2_000 // bytes
	if len(text) > most {
		return nil, fmt.Errorf("it is too long to be a list of seats")
	}
	t := strings.ToLower(text)
	for _, r := range []struct{ from, to string }{
		{"–", "-"}, {"—", "-"}, {"‒", "-"}, {"−", "-"}, {"..", "-"}, {"…", "-"},
		{" through ", "-"}, {" thru ", "-"}, {" to ", "-"}, {" and ", ","},
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
	parts := func(r rune) bool { return strings.ContainsRune(",;&+", r) || unicode.IsSpace(r) }
	for _, listed := range strings.FieldsFunc(t, parts) {
		from, to, ranged := strings.Cut(listed, "-")
		if !ranged {
			to = from
		}
		a, ok := seatNumber(from)
		b, ok2 := seatNumber(to)
		if !ok || !ok2 {
			return nil, fmt.Errorf("%q is no seat number or range like 3-5", listed)
		}
		out = append(out, [2]int{a, b})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("it holds no seat numbers")
	}
	return out, nil
}

func seatNumber(text string) (n int, ok bool) {
	if len(text) > 8 || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return n, err == nil
}
