package sheets

import (
	"fmt"
	"strconv"
)

// banner is the page before a job: what to load, what to print on it, what to do with the pile.
type banner struct {
	job    printJob
	what   string // for the footer
	load   string
	under  string // a line below
	colour int16  // of the cards; −1 = of several
	steps  []string
	rows   string // the check: pieces by row
}

// banner prints the page.
func (l *labels) banner(d *document, b *banner) {
	const body = 12.0
	p := d.addPage()
	left, inner := edgeMargin+labelPad, d.width-2*(edgeMargin+labelPad)
	if b.colour >= 0 {
		side := min(inner*0.14, 30)
		p.inkColour(black)
		p.swatch(left+inner-side, edgeMargin+4, side, side, int(b.colour), l.plan.Stunt.Colours[b.colour].RGB, l.letters[b.colour])
	}
	p.inkColour(black)
	y := edgeMargin + 4 + capMM(34)
	title := fmt.Sprintf("JOB %d OF %d", b.job.number, b.job.of)
	p.text(left, y, sizeFor(title, bold, inner*0.8, 34), bold, title)
	load := "Load " + b.load
	size := sizeFor(load, bold, inner*0.82, 30)
	y += 6 + capMM(30)
	p.text(left, y, size, bold, load)
	y += 4
	for _, line := range wrapText(b.under, body, regular, inner) {
		y += lineHeight(body)
		p.text(left, y, body, regular, line)
	}
	y += 3
	for i, step := range b.steps {
		y += 1.5
		for k, line := range wrapText(step, body, regular, inner-8) {
			y += lineHeight(body)
			if k == 0 {
				p.text(left, y, body, bold, strconv.Itoa(i+1)+".")
			}
			p.text(left+8, y, body, regular, line)
		}
	}
	y += 4
	if l.plan.Flashing != "" { // no pile goes without it
		for _, line := range wrapText("FLASHING: "+l.plan.Flashing, 10, bold, inner) {
			y += lineHeight(10)
			p.text(left, y, 10, bold, line)
		}
		y += 3
	}
	l.check(p, left, y, inner, d.height-footerMargin-2-y, b)
	what := b.what + ". " + l.plan.Stunt.Title
	page := fmt.Sprintf("Plan %s, page %d", l.plan.Code, d.pdf.PageNo())
	foot := d.height - footerMargin + 6.5
	p.textRight(left+inner, foot, 8, regular, page)
	p.text(left, foot, 8, regular, shortenText(what, 8, regular, inner-textWidth(8, regular, page)-5))
}

// check prints the counts by row as large as they fit.
func (l *labels) check(p *pen, x, y, width, room float64, b *banner) {
	words := "Check: this job has for each row: " + b.rows + "."
	for size := 11.0; size >= 5; size -= 0.5 {
		lines := wrapText(words, size, regular, width)
		if float64(len(lines))*lineHeight(size) > room && size > 5 {
			continue
		}
		for _, line := range lines[:min(len(lines), int(room/lineHeight(size)))] {
			y += lineHeight(size)
			p.text(x, y, size, regular, line)
		}
		return
	}
}

// pagesFrom names the pages of a job after its banner.
func pagesFrom(page, n int) string {
	if n == 1 {
		return "page " + strconv.Itoa(page+1)
	}
	return fmt.Sprintf("pages %d to %d", page+1, page+n)
}

// stockSteps say what is done with a job of coloured stock.
func stockSteps(g *sheetGrid, j *printJob, page int, name string) []string {
	steps := []string{
		"Put nothing but " + name + " into the tray: " + plural(j.sheets, "sheet") + ". Keep a few more at hand for jams.",
		"Print " + pagesFrom(page, j.sheets) + " on them: at actual size (100 %), on one side, in black. This page goes on plain paper.",
	}
	steps = append(steps, pileSteps(g, j)...)
	return append(steps, "Keep the pile in its order, with this page on top.")
}

// pileSteps say how the printed pile is cut and stacked; nothing where a sheet is one piece.
func pileSteps(g *sheetGrid, j *printJob) []string {
	if g.places() == 1 || g.alongRows {
		return nil
	}
	return []string{
		"Knock the pile square, sheet 1 on top and print up, and cut it as a whole along the marks.",
		fmt.Sprintf("Stack the %s that this gives: pile 1 on top of pile 2, and so on; each piece says its pile. Now everything lies in order.", plural(j.piles(), "pile")),
	}
}

// labelSteps say what is done with labels that go where is said.
func labelSteps(l *labelSheets, j *printJob, page int, where string) []string {
	steps := []string{
		"Print " + pagesFrom(page, j.sheets) + ": at actual size (100 %), on one side.",
	}
	steps = append(steps, pileSteps(&l.grid, j)...)
	return append(steps, "Stick each label on "+where+", and keep this order, with this page on top.")
}
