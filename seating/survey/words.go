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
	fRowFrom
	fRowTo
	fSeats
	fCapacity
	fSeat
	fFirst
	fLast
	fBench
	fMissing
	fReserved
	fWheelchair // and those that follow, as seating.ReservedFor has them
	fCompanion
	fPlatform
	fRail
	fNobody
	fMissingCount
	fHeight
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
	fSection: {"part", "terrace", "bank", "side", "seite", "bereich", "sektor", "tribüne", "travée", "bloc",
		"secteur", "grada", "bloque", "zona", "settore", "blocco", "setor", "bancada", "vak", "felt", "sektion",
		"section", "sec", "sect", "block", "stand", "stands", "bleacher", "bay", "section name", "area",
		"section no", "block name", "stand name", "sector", "zone", "wing", "tribune"},
	fRow: {"which row", "reihe", "rang", "fila", "rij", "række", "rad", "rekke", "rząd", "řada", "rivi", "row",
		"row name", "row no", "row number", "row id", "row nr", "tier", "row label"},
	fRows: {"reihen", "rangs", "filas", "file", "rijen", "rækker", "rader", "rzędy", "řady", "rivit", "rows",
		"number of rows", "no of rows", "row count"},
	fRowFrom: {"row from", "from row", "rows from", "start row", "lowest row"}, // and fFirstRow beside fRowTo
	fRowTo:   {"row to", "to row", "rows to", "last row", "end row", "highest row"},
	fSeats: {"plätze", "sitze", "sitzplätze", "stühle", "sièges", "asientos", "plazas", "butacas", "posti",
		"lugares", "stoelen", "plaatsen", "pladser", "plasser", "platser", "seter", "miejsca", "sedadla", "místa",
		"paikat", "seats", "places", "chairs", "seat numbers", "seat nos", "seats numbered", "seat range",
		"seats from to", "seat numbering", "numbers"},
	fCapacity: {"how many", "how many seats", "what fits", "people it holds", "holds", "anzahl", "anzahl sitze",
		"anzahl plätze", "plätze je reihe", "sitze je reihe", "nb de places", "nombre de places", "nombre",
		"número de asientos", "aantal stoelen", "aantal", "antal pladser", "antal platser", "antall seter", "antal",
		"liczba miejsc", "počet sedadel", "paikkoja", "capacity", "cap", "row capacity", "seat count",
		"number of seats", "no of seats", "nr of seats", "seats per row", "seats in row", "seats row",
		"seats counted", "counted", "count", "people per row", "seat total", "total seats", "seats each",
		"seats in each row", "seats a row"},
	fSeat: {"platz", "sitz", "siège", "asiento", "posto", "stoel", "sete", "plats", "miejsce", "sedadlo", "seat",
		"seat no", "seat number", "seat nr"}, // a line a seat
	fFirst: {"sitz von", "platz von", "von", "erster platz", "première place", "desde", "sete fra", "plats från",
		"miejsce od", "od", "first", "first seat", "from seat", "start", "start seat", "lowest seat",
		"first seat no", "first seat number", "lowest"},
	fLast: {"sitz bis", "platz bis", "bis", "letzter platz", "dernière place", "hasta", "sete til", "plats till",
		"miejsce do", "last", "last seat", "to", "to seat", "end", "end seat", "highest seat", "last seat no",
		"seat to", "seats to", "last seat number", "highest"},
	fBench: {"bench", "bench length", "bench len", "length", "row length", "bench size", "length of bench", "plank",
		"board length"},
	fPitch: {"pitch", "seat pitch", "seat width", "seat spacing", "spacing", "width per seat", "width per person",
		"bench pitch"},
	fMissing: {"fehlt", "fehlen", "fehlende plätze", "manque", "manquent", "falta", "faltan", "manca", "mancano",
		"ontbreekt", "mangler", "saknas", "brak", "chybí", "puuttuu", "missing", "missing seats", "seats missing",
		"gone", "broken", "not there", "removed", "absent", "gaps", "missing places", "missing seat",
		"missing seat numbers", "missing seat nos", "missing numbers", "missing nos", "which seats are missing",
		"which are missing", "damaged", "unusable", "out of order"},
	fHeight: {"height", "elevation", "höhe", "hauteur", "altura", "altezza", "hoogte", "højde", "høyde", "höjd",
		"wysokość", "výška", "korkeus"},
	fReserved:   {"reserved", "reserved seats", "kept", "kept free", "reserved for"},
	fWheelchair: {"wheelchair", "wheelchairs", "wheelchair places", "wheelchair spaces", "accessible"},
	fCompanion:  {"companion", "companions", "companion seats"},
	fPlatform:   {"platform", "camera platform"},
	fRail:       {"rail", "rails", "railing"},
	fNobody:     {"nobody", "closed", "blocked", "empty"},
	fRise:       {"rise", "riser", "row rise", "step height", "rise per row", "step up"},
	fRun:        {"run", "tread", "row depth", "depth", "row spacing", "run per row", "step depth", "row to row"},
	fFirstRow: {"first row", "first row height", "front row height", "height of first row", "front height",
		"height of front row"},
	fSeatBoard: {"seat board", "seat board height", "seat height", "bench height", "height of seat board",
		"seatboard"},
	fAisle: {"aisle", "aisle width", "aisle to next", "aisle to the next", "aisle right", "aisle on the right",
		"gap"},
	fCross:  {"cross aisle", "crossaisle", "cross aisle behind", "walkway", "walkway behind", "cross aisle depth"},
	fRadius: {"radius", "curve", "curve radius"},
	fKind:   {"kind", "type", "seating", "kind of seating"},
	fFrom: {"numbered from", "numbers from", "seat numbers from", "seat 1 at", "from", "seats from",
		"seat from"}, // the last three are fFirst beside fLast
	fStart: {"first number", "seat numbers start"}, // and fFirst where there is no fLast
	fStep:  {"number step", "seat number step", "step of numbers"},
	fPosted: {"posted", "posted capacity", "posted count", "posted load", "posted limit", "posted occupant load",
		"occupant load", "max occupancy", "maximum occupancy", "sign says", "capacity sign", "posted occupancy",
		"maximum occupant load"},
	fPeople: {"people", "people invited", "invited", "students", "guests", "roster", "people expected", "head count",
		"headcount"},
	fUnits: {"unit", "units", "all lengths in", "all measures in", "lengths in", "measured in", "lengths",
		"all lengths"},
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
	if f = field(max(0, cells.Meaning(strings.Join(words, " "), fieldNames))); f == noField {
		if head, _, ok := strings.Cut(text, "("); ok && head != "" { // a remark in brackets
			f, _ = fieldOf(head)
		}
	}
	if f == noField && (len(words) > 1 || unit != 0) {
		f = fieldByWords(words)
	}
	return f, unit
}

