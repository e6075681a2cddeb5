package sheets

import (
	"fmt"
	"io"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
)

// PrinterTest writes test.pdf: one sheet, both sides, that shows whether a printer keeps to size, how wide
// a rim it leaves white, and whether it turns the sheet as the stunt says, with the backs where
// they belong. Errors are *seating.Fault.
func PrinterTest(w io.Writer, b *brief.Brief) error {
	p := b.Plan
	sheet, err := checkedSheet(p)
	if err != nil {
		return err
	}
	t := &printerTest{newDocument(b, "Printer test", sheet), p}
	t.front(t.AddPage())
	t.BackPage(p.Stunt.Print.ShortEdge, t.back)
	t.Footer("Printer test", 2) // at the foot of the paper, whichever way up the back is
	return t.Write(w)
}

type printerTest struct {
	*paper.Document
	plan *mosaic.Plan
}

const (
	rulerLength = 100.0 // millimetres
	ringSide    = 14.0
	ringRim     = 20.0 // of a ring's middle from the paper's edges
	textRim     = 17.0
	combSteps   = 10 // millimetres of rim that are told apart
	combLength  = 7.0
)

// rings stand at the corners, each with a cross that is ruled in millimetres, lettered from the upper left in reading
// order; the back has them the other way round.
func (t *printerTest) rings(p *paper.Pen, back bool) {
	const radius, hair = ringSide / 2, 0.12
	r, b := t.Width-ringRim, t.Height-ringRim
	for n, c := range [4][2]float64{{ringRim, ringRim}, {r, ringRim}, {ringRim, b}, {r, b}} {
		x, y, letter := c[0], c[1], c[1]+radius+5 // on the inner side of the ring
		if n >= 2 {
			letter = y - radius - 1.5
		}
		if back {
			x = t.Width - x
		}
		p.Stroke(black, 0.2)
		p.Circle(x, y, radius, paper.Outline)
		p.Fill(black)
		p.Filled(x-radius, y-hair/2, 2*radius, hair)
		p.Filled(x-hair/2, y-radius, hair, 2*radius)
		for i := -6; i <= 6; i++ {
			if i != 0 {
				p.Filled(x+float64(i)-hair/2, y-0.6, hair, 1.2)
				p.Filled(x-0.6, y+float64(i)-hair/2, 1.2, hair)
			}
		}
		p.TextMiddle(x, letter, 14, bold, string(rune('A'+n)))
	}
}

func (t *printerTest) turn() (this, other string) {
	if t.plan.Stunt.Print.ShortEdge {
		return "short edge", "long edge"
	}
	return "long edge", "short edge"
}

// front has the rulers, the rims, and rings to look through.
func (t *printerTest) front(p *paper.Pen) {
	t.rings(p, false)
	this, _ := t.turn()
	left, inner := textRim, t.Width-2*textRim
	size := paper.SizeBody
	if t.Width < 180 {
		size = 9
	}
	y := ringRim + ringSide/2 + 13
	p.Text(left, y, 18, bold, "Printer test")
	y = t.paragraphs(p, left, y+1, inner, size, []string{
		"Print both pages on one sheet: at actual size (100 %), on both sides, turned over the " + this +
			". Then look at three things.",
		"1. Size. Each ruler is 100 mm (3 15/16 in) long, from end to end. If not, the program that prints shrinks " +
			"the page: take “actual size”.",
	})
	y += 1.5
	drawRuler(p, left, y, false)
	drawRuler(p, left, y+8.5, true)
	t.paragraphs(p, left+22, y+9, inner-22, size, []string{
		fmt.Sprintf("2. Rim. At the middle of each edge stand lines, %d to 1 mm from the edge. The smallest number "+
			"whose line is printed wholly is the rim that this printer leaves. Placards reckon with %g mm: write "+
			"margin = \"… mm\" under [print] where it is more.", combSteps, printMargin(t.plan)),
		"3. Backs. Hold the sheet against the light: at every corner the cross of the back must lie on the cross of " +
			"the front, and letter on letter, A on A. A circle's radius is 7 mm, a step of the cross 1 mm: where " +
			"they lie apart, read how far.",
		"If A lies on another letter, the printer turns the sheet over the other edge: change that in the printer's " +
			"window, or write turn under [print] as the back of this page says.",
	})
	t.combs(p)
	t.Footer("Printer test", 2)
}

