package legibility

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"unicode"
)

// shareTries is how often chance is tried for each share that may be missing.
const shareTries = 6

// The shares that are tried, smallest first.
var (
	emptyShares = []float64{0.05, 0.10, 0.20, 0.30}
	wrongShares = []float64{0.01, 0.02, 0.05}
)

// Thresholds of the score.
const (
	readsFrom = 0.80
	failsTo   = 0.45
)

// Thresholds are the least score of what reads, and the score under which it does not.
func Thresholds() (reads, fails float64) { return readsFrom, failsTo }

// MostTried are the largest shares of empty seats and of wrong cards that Judge tries.
func MostTried() (empty, wrong float64) {
	return emptyShares[len(emptyShares)-1], wrongShares[len(wrongShares)-1]
}

// fewestPixels is how many pixels of the film a letter must have, across and up, to be told from
// others: 6.4 line pairs, two pixels each (Johnson 1958, identification at 50 percent, as
// encyclopaedias quote it; made for whole targets and not for letters, so a floor and no promise).
const fewestPixels = 12.8

// FewestPixels is how many a letter must have, see Judge.
func FewestPixels() float64 { return fewestPixels }

// The score is a logistic of the chance foretold, fitted on 217 random plans with 8 % of the seats empty and 1 % of the
// cards wrong against the scene-text reader that knows the cards' colours (testdata/reader): figures among letters are
// taken for letters more often than each for itself, and the letters of a long text stand or fall together.
const (
	scoreBase    = 0.783
	scoreSlope   = 0.760
	scoreMixed   = -1.405
	scoreLetters = 0.269
	leastLetters = 2 // of the study's texts
	mostLetters  = 6
)

// Judge says how a text reads that is laid on the seats: views[0] is the camera,
// all views list the same seats in the same order, ink is by seat, text the letters
// with their boxes in the camera's picture. The reading of views[mark] is
// returned, with what o expects to be missing, wrong and uneven; the same input gives the
// same reading. No letters: the verdict is Picture.
func Judge(views []*Field, mark int, ink []bool, text []Glyph, o Options) Reading {
	if len(text) == 0 || len(views) == 0 {
		return Reading{Verdict: Picture, Letters: []Letter{}}
	}
	j := newJudge(views, mark, ink, text, o)
	r := j.expected()
	r.Verdict = VerdictOf(r.Score)
	clean := j.look(nil, Coming{})
	as := ""
	var bare []Likeness // as if nobody wore the colours of the cards
	if worn := max(o.Crowd.Ink, o.Crowd.Ground); worn >= OftenWorn {
		if as = "ink"; worn > o.Crowd.Ink {
			as = "ground"
		}
		o.Crowd.Ink, o.Crowd.Ground = 0, 0
		bare = newJudge(views, mark, ink, text, o).look(nil, Expects(o))
	}
	for i := range r.Letters {
		worn := ""
		if bare != nil && bare[i].Margin()-r.Letters[i].Margin >= tells {
			worn = as
		}
		r.Letters[i].Why = j.why(i, clean[i], worn, r.Letters[i])
	}
	r.EmptyOK = j.largest(emptyShares, func(share float64, k int) *Mishap {
		return strike(j.field, j.rng(uint64(100+k)), share, 0, k%2 == 1, &o)
	})
	r.WrongOK = j.largest(wrongShares, func(share float64, k int) *Mishap {
		return strike(j.field, j.rng(uint64(200+k)), 0, share, false, &o)
	})
	return r
}

// Expect is Judge's score alone.
func Expect(views []*Field, mark int, ink []bool, text []Glyph, o Options) float64 {
	if len(text) == 0 || len(views) == 0 {
		return 0
	}
	return newJudge(views, mark, ink, text, o).expected().Score
}

type judge struct {
	field  *Field
	canvas *Canvas
	ink    []bool
	text   []Glyph
	boxes  [][4]float64
	lines  []Line  // the same letters, line by line
	pixels float64 // of the film, that the smallest letter is high or wide
	o      Options
	patch  Patch
}

func newJudge(views []*Field, mark int, ink []bool, text []Glyph, o Options) *judge {
	if mark == 0 {
		return judgeFrom(views[0], nil, ink, text, o)
	}
	return judgeFrom(views[mark], Levelled(views[0]), ink, text, o)
}

