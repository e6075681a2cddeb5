package advice

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/marks"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// The kinds of change by how large they are: the lesser one is named first where two help alike.
const (
	rankStock = iota
	rankHeld
	rankTurn
	rankLens
	rankPlace
	rankContrast
	rankRows
	rankSections
	rankMarks
	rankCards
	rankLines
	rankCues
	rankFewer
	rankSeats
)

// singles are the single changes in the order in which they are made: the first of each
// kind, then the second of each, since large stands get the first few only.
func (s *study) singles() []*variant {
	kinds := [][]*variant{
		s.stock(), s.wider(), s.cues(), s.places(), s.fewer(), s.rows(), s.held(), s.cards(), s.contrast(),
		s.sections(), s.lines(), s.turned(), s.withoutMarks(),
	}
	if !s.few && (s.before == 0 || mosaic.Narrow(s.seatsEach)) {
		kinds = slices.Insert(kinds, 4, s.moreSeats())
	}
	if !s.few {
		kinds = append(kinds, s.moreRows())
	}
	var out []*variant
	for k := 0; ; k++ {
		some := false
		for _, kind := range kinds {
			if k >= len(kind) {
				continue
			}
			some = true
			if same := func(v *variant) bool { return v.do == kind[k].do }; !slices.ContainsFunc(out, same) {
				out = append(out, kind[k])
			}
		}
		if !some {
			return out
		}
	}
}

// own is the cue in a stunt.
func (s *study) own(stunt *mosaic.Stunt) *mosaic.Cue { return &stunt.Cues[s.cue] }

func (s *study) text() string { return s.own(s.stunt).Text }

// MoreStock is the change of having more cards of a colour that the stunt says is limited.
const MoreStock = "more cards"

// stock is more sheets of what the stock does not reach for: of one colour half of what is wanted, then all of it; of
// several each alone, then all.
func (s *study) stock() (out []*variant) {
	if s.plan == nil {
		return nil
	}
	lacking := s.plan.Lacking()
	var tries [][]mosaic.Lack
	for _, l := range lacking {
		half := mosaic.Lack{Colour: l.Colour, Sheets: (l.Sheets + 1) / 2}
		if len(lacking) == 1 && s.plan.MoreOf([]mosaic.Lack{half}) != s.plan.MoreOf(lacking) {
			tries = append(tries, []mosaic.Lack{half})
		}
		tries = append(tries, []mosaic.Lack{l})
	}
	if len(lacking) > 1 {
		tries = append(tries, lacking)
	}
	for _, more := range tries {
		out = append(out, &variant{
			change: MoreStock, rank: rankStock, leastFirst: true, do: "buy " + s.plan.MoreOf(more),
			apply: func(stunt *mosaic.Stunt) {
				for _, l := range more {
					c := &stunt.Colours[l.Colour]
					pack := max(c.Pack, 1)
					c.Sheets += (l.Sheets + pack - 1) / pack * pack
				}
			},
		})
	}
	return out
}

// cues is the text on two cues, and on one for each word where there are more.
func (s *study) cues() []*variant {
	var out []*variant
	for _, parts := range splits(s.text(), s.before == 0) {
		out = append(out, &variant{
			change: "more cues", do: fmt.Sprintf("make %s of it, %s", countWord(len(parts), "cue"), quotedList(parts)),
			rank: rankCues, content: true, leastFirst: true, cues: len(parts),
			apply: func(stunt *mosaic.Stunt) {
				whole := stunt.Cues[s.cue]
				var cues []mosaic.Cue
				for k, part := range parts {
					c := whole
					c.Name, c.Text = "", part
					if k > 0 {
						c.At = ""
					}
					cues = append(cues, c)
				}
				stunt.Cues = slices.Replace(stunt.Cues, s.cue, s.cue+1, cues...)
			},
		})
	}
	return out
}

// fewer is the beginning of the text, from little less to half of it.
func (s *study) fewer() []*variant {
	longest := longestLine(s.text())
	var out []*variant
	for _, n := range fewerLetters(longest, s.before == 0) {
		each := ""
		if strings.Contains(strings.TrimSpace(s.text()), "\n") {
			each = " a line"
		}
		out = append(out, &variant{
			change: "fewer letters", rank: rankFewer, content: true, leastFirst: true,
			do: fmt.Sprintf("write at most %s%s (measured with %s)",
				countWord(n, "letter"), each, say.Quoted(beginning(s.text(), n))),
			apply: func(stunt *mosaic.Stunt) {
				c := s.own(stunt)
				c.Name, c.Text = "", beginning(c.Text, n)
			},
		})
	}
	return out
}

