package pictures

import (
	"fmt"
	"io"
	"math"
	"slices"

	"everyseat/mosaic/brief"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/marks"
	"everyseat/seating"
)

// Marks writes, as PNG, the plan of where the camera can stand: on the left the plan
// as it is, on the right planned anew, below both for the other heights. The camera's side
// is below, so left and right are as the camera sees them.
func Marks(w io.Writer, m *marks.Map, code brief.Code) error {
	s := newSite(m, code)
	s.heading(m.Plan, "Where the camera can stand.  Plan from above; the camera's side is below, "+
		"left and right as the camera sees.")
	all := s.byHeight()
	s.columns(all[:1], true)
	for some := range slices.Chunk(all[1:], 2) {
		s.columns(some, false)
	}
	s.legend()
	s.settle()
	return s.writePNG(w)
}

// Sizes of the plan of marks, in pixels.
const (
	siteWidth  = 1640.0
	siteMargin = mapMargin
	siteGap    = 32.0   // between panels
	siteTall   = 1000.0 // a panel at most
	siteTop    = 132.0
	sitePad    = 1.5 // metres around everything
)

// The scale of scores, ten steps from 0 to 1: from dark blue over grey to yellow, so that lightness alone
// tells it too, on a copy without colour and to eyes that do not tell red from green.
// The steps are those of cividis (Nuñez, Anderton, Renslow 2018, PLOS ONE 13(7)), from memory.
var scoreInks = [10]rgb{
	{0x00, 0x22, 0x4e}, {0x12, 0x35, 0x70}, {0x3b, 0x49, 0x6c}, {0x57, 0x5d, 0x6d}, {0x70, 0x71, 0x73},
	{0x8a, 0x86, 0x78}, {0xa5, 0x9c, 0x74}, {0xc3, 0xb3, 0x69}, {0xe1, 0xcc, 0x55}, {0xfe, 0xe8, 0x38},
}

func scoreInk(score float64) rgb { return scoreInks[max(0, min(9, int(float64(score*10)+1e-9)))] }

// site is the plan while it is drawn.
type site struct {
	drawing
	m     *marks.Map
	code  brief.Code
	world extent // what every panel shows, in metres
	seats [][4]spot
	y     float64 // how far down it is drawn
}

// most seats that are drawn one by one.
const siteSeats = 6000

func newSite(m *marks.Map, code brief.Code) *site {
	s := &site{m: m, code: code, world: nothing(), y: siteTop}
	s.width = siteWidth
	for i := range m.Plan.Stands.Seats {
		q := footprint(m.Plan.Stands, i)
		s.world.hold(q[:]...)
		s.seats = append(s.seats, q)
	}
	for i := range m.Patches {
		p := &m.Patches[i]
		s.world.hold(spot{p.Left.Metres(), -p.Farthest.Metres()}, spot{p.Right.Metres(), -p.Nearest.Metres()})
	}
	for i := range m.Plan.Marks {
		v := m.Plan.Marks[i].View.Position
		s.world.hold(spot{v[0] - 1, v[1] - 1}, spot{v[0] + 1, v[1] + 1})
	}
	return s
}

// group is the patches at one height.
type group struct {
	height  seating.Length
	patches []*marks.Patch
}

func (s *site) byHeight() []group {
	var out []group
	for i := range s.m.Patches {
		p := &s.m.Patches[i]
		k := slices.IndexFunc(out, func(g group) bool { return g.height == p.Height })
		if k < 0 {
			k = len(out)
			out = append(out, group{height: p.Height})
		}
		out[k].patches = append(out[k].patches, p)
	}
	return out
}

// columns draws one height large, or one or two further ones small: as it is on the left, anew on the right.
func (s *site) columns(some []group, large bool) {
	titles, below := [2]string{"As it is", "Planned anew"}, [2]string{}
	size, head, foot := 16.0, 26.0, 40.0
	if large {
		titles = [2]string{"The plan as it is", "Planned anew for each place"}
		below = [2]string{s.strayWords(), s.bestWords()}
		size, head, foot = 19, 58, 64
	}
	column := float64((s.width - 2*siteMargin - siteGap) * 0.5)
	wide := (column - float64(siteGap*float64(len(some)-1))) / float64(len(some))
	high := 0.0
	for k, g := range some {
		for side := range titles {
			x := siteMargin + float64(float64(k)*(wide+siteGap)) + float64(float64(side)*(column+siteGap))
			title := fmt.Sprintf("%s, lens %s high", titles[side], g.height.Spoken())
			title = shorten(title, true, size, wide)
			s.write(spot{x, s.y + 8}, lettering{words: title, size: size, bold: true, colour: inkText})
			under := lettering{size: 15, colour: inkText}
			for under.size > smallType && advance(printable(below[side], false), false, under.size) > wide {
				under.size--
			}
			under.words = shorten(below[side], false, under.size, wide)
			s.write(spot{x, s.y + 36}, under)
			high = s.panel(g, x, s.y+head, wide, side == 1, large)
		}
	}
	s.y += head + high + foot
}

