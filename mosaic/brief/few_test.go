package brief

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
	"everyseat/testdata/fair"
)

// Far too few people are told so in the first sentence, and in the second which seats to leave free and what reads
// with as many; enough of them are told how it reads, and nothing more.
func TestFewAreToldWhatToDo(t *testing.T) {
	few := func(invited int) *teller {
		s := fair.Stunt()
		s.Cues[0].Text = "MM"
		s.Stands.People, s.Stands.Expected = invited, 1
		return told(t, s)
	}
	all := few(120)
	wantSaid(t, all, "Does it read", "“MM” reads on film", "But with just the people who come “MM” does not read (")
	wantSaid(t, all, "Missing and wrong", "About 120 people are expected for 432 seats. Leave free those that matter least: 312 seats with a card (",
		"With just those empty “MM” does not read (", "changes that were measured with as many people: make two cues of it, “M” and “M”: then it reads (",
		"All seats that stay free are named in calldown.pdf.")
	if free := strings.ReplaceAll(all.calldown().Free, say.Glue, " "); !strings.HasPrefix(free, "About 120 people are expected. 312 seats, those whose being empty shows least") || !strings.Contains(free, "Section B: row 1, all 12 seats; row 2, seat") {
		t.Errorf("%q", free)
	}
	all = few(400)
	wantSaid(t, all, "Missing and wrong", "About 400 people are expected for 432 seats.", "With just those empty “MM” reads (")
	for _, about := range []string{"Does it read", "Missing and wrong"} {
		if text := said(t, all, about); strings.Contains(text, "But with just") || strings.Contains(text, "measured") {
			t.Error(text)
		}
	}
	if all := told(t, fair.Stunt()); all.o.Few != nil {
		t.Errorf("nobody has said who comes, and it is told: %q", said(t, all, "Missing and wrong"))
	}
}

// Places that are kept are no leaders' seats: it is said what they are and whose, and how the text reads without
// them while nobody has asked for them.
func TestKeptPlacesOfTheMessage(t *testing.T) {
	s := fair.Stunt()
	s.Cues[0].Text = "8" // of which a seat in the first row tells
	s.Stands.Sections[1].Reserved = []seating.Reserved{{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 12}}, For: "wheelchair"}}
	all := tells(t, s, outlook.All)
	wantSaid(t, all, "Missing and wrong", "Nobody has asked yet for the 12 seats kept for wheelchairs and companions (B row 1): they stay free until groups or a roster say who needs them. With just those empty “8”",
		"(wheelchair place)")
	most := func(all *teller) string { return strings.Join(all.days()[0].Most, "\n") }
	if got := most(all); !regexp.MustCompile(`(?m)^\d+\. B-1-\d+ \(wheelchair place, nobody has asked for it yet\): `).MatchString(got) {
		t.Error(got)
	}
	s.People.Groups = []people.Party{{Name: "harbour choir", People: 350, Wheelchairs: 12}}
	all = tells(t, s, outlook.All)
	got := most(all)
	if !strings.Contains(got, " (wheelchair place, harbour choir): ") || !regexp.MustCompile(`(?m)^\d+\. [ABC]-\d+-\d+ \(harbour choir\): `).MatchString(got) || strings.Contains(got, "free") {
		t.Error(got)
	}
}

// Who would do more for the picture elsewhere is named with where to go: worked by hand.
func TestMovesAreSaid(t *testing.T) {
	s := fair.Stunt()
	s.People.Groups = []people.Party{{Name: "harbour choir", People: 200}, {Name: "rowing club", People: 30}}
	all := tells(t, s, 0)
	got := all.moveWords([]mosaic.Move{{Group: 1, From: []int32{0, 1}, To: []int32{12, 13}}, {Group: 0, From: []int32{2, 3, 4}, To: []int32{144, 145, 146}}})
	if want := "move 3 of harbour choir from A-1-3, A-1-4, A-1-5 to B-1-1, B-1-2, B-1-3, 2 of rowing club from A-1-1, A-1-2 to A-2-1, A-2-2"; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

// Seats that are simulated empty are as many as the sentence says, and with those who come they are all there are:
// nobody is counted twice, on the floor, on kept places or beside the camera.
func TestFreeSeatsAddUp(t *testing.T) {
	kept := []seating.Reserved{{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 12}}, For: "wheelchair"}}
	choir := []people.Party{{Name: "harbour choir", People: 210, Wheelchairs: 3, Unfilmed: 4}}
	for name, change := range map[string]func(*mosaic.Stunt){
		"invited":                   func(s *mosaic.Stunt) { s.Stands.People, s.Stands.Expected = 250, 0.83 },
		"invited, with kept places": func(s *mosaic.Stunt) { s.Stands.People = 300; s.Stands.Sections[1].Reserved = kept },
		"groups, with kept places":  func(s *mosaic.Stunt) { s.People.Groups = choir; s.Stands.Sections[1].Reserved = kept },
		"groups, fewer than expected": func(s *mosaic.Stunt) {
			s.People.Groups, s.Stands.Sections[1].Reserved = choir, kept
			s.Stands.People, s.Stands.Expected = 150, 0.9
		},
	} {
		s := fair.Crowded()
		s.Stands.Sections[1].Reserved = nil
		change(s)
		all := tells(t, s, outlook.Fewer)
		said := all.sayFree(all.o.Few)
		number := func(pattern string) (sum int) {
			for _, found := range regexp.MustCompile(pattern).FindAllStringSubmatch(said, -1) {
				n, err := strconv.Atoi(strings.ReplaceAll(found[1], ",", ""))
				if err != nil {
					t.Fatal(err)
				}
				sum += n
			}
			return sum
		}
		come := number(`(?:About|have) ([\d,]+) `)
		seats, free := number(`for ([\d,]+) seats`), number(`([\d,]+) seats? (?:with a|without a|kept)`)
		if come == 0 || free != len(all.o.Few.Free) || come+free != seats {
			t.Errorf("%s: %d come, %d free, %d simulated empty, of %d seats: %s", name, come, free, len(all.o.Few.Free), seats, said)
		}
	}
}
