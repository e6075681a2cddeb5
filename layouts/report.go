package layouts

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/sheets"
	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

//go:embed report.html
var reportPage string

var reportTemplate = template.Must(template.New("report").Parse(reportPage))

// cautionsOf are the crew's cautions and what holds for the figures of the report.
func cautionsOf(p *mosaic.Plan) []string {
	return append(sheets.Cautions(p), "Figures from codes are help, never approval: local code and licensed practice decide.")
}

// reportData is what the page shows.
type reportData struct {
	Title, Date, Where, Contact, Code string
	Sentences                         []mosaic.Sentence
	Warnings                          []string
	Cues                              []reportCue
	Rest                              string
	Strip                             reportStrip
	Pictures                          bool
	Sections                          []reportSection
	All                               seating.Totals
	Posted, Invited                   int
	Cards                             reportCards
	Cautions                          []string
	Files                             []reportFile
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
	Totals seating.Totals
	Rows   []reportRow
	Sights bool // the rows have sight lines
}

type reportRow struct {
	Name   string
	Totals seating.Totals
	Cards  string // "12 NAVY, 6 CREAM"
	Sight  string // C-value to the lens in whole millimetres; empty for a front row and behind the lens
}

// reportCards is cards by section (lines) and kind (columns).
type reportCards struct {
	Kinds  []reportKind
	Lines  []reportCardLine
	Needed []int
	Total  int
	More   string // spares and spoiled ones
}

type reportKind struct{ ID, Hex, Hex2, Name string }

type reportCardLine struct {
	Section string
	Counts  []int
	Total   int
}

type reportFile struct{ Name, For string }

// report writes report.html: one page that needs no other file but the
// pictures, linked beside it where this run makes them.
func report(w io.Writer, p *mosaic.Plan, withPictures bool) error {
	d := reportData{
		Title: p.Stunt.Title, Date: p.Stunt.Date, Contact: p.Stunt.Contact, Code: p.Code,
		Sentences: p.Sentences(), Warnings: p.Warnings, Pictures: withPictures,
		All: p.CountAll(), Posted: p.Stands.Spec.Posted, Invited: p.Stands.Spec.People,
		Cautions: cautionsOf(p), Files: reportFiles(p),
	}
	if d.Invited == 0 && p.People != nil {
		d.Invited = len(p.People.Roster.People)
	}
	if d.Title == "" {
		d.Title = "Card stunt"
	}
	d.Where = "indoors"
	if p.Stunt.Outdoors {
		d.Where = "outdoors"
	}
	d.Rest = fmt.Sprintf("%s as the camera sees it before the first cue and after the last: everybody rests with the card on the lap.", d.Title)
	for i := range p.Cues {
		d.Cues = append(d.Cues, cueOf(p, i))
	}
	d.Strip = stripOf(p, d.Cues, d.Rest)
	d.Sections = sectionsOf(p)
	d.Cards = cardsOf(p)
	d.Views, d.Days, d.PhoneWidth = viewsOf(p), daysOf(p, withPictures), legibility.PhoneWidth
	d.Light, d.LightSays = lightOf(p), p.SayLight()
	d.Frame, d.Sizes = p.SayFrame(), sizesOf(p)
	return reportTemplate.Execute(w, &d)
}

func cueOf(p *mosaic.Plan, i int) reportCue {
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
	cue.advise(p.Advice, i)
	return cue
}

