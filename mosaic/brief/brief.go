// Package brief is everything that paper, report, page and terminal tell people of a plan: every number, name and
// sentence, each under the name of its field. Whoever shows it sets it and works nothing out. Start with Of.
package brief

import (
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/outlook"
)

// Brief is what is told of a plan and its outlook. Code is in every footer, see Code.
type Brief struct {
	Plan    *mosaic.Plan
	Outlook *outlook.Outlook
	Code    Code

	Sentences []Sentence // the ten that matter most
	Warnings  []string   // plain sentences
	Rows      [][]Row    // in laying order, section by section
	Report    Report
	Paper     Paper
}

// Paper is what the sheets show.
type Paper struct {
	Title, Occasion string
	Cautions        []string
	RunSheet        RunSheet
	Packet          Packet
	Tally           Tally
	Calldown        Calldown
	Deal            Deal
	Laying          Laying
	Trial           Trial
	Blocks          []Block     // a leader each
	Camera          [][2]string // to the person at the lens: what it is about, and the words
	Comes           []string    // by group: when, and through which door
	PrintCost       string      // what full colour costs; "" = nothing is printed so
	FewRead         string      // how the texts read when few come; "" = there is none
}

// teller is what the parts of a brief are made from.
type teller struct {
	*mosaic.Plan
	o    *outlook.Outlook
	rows [][]Row
	work *work
	day  *day

	fewRead string
	blocks  []Block
}

func newTeller(p *mosaic.Plan, o *outlook.Outlook) *teller {
	t := &teller{Plan: p, o: o, rows: Rows(p), blocks: blocks(p)}
	t.work = newWork(p, t.rows, t.printRun())
	t.fewRead = t.trimReads()
	t.day = newDay(t)
	return t
}

func (t *teller) colourName(i int) string { return t.Stunt.Colours[i].Name }

// Of tells of a plan. Its outlook has all parts but, perhaps, advice; unread are sentences about what could not be
// read of the stunt's files.
func Of(p *mosaic.Plan, o *outlook.Outlook, unread []string) *Brief {
	t := newTeller(p, o)
	warnings := slices.Concat(unread, p.Warnings, t.day.cautions)
	b := &Brief{Plan: p, Outlook: o, Rows: t.rows, Warnings: warnings, Paper: Paper{
		Title: p.Stunt.Title, Occasion: occasion(p), Cautions: cautions(p), RunSheet: t.runSheet(), Packet: t.packet(),
		Tally: t.tally(), Calldown: t.calldown(), Deal: t.deal(), Laying: t.laying(), Trial: t.trial(),
		Blocks: t.blocks,
		Camera: t.cameraWords(), Comes: t.comes(), PrintCost: printCost(p), FewRead: t.fewRead,
	}}
	for _, c := range o.Marks {
		b.Warnings = append(b.Warnings, c.Text)
	}
	b.Code = codeOf(p, &b.Paper)
	if len(p.Marks) > 0 { // else there is paper alone
		b.Sentences = t.sentences()
		b.Report = t.report(b)
	}
	return b
}
