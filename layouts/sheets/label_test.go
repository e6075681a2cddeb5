package sheets

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

// tenCues is a stunt of ten cues with cards of two colours, each cue with a moment as crews write it.
func tenCues(t *testing.T, s sample) *mosaic.Plan {
	t.Helper()
	s.sections, s.rows, s.seats, s.cues, s.bonded, s.title = []string{"A", "Ngoài"}, 2, 7, 10, true, "x"
	s.colours = []string{"HARBOUR", "CREAM", "LANTERN", "SEAWEED"}
	p := s.plan(t)
	for i := range p.Cues {
		p.Cues[i].Name = "HELLO"
		p.Cues[i].At = fmt.Sprintf("count %d of the second verse", 8*i+1)
	}
	return p
}

// With ten cues a quarter of a Letter sheet says for every cue when, which colour, which card by the letters on its
// patches, and which side, and cuts nothing off.
func TestTenCuesUncut(t *testing.T) {
	p := tenCues(t, sample{perSheet: 4})
	letters := mosaic.ColourLetters(p.Stunt.Colours)
	dir, names := placardFiles(t, p)
	seen := 0
	for _, name := range names {
		for _, text := range placardTexts(t, filepath.Join(dir, name)) {
			ids := idsIn(text, sectionNames(p))
			if len(ids) == 0 {
				continue
			}
			seen++
			seat := 0
			for p.Stands.ID(seat) != ids[0] {
				seat++
			}
			if strings.Contains(text, "…") {
				t.Errorf("%s: cut off: %q", ids[0], text)
			}
			for cue := range p.Cues {
				h := p.Hands[cue][seat]
				do := "no card"
				if h.Card >= 0 {
					sides := p.Cards[h.Card].Sides
					do = fmt.Sprintf("%s (%s/%s side %c)", p.Stunt.Colours[sides[h.Side]].Name, letters[sides[0]], letters[sides[1]], 'A'+h.Side)
				}
				if want := fmt.Sprintf("%d %s: %s", cue+1, p.Cues[cue].At, do); !strings.Contains(text, want) {
					t.Errorf("%s: no %q in %q", ids[0], want, text)
				}
			}
		}
	}
	if seen != len(wantIDs(p)) {
		t.Errorf("%d placards, want %d", seen, len(wantIDs(p)))
	}
}

// placardTexts are the words of each placard of a file in the order of drawing, blanks made one.
func placardTexts(t *testing.T, file string) []string {
	t.Helper()
	text := " " + strings.Join(strings.Fields(judge(t, "pdftotext", "-raw", file, "-")), " ") + " "
	return strings.Split(text, " UP ")
}

// A moment that no type can hold is refused, and not cut.
func TestMomentTooLong(t *testing.T) {
	p := tenCues(t, sample{perSheet: 12})
	for i := range p.Cues {
		p.Cues[i].At = strings.Repeat("when the lamp goes out ", 9)
	}
	var fault *seating.Fault
	if err := Check(told(p)); !errors.As(err, &fault) || !strings.Contains(fault.What, "no room") || !strings.Contains(fault.Hint, "at = ") {
		t.Errorf("got %v", err)
	}
}

// What to do at a cue is read at arm's length: on a quarter of a Letter sheet the capitals of a colour's name, as
// poppler draws them, are seen under 16 minutes of arc or more from 60 cm (ISO 9241-3, SEEN-2nd), with one cue
// and with three; and they are no less than a fifth of the seat id's.
func TestCuesAtArmsLength(t *testing.T) {
	least := 600 * math.Tan(16.0/60*math.Pi/180) // millimetres
	for cues, at := range map[int]string{1: "count 1 of the last verse", 3: "count 12"} {
		p := sample{sections: []string{"B"}, rows: 1, seats: 12, colours: []string{"HAHA", "EHEH", "LLLL"}, cues: cues, cueName: "LAMP"}.plan(t)
		for i := range p.Cues {
			p.Cues[i].At = at
		}
		dir, names := placardFiles(t, p)
		page := pageWords(t, filepath.Join(dir, names[0]))[0]
		pic := renderGray(t, filepath.Join(dir, names[0]), 254, "-f", "1", "-l", "1")[0]
		id, colour, found := 0.0, 100.0, 0
		for i, w := range page.list {
			switch {
			case w.text == "B-1-1":
				id = pic.inkHigh(w)
			case i > 0 && page.list[i-1].text == "show":
				colour = min(colour, pic.inkHigh(w))
				found++
			}
		}
		if found != 3*cues || colour < least || colour < id/5 {
			t.Errorf("%d cues: %d colours are named %.2f mm high at least, want %.2f; the id is %.2f mm high", cues, found, colour, least, id)
		}
	}
}

