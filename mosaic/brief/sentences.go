package brief

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
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
		{"Do this first", "Take twelve people in two rows of six to the real mark at the real hour, with a card of every colour and one empty seat, and film them: until then colours and lens are guesses."},
	}
}

func (t *teller) sayReads() string {
	p := t.p
	var out []string
	pictures := 0
	for _, i := range t.worstFirst() {
		r := &p.Cues[i].Reading
		mark := "the mark"
		if len(p.Marks) > 1 {
			mark = "the worst of the " + say.Number(len(p.Marks)) + " marks"
		}
		name := say.Quoted(p.Cues[i].Name)
		score := fmt.Sprintf("(%.0f of 100)", 100*r.Score)
		switch r.Verdict {
		case legibility.Picture:
			pictures++
		case legibility.Reads:
			out = append(out, fmt.Sprintf("%s reads on film from %s %s.", name, mark, score))
		case legibility.Marginal:
			out = append(out, fmt.Sprintf("%s is marginal on film from %s %s%s. %s", name, mark, score, weakest(r), t.adviceFor(i)))
		case legibility.DoesNotRead:
			out = append(out, fmt.Sprintf("%s does not read on film from %s %s%s. %s", name, mark, score, weakest(r), t.adviceFor(i)))
		default:
			out = append(out, fmt.Sprintf("Whether %s reads on film is %s.", name, notKnown))
		}
	}
	const most = 4
	if len(out) > most {
		out = append(out[:most-1], fmt.Sprintf("The other %d texts are in the report.", len(out)-most+1))
	}
	switch pictures {
	case 0:
	case 1:
		out = append(out, "One cue is a picture, which nobody can spell: look at it as the camera sees it.")
	default:
		out = append(out, say.Sentence(say.Number(pictures)+" cues are pictures, which nobody can spell: look at them as the camera sees them"))
	}
	if names := t.lostOnPhones(); len(names) > 0 {
		out = append(out, fmt.Sprintf("On a phone, with the film shrunk to %d pixels across, these do not surely read: %s.", legibility.PhoneWidth, strings.Join(names, ", ")))
	}
	return strings.Join(out, " ")
}

// lostOnPhones are the texts that read on film, and on a phone do not.
func (t *teller) lostOnPhones() (names []string) {
	doubtful := func(s legibility.Shrunk) bool { return s.Verdict != legibility.Reads }
	for i := range t.p.Cues {
		c := &t.p.Cues[i]
		if c.Reading.Verdict == legibility.Reads && slices.ContainsFunc(t.o.Cues[i].Phone, doubtful) {
			names = append(names, say.Quoted(c.Name))
		}
	}
	return names
}

// worstFirst are the cues, those whose text does not surely read before all others: of many texts only
// the first are named.
func (t *teller) worstFirst() []int {
	p := t.p
	rank := func(cue int) int {
		return slices.Index([]legibility.Verdict{legibility.Marginal, legibility.DoesNotRead}, p.Cues[cue].Reading.Verdict)
	}
	order := make([]int, len(p.Cues))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rank(b), rank(a)) })
	return order
}

// weakest names the letter with the least margin, and why it is weak.
func weakest(r *legibility.Reading) string {
	at := -1
	for i := range r.Letters {
		if at < 0 || r.Letters[i].Margin < r.Letters[at].Margin {
			at = i
		}
	}
	if at < 0 {
		return ""
	}
	l := &r.Letters[at]
	out := fmt.Sprintf(": its weakest letter is %s", l.Letter)
	if l.Rival != "" && l.Rival != "\x00" {
		out += ", taken for " + l.Rival
	}
	if l.Why != "" {
		out += " (" + l.Why + ")"
	}
	return out
}

