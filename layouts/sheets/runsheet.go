package sheets

import (
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// RunSheet writes runsheet.pdf: the cautions first, the signal plan, and on a page of its own the day by the clock.
// Errors are *seating.Fault.
func RunSheet(w io.Writer, b *brief.Brief) error {
	f, err := uprightFlow(b, "Run sheet")
	if err != nil {
		return err
	}
	r := &b.Paper.RunSheet
	f.Title("Run sheet", b.Paper.Occasion)
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
	early := f.Y+paper.LineHeight(paper.SizeHead)*1.6+4*paper.LineHeight(paper.SizeBody) <= f.Bottom()
	if early {
		f.whoToAsk(r)
	}
	f.NewPage() // the clock hangs by the door on a page of its own
	f.Heading("The day by the clock")
	if r.Note != "" {
		f.Paragraph(r.Note, paper.SizeSmall)
	}
	var rows [][]paper.Cell
	for _, s := range r.Steps {
		rows = append(rows, []paper.Cell{{Text: s.Clock, Bold: true}, {Text: s.Take}, {Text: s.What, Bold: s.IsTake}, {Text: s.Who}, {Tick: true}})
	}
	f.Table([]paper.Column{{Head: "Clock"}, {Head: "Take"}, {Head: "What", Share: 3}, {Head: "Who", Share: 1.15},
		{Head: "Done"}}, rows, 9.5)
	if !early {
		f.whoToAsk(r)
	}
	return f.Finish(w)
}

func (f *flow) whoToAsk(r *brief.RunSheet) {
	f.Heading("Who to ask")
	f.Pair("Contact", r.Contact)
	f.Pair("Says stop", "Anybody. The custodian of the stands and the fire official without giving a reason.")
}

// signals is the plan of calls, cue by cue.
func (f *flow) signals(r *brief.RunSheet) {
	f.Heading("Signals")
	f.Dashes(r.Calls + " Beside the lens a flag goes up at READY and drops at UP; leaders, who see the flag, echo both with a raised arm.")
	f.Dashes("DOWN is a sound, a whistle or the caller's voice, since faces are behind cards and see no flag.")
	f.Dashes("A long whistle at any time means: card down, sit, listen. An alarm means card down and walk.")
	if len(r.Cues) == 0 {
		return
	}
	var rows [][]paper.Cell
	for _, c := range r.Cues {
		rows = append(rows, []paper.Cell{{Text: c.Number, Bold: true}, {Text: c.Name}, {Text: c.At}, {Text: c.Ready}, {Text: c.Up, Bold: true},
			{Text: c.Full}, {Text: c.Down}})
	}
	f.Y += 1
	f.Table([]paper.Column{{Head: "Cue"}, {Head: "Name", Share: 1.4}, {Head: "When", Share: 1},
		{Head: "READY", Right: true}, {Head: "UP", Right: true}, {Head: "all up", Right: true}, {Head: "DOWN", Right: true}}, rows, 9.5)
	f.Paragraph("Minutes and seconds from "+r.From+"; what is before it has a dash. From the call UP everybody has the card up; "+
		"HOLD is silent; before the first cue and after the last the card lies on the lap.", paper.SizeSmall)
	if r.Waves != "" {
		f.Dashes(r.Waves)
	}
}
