package mosaic

import (
	"strings"
	"testing"
	"time"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// said is the sentence about something.
func said(t testing.TB, p *Plan, about string) string {
	t.Helper()
	for _, s := range p.Sentences() {
		if s.About == about {
			return s.Text
		}
	}
	t.Fatalf("nothing is said about %q", about)
	return ""
}

func wantSaid(t *testing.T, p *Plan, about string, parts ...string) {
	t.Helper()
	got := said(t, p, about)
	for _, part := range parts {
		if !strings.Contains(got, part) {
			t.Errorf("%s: %q is not in %q", about, part, got)
		}
	}
}

// Ten, in this order, each in whole sentences.
func TestTenSentences(t *testing.T) {
	abouts := []string{
		"Does it read", "Missing and wrong", "People", "Camera", "Holding the card",
		"Buy and print", "The work", "Out of sight", "Who says yes", "Do this first",
	}
	for _, s := range []*Stunt{gullhaven(), crowded()} {
		all := mustMake(t, s).Sentences()
		if len(all) != len(abouts) {
			t.Fatalf("%d sentences", len(all))
		}
		for i, s := range all {
			if s.About != abouts[i] {
				t.Errorf("sentence %d is about %q, want %q", i+1, s.About, abouts[i])
			}
			if !strings.HasSuffix(s.Text, ".") || strings.Contains(s.Text, "  ") || strings.Contains(s.Text, "..") || strings.Contains(s.Text, "%!") {
				t.Errorf("not plain sentences: %q", s.Text)
			}
		}
	}
}

// What the crew has not said is not guessed.
func TestSentencesDoNotGuess(t *testing.T) {
	p := mustMake(t, gullhaven())
	for _, about := range []string{"Missing and wrong", "People", "Buy and print", "Who says yes"} {
		wantSaid(t, p, about, notKnown)
	}
	wantSaid(t, p, "The work", "These speeds are assumed")
}

func TestSentencesSayWhatIsKnown(t *testing.T) {
	s := crowded()
	s.Stands.Posted, s.Stands.People = 700, 1500
	s.Day.Signs = []string{"the custodian", "the fire official"}
	for i := range s.Colours {
		s.Colours[i].Pack, s.Colours[i].PriceCents = 50, 1199
	}
	s.Colours[0].Sheets = 600
	s.Camera.Across = -150 * seating.Centimetre
	p := mustMake(t, s)
	wantSaid(t, p, "Missing and wrong", "Of 1,500 people invited about 1,320 are expected (88 %).")
	wantSaid(t, p, "People", "People with cards: 428;", "without one: 60.", "Of both together 60 are on the floor.", "The posted limit is 700")
	// 65° across is 28 mm on full frame: 36 / 2 / tan 32.5° (FACTS: fov = 2 atan(d/2f)).
	wantSaid(t, p, "Camera", "18.00 m (59 ft 1 in) in front of", "1.50 m (4 ft 11 in) to the left", "lens 3.00 m (9 ft 10 in)", "65° across", "28 mm")
	wantSaid(t, p, "Who says yes", "the custodian, the fire official;")
	if got := said(t, p, "Who says yes"); strings.Contains(got, notKnown) {
		t.Errorf("who says yes is known: %q", got)
	}
	bill := p.Bill()
	cents := 0
	for _, l := range bill.Lines {
		if l.Colour != 0 { // of navy there is enough
			cents += (l.Sheets() + 49) / 50 * 1199
		}
	}
	navy := bill.Lines[0]
	wantSaid(t, p, "Buy and print", thousands(navy.Cards+navy.Spares)+" of navy (600 in stock),", "The sheets cost "+euros(cents)+", printing not counted.",
		"Black cannot be read on navy: take white labels there.")
}

// Where all sheets are in stock there is nothing to pay for, and that is said in words, not as a sum of 0.00.
func TestAllInStock(t *testing.T) {
	s := gullhaven()
	for i := range s.Colours {
		s.Colours[i].Sheets, s.Colours[i].Pack, s.Colours[i].PriceCents = 1000, 50, 1199
	}
	p := mustMake(t, s)
	wantSaid(t, p, "Buy and print", "There is nothing to buy: all of it is in stock; printing is not counted.")
	if got := said(t, p, "Buy and print"); strings.Contains(got, "0.00") {
		t.Errorf("a sum of nothing: %s", got)
	}
}

// euros is a sum of money without its sign, which the stunt does not know.
func euros(cents int) string {
	return strings.Join([]string{thousands(cents / 100), string(rune('0'+cents/10%10)) + string(rune('0'+cents%10))}, ".")
}

// 432 cards at 6 s and 36 rows at 20 s are 3,312 s of work: 6 helpers take 9 min 12 s.
func TestWorkIsCounted(t *testing.T) {
	s := gullhaven()
	wantSaid(t, mustMake(t, s), "The work", "Laying 432 cards in 36 rows takes about 10 minutes with 6 helpers, at 6 s a card and 20 s a row.")
	s.Laying.Helpers, s.Laying.PerCard, s.Laying.PerRow = 1, 10*time.Second, time.Minute
	wantSaid(t, mustMake(t, s), "The work", "takes about 108 minutes with 1 helper, at 10 s a card and 60 s a row.")
	s.Laying.Pass = true // 36 stacks at a minute, then twelve cards along the row
	wantSaid(t, mustMake(t, s), "The work", "Passing 432 cards along 36 rows takes about 38 minutes with 1 helper")
}

func TestReadingIsSaid(t *testing.T) {
	p := mustMake(t, crowded())
	r := legibility.Reading{Score: 0.5, EmptyOK: 0.1, Letters: []legibility.Letter{
		{Letter: "S", Margin: 0.02, Rival: "5", Why: "only 3.4 seats wide"}, {Letter: "O", Margin: 0.2, Rival: "Q"},
	}}
	for verdict, want := range map[legibility.Verdict]string{
		legibility.Reads:       "“GLOW” reads on film from the mark (50 of 100).",
		legibility.Marginal:    "“GLOW” is marginal on film from the mark (50 of 100): its weakest letter is S, taken for 5 (only 3.4 seats wide). Which one change helps most is not known yet.",
		legibility.DoesNotRead: "“GLOW” does not read on film",
		"":                     "Whether “GLOW” reads on film is not known yet.",
	} {
		r.Verdict = verdict
		p.Cues[0].Reading = r
		wantSaid(t, p, "Does it read", want, "One cue is a picture")
	}
	r.Verdict = legibility.Reads
	p.Cues[0].Reading = r
	wantSaid(t, p, "Missing and wrong", "It still reads with 10 % of the seats empty here and there (43 of 428).", "It cannot be relied on with any of the cards wrong.")
}

// Who may not be filmed sits outside every frame, not merely with a hidden card.
func TestOutOfSight(t *testing.T) {
	s := gullhaven()
	wantSaid(t, mustMake(t, s), "Out of sight", "Every seat is in the frame of some mark")
	// A long lens on the middle section sees nothing of the outer ones.
	s.Camera.Lens = camera.Lens{FieldOfView: 14}
	s.Cues[0] = Cue{ImageName: "halves.png", Image: waves(), On: []string{"B"}}
	p := mustMake(t, s)
	wantSaid(t, p, "Out of sight", "Outside the frame from every mark: ", "12 in", "more rows")
	wantSaid(t, p, "Camera", "14° across", "Its frame cuts off")
	for _, id := range []string{"A-6-1", "C-6-12"} {
		if !p.outside(seat(t, p, id)) {
			t.Errorf("%s is in the frame", id)
		}
	}
	for _, id := range []string{"B-6-6", "B-6-1", "B-12-12"} {
		if p.outside(seat(t, p, id)) {
			t.Errorf("%s is outside the frame", id)
		}
	}
}

// Held before the chest the heads in front hide what shows at the eyes.
func TestHoldingLowerHides(t *testing.T) {
	s := gullhaven()
	s.Camera.Height = 160 * seating.Centimetre
	s.Card.Held = camera.Chin
	p := mustMake(t, s)
	wantSaid(t, p, "Holding the card", "with its top edge under the chin", "Held lower, with its middle before the chest")
	s.Card.Held = camera.Chest
	wantSaid(t, mustMake(t, s), "Holding the card", "with its middle before the chest")
}

func TestSpan(t *testing.T) {
	for m, want := range map[float64]string{
		0: "0.00 m (0 in)", 0.25: "0.25 m (10 in)", -0.25: "-0.25 m (-10 in)", 0.3: "0.30 m (1 ft)", 0.001: "0.00 m (0 in)", 0.3048: "0.30 m (1 ft)", 18: "18.00 m (59 ft 1 in)", 1.6: "1.60 m (5 ft 3 in)", -1: "-1.00 m (-3 ft 3 in)",
	} {
		if got := span(m); got != want {
			t.Errorf("%v m is said as %q, want %q", m, got, want)
		}
	}
}

func TestWords(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 1234567: "1,234,567", -4200: "-4,200"} {
		if got := thousands(n); got != want {
			t.Errorf("%d is written %q, want %q", n, got, want)
		}
	}
	for words, want := range map[string]string{"": "", " é is set as E ": "É is set as E.", "Done.": "Done.", "why?": "Why?"} {
		if got := sentence(words); got != want {
			t.Errorf("%q becomes %q, want %q", words, got, want)
		}
	}
	for d, want := range map[time.Duration]string{time.Second: "1 minute", time.Minute + 1: "2 minutes", 3 * time.Hour: "3 h 00 min"} {
		if got := minutes(d); got != want {
			t.Errorf("%v is said as %q, want %q", d, got, want)
		}
	}
}

