package pictures

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// maps are plans whose maps differ in kind.
func maps(t *testing.T) map[string]*mosaic.Plan {
	turned := painted(t, court(), "LF", smallMark())
	long := painted(t, hall(false), "GLOW", smallMark())
	long.Stunt.Title = strings.Repeat("A very long title about lanterns ", 12)
	long.Stunt.Colours = slices.Clone(long.Stunt.Colours)
	long.Stunt.Colours[0].Name = strings.Repeat("darkest harbour blue ", 4)
	long.Cues[0].Name = "Äöü & <tags> \"quoted\" Ж"
	return map[string]*mosaic.Plan{
		"hall":  painted(t, hall(true), "GLOW", smallMark()),
		"court": turned,
		"aside": painted(t, hall(false), "L", tiny(aside())),
		"long":  long,
	}
}

// svgSeats reads a map's SVG with a general XML reader and lists the titles of its
// paths with their fills.
func svgSeats(t *testing.T, p *mosaic.Plan, cue int) map[string]string {
	t.Helper()
	var b bytes.Buffer
	if err := MapSVG(&b, told(p), cue); err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	d := xml.NewDecoder(&b)
	fill, inTitle := "", false
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatalf("the SVG is not well-formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if tok.Name.Local == "path" {
				fill = ""
				for _, a := range tok.Attr {
					if a.Name.Local == "fill" {
						fill = a.Value
					}
				}
			}
			inTitle = tok.Name.Local == "title"
		case xml.EndElement:
			inTitle = false
		case xml.CharData:
			if inTitle {
				name := string(tok)
				if _, twice := out[name]; twice {
					t.Errorf("%q is named twice", name)
				}
				out[name] = fill
			}
		}
	}
}

// TestMapNamesEverySeatOnce: the SVG is well-formed, and each seat is one path with
// its id as title and its card's colour as fill.
func TestMapNamesEverySeatOnce(t *testing.T) {
	for name, p := range maps(t) {
		t.Run(name, func(t *testing.T) {
			fills := map[string]string{}
			for title, fill := range svgSeats(t, p, 0) {
				id, _, _ := strings.Cut(title, " ")
				fills[id] = fill
			}
			for i := range p.Stands.Seats {
				id := p.Stands.ID(i)
				fill, ok := fills[id]
				if !ok {
					t.Errorf("%s is not on the map", id)
				}
				if k := p.Cues[0].Colours[i]; k != mosaic.None && fill != p.Stunt.Colours[k].RGB.Hex() {
					t.Errorf("%s is filled with %s, want %s", id, fill, p.Stunt.Colours[k].RGB.Hex())
				}
			}
		})
	}
}

// TestMapPixels: near the corner of its cell, clear of the letter, each seat has
// its card's colour in the PNG as well.
func TestMapPixels(t *testing.T) {
	for name, p := range maps(t) {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			if err := Map(&b, told(p), 0); err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(&b)
			if err != nil {
				t.Fatal(err)
			}
			c, err := newChart(told(p), 0)
			if err != nil {
				t.Fatal(err)
			}
			for i := range p.Stands.Seats {
				k := p.Cues[0].Colours[i]
				if k == mosaic.None {
					continue
				}
				q := inCell(c.cell(i, 1), 0.2, 0.17)
				if p.Stands.Seats[i].For != "" {
					q = inCell(c.cell(i, 1), 0.3, 0.25)
				}
				want := rgb(p.Stunt.Colours[k].RGB)
				r, g, bl, _ := img.At(int(q.x), int(q.y)).RGBA()
				if got := (rgb{uint8(r >> 8), uint8(g >> 8), uint8(bl >> 8)}); got != want {
					t.Errorf("%s at (%.0f, %.0f) is %s, want %s", p.Stands.ID(i), q.x, q.y, got.hex(), want.hex())
				}
			}
		})
	}
}

// TestMapSides: what the camera sees on its left is on the left of the map.
func TestMapSides(t *testing.T) {
	p := painted(t, hall(false), "L", smallMark())
	c, err := newChart(told(p), 0)
	if err != nil {
		t.Fatal(err)
	}
	v := p.Marks[0].View
	first, last := 0, p.Stands.Sections[2].Last-1
	a, _ := v.Project(p.Stands.Seats[first].Position)
	b, _ := v.Project(p.Stands.Seats[last].Position)
	if (a[0] < b[0]) != (c.cells[first][0].x < c.cells[last][0].x) {
		t.Error("the map is mirrored")
	}
	if c.cells[first][0].y < c.cells[last][0].y {
		t.Error("the back row is not at the top")
	}
}

