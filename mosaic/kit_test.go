package mosaic

import (
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// tenCues has ten texts in four colours, each as ink and as ground.
func tenCues(sheets ...int) *Stunt {
	s := gullhaven()
	s.Colours[2].Name, s.Colours[2].RGB = "green", colour.RGB{0x1c, 0x8c, 0x4a}
	s.Colours = append(s.Colours, Colour{Name: "red", RGB: colour.RGB{0xc8, 0x1e, 0x2c}, Sheets: -1})
	for c, n := range sheets {
		s.Colours[c].Sheets = n
	}
	s.Cues = nil
	for i, text := range []string{"LAMP", "GO", "SEA", "OUT", "IN", "OH", "BYE", "ON", "UP", "MOON"} {
		ink, ground := (i*3+1)%4, i*i%4
		if ink == ground {
			ink = (ink + 2) % 4
		}
		s.Cues = append(s.Cues, Cue{Text: text, Ink: s.Colours[ink].Name, Ground: s.Colours[ground].Name})
	}
	return s
}

// Sheets and spares are no more than there are, nobody has a card too many, and what more changes the stock
// costs is said.
func TestRepeatedSidesFitTheStock(t *testing.T) {
	s := tenCues()
	free := mustMake(t, s)
	need := make([]int, 4)
	for _, l := range free.Bill.Lines {
		need[l.Colour] = l.Sheets()
	}
	// With just what it takes nothing changes.
	same := mustMake(t, tenCues(need...))
	if same.Figures != free.Figures || same.Figures.Changes != same.Figures.LeastChanges {
		t.Errorf("stock that suffices: %+v, with plenty %+v", same.Figures, free.Figures)
	}
	var told bool
	for _, percent := range []int{98, 90, 75, 60} {
		sheets := slices.Clone(need)
		for c := range sheets {
			sheets[c] = sheets[c] * percent / 100
		}
		s := tenCues(sheets...)
		p, err := Make(s)
		if err != nil {
			t.Logf("%d %%: %v", percent, err)
			continue
		}
		checkLedger(t, p)
		checkStock(t, p)
		for _, l := range p.Bill.Lines {
			if l.Sheets() > sheets[l.Colour] {
				t.Errorf("%d %%: %d sheets of %s, there are %d", percent, l.Sheets(), s.Colours[l.Colour].Name, sheets[l.Colour])
			}
		}
		f := p.Figures
		t.Logf("%d %% of the sheets: error %d, at least %d; %d cards, %d changes, %d with plenty", percent, wholeError(f.Error), wholeError(f.LeastError), f.Cards, f.Changes, f.LeastChanges)
		if f.Changes < f.LeastChanges {
			t.Errorf("%d %%: %+v", percent, f)
		}
		if more := f.Changes > f.LeastChanges; more != strings.Contains(strings.Join(p.Warnings, " "), "for a second card in the same colour") {
			t.Errorf("%d %%: %d changes, %d at least, and it is said: %v", percent, f.Changes, f.LeastChanges, !more)
		} else if more {
			told = true
		}
	}
	if !told {
		t.Error("the stock never costs a change: not a fair choice")
	}
}

// Pictures of scarce colours are no more than twice as far off as the bound, over three marks together: how near the
// bound can be come to differs from picture to picture. What a text's score makes of it afterwards has no such bound.
func TestScarceColoursNearTheBound(t *testing.T) {
	for _, percent := range []int{75, 60} {
		var far, least int64
		for _, back := range []seating.Length{16, 18, 22} {
			s := tenCues()
			s.Camera.Back = back * seating.Metre
			sheets, plenty := make([]int, 4), mustMake(t, s)
			for _, l := range plenty.Bill.Lines {
				sheets[l.Colour] = l.Sheets() * percent / 100
			}
			s = tenCues(sheets...)
			s.Camera.Back = back * seating.Metre
			m := newMaker(mustMake(t, s))
			m.wanted = plenty.colours()
			if err := m.rationBy(m.asks(nil)); err != nil {
				t.Fatal(err)
			}
			f := m.dealt.figures
			t.Logf("%d %% of the sheets, %d m: error %d, at least %d", percent, back, wholeError(f.Error), wholeError(f.LeastError))
			far, least = far+f.Error, least+f.LeastError
		}
		if far > 2*least {
			t.Errorf("%d %%: error %d, at least %d", percent, far, least)
		}
	}
}