// judgeFrom is the judge of what f sees; home is where the text's boxes lie if not there.
func judgeFrom(f *Field, home *Canvas, ink []bool, text []Glyph, o Options) *judge {
	j := &judge{field: f, canvas: Levelled(f), ink: ink, text: text, o: o}
	for _, g := range text {
		if home == nil {
			j.boxes = append(j.boxes, j.canvas.Warp.BoxIn(g.Box))
		} else {
			j.boxes = append(j.boxes, Carry(home, j.canvas, home.Warp.BoxIn(g.Box)))
		}
	}
	j.o.Tints = worn(f, &o)
	j.lines = lines(text, j.boxes)
	for k := range j.lines {
		j.lines[k].Crowd = o.Crowd
	}
	j.pixels = j.leastPixels()
	return j
}

// worn are the tints with what passes for a card in the crowd between cards: to whoever takes colours for ink and
// ground it is part of the card beside it.
func worn(f *Field, o *Options) []Tint {
	share := o.Crowd.Ink + o.Crowd.Ground
	if share <= 0 {
		return o.Tints
	}
	out := make([]Tint, len(f.Seats))
	copy(out, o.Tints)
	for i := range out {
		s := &f.Seats[i]
		wide := math.Hypot(s.Cell[1][0]-s.Cell[0][0], s.Cell[1][1]-s.Cell[0][1])
		high := math.Hypot(s.Cell[3][0]-s.Cell[0][0], s.Cell[3][1]-s.Cell[0][1])
		if s.Pixels <= 0 {
			continue
		}
		open := float64(max(float64(wide*high)-s.Pixels, 0) * share)
		out[i] = out[i].Under(float32(open/(open+s.Pixels)), float32(o.Crowd.Ink/share))
	}
	return out
}

// lines parts letters into lines: a letter under the middle of the one before begins another.
func lines(text []Glyph, boxes [][4]float64) []Line {
	var out []Line
	for i, b := range boxes {
		if i == 0 || text[i].Box[1] > (text[i-1].Box[1]+text[i-1].Box[3])/2 {
			out = append(out, Line{})
		}
		l := &out[len(out)-1]
		l.Runes, l.Boxes = append(l.Runes, text[i].Rune), append(l.Boxes, b)
	}
	for i := range out {
		out[i].Of = len(out)
	}
	return out
}

// Expects is what o expects to go wrong, all of it still to come.
func Expects(o Options) Coming {
	c := Coming{Empty: min(o.Empty, mostComing), Wrong: min(o.Wrong, mostComing)}
	across, up := handShares(&o)
	c.Hand = (across + up) / 2
	return c
}

// mostComing is the largest share that the line reader has learned to foretell unseen.
const mostComing = 0.1

// leastPixels is how many pixels of the film the smallest letter has, across or up.
func (j *judge) leastPixels() float64 {
	var wide, high []float64
	for i := range j.field.Seats {
		if c := &j.field.Seats[i].Cell; j.field.Seats[i].Seen > 0 {
			wide = append(wide, math.Hypot(c[1][0]-c[0][0], c[1][1]-c[0][1]))
			high = append(high, math.Hypot(c[3][0]-c[0][0], c[3][1]-c[0][1]))
		}
	}
	if len(wide) == 0 {
		return 0
	}
	across, up := median(wide), median(high)
	least := math.Inf(1)
	for _, b := range j.boxes {
		if b == ([4]float64{}) {
			continue
		}
		seats, rows, _ := j.under(b)
		if tall := float64(rows) * up; float64(rows) > 0 {
			least = min(least, tall, max(seats*across, tall/2)) // I is narrow by nature
		}
	}
	return least
}

func (j *judge) rng(stream uint64) *rand.Rand { return rand.New(rand.NewPCG(j.o.Seed, stream)) }

// look reads every letter in the picture under a mishap (nil: none), with this still to come.
func (j *judge) look(m *Mishap, coming Coming) []Likeness {
	j.patch.Show(j.canvas, j.ink, j.o.Tints, m)
	out := make([]Likeness, 0, len(j.text))
	for k := range j.lines {
		l := &j.lines[k]
		l.Coming = coming
		for i := range l.Runes {
			out = append(out, j.patch.CompareIn(l, i))
		}
	}
	return out
}

// chance is how likely a text is read whose letters look like this: as if each were
// read for itself.
func chance(ls []Likeness) float64 {
	p := 1.0
	for _, l := range ls {
		p *= l.Chance
	}
	return p
}

// score is what is reported of a chance foretold.
func (j *judge) score(chance float64) float64 {
	c := min(max(chance, 1e-5), 0.995)
	letterN := float64(min(max(len(j.text), leastLetters), mostLetters))
	z := scoreBase + float64(scoreSlope*math.Log(c/(1-c))) + float64(scoreLetters*letterN)
	letters, figures := false, false
	for _, g := range j.text {
		letters = letters || unicode.IsLetter(g.Rune)
		figures = figures || unicode.IsDigit(g.Rune)
	}
	if letters && figures {
		z += scoreMixed
	}
	return 1 / (1 + math.Exp(-z))
}

