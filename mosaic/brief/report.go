package brief

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// Report is what report.html shows.
type Report struct {
	Title, Date, Where, Contact, Code string
	Sentences                         []Sentence
	Warnings                          []string
	Cues                              []reportCue
	Rest                              string
	Strip                             reportStrip
	Sections                          []reportSection
	All                               []string // as the rows of Sections
	Posted, Invited                   string
	Cards                             reportCards
	Cautions                          []string
	Views                             []reportView
	Days                              []reportDay
	Light                             []reportLight
	LightSays                         []string
	Frame                             string
	Sizes                             []reportSizes
	PhoneWidth, PictureW, PictureH    int
}

type reportCue struct {
	Number            int
	Name, At, Text    string
	Picture, Map, Alt string
	Light             string // the cue in more light; "" for a picture
	Verdict, Score    string
	EmptyOK, WrongOK  string
	Weak, Dropped     []string
	Advised           bool // changes were measured
	Tried             int
	Advice            []reportAdvice
	Verdicts          bool
}

type reportAdvice struct{ Change, Do, Verdict, Before, After string }

type reportSection struct {
	Name   string
	Totals []string // places, missing, with cards, without, kept free, capacity
	Rows   []reportRow
	Sights bool // the rows have sight lines
}

type reportRow struct {
	Name   string
	Totals []string // places, missing, with cards, without, kept free, capacity
	Cards  string   // "12 NAVY, 6 CREAM"
	Sight  string   // C-value to the lens in whole millimetres; empty for a front row and behind the lens
}

// reportCards is cards by section (lines) and kind (columns).
type reportCards struct {
	Kinds  []reportKind
	Lines  []CountLine
	Needed []string
	Total  string
	More   string // spares and spoiled ones
}

type reportKind struct{ ID, Hex, Hex2, Name string }

func (t *teller) report(b *Brief) Report {
	title, invited := cmp.Or(t.Stunt.Title, "Card stunt"), t.Stands.Spec.People
	if invited == 0 && t.People != nil {
		invited = len(t.People.Roster.People)
	}
	r := Report{
		Title: title, Date: t.Stunt.Date, Where: where(t.Plan), Contact: t.Stunt.Contact, Code: string(b.Code),
		Sentences: b.Sentences, Warnings: b.Warnings, Rest: title + " as the camera sees it before the first cue " +
			"and after the last: everybody rests with the card on the lap.",
		Sections: t.reportSections(), All: totalCells(t.CountAll()), Posted: known(t.Stands.Spec.Posted),
		Invited: known(invited), Cards: t.reportCards(), Views: t.views(), Days: t.days(), Light: t.reportLight(),
		LightSays: t.sayLight(), Frame: t.sayFrame(), Sizes: t.reportSizes(), PhoneWidth: legibility.PhoneWidth,
		PictureW: t.Marks[0].View.Width, PictureH: t.Marks[0].View.Height,
		Cautions: append(cautions(t.Plan),
			"Figures from codes are help, never approval: local code and licensed practice decide."),
	}
	for i := range t.Cues {
		r.Cues = append(r.Cues, t.reportCue(i))
	}
	r.Strip = t.reportStrip(r.Cues, r.Rest)
	return r
}

func known(n int) string {
	if n == 0 {
		return notKnown
	}
	return say.Thousands(n)
}

func totalCells(t seating.Totals) []string {
	return thousandsOf(t.Places, t.Missing, t.Cards, t.Persons, t.Reserved, t.Capacity)
}

func where(p *mosaic.Plan) string {
	if p.Stunt.Outdoors {
		return "outdoors"
	}
	return "indoors"
}

func (t *teller) reportCue(i int) reportCue {
	n := strconv.Itoa(i + 1)
	c := &t.Cues[i]
	r := &c.Reading
	cue := reportCue{
		Number: i + 1, Name: c.Name, At: c.At, Text: strings.ReplaceAll(t.Stunt.Cues[i].Text, "\n", " / "),
		Picture: "pictures/camera-" + n + ".png", Map: "pictures/map-" + n + ".svg",
		Alt:     "As the camera sees it: the picture of cue " + n + ".",
		Verdict: string(r.Verdict), Score: score(r.Score), EmptyOK: percent(r.EmptyOK), WrongOK: percent(r.WrongOK),
		Verdicts: r.Verdict != legibility.Picture && r.Verdict != "",
	}
	if cue.Text != "" {
		cue.Alt = "As the camera sees it: the people in the stands show “" + cue.Text + "”."
		cue.Light = "pictures/light-" + n + ".png"
	}
	for _, l := range r.Letters {
		if l.Why != "" {
			cue.Weak = append(cue.Weak, l.Letter+": "+l.Why)
		}
	}
	if c.Text != nil {
		cue.Dropped = slices.Concat(c.Text.Dropped, c.Text.Notes)
	}
	for _, advised := range t.o.Advice {
		if advised.Cue != i {
			continue
		}
		cue.Advised, cue.Tried = true, advised.Tried
		for _, a := range advised.Advice {
			cue.Advice = append(cue.Advice, reportAdvice{a.Change, a.Do, string(a.Verdict), score(advised.Before),
				score(a.After)})
		}
	}
	return cue
}

