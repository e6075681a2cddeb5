package mosaic

import (
	"errors"
	"fmt"
	"math"
	"math/bits"
	"slices"
	"strings"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/say"
)

// supplies are the card colours as stock to use up and to buy.
func (s *Stunt) supplies() []stock.Supply {
	return mapped(s.Colours, func(c Colour) stock.Supply {
		out := stock.Supply{
			Name: c.Name, Stock: stock.Unlimited, Have: max(c.Sheets, 0), Pack: c.Pack, Cents: c.PriceCents,
			White: c.RGB == colour.RGB{255, 255, 255},
		}
		if c.Limited() {
			out.Stock = c.Sheets
		}
		return out
	})
}

// savingFor is one part of so many of the least error that may be given for fewer changes (ours, no source).
const savingFor = 100

// deal hands out the cards, and where the stock does not reach, first gives the seats
// other colours at the least total error that the stock allows.
func (m *maker) deal() error {
	if err := m.handOut(); err != nil {
		return err
	}
	if m.dealt.bill.Short() {
		m.p.Wanted = m.dealt.bill
		if err := m.ration(); err != nil {
			return err
		}
	}
	p, d := m.p, m.dealt
	p.Cards, p.Hands, p.Bill, p.Figures = d.cards, d.hands, d.bill, d.figures
	m.tellChanges()
	return nil
}

// ration deals what there is where the picture suffers least and then, where texts suffer, by how much of their score
// each seat takes: first as they were laid, then as they were dealt. What reads best stays.
func (m *maker) ration() error {
	m.wanted = m.p.colours()
	seen := m.asks(nil)
	if err := m.rationBy(seen); err != nil {
		return err
	}
	least := m.dealt.figures.LeastError
	best, shown, score, laid := m.dealt, m.p.colours(), m.textScores(), m.wanted
	for range falling {
		worth := m.worth(laid)
		if worth == nil || m.rationBy(m.asks(worth)) != nil {
			break
		}
		laid = m.p.colours()
		if s := m.textScores(); slices.Compare(s, score) > 0 {
			best, shown, score = m.dealt, laid, s
		}
	}
	m.dealt = best
	for i := range m.p.Cues {
		m.p.Cues[i].Colours = shown[i]
	}
	f, colours := &m.dealt.figures, len(m.p.Stunt.Colours)
	f.Error, f.LeastError = 0, least
	for i, cue := range seen {
		for n, s := range cue.Seats {
			f.Error += int64(cue.Cost[n*colours+int(shown[i][s])])
		}
	}
	m.tellDeal()
	return nil
}

// leastWorth is what a seat costs from which a text loses nothing: its neighbours in the stands still see it.
const leastWorth = 1.0 / 16

// falling is how often seats are weighed by what texts lose.
const falling = 2

// textScores are the least score of the texts and the sum of all, in thousandths, as the cues are now.
func (m *maker) textScores() []int {
	least, sum := math.MaxInt, 0
	for i := range m.p.Cues {
		if m.p.Cues[i].Text == nil {
			continue
		}
		ink, options := m.laid(&m.p.Cues[i], i, nil)
		first := len(m.judged[i]) - len(m.p.Marks)
		worst := 1.0
		for k := range m.p.Marks {
			worst = min(worst, legibility.Expect(m.judged[i], first+k, ink, m.p.Cues[i].Text.Glyphs(), options))
		}
		n := int(math.Round(1000 * worst))
		least, sum = min(least, n), sum+n
	}
	return []int{least, sum}
}

// worth is by cue, and by seat of a text's field, what the wrong card there costs beside a seat of the ground that is
// wholly seen: by how much it changes the score from the camera where seats show these colours, and all of a text as
// much as by what is seen of it, so that cues share the stock as before. It is nil where no text shows others than it
// wants.
func (m *maker) worth(colours [][]int16) [][]float64 {
	var out [][]float64
	for i := range m.p.Cues {
		plan := m.p.Cues[i]
		if plan.Text == nil || slices.Equal(plan.Colours, m.wanted[i]) {
			continue
		}
		plan.Colours = colours[i]
		ink, options := m.laid(&plan, i, nil)
		first := len(m.judged[i]) - len(m.p.Marks)
		falls := legibility.NewChances(m.judged[i], first, ink, plan.Text.Glyphs(), options).Falls()
		if falls == nil {
			return nil
		}
		sum, all := 0.0, 0.0
		lost := make([]float64, len(falls))
		for k, s := range plan.Field {
			// What seems to gain by a wrong card gains for the reader alone: it counts like what loses by it.
			lost[k] = math.Abs(float64(falls[k].Wrong))
			want := stock.Want{Seen: float64(m.p.Marks[0].Sight.Seen[s]), Stroke: ink[k]}
			sum, all = sum+lost[k], all+float64(want.Share())
		}
		if out == nil {
			out = make([][]float64, len(m.p.Cues))
		}
		out[i] = make([]float64, len(falls))
		for k := range lost {
			out[i][k] = lost[k] * all / max(sum, 1)
		}
	}
	return out
}

