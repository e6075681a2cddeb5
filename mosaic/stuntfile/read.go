package stuntfile

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/people"
)

// Version is the version of the file's keys that this package reads.
const Version = 1

// Limits of the picture's sides in pixels: below, nothing can be judged; above, memory.
const (
	minPicture = 64
	maxPicture = 16384
)

func (r *reader) stunt() *mosaic.Stunt {
	s := r.enter(r.f.doc.root)
	st := &mosaic.Stunt{}
	version := 0
	if s.whole("version", &version) && version != Version {
		s.fault(s.find("version"), fmt.Sprintf("version %d is not known here", version),
			fmt.Sprintf("write version = %d, which this everyseat reads", Version))
	}
	s.must("version", fmt.Sprintf("write version = %d in the first line", Version))
	s.text("title", &st.Title)
	s.bare("date", &st.Date, unstable.LocalDate)
	if v := s.given("date"); v != nil && v.kind == unstable.LocalDate {
		if _, err := decode[toml.LocalDate](v); err != nil {
			s.fault(v, fmt.Sprintf("there is no date %s", v.text), "year, month, day: 2027-10-02")
		}
	}
	s.either("place", &st.Outdoors, "indoors", "outdoors")
	s.text("contact", &st.Contact)
	s.number("tempo", &st.Tempo)
	s.text("flashing_risk_accepted", &st.FlashingRisk)
	r.stands(s, st)
	r.room(s, st)
	r.cameras(s, st)
	r.card(s, &st.Card)
	tables(s, "colour", &st.Colours, r.colour)
	tables(s, "cue", &st.Cues, r.cue)
	r.laying(s, st)
	r.print(s, st)
	r.day(s, &st.Day)
	r.people(s, &st.People)
	for _, t := range r.entered {
		t.close()
	}
	return st
}

func (r *reader) room(s scope, st *mosaic.Stunt) {
	room, _ := s.inner("room")
	if v := room.find("walls"); v != nil {
		const want = "a list of corners"
		const hint = `write walls = [["-10 m", "-12 m"], ["10 m", "-12 m"]]: across and away, corner by corner`
		list(v, "walls", &st.Room.Walls, func(corner *value, key string, to *[2]seating.Length) bool {
			if corner.kind != unstable.Array || len(corner.items) != 2 {
				room.wrong(corner, key, want, hint)
				return false
			}
			return room.readLength(corner.items[0], key, &to[0]) && room.readLength(corner.items[1], key, &to[1])
		})
	}
	tables(room, "lane", &st.Stands.Lanes, func(l scope, lane *seating.Lane) {
		l.text("name", &lane.Name)
		l.allSides(`a lane is a rectangle: left, right (across), near, far (away from the camera), such as "-2 m"`,
			side{"left", &lane.Left}, side{"right", &lane.Right}, side{"near", &lane.Near}, side{"far", &lane.Far})
	})
	tables(room, "obstacle", &st.Room.Obstacles, func(o scope, ob *camera.Obstacle) {
		o.text("name", &ob.Name)
		word(o, "kind", &ob.Kind, "box", "post", "hoop")
		o.must("kind", `say what it is: kind = "box", "post" or "hoop"`)
		o.sides(side{"across", &ob.Across}, side{"away", &ob.Away}, side{"width", &ob.Width}, side{"depth", &ob.Depth},
			side{"height", &ob.Height}, side{"bottom", &ob.Bottom})
	})
	tables(room, "exit", &st.Room.Exits, func(e scope, exit *mosaic.Exit) {
		e.text("name", &exit.Name)
		e.allSides(`an exit is where its middle is: across and away (from the camera), such as "-12 m"`,
			side{"across", &exit.Across}, side{"away", &exit.Away})
		e.measured("width", &exit.Width)
	})
	tables(room, "camera", &st.Room.Spots, func(c scope, spot *mosaic.Spot) {
		c.text("name", &spot.Name)
		c.allSides("where a camera may stand is a rectangle: left, right (across), near, far (away from the camera), "+
			`such as "-20 m"`,
			side{"left", &spot.Left}, side{"right", &spot.Right}, side{"near", &spot.Near}, side{"far", &spot.Far})
		c.lengths("heights", &spot.Heights)
	})
}

func (r *reader) cameras(s scope, st *mosaic.Stunt) {
	c, there := s.inner("camera")
	if s.given("camera") == nil {
		s.absent("[camera]", `write [camera] with back = "20 m": how far in front of the stands it is`)
	}
	r.mark(c, &st.Camera, there)
	c.flag("walks", &st.Walks)
	tables(s, "mark", &st.Marks, func(m scope, mark *camera.Mark) {
		mark.Lens = st.Camera.Lens // the same camera, unless it says otherwise
		m.text("name", &mark.Name)
		r.mark(m, mark, true)
	})
}

