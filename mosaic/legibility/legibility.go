// Package legibility says whether a message reads in the picture that the
// camera would record, with people missing, a few wrong cards and uneven hands.
// Start with Judge; NewCanvas and Canvas.Score are the same measure for whoever
// searches for a better layout.
package legibility

// Verdict is what people are told.
type Verdict string

// The verdicts. "picture" is for cues without text, which nobody can spell.
const (
	Reads       Verdict = "reads"
	Marginal    Verdict = "marginal"
	DoesNotRead Verdict = "does not read"
	Picture     Verdict = "picture"
)

// VerdictOf is the verdict that goes with a score, 0…1.
func VerdictOf(score float64) Verdict {
	switch {
	case score >= readsFrom:
		return Reads
	case score < failsTo:
		return DoesNotRead
	}
	return Marginal
}

// Says is the verdict after "it": "it reads", "it is marginal".
func (v Verdict) Says() string {
	if v == Marginal {
		return "is marginal"
	}
	return string(v)
}

// Letter is how one letter reads.
type Letter struct {
	Letter string  `json:"letter"`
	Margin float64 `json:"margin"` // right letter's likeness minus the nearest rival's
	Rival  string  `json:"rival"`
	Why    string  `json:"why,omitempty"`
}

// Reading is the judgement of one cue from one mark.
type Reading struct {
	Score   float64  `json:"score"` // 0…1
	Verdict Verdict  `json:"verdict"`
	Letters []Letter `json:"letters"`
	EmptyOK float64  `json:"empty_ok"` // largest share of empty seats at which it still reads
	WrongOK float64  `json:"wrong_ok"`
}

// Seat is one seat that may carry the text, as one view sees it. All places are pixels.
type Seat struct {
	Index   int32 // the seat's index in the stands
	Section int32 // sections, rows and places order as in package seating
	Row     int32
	Place   int32
	Cell    [4][2]float64 // the part of the picture the seat answers for, from top-left clockwise
	Card    [4][2]float64 // corners of the card in the picture
	Centre  [2]float64    // middle of what is seen of the card
	Seen    float64       // share of the card that is seen, 0…1
	Pixels  float64       // area seen
	Column  [2]float64    // left and right of where its column crosses the middle row of its section; zero = not known
}

// Field is the seats that may carry the text as one mark sees them, sorted by
// section, row and place, and the size of the picture in pixels.
type Field struct {
	Seats         []Seat
	Width, Height float64
}

// rows are the rows of the field, first and last + 1.
func (f *Field) rows() (out [][2]int) {
	for i := 0; i < len(f.Seats); {
		n := i
		for n < len(f.Seats) && f.Seats[n].Row == f.Seats[i].Row && f.Seats[n].Section == f.Seats[i].Section {
			n++
		}
		out = append(out, [2]int{i, n})
		i = n
	}
	return out
}

// Options is what the reading depends on beside the seats.
type Options struct {
	Empty float64 // share of people expected to be missing
	Wrong float64 // share of cards expected to be wrong
	// Error of hand in metres and radians, one standard deviation, and the card's size in metres.
	HandHeight, HandSideways, HandTilt float64
	CardWidth, CardHeight              float64
	Seed                               uint64
	Crowd                              Crowd
	Tints                              []Tint // by Field seat, where cards show more than ink and ground
}

// Crowd is how what lies between the cards looks beside them, clothes and skin and seats: 0 like the ground, 1 like the
// ink. Its mean says which of the two it is taken for, its spread, one standard deviation, how restless it is; and
// which shares of it pass for a card of the ink's or of the ground's colour.
type Crowd struct{ Mean, Spread, Ink, Ground float64 }

// OftenWorn is the share from which people count as wearing a colour (ours, no source).
const OftenWorn = 0.15

// Tint is what a card shows beside ink or ground: a label on part of it, or a colour that is neither.
type Tint struct {
	Share float32 // of the card's area, 0…1
	Level float32 // 0 looks like the ground, 1 like the ink
}

// Under is the tint with a share of the card under something else that looks like level.
func (t Tint) Under(share, level float32) Tint {
	rest := float32(t.Share * (1 - share))
	all := rest + share
	if all == 0 {
		return t
	}
	return Tint{Share: all, Level: (float32(rest*t.Level) + float32(share*level)) / all}
}

// level is what seat i shows, 0 ground to 1 ink, where its card is of this side.
func level(tints []Tint, i int, inked bool) float32 {
	var side float32
	if inked {
		side = 1
	}
	if tints == nil {
		return side
	}
	t := &tints[i]
	return float32((1-t.Share)*side) + float32(t.Share*t.Level)
}

// Glyph is one letter of the text and its box in the main picture.
type Glyph struct {
	Rune rune
	Box  [4]float64 // left, top, right, bottom of the ink, pixels of views[0]
}
