package stuntfile

import (
	"fmt"
	"math"
	"path"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
)

// Version is the version of the file's keys that this package reads.
const Version = 1

// Limits of the picture's sides in pixels: below, nothing can be judged; above, memory.
const (
	minPicture = 64
	maxPicture = 16384
)

// reader makes a stunt of a document.
type reader struct {
	f      *File
	d      *document
	open   func(string) ([]byte, error)
	faults []placed
}

// placed is a fault and where it stands. What is absent comes last: more often than not a
// misspelt key is why. Lines are counted for the one that is said, since a hostile file has many.
type placed struct {
	at         int
	absent     bool
	what, hint string
	beside     *seating.Fault // of a file beside the stunt file, instead
}

func (p placed) before(q placed) bool {
	if p.absent != q.absent {
		return q.absent
	}
	return p.at < q.at
}

func (r *reader) faultAt(at int, what, hint string) {
	r.faults = append(r.faults, placed{at: at, what: what, hint: hint})
}

// faultBeside keeps a fault of a file that the text at offset at names.
func (r *reader) faultBeside(at int, f *seating.Fault) {
	if f.File == "" {
		r.faultAt(at, f.What, f.Hint)
		return
	}
	r.faults = append(r.faults, placed{at: at, beside: f})
}

// first is the fault that stands first in the text, or nil.
func (r *reader) first() error {
	if len(r.faults) == 0 {
		return nil
	}
	best := r.faults[0]
	for _, p := range r.faults[1:] {
		if p.before(best) {
			best = p
		}
	}
	if best.beside != nil {
		return best.beside
	}
	return r.d.fault(best.at, best.what, best.hint)
}

// quote is a value as it is written, cut to what fits into a sentence.
func (r *reader) quote(v *value) string {
	const longest = 30
	text := []rune(string(r.d.text[v.at.from:v.at.to]))
	if i := strings.IndexAny(string(text), "\r\n"); i >= 0 {
		text = append([]rune(string(text)[:i]), '…')
	}
	if len(text) > longest {
		text = append(text[:longest:longest], '…')
	}
	return string(text)
}

// stunt reads the whole document.
func (r *reader) stunt() *mosaic.Stunt {
	s := scope{r, r.d.root}
	st := &mosaic.Stunt{}
	r.version(s)
	s.text("title", &st.Title)
	r.date(s, &st.Date)
	place := 0
	s.choice("place", &place, "indoors", "outdoors")
	st.Outdoors = place == 1
	s.text("contact", &st.Contact)
	if s.number("tempo", &st.Tempo) {
		s.notZero("tempo", st.Tempo == 0)
	}
	s.text("flashing_risk_accepted", &st.FlashingRisk)
	r.stands(s, st)
	r.room(s, st)
	r.cameras(s, st)
	r.card(s, st)
	r.colours(s, st)
	r.cues(s, st)
	r.laying(s, &st.Laying)
	r.print(s, st)
	r.day(s, &st.Day)
	r.people(s, &st.People)
	s.close()
	return st
}

func (r *reader) version(s scope) {
	n := 0
	switch {
	case !s.whole("version", &n):
		if !s.has("version") {
			s.absent("version", fmt.Sprintf("write version = %d in the first line", Version))
		}
	case n != Version:
		r.faultAt(s.find("version").at.from, fmt.Sprintf("version %d is not known here", n),
			fmt.Sprintf("this everyseat reads version = %d", Version))
	}
}

func (r *reader) date(s scope, to *string) {
	if v := s.find("date"); v != nil && v.kind == unstable.LocalDate {
		var t struct{ V toml.LocalDate }
		if toml.Unmarshal([]byte("V = "+v.text), &t) != nil {
			r.faultAt(v.at.from, fmt.Sprintf("there is no date %s", v.text), "year, month, day: 2027-10-02")
		}
		*to = v.text
		return
	}
	s.text("date", to)
}