// inkHigh is how high the strokes of a word of capitals are, in millimetres: the rows of ink round its middle.
func (g *grayPage) inkHigh(w word) float64 {
	ink := func(y int) bool {
		for x := g.dot(w.x0); x < g.dot(w.x1); x++ {
			if g.pixels[y*g.width+x] < 128 {
				return true
			}
		}
		return false
	}
	first := g.dot((w.y0 + w.y1) / 2)
	last := first
	for ink(first - 1) {
		first--
	}
	for ink(last + 1) {
		last++
	}
	return float64(last-first+1) / g.dots * 25.4
}

// A strip of ten cues draws all ten, and every bag label says at which end its row is begun, however many kinds of
// cards are in the bag.
func TestTenCuesOnStripsAndBags(t *testing.T) {
	p := tenCues(t, sample{})
	strips := strings.Fields(rowsSaid(t, p))
	for cue := range p.Cues {
		n := 0
		for i, word := range strips[:len(strips)-1] {
			if word == "cue" && strips[i+1] == fmt.Sprint(cue+1) {
				n++
			}
		}
		if n != rowsWithPaper(p) {
			t.Errorf("cue %d is drawn on %d of %d strips", cue+1, n, rowsWithPaper(p))
		}
	}
	labels := strings.Split(strings.Join(strings.Fields(saidOn(t, "deal.pdf", p)), " "), "ROW BAG")[1:]
	for _, label := range labels {
		if !strings.Contains(label, "Begin at the ") || !strings.Contains(label, " cards") {
			t.Errorf("a bag label says %q", label)
		}
	}
	if len(labels) != rowsWithPaper(p) {
		t.Errorf("%d bag labels", len(labels))
	}
}

// A label on a card of two colours says whole which card and which side this is and what the camera sees, also with long
// names and on white labels.
func TestNotesUncut(t *testing.T) {
	p := onCards(t, sample{sections: []string{"A"}, rows: 2, seats: 6, cues: 2, bonded: true, plain: true,
		colours: []string{"Harbour after the last lamp", "Lantern oil and cream", "Seaweed of the outer mole"}}, mosaic.OnStock, 11*seating.Inch, 17*seating.Inch/2)
	for cue := range p.Hands[1:] {
		for s := range p.Hands[cue+1] { // a second card for everybody
			p.Hands[cue+1][s] = mosaic.Hold{Card: (p.Hands[0][s].Card + 1) % 3, Side: 1}
		}
	}
	dir, names := placardFiles(t, p)
	seen := 0
	for _, name := range names {
		for _, text := range placardTexts(t, filepath.Join(dir, name)) {
			if len(idsIn(text, sectionNames(p))) == 0 {
				continue
			}
			seen++
			_, note, ok := strings.Cut(text, "Card ")
			whole := false
			for c := range p.Cards {
				for side := range int8(2) {
					sees := p.Stunt.Colours[p.Cards[c].Sides[1-side]].Name
					whole = whole || strings.Contains(note, fmt.Sprintf("of 2: %s. Side %c, %s: while you read this, the camera sees %s.",
						p.Cards[c].ID, 'A'+side, p.Stunt.Colours[p.Cards[c].Sides[side]].Name, sees))
				}
			}
			if !ok || !whole || strings.Contains(note, "…") {
				t.Errorf("the note is not whole in %q", text)
			}
		}
	}
	if seen < 2*len(wantIDs(p)) {
		t.Errorf("%d labels", seen)
	}
}
