package mosaic

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
	"everyseat/seating/say"
)

// Make plans the stunt. Errors are *seating.Fault with the Key of the stunt file.
// s is not changed, and must not be as long as the plan lives.
func Make(s *Stunt) (*Plan, error) { return MakeContext(context.Background(), s) }

// MakeContext is Make; when ctx ends it stops, and the error is ctx's.
func MakeContext(ctx context.Context, s *Stunt) (*Plan, error) {
	m, err := seatEverybody(s)
	if err != nil {
		return nil, err
	}
	if err := m.look(ctx); err != nil {
		return nil, err
	}
	if err := m.showCues(ctx); err != nil {
		return nil, err
	}
	return m.p, nil
}

// maker is what planning the cues shares.
type maker struct {
	p       *Plan
	cells   [][]camera.Cell  // by mark
	flat    []camera.Cell    // made when a cue asks for it
	palette *colour.Palette  // as well
	index   map[string]int16 // of a colour's name

	judged  [][]*lettering.Field      // by cue, of a text: the fields it is judged by
	painted []map[int32]bool          // by cue: seats painted by hand
	lights  []map[int32]colour.Linear // by cue, of an image where stock is limited: its own light on seats
	wanted  [][]int16                 // by cue and seat: the colours before the stock was looked at
	dealt   *dealt
	samples []sampled // of images
}

// newMaker goes on with a plan, whose marks may have been looked from.
func newMaker(p *Plan) *maker {
	cues := len(p.Stunt.Cues)
	m := &maker{
		p: p, index: map[string]int16{Shirts: None},
		judged: make([][]*lettering.Field, cues), painted: make([]map[int32]bool, cues),
		lights: make([]map[int32]colour.Linear, cues),
	}
	for i, c := range p.Stunt.Colours {
		m.index[c.Name] = int16(i)
	}
	for i := range p.Marks {
		m.cells = append(m.cells, camera.Cells(p.Stands, p.Marks[i].View, p.Marks[i].Sight))
	}
	return m
}

// seatEverybody checks the stunt and builds its stands.
func seatEverybody(s *Stunt) (*maker, error) {
	stunt := Filled(s)
	if err := check(stunt); err != nil {
		return nil, err
	}
	stands, err := seating.Build(stunt.Stands)
	if err != nil {
		return nil, err
	}
	if stands.CountAll().Cards == 0 {
		return nil, &seating.Fault{Key: "section", What: "nobody in these stands holds a card",
			Hint: "leave out cards = false in the sections that show the message"}
	}
	warnings := append(slices.Clone(stands.Warnings), taken(s)...)
	return newMaker(&Plan{Given: s, Stunt: stunt, Stands: stands, Warnings: warnings}), nil
}

// look decides which way round the card is held and looks from every mark.
func (m *maker) look(ctx context.Context) error {
	scene, view, err := m.wayRound()
	if err != nil {
		return err
	}
	m.p.Scene = scene
	m.see(view)
	for _, mark := range m.p.Stunt.Marks {
		if err := ctx.Err(); err != nil {
			return err
		}
		if view, err = camera.NewView(mark, scene); err != nil {
			return err
		}
		m.see(view)
	}
	m.p.Cells = m.cells[0]
	return nil
}

func (m *maker) see(view *camera.View) {
	sight := m.p.Scene.See(view)
	m.p.Marks = append(m.p.Marks, Mark{View: view, Sight: sight})
	m.cells = append(m.cells, camera.Cells(m.p.Stands, view, sight))
}

// showCues gives every seat its colours and cards, and sets the order.
func (m *maker) showCues(ctx context.Context) error {
	p := m.p
	for i := range p.Stunt.Cues {
		if err := ctx.Err(); err != nil {
			return err
		}
		cue, err := m.cue(i)
		if err != nil {
			return err
		}
		p.Cues = append(p.Cues, *cue)
	}
	if err := m.times(); err != nil {
		return err
	}
	if err := m.deal(); err != nil {
		return err
	}
	for i := range p.Cues {
		if err := ctx.Err(); err != nil {
			return err
		}
		p.Cues[i].Delay = m.delays(&p.Stunt.Cues[i])
		m.read(i)
	}
	if err := m.flashes(); err != nil {
		return err
	}
	p.Order = laying.Order(p.Stands, p.Stunt.Laying)
	p.Blocks = blocks(p.Stands)
	m.warnOfAll()
	return m.seatGroups()
}

// To choose between two ways round a coarse look is enough, and the second must
// show so much more than the first, in percent, that chance cannot have done it.
const (
	coarseSamples = 12
	clearlyMore   = 2
)

