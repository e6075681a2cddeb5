package outlook

import (
	"context"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"everyseat/mosaic"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/people"
	"everyseat/testdata/fair"
)

func quiet(string) {}

// of works parts out.
func of(t testing.TB, p *mosaic.Plan, parts Part) *Outlook {
	t.Helper()
	o, err := Of(t.Context(), p, parts, quiet)
	if err != nil || o.Has != parts {
		t.Fatalf("%b of %b is worked out: %v", o.Has, parts, err)
	}
	return o
}

// doubtful is a stunt of which every part of the outlook has something to say: its last text is too long, and it has a
// picture, prices, two marks, a low camera before a board and groups that leave seats free.
func doubtful() *mosaic.Stunt {
	s := fair.Crowded()
	for i := range s.Colours {
		s.Colours[i].Pack, s.Colours[i].PriceCents = 50, 1199
	}
	s.Colours[2].RGB = s.Colours[1].RGB
	s.Colours[2].RGB[2] -= 60
	s.Cues = append(s.Cues, mosaic.Cue{Text: "LANTERNS"})
	s.Marks = []camera.Mark{{Name: "gallery", Across: -3 * seating.Metre, Back: 20 * seating.Metre, Height: 5 * seating.Metre}}
	s.Camera.Height, s.Card.Held = 160*seating.Centimetre, camera.Chin
	s.Room.Obstacles = []camera.Obstacle{{Name: "board", Kind: "box", Away: -seating.Metre, Width: 4 * seating.Metre, Depth: 5 * seating.Centimetre, Height: 16 * seating.Metre / 10}}
	s.People.Groups = []people.Party{{Name: "harbour choir", People: 300}}
	return s
}

// only leaves the parts of an outlook that are asked for.
func only(o *Outlook, parts Part) *Outlook {
	out := &Outlook{Has: parts, Cues: make([]Cue, len(o.Cues))}
	for _, take := range []struct {
		of  Part
		get func()
		cue func(to, from *Cue)
	}{
		{Fewer, func() { out.Trim, out.Few = o.Trim, o.Few }, func(to, from *Cue) { to.Trimmed = from.Trimmed }},
		{Unwanted, nil, func(to, from *Cue) { to.Planned, to.Unwanted = from.Planned, from.Unwanted }},
		{Stray, func() { out.Stray = o.Stray }, nil},
		{Rows, func() { out.Hidden, out.Vanish = o.Hidden, o.Vanish }, nil},
		{Light, func() { out.Light = o.Light }, nil},
		{Ways, func() { out.Bills, out.Cheapest = o.Bills, o.Cheapest }, nil},
		{Marks, func() { out.Marks = o.Marks }, nil},
		{Phone, nil, func(to, from *Cue) { to.Phone, to.Pixels = from.Phone, from.Pixels }},
		{Day, nil, func(to, from *Cue) { to.Day = from.Day }},
		{Falls, nil, func(to, from *Cue) { to.Falls, to.Matter = from.Falls, from.Matter }},
		{Sizes, nil, func(to, from *Cue) { to.Sizes = from.Sizes }},
		{Advice, func() { out.Advice = o.Advice }, nil},
	} {
		if take.of&parts == 0 {
			continue
		}
		if take.get != nil {
			take.get()
		}
		for i := range o.Cues {
			if take.cue != nil {
				take.cue(&out.Cues[i], &o.Cues[i])
			}
		}
	}
	return out
}

// whole lets plans and outlooks be compared with all that they hold.
var whole = cmp.Exporter(func(reflect.Type) bool { return true })

// Each part asked for alone is the same part of all, and nothing but that; a picture has nothing for a cue. The plan
// is what it was.
func TestPartsAlone(t *testing.T) {
	p := fair.Plan(t, doubtful())
	all := of(t, p, All)
	for _, v := range []reflect.Value{reflect.ValueOf(*all), reflect.ValueOf(all.Cues[0])} {
		for i := range v.NumField() {
			if v.Field(i).IsZero() {
				t.Errorf("the stunt says nothing of %s: ask for more doubts", v.Type().Field(i).Name)
			}
		}
	}
	if d := cmp.Diff(Cue{}, all.Cues[1]); d != "" {
		t.Errorf("a picture has no letters: %s", d)
	}
	if d := cmp.Diff(only(all, All), all, whole); d != "" {
		t.Errorf("what belongs to no part: %s", d)
	}
	for part := Part(1); part&All != 0; part <<= 1 {
		if d := cmp.Diff(only(all, part), of(t, p, part), whole); d != "" {
			t.Errorf("part %b alone: %s", part, d)
		}
	}
	if d := cmp.Diff(fair.Plan(t, doubtful()), p, whole); d != "" {
		t.Errorf("the plan was changed: %s", d)
	}
}

// Who asks for nothing gets nothing, told of nothing: this plan is hollow, and whoever looks into it falls.
func TestNoPartCostsNothing(t *testing.T) {
	hollow := &mosaic.Plan{Cues: []mosaic.CuePlan{{Text: new(lettering.Layout)}, {}}}
	told := func(doing string) { t.Errorf("it is %s", doing) }
	var o *Outlook
	var err error
	pieces := testing.AllocsPerRun(10, func() { o, err = Of(t.Context(), hollow, 0, told) })
	if d := cmp.Diff(&Outlook{Cues: make([]Cue, 2)}, o, whole); d != "" || err != nil || pieces > 20 {
		t.Errorf("%v, %v pieces of memory: %s", err, pieces, d)
	}
}

// It stops when its context ends: before, and at whatever it is just doing.
func TestStops(t *testing.T) {
	p := fair.Plan(t, doubtful())
	for stopAt := 0; ; stopAt++ {
		ctx, stop := context.WithCancel(t.Context())
		if stopAt == 0 {
			stop()
		}
		told := 0
		_, err := Of(ctx, p, All, func(string) {
			if told++; told == stopAt {
				stop()
			}
		})
		stop()
		if told < stopAt { // it was over before
			if err != nil || stopAt < 4 {
				t.Errorf("told of %d steps: %v", told, err)
			}
			return
		}
		if err != context.Canceled || told > stopAt {
			t.Errorf("stopped at step %d: %v after %d steps", stopAt, err, told)
		}
	}
}