// TestMapLayout: every text is large enough, on the page and clear of every other.
func TestMapLayout(t *testing.T) {
	for name, p := range maps(t) {
		t.Run(name, func(t *testing.T) {
			for cue := -1; cue < len(p.Cues); cue++ {
				c, err := newChart(told(p), cue)
				if err != nil {
					t.Fatal(err)
				}
				checkLayout(t, &c.drawing)
			}
		})
	}
}

func checkLayout(t *testing.T, d *drawing) {
	t.Helper()
	var boxes []extent
	var words []string
	for i := range d.shapes {
		s := &d.shapes[i]
		for _, p := range s.points {
			if !(p.x >= 0 && p.x <= d.width && p.y >= 0 && p.y <= d.height) {
				t.Fatalf("a shape reaches off the page to (%v, %v)", p.x, p.y)
			}
		}
		if s.text == nil {
			continue
		}
		if s.text.size < 11 {
			t.Errorf("%q is only %v pixels", s.text.words, s.text.size)
		}
		boxes, words = append(boxes, s.box()), append(words, s.text.words)
	}
	if len(boxes) < 20 {
		t.Fatalf("only %d texts", len(boxes))
	}
	for i, a := range boxes {
		if a.x0 < 0 || a.x1 > d.width || a.y0 < 0 || a.y1 > d.height {
			t.Errorf("%q runs off the page", words[i])
		}
		for k, b := range boxes[:i] {
			if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				t.Errorf("%q and %q overlap", words[k], words[i])
			}
		}
	}
}

// box is where a text stands.
func (s *shape) box() extent {
	l, p := s.text, s.points[0]
	w, h := l.length(), l.size*paper.Capital
	x := p.x - [...]float64{0, 0.5, 1}[l.anchor]*w
	if l.turn != 0 { // only ever a quarter turn about its middle
		return extent{p.x - h/2, p.y - w/2, p.x + h/2, p.y + w/2}
	}
	return extent{x, p.y - h/2, x + w, p.y + h/2}
}

// TestMapCounts: the legend's numbers are the seats'.
func TestMapCounts(t *testing.T) {
	p := painted(t, hall(true), "GLOW", smallMark())
	c, err := newChart(told(p), 0)
	if err != nil {
		t.Fatal(err)
	}
	n := c.count()
	sum := n.none + n.persons
	places := map[string]int{}
	for _, r := range n.reserved {
		places[r.use] += r.places
		if r.empty {
			sum += r.places
		}
	}
	for _, k := range n.colours {
		sum += k
	}
	if sum != len(p.Stands.Seats) {
		t.Errorf("the legend counts %d of %d seats", sum, len(p.Stands.Seats))
	}
	if places["wheelchair"] != 2 || places["companion"] != 1 || places["platform"] != 2 || n.persons != 450 {
		t.Errorf("counts %+v", n)
	}
	for _, want := range []string{"Navy  337", "White  112", "Plan K7QX-2M4P", "12 June 2027", "Lantern Fair of Gullhaven", "LEFT as the camera sees", "aisle, kept free", "lane cross, kept free", "Section B  (165)", "Floor  (450)"} {
		if !slices.ContainsFunc(c.shapes, func(s shape) bool { return s.text != nil && s.text.words == want }) {
			t.Errorf("nowhere on the map: %q", want)
		}
	}
}

// TestMapTwice: the same plan gives the same bytes, in both forms.
func TestMapTwice(t *testing.T) {
	p := told(painted(t, court(), "LF", smallMark()))
	for _, write := range []func(io.Writer, *brief.Brief, int) error{Map, MapSVG} {
		var a, b bytes.Buffer
		if err := errors.Join(write(&a, p, 0), write(&b, p, 0)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Error("the same plan gives two maps")
		}
	}
}

