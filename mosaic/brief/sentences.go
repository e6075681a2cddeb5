package brief

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// Sentence is one of the ten that say first what matters.
type Sentence struct {
	About string // two or three words
	Text  string
}

// notKnown stands where a guess would.
const notKnown = "not known yet"

// sentences are the ten of the report, in order, in plain words; what cannot be known yet says so.
func (t *teller) sentences() []Sentence {
	return []Sentence{
		{"Does it read", t.sayReads()},
		{"Missing and wrong", t.sayMissing()},
		{"People", t.sayPeople()},
		{"Camera", t.sayCamera()},
		{"Holding the card", t.sayHold()},
		{"Buy and print", t.sayBuy()},
		{"The work", t.sayWork()},
		{"Out of sight", t.sayHidden()},
		{"Who says yes", t.sayYes()},
		{"Do this first", "Take twelve people in two rows of six to the real mark at the real hour, with a card of " +
			"every colour and one empty seat, and film them: until then colours and lens are guesses."},
	}
}

func (t *teller) sayReads() string {
	mark := "the mark"
	if len(t.Marks) > 1 {
		mark = "the worst of the " + say.Number(len(t.Marks)) + " marks"
	}
	var bad, doubtful, out []string // in this order: of many texts only the first are named
	var phones []string             // these read on film, and on a phone do not
	doubtfulOnPhone := func(s legibility.Shrunk) bool { return s.Verdict != legibility.Reads }
	pictures := 0
	for i := range t.Cues {
		r := &t.Cues[i].Reading
		name := say.Quoted(t.Cues[i].Name)
		film := fmt.Sprintf("on film from %s (%.0f of 100)", mark, 100*r.Score)
		switch r.Verdict {
		case legibility.Picture:
			pictures++
		case legibility.Reads:
			out = append(out, fmt.Sprintf("%s reads %s.", name, film))
			if slices.ContainsFunc(t.o.Cues[i].Phone, doubtfulOnPhone) {
				phones = append(phones, name)
			}
		case legibility.Marginal:
			doubtful = append(doubtful, fmt.Sprintf("%s is marginal %s%s. %s", name, film, weakest(r), t.adviceFor(i)))
		case legibility.DoesNotRead:
			bad = append(bad, fmt.Sprintf("%s does not read %s%s. %s", name, film, weakest(r), t.adviceFor(i)))
		default:
			out = append(out, fmt.Sprintf("Whether %s reads on film is %s.", name, notKnown))
		}
	}
	out = slices.Concat(bad, doubtful, out)
	const most = 4
	if len(out) > most {
		out = append(out[:most-1], fmt.Sprintf("The other %d texts are in the report.", len(out)-most+1))
	}
	switch pictures {
	case 0:
	case 1:
		out = append(out, "One cue is a picture, which nobody can spell: look at it as the camera sees it.")
	default:
		out = append(out, say.Sentence(say.Number(pictures)+" cues are pictures, which nobody can spell: look at "+
			"them as the camera sees them"))
	}
	if few := t.fewFail(); few != "" {
		out = append(out, few)
	}
	if phones != nil {
		out = append(out, fmt.Sprintf("On a phone, with the film shrunk to %d pixels across, these do not surely "+
			"read: %s.", legibility.PhoneWidth, strings.Join(phones, ", ")))
	}
	return strings.Join(out, " ")
}

// weakest names the letter with the least margin, and why it is weak.
func weakest(r *legibility.Reading) string {
	if len(r.Letters) == 0 {
		return ""
	}
	l := slices.MinFunc(r.Letters, func(a, b legibility.Letter) int { return cmp.Compare(a.Margin, b.Margin) })
	out := ": its weakest letter is " + l.Letter
	if l.Rival != "" && l.Rival != "\x00" {
		out += ", taken for " + l.Rival
	}
	if l.Why != "" {
		out += " (" + l.Why + ")"
	}
	return out
}