func (r *reader) room(s scope, st *mosaic.Stunt) {
	room, _ := s.inner("room")
	if v := room.find("walls"); v != nil {
		r.walls(room, v, &st.Room.Walls)
	}
	for _, l := range room.each("lane") {
		var lane seating.Lane
		l.text("name", &lane.Name)
		for _, side := range []struct {
			key string
			to  *seating.Length
		}{{"left", &lane.Left}, {"right", &lane.Right}, {"near", &lane.Near}, {"far", &lane.Far}} {
			if !l.length(side.key, side.to) && !l.has(side.key) {
				l.absent(side.key, `a lane is a rectangle: left, right (across), near, far (away from the camera), such as "-2 m"`)
			}
		}
		l.close()
		st.Stands.Lanes = append(st.Stands.Lanes, lane)
	}
	for _, o := range room.each("obstacle") {
		var ob camera.Obstacle
		o.text("name", &ob.Name)
		if !o.word("kind", &ob.Kind, "box", "post", "hoop") && !o.has("kind") {
			o.absent("kind", `say what it is: kind = "box", "post" or "hoop"`)
		}
		o.length("across", &ob.Across)
		o.length("away", &ob.Away)
		o.length("width", &ob.Width)
		o.length("depth", &ob.Depth)
		o.length("height", &ob.Height)
		o.length("bottom", &ob.Bottom)
		o.close()
		st.Room.Obstacles = append(st.Room.Obstacles, ob)
	}
	for _, e := range room.each("exit") {
		st.Room.Exits = append(st.Room.Exits, r.exit(e))
	}
	for _, c := range room.each("camera") {
		st.Room.Spots = append(st.Room.Spots, r.spot(c))
	}
	room.close()
}

// exit is a door: its middle, and how wide it opens.
func (r *reader) exit(s scope) mosaic.Exit {
	var e mosaic.Exit
	s.text("name", &e.Name)
	for _, side := range []struct {
		key string
		to  *seating.Length
	}{{"across", &e.Across}, {"away", &e.Away}} {
		if !s.length(side.key, side.to) && !s.has(side.key) {
			s.absent(side.key, `an exit is where its middle is: across and away (from the camera), such as "-12 m"`)
		}
	}
	s.measured("width", &e.Width)
	s.close()
	return e
}

// spot is a place where a camera may stand.
func (r *reader) spot(s scope) mosaic.Spot {
	var spot mosaic.Spot
	s.text("name", &spot.Name)
	for _, side := range []struct {
		key string
		to  *seating.Length
	}{{"left", &spot.Left}, {"right", &spot.Right}, {"near", &spot.Near}, {"far", &spot.Far}} {
		if !s.length(side.key, side.to) && !s.has(side.key) {
			s.absent(side.key, `where a camera may stand is a rectangle: left, right (across), near, far (away from the camera), such as "-20 m"`)
		}
	}
	s.lengths("heights", &spot.Heights)
	s.close()
	return spot
}

func (r *reader) walls(s scope, v *value, to *[][2]seating.Length) {
	const hint = `write walls = [["-10 m", "-12 m"], ["10 m", "-12 m"]]: across and away, corner by corner`
	if v.kind != unstable.Array {
		s.wrong(v, "walls", "a list of corners", hint)
		return
	}
	for _, corner := range v.items {
		if corner.kind != unstable.Array || len(corner.items) != 2 {
			s.wrong(corner, "walls", "a list of corners", hint)
			return
		}
		var c [2]seating.Length
		if !s.readLength(corner.items[0], "walls", &c[0]) || !s.readLength(corner.items[1], "walls", &c[1]) {
			return
		}
		*to = append(*to, c)
	}
}

func (r *reader) cameras(s scope, st *mosaic.Stunt) {
	c, there := s.inner("camera")
	if !there && !s.has("camera") {
		s.absent("[camera]", `write [camera] with back = "20 m": how far in front of the stands it is`)
	}
	r.mark(c, &st.Camera, there)
	c.flag("walks", &st.Walks)
	c.close()
	for _, m := range s.each("mark") {
		mark := camera.Mark{Lens: st.Camera.Lens} // the same camera, unless it says otherwise
		m.text("name", &mark.Name)
		r.mark(m, &mark, true)
		m.close()
		st.Marks = append(st.Marks, mark)
	}
}

func (r *reader) mark(s scope, m *camera.Mark, there bool) {
	s.length("across", &m.Across)
	if !s.length("back", &m.Back) && !s.has("back") && there {
		s.absent("back", `write back = "20 m": how far in front of the front row the lens is`)
	}
	s.measured("height", &m.Height)
	r.aim(s, m)
	r.picture(s, &m.Picture)
	r.lens(s, &m.Lens)
}

func (r *reader) aim(s scope, m *camera.Mark) {
	v := s.find("aim")
	if v == nil || v.kind == unstable.String && v.text == "auto" {
		return
	}
	if v.table == nil {
		s.wrong(v, "aim", `"auto" or a place`, `write aim = { across = "0 m", away = "3 m", height = "2 m" }`)
		return
	}
	a := scope{r, v.table}
	var across, away, height seating.Length
	a.length("across", &across)
	a.length("away", &away)
	a.length("height", &height)
	a.close()
	m.Aim = &seating.Point{across.Metres(), away.Metres(), height.Metres()}
}