func (s *site) strayWords() string {
	m := s.m
	if !m.Spells {
		return fmt.Sprintf("No text: shown is the share of the cards' area that is seen. At the mark %.0f %%.",
			100*m.Here.Fixed)
	}
	head := fmt.Sprintf("At the mark it %s: %.0f of 100.", m.Verdict(m.Here.Fixed).Says(), 100*m.Here.Fixed)
	if m.Verdict(m.Here.Fixed) != legibility.Reads {
		return head
	}
	stuck := marks.Reach{End: marks.EndRoom}
	if m.Stray == (marks.Stray{Left: stuck, Right: stuck, Forward: stuck, Back: stuck}) {
		return head + " It cannot stray: nothing around is allowed or free."
	}
	reach := func(r marks.Reach) string {
		if r.End == marks.EndFar {
			return fmt.Sprintf("over %g m", r.Distance.Metres())
		}
		return fmt.Sprintf("%g m", r.Distance.Metres())
	}
	return fmt.Sprintf("%s It may stray: left %s, right %s, toward the stands %s, away %s.", head,
		reach(m.Stray.Left), reach(m.Stray.Right), reach(m.Stray.Forward), reach(m.Stray.Back))
}

func (s *site) bestWords() string {
	b := &s.m.Best
	switch {
	case !s.m.Spells:
		return "Nothing to plan anew where nothing is spelt."
	case s.m.BestPlan == nil:
		return fmt.Sprintf("Nowhere clearly better than at the mark, with %.0f of 100: keep the cross where it is.",
			100*s.m.Here.Anew)
	}
	side := "in the middle"
	switch across := b.Across.Metres(); {
	case across > 0:
		side = fmt.Sprintf("%.2f m to the right", across)
	case across < 0:
		side = fmt.Sprintf("%.2f m to the left", -across)
	}
	return fmt.Sprintf("Best: %.2f m back, %s, lens %.2f m high: %s, %.0f of 100; at the mark %.0f.",
		b.Back.Metres(), side, b.Height.Metres(), s.m.Verdict(b.Anew).Says(), 100*b.Anew, 100*s.m.Here.Anew)
}

// legend says what colours and signs mean.
func (s *site) legend() {
	y := s.y + 14
	s.line(inkHair, 1, spot{siteMargin, whole(y) - 0.5}, spot{s.width - siteMargin, whole(y) - 0.5})
	y += 40
	s.scale(siteMargin, y)
	p := &panel{site: s}
	x := siteMargin + 620
	sign := func(draw func(at spot), words string) {
		draw(spot{x + 12, y})
		s.write(spot{x + 34, y}, lettering{words: words, size: 15, colour: inkText})
		y += 30
	}
	y -= 8
	top := y
	sign(func(at spot) { p.cross(at, 8) }, "a mark as the stunt has it")
	if s.m.BestPlan != nil {
		sign(func(at spot) { p.star(at, 12) }, "the best place for the cross")
	}
	sign(func(at spot) { s.doubled(5, 2.5, spot{at.x - 12, at.y}, spot{at.x + 12, at.y}) },
		"within this line it reads")
	x, y = x+310, top
	box := func(at spot) []spot { return rectangle(at.x-9, at.y-9, 18, 18) }
	sign(func(at spot) {
		s.area(inkFloor, box(at)...)
		for d := 6.0; d < 36; d += 6 {
			near, far := math.Min(d, 18), math.Max(0, d-18)
			s.line(inkHair, 1, spot{at.x - 9 + near, at.y + 9 - far}, spot{at.x - 9 + far, at.y + 9 - near})
		}
	}, "no camera can stand there, or none was looked at")
	sign(func(at spot) { s.dashed(spot{at.x - 12, at.y}, spot{at.x + 12, at.y}) },
		"a lane: it stays free, the cross is never put there below 2.2 m")
	sign(func(at spot) { s.add(shape{points: box(at), fill: &inkPerson, stroke: &inkLine, width: 1}) }, "seats")
	s.height = ceil(math.Max(y, top+110) + 50)
	s.footer(s.code, "Scores count people missing, wrong cards and uneven hands in.  "+
		"Whoever walks backwards with a camera has a spotter.")
}

// scale is the bar of colours with what they mean.
func (s *site) scale(x, y float64) {
	const wide, high = 54.0, 22.0
	words := "score of 100"
	if !s.m.Spells {
		words = "share of the cards' area that is seen, in percent"
	}
	s.write(spot{x, y - 22}, lettering{words: words, size: 15, colour: inkText})
	at := func(tenths float64) float64 { return x + float64(tenths*wide) }
	for i, ink := range scoreInks {
		s.area(ink, rectangle(at(float64(i)), y-6, wide, high)...)
	}
	s.outline(inkText, 1, rectangle(x-0.5, y-6.5, 10*wide+1, high+1)...)
	for i := 0; i <= 10; i += 2 {
		s.write(spot{at(float64(i)), y + 28}, small(fmt.Sprint(i*10)))
	}
	if !s.m.Spells {
		return
	}
	reads, fails := legibility.Thresholds()
	from := 0.0
	for _, part := range []struct {
		to    float64
		words string
	}{{fails, "does not read"}, {reads, "marginal"}, {1, "reads"}} {
		a, b := at(from*10), at(part.to*10)
		for _, ends := range [...][2]spot{
			{{a + 2, y + 44}, {b - 2, y + 44}}, {{a + 2, y + 38}, {a + 2, y + 44}}, {{b - 2, y + 38}, {b - 2, y + 44}},
		} {
			s.line(inkText, 1.5, ends[:]...)
		}
		l := small(shorten(part.words, false, 14, math.Max(b-a, 40)))
		l.size = 14
		s.write(spot{(a + b) / 2, y + 58}, l)
		from = part.to
	}
}