// rationBy deals what there is: spares are made of what is left.
func (m *maker) rationBy(asked []stock.Cue) error {
	usable := m.cardsInStock()
	var first *stock.Colours // more than it deals no plan can, so its bound holds
	// How many cards go wrong in the making depends on which they are, so what may be dealt is found by dealing.
	for n := 0; n == 0 || m.dealt.bill.Short(); n++ {
		if n > 0 {
			usable = m.lower(usable)
		}
		colours, short, err := m.assign(first, asked, usable)
		if short != nil {
			return m.shortFault(short, usable, asked)
		} else if err != nil {
			return err
		}
		if first == nil || len(asked) == 1 { // of one cue every deal is exact
			first = colours
		}
		if err := m.show(colours, first); err != nil {
			return err
		}
	}
	return m.saveChanges(first, asked, usable)
}

// show gives the seats colours that were dealt, and their cards.
func (m *maker) show(colours, first *stock.Colours) error {
	for i := range m.p.Cues {
		m.p.Cues[i].Colours = colours.ByCue[i]
	}
	if err := m.handOut(); err != nil {
		return err
	}
	m.dealt.figures.Error, m.dealt.figures.LeastError = colours.Cost, first.Least
	return nil
}

// saveChanges deals a few sheets less, so that cards which save changes can be made: where there are sheets
// enough for their sides, but not for those that are spoiled. The picture may hardly suffer for it.
func (m *maker) saveChanges(first *stock.Colours, asked []stock.Cue, usable []int) error {
	for most := m.dealt.figures.Error + m.dealt.figures.LeastError/savingFor; m.dealt.tight != nil; {
		before, shown := m.dealt, m.p.colours()
		usable = slices.Clone(usable)
		for c, n := range before.tight {
			usable[c] -= min(max(usable[c], 0), n)
		}
		colours, short, err := m.assign(first, asked, usable)
		if err != nil || short != nil || colours.Cost > most {
			return err
		}
		if err := m.show(colours, first); err != nil {
			return err
		}
		if m.dealt.bill.Short() || m.dealt.figures.Changes >= before.figures.Changes {
			m.dealt = before
			for i := range m.p.Cues {
				m.p.Cues[i].Colours = shown[i]
			}
			return nil
		}
	}
	return nil
}

// assign deals what may be dealt, the second time and later by the prices of the first, or says how short it is.
func (m *maker) assign(first *stock.Colours, asked []stock.Cue, usable []int) (*stock.Colours, *stock.Short, error) {
	colours, err := stock.AssignCues(asked, len(m.p.Stands.Seats), usable, first)
	if short, ok := errors.AsType[*stock.Short](err); ok {
		return nil, short, nil
	} else if err != nil {
		return nil, nil, &seating.Fault{Key: "colour", What: err.Error()}
	}
	return colours, nil, nil
}

// lower takes off what the last deal used too much.
func (m *maker) lower(usable []int) []int {
	out, people := slices.Clone(usable), make([]int, len(usable)) // who show a colour at all
	for s := range m.p.Stands.Seats {
		for own := m.p.own(s); own != 0; own &= own - 1 {
			people[bits.TrailingZeros64(own)]++
		}
	}
	for _, line := range m.dealt.bill.Lines {
		if c := line.Colour; c >= 0 && line.Short > 0 {
			fewer := max(1, m.p.cardsOf(line.Short)*49/50) // with fifty cards fewer one less is spoiled
			out[c] = max(0, min(out[c], people[c])-fewer)
		}
	}
	return out
}

// cardsInStock is by colour how many cards may be dealt.
func (m *maker) cardsInStock() []int {
	return mapped(m.p.Stunt.Colours, func(c Colour) int { return m.p.cardsIn(&c) })
}

