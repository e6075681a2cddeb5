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
