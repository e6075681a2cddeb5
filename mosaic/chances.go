package mosaic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/unicode/norm"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
)

// doubts is what there is to say beyond the verdict. It takes looks of its own, so each
// part is worked out once, when somebody asks.
type doubts struct {
	once  sync.Once
	cues  []cueDoubts
	stray struct {
		once sync.Once
		is   Stray
	}
}

type cueDoubts struct {
	once    sync.Once
	chances []*legibility.Chances // by mark; nil where the cue has no text
	ink     []bool

	phone struct {
		once sync.Once
		by   []legibility.Shrunk // mark
	}
	day struct {
		once sync.Once
		all  []legibility.Outcome
	}
	trimmed struct {
		once sync.Once
		all  []Trimmed
	}
	falls struct {
		once sync.Once
		by   []legibility.Fall // seat
	}
	unwanted struct {
		once sync.Once
		all  []Unwanted
	}
}

func (p *Plan) doubted() *doubts {
	d := p.doubts
	if d == nil {
		d = new(doubts)
	}
	d.once.Do(func() { d.cues = make([]cueDoubts, len(p.Cues)) })
	return d
}

// chances are the cue's, or nil where it has no text.
func (p *Plan) chances(cue int) *cueDoubts {
	if cue < 0 || cue >= len(p.Cues) || p.Cues[cue].Text == nil {
		return nil
	}
	d := &p.doubted().cues[cue]
	d.once.Do(func() {
		plan, spec := &p.Cues[cue], &p.Stunt.Cues[cue]
		m := newMaker(p)
		fields := m.fields(plan.Field)
		if spec.Fit == "flat" {
			fields = append([]*lettering.Field{m.flatField(plan.Field)}, fields...)
		}
		ink, options := m.laid(plan, cue, p.Hands)
		d.ink = ink
		first := len(fields) - len(p.Marks)
		for k := range p.Marks {
			d.chances = append(d.chances, legibility.NewChances(fields, first+k, d.ink, plan.Text.Glyphs(), options))
		}
	})
	return d
}

// WorstMark is the mark from which the cue reads worst; of those alike the first.
func (p *Plan) WorstMark(cue int) int {
	worst := 0
	for k := range p.Marks {
		if len(p.Marks[k].Scores) > cue && p.Marks[k].Scores[cue] < p.Marks[worst].Scores[cue] {
			worst = k
		}
	}
	return worst
}

// Phone is how the cue's text reads on a phone, its film shrunk to legibility.PhoneWidth
// pixels across, by mark; nil where the cue has no text.
func (p *Plan) Phone(cue int) []legibility.Shrunk {
	d := p.chances(cue)
	if d == nil {
		return nil
	}
	d.phone.once.Do(func() {
		for _, c := range d.chances {
			d.phone.by = append(d.phone.by, c.Shrunk(legibility.PhoneWidth))
		}
	})
	return d.phone.by
}

// lostOnPhones are the texts that read on film, and on a phone do not.
func (p *Plan) lostOnPhones() (names []string) {
	for i := range p.Cues {
		if p.Cues[i].Reading.Verdict != legibility.Reads {
			continue
		}
		if slices.ContainsFunc(p.Phone(i), func(s legibility.Shrunk) bool { return s.Verdict != legibility.Reads }) {
			names = append(names, quoted(p.Cues[i].Name))
		}
	}
	return names
}

// PhoneAt is Phone from one mark for a film shrunk to another width.
func (p *Plan) PhoneAt(cue, mark, width int) legibility.Shrunk {
	return p.chances(cue).chances[mark].Shrunk(float64(width))
}

// Pixels is how many pixels of the film the smallest letter of the cue's text has, across
// or up, by mark; nil where the cue has no text.
func (p *Plan) Pixels(cue int) []float64 {
	d := p.chances(cue)
	if d == nil {
		return nil
	}
	var out []float64
	for _, c := range d.chances {
		out = append(out, c.Pixels())
	}
	return out
}

