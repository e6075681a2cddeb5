package tables

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"everyseat/mosaic/brief"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
)

// Limits of a plan.json that ReadPlan takes: 100,000 seats with a few cues are about 60 MB.
const (
	MaxPlanBytes = 256 << 20
	MaxPlanSeats = 200_000
)

// PlanFile is plan.json as a program reads it. Places are metres in world
// axes, corners pixels; see PlanJSON.
type PlanFile struct {
	Version int          `json:"version"`
	Code    string       `json:"code"`
	Title   string       `json:"title"`
	Picture [2]int       `json:"picture"`
	Camera  PlanCamera   `json:"camera"`
	Marks   []PlanMark   `json:"marks"`
	Palette []PlanColour `json:"palette"`
	Seats   []PlanSeat   `json:"seats"`
	Cues    []PlanCue    `json:"cues"`
	Cards   []PlanCard   `json:"cards"`
	Hands   [][]PlanHold `json:"hands"` // by seat, then cue
}

// PlanCamera is a pinhole camera: X_cam = R·(P − position), u = cx + f·X/Z, v = cy + f·Y/Z.
type PlanCamera struct {
	Position [3]float64    `json:"position"`
	Rotation [3][3]float64 `json:"rotation"`
	Focal    float64       `json:"focal_px"`
	Center   [2]float64    `json:"center"`
}

// PlanMark is one mark: what it sees of every seat and how each cue scores.
type PlanMark struct {
	Name    string     `json:"name"`
	Picture [2]int     `json:"picture"`
	Camera  PlanCamera `json:"camera"`
	Visible []float64  `json:"visible"`
	Scores  []float64  `json:"scores"`
}

// PlanColour is one colour of the palette.
type PlanColour struct {
	Name string `json:"name"`
	Hex  string `json:"hex"`
}

// PlanSeat is one seat; Card and Corners are empty where it holds no card.
type PlanSeat struct {
	ID       string       `json:"id"`
	Section  string       `json:"section"`
	Row      string       `json:"row"`
	Seat     int          `json:"seat"`
	Use      string       `json:"use"`
	Block    string       `json:"block"`
	Position [3]float64   `json:"position"`
	Card     [][3]float64 `json:"card"`
	Corners  [][2]float64 `json:"corners"`
	Visible  float64      `json:"visible"`
	Pixels   float64      `json:"pixels"`
}

// PlanCue is one cue; Colours are palette indices by seat, −1 where a seat shows none.
type PlanCue struct {
	Name       string             `json:"name"`
	At         string             `json:"at"`
	Colours    []int              `json:"colours"`
	Legibility legibility.Reading `json:"legibility"`
}

// PlanCard is one kind of card and the palette indices of its sides.
type PlanCard struct {
	ID    string `json:"id"`
	Sides [2]int `json:"sides"`
}

// PlanHold is a card of PlanFile.Cards and its side; the card is −1 where none is shown.
type PlanHold [2]int

// ReadPlan reads a plan.json. Whatever it gives back is whole: every list
// by seat has an entry a seat, and every index points into its list. Errors are
// *seating.Fault; the caller adds the file's name.
func ReadPlan(r io.Reader) (*PlanFile, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxPlanBytes+1))
	if err != nil {
		return nil, &seating.Fault{What: "the plan cannot be read: " + err.Error(), Hint: "build the stunt again"}
	}
	if len(data) > MaxPlanBytes {
		return nil, badPlan("it is larger than %d MiB", MaxPlanBytes>>20)
	}
	var f PlanFile
	if err := json.Unmarshal(data, &f); err != nil {
		if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
			return nil, badPlan("broken after %d bytes", syntax.Offset)
		}
		if kind, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
			return nil, badPlan("%s holds a %s", kind.Field, kind.Value)
		}
		return nil, badPlan("broken")
	}
	if err := f.check(); err != nil {
		return nil, err
	}
	return &f, nil
}

func badPlan(why string, numbers ...any) error {
	return &seating.Fault{
		What: "this is no plan that build wrote: " + fmt.Sprintf(why, numbers...),
		Hint: "run build again and take its plan.json",
	}
}

// Printed is what the plan gives its seats.
func (f *PlanFile) Printed() *brief.Printed {
	p := &brief.Printed{Code: f.Code, Seats: make(map[string]brief.Given, len(f.Seats))}
	for i := range f.Seats {
		s := &f.Seats[i]
		g := brief.Given{Row: s.Section + "-" + s.Row, Shows: make([]string, len(f.Cues))}
		for cue, h := range f.Hands[i] {
			if h[0] < 0 {
				continue
			}
			card := &f.Cards[h[0]]
			if !slices.Contains(g.Cards, card.ID) {
				g.Cards = append(g.Cards, card.ID)
			}
			g.Shows[cue] = f.Palette[card.Sides[h[1]]].Name
		}
		p.Seats[s.ID] = g
	}
	return p
}

// check holds all lists against each other.
func (f *PlanFile) check() error {
	n := len(f.Seats)
	switch {
	case f.Version != PlanVersion:
		return badPlan("its version is %d, not %d", f.Version, PlanVersion)
	case n > MaxPlanSeats:
		return badPlan("it has %d seats, more than %d", n, MaxPlanSeats)
	case len(f.Marks) == 0:
		return badPlan("it has no mark")
	case len(f.Hands) != n:
		return badPlan("it has %d seats and hands for %d", n, len(f.Hands))
	}
	for i := range f.Marks {
		if len(f.Marks[i].Visible) != n {
			return badPlan("marks[%d] sees %d of %d seats", i, len(f.Marks[i].Visible), n)
		}
	}
	for i := range f.Seats {
		if c := len(f.Seats[i].Card); c != 0 && c != 4 {
			return badPlan("seats[%d].card has %d corners", i, c)
		}
		if c := len(f.Seats[i].Corners); c != 0 && c != 4 {
			return badPlan("seats[%d].corners has %d corners", i, c)
		}
	}
	for i := range f.Cues {
		colours := f.Cues[i].Colours
		if len(colours) != n {
			return badPlan("cues[%d] has colours for %d of %d seats", i, len(colours), n)
		}
		for _, c := range colours {
			if c < -1 || c >= len(f.Palette) {
				return badPlan("cues[%d] names colour %d of %d", i, c, len(f.Palette))
			}
		}
	}
	for i, c := range f.Cards {
		for _, side := range c.Sides {
			if side < 0 || side >= len(f.Palette) {
				return badPlan("cards[%d] names colour %d of %d", i, side, len(f.Palette))
			}
		}
	}
	for i, hand := range f.Hands {
		if len(hand) != len(f.Cues) {
			return badPlan("hands[%d] has %d cues of %d", i, len(hand), len(f.Cues))
		}
		for _, h := range hand {
			if h[0] < -1 || h[0] >= len(f.Cards) || h[1] < 0 || h[1] > 1 {
				return badPlan("hands[%d] names card %d, side %d", i, h[0], h[1])
			}
		}
	}
	return nil
}