func (t *teller) sayMissing() string {
	cards := t.CountAll().Cards
	out := t.sayFew(t.o.Few)
	if f := t.o.Few; f != nil && f.People > 0 && f.Grouped == (t.People != nil) && len(t.spans(f.Free)) <= freeSpans {
		out = append(out, "All seats that stay free are named in calldown.pdf.")
	}
	borne := []string{fmt.Sprintf("How many may be missing and how many cards may be wrong is %s.", notKnown)}
	empty, wrong, texts := 1.0, 1.0, 0
	for i := range t.Cues {
		switch r := &t.Cues[i].Reading; r.Verdict {
		case legibility.Reads, legibility.Marginal, legibility.DoesNotRead:
			empty, wrong = min(empty, r.EmptyOK), min(wrong, r.WrongOK)
			texts++
		}
	}
	if texts > 0 {
		what, frail := "It", "It"
		if texts > 1 {
			what, frail = "Every text", "At least one text"
		}
		if !t.ReadsAtMark() { // the verdict counts all of it together, these shares one thing alone
			what, frail = "With nothing else wrong "+say.Small(what), "With nothing else wrong "+say.Small(frail)
		}
		mostEmpty, mostWrong := legibility.MostTried()
		borne = append([]string{bears(what, frail, "of the seats empty here and there", empty, mostEmpty, cards),
			bears(what, frail, "of the cards wrong", wrong, mostWrong, cards)}, t.sayFrailSeats()...)
	}
	spec := &t.Stands.Spec
	come := fmt.Sprintf("How many will come is %s: write people = … under [stands].", notKnown)
	if spec.People > 0 {
		come = fmt.Sprintf("Of %s people invited about %s are expected (%.0f %%).", say.Thousands(spec.People),
			say.Thousands(spec.ExpectedPeople()), 100*spec.Expected)
	} else if t.People != nil && len(t.People.Roster.People) > 0 {
		n := len(t.People.Roster.People)
		come = fmt.Sprintf("Of %s in the groups about %s are expected (%.0f %%).", say.People(n),
			say.Thousands(int(math.Round(float64(n)*spec.Expected))), 100*spec.Expected)
	}
	return strings.Join(append(append(out, borne...), come), " ")
}

// bears says with which share of what all texts still read, or that one, the frail, does with none; more than most was
// not tried.
func bears(text, frail, of string, share, most float64, cards int) string {
	at := ""
	switch {
	case share <= 0:
		return fmt.Sprintf("%s cannot be relied on with any %s.", frail, of)
	case share >= most:
		at = "at least "
	}
	return fmt.Sprintf("%s still reads with %s%.0f %% %s (%s of %s).", text, at, 100*share, of,
		say.Thousands(int(math.Round(share*float64(cards)))), say.Thousands(cards))
}

func (t *teller) sayPeople() string {
	all := t.CountAll()
	out := fmt.Sprintf("People with cards: %s; people there without one: %s.", say.Thousands(all.Cards),
		say.Thousands(all.Persons))
	if floor := floorPeople(t.Plan); floor > 0 {
		out += fmt.Sprintf(" Of both together %s %s on the floor.", say.Thousands(floor), say.Are(floor))
	}
	if posted := t.Stands.Spec.Posted; posted > 0 {
		return out + fmt.Sprintf(" The posted limit is %s: it and the fire official decide, whatever the survey "+
			"counts.", say.Thousands(posted))
	}
	return out + fmt.Sprintf(" The posted limit is %s: read it off the sign at the door.", notKnown)
}

func (t *teller) sayCamera() string {
	v := t.Marks[0].View
	at := v.Position
	side := "in front of"
	if at[1] > 0 {
		side = "behind the line of"
	}
	out := fmt.Sprintf("The camera stands %s %s the front row, %s, with its lens %s above the floor; it sees %.0f° "+
		"across, like a %.0f mm lens on full frame.", away(at[1]), side, aside(at[0], " to the left of the middle "+
		"as seen from the camera", " to the right of the middle as seen from the camera", "in the middle"),
		say.Span(at[2]), v.Angle()*180/math.Pi, v.FocalOn(camera.FullFrame))
	cut, turned := 0, 0
	for s := range t.Stands.Seats {
		switch sight := t.Marks[0].Sight; {
		case t.Stands.Seats[s].Use != seating.UseCard:
		case sight.Behind[s]:
			turned++
		case !sight.InFrame[s]:
			cut++
		}
	}
	cards := say.Thousands(t.CountAll().Cards)
	if turned > 0 {
		out += fmt.Sprintf(" %s of %s cards face away from it or are behind it: is the section's facing right?",
			say.Thousands(turned), cards)
	}
	if cut == 0 {
		out += " It cuts off no card."
	} else {
		out += fmt.Sprintf(" Its frame cuts off %s of %s cards.", say.Thousands(cut), cards)
	}
	if len(t.Marks) > 1 {
		out += fmt.Sprintf(" It must read from %s too.", strings.Join(t.furtherMarks(), " and from "))
	}
	if at[2] > tripodHigh {
		out += " So high it stands on a balcony, a stage or a scaffold that licensed people put up, never on a " +
			"ladder: local code decides."
	}
	return out + " " + t.sayStray()
}