func (r *reader) picture(s scope, to *[2]int) {
	v := s.find("picture")
	if v == nil {
		return
	}
	var sides [2]int
	ok := v.kind == unstable.Array && len(v.items) == 2
	for i := 0; ok && i < 2; i++ {
		n, whole := integer(v.items[i])
		ok = whole && n >= minPicture && n <= maxPicture
		sides[i] = int(n)
	}
	if !ok {
		s.wrong(v, "picture", fmt.Sprintf("width and height in pixels, each from %d to %d", minPicture, maxPicture),
			"write picture = [3840, 2160]")
		return
	}
	*to = sides
}

// lens reads the one of three ways in which the lens is given.
func (r *reader) lens(s scope, to *camera.Lens) {
	var l camera.Lens
	sensor := r.sensor(s, &l)
	var focal seating.Length
	focals := s.length("lens", &focal)
	l.Focal = millimetres(focal)
	field := s.number("field_of_view", &l.FieldOfView) && s.notZero("field_of_view", l.FieldOfView == 0)
	sees := r.sees(s, &l)
	ways := 0
	for _, given := range []bool{sensor || focals, field, sees} {
		if given {
			ways++
		}
	}
	const one = `give one of: sensor and lens; field_of_view = 65; or the tape test, sees = "6.3 m at 5 m"`
	switch {
	case ways > 1:
		r.faultAt(s.t.at.from, "the lens is given in more than one way", one)
	case sensor && !s.has("lens"):
		s.absent("lens", `write lens = "50 mm" beside sensor`)
	case focals && !s.has("sensor"):
		s.absent("sensor", `write sensor = "36 mm x 24 mm" beside lens`)
	case ways == 1:
		*to = l
	}
}

func millimetres(l seating.Length) float64 { return float64(l) / float64(seating.Millimetre) }

func (r *reader) sensor(s scope, l *camera.Lens) bool {
	v := s.find("sensor")
	if v == nil {
		return false
	}
	sides, err := parseSides(v.text)
	if v.kind != unstable.String || err != nil || len(sides) > 2 {
		s.wrong(v, "sensor", "the size of the sensor", `write sensor = "36 mm x 24 mm"`)
		return false
	}
	l.SensorWidth = millimetres(sides[0])
	if len(sides) == 2 {
		l.SensorHeight = millimetres(sides[1])
	}
	return true
}

func (r *reader) sees(s scope, l *camera.Lens) bool {
	v := s.find("sees")
	if v == nil {
		return false
	}
	width, at, two := strings.Cut(v.text, " at ")
	var err error
	if two {
		if l.Sees, err = seating.ParseLength(strings.TrimSpace(width)); err == nil {
			l.At, err = seating.ParseLength(strings.TrimSpace(at))
		}
	}
	if v.kind != unstable.String || !two || err != nil || l.Sees <= 0 || l.At <= 0 {
		s.wrong(v, "sees", "what fills the frame at a distance", `write sees = "6.3 m at 5 m"`)
		return false
	}
	return true
}

// parseSides reads "36 mm x 24 mm", "8.5 x 11 in" or one length.
func parseSides(text string) ([]seating.Length, error) {
	parts := strings.FieldsFunc(text, func(c rune) bool { return c == 'x' || c == '×' })
	if len(parts) == 0 {
		return nil, fmt.Errorf("no size in %q", text)
	}
	last := strings.TrimSpace(parts[len(parts)-1])
	unit := strings.TrimLeft(last, "0123456789./ ")
	sides := make([]seating.Length, len(parts))
	for i, p := range parts {
		p = strings.TrimSpace(p)
		l, err := seating.ParseLength(p)
		if err != nil {
			l, err = seating.ParseLength(p + unit)
		}
		if err != nil {
			return nil, err
		}
		sides[i] = l
	}
	return sides, nil
}

// sheetSizes are the papers that have a name: ISO 216 and ANSI/ASME Y14.1
// (Legal is customary US office paper).
var sheetSizes = []struct {
	name          string
	width, height seating.Length
}{
	{"Letter", 17 * seating.Inch / 2, 11 * seating.Inch},
	{"Legal", 17 * seating.Inch / 2, 14 * seating.Inch},
	{"Tabloid", 11 * seating.Inch, 17 * seating.Inch},
	{"A3", 297 * seating.Millimetre, 420 * seating.Millimetre},
	{"A4", 210 * seating.Millimetre, 297 * seating.Millimetre},
	{"A5", 148 * seating.Millimetre, 210 * seating.Millimetre},
}