func (r *reader) mark(s scope, m *camera.Mark, there bool) {
	s.length("across", &m.Across)
	s.length("back", &m.Back)
	if there {
		s.must("back", `write back = "20 m": how far in front of the front row the lens is`)
	}
	s.measured("height", &m.Height)
	read(s, "aim", &m.Aim, `"auto" or a place`, `write aim = { across = "0 m", away = "3 m", height = "2 m" }`,
		func(v *value) (*seating.Point, bool) {
			if v.table == nil {
				return nil, v.auto()
			}
			var across, away, height seating.Length
			r.enter(v.table).sides(side{"across", &across}, side{"away", &away}, side{"height", &height})
			return &seating.Point{across.Metres(), away.Metres(), height.Metres()}, true
		})
	read(s, "picture", &m.Picture,
		fmt.Sprintf("width and height in pixels, each from %d to %d", minPicture, maxPicture),
		"write picture = [3840, 2160]", func(v *value) ([2]int, bool) {
			sides, ok := two(v, integer, minPicture, maxPicture)
			return [2]int{int(sides[0]), int(sides[1])}, ok
		})
	r.lens(s, &m.Lens)
}

// lens reads the one of three ways in which the lens is given.
func (r *reader) lens(s scope, to *camera.Lens) {
	var l camera.Lens
	var sides, tape [2]seating.Length
	sensor := read(s, "sensor", &sides, "the size of the sensor", `write sensor = "36 mm x 24 mm"`,
		func(v *value) (both [2]seating.Length, ok bool) {
			sides, err := parseSides(v.text)
			return both, v.kind == unstable.String && err == nil && copy(both[:], sides) == len(sides)
		})
	l.SensorWidth, l.SensorHeight = millimetres(sides[0]), millimetres(sides[1])
	var focal seating.Length
	focals := s.length("lens", &focal)
	l.Focal = millimetres(focal)
	field := s.number("field_of_view", &l.FieldOfView)
	sees := read(s, "sees", &tape, "what fills the frame at a distance", `write sees = "6.3 m at 5 m"`,
		func(v *value) ([2]seating.Length, bool) {
			width, at, _ := strings.Cut(v.text, " at ")
			wide, err := seating.ParseLength(strings.TrimSpace(width))
			far, err2 := seating.ParseLength(strings.TrimSpace(at))
			return [2]seating.Length{wide, far},
				v.kind == unstable.String && err == nil && err2 == nil && wide > 0 && far > 0
		})
	l.Sees, l.At = tape[0], tape[1]
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
	case sensor && !focals:
		s.must("lens", `write lens = "50 mm" beside sensor`)
	case focals && !sensor:
		s.must("sensor", `write sensor = "36 mm x 24 mm" beside lens`)
	case ways == 1:
		*to = l
	}
}

func millimetres(l seating.Length) float64 { return float64(l) / float64(seating.Millimetre) }

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

func (r *reader) card(s scope, card *mosaic.CardSpec) {
	c, _ := s.inner("card")
	size := [2]seating.Length{card.Width, card.Height}
	read(c, "size", &size, "a paper's name or two lengths",
		`write size = "Letter", size = "A4" or size = "11 in x 14 in"`,
		func(v *value) (both [2]seating.Length, ok bool) {
			if v.kind != unstable.String || v.text == "" {
				return both, false
			}
			if paper, err := mosaic.LookUpPaper(v.text); err == nil {
				return [2]seating.Length{paper.Width, paper.Height}, true
			}
			sides, err := parseSides(v.text)
			copy(both[:], sides)
			return both, err == nil && len(sides) == 2 && min(both[0], both[1]) > 0
		})
	card.Width, card.Height = size[0], size[1]
	word(c, "orientation", &card.Orientation, "auto", "landscape", "portrait")
	if held := camera.Held(0); choice(c, "held", &held, "chest", "chin", "eyes", "overhead") {
		card.Held = camera.Chest + held
	}
	c.either("turn", &card.ToMark, "section", "mark")
	word(c, "kind", &card.Kind, mosaic.Sheet, mosaic.Bonded, mosaic.Printed)
	c.measured("hand_height", &card.HandHeight)
	c.measured("hand_sideways", &card.HandSideways)
	c.number("hand_tilt", &card.HandTilt)
}

// none is what painted seats write for no card.
const none = "none"

func (r *reader) colour(c scope, col *mosaic.Colour) {
	if c.text("name", &col.Name) { // files and the command line must tell it from something else
		v := c.given("name")
		if i := strings.IndexAny(col.Name, "/,:=#\n"); i >= 0 {
			c.fault(v, fmt.Sprintf("the colour name %q holds %q", col.Name, col.Name[i]),
				"use letters, figures and spaces")
		}
		if strings.EqualFold(col.Name, none) {
			c.fault(v, fmt.Sprintf("%q means no card and cannot name a colour", col.Name), "choose another name")
		}
	}
	const hint = `write hex = "#12284c": two digits each of red, green and blue, from 00 to ff`
	read(c, "hex", &col.RGB, "a colour", hint, func(v *value) (colour.RGB, bool) {
		rgb, err := colour.ParseHex(v.text)
		return rgb, v.kind == unstable.String && err == nil
	})
	c.must("hex", hint)
	col.Sheets = -1
	c.count("sheets", &col.Sheets)
	c.some("pack", &col.Pack)
	c.money("price", &col.PriceCents)
	c.flag("no_more", &col.NoMore)
	if v := c.given("no_more"); v != nil && v.kind == unstable.Bool && !col.NoMore && col.Pack == 0 {
		c.fault(v, "no_more = false, and nothing says how more is bought",
			"write pack = 50 beside it: how many sheets a pack has, 1 where they are sold singly")
	}
	word(c, "darkest_ink", &col.DarkestInk, "black", "white")
}

