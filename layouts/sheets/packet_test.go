package sheets

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

var headCount = regexp.MustCompile(`(?m)^(Section (\S+)(?: \(floor\))?|Stands and floor together) (\d+) (\d+) (\d+) (\d+) (\d+) (\d+)$`)

// The packet opens with the cautions, counts the heads that the stands hold, section by section and in all, holds
// them against the sign by the door, and has a line for everybody who must say yes. It is three or four pages.
func TestPacket(t *testing.T) {
	p := inHall(t, nil)
	path := onPaper(t, "packet.pdf", p)
	if n := len(pageWords(t, path)); n < 3 || n > 4 {
		t.Errorf("%d pages", n)
	}
	text := judge(t, "pdftotext", "-raw", path, "-")
	lines := strings.Split(text, "\n")
	if !strings.Contains(strings.Join(lines[:4], " "), "Cautions") {
		t.Errorf("the cautions are not in the first lines: %q", lines[:4])
	}
	seen := 0
	for _, m := range headCount.FindAllStringSubmatch(text, -1) {
		var want [6]int
		for s := range p.Stands.Seats {
			seat := &p.Stands.Seats[s]
			if m[2] != "" && p.Stands.Sections[seat.Section].Name != m[2] {
				continue
			}
			want[0]++
			switch seat.Use {
			case seating.UseCard:
				want[2]++
			case seating.UsePerson:
				want[3]++
			default:
				want[4]++
			}
		}
		want[5] = want[2] + want[3]
		for i, n := range m[3:] {
			if got, _ := strconv.Atoi(n); i != 1 && got != want[i] {
				t.Errorf("%s, column %d: %d, want %d", m[1], i, got, want[i])
			}
		}
		seen++
	}
	if seen != len(p.Stands.Sections)+1 {
		t.Errorf("%d lines of heads", seen)
	}
	flat := strings.Join(strings.Fields(text), " ")
	people := p.Stands.CountAll().People()
	for _, want := range []string{
		"People in the plan: " + strconv.Itoa(people) + ". Posted occupant load: 700. That leaves " + strconv.Itoa(700-people) + " for crew",
		"2 wheelchair places and 1 companion place kept", "way along the stands", "fire official", "custodian of the stands", "boat hall", "camera",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("no %q", want)
		}
	}
}

// What the text reads as with a section missing, late or mirrored is printed, for whoever signs to judge.
func TestPacketUnwanted(t *testing.T) {
	p := inHall(t, nil)
	o := outlookOf(p)
	text := strings.Join(strings.Fields(saidOn(t, "packet.pdf", p)), " ")
	printed := 0
	for i := range p.Cues {
		look := &o.Cues[i]
		if p.Cues[i].Text == nil {
			continue
		}
		if !strings.Contains(text, "As planned: "+look.Planned+". ") {
			t.Errorf("cue %d: it does not say that it reads %q as planned", i+1, look.Planned)
		}
		for _, u := range look.Unwanted {
			if want := p.Stands.Sections[u.Section].Name + " = " + u.Reads; u.Reads != "" && !strings.Contains(text, want) {
				t.Errorf("cue %d: no %q", i+1, want)
			}
			printed++
		}
	}
	if printed == 0 || !strings.Contains(text, "No list of bad words is kept") {
		t.Errorf("%d unwanted readings", printed)
	}
}

// More people than the sign allows is said in capitals; a sign that nobody has read is asked for.
func TestPacketPosted(t *testing.T) {
	for posted, want := range map[int]string{100: "MORE than the posted occupant load of 100", 0: "read it off the sign by the main exit"} {
		p := inHall(t, nil)
		st := *p.Stands
		st.Spec.Posted = posted
		p.Stands = &st
		if text := saidOn(t, "packet.pdf", p); !strings.Contains(text, want) {
			t.Errorf("posted %d: no %q", posted, want)
		}
	}
}

