package brief

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/people"
	"everyseat/seating/say"
	"everyseat/testdata/fair"
)

// tells is the teller of a stunt of whose outlook just these parts are worked out.
func tells(t testing.TB, s *mosaic.Stunt, parts outlook.Part) *teller {
	t.Helper()
	p := fair.Plan(t, s)
	o, err := outlook.Of(t.Context(), p, parts, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	return newTeller(p, o)
}

// ofSentences are the parts of an outlook that the ten sentences are made from; without advice.
const ofSentences = outlook.Fewer | outlook.Stray | outlook.Rows | outlook.Ways | outlook.Phone | outlook.Falls

// told is a stunt's teller as far as the ten sentences need it.
func told(t testing.TB, s *mosaic.Stunt) *teller {
	t.Helper()
	return tells(t, s, ofSentences)
}

// said is the sentence about something.
func said(t testing.TB, all *teller, about string) string {
	t.Helper()
	for _, s := range all.sentences() {
		if s.About == about {
			return s.Text
		}
	}
	t.Fatalf("nothing is said about %q", about)
	return ""
}

func wantSaid(t *testing.T, all *teller, about string, parts ...string) {
	t.Helper()
	got := said(t, all, about)
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
	for _, s := range []*mosaic.Stunt{fair.Stunt(), fair.Crowded()} {
		all := told(t, s).sentences()
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
	all := told(t, fair.Stunt())
	for _, about := range []string{"Missing and wrong", "People", "Buy and print", "Who says yes"} {
		wantSaid(t, all, about, notKnown)
	}
	wantSaid(t, all, "The work", "These speeds are assumed")
}

func TestSentencesSayWhatIsKnown(t *testing.T) {
	s := fair.Crowded()
	s.Stands.Posted, s.Stands.People = 700, 1500
	s.Day.Signs = []string{"the custodian", "the fire official"}
	for i := range s.Colours {
		s.Colours[i].Pack, s.Colours[i].PriceCents = 50, 1199
	}
	s.Colours[0].Sheets = 600
	s.Camera.Across = -150 * seating.Centimetre
	all := told(t, s)
	wantSaid(t, all, "Missing and wrong", "Of 1,500 people invited about 1,320 are expected (88 %).")
	wantSaid(t, all, "People", "People with cards: 428;", "without one: 60.", "Of both together 60 are on the floor.", "The posted limit is 700")
	// 65° across is 28 mm on full frame: 36 / 2 / tan 32.5° (FACTS: fov = 2 atan(d/2f)).
	wantSaid(t, all, "Camera", "18.00 m (59 ft 1 in) in front of", "1.50 m (4 ft 11 in) to the left", "lens 3.00 m (9 ft 10 in)", "65° across", "28 mm")
	wantSaid(t, all, "Who says yes", "the custodian, the fire official;")
	if got := said(t, all, "Who says yes"); strings.Contains(got, notKnown) {
		t.Errorf("who says yes is known: %q", got)
	}
	bill := all.Plan.Bill
	cents := 0
	for _, l := range bill.Lines {
		if l.Colour != 0 { // of navy there is enough
			cents += (l.Sheets() + 49) / 50 * 1199
		}
	}
	navy := bill.Lines[0]
	wantSaid(t, all, "Buy and print", say.Thousands(navy.Cards+navy.Spares)+" of navy (in hand 600),", "The sheets cost "+euros(cents)+", printing not counted.",
		"Black cannot be read on navy: take white labels there.")
}

// What is in hand is used up and the rest is bought; where nothing can be, spares are given up, and that is said
// wherever spares are spoken of; where even that is not enough, the first sentence says what to buy.
func TestScarceStockIsSaid(t *testing.T) {
	s := fair.Stunt()
	free := told(t, s)
	navy := free.Bill.Lines[0]
	for i := range s.Colours {
		s.Colours[i].Pack, s.Colours[i].PriceCents = 100, 1200
	}
	s.Colours[0].Sheets = navy.Sheets() - 1
	wantSaid(t, told(t, s), "Buy and print", fmt.Sprintf("%d of navy (in hand %d, buy 1 pack of 100, 99 left over)", navy.Sheets(), navy.Sheets()-1))

	s.Colours[0].Sheets, s.Colours[0].NoMore = navy.Cards+2, true
	all := told(t, s)
	given := fmt.Sprintf("The stock leaves 2 spares of navy instead of %d: spares are given up before", navy.Spares)
	wantSaid(t, all, "Buy and print", given, fmt.Sprintf("%d of navy (in hand %[1]d)", navy.Cards+2))
	for where, words := range map[string]string{"tally": all.tally().SpareWords, "report": all.moreCards()} {
		if !strings.Contains(words, given) {
			t.Errorf("the %s says %q", where, words)
		}
	}

	s.Colours[0].Sheets = 160
	all = tells(t, s, ofSentences|outlook.Advice)
	wantSaid(t, all, "Does it read", "measured: buy 1 pack more of navy: then it reads (")
	s.Colours[1].Sheets, s.Colours[2].Sheets = 500, 500
	wantSaid(t, told(t, s), "Buy and print", "There is nothing to buy, unless 2 packs more of navy can be had;")
}

// Who is painted without a card holds none, and is not counted among those who do.
func TestPeopleWithoutACardAreSaid(t *testing.T) {
	s := fair.Stunt()
	s.Cues[0].Painted = []mosaic.Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 3}}}
	if got := told(t, s).sentences()[2].Text; !strings.HasPrefix(got, "People with cards: 429; people there without one: 3.") {
		t.Errorf("%q", got)
	}
}