func TestColourKeys(t *testing.T) {
	named := func(names ...string) []mosaic.Colour {
		var out []mosaic.Colour
		for _, n := range names {
			out = append(out, mosaic.Colour{Name: n})
		}
		return out
	}
	for _, c := range []struct {
		names []string
		want  []string
	}{
		{[]string{"navy", "white"}, []string{"N", "W"}},
		{[]string{"black", "blue", "brown"}, []string{"B", "L", "R"}},
		{[]string{"é", "日本", "日本語"}, []string{"É", "#2", "#3"}},
	} {
		got := colourKeys(named(c.names...))
		if !slices.Equal(got, c.want) {
			t.Errorf("%v are %v, want %v", c.names, got, c.want)
		}
	}
	var many []string
	for range 40 {
		many = append(many, "red")
	}
	keys := colourKeys(named(many...))
	slices.Sort(keys)
	if len(slices.Compact(keys)) != 40 {
		t.Errorf("not every one of 40 like names has its own key: %v", keys)
	}
}

// TestTightRowIsNamed: a row on the floor that stands close between others has its name at its end.
func TestTightRowIsNamed(t *testing.T) {
	spec := hall(true)
	row := spec.Sections[3]
	row.Name, row.Rows, row.Seats, row.NoCards = "QUAY", 1, []int{24}, false
	row.Place = &seating.Place{Away: -3 * seating.Metre}
	spec.Sections = append(spec.Sections, row)
	spec.Lanes[0].Near, spec.Lanes[0].Far = -22*seating.Metre/10, -5*seating.Metre/10
	spec.Sections[3].Place = &seating.Place{Away: -(13*seating.Metre + 6*seating.Metre/10)}
	c, err := newChart(told(painted(t, spec, "GLOW", smallMark())), 0)
	if err != nil {
		t.Fatal(err)
	}
	for i := range c.stands.Sections {
		s := &c.stands.Sections[i]
		named := false
		for k := range c.shapes {
			if l := c.shapes[k].text; l != nil && l.bold && strings.Contains(l.words, s.Name+"  (") {
				named = true
			}
		}
		if !named {
			t.Errorf("section %s has no name on the map", s.Name)
		}
	}
}

func TestPrintable(t *testing.T) {
	for in, want := range map[string]string{
		"Größe":         "Größe",
		"Ωμέγα":         "Ωμέγα",
		"Ж":             "Ж",
		"Bến Ngự":       "Bến Ngự",
		"Ѐжик ᾅ":        "Ѐжик ᾅ",
		"x\u0323\u0302": "x\u0323\u0302",
		"\ufb00":        "f", // no such letter in the face: the nearest that is
		"日":             "?",
		"a\x00b\nc":     "a b c",
		"  ":            "",
		"e\u0301":       "é",
	} {
		if got := printable(in, false); got != want {
			t.Errorf("%q prints as %q, want %q", in, got, want)
		}
	}
}

// TestSmallCells: where cells are too small for letters, strokes tell colours apart.
func TestSmallCells(t *testing.T) {
	p := painted(t, hall(false), "GLOW", smallMark())
	c, err := newChart(told(p), 0)
	if err != nil {
		t.Fatal(err)
	}
	c.scale, c.pitch = c.scale/4, c.pitch/4
	seen := map[string]bool{}
	for k := range int16(3) {
		c.shapes = nil
		c.key(rectangle(0, 0, 6, 8), k)
		var b strings.Builder
		for _, s := range c.shapes {
			for _, q := range s.points {
				b.WriteString(num(math.Round(q.x)) + "," + num(math.Round(q.y)) + " ")
			}
		}
		seen[b.String()] = true
	}
	if len(seen) != 3 {
		t.Errorf("three colours have %d signs", len(seen))
	}
}

// TestCameraOnMap: the camera stands below and points up when it looks away from
// it, and says which side of the middle it is.
func TestCameraOnMap(t *testing.T) {
	m := smallMark()
	m.Across = -2 * seating.Metre
	p := painted(t, hall(false), "L", m)
	c, err := newChart(told(p), -1)
	if err != nil {
		t.Fatal(err)
	}
	if words := c.cameraWords(); !strings.Contains(words, "2 m to the left of the middle") || !strings.Contains(words, "16 m before the front row") {
		t.Errorf("the map says %q", words)
	}
	p.Stunt.Camera = camera.Mark{Back: 52*seating.Foot + 6*seating.Inch, Height: seating.Metre}
	if words := c.cameraWords(); !strings.Contains(words, "52 ft") && !strings.Contains(words, "52'") && !strings.Contains(words, "in before") {
		t.Errorf("the map says %q", words)
	}
}