// asks is what every cue would have its seats show, priced by how wrong each card colour is, and by what a seat of a
// text's field is worth where that is known.
func (m *maker) asks(worth [][]float64) []stock.Cue {
	p := m.p
	palette := rgbs(p.Stunt.Colours)
	sight := p.Marks[0].Sight
	out := make([]stock.Cue, len(p.Cues))
	for i := range p.Cues {
		ink := int16(None)
		if p.Cues[i].Text != nil {
			ink = m.index[p.Stunt.Cues[i].Ink]
		}
		var wants []stock.Want
		weight := make([]float64, len(p.Stands.Seats))
		if worth != nil {
			for k := range worth[i] {
				weight[p.Cues[i].Field[k]] = max(worth[i][k], leastWorth)
			}
		}
		for s, c := range m.wanted[i] {
			if c == None {
				continue
			}
			want := stock.Want{Colour: palette[c].Linear(), Seen: float64(sight.Seen[s])}
			want.Stroke = c == ink || m.painted[i][int32(s)]
			if !m.painted[i][int32(s)] {
				want.Weight = weight[s]
			}
			if light, known := m.lights[i][int32(s)]; known && !m.painted[i][int32(s)] {
				want.Colour = light // an image's own, and not that of the card nearest to it
			}
			out[i].Seats = append(out[i].Seats, int32(s))
			wants = append(wants, want)
		}
		out[i].Cost = stock.Costs(wants, palette)
	}
	return out
}