func (r *reader) laying(s scope, st *mosaic.Stunt) {
	to := &st.Laying
	l, _ := s.inner("laying")
	l.either("how", &to.Pass, "lay", "pass")
	l.some("helpers", &to.Helpers)
	l.duration("per_card", &to.PerCard)
	l.duration("per_row", &to.PerRow)
	choice(l, "direction", &to.Direction, "left to right", "right to left")
	l.flag("serpentine", &to.Serpentine)
	l.either("start", &to.FromBack, "front", "back")
}

func (r *reader) print(s scope, st *mosaic.Stunt) {
	to := &st.Print
	p, _ := s.inner("print")
	papers := make([]string, len(mosaic.PaperSizes))
	for i, n := range mosaic.PaperSizes {
		papers[i] = n.Name
	}
	word(p, "paper", &to.Paper, papers...)
	p.some("per_sheet", &to.PerSheet)
	word(p, "placards", &to.Placards, mosaic.Labels, mosaic.OnStock, mosaic.FullColoured)
	p.either("cut", &to.WholePile, "each sheet", "whole pile")
	p.either("turn", &to.ShortEdge, "long edge", "short edge")
	p.measured("margin", &to.Margin)
	p.flag("tile", &to.Tile)
	labelGrid(p, "grid", &to.Grid)
	p.flag("bands", &to.Bands)
	labelGrid(p, "band_grid", &to.BandGrid)
	p.money("toner", &st.Work.TonerCents)
	p.some("white_pack", &st.Work.PaperPack)
	p.money("white_price", &st.Work.PaperCents)
	p.money("wage", &st.Work.WageCents)
}

// labelGrid reads a sheet of stick-on labels.
func labelGrid(s scope, key string, to **mosaic.LabelGrid) {
	g, there := s.inner(key)
	if !there {
		return
	}
	grid := &mosaic.LabelGrid{}
	*to = grid
	const hint = `write grid = { columns = 2, rows = 5, width = "4in", height = "2in", left = "4 mm", top = "0.5in" }`
	for _, n := range []struct {
		key string
		to  *int
	}{{"columns", &grid.Columns}, {"rows", &grid.Rows}} {
		if g.count(n.key, n.to) && *n.to == 0 {
			g.fault(g.given(n.key), n.key+" cannot be 0",
				"count the labels of one sheet, side by side and one below the other")
		}
		g.must(n.key, hint)
	}
	g.measured("width", &grid.Width)
	g.must("width", hint)
	g.measured("height", &grid.Height)
	g.must("height", hint)
	g.sides(side{"left", &grid.Left}, side{"top", &grid.Top}, side{"across", &grid.Across}, side{"down", &grid.Down})
}

func (r *reader) day(s scope, to *mosaic.Day) {
	d, _ := s.inner("day")
	d.bare("doors", &to.Doors, unstable.LocalTime)
	d.bare("take", &to.Take, unstable.LocalTime)
	d.bare("from", &to.From, unstable.LocalTime)
	d.bare("until", &to.Until, unstable.LocalTime)
	d.texts("signs", &to.Signs)
	d.texts("rehearsals", &to.Rehearsals)
	d.texts("keys", &to.Keys)
}

// people reads who comes: [people] with its roster, and every [[group]].
func (r *reader) people(s scope, to *mosaic.People) {
	p, _ := s.inner("people")
	p.file("roster", func(name string, data []byte) (err error) {
		to.RosterName = name
		to.Roster, err = people.Read(name, data)
		return err
	})
	p.flag("names", &to.Names)
	p.text("held_by", &to.HeldBy)
	p.some("per_minute", &to.PerMinute)
	word(p, "wear", &to.Wear, mosaic.Mixed, mosaic.Dark, mosaic.Light)
	tables(s, "group", &to.Groups, func(g scope, party *people.Party) {
		g.text("name", &party.Name)
		g.some("people", &party.People)
		g.count("wheelchairs", &party.Wheelchairs)
		g.count("companions", &party.Companions)
		g.count("not_filmed", &party.Unfilmed)
		g.text("leader", &party.Leader)
		g.text("room", &party.Room)
		g.text("door", &party.Door)
		g.bare("time", &party.Time, unstable.LocalTime)
	})
}