// Day is what may go wrong with the cue's text on the day, from the mark from which it reads
// worst; nil where it has no text. Outcome.Worst is a seat of Stands.
func (p *Plan) Day(cue int) []legibility.Outcome {
	d := p.chances(cue)
	if d == nil {
		return nil
	}
	d.day.once.Do(func() {
		d.day.all = d.chances[p.WorstMark(cue)].Day(p.before(cue))
		for i := range d.day.all {
			if o := &d.day.all[i]; o.Worst >= 0 {
				o.Worst = int(p.Cues[cue].Field[o.Worst])
			}
		}
	})
	return d.day.all
}

// before is what the people of a text show until they move: the cue before where that is still up, else nothing.
func (p *Plan) before(cue int) []legibility.Shows {
	if cue == 0 || p.Cues[cue-1].Times.Down < p.Cues[cue].Times.Up {
		return nil
	}
	return p.shows(cue, p.Cues[cue-1].Colours)
}

// shows is how colours look to whoever reads a cue's text: as its ink or its ground, whichever is nearer.
func (p *Plan) shows(cue int, colours []int16) []legibility.Shows {
	spec := &p.Stunt.Cues[cue]
	ink, ground := p.Stunt.rgb(spec.Ink), colour.RGB{}
	onCards := spec.Ground != Shirts
	if onCards {
		ground = p.Stunt.rgb(spec.Ground)
	}
	as := make([]legibility.Shows, len(p.Stunt.Colours))
	for c := range as {
		light := p.Stunt.Colours[c].RGB.Linear()
		if onCards && differ(light, ground.Linear()) < differ(light, ink.Linear()) {
			as[c] = legibility.ShowsGround
		} else {
			as[c] = legibility.ShowsInk
		}
	}
	out := make([]legibility.Shows, len(p.Cues[cue].Field))
	for k, s := range p.Cues[cue].Field {
		switch c := colours[s]; {
		case c != None:
			out[k] = as[c]
		case onCards:
			out[k] = legibility.ShowsNothing
		}
	}
	return out
}

// Falls is how much of the cue's score each seat takes away alone, in millionths, by seat
// of Stands, from the mark from which it reads worst; nil where there is no text, or more
// than legibility.MostFalls seats carry it.
func (p *Plan) Falls(cue int) []legibility.Fall {
	d := p.chances(cue)
	if d == nil {
		return nil
	}
	d.falls.once.Do(func() {
		falls := d.chances[p.WorstMark(cue)].Falls()
		if falls == nil {
			return
		}
		d.falls.by = make([]legibility.Fall, len(p.Stands.Seats))
		for k, s := range p.Cues[cue].Field {
			d.falls.by[s] = falls[k]
		}
	})
	return d.falls.by
}

// Weighs says whether Falls has anything to give for the cue, without working it out.
func (p *Plan) Weighs(cue int) bool {
	return p.Cues[cue].Text != nil && len(p.Cues[cue].Field) <= legibility.MostFalls
}

// Harm is how much a seat costs in the mean: what it costs empty and wrong, by how many are
// expected to be. Its unit means nothing but more or less.
func Harm(f legibility.Fall) int {
	return int(100*ExpectedEmpty)*int(f.Empty) + int(100*ExpectedWrong)*int(f.Wrong)
}

// MatterMost are the seats that matter most to a cue, the most first, at most so many; ties go to
// the lower seat. Seats that do no harm are not among them.
func (p *Plan) MatterMost(cue, most int) []int32 {
	falls := p.Falls(cue)
	var out []int32
	for s := range falls {
		if Harm(falls[s]) > 0 {
			out = append(out, int32(s))
		}
	}
	slices.SortStableFunc(out, func(a, b int32) int { return cmp.Compare(Harm(falls[b]), Harm(falls[a])) })
	return out[:min(most, len(out))]
}

// Unwanted is what a text reads as when one section goes wrong.
type Unwanted struct {
	Section int    // of Stands
	How     string // plain words that follow "section A"
	Reads   string // "" where nothing is left to read; legibility.Blot stands for what is no letter
}

// Unwanted lists what the cue's text reads as from the camera when one section shows nothing, is
// late, or was laid from the wrong end. What reads as planned is left out; what is read of the
// whole plan without any fault comes with it. People judge the words: no list of bad ones is kept.
func (p *Plan) Unwanted(cue int) (all []Unwanted, planned string) {
	d := p.chances(cue)
	if d == nil {
		return nil, ""
	}
	d.unwanted.once.Do(func() { d.unwanted.all = p.readUnwanted(cue, d) })
	return d.unwanted.all[1:], d.unwanted.all[0].Reads
}