// tripodHigh is how far above the floor, in metres, a lens stands on a tripod (common practice, no source).
const tripodHigh = 2.2

func (t *teller) sayHold() string {
	card := t.Scene.Card
	does := "holds the card"
	if card.ToMark {
		does = "turns the card to the camera and holds it"
	}
	out := fmt.Sprintf("Everybody %s with %s, %s.", does, wayRound(t.Plan, "straight"), card.Held.Words())
	if lower := card.Held - 1; card.Held > camera.Chest && len(t.o.Vanish) > 0 {
		out += fmt.Sprintf(" Held lower, %s, these would no longer show half of their cards: %s.", lower.Words(),
			strings.Join(t.o.Vanish, "; "))
	} else if card.Held > camera.Chest {
		out += fmt.Sprintf(" Held lower, %s, no further row would vanish.", lower.Words())
	}
	return strings.Join(append([]string{out}, t.o.Hidden...), " ")
}

func (t *teller) sayHidden() string {
	var outside, dark []int32
	for s := range t.Stands.Seats {
		use := t.Stands.Seats[s].Use
		switch {
		case use != seating.UseCard && use != seating.UsePerson:
		case t.Outside(s):
			outside = append(outside, int32(s))
		case use == seating.UseCard && t.Unseen(s):
			dark = append(dark, int32(s))
		}
	}
	out := "Every seat is in the frame of some mark, so there is no place for people who may not be filmed but away " +
		"from the stands."
	what := "seat"
	if len(outside) > 0 {
		out = fmt.Sprintf("Outside the frame from every mark: %s, good places for people who may not be filmed: %s.",
			say.Count(len(outside), "seat"), t.places(outside))
		what = "more seat"
	}
	if len(dark) == 0 {
		return out + " No card in the frame is wholly hidden."
	}
	return out + fmt.Sprintf(" The cards on %s are hidden from every mark, though faces may show: %s.",
		say.Count(len(dark), what), t.places(dark))
}

// places lists seats by row, at most a few rows.
func (t *teller) places(seats []int32) string {
	const most = 6
	var out []string
	rows := Stretches(seats, sameRow(t.Plan))
	for _, row := range rows[:min(len(rows), most)] {
		at := &t.Stands.Seats[row[0]]
		section := &t.Stands.Sections[at.Section]
		out = append(out, fmt.Sprintf("%d in %s-%s", len(row), section.Name, section.Rows[at.Row].Name))
	}
	if more := len(rows) - most; more > 0 {
		out = append(out, "and in "+say.Count(more, "more row"))
	}
	return strings.Join(out, ", ")
}

func (t *teller) sayYes() string {
	if signs := t.Stunt.Day.Signs; len(signs) > 0 {
		return fmt.Sprintf("Before anything is bought these must say yes: %s; the fire official decides on the "+
			"number of people.", strings.Join(signs, ", "))
	}
	return fmt.Sprintf("Who must still say yes is %s: write signs = […] under [day]; whoever has charge of the "+
		"stands and the local fire official are always among them.", notKnown)
}

// says is a reach in words: "1.00 m (3 ft 3 in)", "at least …", "less than …", "not at all".
func says(r mosaic.Reach) string {
	switch {
	case r.Distance == 0 && r.End == mosaic.EndRoom:
		return "not at all"
	case r.Distance == 0:
		return "less than " + say.Span(outlook.StrayStep.Metres())
	case r.End == mosaic.EndFar:
		return "at least " + say.Span(r.Distance.Metres())
	}
	return say.Span(r.Distance.Metres())
}