// A letter that the film has no pixels for reads from nowhere, however well it is laid.
func TestTooSmallForTheFilm(t *testing.T) {
	from := func(back seating.Length) legibility.Reading {
		s := gullhaven()
		s.Camera.Back = back
		s.Cues = []Cue{{Text: "HI", Ink: s.Colours[1].Name, Ground: s.Colours[0].Name}}
		return mustMake(t, s).Cues[0].Reading
	}
	if near := from(18 * seating.Metre); near.Score < 0.3 {
		t.Errorf("from near it scores %v", near.Score)
	}
	far := from(3000 * seating.Metre)
	if far.Score != 0 || far.Verdict != legibility.DoesNotRead || !strings.Contains(far.Letters[0].Why, "pixels") {
		t.Errorf("from 3 km: %+v", far)
	}
}

// The sentence about printing says what is printed, and speaks of labels only where there are some.
func TestSaysHowPlacardsArePrinted(t *testing.T) {
	for placards, want := range map[Placards]string{
		Labels: "placard labels, 4 on a sheet", OnStock: "on the coloured cards themselves", FullColoured: "in full colour",
	} {
		s := gullhaven()
		s.Print.Placards = placards
		if placards == FullColoured {
			s.Card.Kind = Printed
		}
		p := mustMake(t, s)
		wantSaid(t, p, "Buy and print", want)
		if labels := strings.Contains(said(t, p, "Buy and print"), "placard label"); labels != (placards == Labels) {
			t.Errorf("%s: labels are spoken of: %v", placards, labels)
		}
	}
}

