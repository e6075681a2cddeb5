package people

import (
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// field is what a column of a roster means.
type field int

const (
	fPerson field = iota
	fGiven
	fFamily
	fGroup
	fCount
	fNeeds
	fWheelchair
	fCompanion
	fRoom
	fDoor
	fTime
	fLeader
	fComes
	noField field = -1
)

// fieldNames are the names that people give columns, by field, in small letters and single blanks.
var fieldNames = [][]string{
	fPerson: {"person", "name", "full name", "names", "student", "student name", "pupil", "participant",
		"attendee", "guest", "singer", "member", "child", "who", "code", "person code", "id", "student id", "ticket",
		"who comes", "nom", "nombre", "naam", "namn", "nome", "nome e cognome", "pupil name", "pupil s name",
		"student s name", "child s name", "name of pupil", "name of student"},
	fGiven:  {"vorname", "prénom", "voornaam", "förnamn", "first name", "given name", "forename", "first", "given"},
	fFamily: {"nachname", "last name", "surname", "family name", "second name", "last"},
	fGroup: {"group", "group name", "class", "class name", "form", "club", "choir", "ward", "team", "society",
		"guild", "band", "crew", "grade", "year group", "troop", "company", "department", "homeroom", "klasse",
		"tutor group", "form group", "class group", "gruppe", "classe", "groupe", "clase", "grupo", "gruppo",
		"groep", "klas", "klass", "verein", "chor", "équipe", "equipo", "squadra"},
	fCount: {"count", "people", "number", "number of people", "no of people", "how many", "head count",
		"headcount", "heads", "size", "group size", "students", "pupils", "members", "persons", "participants",
		"personen", "personnes", "personas", "persone", "anzahl", "antal", "aantal", "total people", "strength",
		"number of students", "number of pupils", "no of students", "no of pupils"},
	fNeeds: {"needs", "need", "special needs", "access", "access needs", "accessibility", "support",
		"assistance", "requirements"},
	fWheelchair: {"wheelchair", "wheelchairs", "wheelchair user", "wheelchair users", "wheelchair place",
		"wheelchair places", "in a wheelchair", "uses a wheelchair", "needs a wheelchair place", "rollstuhl",
		"rollstuhlplatz", "fauteuil roulant", "silla de ruedas", "sedia a rotelle", "carrozzina", "rolstoel",
		"w chair", "wch"},
	fCompanion: {"companion", "companions", "carer", "carers", "companion place", "companion places",
		"begleitperson", "accompagnateur", "acompañante", "accompagnatore", "begeleider"},
	fRoom: {"room", "from room", "from", "comes from", "classroom", "class room", "waits in", "meeting room",
		"place"},
	fDoor: {"door", "entrance", "through door", "by door", "gate", "entry"},
	fTime: {"time", "at", "comes at", "arrives", "arrival", "arrival time", "when", "call time"},
	fLeader: {"leader", "group leader", "led by", "teacher", "class teacher", "helper", "helpers",
		"leader helper", "helper leader", "role", "tutor", "in charge", "conductor", "coach"},
	fComes: {"coming", "comes", "is coming", "will come", "attending", "attends", "takes part", "taking part", "kommt",
		"nimmt teil", "vient", "viene", "komt", "kommer"},
}

// answer is what a cell says to a question of yes or no.
type answer uint8

const (
	blank answer = iota
	yes
	no
	unknown // it says that it does not say
	other   // it says something else
)

// answers are the words that are taken for one, in small letters.
var answers = map[string]answer{
	"yes": yes, "y": yes, "x": yes, "true": yes, "1": yes, "ja": yes, "j": yes, "oui": yes, "si": yes, "sí": yes,
	"sì": yes, "sim": yes, "da": yes, "tak": yes, "ok": yes, "okay": yes, "allowed": yes, "granted": yes,
	"given": yes, "permitted": yes, "agreed": yes, "erlaubt": yes, "✓": yes, "✔": yes, "☑": yes, "✅": yes,
	"no": no, "n": no, "false": no, "0": no, "non": no, "nein": no, "nie": no, "nee": no, "não": no, "not given": no,
	"not allowed": no, "not granted": no, "refused": no, "withheld": no, "withdrawn": no, "declined": no, "denied": no,
	"verboten": no,
	"?":        unknown, "??": unknown, "???": unknown, "-": unknown, "–": unknown, "—": unknown, "unknown": unknown,
	"not known": unknown, "pending": unknown, "n/a": unknown, "n.a": unknown, "na": unknown, "not yet": unknown,
	"tbc": unknown, "tbd": unknown, "unbekannt": unknown, "offen": unknown, "open": unknown, "ask": unknown,
	"missing": unknown, "waiting": unknown, "maybe": unknown, "perhaps": unknown, "onbekend": unknown,
	"vielleicht": unknown,
}

// answerOf takes a cell for an answer only where that is all it says: "yes, no close-ups" is another.
func answerOf(text string) answer {
	if text == "" {
		return blank
	}
	words := strings.Trim(norm.NFC.String(strings.ToLower(strings.Join(strings.Fields(text), " "))), ".!\ufe0e\ufe0f")
	if a, ok := answers[words]; ok {
		return a
	}
	return other
}

// Words for a place in a wheelchair and for whoever comes with it, as folded gives them.
var (
	ofWheelchair = []string{"wheelchair", "wheel chair", "rollstuhl", "fauteuil roulant", "fauteuils roulants",
		" w chair ", "silla de ruedas",
		"sedia a rotelle", "carrozzina", "rolstoel"}
	ofCompanion = []string{"companion", " carer", " assistant", " pushes ", "begleit", "accompagn", "acompan",
		"begeleid"}
)

// ofDoubt are words of somebody who may not need the place after all.
var ofDoubt = []string{" maybe ", " perhaps ", " possibly ", " sometimes ", " if ", " transfer", " fold", " walk",
	" own seat ",
	" vielleicht ", " evtl ", " peut etre "}

// needOf finds what a cell says somebody needs of a seat; ok is false where it says something else. It is not sure
// where a companion may be meant who comes with them, or nobody.
func needOf(text string) (need Need, ok, sure bool) {
	words := folded(text)
	wheelchair, companion := speaks(words, ofWheelchair), speaks(words, ofCompanion)
	first := slices.ContainsFunc(ofCompanion, func(w string) bool {
		return strings.HasPrefix(words, " "+strings.TrimSpace(w))
	})
	with := speaks(words, []string{" with ", " need", " mit ", " braucht ", " avec ", " con ", " met "})
	switch a := answerOf(text); {
	case a == blank || a == no || a == unknown || words == " none ":
		return Nothing, true, true
	case words == " w ", words == " wc ":
		return Wheelchair, true, true
	case words == " c ", first && !speaks(words, ofNo):
		return Companion, true, true
	case !wheelchair && !companion:
		return Nothing, false, true
	case speaks(words, ofNo), companion && wheelchair != with:
		return Nothing, false, false
	case strings.Contains(text, "?") || speaks(words, ofDoubt):
		return Nothing, false, false
	case wheelchair:
		return Wheelchair, true, true
	}
	return Companion, true, true
}

// totals are the words for a line that adds others up.
var totals = []string{"people", "persons", "total", "totals", "sum", "subtotal", "subtotals", "sub total",
	"grand total", "all together",
	"altogether", "in all", "overall", "gesamt", "summe", "insgesamt", "zusammen", "totale", "totaal", "suma", "somme"}
