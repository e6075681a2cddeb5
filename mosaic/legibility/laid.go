package legibility

// Laid is a text as it was laid in one picture, to be read from many other places. It
// may be used by several goroutines at once.
type Laid struct {
	home *Canvas
	ink  []bool
	text []Glyph
	o    Options
}

// NewLaid keeps a text whose letters' boxes lie in the picture of home; ink is by Field seat.
func NewLaid(home *Field, ink []bool, text []Glyph, o Options) *Laid {
	ws := Warps(home)
	return &Laid{home: NewCanvas(home, ws[len(ws)-1]), ink: ink, text: text, o: o}
}

// Expect is what Expect of the package gives for the views home and from, and the mark from.
func (l *Laid) Expect(from *Field) float64 {
	if len(l.text) == 0 {
		return 0
	}
	ws := Warps(from)
	j := &judge{field: from, canvas: NewCanvas(from, ws[len(ws)-1]), ink: l.ink, text: l.text, o: l.o}
	for _, g := range l.text {
		j.boxes = append(j.boxes, Carry(l.home, j.canvas, l.home.Warp.BoxIn(g.Box)))
	}
	j.lines = lines(l.text, j.boxes)
	j.pixels = j.leastPixels()
	return j.expected().Score
}