// A height that nobody gave is said, for the camera and for every mark.
func TestHeightTakenIsSaid(t *testing.T) {
	s := gullhaven()
	s.Marks = []camera.Mark{{Name: "opposite", Back: 20 * seating.Metre}}
	s.Camera.Height = 0
	all := strings.Join(mustMake(t, s).Warnings, "\n")
	for _, want := range []string{"The height of the camera is not given: 1.60 m", "height = … under [camera]", "The height of mark \"opposite\" is not given: 1.60 m", "under [[mark]]"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %q", want, all)
		}
	}
	if all := strings.Join(mustMake(t, gullhaven()).Warnings, "\n"); strings.Contains(all, "height") {
		t.Errorf("the height is given, and yet %q", all)
	}
}

// Of more texts than are named, those that do not read come first.
func TestWorstTextsAreNamedFirst(t *testing.T) {
	s := gullhaven()
	s.Cues = []Cue{{Text: "A"}, {Text: "B"}, {Text: "C"}, {Text: "D"}, {Text: "E"}, {Text: "F"}}
	p := mustMake(t, s)
	for i := range p.Cues {
		p.Cues[i].Reading.Verdict = legibility.Reads
	}
	p.Cues[3].Reading.Verdict, p.Cues[5].Reading.Verdict = legibility.Marginal, legibility.DoesNotRead
	says := p.sayReads()
	f, d, a := strings.Index(says, "“F” does not read"), strings.Index(says, "“D” is marginal"), strings.Index(says, "“A” reads")
	if f != 0 || d < f || a < d || !strings.Contains(says, "The other 3 texts are in the report.") {
		t.Error(says)
	}
}