// lines is a text of two lines on one, and one of several words on two.
func (s *study) lines() []*variant {
	words := strings.Fields(s.text())
	if len(words) < 2 {
		return nil
	}
	text, do := strings.Join(words, " "), "write it on one line"
	if !strings.Contains(strings.TrimSpace(s.text()), "\n") {
		halves := halve(s.text())
		text, do = strings.Join(halves, "\n"), fmt.Sprintf("write it on two lines, %s", quotedList(halves))
	}
	return []*variant{{
		change: "lines", do: do, rank: rankLines, content: true,
		apply: func(stunt *mosaic.Stunt) { s.own(stunt).Text = text },
	}}
}

// places is the camera elsewhere.
func (s *study) places() []*variant {
	var out []*variant
	now := &s.stunt.Camera
	for _, p := range marks.Others(s.stunt, s.stands) {
		v := &variant{change: "another mark", do: "put the camera " + p.Words(), rank: rankPlace}
		if p.Across == now.Across && p.Back == now.Back && p.Height > now.Height {
			v.do, v.change = "raise the lens to "+p.Height.Spoken(), "a higher lens"
			v.leastFirst = true
		}
		v.apply = func(stunt *mosaic.Stunt) {
			stunt.Camera.Across, stunt.Camera.Back, stunt.Camera.Height = p.Across, p.Back, p.Height
		}
		out = append(out, v)
	}
	return out
}

// wider is a lens that takes in all cards, where the stunt's own does not.
func (s *study) wider() []*variant {
	if s.takes || s.lens < 1 {
		return nil
	}
	return []*variant{{
		change: "a wider lens", rank: rankLens,
		do: fmt.Sprintf("take a lens of %d mm on full frame (sensor = \"36 mm x 24 mm\", lens = \"%[1]d mm\")",
			s.lens),
		apply: func(stunt *mosaic.Stunt) {
			stunt.Camera.Lens = camera.Lens{SensorWidth: camera.FullFrame, SensorHeight: 24, Focal: float64(s.lens)}
		},
	}}
}

// held is the cards higher, up to over the head.
func (s *study) held() []*variant {
	var out []*variant
	for h := s.filled.Card.Held + 1; h <= camera.Overhead; h++ {
		out = append(out, &variant{
			change: "cards held higher", rank: rankHeld, leastFirst: true,
			do:    fmt.Sprintf("hold the card %s (held = %q)", h.Words(), h),
			apply: func(stunt *mosaic.Stunt) { stunt.Card.Held = h },
		})
	}
	return out
}

// Larger cards that are sold, from the smallest: Letter and double Letter, ISO 216 A3, and what is cut from a
// sheet of poster board of 22 by 28 inches (common practice, no source).
var largerCards = []struct {
	words         string
	width, height seating.Length
}{
	{"Letter", 17 * seating.Inch / 2, 11 * seating.Inch},
	{"11in x 14in", 11 * seating.Inch, 14 * seating.Inch},
	{"11in x 17in", 11 * seating.Inch, 17 * seating.Inch},
	{"A3", 297 * seating.Millimetre, 420 * seating.Millimetre},
	{"14in x 22in", 14 * seating.Inch, 22 * seating.Inch},
}

// cards is larger cards, as long as neighbours' do not overlap.
func (s *study) cards() []*variant {
	card := &s.filled.Card
	pitch := seating.Length(math.MaxInt64)
	for i := range s.stands.Sections {
		if sec := &s.stands.Sections[i].Spec; !sec.NoCards {
			pitch = min(pitch, sec.Pitch)
		}
	}
	var out []*variant
	for _, l := range largerCards {
		aside := l.width
		if card.Orientation == "landscape" {
			aside = l.height
		}
		if aside > pitch || l.width.Metres()*l.height.Metres() < 1.1*card.Width.Metres()*card.Height.Metres() {
			continue
		}
		out = append(out, &variant{
			change: "larger cards", rank: rankCards, leastFirst: true,
			do:    fmt.Sprintf("take cards of %s (size = %q)", l.words, l.words),
			apply: func(stunt *mosaic.Stunt) { stunt.Card.Width, stunt.Card.Height = l.width, l.height },
		})
	}
	return out[:min(len(out), 2)]
}

// contrastPairs is how many other pairs of colours are tried.
const contrastPairs = 2