func score(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// percent is a share in whole hundredths, rounded down: it is a limit.
func percent(share float64) string { return strconv.Itoa(int(float64(share*100)+1e-9)) + " %" }

func (t *teller) reportSections() []reportSection {
	cards := map[[2]int][]int{} // by section and row
	for _, r := range t.Tally() {
		cards[[2]int{r.Section, r.Row}] = r.Cards
	}
	list := make([]reportSection, len(t.Stands.Sections))
	for k := range list {
		s, to := &t.Stands.Sections[k], &list[k]
		to.Name, to.Totals = s.Name, totalCells(t.Count(k))
		for r := range s.Rows {
			words := strings.Join(amounts(cards[[2]int{k, r}], " ", cardName(t.Plan)), ", ")
			to.Rows = append(to.Rows, reportRow{s.Rows[r].Name, totalCells(t.CountRow(k, r)), cmp.Or(words, "none"),
				""})
		}
		if s.Spec.Rise == 0 {
			continue // level blocks have no step to judge
		}
		// How far over the eyes of the row before it each row sees the lens: who sees the lens is seen by it.
		for _, l := range t.Stands.Sightlines(k, t.Marks[0].View.Position, camera.EyeHeight(&s.Spec)) {
			to.Rows[l.Row].Sight, to.Sights = strconv.FormatFloat(l.C*1000, 'f', 0, 64), true
		}
	}
	return list
}

func (t *teller) reportCards() reportCards {
	out := reportCards{More: t.moreCards()}
	for _, c := range t.Cards {
		a, b := t.Stunt.Colours[c.Sides[0]], t.Stunt.Colours[c.Sides[1]]
		k := reportKind{ID: c.ID, Hex: a.RGB.Hex(), Hex2: b.RGB.Hex(), Name: a.Name}
		if c.Sides[0] != c.Sides[1] {
			k.Name += " / " + b.Name
		}
		out.Kinds = append(out.Kinds, k)
	}
	needed, sections := make([]int, len(t.Cards)), make([][]int, len(t.Stands.Sections))
	for _, rows := range t.rows {
		sections[rows[0].Section] = cardsIn(rows)
	}
	for k, counts := range sections {
		if plus(needed, counts); counts != nil {
			out.Lines = append(out.Lines, CountLine{Name: t.Stands.Sections[k].Name, Counts: thousandsOf(counts...),
				All: say.Thousands(sum(counts))})
		}
	}
	out.Needed, out.Total = thousandsOf(needed...), say.Thousands(sum(needed))
	return out
}

// moreCards says what is made beside the cards in hands, as the bill has it.
func (t *teller) moreCards() string {
	b := t.Bill
	if b == nil || b.Cards == 0 {
		return ""
	}
	all := make([]int, len(t.Stunt.Colours))
	for _, section := range t.SpareTally() {
		plus(all, section)
	}
	out := fmt.Sprintf("%s spares besides, a tenth and at least five of a colour a section: %s.",
		say.Thousands(b.Spares), strings.Join(amounts(all, " ", t.colourName), ", "))
	out += t.sayForgone()
	if b.Spoiled > 0 {
		out += fmt.Sprintf(" %s more are counted for cards that go wrong in the making.", say.Thousands(b.Spoiled))
	}
	return out + fmt.Sprintf(" Together %s to make.", say.Count(b.Cards, "card"))
}

// reportStrip is the whole sequence at a glance, rest before and after.
type reportStrip struct {
	Cells  []stripCell
	Length string // how long the moving picture plays
	Slowed bool   // it leaves out what would flash
}

type stripCell struct {
	Picture, Alt, Title string
	Lines               []string
}

func (t *teller) reportStrip(cues []reportCue, rest string) reportStrip {
	still := stripCell{Picture: "pictures/rest.png", Alt: rest, Title: "Rest"}
	s := reportStrip{Slowed: t.Flashing != "", Cells: []stripCell{still},
		Length: strconv.FormatFloat(t.Plan.Length().Round(100*time.Millisecond).Seconds(), 'f', -1, 64) + " s"}
	for i, c := range cues {
		s.Cells = append(s.Cells, stripCell{c.Picture, c.Alt, strconv.Itoa(i+1) + " " + c.Name, stripLines(t.Plan, i)})
	}
	s.Cells = append(s.Cells, still)
	if last := len(cues) - 1; last >= 0 {
		s.Cells[0].Lines = []string{"READY at " + stamped(t.Cues[0].Times.Ready)}
		s.Cells[last+2].Lines = []string{"from DOWN at " + stamped(t.Cues[last].Times.Down)}
	}
	return s
}

// stripLines are when and how a cue comes up, how long it stays, and what follows.
func stripLines(p *mosaic.Plan, i int) []string {
	c := &p.Cues[i]
	up, down := "UP "+stamped(c.Times.Up)+", all at once", "DOWN "+stamped(c.Times.Down)
	if spec := &p.Stunt.Cues[i]; c.Delay != nil {
		up = fmt.Sprintf("UP %s, %s in %s", stamped(c.Times.Up), spec.Transition, say.Seconds(spec.Takes))
	}
	if i+1 < len(p.Cues) {
		if gap := p.Cues[i+1].Times.Up - c.Times.Down; gap > 0 {
			down += ", rest " + say.Seconds(gap)
		} else {
			down += ", straight into the next"
		}
	}
	lines := []string{up,
		fmt.Sprintf("all up %s, HOLD %s", stamped(c.Times.Full), say.Seconds(c.Times.Down-c.Times.Full)), down}
	if c.At != "" {
		lines = slices.Insert(lines, 0, "at "+c.At)
	}
	return lines
}

// stamped is a moment of the sequence in minutes and seconds, to a tenth: "1:05.2"; what is
// before its start has a dash.
func stamped(t time.Duration) string {
	if t < 0 {
		return "–" + stamped(-t)
	}
	tenths := int((t + 50*time.Millisecond) / (100 * time.Millisecond))
	s := fmt.Sprintf("%d:%02d", tenths/600, tenths/10%60)
	if tenths%10 != 0 {
		s += fmt.Sprintf(".%d", tenths%10)
	}
	return s
}

// reportView is how a cue's text reads from one mark.
type reportView struct {
	Cue, Mark      string
	Score, Verdict string
	Phone, OnPhone string
	Pixels, Small  string
}

// views lists every text from every mark, and on a phone.
func (t *teller) views() (out []reportView) {
	for i := range t.Cues {
		pixels := t.o.Cues[i].Pixels
		for k, shrunk := range t.o.Cues[i].Phone {
			film := t.Marks[k].Scores[i]
			out = append(out, reportView{
				Cue: cueWords(t.Plan, i), Mark: t.Marks[k].View.Name,
				Score: score(film), Verdict: string(legibility.VerdictOf(film)),
				Phone: score(shrunk.Score), OnPhone: string(shrunk.Verdict),
				Pixels: fmt.Sprintf("%.0f", pixels[k]), Small: fmt.Sprintf("%.0f", shrunk.Pixels),
			})
		}
	}
	return out
}

// atLeast is a score in whole hundredths, rounded down, so that it agrees with its verdict.
func atLeast(v float64) string { return score(float64(int(float64(v*100)+1e-9)) / 100) }

func cueWords(p *mosaic.Plan, i int) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s", i+1, p.Cues[i].Name))
}