// The trial seats twelve people with every colour in two rows one behind the other, an empty seat among them, all seats
// being real ones of the stands with cards.
func TestTrial(t *testing.T) {
	p := inHall(t, nil)
	text := saidOn(t, "trial.pdf", p)
	var rows [2]map[string]bool
	empty := regexp.MustCompile(`EMPTY (\S+)`).FindAllStringSubmatch(text, -1)
	if len(empty) != 1 {
		t.Fatalf("%d empty seats", len(empty))
	}
	people, colours, cards := 0, map[string]bool{}, map[string]int{}
	first := int32(-1)
	for _, m := range regexp.MustCompile(`(NAVY|CREAM) ([ABC]-\d+-\d+)`).FindAllStringSubmatch(text, -1) {
		s, err := p.Stands.Find(m[2])
		if err != nil {
			t.Fatal(err)
		}
		seat := &p.Stands.Seats[s]
		if seat.Use != seating.UseCard || seat.For != "" {
			t.Errorf("%s is no seat for the trial", m[2])
		}
		if first < 0 {
			first = seat.Row // the back row is drawn first
		}
		r := first - seat.Row
		if r != 0 && r != 1 {
			t.Fatalf("%s lies in another row", m[2])
		}
		if rows[r] == nil {
			rows[r] = map[string]bool{}
		}
		rows[r][m[2]] = true
		colours[m[1]] = true
		cards[m[1]]++
		people++
	}
	if people != 12 || len(rows[0]) != 6 || len(rows[1]) != 6 || len(colours) != len(p.Stunt.Colours) || rows[0][empty[0][1]] {
		t.Errorf("%d people, rows of %d and %d, %d colours, %s empty", people, len(rows[0]), len(rows[1]), len(colours), empty[0][1])
	}
	if want := fmt.Sprintf("twelve cards of the real stock: %d NAVY, %d CREAM, and two more of each", cards["NAVY"], cards["CREAM"]); !strings.Contains(text, want) {
		t.Errorf("no %q", want)
	}
	for _, want := range []string{"Everybody holds the card up as planned, with its top edge at the eyes.", "each card held another way, with its", "3.00 m (9 ft 10 in)", "14.00 m (45 ft 11 in)", "18:45"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
}

// Stands without two rows of six still get a sheet that says what to do.
func TestTrialWithoutRoom(t *testing.T) {
	s := hall()
	s.Stands = seating.Spec{Sections: []seating.SectionSpec{{Name: "A", Rows: 9, Seats: []int{5}}}}
	s.Room, s.Cues = mosaic.Room{}, s.Cues[:1]
	s.Cues[0] = mosaic.Cue{Name: "plain", Painted: []mosaic.Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 1}, Colour: "CREAM"}}}
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	if text := saidOn(t, "trial.pdf", p); !strings.Contains(text, "No section has two rows") {
		t.Error(text)
	}
}

// The map's key shows every sign: each meaning has a drawing left of it, which paper white in white would not be. The
// dark pixels of the page are poppler's (pdftoppm).
func TestMapKeyIsDrawn(t *testing.T) {
	path := onPaper(t, "packet.pdf", inHall(t, nil))
	for n, page := range pageWords(t, path) {
		if !strings.Contains(page.lines()[0].String(), "The map") {
			continue
		}
		into, number := filepath.Join(t.TempDir(), "map"), strconv.Itoa(n+1)
		judge(t, "pdftoppm", "-r", "72", "-f", number, "-l", number, "-singlefile", path, into) // a pixel a point
		picture := readPPM(t, into+".ppm")
		for _, want := range []string{"a person with a", "a person without", "kept free", "wheelchair place", "companion", "a lane that", "an exit", "what the lens"} {
			x, y := placeOf(page, strings.Fields(want))
			dark := 0
			for dx := 3; dx < 20; dx++ {
				for dy := -5; dy <= 5; dy++ {
					if x > 20 && picture.at(int(x)-dx, int(y)+dy)[1] < 200 {
						dark++
					}
				}
			}
			if dark < 5 {
				t.Errorf("nothing is drawn beside %q", want)
			}
		}
		return
	}
	t.Error("no page with the map")
}

// placeOf is where words that follow each other begin, and the middle of their line; zeroes where they are not.
func placeOf(page words, want []string) (x, y float64) {
	for i := range page.list {
		if i+len(want) > len(page.list) {
			break
		}
		same := true
		for k := range want {
			same = same && page.list[i+k].text == want[k]
		}
		if same {
			return page.list[i].x0, (page.list[i].y0 + page.list[i].y1) / 2
		}
	}
	return 0, 0
}