func (t *teller) sayMissing() string {
	p := t.p
	cards := p.CountAll().Cards
	var out []string
	empty, wrong, texts := 1.0, 1.0, 0
	for i := range p.Cues {
		switch r := &p.Cues[i].Reading; r.Verdict {
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
		if !p.ReadsAtMark() { // the verdict counts all of it together, these shares one thing alone
			alone := "With nothing else wrong "
			what, frail = alone+strings.ToLower(what[:1])+what[1:], alone+strings.ToLower(frail[:1])+frail[1:]
		}
		mostEmpty, mostWrong := legibility.MostTried()
		out = append(out, bears(what, frail, "of the seats empty here and there", empty, mostEmpty, cards), bears(what, frail, "of the cards wrong", wrong, mostWrong, cards))
		out = append(out, t.sayFrailSeats()...)
		out = append(out, t.sayFreeSeats()...)
	} else {
		out = append(out, fmt.Sprintf("How many may be missing and how many cards may be wrong is %s.", notKnown))
	}
	if people := p.Stands.Spec.People; people > 0 {
		out = append(out, fmt.Sprintf("Of %s people invited about %s are expected (%.0f %%).", say.Thousands(people), say.Thousands(p.Stands.Spec.ExpectedPeople()), 100*p.Stands.Spec.Expected))
	} else if p.People != nil && len(p.People.Roster.People) > 0 {
		n := len(p.People.Roster.People)
		out = append(out, fmt.Sprintf("Of %s in the groups about %s are expected (%.0f %%).", say.People(n), say.Thousands(int(math.Round(float64(n)*p.Stands.Spec.Expected))), 100*p.Stands.Spec.Expected))
	} else {
		out = append(out, fmt.Sprintf("How many will come is %s: write people = … under [stands].", notKnown))
	}
	return strings.Join(out, " ")
}

// bears says with which share of what all texts still read, or that one, the frail, does with
// none; more than most was not tried.
func bears(text, frail, of string, share, most float64, cards int) string {
	if share <= 0 {
		return fmt.Sprintf("%s cannot be relied on with any %s.", frail, of)
	}
	at := ""
	if share >= most {
		at = "at least "
	}
	return fmt.Sprintf("%s still reads with %s%.0f %% %s (%s of %s).", text, at, 100*share, of, say.Thousands(int(math.Round(share*float64(cards)))), say.Thousands(cards))
}

func (t *teller) sayPeople() string {
	p := t.p
	all := p.CountAll()
	floor := 0
	for k := range p.Stands.Sections {
		if p.Stands.Sections[k].Spec.Kind == seating.Floor {
			floor += p.Count(k).People()
		}
	}
	out := fmt.Sprintf("People with cards: %s; people there without one: %s.", say.Thousands(all.Cards), say.Thousands(all.Persons))
	if floor > 0 {
		out += fmt.Sprintf(" Of both together %s %s on the floor.", say.Thousands(floor), say.Are(floor))
	}
	if posted := p.Stands.Spec.Posted; posted > 0 {
		return out + fmt.Sprintf(" The posted limit is %s: it and the fire official decide, whatever the survey counts.", say.Thousands(posted))
	}
	return out + fmt.Sprintf(" The posted limit is %s: read it off the sign at the door.", notKnown)
}

func (t *teller) sayCamera() string {
	p := t.p
	v := p.Marks[0].View
	at := v.Position
	angle := v.Angle() * 180 / math.Pi
	side := "in front of"
	if at[1] > 0 {
		side = "behind the line of"
	}
	out := fmt.Sprintf("The camera stands %s %s the front row, %s, with its lens %s above the floor; it sees %.0f° across, like a %.0f mm lens on full frame.",
		say.Span(math.Abs(at[1])), side, aside(at[0]), say.Span(at[2]), angle, v.FocalOn(camera.FullFrame))
	cut, turned := 0, 0
	for s := range p.Stands.Seats {
		switch sight := p.Marks[0].Sight; {
		case p.Stands.Seats[s].Use != seating.UseCard:
		case sight.Behind[s]:
			turned++
		case !sight.InFrame[s]:
			cut++
		}
	}
	if turned > 0 {
		out += fmt.Sprintf(" %s of %s cards face away from it or are behind it: is the section's facing right?", say.Thousands(turned), say.Thousands(p.CountAll().Cards))
	}
	if cut == 0 {
		out += " It cuts off no card."
	} else {
		out += fmt.Sprintf(" Its frame cuts off %s of %s cards.", say.Thousands(cut), say.Thousands(p.CountAll().Cards))
	}
	if n := len(p.Marks); n > 1 {
		var names []string
		for _, m := range p.Marks[1:] {
			names = append(names, m.View.Name)
		}
		out += fmt.Sprintf(" It must read from %s too.", strings.Join(names, " and from "))
	}
	if at[2] > tripodHigh {
		out += " So high it stands on a balcony, a stage or a scaffold that licensed people put up, never on a ladder: local code decides."
	}
	return out + " " + t.sayStray()
}

// tripodHigh is how far above the floor, in metres, a lens stands on a tripod (common practice, no source).
const tripodHigh = 2.2

func aside(x float64) string {
	switch mm := math.Round(x * 1000); {
	case mm < 0:
		return say.Span(-x) + " to the left of the middle as seen from the camera"
	case mm > 0:
		return say.Span(x) + " to the right of the middle as seen from the camera"
	}
	return "in the middle"
}

func (t *teller) sayHold() string {
	p := t.p
	card := p.Scene.Card
	way := "the long side level"
	if card.Height > card.Width {
		way = "the long side upright"
	} else if card.Height == card.Width {
		way = "straight"
	}
	out := fmt.Sprintf("Everybody holds the card with %s, %s.", way, card.Held.Words())
	if card.ToMark {
		out = fmt.Sprintf("Everybody turns the card to the camera and holds it with %s, %s.", way, card.Held.Words())
	}
	if p.Scene.Card.Held <= camera.Chest {
		return strings.Join(append([]string{out}, t.o.Hidden...), " ")
	}
	lower := p.Scene.Card.Held - 1
	if len(t.o.Vanish) > 0 {
		out += fmt.Sprintf(" Held lower, %s, these would no longer show half of their cards: %s.", lower.Words(), strings.Join(t.o.Vanish, "; "))
	} else {
		out += fmt.Sprintf(" Held lower, %s, no further row would vanish.", lower.Words())
	}
	return strings.Join(append([]string{out}, t.o.Hidden...), " ")
}

func (t *teller) sayHidden() string {
	p := t.p
	var away, dark []int
	for s := range p.Stands.Seats {
		use := p.Stands.Seats[s].Use
		switch {
		case use != seating.UseCard && use != seating.UsePerson:
		case p.Outside(s):
			away = append(away, s)
		case use == seating.UseCard && p.Unseen(s):
			dark = append(dark, s)
		}
	}
	var out []string
	if len(away) > 0 {
		out = append(out, fmt.Sprintf("Outside the frame from every mark: %s, good places for people who may not be filmed: %s.", say.Count(len(away), "seat"), t.places(away)))
	} else {
		out = append(out, "Every seat is in the frame of some mark, so there is no place for people who may not be filmed but away from the stands.")
	}
	if len(dark) > 0 {
		what := "seat"
		if len(away) > 0 {
			what = "more seat"
		}
		out = append(out, fmt.Sprintf("The cards on %s are hidden from every mark, though faces may show: %s.", say.Count(len(dark), what), t.places(dark)))
	} else {
		out = append(out, "No card in the frame is wholly hidden.")
	}
	return strings.Join(out, " ")
}

// places lists seats by row, at most a few rows.
func (t *teller) places(seats []int) string {
	p := t.p
	const most = 6
	var out []string
	rows := 0
	for i := 0; i < len(seats); {
		first := p.Stands.Seats[seats[i]]
		n := i
		for n < len(seats) && p.Stands.Seats[seats[n]].Section == first.Section && p.Stands.Seats[seats[n]].Row == first.Row {
			n++
		}
		if rows++; rows <= most {
			sec := &p.Stands.Sections[first.Section]
			out = append(out, fmt.Sprintf("%d in %s-%s", n-i, sec.Name, sec.Rows[first.Row].Name))
		}
		i = n
	}
	if rows > most {
		out = append(out, fmt.Sprintf("and in %s", say.Count(rows-most, "more row")))
	}
	return strings.Join(out, ", ")
}

func (t *teller) sayYes() string {
	p := t.p
	if signs := p.Stunt.Day.Signs; len(signs) > 0 {
		return fmt.Sprintf("Before anything is bought these must say yes: %s; the fire official decides on the number of people.", strings.Join(signs, ", "))
	}
	return fmt.Sprintf("Who must still say yes is %s: write signs = […] under [day]; whoever has charge of the stands and the local fire official are always among them.", notKnown)
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

// sayStray is a sentence for the ten.
func (t *teller) sayStray() string {
	p := t.p
	s := t.o.Stray
	kept := "the text still reads"
	if !p.Spells() {
		kept = "nine tenths of what shows from the cross still show"
	}
	switch {
	case s == nil:
		return fmt.Sprintf("How far it may stray is %s: everyseat marks works it out.", notKnown)
	case !p.ReadsAtMark():
		return "Since it does not surely read from the mark itself, it may not stray: everyseat marks looks for a better one."
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

// sayFreeSeats says how the texts read with just those seats empty that the groups leave free.
func (t *teller) sayFreeSeats() []string {
	free := len(outlook.Free(t.p))
	var worst *outlook.Trimmed
	texts := 0
	for i := range t.o.Cues {
		if f := t.o.Cues[i].Free; f != nil {
			texts++
			if worst == nil || f.Score < worst.Score {
				worst = f
			}
		}
	}
	if worst == nil {
		return nil
	}
	what := "it"
	if texts > 1 {
		what = "the worst text"
	}
	return []string{fmt.Sprintf("The groups leave %s with a card free: if just those stay empty, %s %s (%.0f of 100).",
		say.Count(free, "seat"), what, worst.Verdict.Says(), 100*worst.Score)}
}

// From so many millionths of its score that one wrong card takes from a text, its seat is named (ours, no
// source), and so many of them.
const (
	frailFrom = 100_000
	frailMost = 4
)

// frailSeat is a seat whose wrong card alone harms a text.
type frailSeat struct {
	cue  int
	seat int32
	fall int32 // millionths of the score
}

// frailSeats are those that harm most first; ties go to the earlier cue, then the lower seat.
func (t *teller) frailSeats() []frailSeat {
	p := t.p
	var out []frailSeat
	for i := range p.Cues {
		for s, f := range t.o.Cues[i].Falls {
			if f.Wrong >= frailFrom {
				out = append(out, frailSeat{i, int32(s), f.Wrong})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b frailSeat) int { return cmp.Compare(b.fall, a.fall) })
	return out
}

// sayFrailSeats names the seats on which a share of wrong cards is no comfort.
func (t *teller) sayFrailSeats() []string {
	p := t.p
	all := t.frailSeats()
	if len(all) == 0 {
		return nil
	}
	var parts []string
	for i, f := range all[:min(frailMost, len(all))] {
		part := fmt.Sprintf("on %s %d", p.Stands.ID(int(f.seat)), (f.fall+5000)/10_000)
		if i == 0 {
			part = fmt.Sprintf("on %s alone costs %d of 100 points", p.Stands.ID(int(f.seat)), (f.fall+5000)/10_000)
		}
		if len(p.Cues) > 1 {
			part += " at " + say.Quoted(p.Cues[f.cue].Name)
		}
		parts = append(parts, part)
	}
	more := ""
	if n := len(all) - frailMost; n > 0 {
		more = fmt.Sprintf(", and on %s %d or more", say.Count(n, "other seat"), frailFrom/10_000)
	}
	return []string{fmt.Sprintf("Which ones counts too: one wrong card %s%s: check these seats first.", strings.Join(parts, ", "), more)}
}