func (p *Plan) readUnwanted(cue int, d *cueDoubts) []Unwanted {
	plan := &p.Cues[cue]
	chances := d.chances[0]
	whole := p.shows(cue, plan.Colours)
	var earlier []legibility.Shows
	if cue > 0 {
		earlier = p.shows(cue, p.Cues[cue-1].Colours)
	}
	out := []Unwanted{{Section: -1, Reads: p.spell(cue, chances.Spell(whole, nil))}}
	for _, part := range p.inkedSections(cue, d.ink) {
		try := func(how string, change func(shows []legibility.Shows, from []int32)) {
			shows, from := slices.Clone(whole), make([]int32, len(whole))
			for i := range from {
				from[i] = int32(i)
			}
			change(shows, from)
			reads := p.spell(cue, chances.Spell(shows, from))
			if reads != out[0].Reads {
				out = append(out, Unwanted{int(p.Stands.Seats[plan.Field[part[0]]].Section), how, reads})
			}
		}
		try("missing, or still at rest", func(shows []legibility.Shows, _ []int32) {
			for i := part[0]; i < part[1]; i++ {
				shows[i] = legibility.ShowsNothing
			}
		})
		if earlier != nil {
			try("still showing the cue before", func(shows []legibility.Shows, _ []int32) {
				copy(shows[part[0]:part[1]], earlier[part[0]:])
			})
		}
		try("laid from the wrong end", func(shows []legibility.Shows, from []int32) {
			p.turnRows(cue, part, func(a, b int) {
				slices.Reverse(shows[a:b])
				slices.Reverse(from[a:b])
			})
		})
	}
	return out
}

// inkedSections are the stretches of the text's field that are one section each, with ink in it.
func (p *Plan) inkedSections(cue int, ink []bool) (out [][2]int) {
	field := p.Cues[cue].Field
	section := func(i int) int32 { return p.Stands.Seats[field[i]].Section }
	for i := 0; i < len(field); {
		n := i
		for n < len(field) && section(n) == section(i) {
			n++
		}
		if slices.Contains(ink[i:n], true) {
			out = append(out, [2]int{i, n})
		}
		i = n
	}
	return out
}

// turnRows gives every row of a stretch of the text's field.
func (p *Plan) turnRows(cue int, part [2]int, row func(a, b int)) {
	field := p.Cues[cue].Field
	for i := part[0]; i < part[1]; {
		n := i
		for n < part[1] && p.Stands.Seats[field[n]].Row == p.Stands.Seats[field[i]].Row {
			n++
		}
		row(i, n)
		i = n
	}
}

// spell puts letters together: words stay apart, lines have a stroke between them.
func (p *Plan) spell(cue int, letters []legibility.Spelt) string {
	words := wordsOf(p.Stunt.Cues[cue].Text, len(p.Cues[cue].Text.Letters))
	lines := p.Cues[cue].Text.Letters
	var b strings.Builder
	for i, l := range letters {
		if i > 0 {
			switch last := letters[i-1].Glyph; {
			case lines[last].Line != lines[l.Glyph].Line:
				b.WriteString(" / ")
			case words[last] != words[l.Glyph]:
				b.WriteByte(' ')
			}
		}
		b.WriteRune(l.Rune)
	}
	return b.String()
}

// wordsOf is which word each letter belongs to; all one where letters were added in setting the text.
func wordsOf(text string, letters int) []int {
	out := make([]int, 0, letters)
	for w, word := range strings.Fields(norm.NFC.String(text)) {
		for range word {
			out = append(out, w)
		}
	}
	if len(out) != letters {
		return make([]int, letters)
	}
	return out
}

// Says is the unwanted reading in words.
func (u *Unwanted) Says(p *Plan) string {
	reads := "nothing"
	if u.Reads != "" {
		reads = u.Reads
	}
	return fmt.Sprintf("section %s %s: %s", p.Stands.Sections[u.Section].Name, u.How, reads)
}
