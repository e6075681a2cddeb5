// Package sheets makes the paper that the crew carries, as PDF. Start with Placards and Rows.
//
// Left and right are as the camera sees the stands; wherever paper goes into the stands it says so, and what that is
// for somebody who sits there. No sheet tells two things apart by colour alone: each colour has a letter and a pattern
// too. What paper is, and how it is set, is known by layouts/paper. The same plan gives the same bytes.
package sheets

import (
	"fmt"
	"io"
	"reflect"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// What every sheet is set with.
const (
	regular = paper.Regular
	bold    = paper.Bold
	glue    = say.Glue
)

var black, white, grey = paper.Black, paper.White, paper.Grey

// What stays white on every sheet, in millimetres.
const (
	edgeMargin   = float64(mosaic.LabelEdge / seating.Millimetre)
	footerMargin = float64(mosaic.LabelFooter / seating.Millimetre)
)

// millimetres is a length in the unit of paper.
func millimetres(l seating.Length) float64 { return float64(l) / float64(seating.Millimetre) }

func sheetOf(size mosaic.PaperSize) paper.Sheet {
	return paper.Sheet{Width: millimetres(size.Width), Height: millimetres(size.Height), Edge: edgeMargin,
		Foot: footerMargin}
}

func newDocument(b *brief.Brief, what string, sheet paper.Sheet) *paper.Document {
	return paper.NewDocument(what, sheet, imprint(b))
}

// imprint is what stands at the foot of the plan's paper.
func imprint(b *brief.Brief) paper.Imprint {
	return paper.Imprint{Plan: string(b.Code), Stunt: b.Plan.Stunt.Title, Flashing: b.Plan.Flashing}
}

func palette(p *mosaic.Plan) []paper.Swatch {
	letters := mosaic.ColourLetters(p.Stunt.Colours)
	list := make([]paper.Swatch, len(letters))
	for i := range list {
		list[i] = paper.Swatch{RGB: p.Stunt.Colours[i].RGB, Pattern: i, Letter: letters[i]}
	}
	return list
}

// flow is a sheet of running text.
type flow struct {
	*paper.Flow
	brief *brief.Brief
	plan  *mosaic.Plan
}

func newFlow(b *brief.Brief, what string, sheet paper.Sheet) *flow {
	return &flow{paper.NewFlow(what, sheet, imprint(b), palette(b.Plan)), b, b.Plan}
}

// uprightFlow starts a file on the stunt's paper.
func uprightFlow(b *brief.Brief, what string) (*flow, error) {
	sheet, err := checkedSheet(b.Plan)
	if err != nil {
		return nil, err
	}
	return newFlow(b, what, sheet), nil
}

// running writes a sheet of running text: under its title what set puts there.
func running(w io.Writer, b *brief.Brief, what, title string, set func(*flow)) error {
	f, err := uprightFlow(b, what)
	if err != nil {
		return err
	}
	f.Title(title, b.Paper.Occasion)
	set(f)
	return f.Finish(w)
}

// column is one of a table: its head, its share of the width (0 = as wide as it must be), and how its cells are set.
type column struct {
	head  string
	share float64
	look  look
}

// look is how cells are set, joined with |.
type look uint8

const (
	strong look = 1 << iota // bold
	right                   // ending at the right
	tick                    // behind an empty box
)

// table sets lines, each a struct whose texts are its cells in order; more columns stay free to write in. Where set is
// given, it has the last word about a line's cells.
func table[T any](f *flow, size float64, columns []column, lines []T, set func(line *T, cells []paper.Cell)) {
	heads, rows := tableOf(columns, lines, set)
	f.Table(heads, rows, size)
}

func tableOf[T any](columns []column, lines []T, set func(*T, []paper.Cell)) (heads []paper.Column,
	rows [][]paper.Cell) {
	for _, c := range columns {
		heads = append(heads, paper.Column{Head: c.head, Share: c.share, Right: c.look&right != 0})
	}
	for i := range lines {
		cells, texts := make([]paper.Cell, len(columns)), textsOf(lines[i])
		for k, c := range columns {
			cells[k] = paper.Cell{Bold: c.look&strong != 0, Tick: c.look&tick != 0}
			if k < len(texts) {
				cells[k].Text = texts[k]
			}
		}
		if set != nil {
			set(&lines[i], cells)
		}
		rows = append(rows, cells)
	}
	return heads, rows
}

func textsOf(line any) (texts []string) {
	fields := reflect.ValueOf(line)
	for i := range fields.NumField() {
		switch text := fields.Field(i).Interface().(type) {
		case string:
			texts = append(texts, text)
		case []string:
			texts = append(texts, text...)
		}
	}
	return texts
}

// checkedPaper is the stunt's paper, when everything that the crew wrote can be printed.
func checkedPaper(p *mosaic.Plan) (mosaic.PaperSize, error) {
	if err := checkType(p); err != nil {
		return mosaic.PaperSize{}, err
	}
	return mosaic.LookUpPaper(p.Stunt.Print.Paper)
}

func checkedSheet(p *mosaic.Plan) (paper.Sheet, error) {
	size, err := checkedPaper(p)
	return sheetOf(size), err
}

// fault says what the stunt asks under a key and cannot be printed, and what helps.
func fault(key, hint, what string, args ...any) error {
	return &seating.Fault{Key: key, What: fmt.Sprintf(what, args...), Hint: hint}
}

// checkType looks up every character that the sheets would print of what the crew wrote. A character that the type
// lacks would print as an empty box, so it is a *seating.Fault with the Key of the text and the character.
func checkType(p *mosaic.Plan) (err error) {
	look := func(text, key string, of ...any) {
		for _, r := range paper.Composed(text) {
			if err == nil && r != '\n' && !(regular.Has(r) && bold.Has(r)) {
				err = fault(fmt.Sprintf(key, of...), "write it in Latin, Greek or Cyrillic letters, figures and the "+
					"usual signs", "the type on paper has no %q (U+%04X), in %q", r, r,
					regular.Shorten(strings.Join(strings.Fields(text), " "), 1, 30/paper.PointsPerMM))
			}
		}
	}
	look(p.Stunt.Title, "title")
	look(p.Stunt.Date, "date")
	look(p.Stunt.Contact, "contact")
	look(p.Stunt.Day.Doors, "day.doors")
	look(p.Stunt.Day.Take, "day.take")
	look(p.Stunt.Day.From, "day.from")
	look(p.Stunt.Day.Until, "day.until")
	look(p.Flashing, "flashing_risk")
	for i, texts := range [][]string{p.Stunt.Day.Signs, p.Stunt.Day.Rehearsals, p.Stunt.Day.Keys} {
		for n, text := range texts {
			look(text, "day.%s[%d]", [...]string{"signs", "rehearsals", "keys"}[i], n)
		}
	}
	for i, l := range p.Stunt.Stands.Lanes {
		look(l.Name, "room.lane[%d].name", i)
	}
	for i, o := range p.Stunt.Room.Obstacles {
		look(o.Name, "room.obstacle[%d].name", i)
	}
	for i, s := range p.Stunt.Room.Spots {
		look(s.Name, "room.camera[%d].name", i)
	}
	for i, e := range p.Stunt.Room.Exits {
		look(e.Name, "room.exit[%d].name", i)
	}
	for _, m := range p.Stunt.Marks {
		look(m.Name, "%s", m.Key)
	}
	for i, c := range p.Stunt.Colours {
		look(c.Name, "colour[%d].name", i)
	}
	for i, id := range mosaic.ColourIDs(p.Stunt.Colours) { // capitals may be missing where small letters are not
		look(id, "colour[%d].name", i)
	}
	for i := range p.Cues {
		look(p.Cues[i].Name, "cue[%d].name", i)
		look(p.Cues[i].At, "cue[%d].at", i)
	}
	for i := range p.Stands.Sections {
		s := &p.Stands.Sections[i]
		look(s.Name, "section[%d].name", i)
		for r := range s.Rows {
			look(s.Rows[r].Name, "section[%d].rows", i)
		}
		for _, r := range s.Spec.Reserved {
			look(r.For, "section[%d].reserved", i)
		}
	}
	if p.People != nil {
		lookUpPeople(p, look)
	}
	return err
}

// lookUpPeople looks up what the sheets print of the groups, and of people where names are wanted.
func lookUpPeople(p *mosaic.Plan, look func(text, key string, of ...any)) {
	who := &p.Stunt.People
	look(who.HeldBy, "people.held_by")
	for i := range p.People.Roster.Groups {
		g := &p.People.Roster.Groups[i]
		key := "people.roster"
		if i < len(who.Groups) { // parties come first
			key = fmt.Sprintf("group[%d]", i)
		}
		for _, text := range []string{g.Name, g.Leader, g.Room, g.Door, g.Time} {
			look(text, key)
		}
	}
	for i := range p.People.Roster.People {
		if who.Names {
			look(p.People.Roster.People[i].Name, "people.roster")
		}
	}
}
