package lettering_test

import (
	"testing"

	"everyseat/seating"
	"everyseat/seating/together"
)

// Messages of two to six characters: words, numbers and codes of consonants and figures;
// every third is held out.
var (
	studyWords = []string{
		"GO", "HI", "UP", "SEA", "BAY", "FOG", "TIDE", "PORT", "LAMP", "WAVE", "GULL", "QUAY", "HAVEN", "LIGHT", "NIGHT", "OCEAN",
		"SHORE", "WHARF", "ANCHOR", "HARBOR", "WINTER", "VOYAGE", "JETTY", "KELP", "EXTRA", "ZEBRA", "MIX", "JAM", "FUN", "CHEER",
		"WE", "NO", "OK", "ICE", "OAR", "SKY", "BUOY", "SAIL", "FISH", "MOON", "DOCK", "REEF", "CLIFF", "BEACH", "STORM", "CRANE",
		"FERRY", "PEARL", "ISLAND", "LAGOON", "BREEZE", "SUNSET", "SQUID", "HERB", "JUDGE", "VEXED", "BOX", "ZIP", "RAY", "TOWN",
	}
	studyNumbers = []string{
		"25", "38", "1947", "2026", "60", "912", "7350", "4816", "365", "88", "50", "1066", "2031", "94", "573", "6429",
		"17", "204", "83", "3097", "46", "721", "5508", "69", "190", "8362", "31", "457", "9014", "72", "680", "2583",
	}
	studyCodes = []string{
		"B7", "K9", "R2D", "X5S", "H8K", "JV3", "5D7", "Z2Y", "C3PT", "NF1X", "W4LT", "9BDV", "GH65", "Y0QK", "S8RJ2", "7XDVB", "M3HKZ",
		"PL5T9", "V1GQ6", "F2WN8", "D0CJ4", "KRYX7", "3ZSB5D", "8HTVJY", "Q6NMPL", "X9FD2K", "RW7C5H", "B4Z1GS", "T3VK8N",
		"4F", "L8", "P2", "G3W", "6TN", "D9X", "Y7C", "2BM", "KS4", "J6R", "V5HL", "8CQF", "1ZPG", "N0WD", "R6K3", "T9YJ", "5MXB",
		"H2SVC", "9LGD4", "W8PK1", "ZB3TQ", "C7NFR", "4XJ6H", "G5YLT8", "K1DW9Z", "M6VSP3", "7RBHQC", "FX2J4N", "L0TK5G", "3DPYW6",
	}
)

type message struct {
	text, kind string
	held       bool
}

func messages() []message {
	var out []message
	for _, l := range []struct {
		kind string
		all  []string
	}{{"word", studyWords}, {"number", studyNumbers}, {"code", studyCodes}} {
		for i, t := range l.all {
			out = append(out, message{t, l.kind, i%3 == 2})
		}
	}
	return out
}

type studyStands struct {
	name string
	spec seating.Spec
	held bool
}

func standsList() []studyStands {
	const cm = seating.Centimetre
	return []studyStands{
		{"one section, 12 rows of 36", bleachers(1, 12, 36, aisle, rise, run, pitch), false},
		{"two sections, 15 rows of 15", bleachers(2, 15, 15, aisle, rise, run, pitch), false},
		{"three sections, 20 rows of 15", bleachers(3, 20, 15, aisle, rise, run, pitch), false},
		{"three sections, 12 rows of 13", bleachers(3, 12, 13, aisle, rise, run, pitch), false},
		{"two sections, 14 rows of 24", bleachers(2, 14, 24, aisle, rise, run, pitch), false},
		{"three sections, 16 rows of 18", bleachers(3, 16, 18, aisle, rise, run, pitch), true},
		{"four sections, 16 rows of 11", bleachers(4, 16, 11, 120*cm, rise, run, pitch), true},
		{"two sections, 10 rows of 20, steep", bleachers(2, 10, 20, 42*seating.Inch, 16*seating.Inch, 33*seating.Inch, 22*seating.Inch), true},
		{"one section, 14 rows of 44", bleachers(1, 14, 44, aisle, rise, run, pitch), true},
	}
}

// claim is one way to look and what may go wrong.
type claim struct {
	name           string
	across, height float64
	tuning, held   []float64 // how far back the marks are, in metres
	each           int       // marks that a held-out message is read from on each stands
	empty, wrong   float64
	own, peer      bool // read our own camera picture; the image tools' way beside it
}

// The marks that are held out stand at no distance that anything was tuned or learned at.
var (
	tuningBacks = []float64{16, 20}
	heldBacks   = []float64{17.5, 19, 22, 24}
)

var claims = []claim{
	{"straight on", 0, 3, tuningBacks, heldBacks, 2, 0, 0, true, true},
	{"8 % empty, 1 % wrong", 0, 3, tuningBacks, heldBacks, 2, 0.08, 0.01, false, false},
	{"7 m aside", 7, 3, tuningBacks, heldBacks, 2, 0, 0, true, false},
	{"harsh: 7 m aside, 1.8 m high, 12 m back", 7, 1.8, []float64{12}, []float64{12}, 1, 0, 0, false, false},
}

// studyCases lays out everything a claim needs. A case is held out when its message, its
// stands and its mark are; the tuning half has none of the three.
func studyCases(tb testing.TB, cl *claim, every int, set string) []*outcome {
	tb.Helper()
	var cases []*outcome
	n := 0
	for at, st := range standsList() {
		backs, each, set2 := cl.tuning, 1, "tune"
		if st.held {
			backs, each, set2 = cl.held, cl.each, "held"
		}
		if set != "" && set != set2 {
			continue
		}
		places := make([]*place, len(backs))
		k := at
		for _, m := range messages() {
			if m.held != st.held {
				continue
			}
			k++
			for e := range each {
				b := (k + e*len(backs)/2) % len(backs)
				if n++; n%every != 0 {
					continue
				}
				if places[b] == nil {
					places[b] = look(tb, st.name, st.spec, mark(cl.across, backs[b], cl.height))
				}
				cases = append(cases, &outcome{Claim: cl.name, Stands: st.name, Text: m.text, Kind: m.kind, Held: st.held, Back: backs[b], place: places[b], claim: cl})
			}
		}
	}
	together.Each(len(cases), func(i int) { cases[i].lay() })
	return cases
}