// reportDay is what may go wrong with a cue's text.
type reportDay struct {
	Cue, Mark string // Mark is "" where there is one only
	Shares    []string
	Empty     []reportDayLine
	Others    []reportDayLine
	Most      []string // the seats that matter most
	Map       string   // "" where there is none
	Planned   string
	Unwanted  []reportUnwanted
}

type reportDayLine struct {
	What  string
	Cells []reportScore
}

type reportScore struct{ At, Score, Verdict string }

type reportUnwanted struct{ Section, How, Reads string }

// NamedSeats is how many of the seats that matter most have a number on the map, and a line in the report.
const NamedSeats = 10

func (t *teller) days() (out []reportDay) {
	for i := range t.Cues {
		look := &t.o.Cues[i]
		if look.Day == nil {
			continue
		}
		d := reportDay{Cue: cueWords(t.Plan, i), Planned: look.Planned}
		if len(t.Marks) > 1 {
			d.Mark = t.Marks[t.WorstMark(i)].View.Name
		}
		for k := range look.Day {
			d.add(t.Plan, &look.Day[k])
		}
		for n, s := range look.Matter[:min(len(look.Matter), NamedSeats)] {
			f := look.Falls[s]
			d.Most = append(d.Most, fmt.Sprintf("%d. %s: %s if the seat is empty, %s if the card is wrong", n+1,
				t.seatOf(s), points(f.Empty), points(f.Wrong)))
		}
		if look.Falls != nil {
			d.Map = fmt.Sprintf("pictures/matter-%d.png", i+1)
		}
		for _, u := range look.Unwanted {
			d.Unwanted = append(d.Unwanted, reportUnwanted{t.Stands.Sections[u.Section].Name, u.How, u.Reads})
		}
		out = append(out, d)
	}
	return out
}

