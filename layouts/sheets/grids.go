package sheets

import (
	"fmt"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

const (
	mostStickers = 200 // the stick-on labels of one sheet
)

// printMargin is what the printer leaves white at every edge, in millimetres.
func printMargin(p *mosaic.Plan) float64 {
	if m := p.Stunt.Print.Margin; m > 0 {
		return millimetres(m)
	}
	return millimetres(mosaic.UsualMargin)
}

// labelGrid is where the labels lie on a sheet, none larger than the card that it is stuck on.
func labelGrid(p *mosaic.Plan, size mosaic.PaperSize) (paper.Grid, error) {
	if p.Stunt.Print.Grid != nil {
		return stickerGrid(p, size, false)
	}
	n := p.Stunt.Print.PerSheet
	if n == 0 {
		n = 4
	}
	if n < 1 || n > brief.MostPerSheet {
		return paper.Grid{}, &seating.Fault{Key: "print.per_sheet",
			What: fmt.Sprintf("%d placards a sheet cannot be printed", n),
			Hint: fmt.Sprintf("1 to %d; 4 is usual", brief.MostPerSheet)}
	}
	grid, fits := cutWithin(p, size, n)
	if fits {
		return grid, nil
	}
	hint := "larger cards"
	for more := n + 1; more <= brief.MostPerSheet; more++ {
		if _, fits := cutWithin(p, size, more); fits {
			hint = fmt.Sprintf("per_sheet = %d under [print], the fewest that are not, or larger cards", more)
			break
		}
	}
	return grid, tooLarge(p, &grid, "print.per_sheet", hint)
}

// darkGrid is where the labels lie that are stuck on cards on which black cannot be read: as many on a sheet as the
// stunt has labels, but four at least, and more where the card is small.
func darkGrid(p *mosaic.Plan, size mosaic.PaperSize, tiled bool) (paper.Grid, error) {
	if p.Stunt.Print.Grid != nil {
		return stickerGrid(p, size, tiled)
	}
	for n := max(p.Stunt.Print.PerSheet, 4); ; n++ {
		grid, fits := cutWithin(p, size, min(n, brief.MostPerSheet))
		switch {
		case fits, tiled:
			return grid, nil
		case n >= brief.MostPerSheet:
			return grid, tooLarge(p, &grid, "card.size", "larger cards")
		}
	}
}

// within says that a piece of the grid is not larger than the card as it is held; where no card is known, none is.
func within(g *paper.Grid, p *mosaic.Plan) bool {
	w, h := p.CardSize()
	return w == 0 || h == 0 || g.Width <= millimetres(w)+paper.SameLength &&
		g.Height <= millimetres(h)+paper.SameLength
}

func tooLarge(p *mosaic.Plan, g *paper.Grid, key, hint string) error {
	width, height := p.CardSize()
	return &seating.Fault{Key: key, Hint: hint,
		What: fmt.Sprintf("a label of %.0f × %.0f mm is larger than the card it is stuck on, %s × %s as it is held "+
			"(%.0f × %.0f mm)", g.Width, g.Height, width, height, millimetres(width), millimetres(height))}
}

// cutWithin cuts n labels out of a sheet; false where they are larger than the card.
func cutWithin(p *mosaic.Plan, size mosaic.PaperSize, n int) (paper.Grid, bool) {
	width, height := p.CardSize()
	cut, fits := mosaic.CutLabels(size, n, width, height)
	w, h := millimetres(cut.Width), millimetres(cut.Height)
	return paper.Grid{Sheet: sheetOf(size), Columns: cut.Columns, Rows: cut.Rows, Left: edgeMargin, Top: edgeMargin,
		Width: w, Height: h, Across: w, Down: h}, fits
}

// stickerGrid is the sheet of stick-on labels as the stunt measures it, none larger than the card, unless that is put
// together of tiles. The error is a *seating.Fault.
func stickerGrid(p *mosaic.Plan, size mosaic.PaperSize, tiled bool) (paper.Grid, error) {
	if p.Stunt.Print.WholePile {
		return paper.Grid{}, &seating.Fault{Key: "print.cut", What: "stick-on labels are not cut",
			Hint: "leave out cut, or grid"}
	}
	grid, err := measuredGrid(p.Stunt.Print.Grid, "print.grid", size, printMargin(p))
	if err == nil && !tiled && !within(&grid, p) {
		err = tooLarge(p, &grid, "print.grid", "smaller labels, or larger cards")
	}
	return grid, err
}

// measuredGrid is a sheet of labels by its measures, under the key that has them. The error is a *seating.Fault:
// labels that reach over the paper's edge or lie on each other, and print outside the printer's reach.
func measuredGrid(spec *mosaic.LabelGrid, key string, size mosaic.PaperSize, reach float64) (paper.Grid, error) {
	g := paper.Grid{Sheet: sheetOf(size), Columns: spec.Columns, Rows: spec.Rows, Peeled: true,
		Left: millimetres(spec.Left), Top: millimetres(spec.Top),
		Width: millimetres(spec.Width), Height: millimetres(spec.Height),
		Across: millimetres(spec.Across), Down: millimetres(spec.Down)}
	if spec.Across == 0 {
		g.Across = g.Width
	}
	if spec.Down == 0 {
		g.Down = g.Height
	}
	switch {
	case g.Columns < 1 || g.Rows < 1 || max(g.Columns, g.Rows, g.Places()) > mostStickers:
		return g, &seating.Fault{Key: key, What: fmt.Sprintf("a sheet of %d × %d labels", g.Columns, g.Rows),
			Hint: fmt.Sprintf("columns and rows are 1 or more, and at most %d labels on a sheet", mostStickers)}
	case spec.Width <= 0 || spec.Height <= 0:
		return g, &seating.Fault{Key: key, What: fmt.Sprintf("a label of %s × %s", spec.Width, spec.Height),
			Hint: `measure one label: width = "4in", height = "2in"`}
	case g.Across < g.Width-paper.SameLength || g.Down < g.Height-paper.SameLength:
		return g, &seating.Fault{Key: key, What: "the labels lie on each other", Hint: "across and down are from " +
			"one label's edge to the same edge of the next: a label's width and height, or more"}
	}
	if err := fitsSheet(&g, size.Name, key); err != nil {
		return g, err
	}
	return g, withinReach(&g, reach, key)
}

// fitsSheet finds labels that are cut by the paper's edge.
func fitsSheet(g *paper.Grid, sheet, key string) error {
	for _, side := range []struct {
		n                     int
		how, before, much     string
		from, to, paperLength float64
	}{
		{g.Columns, "side by side", "left of", "wide", g.Left, g.Right(), g.Sheet.Width},
		{g.Rows, "one below the other", "above", "high", g.Top, g.Bottom(), g.Sheet.Height},
	} {
		what := ""
		switch {
		case side.from < 0:
			what = fmt.Sprintf("the labels begin %s the paper", side.before)
		case side.to > side.paperLength+paper.SameLength:
			what = fmt.Sprintf("%s %s reach to %.1f mm, and %s paper is %.1f mm %s",
				say.Count(side.n, "label"), side.how, side.to, sheet, side.paperLength, side.much)
		default:
			continue
		}
		return &seating.Fault{Key: key, What: what,
			Hint: "measure left and top, a label, and across and down, from edge to edge; or name other paper"}
	}
	return nil
}

// withinReach finds labels whose print the printer would cut off.
func withinReach(g *paper.Grid, reach float64, key string) error {
	for _, side := range []struct {
		name string
		room float64
	}{{"left", g.Left}, {"right", g.Sheet.Width - g.Right()}, {"upper", g.Top}, {"lower",
		g.Sheet.Height - g.Bottom()}} {
		if room := side.room + paper.Pad; room < reach-paper.SameLength {
			return &seating.Fault{Key: key, What: fmt.Sprintf("at the %s edge labels are printed up to %.1f mm from "+
				"the paper's edge, and the printer leaves %.1f mm white", side.name, room, reach),
				Hint: "print sheets/test.pdf: if the printer reaches further, write margin under [print]; otherwise " +
					"take other labels"}
		}
	}
	return nil
}

// layCards lays cards on the paper, or where they are larger and the stunt wants it, the paper on them.
func layCards(p *mosaic.Plan, size mosaic.PaperSize) (paper.Grid, *paper.Tiling, error) {
	width, height := p.CardSize()
	on := func(size mosaic.PaperSize) paper.Grid {
		return paper.FillSheet(sheetOf(size), millimetres(width), millimetres(height))
	}
	grid := on(size)
	if grid.Places() > 0 {
		return grid, nil, nil
	}
	if p.Stunt.Print.Tile {
		tiles, err := layTiles(p, size)
		return grid, tiles, err
	}
	hint := "tile = true under [print] to put it together of several sheets, or smaller cards"
	for _, other := range mosaic.PaperSizes {
		if g := on(other); g.Places() > 0 {
			hint = "paper = \"" + other.Name + "\" under [print], or tile = true to put it together of several sheets"
			break
		}
	}
	return grid, nil, &seating.Fault{Key: "card.size", Hint: hint,
		What: fmt.Sprintf("a card of %s × %s is larger than %s paper", width, height, size.Name)}
}

const mostTiles = 24 // sheets of one card

// layTiles takes the paper upright or on its side, whichever needs fewer sheets. The error is a *seating.Fault.
func layTiles(p *mosaic.Plan, size mosaic.PaperSize) (*paper.Tiling, error) {
	width, height := p.CardSize()
	tiles := p.TilesOn(size.Name)
	if n := tiles.Count(); n == 0 || max(tiles.Columns, tiles.Rows, n) > mostTiles {
		return nil, &seating.Fault{Key: "card.size", Hint: "larger paper, or smaller cards",
			What: fmt.Sprintf("a card of %s × %s takes more than %d sheets of %s paper", width, height, mostTiles,
				size.Name)}
	}
	sheet, inset := sheetOf(size), printMargin(p)+millimetres(mosaic.TileRim)
	if tiles.Flat {
		sheet = sheet.Turned()
	}
	return paper.NewTiling(sheet, inset, millimetres(width), millimetres(height), tiles.Columns, tiles.Rows), nil
}