// wayRound is the scene with the card held so that the camera sees most of it.
func (m *maker) wayRound() (scene *camera.Scene, view *camera.View, err error) {
	p := m.p
	cards := m.orientations()
	var most int64 = -1
	for _, card := range cards {
		at := p.Stunt.Camera.Position()
		s := &camera.Scene{Stands: p.Stands, Card: card, Obstacles: p.Stunt.Room.Obstacles, Mark: &at}
		v, err := camera.NewView(p.Stunt.Camera, s)
		if err != nil || len(cards) == 1 {
			return s, v, err
		}
		shown := pixelsShown(s.SeeWith(v, coarseSamples))
		if most < 0 || shown*100 > most*(100+clearlyMore) {
			scene, view, most = s, v, shown
		}
	}
	return scene, view, nil
}

func pixelsShown(s *camera.Sight) int64 {
	var sum float64
	for _, n := range s.Pixels {
		sum += float64(n)
	}
	return int64(math.Round(sum))
}

// orientations are the ways round that the card may be held. Where the stunt
// leaves it open, a way counts only if neighbours' cards do not overlap; the
// first one is taken where both show alike.
func (m *maker) orientations() []camera.Card {
	spec := m.p.Stunt.Card
	long, short := max(spec.Width, spec.Height), min(spec.Width, spec.Height)
	as := func(width, height seating.Length) camera.Card {
		return camera.Card{Width: width, Height: height, Held: spec.Held, ToMark: spec.ToMark}
	}
	landscape, portrait := as(long, short), as(short, long)
	pitch := seating.Length(math.MaxInt64) // the smallest width that a person with a card has
	for k, sec := range m.p.Stands.Sections {
		if m.p.Stands.Count(k).Cards > 0 {
			pitch = min(pitch, sec.Spec.Pitch)
		}
	}
	ways := []camera.Card{landscape, portrait}
	switch {
	case spec.Orientation == "landscape":
		ways = ways[:1]
	case spec.Orientation == "portrait" || long > pitch:
		ways = ways[1:]
	case long == short:
		return ways[:1]
	default:
		return ways
	}
	if wide := ways[0].Width; wide > pitch {
		m.warn("The card is %s wide and a person has %s: neighbours' cards overlap.", wide, pitch)
	}
	return ways
}

// underKey gives a fault that does not know its place the key it belongs to.
func underKey(err error, key string) error {
	f, ok := errors.AsType[*seating.Fault](err)
	switch {
	case !ok:
		return &seating.Fault{Key: key, What: err.Error()}
	case f.Key != "":
		return f
	}
	g := *f
	g.Key = key
	return &g
}

// cellsFor are the cells in which a cue is laid: the camera's, or those of the plain grid.
func (m *maker) cellsFor(cue *Cue) []camera.Cell {
	if cue.Fit != "flat" {
		return m.cells[0]
	}
	if m.flat == nil {
		m.flat = camera.FlatCells(m.p.Stands)
	}
	return m.flat
}

func (m *maker) warn(format string, a ...any) {
	m.p.Warnings = append(m.p.Warnings, fmt.Sprintf(format, a...))
}

// warnOfAll warns about the plan as it has come out.
func (m *maker) warnOfAll() {
	m.warnOutOfSight()
	if m.p.Stunt.Print.Tile && m.p.SheetsPerCard() == 1 {
		m.warn("tile = true changes nothing: cards are put together of several sheets only where they are printed " +
			"(placards = \"stock\" or \"printed\") and larger than the paper.")
	}
	if m.p.Stunt.Card.Kind == Printed && m.p.Stunt.Print.Placards != FullColoured {
		m.warn("The cards are printed, and no sheet prints them: write placards = \"printed\" under [print], " +
			"unless somebody else makes them.")
	}
	m.warnPaleLetters()
	m.warnAlike()
}

// warnOutOfSight tells which marks do not have everybody in the frame.
func (m *maker) warnOutOfSight() {
	for _, mark := range m.p.Marks {
		outside, behind := 0, 0
		for s := range m.p.Stands.Seats {
			switch {
			case m.p.Stands.Seats[s].Use != seating.UseCard:
			case mark.Sight.Behind[s]:
				behind++
			case !mark.Sight.InFrame[s]:
				outside++
			}
		}
		name := markName(mark.View.Name)
		if outside > 0 {
			m.warn("%s of the cards %s not wholly in the frame of the %s: go farther back, zoom out, "+
				"or leave aim away so that the stands fill the frame.", say.Thousands(outside), say.Are(outside), name)
		}
		if behind > 0 {
			m.warn("%s of the cards %s behind the %s or seen from the back: look at facing of the sections, "+
				"or let them leave the message with cards = false.",
				say.Thousands(behind), say.Are(behind), name)
		}
	}
}

func markName(name string) string {
	if name == "camera" {
		return name
	}
	return fmt.Sprintf("mark %q", name)
}