// advise adds what would help the cue, as far as it was measured.
func (c *reportCue) advise(all []mosaic.Advised, cue int) {
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
func percent(share float64) string { return strconv.Itoa(int(share*100+1e-9)) + " %" }

func sectionsOf(p *mosaic.Plan) []reportSection {
	list := make([]reportSection, len(p.Stands.Sections))
	var kit []int16
	counts := make([]int, len(p.Cards))
	for k := range p.Stands.Sections {
		s := &p.Stands.Sections[k]
		list[k] = reportSection{Name: s.Name, Totals: p.Count(k)}
		for r := range s.Rows {
			clear(counts)
			for seat := s.Rows[r].First; seat < s.Rows[r].Last; seat++ {
				kit = p.Kit(kit[:0], int32(seat))
				for _, c := range kit {
					counts[c]++
				}
			}
			list[k].Rows = append(list[k].Rows, reportRow{s.Rows[r].Name, p.CountRow(k, r), countWords(p, counts), ""})
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
			parts = append(parts, strconv.Itoa(n)+" "+p.Cards[c].ID)
		}
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, ", ")
}

func cardsOf(p *mosaic.Plan) reportCards {
	n := len(p.Cards)
	t := reportCards{Needed: make([]int, n), More: moreCards(p)}
	for _, c := range p.Cards {
		a, b := p.Stunt.Colours[c.Sides[0]], p.Stunt.Colours[c.Sides[1]]
		k := reportKind{ID: c.ID, Hex: a.RGB.Hex(), Hex2: b.RGB.Hex(), Name: a.Name}
		if c.Sides[0] != c.Sides[1] {
			k.Name += " / " + b.Name
		}
		t.Kinds = append(t.Kinds, k)
	}
	var kit []int16
	for k := range p.Stands.Sections {
		s := &p.Stands.Sections[k]
		line := reportCardLine{Section: s.Name, Counts: make([]int, n)}
		for seat := s.First; seat < s.Last; seat++ {
			kit = p.Kit(kit[:0], int32(seat))
			for _, c := range kit {
				line.Counts[c]++
				line.Total++
			}
		}
		if line.Total == 0 {
			continue
		}
		t.Lines = append(t.Lines, line)
		for c, count := range line.Counts {
			t.Needed[c] += count
		}
		t.Total += line.Total
	}
	return t
}

// moreCards says what is made beside the cards in hands, as the bill has it.
func moreCards(p *mosaic.Plan) string {
	b := p.Bill()
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
			parts = append(parts, strconv.Itoa(n)+" "+p.Stunt.Colours[c].Name)
		}
	}
	out := fmt.Sprintf("%d spares besides, a tenth and at least five of a colour a section: %s.", b.Spares, strings.Join(parts, ", "))
	if b.Spoiled > 0 {
		out += fmt.Sprintf(" %d more are counted for cards that go wrong in the making.", b.Spoiled)
	}
	return out + fmt.Sprintf(" Together %d cards to make.", b.Cards)
}

// placardFile says how the placards come.
func placardFile(p *mosaic.Plan, paper sheets.Paper) reportFile {
	switch p.Stunt.Print.Placards {
	case mosaic.OnStock:
		return reportFile{"sheets/placards-COLOUR.pdf", "what is printed on the cards of each colour, or on labels for those too dark, in laying order"}
	case mosaic.FullColoured:
		return reportFile{"sheets/placards-SECTION.pdf", "the cards, printed in full colour on both sides, in laying order"}
	}
	return reportFile{"sheets/placards-SECTION.pdf", "a label for every seat, in laying order, with a slip before each row (" + paper.Name + ")"}
}

// reportFiles says what else there is.
func reportFiles(p *mosaic.Plan) []reportFile {
	paper, _ := sheets.LookUpPaper(p.Stunt.Print.Paper)
	files := []reportFile{
		placardFile(p, paper),
		{"sheets/rows.pdf", "a strip for every row, run by run from both ends"},
		{"sheets/packet.pdf", "what whoever must say yes has to see: cautions, head count, map, lines to sign"},
		{"sheets/test.pdf", "one sheet, both sides: does the printer keep to size and turn the paper as it should"},
		{"sheets/trial.pdf", "twelve people at the real mark, the week before"},
		{"sheets/tally.pdf", "cards by row and section, spares, what to buy, hours"},
		{"sheets/deal.pdf", "how the row bags are made up from the stacks, with their labels"},
		{"sheets/laying.pdf", "how cards are laid or passed, and which helper has which rows"},
		{"sheets/leaders.pdf", "a map of every block for whoever looks after it"},
		{"sheets/runsheet.pdf", "the day by the clock, and the signals"},
		{"sheets/calldown.pdf", "who comes when, through which door, to which rows, with a slip for every leader"},
		{"sheets/camera.pdf", "one page for the person at the lens"},
		{"seats.csv, seats.xlsx", "a line a seat, in laying order"},
		{"tally.xlsx", "cards and sheets by row and section, spares, what to buy, for a spreadsheet"},
		{"pictures/", "what the film will show at each cue and at rest, flat maps, cues.gif, the sequence at true speed, and for each text light-1.png, the same in too much light, and a map of the seats that matter most"},
		{"plan.json", "the plan for programs"},
	}
	if p.Stunt.Print.Placards == mosaic.FullColoured {
		files = slices.Insert(files, 1, reportFile{"sheets/spares.pdf", "spare cards for every section, printed both sides"})
	}
	if p.Stunt.Print.Bands {
		files = append(files, reportFile{"sheets/bands.pdf", "a band or ticket for every seat"})
	}
	if sheets.NeedsCord(p) {
		files = slices.Insert(files, 2, reportFile{"sheets/cord.pdf", "for benches without seat numbers: where each seat is, as marks on a cord"})
	}
	return files
}