func (r *reader) card(s scope, st *mosaic.Stunt) {
	c, _ := s.inner("card")
	card := &st.Card
	r.cardSize(c, card)
	c.word("orientation", &card.Orientation, "auto", "landscape", "portrait")
	held := 0
	if c.choice("held", &held, "chest", "chin", "eyes", "overhead") {
		card.Held = camera.Chest + camera.Held(held)
	}
	turn := 0
	c.choice("turn", &turn, "section", "mark")
	card.ToMark = turn == 1
	c.word("kind", (*string)(&card.Kind), string(mosaic.Sheet), string(mosaic.Bonded), string(mosaic.Printed))
	c.measured("hand_height", &card.HandHeight)
	c.measured("hand_sideways", &card.HandSideways)
	if c.number("hand_tilt", &card.HandTilt) {
		c.notZero("hand_tilt", card.HandTilt == 0)
	}
	c.close()
}

func (r *reader) cardSize(s scope, card *mosaic.CardSpec) {
	v := s.find("size")
	if v == nil {
		return
	}
	if v.kind == unstable.String {
		for _, n := range sheetSizes {
			if strings.EqualFold(v.text, n.name) {
				card.Width, card.Height = n.width, n.height
				return
			}
		}
		if sides, err := parseSides(v.text); err == nil && len(sides) == 2 {
			card.Width, card.Height = sides[0], sides[1]
			if card.Width > 0 && card.Height > 0 {
				return
			}
		}
	}
	s.wrong(v, "size", "a paper's name or two lengths", `write size = "Letter", size = "A4" or size = "11 in x 14 in"`)
}

func (r *reader) colours(s scope, st *mosaic.Stunt) {
	for _, c := range s.each("colour") {
		col := mosaic.Colour{Sheets: -1}
		if c.text("name", &col.Name) {
			r.colourName(c, col.Name)
		}
		r.hex(c, &col.RGB)
		c.count("sheets", &col.Sheets)
		c.some("pack", &col.Pack)
		r.money(c, "price", &col.PriceCents)
		c.word("darkest_ink", &col.DarkestInk, "black", "white")
		c.close()
		st.Colours = append(st.Colours, col)
	}
}

// none is what painted seats write for no card.
const none = "none"

// colourName refuses what files and the command line could not tell from something else.
func (r *reader) colourName(s scope, name string) {
	at := s.t.byName["name"].val.at.from
	if i := strings.IndexAny(name, "/,:=#\n"); i >= 0 {
		r.faultAt(at, fmt.Sprintf("the colour name %q holds %q", name, name[i]), "use letters, figures and spaces")
	}
	if strings.EqualFold(name, none) {
		r.faultAt(at, fmt.Sprintf("%q means no card and cannot name a colour", name), "choose another name")
	}
}

func (r *reader) hex(s scope, to *colour.RGB) {
	const hint = `write hex = "#12284c": two digits each of red, green and blue, from 00 to ff`
	v := s.find("hex")
	if v == nil {
		s.absent("hex", hint)
		return
	}
	c, err := colour.ParseHex(v.text)
	if v.kind != unstable.String || err != nil {
		s.wrong(v, "hex", "a colour", hint)
		return
	}
	*to = c
}

// money reads 12 or 12.50 in exact cents.
func (r *reader) money(s scope, key string, cents *int) {
	v := s.find(key)
	if v == nil {
		return
	}
	f, ok := real(v)
	c := math.Round(f * 100)
	if !ok || c < 0 || c > maxWhole || math.Abs(f*100-c) > 1e-6 {
		s.wrong(v, key, "a sum of money, in whole cents and without quotes", fmt.Sprintf("write %s = 12.50", key))
		return
	}
	*cents = int(c)
}

func (r *reader) laying(s scope, to *laying.Spec) {
	l, _ := s.inner("laying")
	how, direction, start := 0, 0, 0
	l.choice("how", &how, "lay", "pass")
	to.Pass = how == 1
	l.some("helpers", &to.Helpers)
	l.duration("per_card", &to.PerCard)
	l.duration("per_row", &to.PerRow)
	l.choice("direction", &direction, "left to right", "right to left")
	to.Direction = laying.Direction(direction)
	l.flag("serpentine", &to.Serpentine)
	l.choice("start", &start, "front", "back")
	to.FromBack = start == 1
	l.close()
}

