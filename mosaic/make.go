package mosaic

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
)

// Make plans the stunt. Errors are *seating.Fault with the Key of the stunt file.
// s is not changed; Plan.Stunt is a copy with the defaults filled in.
func Make(s *Stunt) (*Plan, error) {
	p, err := seatEverybody(s)
	if err != nil {
		return nil, err
	}
	if err := p.look(); err != nil {
		return nil, err
	}
	if err := p.assign(); err != nil {
		return nil, err
	}
	return p, nil
}

// seatEverybody checks the stunt and builds its stands.
func seatEverybody(s *Stunt) (*Plan, error) {
	stunt := filled(s)
	if err := check(stunt); err != nil {
		return nil, err
	}
	stands, err := seating.Build(stunt.Stands)
	if err != nil {
		return nil, err
	}
	if !anyCard(stands) {
		return nil, &seating.Fault{Key: "section", What: "nobody in these stands holds a card", Hint: "leave out cards = false in the sections that show the message"}
	}
	return &Plan{Stunt: stunt, Stands: stands, Warnings: append(slices.Clone(stands.Warnings), taken(s)...), rows: new(rowSight), ways: new(makings), doubts: new(doubts)}, nil
}

// assign gives every seat its colours and cards, and sets the order and the code.
func (p *Plan) assign() error {
	m := newMaker(p)
	p.Cells = m.cells[0]
	for i := range p.Stunt.Cues {
		cue, err := m.cue(i)
		if err != nil {
			return err
		}
		p.Cues = append(p.Cues, *cue)
	}
	if err := p.times(); err != nil {
		return err
	}
	if err := m.deal(); err != nil {
		return err
	}
	for i := range p.Cues {
		p.Cues[i].Delay = p.delays(&p.Stunt.Cues[i])
		m.read(i)
	}
	if err := p.flashes(); err != nil {
		return err
	}
	p.Order = laying.Order(p.Stands, p.Stunt.Laying)
	p.Blocks = blocks(p.Stands)
	p.Warnings = append(p.Warnings, p.cautions()...)
	if err := p.seatGroups(); err != nil {
		return err
	}
	p.Code = code(p)
	return nil
}

func anyCard(stands *seating.Stands) bool {
	for i := range stands.Seats {
		if stands.Seats[i].Use == seating.UseCard {
			return true
		}
	}
	return false
}

// look decides which way round the card is held and looks from every mark.
func (p *Plan) look() error {
	scene, view, err := p.wayRound()
	if err != nil {
		return err
	}
	p.Scene, p.Marks = scene, []Mark{{View: view, Sight: scene.See(view)}}
	for _, m := range p.Stunt.Marks {
		view, err := camera.NewView(m, scene)
		if err != nil {
			return err
		}
		p.Marks = append(p.Marks, Mark{View: view, Sight: scene.See(view)})
	}
	return nil
}

// To choose between two ways round a coarse look is enough, and the second must
// show so much more than the first, in percent, that chance cannot have done it.
const (
	coarseSamples = 12
	clearlyMore   = 2
)

// wayRound is the scene with the card held so that the camera sees most of it.
func (p *Plan) wayRound() (scene *camera.Scene, view *camera.View, err error) {
	cards := p.orientations()
	var most int64 = -1
	for _, card := range cards {
		at := p.Stunt.Camera.Position()
		s := &camera.Scene{Stands: p.Stands, Card: card, Obstacles: p.Stunt.Room.Obstacles, Mark: &at}
		v, err := camera.NewView(p.Stunt.Camera, s)
		if err != nil {
			return nil, nil, err
		}
		if len(cards) == 1 {
			return s, v, nil
		}
		shown := pixelsShown(s.SeeWith(v, coarseSamples))
		if most < 0 || shown*100 > most*(100+clearlyMore) {
			scene, view, most = s, v, shown
		}
	}
	return scene, view, nil
}

// orientations are the ways round that the card may be held. Where the stunt
// leaves it open, a way counts only if neighbours' cards do not overlap; the
// first one is taken where both show alike.
func (p *Plan) orientations() []camera.Card {
	spec := p.Stunt.Card
	long, short := max(spec.Width, spec.Height), min(spec.Width, spec.Height)
	as := func(width, height seating.Length) camera.Card {
		return camera.Card{Width: width, Height: height, Held: spec.Held, ToMark: spec.ToMark}
	}
	landscape, portrait := as(long, short), as(short, long)
	pitch := leastPitch(p.Stands)
	switch {
	case spec.Orientation == "landscape":
		p.warnOverlap(long, pitch)
		return []camera.Card{landscape}
	case spec.Orientation == "portrait" || long > pitch:
		p.warnOverlap(short, pitch)
		return []camera.Card{portrait}
	case long == short:
		return []camera.Card{landscape}
	}
	return []camera.Card{landscape, portrait}
}

func (p *Plan) warnOverlap(width, pitch seating.Length) {
	if width > pitch {
		p.Warnings = append(p.Warnings, fmt.Sprintf("The card is %s wide and a person has %s: neighbours' cards overlap.", width, pitch))
	}
}

// leastPitch is the smallest width a person with a card has.
func leastPitch(stands *seating.Stands) seating.Length {
	least := seating.Length(math.MaxInt64)
	for _, sec := range stands.Sections {
		for i := sec.First; i < sec.Last; i++ {
			if stands.Seats[i].Use == seating.UseCard {
				least = min(least, sec.Spec.Pitch)
				break
			}
		}
	}
	return least
}

func pixelsShown(s *camera.Sight) int64 {
	var sum float64
	for _, n := range s.Pixels {
		sum += float64(n)
	}
	return int64(math.Round(sum))
}

// underKey gives a fault that does not know its place the key it belongs to.
func underKey(err error, key string) error {
	var f *seating.Fault
	if !errors.As(err, &f) {
		return &seating.Fault{Key: key, What: err.Error()}
	}
	if f.Key != "" {
		return f
	}
	g := *f
	g.Key = key
	return &g
}

// maker is what planning the cues shares.
type maker struct {
	p       *Plan
	cells   [][]camera.Cell // by mark
	flat    []camera.Cell   // made when a cue asks for it
	palette *colour.Palette
	index   map[string]int16 // of a colour's name

	judged  [][]*lettering.Field // by cue, of a text: the fields it is judged by
	painted []map[int32]bool     // by cue: seats painted by hand
	lights  [][]lit              // by cue and seat, of an image where stock is limited
	wanted  [][]int16            // by cue and seat: the colours before the stock was looked at
	samples []sampled            // of images
}

func newMaker(p *Plan) *maker {
	cues := len(p.Stunt.Cues)
	m := &maker{
		p: p, judged: make([][]*lettering.Field, cues), painted: make([]map[int32]bool, cues), lights: make([][]lit, cues),
		palette: colour.NewPalette(rgbs(p.Stunt.Colours)), index: map[string]int16{Shirts: None},
	}
	for i, c := range p.Stunt.Colours {
		m.index[c.Name] = int16(i)
	}
	for i := range p.Marks {
		m.cells = append(m.cells, camera.Cells(p.Stands, p.Marks[i].View, p.Marks[i].Sight))
	}
	return m
}

func (m *maker) flatCells() []camera.Cell {
	if m.flat == nil {
		m.flat = camera.FlatCells(m.p.Stands)
	}
	return m.flat
}