// fieldByWords tells a name that nobody has listed by a word in it that has one meaning.
func fieldByWords(words []string) field {
	if len(words) > 6 {
		return noField
	}
	says := func(some ...string) bool {
		return slices.ContainsFunc(words, func(word string) bool { return slices.Contains(some, word) })
	}
	switch {
	case says("missing", "broken", "gone", "removed", "damaged", "unusable", "absent"):
		switch {
		case says("number", "count", "many", "total", "no", "nr") && !says("numbers", "nos", "which"):
			return fMissingCount
		case says("seat", "seats", "places", "chairs", "nos", "numbers"):
			return fMissing
		}
	case says("height", "elevation", "level", "levels") && !says("seat", "board", "bench", "first", "front"):
		return fHeight
	case says("from", "to", "distance") && !says("seat", "seats", "row", "rows", "nr", "no", "number", "numbers"):
		if side, _ := sideSaid(words); side != 0 {
			return fHeight
		}
	}
	return noField
}

// nothing says whether a cell says that there is nothing.
func nothing(text string) bool {
	return slices.Contains([]string{"", "none", "no", "n a", "na", "nil", "0"}, cells.Plain(text)) &&
		!strings.ContainsAny(text, "?!\"“”〃″")
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
	name := without(text, "section", "block", "stand", "bleacher", "sec.")
	if name != text { // remarks stand behind it
		for _, mark := range []string{":", " - ", " – ", " (", ","} {
			if head, _, ok := strings.Cut(name, mark); ok && strings.TrimSpace(head) != "" {
				name = strings.TrimSpace(head)
			}
		}
	}
	return name
}

func rowTitle(text string) string {
	if name := without(text, "rows", "row"); name != text {
		return name
	}
	if name, ok := strings.CutSuffix(text, " row"); ok || len(text) > 4 &&
		strings.EqualFold(text[len(text)-4:], " row") {
		if !ok {
			name = text[:len(text)-4]
		}
		return strings.TrimSpace(name)
	}
	if name, ok := strings.CutSuffix(text, "."); ok && isNumber(name) {
		return name
	}
	return strings.TrimSuffix(text, ".0")
}

// rowNamed is a row's name less the words for its side that stand behind it or in brackets: 1 of "Row 1 (front)", 5 of
// "5th row".
func rowNamed(text string) string {
	name := rowTitle(text)
	if head, tail, ok := cutAny(name, "([,:-–—"); ok {
		if side, bare := sideOfText(tail); side != 0 && bare {
			if _, n := rankOf(strings.TrimSpace(rowTitle(head))); n > 0 {
				name = strings.TrimSpace(rowTitle(head))
			}
		} else if side, bare := sideOfText(head); side != 0 && bare {
			if _, n := rankOf(strings.Trim(rowTitle(strings.TrimSpace(tail)), " )]")); n > 0 {
				name = strings.Trim(rowTitle(strings.TrimSpace(tail)), " )]")
			}
		}
	}
	if head, tail, ok := strings.Cut(name, " "); ok { // "1 front", but not "Upper 1"
		if _, number := seatNumber(head); number {
			if side, bare := sideOfText(tail); side != 0 && bare {
				name = head
			}
		}
	}
	if n := ordinal(name); n > 0 {
		return strconv.Itoa(n)
	}
	return name
}