// tellDeal says how many seats show another colour than they would with plenty of everything.
func (m *maker) tellDeal() {
	before := m.wanted
	var parts []string
	total := 0
	for i := range before {
		n := 0
		for s, c := range before[i] {
			if m.p.Cues[i].Colours[s] != c {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%s at %s", say.Thousands(n), say.Quoted(m.p.Cues[i].Name)))
		}
		total += n
	}
	lacking := m.p.Lacking()
	names := mapped(lacking, func(l Lack) string { return m.p.Stunt.Colours[l.Colour].Name })
	show := "show"
	if total == 1 {
		show = "shows"
	}
	line := fmt.Sprintf("The stock of %s does not reach: %s %s another colour than planned",
		say.List(names), say.Count(total, "seat"), show)
	if len(before) > 1 && total > 0 {
		line += " (" + strings.Join(parts, ", ") + ")"
	}
	suffers := "the picture suffers least"
	if m.p.Spells() {
		suffers = "the letters suffer least"
	}
	line += "; they were chosen so that " + suffers + ". " + say.Capital(m.p.MoreOf(lacking)) +
		", spares counted in, would be enough"
	if slices.ContainsFunc(lacking, func(l Lack) bool { return m.p.Stunt.Colours[l.Colour].Pack == 0 }) {
		line += ": where more can be bought, write pack = … beside the colour"
	}
	line += "."
	if f := &m.dealt.figures; f.LeastError < f.Error {
		line += fmt.Sprintf(" Their differences of colour add up to %s, and no plan can have less than %s.",
			say.Thousands(wholeError(f.Error)), say.Thousands(wholeError(f.LeastError)))
	}
	m.p.Warnings = append(m.p.Warnings, line)
}

// tellChanges says what it takes that some cards have a plain side or another colour where a scarce
// one would have been handier.
func (m *maker) tellChanges() {
	f := m.p.Figures
	if f.Changes == f.LeastChanges {
		return
	}
	m.warn("There is not enough %s for a second card in the same colour: cards are changed %s instead of %s.",
		say.List(m.names(m.dealt.Lacking)), say.Count(f.Changes, "time"), say.Thousands(f.LeastChanges))
}

// wholeError is an error in CIEDE2000 units of seats that are wholly seen.
func wholeError(cost int64) int { return int((cost + stock.CostUnit/2) / stock.CostUnit) }

// Lack is how many sheets more of a colour it would take for all seats to show their own, spares counted in.
type Lack struct{ Colour, Sheets int }

// Lacking are the colours whose stock does not reach, by index; none where every seat shows its own colour.
func (p *Plan) Lacking() (out []Lack) {
	if p.Wanted == nil {
		return nil
	}
	for _, l := range p.Wanted.Lines {
		if l.Short > 0 {
			out = append(out, Lack{l.Colour, l.Short + l.Forgone})
		}
	}
	return out
}

// MoreOf says these sheets in words, in packs where those are known: "2 packs more of CREAM and 40 sheets more of …".
func (p *Plan) MoreOf(lacking []Lack) string {
	return say.List(mapped(lacking, func(l Lack) string {
		c := &p.Stunt.Colours[l.Colour]
		if c.Pack == 0 {
			return fmt.Sprintf("%s more of %s", say.Count(l.Sheets, "sheet"), c.Name)
		}
		return fmt.Sprintf("%s more of %s", say.Count((l.Sheets+c.Pack-1)/c.Pack, "pack"), c.Name)
	}))
}

// shortFault says how many cards of which colour are missing, and which plans near by would fit.
func (m *maker) shortFault(short *stock.Short, usable []int, asked []stock.Cue) error {
	p := m.p
	worst, most := 0, -1
	var over []string
	for c := range p.Stunt.Colours {
		k := &p.Stunt.Colours[c]
		missing := short.Wanted[c] - short.Stock[c]
		if !k.Limited() || missing <= 0 {
			continue
		}
		have := "there are " + say.Count(k.Sheets, "sheet")
		if short.Stock[c] < k.Sheets {
			have += fmt.Sprintf(", which make %s that can be dealt", say.Count(short.Stock[c], "card"))
		}
		over = append(over, fmt.Sprintf("%s is wanted by %s, and %s", k.Name, say.People(short.Wanted[c]), have))
		if missing > most {
			worst, most = c, missing
		}
	}
	what := say.Count(max(short.Seats, 1), "card") + " short"
	if len(over) > 0 {
		what += ": " + strings.Join(over, "; ")
	}
	buy := "write pack = … beside it: how many sheets a pack of it has"
	if p.Stunt.Colours[worst].NoMore {
		buy = "leave no_more out"
	}
	return &seating.Fault{
		Key:  fmt.Sprintf("colour[%d].sheets", worst),
		What: what,
		Hint: fmt.Sprintf("where more of %s can be bought, %s; else these would fit, without a spare: %s",
			p.Stunt.Colours[worst].Name, buy, strings.Join(m.offers(worst, usable, asked), "; ")),
	}
}

// offers are the plans near by that the stock bears.
func (m *maker) offers(colour int, usable []int, asked []stock.Cue) []string {
	var out []string
	if n := m.missing(usable, colour, asked); n > 0 {
		sheets := n
		if work := m.p.making(); m.p.Stunt.Card.Kind == Bonded {
			sheets += (n*work.SpoiledPercent + 99) / 100
		}
		sheets *= m.p.SheetsPerCard()
		out = append(out, fmt.Sprintf("%s more of %s", say.Count(sheets, "sheet"), m.p.Stunt.Colours[colour].Name),
			fmt.Sprintf("another colour of which there are %s", say.Count(sheets, "sheet")),
			m.fewerSeats(n))
	}
	if n := m.withShirts(usable, asked); n >= 0 {
		out = append(out, fmt.Sprintf("ground = %q, with cards for %s", Shirts, say.People(n)))
	}
	return out
}

// missing is how many more cards of a colour would do, or 0 if that cannot be said.
func (m *maker) missing(usable []int, colour int, asked []stock.Cue) int {
	more := slices.Clone(usable)
	for range len(asked) + 1 {
		_, short, err := m.assign(new(stock.Colours), asked, more)
		switch {
		case err != nil:
			return 0
		case short == nil:
			return more[colour] - usable[colour]
		}
		more[colour] += short.Seats
	}
	return 0
}

// withShirts is how many people hold a card where the ground is shirts, or −1 if that does not fit.
func (m *maker) withShirts(usable []int, asked []stock.Cue) int {
	p := m.p
	k := len(usable)
	fewer := make([]stock.Cue, len(asked))
	people := map[int32]bool{}
	for i, cue := range asked {
		ground := m.index[p.Stunt.Cues[i].Ground]
		for n, s := range cue.Seats {
			if m.wanted[i][s] != ground || m.painted[i][s] {
				fewer[i].Seats = append(fewer[i].Seats, s)
				fewer[i].Cost = append(fewer[i].Cost, cue.Cost[n*k:(n+1)*k]...)
				people[s] = true
			}
		}
	}
	if len(people) == 0 {
		return -1
	}
	if _, short, err := m.assign(new(stock.Colours), fewer, usable); short != nil || err != nil {
		return -1
	}
	return len(people)
}

// fewerSeats names the smallest section that would do, or the number of people.
func (m *maker) fewerSeats(missing int) string {
	best, least := -1, 0
	stands := m.p.Stands
	for k := range stands.Sections {
		if n := stands.Count(k).Cards; n >= missing && (best < 0 || n < least) && n < stands.CountAll().Cards {
			best, least = k, n
		}
	}
	line := say.People(missing) + " fewer with cards"
	if best >= 0 {
		line += fmt.Sprintf(", such as cards = false in section %s (%s)",
			stands.Sections[best].Name, say.Count(least, "card"))
	}
	return line
}
