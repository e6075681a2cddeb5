package brief

import (
	"fmt"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Wording is how many words a cue takes on a label.
type Wording uint8

// The wordings.
const (
	InFull  Wording = iota // Cue 2 at count 33, “GLOW”: show CREAM (card NAVY/CREAM, side B)
	InShort                // Cue 2 at count 33: show CREAM (card NAVY/CREAM, side B)
	InSigns                // 2 count 33: CREAM (N/C side B), by the letters on the patches
)

// Act is what somebody does at a cue: what to hold and, where it comes up as a wave, when and after whom.
type Act struct {
	mosaic.Hold
	Halves int // half seconds after the call UP; −1 = at the call, with everybody
	After  Lead
}

// Lead is whom somebody follows in a wave.
type Lead uint8

const (
	Nobody Lead = iota
	rightHand
	leftHand
	rowInFront
)

// leads are said so, and where there is little room so.
var (
	leads = [...]string{Nobody: "", rightHand: ": follow the card at your right hand",
		leftHand: ": follow the card at your left hand", rowInFront: ": follow the row in front of you"}
	shortLeads = [...]string{Nobody: "", rightHand: ", follow your right", leftHand: ", follow your left",
		rowInFront: ", follow the row in front"}
)

const halfSecond = 500 * time.Millisecond

// ActOf is what a seat does at a cue.
func ActOf(p *mosaic.Plan, cue int, seat int32) Act {
	a := Act{Hold: p.Hands[cue][seat], Halves: -1}
	delay := p.Cues[cue].Delay
	if delay == nil {
		return a
	}
	// Left and right are the other way round for who faces the camera.
	row := &p.Stands.Sections[p.Stands.Seats[seat].Section].Rows[p.Stands.Seats[seat].Row]
	earlier := func(s int32) bool {
		return int(s) >= row.First && int(s) < row.Last && p.Stands.Seats[s].Use == seating.UseCard &&
			delay[s] < delay[seat]
	}
	a.Halves = int((delay[seat] + halfSecond/2) / halfSecond)
	switch how := p.Stunt.Cues[cue].Transition; {
	case a.Halves == 0:
	case how == mosaic.BottomToTop || how == mosaic.RowByRow:
		a.After = rowInFront
	case earlier(seat - 1):
		a.After = rightHand
	case earlier(seat + 1):
		a.After = leftHand
	}
	return a
}

// Words say when in a wave; nothing where all come up at once.
func (a Act) Words(w Wording) string {
	switch {
	case a.Halves < 0:
		return ""
	case a.Halves == 0 && w == InSigns:
		return " +0 s"
	case a.Halves == 0:
		return ", right at UP"
	case w == InSigns:
		return " +" + halfSeconds(a.Halves)
	case w == InFull:
		return ", " + halfSeconds(a.Halves) + " after UP" + leads[a.After]
	}
	return ", " + halfSeconds(a.Halves) + " after UP" + shortLeads[a.After]
}

// halfSeconds is "½ s", "1 s", "1½ s".
func halfSeconds(n int) string {
	return strings.TrimPrefix(fmt.Sprint(n/2), "0") + []string{"", "½"}[n%2] + say.Glue + "s"
}

// Wave say how a cue comes up, or nothing where all do at once.
func Wave(p *mosaic.Plan, cue int) string {
	if p.Cues[cue].Delay == nil {
		return ""
	}
	how := map[mosaic.Transition]string{
		mosaic.LeftToRight: "a wave from the LEFT to the RIGHT as the camera sees it",
		mosaic.RightToLeft: "a wave from the RIGHT to the LEFT as the camera sees it",
		mosaic.BottomToTop: "a wave from the front to the back",
		mosaic.FromMiddle:  "a wave from the middle to both ends",
		mosaic.RowByRow:    "a wave row by row, from the front",
	}[p.Stunt.Cues[cue].Transition]
	return how + " within " + say.Seconds(p.Stunt.Cues[cue].Takes)
}

// Waves tell the crew of all cues that come up as a wave, and how it is done; nothing where none does.
func Waves(p *mosaic.Plan) string {
	var parts []string
	for cue := range p.Cues {
		if how := Wave(p, cue); how != "" {
			parts = append(parts, fmt.Sprintf("cue %d comes up as %s", cue+1, how))
		}
	}
	if parts == nil {
		return ""
	}
	return "WAVES: " + strings.Join(parts, "; ") + ". Nobody need count: everybody follows the card beside them or " +
		"the row in front, as their label says; those whose label says “right at UP” begin. DOWN is for all at once."
}