func TestReadingIsSaid(t *testing.T) {
	s := fair.Crowded()
	s.Cues[0].Text = "HOME" // which reads
	all := told(t, s)
	reading := &all.Plan.Cues[0].Reading
	r := legibility.Reading{Score: 0.5, EmptyOK: 0.1, Letters: []legibility.Letter{
		{Letter: "S", Margin: 0.02, Rival: "5", Why: "only 3.4 seats wide"}, {Letter: "O", Margin: 0.2, Rival: "Q"},
	}}
	for verdict, want := range map[legibility.Verdict]string{
		legibility.Reads:       "“HOME” reads on film from the mark (50 of 100).",
		legibility.Marginal:    "“HOME” is marginal on film from the mark (50 of 100): its weakest letter is S, taken for 5 (only 3.4 seats wide). Which one change helps most is not known yet.",
		legibility.DoesNotRead: "“HOME” does not read on film",
		"":                     "Whether “HOME” reads on film is not known yet.",
	} {
		r.Verdict = verdict
		*reading = r
		wantSaid(t, all, "Does it read", want, "One cue is a picture")
	}
	r.Verdict = legibility.Reads
	*reading = r
	wantSaid(t, all, "Missing and wrong", "It still reads with 10 % of the seats empty here and there (43 of 428).", "It cannot be relied on with any of the cards wrong.")
}

// Of more texts than are named, those that do not read come first.
func TestWorstTextsAreNamedFirst(t *testing.T) {
	s := fair.Stunt()
	s.Cues = []mosaic.Cue{{Text: "A"}, {Text: "B"}, {Text: "C"}, {Text: "D"}, {Text: "E"}, {Text: "F"}}
	all := tells(t, s, outlook.Phone)
	for i := range all.Plan.Cues {
		all.Plan.Cues[i].Reading.Verdict = legibility.Reads
	}
	all.Plan.Cues[3].Reading.Verdict, all.Plan.Cues[5].Reading.Verdict = legibility.Marginal, legibility.DoesNotRead
	says := all.sayReads()
	f, d, a := strings.Index(says, "“F” does not read"), strings.Index(says, "“D” is marginal"), strings.Index(says, "“A” reads")
	if f != 0 || d < f || a < d || !strings.Contains(says, "The other 3 texts are in the report.") {
		t.Error(says)
	}
}