func (t *teller) sayStray() string {
	s := t.o.Stray
	kept := "the text still reads"
	if !t.Spells() {
		kept = "nine tenths of what shows from the cross still show"
	}
	switch {
	case s == nil:
		return fmt.Sprintf("How far it may stray is %s: everyseat marks works it out.", notKnown)
	case !t.ReadsAtMark():
		return "Since it does not surely read from the mark itself, it may not stray: everyseat marks looks for a " +
			"better one."
	}
	return fmt.Sprintf("It may stray from the tape cross %s, %s, and %s, and %s.",
		eitherWay(s.Left, s.Right, "to the left", "to the right", "to either side"),
		eitherWay(s.Nearer, s.Back, "nearer", "back", "nearer or back"),
		eitherWay(s.Up, s.Down, "up", "down", "up or down"), kept)
}

// eitherWay says two opposite reaches, in one where they are alike.
func eitherWay(a, b mosaic.Reach, toA, toB, toBoth string) string {
	if says(a) == says(b) {
		return says(a) + " " + toBoth
	}
	return fmt.Sprintf("%s %s and %s %s", says(a), toA, says(b), toB)
}

// From so many millionths of its score that one wrong card takes from a text, its seat is named (ours, no
// source), and so many of them.
const (
	frailFrom = 100_000
	frailMost = 4
)