// contrast is other colours of the palette for letters and ground: those that differ most, an ink that people wear
// last. Where they wear the ink, another for the letters alone comes first, and if the palette has none, a usual one.
func (s *study) contrast() []*variant {
	now := s.own(s.filled)
	type pair struct {
		ink, ground   mosaic.Colour
		worn, another bool // the ink; the ground
		contrast      int
	}
	var pairs []pair
	ratio := func(a, b mosaic.Colour) int { return int(math.Round(100 * colour.Contrast(a.RGB, b.RGB))) }
	worn := s.filled.Wears(s.filled.RGBOf(now.Ink))
	better := false // the palette has an ink for that ground
	for _, a := range s.stunt.Colours {
		for _, b := range s.stunt.Colours {
			if a.Name == b.Name || a.Name == now.Ink && b.Name == now.Ground {
				continue
			}
			p := pair{a, b, s.filled.Wears(a.RGB), worn && b.Name != now.Ground, ratio(a, b)}
			better = better || !p.worn && !p.another && p.contrast >= 100*mosaic.LeastContrast
			pairs = append(pairs, p)
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int {
		return cmp.Or(later(a.worn, b.worn), later(a.another, b.another), cmp.Compare(b.contrast, a.contrast))
	})
	var out []*variant
	if ground := s.filled.RGBOf(now.Ground); worn && !better && now.Ground != mosaic.Shirts {
		most := 100 * mosaic.LeastContrast
		var best *mosaic.Colour
		for i, c := range mosaic.UsualStock {
			if n := ratio(c, mosaic.Colour{RGB: ground}); !s.filled.Wears(c.RGB) && n >= most {
				best, most = &mosaic.UsualStock[i], n+1
			}
		}
		if best != nil {
			out = append(out, &variant{
				change: "other colours", rank: rankContrast,
				do: fmt.Sprintf("take %s for the letters, which few people wear (a [[colour]] with name = %[1]q and "+
					"hex = %q, ink = %[1]q)", best.Name, best.RGB.Hex()),
				apply: func(stunt *mosaic.Stunt) {
					stunt.Colours = append(stunt.Colours, mosaic.Colour{Name: best.Name, RGB: best.RGB, Sheets: -1})
					s.own(stunt).Ink = best.Name
				},
			})
		}
	}
	for _, p := range pairs[:min(len(pairs), contrastPairs)] {
		do := fmt.Sprintf("write with %s on %s (ink = %[1]q, ground = %[2]q)", p.ink.Name, p.ground.Name)
		if worn && !p.worn && !p.another {
			do = fmt.Sprintf("take %s for the letters, which few people wear (ink = %[1]q)", p.ink.Name)
		}
		out = append(out, &variant{
			change: "other colours", rank: rankContrast, do: do,
			apply: func(stunt *mosaic.Stunt) {
				c := s.own(stunt)
				c.Ink, c.Ground = p.ink.Name, p.ground.Name
			},
		})
	}
	return out
}

// later orders what is not before what is.
func later(a, b bool) int {
	if a == b {
		return 0
	}
	if a {
		return 1
	}
	return -1
}

// mostSections is how many other choices of sections are tried.
const mostSections = 4

// sections is the text on other sections: on all, on the widest, on neighbours.
func (s *study) sections() []*variant {
	on := s.own(s.stunt).On
	var names []string
	var seats []int
	for i := range s.stands.Sections {
		sec := &s.stands.Sections[i]
		if onStands(&sec.Spec) {
			names, seats = append(names, sec.Name), append(seats, widestRow(sec))
		}
	}
	var out []*variant
	add := func(chosen []string) {
		same := slices.EqualFunc(chosen, on, strings.EqualFold) || len(on) == 0 && len(chosen) == len(names)
		if !same && len(out) < mostSections {
			out = append(out, s.onSections(chosen))
		}
	}
	if len(names) == 0 {
		return nil
	}
	if len(on) > 0 {
		add(names)
	}
	if len(names) == 1 {
		return out
	}
	widest := slices.Index(seats, slices.Max(seats))
	add(names[widest : widest+1])
	for k := 0; k+1 < len(names) && len(names) > 2; k++ {
		add(names[k : k+2])
	}
	for k := range names {
		if k != widest {
			add(names[k : k+1])
		}
	}
	return out
}

// onSections is the text on these sections alone.
func (s *study) onSections(chosen []string) *variant {
	sections := "section "
	if len(chosen) > 1 {
		sections = "sections "
	}
	return &variant{
		change: "other sections", rank: rankSections,
		do:    "lay it on " + sections + say.List(chosen) + " alone (on = " + mosaic.KeyList(chosen) + ")",
		apply: func(stunt *mosaic.Stunt) { s.own(stunt).On = chosen },
	}
}

// onStands says whether a section's people hold cards and stand not on the floor.
func onStands(sec *seating.SectionSpec) bool { return sec.Kind != seating.Floor && !sec.NoCards }

func widestRow(sec *seating.Section) int {
	n := 0
	for _, r := range sec.Rows {
		n = max(n, r.Last-r.First)
	}
	return n
}

// turned is the message as the camera sees it where it was laid flat, and cards turned to a
// camera that stands aside.
func (s *study) turned() []*variant {
	var out []*variant
	if s.own(s.stunt).Fit == "flat" {
		out = append(out, &variant{
			change: "as the camera sees it", do: `lay it as the camera sees it (fit = "camera")`, rank: rankHeld,
			apply: func(stunt *mosaic.Stunt) { s.own(stunt).Fit = "camera" },
		})
	}
	if !s.stunt.Card.ToMark {
		out = append(out, &variant{
			change: "cards turned", do: `turn the cards to the camera (turn = "mark")`, rank: rankTurn,
			apply: func(stunt *mosaic.Stunt) { stunt.Card.ToMark = true },
		})
	}
	return out
}

// withoutMarks is one of the further marks less.
func (s *study) withoutMarks() []*variant {
	var out []*variant
	for k := range s.stunt.Marks {
		name := cmp.Or(s.stunt.Marks[k].Name, "mark "+strconv.Itoa(k+1))
		out = append(out, &variant{
			change: "one mark less", do: fmt.Sprintf("do without the mark %q", name), rank: rankMarks,
			apply: func(stunt *mosaic.Stunt) { stunt.Marks = slices.Delete(stunt.Marks, k, k+1) },
		})
	}
	return out[:min(len(out), 3)]
}

// Seats a letter that are enough for any letter, and how many times longer rows are tried.
const (
	enoughSeats = 6.0
	mostTimes   = 2.5
)

// moreSeats is longer rows: other stands.
func (s *study) moreSeats() []*variant {
	times := []float64{1.5, 2}
	if s.seatsEach > 0 {
		times = []float64{max(1.25, min(mostTimes, math.Round(4*enoughSeats/s.seatsEach)/4))}
	}
	across := 0
	for i := range s.stands.Sections {
		if sec := &s.stands.Sections[i]; onStands(&sec.Spec) {
			across += widestRow(sec)
		}
	}
	var out []*variant
	for _, t := range times {
		out = append(out, &variant{
			change: "more seats", rank: rankSeats, leastFirst: true,
			do: fmt.Sprintf("use stands with rows %g times as long, %d seats across instead of %d",
				t, int(math.Ceil(t*float64(across))), across),
			apply: func(stunt *mosaic.Stunt) { lengthen(stunt.Stands.Sections, t) },
		})
	}
	return out
}

// goodRows is how many rows are enough for any letter, and how many are added where there are fewer.
const goodRows = 10

// moreRows is stands with the rows that a letter needs, where these have fewer.
func (s *study) moreRows() []*variant {
	rows := 0
	for i := range s.stands.Sections {
		if sec := &s.stands.Sections[i]; onStands(&sec.Spec) {
			rows = max(rows, len(sec.Rows))
		}
	}
	if rows == 0 || rows >= goodRows {
		return nil
	}
	return []*variant{{
		change: "more rows", rank: rankSeats, do: fmt.Sprintf("use stands of %d rows instead of %d", goodRows, rows),
		apply: func(stunt *mosaic.Stunt) {
			for i := range stunt.Stands.Sections {
				sec := &stunt.Stands.Sections[i]
				if more := goodRows - rows; onStands(sec) {
					sec.Rows = len(s.stands.Sections[i].Rows) + more
					sec.Seats, sec.Bench = longer(sec.Seats, more), longer(sec.Bench, more)
					sec.RowNames.Names = nil
				}
			}
		},
	}}
}

// longer repeats the last of a list of rows; one alone serves all rows anyway.
func longer[T any](list []T, more int) []T {
	if len(list) < 2 {
		return list
	}
	out := slices.Clone(list)
	for range more {
		out = append(out, list[len(list)-1])
	}
	return out
}

func lengthen(sections []seating.SectionSpec, times float64) {
	for i := range sections {
		sec := &sections[i]
		if !onStands(sec) {
			continue
		}
		sec.Seats, sec.Bench = slices.Clone(sec.Seats), slices.Clone(sec.Bench)
		for k, n := range sec.Seats {
			sec.Seats[k] = int(math.Ceil(times * float64(n)))
		}
		for k, l := range sec.Bench {
			sec.Bench[k] = seating.Length(math.Round(times*l.Metres()*1000)) * seating.Millimetre
		}
	}
}