func cutAny(text, marks string) (head, tail string, ok bool) {
	i := strings.IndexAny(text, marks)
	if i < 0 {
		return text, "", false
	}
	return text[:i], strings.TrimLeft(text[i:], marks), true
}

// rowsNamed are the names of the rows that one text names: "1-5", "A to F", "Rows 1, 2 and 3"; nil for one row. unsure
// says that letters between them include I or O, which rows often leave out.
func rowsNamed(text string) (out []string, unsure bool) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.ToLower(without(text, "rows", "row")), "each"))
	parted := strings.ContainsAny(t, "-–—,&;") || strings.Contains(t, " to ") || strings.Contains(t, " and ") ||
		strings.Contains(t, "..") || strings.Contains(t, " through ") || strings.Contains(t, " thru ")
	if len(t) > 80 || !parted {
		return nil, false
	}
	all := ""
	words := slices.DeleteFunc(seatWords(t), func(word string) bool {
		return slices.Contains([]string{",", "and", "&", ";", "row", "rows"}, word)
	})
	for i := 0; i < len(words); i++ {
		kind, n := rankOf(words[i])
		if n == 0 || kind != "" && kind != "letters" || i > 0 && kind != all {
			return nil, false
		}
		all = kind
		to := n
		if i+2 < len(words) && words[i+1] == "-" {
			toKind, n2 := rankOf(words[i+2])
			if n2 == 0 || toKind != kind {
				return nil, false
			}
			to = n2
			i += 2
		}
		step := 1
		if to < n {
			step = -1
		}
		if (to-n)*step >= seating.MaxRows || len(out) >= seating.MaxRows {
			return nil, false
		}
		for ; ; n += step {
			if kind == "letters" {
				name := seating.AllLetters.Name(n - 1)
				unsure = unsure || name == "I" || name == "O"
				out = append(out, name)
			} else {
				out = append(out, strconv.Itoa(n-1))
			}
			if n == to {
				break
			}
		}
	}
	if len(out) < 2 {
		return nil, false
	}
	return out, unsure
}

// headingOf is the section's name in a line such as "SECTION A" or "West stand"; "" for other texts.
func headingOf(text string) string {
	if len(text) > 60 {
		return ""
	}
	if name := sectionTitle(text); name != text {
		if strings.ContainsAny(text, ":.") || len(strings.Fields(name)) <= 3 {
			return name
		}
		return ""
	}
	words := strings.Fields(text)
	if n := len(words); n > 1 && n <= 3 && slices.Contains([]string{"section", "block", "stand", "bleacher",
		"bleachers", "wing", "stands"}, strings.ToLower(words[n-1])) {
		return text
	}
	return ""
}

// hasWord says whether a text holds three letters or more, as every word that is looked for does.
func hasWord(text string) bool {
	letters := 0
	for i := 0; i < len(text) && letters < 3; i++ {
		if text[i] >= 0x80 || unicode.IsLetter(rune(text[i])) {
			letters++
		}
	}
	return letters == 3
}

// isWalkway says whether a text is a word for a way between rows, with at most its depth beside it.
func isWalkway(text string) (depth string, ok bool) {
	if !hasWord(text) {
		return "", false
	}
	words := strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsSpace(r) || strings.ContainsRune("(),:-–—", r)
	})
	if len(words) > 6 {
		return "", false
	}
	var rest []string
	for _, word := range words {
		switch strings.ToLower(word) {
		case "walkway", "aisle", "gangway", "crossaisle", "concourse", "vomitory", "passage", "passageway", "gap",
			"walk":
			ok = true
		case "cross", "deep", "wide", "the", "depth":
		default:
			rest = append(rest, word)
		}
	}
	depth = strings.Join(rest, " ")
	if depth != "" {
		if _, err := seating.ParseLength(depth); err != nil {
			return "", false
		}
	}
	return depth, ok
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
	words := slices.DeleteFunc(seatWords(strings.ToLower(text)), func(word string) bool {
		return slices.Contains([]string{",", ";", "&", "+", "and", "seat", "seats", "#", "no", "nos", "number",
			"numbers"}, word)
	})
	if slices.Equal(words, []string{"all"}) {
		return [][2]int{{0, 0}}, nil
	}
	var out [][2]int
	for i := 0; i < len(words); i++ {
		a, ok := seatNumber(words[i])
		b := a
		if ok && i+1 < len(words) && words[i+1] == "-" {
			if i += 2; i < len(words) {
				b, ok = seatNumber(words[i])
			}
			ok = ok && i < len(words)
		}
		if !ok {
			return nil, fmt.Errorf("%q is no seat number or range like 3-5", words[min(i, len(words)-1)])
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
