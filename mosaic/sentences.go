package mosaic

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Sentence is one of the ten that say first what matters.
type Sentence struct {
	About string // two or three words
	Text  string
}

// notKnown stands where a guess would.
const notKnown = "not known yet"

// Sentences are the ten sentences of the report, in order, in plain words;
// what cannot be known yet says so.
func (p *Plan) Sentences() []Sentence {
	return []Sentence{
		{"Does it read", p.sayReads()},
		{"Missing and wrong", p.sayMissing()},
		{"People", p.sayPeople()},
		{"Camera", p.sayCamera()},
		{"Holding the card", p.sayHold()},
		{"Buy and print", p.sayBuy()},
		{"The work", p.sayWork()},
		{"Out of sight", p.sayHidden()},
		{"Who says yes", p.sayYes()},
		{"Do this first", "Take twelve people in two rows of six to the real mark at the real hour, with a card of every colour and one empty seat, and film them: until then colours and lens are guesses."},
	}
}

func (p *Plan) sayReads() string {
	var out []string
	pictures := 0
	for _, i := range p.worstFirst() {
		r := &p.Cues[i].Reading
		mark := "the mark"
		if len(p.Marks) > 1 {
			mark = "the worst of the " + number(len(p.Marks)) + " marks"
		}
		name := quoted(p.Cues[i].Name)
		score := fmt.Sprintf("(%.0f of 100)", 100*r.Score)
		switch r.Verdict {
		case legibility.Picture:
			pictures++
		case legibility.Reads:
			out = append(out, fmt.Sprintf("%s reads on film from %s %s.", name, mark, score))
		case legibility.Marginal:
			out = append(out, fmt.Sprintf("%s is marginal on film from %s %s%s. %s", name, mark, score, weakest(r), p.adviceFor(i)))
		case legibility.DoesNotRead:
			out = append(out, fmt.Sprintf("%s does not read on film from %s %s%s. %s", name, mark, score, weakest(r), p.adviceFor(i)))
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
		out = append(out, sentence(number(pictures)+" cues are pictures, which nobody can spell: look at them as the camera sees them"))
	}
	if names := p.lostOnPhones(); len(names) > 0 {
		out = append(out, fmt.Sprintf("On a phone, with the film shrunk to %d pixels across, these do not surely read: %s.", legibility.PhoneWidth, strings.Join(names, ", ")))
	}
	return strings.Join(out, " ")
}

// worstFirst are the cues, those whose text does not surely read before all others: of many texts only
// the first are named.
func (p *Plan) worstFirst() []int {
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

func (p *Plan) sayMissing() string {
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
		out = append(out, p.sayFrailSeats()...)
		out = append(out, p.sayFreeSeats()...)
	} else {
		out = append(out, fmt.Sprintf("How many may be missing and how many cards may be wrong is %s.", notKnown))
	}
	if people := p.Stands.Spec.People; people > 0 {
		out = append(out, fmt.Sprintf("Of %s people invited about %s are expected (%.0f %%).", thousands(people), thousands(p.Stands.Spec.ExpectedPeople()), 100*p.Stands.Spec.Expected))
	} else if p.People != nil && len(p.People.Roster.People) > 0 {
		n := len(p.People.Roster.People)
		out = append(out, fmt.Sprintf("Of %s in the groups about %s are expected (%.0f %%).", headcount(n), thousands(int(math.Round(float64(n)*p.Stands.Spec.Expected))), 100*p.Stands.Spec.Expected))
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
	return fmt.Sprintf("%s still reads with %s%.0f %% %s (%s of %s).", text, at, 100*share, of, thousands(int(math.Round(share*float64(cards)))), thousands(cards))
}

func (p *Plan) sayPeople() string {
	all := p.CountAll()
	floor := 0
	for k := range p.Stands.Sections {
		if p.Stands.Sections[k].Spec.Kind == seating.Floor {
			floor += p.Count(k).People()
		}
	}
	out := fmt.Sprintf("People with cards: %s; people there without one: %s.", thousands(all.Cards), thousands(all.Persons))
	if floor > 0 {
		out += fmt.Sprintf(" Of both together %s %s on the floor.", thousands(floor), are(floor))
	}
	if posted := p.Stands.Spec.Posted; posted > 0 {
		return out + fmt.Sprintf(" The posted limit is %s: it and the fire official decide, whatever the survey counts.", thousands(posted))
	}
	return out + fmt.Sprintf(" The posted limit is %s: read it off the sign at the door.", notKnown)
}

// fullFrame is the width in millimetres of the sensor that lenses are usually compared on.
const fullFrame = 36

func (p *Plan) sayCamera() string {
	v := p.Marks[0].View
	at := v.Position
	angle := 2 * math.Atan(float64(v.Width)/2/v.Focal) * 180 / math.Pi
	side := "in front of"
	if at[1] > 0 {
		side = "behind the line of"
	}
	out := fmt.Sprintf("The camera stands %s %s the front row, %s, with its lens %s above the floor; it sees %.0f° across, like a %.0f mm lens on full frame.",
		span(math.Abs(at[1])), side, aside(at[0]), span(at[2]), angle, v.Focal/float64(v.Width)*fullFrame)
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
		out += fmt.Sprintf(" %s of %s cards face away from it or are behind it: is the section's facing right?", thousands(turned), thousands(p.CountAll().Cards))
	}
	if cut == 0 {
		out += " It cuts off no card."
	} else {
		out += fmt.Sprintf(" Its frame cuts off %s of %s cards.", thousands(cut), thousands(p.CountAll().Cards))
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
	return out + " " + p.sayStray()
}

// tripodHigh is how far above the floor, in metres, a lens stands on a tripod (common practice, no source).
const tripodHigh = 2.2

func aside(x float64) string {
	switch mm := math.Round(x * 1000); {
	case mm < 0:
		return span(-x) + " to the left of the middle as seen from the camera"
	case mm > 0:
		return span(x) + " to the right of the middle as seen from the camera"
	}
	return "in the middle"
}

func (p *Plan) sayHold() string {
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
	rows := p.rowSight()
	if p.Scene.Card.Held <= camera.Chest {
		return strings.Join(append([]string{out}, rows.hidden...), " ")
	}
	lower := p.Scene.Card.Held - 1
	if len(rows.vanish) > 0 {
		out += fmt.Sprintf(" Held lower, %s, these would no longer show half of their cards: %s.", lower.Words(), strings.Join(rows.vanish, "; "))
	} else {
		out += fmt.Sprintf(" Held lower, %s, no further row would vanish.", lower.Words())
	}
	return strings.Join(append([]string{out}, rows.hidden...), " ")
}

// sayPrint says what carries the words for the person on a seat.
func (p *Plan) sayPrint() string {
	switch p.Stunt.Print.Placards {
	case OnStock:
		return " The words for each seat are printed on the coloured cards themselves."
	case FullColoured:
		return " The cards are printed in full colour, words and all."
	}
	each := p.Stunt.Print.PerSheet
	if g := p.Stunt.Print.Grid; g != nil {
		each = g.Columns * g.Rows
	}
	return fmt.Sprintf(" Print %s, %d on a sheet.", plural(p.placards(), "placard label"), each)
}

// sayTiles says that a card is put together of several sheets.
func (p *Plan) sayTiles() string {
	n := p.SheetsPerCard()
	if n == 1 {
		return ""
	}
	return fmt.Sprintf(" Each card is larger than the paper and is put together of %s.", plural(n, "sheet"))
}

func (p *Plan) sayBuy() string {
	b := p.bill
	if b.Cards == 0 {
		return "No cards are needed."
	}
	var buy []string
	for _, l := range b.Lines {
		buy = append(buy, p.sayLine(l))
	}
	out := fmt.Sprintf("Sheets, spares counted in (a tenth more of each colour in each section, %d at least): %s.", stock.LeastSpares, strings.Join(buy, ", ")) + p.sayTiles() + p.sayPrint() + p.sayMade()
	if names := p.darkColours(); len(names) > 0 {
		out += fmt.Sprintf(" Black cannot be read on %s: take white labels there.", strings.Join(names, " and "))
	}
	switch {
	case !b.Priced:
		out += fmt.Sprintf(" What it costs is %s: write pack sizes and prices beside the colours.", notKnown)
	case b.GoodsCents == 0:
		out += " There is nothing to buy: all of it is in stock; printing is not counted."
	case b.Making == stock.Printed:
		out += fmt.Sprintf(" Card and toner cost %s.", money(b.GoodsCents))
	default:
		out += fmt.Sprintf(" The sheets cost %s, printing not counted.", money(b.GoodsCents))
	}
	return out + p.sayCheapest()
}

// sayLine is "478 of navy (500 in stock)", or with the packs to buy.
func (p *Plan) sayLine(l stock.Line) string {
	name, pack, have := "white card to print", 0, -1
	if l.Colour >= 0 {
		k := &p.Stunt.Colours[l.Colour]
		name, pack, have = k.Name, k.Pack, k.Sheets
	} else {
		pack = p.Stunt.Work.of().Paper.Pack
	}
	out := fmt.Sprintf("%s of %s", thousands(l.Sheets()), name)
	if have >= 0 {
		out += fmt.Sprintf(" (%s in stock)", thousands(have))
	}
	if l.Packs > 0 && pack > 0 {
		out += fmt.Sprintf(" = %s to buy, %s left over", plural(l.Packs, "pack"), thousands(l.Left))
	}
	return out
}

// placards counts the people who get a label.
func (p *Plan) placards() int {
	n := 0
	for s := range p.Stands.Seats {
		for i := range p.Hands {
			if p.Hands[i][s].Card >= 0 {
				n++
				break
			}
		}
	}
	return n
}

// sayMade tells how the cards are made where that is more than one sheet a person.
func (p *Plan) sayMade() string {
	f := &p.Figures
	out := ""
	if p.bill.Making == stock.Printed {
		out = fmt.Sprintf(" The cards are printed: %s to flood with toner.", plural(p.bill.Toner, "side"))
	}
	if f.Most < 2 && p.bill.Making != stock.Bonded {
		return out
	}
	out += fmt.Sprintf(" That makes %s in people's hands, at most %s each, of %s", plural(f.Cards, "card"), number(f.Most), plural(f.Kinds, "kind"))
	if f.LeastKinds < f.Kinds {
		out += fmt.Sprintf(" (%d at least)", f.LeastKinds)
	}
	if p.bill.Making == stock.Bonded {
		out += ", two sheets back to back where a card has two colours"
	}
	return out + fmt.Sprintf("; the card is changed %s in all.", plural(f.Changes, "time"))
}

// darkColours are the colours in use on which black print cannot be read.
func (p *Plan) darkColours() []string {
	var names []string
	for _, l := range p.bill.Lines {
		if l.Colour >= 0 && p.Stunt.WhiteLabel(l.Colour) {
			names = append(names, p.Stunt.Colours[l.Colour].Name)
		}
	}
	return names
}

// sayCheapest compares the ways of making the cards, as far as prices are known.
func (p *Plan) sayCheapest() string {
	bills, best := p.Bills()
	if !bills[0].Priced || len(bills) < 2 {
		return ""
	}
	if best == 0 {
		known := slices.IndexFunc(bills[1:], func(b *stock.Bill) bool { return b.Priced }) >= 0
		unknown := slices.IndexFunc(bills[1:], func(b *stock.Bill) bool { return !b.Priced }) >= 0
		switch {
		case !known:
			return fmt.Sprintf(" Whether another way of making the cards is cheaper is %s: write pack sizes and prices beside the colours.", notKnown)
		case unknown:
			return fmt.Sprintf(" Of the ways of making the cards that have prices no other is cheaper%s%s.", p.countsWork(), p.assumed(bills))
		}
		return fmt.Sprintf(" No other way of making the cards is cheaper%s%s.", p.countsWork(), p.assumed(bills))
	}
	b := bills[best]
	if !b.Priced {
		return ""
	}
	says := "Cheaper"
	if b.Cents() == bills[0].Cents() {
		says = "As cheap and less work"
	}
	out := fmt.Sprintf(" %s would be cards made as %s: %s and %s", says, b.Making, goods(b.GoodsCents), making(b.Minutes))
	if most := p.mostCards(b.Making); most > p.Figures.Most {
		out += fmt.Sprintf(", but up to %s cards a person", number(most))
	}
	out += p.countsWork()
	if b.Making == stock.Printed {
		out += p.assumed(bills)
	}
	return out + "."
}

// making says how long cards take to make.
func making(m int) string {
	if m == 0 {
		return "no work before they are dealt"
	}
	return minutes(time.Duration(m)*time.Minute) + " of work"
}

// countsWork says what an hour of work counts where ways are compared.
func (p *Plan) countsWork() string {
	if wage := p.Stunt.Work.WageCents; wage > 0 {
		return fmt.Sprintf(", with %s for an hour of work", money(wage))
	}
	return ""
}

// assumed tells which prices of printing are not the crew's own.
func (p *Plan) assumed(bills []*stock.Bill) string {
	w, own := p.Stunt.Work.of(), p.Stunt.Work
	for _, b := range bills {
		if b.Making == stock.Printed && (own.TonerCents == 0 || own.PaperCents == 0) {
			return fmt.Sprintf(" (printing at %s of toner a side and %s for %d white cards, which is assumed)", money(w.TonerCents), money(w.Paper.Cents), w.Paper.Pack)
		}
	}
	return ""
}

// goods is what has to be paid for, or that nothing has.
func goods(cents int) string {
	if cents == 0 {
		return "nothing to buy"
	}
	return money(cents)
}

func money(cents int) string { return fmt.Sprintf("%s.%02d", thousands(cents/100), cents%100) }

func (p *Plan) sayWork() string {
	spec := p.Stunt.Laying
	cards, rows, longest := p.laid()
	each := fmt.Sprintf("%s a card and %s a row", seconds(spec.PerCard), seconds(spec.PerRow))
	helpers := max(spec.Helpers, 1)
	var out string
	if spec.Pass {
		// Stacks are handed to the rows one after the other; the rows pass them on at the same time.
		took := time.Duration(rows)*spec.PerRow/time.Duration(helpers) + time.Duration(longest)*spec.PerCard
		out = fmt.Sprintf("Passing %s along %s takes about %s with %s, at %s.", plural(cards, "card"), plural(rows, "row"), minutes(took), plural(helpers, "helper"), each)
	} else {
		took := (time.Duration(cards)*spec.PerCard + time.Duration(rows)*spec.PerRow) / time.Duration(helpers)
		out = fmt.Sprintf("Laying %s in %s takes about %s with %s, at %s.", plural(cards, "card"), plural(rows, "row"), minutes(took), plural(helpers, "helper"), each)
	}
	return out + p.sayBefore()
}

// sayBefore is the work of one person before the day, as the tally has it.
func (p *Plan) sayBefore() string {
	cards, bags, deal := p.Dealing()
	if cards == 0 {
		return ""
	}
	parts := []string{fmt.Sprintf("%s to deal them into %s (%s a card, %s a bag)", minutes(deal), plural(bags, "row bag"), seconds(DealPerCard), seconds(DealPerBag))}
	if labels, stick := p.Sticking(); labels > 0 {
		parts = append(parts, fmt.Sprintf("%s to stick on %s (%s each)", minutes(stick), plural(labels, "label"), seconds(StickPerLabel)))
	}
	if p.bill.Minutes > 0 {
		parts = append(parts, minutes(time.Duration(p.bill.Minutes)*time.Minute)+" to make the cards")
	}
	last := len(parts) - 1
	list := strings.Join(parts[:last], ", ")
	if last > 0 {
		list += " and "
	}
	return fmt.Sprintf(" Before that one person takes about %s%s; printing and cutting are in tally.pdf. These speeds are assumed: time the first fifty.", list, parts[last])
}

// laid counts cards that are laid or passed, the rows that get any, and the most in a row.
func (p *Plan) laid() (cards, rows, longest int) {
	var kit []int16
	for k := range p.Stands.Sections {
		for _, row := range p.Stands.Sections[k].Rows {
			in := 0
			for s := row.First; s < row.Last; s++ {
				kit = p.Kit(kit[:0], int32(s))
				in += len(kit)
			}
			cards += in
			longest = max(longest, in)
			if in > 0 {
				rows++
			}
		}
	}
	return cards, rows, longest
}

func (p *Plan) sayHidden() string {
	var away, dark []int
	for s := range p.Stands.Seats {
		use := p.Stands.Seats[s].Use
		switch {
		case use != seating.UseCard && use != seating.UsePerson:
		case p.outside(s):
			away = append(away, s)
		case use == seating.UseCard && p.unseen(s):
			dark = append(dark, s)
		}
	}
	var out []string
	if len(away) > 0 {
		out = append(out, fmt.Sprintf("Outside the frame from every mark: %s, good places for people who may not be filmed: %s.", plural(len(away), "seat"), p.places(away)))
	} else {
		out = append(out, "Every seat is in the frame of some mark, so there is no place for people who may not be filmed but away from the stands.")
	}
	if len(dark) > 0 {
		what := "seat"
		if len(away) > 0 {
			what = "more seat"
		}
		out = append(out, fmt.Sprintf("The cards on %s are hidden from every mark, though faces may show: %s.", plural(len(dark), what), p.places(dark)))
	} else {
		out = append(out, "No card in the frame is wholly hidden.")
	}
	return strings.Join(out, " ")
}

// hiddenCard is the seen share under which a card counts as hidden.
const hiddenCard = 0.1

func (p *Plan) unseen(s int) bool {
	for _, m := range p.Marks {
		if m.Sight.Seen[s] >= hiddenCard {
			return false
		}
	}
	return true
}

// outside says that a person is well outside the frame of every mark, arms and
// head with them: a metre and a half around the seat's shoulders projects outside.
func (p *Plan) outside(s int) bool {
	const around = 1.5
	at := p.Stands.Seats[s].Position
	at[2]++
	for _, m := range p.Marks {
		px, depth := m.View.Project(at)
		if depth <= 0 {
			// Behind the lens; whoever is close beside it may still reach into the frame.
			if depth < -around {
				continue
			}
			return false
		}
		reach := m.View.Focal * around / depth
		if px[0] > -reach && px[0] < float64(m.View.Width)+reach && px[1] > -reach && px[1] < float64(m.View.Height)+reach {
			return false
		}
	}
	return true
}

// places lists seats by row, at most a few rows.
func (p *Plan) places(seats []int) string {
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
		out = append(out, fmt.Sprintf("and in %s", plural(rows-most, "more row")))
	}
	return strings.Join(out, ", ")
}

func (p *Plan) sayYes() string {
	if signs := p.Stunt.Day.Signs; len(signs) > 0 {
		return fmt.Sprintf("Before anything is bought these must say yes: %s; the fire official decides on the number of people.", strings.Join(signs, ", "))
	}
	return fmt.Sprintf("Who must still say yes is %s: write signs = […] under [day]; whoever has charge of the stands and the local fire official are always among them.", notKnown)
}
