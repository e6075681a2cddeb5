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

// palette is the stunt's colours as they are printed.
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

// textsOf are the texts of a struct, field by field.
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

// checkedSheet is the stunt's paper, when everything that the crew wrote can be printed.
func checkedSheet(p *mosaic.Plan) (paper.Sheet, error) {
	if err := checkType(p); err != nil {
		return paper.Sheet{}, err
	}
	size, err := mosaic.LookUpPaper(p.Stunt.Print.Paper)
	return sheetOf(size), err
}

// checkType looks up every character that the sheets would print of what the crew wrote. A character that the type
// lacks would print as an empty box, so it is a *seating.Fault with the Key of the text and the character.
func checkType(p *mosaic.Plan) error {
	for _, t := range writtenByCrew(p) {
		for _, r := range paper.Composed(t.text) {
			if r == '\n' || (regular.Has(r) && bold.Has(r)) {
				continue
			}
			return &seating.Fault{
				Key: t.key,
				What: fmt.Sprintf("the type on paper has no %q (U+%04X), in %q", r, r,
					regular.Shorten(strings.Join(strings.Fields(t.text), " "), 1, 30/paper.PointsPerMM)),
				Hint: "write it in Latin, Greek or Cyrillic letters, figures and the usual signs",
			}
		}
	}
	return nil
}

type written struct{ key, text string }

func writtenByCrew(p *mosaic.Plan) []written {
	all := []written{{"title", p.Stunt.Title}, {"date", p.Stunt.Date}, {"contact", p.Stunt.Contact},
		{"day.doors", p.Stunt.Day.Doors}, {"day.take", p.Stunt.Day.Take}, {"flashing_risk", p.Flashing}}
	for _, l := range []struct {
		key   string
		texts []string
	}{{"day.signs", p.Stunt.Day.Signs}, {"day.rehearsals", p.Stunt.Day.Rehearsals}, {"day.keys", p.Stunt.Day.Keys}} {
		for i, text := range l.texts {
			all = append(all, written{fmt.Sprintf("%s[%d]", l.key, i), text})
		}
	}
	for i, l := range p.Stunt.Stands.Lanes {
		all = append(all, written{fmt.Sprintf("room.lane[%d].name", i), l.Name})
	}
	for i, o := range p.Stunt.Room.Obstacles {
		all = append(all, written{fmt.Sprintf("room.obstacle[%d].name", i), o.Name})
	}
	for i, e := range p.Stunt.Room.Exits {
		all = append(all, written{fmt.Sprintf("room.exit[%d].name", i), e.Name})
	}
	for _, m := range p.Stunt.Marks {
		all = append(all, written{m.Key, m.Name})
	}
	for i, c := range p.Stunt.Colours {
		all = append(all, written{fmt.Sprintf("colour[%d].name", i), c.Name})
	}
	for i, id := range mosaic.ColourIDs(p.Stunt.Colours) { // capitals may be missing where small letters are not
		all = append(all, written{fmt.Sprintf("colour[%d].name", i), id})
	}
	for i := range p.Cues {
		all = append(all,
			written{fmt.Sprintf("cue[%d].name", i), p.Cues[i].Name},
			written{fmt.Sprintf("cue[%d].at", i), p.Cues[i].At})
	}
	for i := range p.Stands.Sections {
		s := &p.Stands.Sections[i]
		all = append(all, written{fmt.Sprintf("section[%d].name", i), s.Name})
		for r := range s.Rows {
			all = append(all, written{fmt.Sprintf("section[%d].rows", i), s.Rows[r].Name})
		}
		for _, r := range s.Spec.Reserved {
			all = append(all, written{fmt.Sprintf("section[%d].reserved", i), r.For})
		}
	}
	return append(all, writtenOfPeople(p)...)
}
