package sheets

import (
	"fmt"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/seating/say"
)

// banner is the page before a job: what to load, what to print on it, what to do with the pile.
type banner struct {
	paper.Job
	what   string // for the footer
	load   string
	under  string // a line below
	colour int16  // of the cards; −1 = of several
	steps  []string
	rows   string // the check: pieces by row
}

// banner prints the page.
func (l *labels) banner(d *paper.Document, b *banner) {
	const body = 12.0
	p := d.AddPage()
	left, inner := d.Left(), d.Inner()
	if b.colour >= 0 {
		side := min(inner*0.14, 30)
		p.Swatch(left+inner-side, edgeMargin+4, side, side, l.palette[b.colour])
	}
	y := edgeMargin + 4 + paper.CapHeight(34)
	title := fmt.Sprintf("JOB %d OF %d", b.Number, b.Of)
	p.Text(left, y, bold.SizeFor(title, inner*0.8, 34), bold, title)
	load := "Load " + b.load
	size := bold.SizeFor(load, inner*0.82, 30)
	y += 6 + paper.CapHeight(30)
	p.Text(left, y, size, bold, load)
	y += 4
	y = p.TextLines(left, y, body, regular, regular.Wrap(b.under, body, inner)) + 3
	for i, step := range b.steps {
		y += 1.5
		p.Text(left, y+paper.LineHeight(body), body, bold, strconv.Itoa(i+1)+".")
		y = p.TextLines(left+8, y, body, regular, regular.Wrap(step, body, inner-8))
	}
	y += 4
	if l.plan.Flashing != "" { // no pile goes without it
		y = p.TextLines(left, y, 10, bold, bold.Wrap("FLASHING: "+l.plan.Flashing, 10, inner)) + 3
	}
	l.check(p, left, y, inner, d.Height-footerMargin-2-y, b)
	what := b.what + ". " + l.plan.Stunt.Title
	page := fmt.Sprintf("Plan %s, page %d", string(l.brief.Code), d.Page())
	foot := d.Height - footerMargin + 6.5
	p.TextRight(left+inner, foot, 8, regular, page)
	p.Text(left, foot, 8, regular, regular.Shorten(what, 8, inner-regular.Width(8, page)-5))
}

// check prints the counts by row as large as they fit.
func (l *labels) check(p *paper.Pen, x, y, width, room float64, b *banner) {
	words := "Check: this job has for each row: " + b.rows + "."
	for size := 11.0; size >= 5; size -= 0.5 {
		lines := regular.Wrap(words, size, width)
		if float64(len(lines))*paper.LineHeight(size) > room && size > 5 {
			continue
		}
		p.TextLines(x, y, size, regular, lines[:min(len(lines), int(room/paper.LineHeight(size)))])
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
func stockSteps(g *paper.Grid, j *paper.Job, page int, name string) []string {
	steps := []string{
		"Put nothing but " + name + " into the tray: " + say.Count(j.Sheets, "sheet") + ". Keep a few more at hand for jams.",
		"Print " + pagesFrom(page, j.Sheets) +
			" on them: at actual size (100 %), on one side, in black. This page goes on plain paper.",
	}
	steps = append(steps, pileSteps(g, j)...)
	return append(steps, "Keep the pile in its order, with this page on top.")
}

// pileSteps say how the printed pile is cut and stacked; nothing where a sheet is one piece.
func pileSteps(g *paper.Grid, j *paper.Job) []string {
	if g.Places() == 1 || g.Peeled {
		return nil
	}
	return []string{
		"Knock the pile square, sheet 1 on top and print up, and cut it as a whole along the marks.",
		fmt.Sprintf("Stack the %s that this gives: pile 1 on top of pile 2, and so on; each piece says its pile. Now "+
			"everything lies in order.", say.Count(j.Piles(), "pile")),
	}
}

// labelSteps say what is done with labels that go where is said.
func labelSteps(l *labelSheets, j *paper.Job, page int, where string) []string {
	steps := []string{
		"Print " + pagesFrom(page, j.Sheets) + ": at actual size (100 %), on one side.",
	}
	steps = append(steps, pileSteps(&l.grid, j)...)
	return append(steps, "Stick each label on "+where+", and keep this order, with this page on top.")
}

// jobPages counts the pages of jobs printed on one side, banners too.
func jobPages(jobs []paper.Job) int {
	pages := 0
	for _, j := range jobs {
		pages += 1 + j.Sheets
	}
	return pages
}