// A film of which the stands fill a small part reads as it is and not on a phone: the first sentence says so.
func TestLostOnPhones(t *testing.T) {
	s := fair.Stunt()
	s.Cues[0].Text = "HOME"
	if text := tells(t, s, outlook.Phone).sayReads(); strings.Contains(text, "On a phone") {
		t.Error(text)
	}
	s.Camera.Lens.FieldOfView = 140
	all := tells(t, s, outlook.Phone)
	if phone := all.o.Cues[0].Phone; all.Plan.Cues[0].Reading.Verdict != legibility.Reads || phone[0].Pixels >= legibility.FewestPixels() {
		t.Fatalf("%v on film, %+v on a phone", all.Plan.Cues[0].Reading, phone)
	}
	if text := all.sayReads(); !strings.Contains(text, "On a phone, with the film shrunk to 640 pixels across, these do not surely read: “HOME”.") {
		t.Error(text)
	}
}

// Each way in which the camera may stray has its own figure, or shares it with its opposite; from where nothing reads
// it may not stray, and of more seats than are looked at it is not known.
func TestStrayIsSaid(t *testing.T) {
	s := fair.Stunt()
	s.Cues[0].Text = "HOME"
	all := tells(t, s, outlook.Stray)
	open, text := all.o.Stray, all.sayCamera()
	for _, way := range []struct {
		mosaic.Reach
		to string
	}{{open.Left, "left"}, {open.Right, "right|to either side"}, {open.Nearer, "nearer"}, {open.Back, "back"}, {open.Up, "up"}, {open.Down, "down"}} {
		if says := regexp.QuoteMeta(says(way.Reach)); !regexp.MustCompile(says + " (to the )?(" + way.to + "|to either side|nearer or back|up or down)").MatchString(text) {
			t.Errorf("%s %s is not in %q", says, way.to, text)
		}
	}
	far, near := mosaic.Reach{Distance: seating.Metre, End: mosaic.EndFar}, mosaic.Reach{Distance: 0, End: mosaic.EndScore}
	for want, got := range map[string]string{
		"at least 1.00 m (3 ft 3 in) up and less than 0.25 m (10 in) down": eitherWay(far, near, "up", "down", "up or down"),
		"less than 0.25 m (10 in) up or down":                              eitherWay(near, near, "up", "down", "up or down"),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	all.o.Stray = nil
	if text := all.sayCamera(); !strings.Contains(text, "How far it may stray is not known yet") {
		t.Error(text)
	}
	s = fair.Stunt()
	s.Camera.Back = 700 * seating.Metre // its letters have fewer pixels than any can be told by
	if text := tells(t, s, outlook.Stray).sayCamera(); !strings.Contains(text, "it may not stray") {
		t.Errorf("from where it does not read: %s", text)
	}
}

// Who may not be filmed sits outside every frame, not merely with a hidden card.
func TestOutOfSight(t *testing.T) {
	s := fair.Stunt()
	wantSaid(t, told(t, s), "Out of sight", "Every seat is in the frame of some mark")
	// A long lens on the middle section sees nothing of the outer ones.
	s.Camera.Lens = camera.Lens{FieldOfView: 14}
	s.Cues[0] = mosaic.Cue{ImageName: "halves.png", Image: fair.Halves(s.Colours[1].RGB, s.Colours[2].RGB), On: []string{"B"}}
	all := told(t, s)
	wantSaid(t, all, "Out of sight", "Outside the frame from every mark: ", "12 in", "more rows")
	wantSaid(t, all, "Camera", "14° across", "Its frame cuts off")
	for id, want := range map[string]bool{"A-6-1": true, "C-6-12": true, "B-6-6": false, "B-6-1": false, "B-12-12": false} {
		s, err := all.Plan.Stands.Find(id)
		if err != nil {
			t.Fatal(err)
		}
		if got := all.Plan.Outside(s); got != want {
			t.Errorf("%s is outside the frame: %v", id, got)
		}
	}
}

// Held before the chest the heads in front hide what shows at the eyes.
func TestHoldingLowerHides(t *testing.T) {
	s := fair.Stunt()
	s.Camera.Height = 160 * seating.Centimetre
	s.Card.Held = camera.Chin
	wantSaid(t, told(t, s), "Holding the card", "with its top edge under the chin", "Held lower, with its middle before the chest")
	s.Card.Held = camera.Chest
	wantSaid(t, told(t, s), "Holding the card", "with its middle before the chest")
}

// How many of the groups are expected is said, by hand 88 in a hundred.
func TestGroupsAreExpected(t *testing.T) {
	s := fair.Stunt()
	s.People.Groups = []people.Party{{Name: "harbour choir", People: 216}, {Name: "rowing club", People: 186}}
	wantSaid(t, told(t, s), "Missing and wrong", fmt.Sprintf("Of 402 people in the groups about %d are expected (88 %%).", int(math.Round(0.88*402))))
}

// With few free seats the text reads about as well as planned, with half of the stands free it does not; who is invited
// and in no group is named.
func TestFreeSeatsAreSaid(t *testing.T) {
	scores := map[int]int{}
	for _, percent := range []int{98, 50} {
		s := fair.Stunt()
		all := fair.Plan(t, s).Stands.CountAll().People()
		s.Stands.People, s.Stands.Expected = all, 0.99
		s.People.Groups = []people.Party{{Name: "harbour choir", People: all * percent / 100}}
		what := told(t, s)
		text := said(t, what, "Missing and wrong")
		m := regexp.MustCompile(`^The groups have \d+ people for 432 seats\. Leave free those that matter least: (\d+) seats with a card \(.*?\)\. With just those empty “GLOW” .*? \((\d+) of 100\)\.`).FindStringSubmatch(text)
		if m == nil {
			t.Fatalf("%d %%: %q", percent, text)
		}
		free := 0
		for seat, who := range what.Plan.People.Person {
			if who == people.None && what.Plan.Stands.Seats[seat].Use == seating.UseCard {
				free++
			}
		}
		if m[1] != strconv.Itoa(free) {
			t.Errorf("%d %%: %s seats are said to be free, %d are", percent, m[1], free)
		}
		scores[percent], _ = strconv.Atoi(m[2])
		warnings := strings.Join(Of(what.Plan, what.o, nil).Warnings, " ")
		if !strings.Contains(warnings, "are in no group and have no seat yet") {
			t.Errorf("%d %%: %q", percent, warnings)
		}
	}
	if scores[98] < 80 || scores[50] > scores[98]/2 {
		t.Errorf("scores by how many come, in percent: %v", scores)
	}
}

// The second sentence names the seat whose one wrong card costs most, with the figure of the
// map of seats that matter, and nothing where nothing is spelt.
func TestFrailSeatsAreNamed(t *testing.T) {
	for _, text := range []string{"GLEAM", "LAMP", "B", "OO"} {
		s := fair.Stunt()
		s.Cues[0].Text = text
		all := told(t, s)
		worst, at := int32(0), 0
		for seat, f := range all.o.Cues[0].Falls {
			if f.Wrong > worst {
				worst, at = f.Wrong, seat
			}
		}
		says := all.sentences()[1].Text
		want := fmt.Sprintf("one wrong card on %s alone costs %d of 100 points", all.Plan.Stands.ID(at), (worst+5000)/10_000)
		if worst < frailFrom || !strings.Contains(says, want) {
			t.Errorf("%s: %q is not in %q", text, want, says)
		}
		t.Logf("%s: %d millionths on %s", text, worst, all.Plan.Stands.ID(at))
	}
	s := fair.Stunt()
	s.Cues = []mosaic.Cue{{ImageName: "halves.png", Image: fair.Halves(s.Colours[1].RGB, s.Colours[2].RGB)}}
	if says := told(t, s).sentences()[1].Text; strings.Contains(says, "alone costs") {
		t.Errorf("of a picture: %q", says)
	}
}
