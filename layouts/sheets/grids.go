package sheets

import (
	"cmp"
	"fmt"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

const (
	mostStickers = 200 // the stick-on labels of one sheet
	mostTiles    = 24  // sheets of one card
)

// printMargin is what the printer leaves white at every edge, in millimetres.
func printMargin(p *mosaic.Plan) float64 {
	return millimetres(cmp.Or(max(p.Stunt.Print.Margin, 0), mosaic.UsualMargin))
}

// labelGrid is where the labels lie on a sheet, none larger than the card that it is stuck on.
func labelGrid(p *mosaic.Plan, size mosaic.PaperSize) (paper.Grid, error) {
	if p.Stunt.Print.Grid != nil {
		return stickerGrid(p, size, false)
	}
	n := cmp.Or(p.Stunt.Print.PerSheet, 4)
	if n < 1 || n > brief.MostPerSheet {
		return paper.Grid{}, fault("print.per_sheet", fmt.Sprintf("1 to %d; 4 is usual", brief.MostPerSheet),
			"%d placards a sheet cannot be printed", n)
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

func tooLarge(p *mosaic.Plan, g *paper.Grid, key, hint string) error {
	width, height := p.CardSize()
	return fault(key, hint, "a label of %.0f × %.0f mm is larger than the card it is stuck on, %s × %s as it is held "+
		"(%.0f × %.0f mm)", g.Width, g.Height, width, height, millimetres(width), millimetres(height))
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
// together of tiles or not known. The error is a *seating.Fault.
func stickerGrid(p *mosaic.Plan, size mosaic.PaperSize, tiled bool) (paper.Grid, error) {
	if p.Stunt.Print.WholePile {
		return paper.Grid{}, fault("print.cut", "leave out cut, or grid", "stick-on labels are not cut")
	}
	grid, err := measuredGrid(p.Stunt.Print.Grid, "print.grid", size, printMargin(p))
	w, h := p.CardSize()
	if err == nil && !tiled && w != 0 && h != 0 &&
		(grid.Width > millimetres(w)+paper.SameLength || grid.Height > millimetres(h)+paper.SameLength) {
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
		Across: millimetres(cmp.Or(spec.Across, spec.Width)), Down: millimetres(cmp.Or(spec.Down, spec.Height))}
	switch {
	case g.Columns < 1 || g.Rows < 1 || max(g.Columns, g.Rows, g.Places()) > mostStickers:
		return g, fault(key, fmt.Sprintf("columns and rows are 1 or more, and at most %d labels on a sheet",
			mostStickers), "a sheet of %d × %d labels", g.Columns, g.Rows)
	case spec.Width <= 0 || spec.Height <= 0:
		return g, fault(key, `measure one label: width = "4in", height = "2in"`, "a label of %s × %s", spec.Width,
			spec.Height)
	case g.Across < g.Width-paper.SameLength || g.Down < g.Height-paper.SameLength:
		return g, fault(key, "across and down are from one label's edge to the same edge of the next: a label's "+
			"width and height, or more", "the labels lie on each other")
	}
	const measure = "measure left and top, a label, and across and down, from edge to edge; or name other paper"
	for _, side := range []struct {
		n                     int
		how, before, much     string
		from, to, paperLength float64
	}{
		{g.Columns, "side by side", "left of", "wide", g.Left, g.Right(), g.Sheet.Width},
		{g.Rows, "one below the other", "above", "high", g.Top, g.Bottom(), g.Sheet.Height},
	} {
		switch {
		case side.from < 0:
			return g, fault(key, measure, "the labels begin %s the paper", side.before)
		case side.to > side.paperLength+paper.SameLength:
			return g, fault(key, measure, "%s %s reach to %.1f mm, and %s paper is %.1f mm %s", say.Count(side.n,
				"label"), side.how, side.to, size.Name, side.paperLength, side.much)
		}
	}
	for i, room := range [...]float64{g.Left, g.Sheet.Width - g.Right(), g.Top, g.Sheet.Height - g.Bottom()} {
		if room += paper.Pad; room < reach-paper.SameLength {
			return g, fault(key, "print sheets/test.pdf: if the printer reaches further, write margin under "+
				"[print]; otherwise take other labels", "at the %s edge labels are printed up to %.1f mm from the "+
				"paper's edge, and the printer leaves %.1f mm white", [...]string{"left", "right", "upper",
				"lower"}[i], room, reach)
		}
	}
	return g, nil
}

// layCards lays cards on the paper, or where they are larger and the stunt wants it, the paper on them, upright or on
// its side, whichever needs fewer sheets. The error is a *seating.Fault.
func layCards(p *mosaic.Plan, size mosaic.PaperSize) (paper.Grid, *paper.Tiling, error) {
	cardWidth, cardHeight := p.CardSize()
	width, height := millimetres(cardWidth), millimetres(cardHeight)
	grid := paper.FillSheet(sheetOf(size), width, height)
	switch {
	case grid.Places() > 0:
		return grid, nil, nil
	case p.Stunt.Print.Tile:
		tiles := p.TilesOn(size.Name)
		if n := tiles.Count(); n == 0 || max(tiles.Columns, tiles.Rows, n) > mostTiles {
			return grid, nil, fault("card.size", "larger paper, or smaller cards",
				"a card of %s × %s takes more than %d sheets of %s paper", cardWidth, cardHeight, mostTiles, size.Name)
		}
		sheet, inset := sheetOf(size), printMargin(p)+millimetres(mosaic.TileRim)
		if tiles.Flat {
			sheet = sheet.Turned()
		}
		return grid, paper.NewTiling(sheet, inset, width, height, tiles.Columns, tiles.Rows), nil
	}
	hint := "tile = true under [print] to put it together of several sheets, or smaller cards"
	for _, other := range mosaic.PaperSizes {
		if g := paper.FillSheet(sheetOf(other), width, height); g.Places() > 0 {
			hint = "paper = \"" + other.Name + "\" under [print], or tile = true to put it together of several sheets"
			break
		}
	}
	return grid, nil, fault("card.size", hint, "a card of %s × %s is larger than %s paper", cardWidth, cardHeight,
		size.Name)
}
