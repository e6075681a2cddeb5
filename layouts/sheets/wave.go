package sheets

import (
	"fmt"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
)

// act is what somebody does at a cue: what to hold and, where it comes up as a wave, when and after whom.
type act struct {
	mosaic.Hold
	halves int // half seconds after the call UP; −1 = at the call, with everybody
	after  lead
}

// lead is whom somebody follows in a wave.
type lead uint8

const (
	nobody lead = iota
	rightHand
	leftHand
	rowInFront
)

// leads are said so, and where there is little room so.
var (
	leads      = [...]string{nobody: "", rightHand: ": follow the card at your right hand", leftHand: ": follow the card at your left hand", rowInFront: ": follow the row in front of you"}
	shortLeads = [...]string{nobody: "", rightHand: ", follow your right", leftHand: ", follow your left", rowInFront: ", follow the row in front"}
)

const halfSecond = 500 * time.Millisecond

// actOf is what a seat does at a cue.
func actOf(p *mosaic.Plan, cue int, seat int32) act {
	a := act{Hold: p.Hands[cue][seat], halves: -1}
	delay := p.Cues[cue].Delay
	if delay == nil {
		return a
	}
	a.halves = int((delay[seat] + halfSecond/2) / halfSecond)
	if a.halves == 0 {
		return a
	}
	switch p.Stunt.Cues[cue].Transition {
	case mosaic.BottomToTop, mosaic.RowByRow:
		a.after = rowInFront
		return a
	}
	// Left and right are the other way round for who faces the camera.
	row := &p.Stands.Sections[p.Stands.Seats[seat].Section].Rows[p.Stands.Seats[seat].Row]
	earlier := func(s int32) bool {
		return int(s) >= row.First && int(s) < row.Last && p.Stands.Seats[s].Use == seating.UseCard && delay[s] < delay[seat]
	}
	switch {
	case earlier(seat - 1):
		a.after = rightHand
	case earlier(seat + 1):
		a.after = leftHand
	}
	return a
}

// afterWords say when in a wave; nothing where all come up at once.
func (a act) afterWords(w wording) string {
	switch {
	case a.halves < 0:
		return ""
	case a.halves == 0 && w == inSigns:
		return " +0 s"
	case a.halves == 0:
		return ", right at UP"
	case w == inSigns:
		return " +" + halfSeconds(a.halves)
	case w == inFull:
		return ", " + halfSeconds(a.halves) + " after UP" + leads[a.after]
	}
	return ", " + halfSeconds(a.halves) + " after UP" + shortLeads[a.after]
}

// halfSeconds is "½ s", "1 s", "1½ s".
func halfSeconds(n int) string {
	s := ""
	if n > 1 {
		s = fmt.Sprint(n / 2)
	}
	if n%2 == 1 {
		s += "½"
	}
	return s + glue + "s"
}

// waveWords say how a cue comes up, or nothing where all do at once.
func waveWords(p *mosaic.Plan, cue int) string {
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
	return how + " within " + seconds(p.Stunt.Cues[cue].Takes)
}

// wavesWords tell the crew of all cues that come up as a wave, and how it is done; nothing where none does.
func wavesWords(p *mosaic.Plan) string {
	var parts []string
	for cue := range p.Cues {
		if how := waveWords(p, cue); how != "" {
			parts = append(parts, fmt.Sprintf("cue %d comes up as %s", cue+1, how))
		}
	}
	if parts == nil {
		return ""
	}
	return "WAVES: " + strings.Join(parts, "; ") + ". Nobody need count: everybody follows the card beside them or the row in front, as their label says; those whose label says “right at UP” begin. DOWN is for all at once."
}