// expected reads the picture as planned with everything that o expects still to come.
func (j *judge) expected() Reading {
	r := Reading{Letters: make([]Letter, len(j.text))}
	ls := j.look(nil, Expects(j.o))
	for i, l := range ls {
		r.Letters[i] = Letter{Letter: string(j.text[i].Rune), Margin: math.Round(l.Margin()*1e4) / 1e4}
		if l.Rival != 0 {
			r.Letters[i].Rival = string(l.Rival)
		}
	}
	r.Score = math.Round(j.score(chance(ls))*1e6) / 1e6
	if j.pixels < fewestPixels {
		r.Score = 0
	}
	return r
}

// largest is the largest of the shares up to which the text still reads.
func (j *judge) largest(shares []float64, draw func(share float64, k int) *Mishap) float64 {
	ok := 0.0
	for _, share := range shares {
		sum := 0.0
		for k := range shareTries {
			sum += chance(j.look(draw(share, k), Coming{}))
		}
		if j.pixels < fewestPixels || j.score(sum/shareTries) < readsFrom {
			break
		}
		ok = share
	}
	return ok
}

// weakMargin is the margin under which a letter is called weak.
const weakMargin = 0.6

// tells is by how much of its margin what people wear must weaken a letter to be called the reason (ours, no source).
const tells = 0.15

// why says in plain words why a letter is weak, or nothing where it is not; worn is what people wear the colour of, ink
// or ground, where that is why.
func (j *judge) why(i int, clean Likeness, worn string, l Letter) string {
	if j.pixels < fewestPixels {
		return fmt.Sprintf("the film has only %.0f pixels for the smallest letter", j.pixels)
	}
	if l.Margin >= weakMargin {
		return ""
	}
	b := j.boxes[i]
	if b == ([4]float64{}) {
		return "too few of its seats are seen from here"
	}
	seats, rows, seen := j.under(b)
	switch {
	case worn != "":
		return "people wear the colour of its " + worn + ", and that shows between the cards"
	case seats < 4 && !narrow(l.Letter):
		return fmt.Sprintf("only %.1f seats wide", seats)
	case rows < 8:
		return fmt.Sprintf("only %d rows high", rows)
	case seen < 0.6:
		return fmt.Sprintf("%.0f %% of its cards is hidden", 100*(1-seen))
	case j.handRows() >= 1:
		return "hands are off by as much as a row is high: practise once"
	case j.canvas.cover < dull:
		return fmt.Sprintf("cards cover only %.0f %% of what the camera sees there", 100*j.canvas.cover)
	case clean.Margin() >= weakMargin:
		return "a gap or a wrong card changes it"
	}
	if clean.Rival == 0 {
		return "runs into a blot from afar"
	}
	return fmt.Sprintf("looks like %c from afar", clean.Rival)
}

// dull is the share of the picture under which cards leave it to what shows between them (ours, no source).
const dull = 0.25

// handRows is the error of hand up and down, one standard deviation, in heights of a row as the camera sees it.
func (j *judge) handRows() float64 {
	var cards, rows []float64
	for i := range j.field.Seats {
		if s := &j.field.Seats[i]; s.Seen > 0 {
			cards = append(cards, math.Hypot(s.Card[3][0]-s.Card[0][0], s.Card[3][1]-s.Card[0][1]))
			rows = append(rows, math.Hypot(s.Cell[3][0]-s.Cell[0][0], s.Cell[3][1]-s.Cell[0][1]))
		}
	}
	_, up := handShares(&j.o)
	return up * median(cards) / max(median(rows), 1e-6)
}

// narrow says whether a sign is narrow by nature: that is no fault of the layout.
func narrow(sign string) bool { return strings.Contains("I1!./':", sign) }

func (j *judge) under(b [4]float64) (seats float64, rows int, seen float64) {
	in := map[int32]bool{}
	n := 0.0
	for _, i := range j.canvas.Between(b[0], b[2]) {
		if p := &j.canvas.Places[i]; p.Y > b[1] && p.Y < b[3] {
			in[j.field.Seats[i].Row] = true
			seen += j.field.Seats[i].Seen
			n++
		}
	}
	return (b[2] - b[0]) / j.canvas.Pitch, len(in), seen / max(n, 1)
}