// sayFrailSeats names the seats on which a share of wrong cards is no comfort, those that harm most first; ties go to
// the earlier cue, then the lower seat.
func (t *teller) sayFrailSeats() []string {
	type frail struct {
		cue, seat int
		fall      int32 // millionths of the score
	}
	var all []frail
	for i := range t.Cues {
		for s, f := range t.o.Cues[i].Falls {
			if f.Wrong >= frailFrom {
				all = append(all, frail{i, s, f.Wrong})
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	slices.SortStableFunc(all, func(a, b frail) int { return cmp.Compare(b.fall, a.fall) })
	words := "Which ones counts too: one wrong card "
	for i, f := range all[:min(frailMost, len(all))] {
		points := (f.fall + 5000) / 10_000
		if i == 0 {
			words += fmt.Sprintf("on %s alone costs %d of 100 points", t.seatAs(int32(f.seat)), points)
		} else {
			words += fmt.Sprintf(", on %s %d", t.seatAs(int32(f.seat)), points)
		}
		if len(t.Cues) > 1 {
			words += " at " + say.Quoted(t.Cues[f.cue].Name)
		}
	}
	if n := len(all) - frailMost; n > 0 {
		words += fmt.Sprintf(", and on %s %d or more", say.Count(n, "other seat"), frailFrom/10_000)
	}
	return []string{words + ": check these seats first."}
}

// adviceFor says which one change helps most, or plainly that none does.
func (t *teller) adviceFor(cue int) string { return adviceWords(t.o.Advice, cue, "") }

// adviceWords are adviceFor of a list; how says how the changes were measured.
func adviceWords(all []advice.Advised, cue int, how string) string {
	i := slices.IndexFunc(all, func(a advice.Advised) bool { return a.Cue == cue })
	if i < 0 {
		return say.Sentence("Which one change helps most is " + notKnown)
	}
	a := &all[i]
	if len(a.Advice) == 0 {
		return fmt.Sprintf("None of the %d changes that were measured%s helps.", a.Tried, how)
	}
	then := func(a *advice.Advice) string { // the change and what it gives
		verdict := a.Verdict.Says()
		if a.Verdict == legibility.DoesNotRead {
			verdict = "still does not read"
		}
		return fmt.Sprintf("%s: then it %s (%.0f of 100).", a.Do, verdict, 100*a.After)
	}
	out := fmt.Sprintf("What helps most of the %d changes that were measured%s: ", a.Tried, how) + then(&a.Advice[0])
	if a.Least > 0 {
		out += " A smaller change: " + then(&a.Advice[a.Least])
	}
	more := slices.IndexFunc(a.Advice, func(v advice.Advice) bool { return v.Change == advice.MoreStock })
	if more > 0 && more != a.Least { // that cards are missing is not lost among other changes
		out += " With cards enough: " + then(&a.Advice[more])
	}
	return out
}

// sayLight is what too much light and dark clothes do, in plain sentences; the last one is advice, and helps against
// all of it.
func (t *teller) sayLight() (out []string) {
	for n, words := range [...]string{"Even in the right light", "With one stop too much light", "With two stops " +
		"too much light"} {
		if names := t.lostAt(n); len(names) > 0 {
			out = append(out, fmt.Sprintf("%s the camera loses %s.", words, strings.Join(names, ", ")))
		}
	}
	if len(out) == 0 {
		out = []string{"With up to two stops too much light no pair of colours is lost."}
	}
	return append(append(out, t.sayClothes()...), lockAdvice)
}

const lockAdvice = "Lock exposure, focus and white balance with the cards up, and look at the lightest card at full " +
	"size: it must not burn out."

func (t *teller) lostAt(stops int) (names []string) {
	for _, l := range t.o.Light {
		if at := &l.At[stops]; l.Lost == stops && l.Text {
			names = append(names, fmt.Sprintf("%s on %s (contrast %.1f to 1)", l.A, l.B, at.Contrast))
		} else if l.Lost == stops {
			names = append(names, fmt.Sprintf("%s beside %s (CIEDE2000 %.1f)", l.A, l.B, at.Differ))
		}
	}
	return names
}

// sayClothes says which texts a crowd in dark clothes spoils; nothing where the crew says that people wear light ones.
func (t *teller) sayClothes() (out []string) {
	if t.Stunt.People.Wear == mosaic.Light {
		return nil
	}
	said := map[[2]string]bool{}
	for i := range t.Stunt.Cues {
		c := &t.Stunt.Cues[i]
		ink, inks := colour.Contrast(t.Stunt.RGBOf(c.Ink), mosaic.DarkClothes), [2]string{c.Ink, c.Ground}
		if c.Text == "" || said[inks] || ink >= mosaic.LeastContrast {
			continue
		}
		said[inks] = true
		if c.Ground == mosaic.Shirts {
			out = append(out, fmt.Sprintf("Before a crowd in dark clothes %s letters are lost (contrast %.1f to 1): "+
				"take a light ink, or cards for the ground.", c.Ink, ink))
			continue
		}
		out = append(out, fmt.Sprintf("With a crowd in dark clothes what shows between the %s cards looks like %s "+
			"ink (contrast %.1f to 1): ask for light tops, or take light letters on a dark ground.", c.Ground, c.Ink,
			ink))
	}
	if len(out) == 0 && t.Spells() {
		out = append(out, "A crowd in dark clothes takes nothing from the letters. But a camera on automatic makes a "+
			"dark picture brighter, and then the cards are too bright: lock the exposure.")
	}
	return out
}

// lightLine is one line for the person at the lens: what is lost first, or "".
func (t *teller) lightLine() string {
	for n, words := range [...]string{"One stop", "Two stops"} {
		if names := t.lostAt(n + 1); len(names) > 0 {
			return fmt.Sprintf("%s too bright loses %s.", words, strings.Join(names, ", "))
		}
	}
	return ""
}

// sayFrame is what the camera's frame takes in at the middle of the cards.
func (t *teller) sayFrame() string {
	v := t.Marks[0].View
	deep, n := 0.0, 0.0
	for s := range CardsSeen(t.Plan) {
		_, depth := v.Project(t.Stands.Seats[s].Position)
		deep, n = deep+depth, n+1
	}
	if n == 0 {
		return ""
	}
	at := deep / n
	w, h, px := outlook.FrameAt(v, at)
	degrees := func(pixels int) float64 { return 2 * math.Atan(float64(pixels)/2/v.Focal) * 180 / math.Pi }
	wide, high := t.Scene.Card.Width.Metres(), t.Scene.Card.Height.Metres()
	return fmt.Sprintf("The lens sees %.1f° across and %.1f° up and down. At %s, the middle of the cards, its frame "+
		"is %s wide and %s high (distance × picture size ÷ focal length in pixels), which gives %.0f pixels a "+
		"metre: a card of %.0f × %.0f cm that faces it has %.0f × %.0f pixels.", degrees(v.Width), degrees(v.Height),
		say.Span(at), say.Span(w), say.Span(h), px, 100*wide, 100*high, px*wide, px*high)
}