// points is what of 100 is lost, from millionths.
func points(fall int32) string {
	if fall < 0 {
		return "nothing"
	}
	return strconv.FormatFloat(float64(fall)/1e4, 'f', 1, 64)
}

func (d *reportDay) add(p *mosaic.Plan, o *legibility.Outcome) {
	cell := reportScore{percent(o.Share), atLeast(o.Score), string(o.Verdict)}
	if o.What == legibility.EmptySeats {
		if line := lineOf(&d.Empty, o.Way, cell); len(line.Cells) > len(d.Shares) {
			d.Shares = append(d.Shares, cell.At)
		}
		return
	}
	switch o.What {
	case legibility.Uneven:
		cell.At = strconv.FormatFloat(o.Share, 'f', -1, 64) + " times"
	case legibility.RowOff, legibility.RowReversed:
		cell.At = "any row"
	}
	line := lineOf(&d.Others, map[legibility.Mischief]string{
		legibility.WrongCards: "Cards wrong", legibility.Late: "People late", legibility.Uneven: "Hands more uneven",
		legibility.RowOff: "A row laid one seat off", legibility.RowReversed: "A row laid backwards",
	}[o.What], cell)
	if o.Worst >= 0 {
		seat := &p.Stands.Seats[o.Worst]
		section := &p.Stands.Sections[seat.Section]
		line.Cells = append(line.Cells, reportScore{"the worst, " + section.Name + "-" + section.Rows[seat.Row].Name,
			atLeast(o.WorstScore), string(legibility.VerdictOf(o.WorstScore))})
	}
}

// lineOf puts a cell on the table's last line, or on a new one where that is of something else.
func lineOf(table *[]reportDayLine, what string, cell reportScore) *reportDayLine {
	if n := len(*table); n == 0 || (*table)[n-1].What != what {
		*table = append(*table, reportDayLine{What: what})
	}
	line := &(*table)[len(*table)-1]
	line.Cells = append(line.Cells, cell)
	return line
}

// reportLight is a pair of colours as the light grows.
type reportLight struct {
	A, B string
	At   []reportLit
}

type reportLit struct{ A, B, Says, Lost string }

// reportLight is the pairs that matter, with their colours as recorded.
func (t *teller) reportLight() (out []reportLight) {
	for _, pair := range t.o.Light {
		line := reportLight{A: pair.A, B: pair.B}
		for _, at := range pair.At {
			lit := reportLit{A: at.A.Hex(), B: at.B.Hex(), Says: fmt.Sprintf("%.1f to 1", at.Contrast)}
			if !pair.Text {
				lit.Says = fmt.Sprintf("CIEDE2000 %.1f", at.Differ)
			}
			if pair.Lost >= 0 && at.Stops >= pair.Lost {
				lit.Lost = "lost"
			}
			line.At = append(line.At, lit)
		}
		out = append(out, line)
	}
	return out
}

// reportSizes is how a cue's text stands beside published rules.
type reportSizes struct {
	Cue, Says string
	Rules     []outlook.Rule
}

func (t *teller) reportSizes() (out []reportSizes) {
	for i := range t.Cues {
		if s := t.o.Cues[i].Sizes; s != nil {
			out = append(out, reportSizes{Cue: cueWords(t.Plan, i), Rules: s.Rules(), Says: fmt.Sprintf(
				"The lowest letter would be %.1f m high, square to the lens, and is %.1f m away.", s.High,
				s.Distance)})
		}
	}
	return out
}
