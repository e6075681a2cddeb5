package sheets

import (
	"fmt"

	"everyseat/mosaic"
	"everyseat/seating"
)

// mostStickers bounds the labels of one sheet.
const mostStickers = 200

// stickerGrid is the sheet of stick-on labels as the stunt measures it. The error is a *seating.Fault:
// labels that reach over the paper's edge or lie on each other, and print outside the printer's reach.
func stickerGrid(p *mosaic.Plan, paper Paper) (sheetGrid, error) {
	if p.Stunt.Print.WholePile {
		return sheetGrid{}, &seating.Fault{Key: "print.cut", What: "stick-on labels are not cut", Hint: "leave out cut, or grid"}
	}
	return measuredGrid(p.Stunt.Print.Grid, "print.grid", paper, printMargin(p))
}

// measuredGrid is a sheet of labels by its measures, under the key that has them.
func measuredGrid(spec *mosaic.LabelGrid, key string, paper Paper, reach float64) (sheetGrid, error) {
	g := sheetGrid{
		sheetWidth: paper.Width, sheetHeight: paper.Height, columns: spec.Columns, rows: spec.Rows, alongRows: true,
		left: millimetres(spec.Left), top: millimetres(spec.Top), width: millimetres(spec.Width), height: millimetres(spec.Height),
		across: millimetres(spec.Across), down: millimetres(spec.Down),
	}
	if spec.Across == 0 {
		g.across = g.width
	}
	if spec.Down == 0 {
		g.down = g.height
	}
	switch {
	case g.columns < 1 || g.rows < 1 || g.columns > mostStickers || g.rows > mostStickers || g.places() > mostStickers:
		return g, &seating.Fault{Key: key, What: fmt.Sprintf("a sheet of %d × %d labels", g.columns, g.rows),
			Hint: fmt.Sprintf("columns and rows are 1 or more, and at most %d labels on a sheet", mostStickers)}
	case spec.Width <= 0 || spec.Height <= 0:
		return g, &seating.Fault{Key: key, What: fmt.Sprintf("a label of %s × %s", spec.Width, spec.Height), Hint: `measure one label: width = "4in", height = "2in"`}
	case g.across < g.width-sameLength || g.down < g.height-sameLength:
		return g, &seating.Fault{Key: key, What: "the labels lie on each other",
			Hint: "across and down are from one label's edge to the same edge of the next: a label's width and height, or more"}
	}
	if err := g.fitsSheet(paper, key); err != nil {
		return g, err
	}
	return g, g.withinReach(reach, key)
}

// fitsSheet finds labels that are cut by the paper's edge.
func (g *sheetGrid) fitsSheet(paper Paper, key string) error {
	for _, side := range []struct {
		n                     int
		how, before, much     string
		from, to, paperLength float64
	}{
		{g.columns, "side by side", "left of", "wide", g.left, g.right(), g.sheetWidth},
		{g.rows, "one below the other", "above", "high", g.top, g.bottom(), g.sheetHeight},
	} {
		what := ""
		switch {
		case side.from < 0:
			what = fmt.Sprintf("the labels begin %s the paper", side.before)
		case side.to > side.paperLength+sameLength:
			what = fmt.Sprintf("%s %s reach to %.1f mm, and %s paper is %.1f mm %s", plural(side.n, "label"), side.how, side.to, paper.Name, side.paperLength, side.much)
		default:
			continue
		}
		return &seating.Fault{Key: key, What: what, Hint: "measure left and top, a label, and across and down, from edge to edge; or name other paper"}
	}
	return nil
}

// withinReach finds labels whose print the printer would cut off.
func (g *sheetGrid) withinReach(reach float64, key string) error {
	for _, side := range []struct {
		name string
		room float64
	}{{"left", g.left}, {"right", g.sheetWidth - g.right()}, {"upper", g.top}, {"lower", g.sheetHeight - g.bottom()}} {
		if room := side.room + labelPad; room < reach-sameLength {
			return &seating.Fault{Key: key,
				What: fmt.Sprintf("at the %s edge labels are printed up to %.1f mm from the paper's edge, and the printer leaves %.1f mm white", side.name, room, reach),
				Hint: "print sheets/test.pdf: if the printer reaches further, write margin under [print]; otherwise take other labels"}
		}
	}
	return nil
}