func (r *reader) print(s scope, st *mosaic.Stunt) {
	to := &st.Print
	p, _ := s.inner("print")
	papers := make([]string, len(sheetSizes))
	for i, n := range sheetSizes {
		papers[i] = n.name
	}
	p.word("paper", &to.Paper, papers...)
	p.some("per_sheet", &to.PerSheet)
	r.placards(p, to)
	r.money(p, "toner", &st.Work.TonerCents)
	p.some("white_pack", &st.Work.PaperPack)
	r.money(p, "white_price", &st.Work.PaperCents)
	r.money(p, "wage", &st.Work.WageCents)
	p.close()
}

// placards reads how the placards get onto the paper, and off it.
func (r *reader) placards(p scope, to *mosaic.Print) {
	p.word("placards", (*string)(&to.Placards), string(mosaic.Labels), string(mosaic.OnStock), string(mosaic.FullColoured))
	cut, turn := 0, 0
	p.choice("cut", &cut, "each sheet", "whole pile")
	to.WholePile = cut == 1
	p.choice("turn", &turn, "long edge", "short edge")
	to.ShortEdge = turn == 1
	p.measured("margin", &to.Margin)
	p.flag("tile", &to.Tile)
	if g, there := p.inner("grid"); there {
		to.Grid = labelGrid(g)
	}
	p.flag("bands", &to.Bands)
	if g, there := p.inner("band_grid"); there {
		to.BandGrid = labelGrid(g)
	}
}

// labelGrid reads a sheet of stick-on labels.
func labelGrid(g scope) *mosaic.LabelGrid {
	grid := &mosaic.LabelGrid{}
	const hint = `write grid = { columns = 2, rows = 5, width = "4in", height = "2in", left = "4 mm", top = "0.5in" }`
	for _, n := range []struct {
		key string
		to  *int
	}{{"columns", &grid.Columns}, {"rows", &grid.Rows}} {
		switch read := g.count(n.key, n.to); {
		case !g.has(n.key):
			g.absent(n.key, hint)
		case read && *n.to == 0:
			g.r.faultAt(g.t.byName[n.key].val.at.from, n.key+" cannot be 0", "count the labels of one sheet, side by side and one below the other")
		}
	}
	for _, l := range []struct {
		key string
		to  *seating.Length
	}{{"width", &grid.Width}, {"height", &grid.Height}} {
		if !g.measured(l.key, l.to) && !g.has(l.key) {
			g.absent(l.key, hint)
		}
	}
	g.length("left", &grid.Left)
	g.length("top", &grid.Top)
	g.length("across", &grid.Across)
	g.length("down", &grid.Down)
	g.close()
	return grid
}

func (r *reader) day(s scope, to *mosaic.Day) {
	d, _ := s.inner("day")
	r.clock(d, "doors", &to.Doors)
	r.clock(d, "take", &to.Take)
	d.texts("signs", &to.Signs)
	d.texts("rehearsals", &to.Rehearsals)
	d.texts("keys", &to.Keys)
	d.close()
}

// clock reads a time of day, with or without quotes.
func (r *reader) clock(s scope, key string, to *string) {
	if v := s.find(key); v != nil && v.kind == unstable.LocalTime {
		*to = v.text
		return
	}
	s.text(key, to)
}

// file reads a file that the value v names, beside the stunt file.
func (r *reader) file(v *value, key string) (name string, data []byte, ok bool) {
	name = v.text
	clean := path.Clean(name)
	what := ""
	switch {
	case name == "":
		what = key + " names no file"
	case strings.Contains(name, `\`):
		what = fmt.Sprintf("%s = %q has a backslash", key, name)
	case path.IsAbs(name), len(name) > 1 && name[1] == ':':
		what = fmt.Sprintf("%s = %q is not beside the stunt file", key, name)
	case clean == "..", strings.HasPrefix(clean, "../"):
		what = fmt.Sprintf("%s = %q leads out of the stunt's folder", key, name)
	}
	if what != "" {
		r.faultAt(v.at.from, what, `copy the file into the stunt's folder and write its name, such as "lantern.png" or "pictures/lantern.png"`)
		return "", nil, false
	}
	data, err := r.open(clean)
	if err != nil {
		why, hint := words(err)
		r.faultAt(v.at.from, fmt.Sprintf("%s = %q: %s", key, name, why), hint)
		return "", nil, false
	}
	return clean, data, true
}
