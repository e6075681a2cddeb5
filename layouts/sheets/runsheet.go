package sheets

import (
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// RunSheet writes runsheet.pdf: the cautions first, the signal plan, and on a page of its own the day by the clock.
// Errors are *seating.Fault.
func RunSheet(w io.Writer, b *brief.Brief) error {
	return running(w, b, "Run sheet", "Run sheet", func(f *flow) {
		r := &b.Paper.RunSheet
		f.Boxed("Before anything else", b.Paper.Cautions)
		if r.Before != "" {
			f.Heading("Before the day")
			f.Paragraph(r.Before, paper.SizeBody)
		}
		f.signals(r)
		if len(r.Outdoors) > 0 {
			f.Heading("Outdoors")
			f.Dashes(r.Outdoors...)
		}
		whoToAsk := func() {
			f.Heading("Who to ask")
			f.Pair("Contact", r.Contact)
			f.Pair("Says stop", "Anybody. The custodian of the stands and the fire official without giving a reason.")
		}
		early := f.Y+paper.LineHeight(paper.SizeHead)*1.6+4*paper.LineHeight(paper.SizeBody) <= f.Bottom()
		if early {
			whoToAsk()
		}
		f.NewPage() // the clock hangs by the door on a page of its own
		f.Heading("The day by the clock")
		if r.Note != "" {
			f.Paragraph(r.Note, paper.SizeSmall)
		}
		table(f, 9.5, []column{{"Clock", 0, strong}, {"Take", 0, 0}, {"What", 3, 0}, {"Who", 1.15, 0}, {"Done", 0,
			tick}}, r.Steps, func(s *brief.Step, cells []paper.Cell) { cells[2].Bold = s.IsTake })
		if !early {
			whoToAsk()
		}
	})
}

// signals is the plan of calls, cue by cue.
func (f *flow) signals(r *brief.RunSheet) {
	f.Heading("Signals")
	f.Dashes(
		r.Calls+" Beside the lens a flag goes up at READY and drops at UP; leaders, who see the flag, echo both "+
			"with a raised arm.",
		"DOWN is a sound, a whistle or the caller's voice, since faces are behind cards and see no flag.",
		"A long whistle at any time means: card down, sit, listen. An alarm means card down and walk.")
	if len(r.Cues) == 0 {
		return
	}
	f.Y += 1
	table(f, 9.5, []column{{"Cue", 0, strong}, {"Name", 1.4, 0}, {"When", 1, 0}, {"READY", 0, right}, {"UP", 0,
		right | strong}, {"all up", 0, right}, {"DOWN", 0, right}}, r.Cues, nil)
	f.Paragraph("Minutes and seconds from "+r.From+"; what is before it has a dash. From the call UP everybody has "+
		"the card up; HOLD is silent; before the first cue and after the last the card lies on the lap.",
		paper.SizeSmall)
	if r.Waves != "" {
		f.Dashes(r.Waves)
	}
}
