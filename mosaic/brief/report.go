package brief

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/legibility"
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
	PhoneWidth                        int
}

type reportCue struct {
	Number             int
	Name, At, Text     string
	Picture, Map, Alt  string
	Light              string // the cue in more light; "" for a picture
	Verdict, Mark      string
	Score              string
	EmptyOK, WrongOK   string
	Weak, Dropped      []string
	Advised            bool // changes were measured
	Tried              int
	Advice             []reportAdvice
	Verdicts           bool
	PictureW, PictureH int
}

// reportAdvice is one change that helps.
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
	Lines  []reportCardLine
	Needed []string
	Total  string
	More   string // spares and spoiled ones
}

type reportKind struct{ ID, Hex, Hex2, Name string }

type reportCardLine struct {
	Section string
	Counts  []string
	Total   string
}

// report is what the report shows.
func (t *teller) report(b *Brief) Report {
	p := t.p
	r := Report{
		Title: p.Stunt.Title, Date: p.Stunt.Date, Contact: p.Stunt.Contact, Code: string(b.Code),
		Sentences: b.Sentences, Warnings: b.Warnings,
		All: totalCells(p.CountAll()), Posted: known(p.Stands.Spec.Posted), Invited: known(p.Stands.Spec.People),
		Cautions: append(cautions(p), "Figures from codes are help, never approval: local code and licensed practice decide."),
	}
	if p.Stands.Spec.People == 0 && p.People != nil {
		r.Invited = known(len(p.People.Roster.People))
	}
	if r.Title == "" {
		r.Title = "Card stunt"
	}
	r.Where = where(p)
	r.Rest = fmt.Sprintf("%s as the camera sees it before the first cue and after the last: everybody rests with the card on the lap.", r.Title)
	for i := range p.Cues {
		r.Cues = append(r.Cues, t.reportCue(i))
	}
	r.Strip = stripOf(p, r.Cues, r.Rest)
	r.Sections, r.Cards = t.reportSections(), t.reportCards()
	r.Views, r.Days, r.PhoneWidth = t.views(), t.days(), legibility.PhoneWidth
	r.Light, r.LightSays = t.reportLight(), t.sayLight()
	r.Frame, r.Sizes = t.sayFrame(), t.reportSizes()
	return r
}

// known is a count, or that it is not known.
func known(n int) string {
	if n == 0 {
		return notKnown
	}
	return say.Thousands(n)
}

// totalCells are the columns of a table of people.
func totalCells(t seating.Totals) (out []string) {
	for _, n := range []int{t.Places, t.Missing, t.Cards, t.Persons, t.Reserved, t.Capacity} {
		out = append(out, say.Thousands(n))
	}
	return out
}

// where is where it takes place.
func where(p *mosaic.Plan) string {
	if p.Stunt.Outdoors {
		return "outdoors"
	}
	return "indoors"
}

func (t *teller) reportCue(i int) reportCue {
	p := t.p
	n := strconv.Itoa(i + 1)
	c := &p.Cues[i]
	r := &c.Reading
	cue := reportCue{
		Number: i + 1, Name: c.Name, At: c.At,
		Picture: "pictures/camera-" + n + ".png", Map: "pictures/map-" + n + ".svg",
		Verdict: string(r.Verdict), Score: score(r.Score),
		EmptyOK: percent(r.EmptyOK), WrongOK: percent(r.WrongOK),
		Verdicts: r.Verdict != legibility.Picture && r.Verdict != "",
		PictureW: p.Marks[0].View.Width, PictureH: p.Marks[0].View.Height,
	}
	if i < len(p.Stunt.Cues) {
		cue.Text = strings.ReplaceAll(p.Stunt.Cues[i].Text, "\n", " / ")
	}
	what := "the picture of cue " + n
	if cue.Text != "" {
		what = "the people in the stands show “" + cue.Text + "”"
	}
	if cue.Text != "" {
		cue.Light = "pictures/light-" + n + ".png"
	}
	cue.Alt = "As the camera sees it: " + what + "."
	for _, l := range r.Letters {
		if l.Why != "" {
			cue.Weak = append(cue.Weak, l.Letter+": "+l.Why)
		}
	}
	if c.Text != nil {
		cue.Dropped = append(append(cue.Dropped, c.Text.Dropped...), c.Text.Notes...)
	}
	cue.advise(t.o.Advice, i)
	return cue
}