// back has the same rings where they fall on those of the front.
func (t *printerTest) back(p *paper.Pen) {
	t.rings(p, true)
	left, inner := textRim, t.Width-2*textRim
	this, other := t.turn()
	y := ringRim + ringSide/2 + 16
	p.Text(left, y, 18, bold, "Printer test, the back")
	t.paragraphs(p, left, y+2, inner, 10, []string{
		"This page was made for a printer that turns the sheet over its " + this + ".",
		"If A lies on A, B on B, C on C and D on D, and all letters of the front and of the back stand upright, it " +
			"does. If not, it turns the sheet over its " + other + ": write turn = \"" + other + "\" under [print], " +
			"or choose “" + this + "” in the printer's window, and print this test again.",
	})
}

func (t *printerTest) paragraphs(p *paper.Pen, x, y, width, size float64, texts []string) float64 {
	for _, text := range texts {
		y = p.TextLines(x, y, size, regular, regular.Wrap(text, size, width)) + 1.5
	}
	return y
}

// drawRuler draws a bar of rulerLength with its ticks inside, so that its ends are the measure's.
func drawRuler(p *paper.Pen, x, y float64, down bool) {
	const bar, hair, size = 0.4, 0.12, 7.0
	p.Fill(black)
	fill := func(along, across, length, width float64) {
		if down {
			p.Filled(x+across, y+along, width, length)
		} else {
			p.Filled(x+along, y+across, length, width)
		}
	}
	fill(0, 0, rulerLength, bar)
	for mm := 0; mm <= rulerLength; mm++ {
		long := 1.6
		switch {
		case mm%10 == 0:
			long = 3.6
		case mm%5 == 0:
			long = 2.5
		}
		fill(min(max(float64(mm)-hair/2, 0), rulerLength-hair), bar, hair, long)
		if mm%10 != 0 {
			continue
		}
		words := strconv.Itoa(mm)
		if down {
			p.Text(x+5, min(max(y+float64(mm)+paper.CapHeight(size)/2, y+paper.CapHeight(size)), y+rulerLength), size,
				regular, words)
		} else {
			p.Text(x+min(max(float64(mm)-regular.Width(size, words)/2, 0), rulerLength-regular.Width(size, words)),
				y+7, size, regular, words)
		}
	}
	if !down {
		p.Text(x+rulerLength+1.5, y+7, size, regular, "mm")
	}
}

// combs are lines at every whole millimetre from each edge, side by side, with their numbers.
func (t *printerTest) combs(p *paper.Pen) {
	const hair, size = 0.15, 6.0
	p.Fill(black)
	all := float64(combSteps) * combLength
	for n := 1; n <= combSteps; n++ {
		at := float64(n-1) * combLength
		d, words := float64(n), strconv.Itoa(n)
		x, y := (t.Width-all)/2+at, (t.Height-all)/2+at
		p.Filled(x, d, combLength, hair)
		p.TextMiddle(x+combLength/2, combSteps+4, size, regular, words)
		p.Filled(x, t.Height-d-hair, combLength, hair)
		p.TextMiddle(x+combLength/2, t.Height-combSteps-2.4, size, regular, words)
		p.Filled(d, y, hair, combLength)
		p.TextMiddle(combSteps+3, y+combLength/2+paper.CapHeight(size)/2, size, regular, words)
		p.Filled(t.Width-d-hair, y, hair, combLength)
		p.TextMiddle(t.Width-combSteps-3, y+combLength/2+paper.CapHeight(size)/2, size, regular, words)
	}
}
