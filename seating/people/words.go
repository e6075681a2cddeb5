package people

import (
	"strings"

	"everyseat/seating/cells"
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
	fUnfilmed
	fFilmed
	fRoom
	fDoor
	fTime
	fLeader
	noField field = -1
)

// fieldNames are the names that people give columns, by field, in small letters and single blanks.
var fieldNames = [][]string{
	fPerson: {"person", "name", "full name", "names", "student", "student name", "pupil", "participant",
		"attendee", "guest", "singer", "member", "child", "who", "code", "person code", "id", "student id", "ticket"},
	fGiven:  {"first name", "given name", "forename", "first", "given"},
	fFamily: {"last name", "surname", "family name", "second name", "last"},
	fGroup: {"group", "group name", "class", "class name", "form", "club", "choir", "ward", "team", "society",
		"guild", "band", "crew", "grade", "year group", "troop", "company", "department", "homeroom"},
	fCount: {"count", "people", "number", "number of people", "no of people", "how many", "head count",
		"headcount", "heads", "size", "group size", "students", "pupils", "members", "persons", "participants",
		"total people", "strength"},
	fNeeds: {"needs", "need", "special needs", "access", "access needs", "accessibility", "support",
		"assistance", "requirements"},
	fWheelchair: {"wheelchair", "wheelchairs", "wheelchair user", "wheelchair users", "wheelchair place",
		"wheelchair places", "in a wheelchair"},
	fCompanion: {"companion", "companions", "carer", "carers", "companion place", "companion places"},
	fUnfilmed: {"may not be filmed", "not to be filmed", "not filmed", "no film", "no filming", "do not film",
		"no photo", "no photos", "no photographs", "no camera", "no media", "no video", "not on camera",
		"camera shy"},
	fFilmed: {"may be filmed", "can be filmed", "film", "filmed", "filming", "filming allowed", "film consent",
		"filming consent", "photo consent", "media consent", "consent", "photo permission", "photos allowed",
		"video consent"},
	fRoom: {"room", "from room", "from", "comes from", "classroom", "class room", "waits in", "meeting room",
		"place"},
	fDoor: {"door", "entrance", "through door", "by door", "gate", "entry"},
	fTime: {"time", "at", "comes at", "arrives", "arrival", "arrival time", "when", "call time"},
	fLeader: {"leader", "group leader", "led by", "teacher", "class teacher", "helper", "helpers",
		"leader helper", "helper leader", "role", "tutor", "in charge", "conductor", "coach"},
}

// answer is what a cell says to a question of yes or no.
type answer uint8

const (
	blank answer = iota
	yes
	no
	unsure
)

func answerOf(text string) answer {
	if text == "" {
		return blank
	}
	switch cells.Plain(text) {
	case "yes", "y", "x", "true", "1", "ja", "oui", "si", "sí", "da", "tak", "ok", "given", "signed", "allowed":
		return yes
	case "no", "n", "false", "0", "none", "non", "nein", "nie", "not given", "refused", "not allowed", "na", "n a":
		return no
	case "":
		switch strings.TrimSpace(text) {
		case "✓", "✔", "☑", "×", "+":
			return yes
		case "-", "–", "—", "/":
			return no
		}
	}
	return unsure
}

// needOf finds what a cell says somebody needs of a seat; ok is false where it says something else.
func needOf(text string) (need Need, ok bool) {
	words := cells.Plain(text)
	switch {
	case answerOf(text) == no || text == "":
		return Nothing, true
	case strings.HasPrefix(words, "companion") || strings.HasPrefix(words, "carer") || words == "c":
		return Companion, true
	case strings.Contains(words, "wheelchair"), strings.Contains(words, "wheel chair"), words == "w", words == "wc":
		return Wheelchair, true
	case strings.Contains(words, "companion") || strings.Contains(words, "carer"):
		return Companion, true
	}
	return Nothing, false
}