// advise adds what would help the cue, as far as it was measured.
func (c *reportCue) advise(all []advice.Advised, cue int) {
	for k := range all {
		if all[k].Cue != cue {
			continue
		}
		c.Advised, c.Tried = true, all[k].Tried
		for _, a := range all[k].Advice {
			c.Advice = append(c.Advice, reportAdvice{a.Change, a.Do, string(a.Verdict), score(all[k].Before), score(a.After)})
		}
	}
}

func score(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// percent is a share in whole hundredths, rounded down: it is a limit.
func percent(share float64) string { return strconv.Itoa(int(float64(share*100)+1e-9)) + " %" }

func (t *teller) reportSections() []reportSection {
	p := t.p
	list := make([]reportSection, len(p.Stands.Sections))
	var kit []int16
	counts := make([]int, len(p.Cards))
	for k := range p.Stands.Sections {
		s := &p.Stands.Sections[k]
		list[k] = reportSection{Name: s.Name, Totals: totalCells(p.Count(k))}
		for r := range s.Rows {
			clear(counts)
			for seat := s.Rows[r].First; seat < s.Rows[r].Last; seat++ {
				kit = p.CardsOf(kit[:0], int32(seat))
				for _, c := range kit {
					counts[c]++
				}
			}
			list[k].Rows = append(list[k].Rows, reportRow{s.Rows[r].Name, totalCells(p.CountRow(k, r)), countWords(p, counts), ""})
		}
		addSightlines(p, k, &list[k])
	}
	return list
}

// addSightlines says how far over the eyes of the row before it each row sees the
// lens: who sees the lens is seen by it. Level blocks have no step to judge.
func addSightlines(p *mosaic.Plan, section int, to *reportSection) {
	spec := &p.Stands.Sections[section].Spec
	if spec.Rise == 0 {
		return
	}
	for _, l := range p.Stands.Sightlines(section, p.Marks[0].View.Position, camera.EyeHeight(spec)) {
		to.Rows[l.Row].Sight = strconv.FormatFloat(l.C*1000, 'f', 0, 64)
		to.Sights = true
	}
}

func countWords(p *mosaic.Plan, counts []int) string {
	var parts []string
	for c, n := range counts {
		if n > 0 {
			parts = append(parts, say.Thousands(n)+" "+p.Cards[c].ID)
		}
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, ", ")
}

func (t *teller) reportCards() reportCards {
	p, n := t.p, len(t.p.Cards)
	out := reportCards{More: t.moreCards()}
	needed, total := make([]int, n), 0
	for _, c := range p.Cards {
		a, b := p.Stunt.Colours[c.Sides[0]], p.Stunt.Colours[c.Sides[1]]
		k := reportKind{ID: c.ID, Hex: a.RGB.Hex(), Hex2: b.RGB.Hex(), Name: a.Name}
		if c.Sides[0] != c.Sides[1] {
			k.Name += " / " + b.Name
		}
		out.Kinds = append(out.Kinds, k)
	}
	var kit []int16
	for k := range p.Stands.Sections {
		s := &p.Stands.Sections[k]
		counts, sum := make([]int, n), 0
		for seat := s.First; seat < s.Last; seat++ {
			kit = p.CardsOf(kit[:0], int32(seat))
			for _, c := range kit {
				counts[c]++
				sum++
			}
		}
		if sum == 0 {
			continue
		}
		out.Lines = append(out.Lines, reportCardLine{s.Name, thousandsOf(counts), say.Thousands(sum)})
		for c := range counts {
			needed[c] += counts[c]
		}
		total += sum
	}
	out.Needed, out.Total = thousandsOf(needed), say.Thousands(total)
	return out
}

func thousandsOf(counts []int) []string {
	out := make([]string, len(counts))
	for i, n := range counts {
		out[i] = say.Thousands(n)
	}
	return out
}

// moreCards says what is made beside the cards in hands, as the bill has it.
func (t *teller) moreCards() string {
	p := t.p
	b := p.Bill
	if b == nil || b.Cards == 0 {
		return ""
	}
	all := make([]int, len(p.Stunt.Colours))
	for _, section := range p.SpareTally() {
		for c, n := range section {
			all[c] += n
		}
	}
	var parts []string
	for c, n := range all {
		if n > 0 {
			parts = append(parts, say.Thousands(n)+" "+p.Stunt.Colours[c].Name)
		}
	}
	out := fmt.Sprintf("%s spares besides, a tenth and at least five of a colour a section: %s.", say.Thousands(b.Spares), strings.Join(parts, ", "))
	if b.Spoiled > 0 {
		out += fmt.Sprintf(" %s more are counted for cards that go wrong in the making.", say.Thousands(b.Spoiled))
	}
	return out + fmt.Sprintf(" Together %s to make.", say.Count(b.Cards, "card"))
}

// reportStrip is the whole sequence at a glance, rest before and after.
type reportStrip struct {
	Cells    []stripCell
	Length   string // how long the moving picture plays
	Slowed   bool   // it leaves out what would flash
	PictureW int
	PictureH int
}

// stripCell is one still with what is said below it.
type stripCell struct {
	Picture, Alt, Title string
	Lines               []string
}

func stripOf(p *mosaic.Plan, cues []reportCue, rest string) reportStrip {
	s := reportStrip{Slowed: p.Flashing != "", Length: strconv.FormatFloat(p.Length().Round(100*time.Millisecond).Seconds(), 'f', -1, 64) + " s"}
	if len(cues) > 0 {
		s.PictureW, s.PictureH = cues[0].PictureW, cues[0].PictureH
	}
	still := stripCell{Picture: "pictures/rest.png", Alt: rest, Title: "Rest"}
	before, after := still, still
	for i := range p.Cues {
		c := &p.Cues[i]
		if i == 0 {
			before.Lines = []string{"READY at " + stamped(c.Times.Ready)}
		}
		s.Cells = append(s.Cells, stripCell{
			Picture: cues[i].Picture, Alt: cues[i].Alt, Title: strconv.Itoa(i+1) + " " + c.Name,
			Lines: stripLines(p, i),
		})
		after.Lines = []string{"from DOWN at " + stamped(c.Times.Down)}
	}
	s.Cells = append(append([]stripCell{before}, s.Cells...), after)
	return s
}

// stripLines are when and how a cue comes up, how long it stays, and what follows.
func stripLines(p *mosaic.Plan, i int) []string {
	c := &p.Cues[i]
	var lines []string
	if c.At != "" {
		lines = append(lines, "at "+c.At)
	}
	up := "UP " + stamped(c.Times.Up) + ", all at once"
	if spec := &p.Stunt.Cues[i]; c.Delay != nil {
		up = fmt.Sprintf("UP %s, %s in %s", stamped(c.Times.Up), spec.Transition, say.Seconds(spec.Takes))
	}
	lines = append(lines, up, fmt.Sprintf("all up %s, HOLD %s", stamped(c.Times.Full), say.Seconds(c.Times.Down-c.Times.Full)))
	down := "DOWN " + stamped(c.Times.Down)
	if i+1 < len(p.Cues) {
		if gap := p.Cues[i+1].Times.Up - c.Times.Down; gap > 0 {
			down += ", rest " + say.Seconds(gap)
		} else {
			down += ", straight into the next"
		}
	}
	return append(lines, down)
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
