package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Deal writes deal.pdf: how the row bags are made up from the stacks of cards, bag by bag in laying
// order, what must be left of every stack after each section, and a label to cut out for every
// bag. Errors are *seating.Fault.
func Deal(w io.Writer, p *mosaic.Plan) error {
	f, err := uprightFlow(p, "Dealing the row bags")
	if err != nil {
		return err
	}
	d := newDealing(f)
	f.title("Dealing: from the stacks to the row bags", occasion(p))
	if d.bags == 0 {
		f.paragraph("No row gets a card in this plan.", 12)
		return f.finish(w)
	}
	d.stacks()
	d.howTo()
	number := 0
	for _, rows := range d.sections {
		if !anyCards(rows) {
			continue
		}
		f.need(45) // a heading and its first bag stay together
		f.heading("Section " + p.Stands.Sections[rows[0].section].Name)
		last := lastBag(rows)
		for i := range rows {
			if rows[i].placards > 0 {
				number++
				d.bag(number, &rows[i], i == last)
			}
		}
		d.check(p.Stands.Sections[rows[0].section].Name)
	}
	d.bagLabels()
	return f.finish(w)
}

// dealing is the sheet with what it keeps count of.
type dealing struct {
	*flow
	sections [][]rowWork
	bags     int
	remain   []int // cards left of every stack
	total    int
}

func newDealing(f *flow) *dealing {
	d := &dealing{flow: f, sections: laid(f.plan), remain: make([]int, len(f.plan.Cards))}
	for _, rows := range d.sections {
		for i := range rows {
			for c, n := range rows[i].cards {
				d.remain[c] += n
				d.total += n
			}
			if rows[i].placards > 0 {
				d.bags++
			}
		}
	}
	return d
}

// stacks says what to set out before the first bag.
func (d *dealing) stacks() {
	d.heading("Set out these stacks, and count each of them once")
	if d.printed() {
		d.sectionStacks()
		return
	}
	var rows [][]cell
	for c, n := range d.remain {
		if n == 0 {
			continue
		}
		card := d.plan.Cards[c]
		sides := "one colour: " + d.plan.Stunt.Colours[card.Sides[0]].Name
		if card.Sides[0] != card.Sides[1] {
			sides = "side A " + d.plan.Stunt.Colours[card.Sides[0]].Name + ", side B " + d.plan.Stunt.Colours[card.Sides[1]].Name
		}
		look := cell{text: card.ID, bold: true, colour: int(card.Sides[0]) + 1}
		if card.Sides[0] != card.Sides[1] {
			look.other = int(card.Sides[1]) + 1
		}
		rows = append(rows, []cell{look, {text: sides}, {text: thousands(n), bold: true}, {text: "counted", tick: true}})
	}
	rows = append(rows, []cell{{text: "All stacks", bold: true}, {text: "for " + plural(d.bags, "bag") + "; spares stay in their packs"}, {text: thousands(d.total), bold: true}, {}})
	d.table([]column{{head: "Stack"}, {head: "What it looks like", share: 1}, {head: "Cards", right: true}, {head: ""}}, rows, 10.5)
}

// sectionStacks are those of printed cards, which lie in row order.
func (d *dealing) sectionStacks() {
	var rows [][]cell
	for _, section := range d.sections {
		n := 0
		for i := range section {
			for _, cards := range section[i].cards {
				n += cards
			}
		}
		if n == 0 {
			continue
		}
		rows = append(rows, []cell{{text: "Section " + d.plan.Stands.Sections[section[0].section].Name, bold: true},
			{text: "the printed cards in row order, the first row on top"}, {text: thousands(n), bold: true}, {text: "counted", tick: true}})
	}
	rows = append(rows, []cell{{text: "All stacks", bold: true}, {text: "for " + plural(d.bags, "bag") + "; the spares of spares.pdf stay apart"}, {text: thousands(d.total), bold: true}, {}})
	d.table([]column{{head: "Stack"}, {head: "What it holds", share: 1}, {head: "Cards", right: true}, {head: ""}}, rows, 10.5)
}

func (d *dealing) howTo() {
	d.heading("How to deal")
	steps := []string{
		"Take the bags in this order. One reads the line aloud, one takes the cards, one counts.",
		"Take the cards of a bag in the order of its line, and put each one on the last: " + d.lineWords(),
		"Turn the finished pile over: the card of the first seat is now on top. Count the pile against its check count, tick, and lay the row's strip on top.",
		"Close the bag and stick its label on. After every section count what is left of the stacks: if it is not what the sheet says, the fault is in that section and nowhere before.",
	}
	order, at := d.printedOrder()
	for i, s := range append(d.making(), slices.Insert(steps, at, order...)...) {
		d.item(strconv.Itoa(i+1)+".", s, sizeBody)
	}
}

// lineWords explain the line of a bag by examples.
func (d *dealing) lineWords() string {
	card := d.plan.Cards[0]
	words := "“3 " + card.ID + "” is three cards from the stack " + card.ID + "."
	if d.printed() {
		words = "“3 " + card.ID + "” is three cards, both sides " + d.colour(0, 0) + "."
		if card.Sides[0] != card.Sides[1] {
			words = "“3 " + card.ID + "” is three cards, side A " + d.colour(0, 0) + " and side B " + d.colour(0, 1) + "."
		}
	}
	for _, rows := range d.sections {
		for i := range rows {
			for _, kit := range rows[i].kits {
				if len(kit) < 2 {
					continue
				}
				name := kitName(d.plan, kit)
				var order []string
				for range 2 {
					for _, c := range kit {
						order = append(order, d.plan.Cards[c].ID)
					}
				}
				return words + fmt.Sprintf(" “2 × (%s)” is for two people %d cards each, in this order: %s. They stay together.", name, len(kit), strings.Join(order, ", "))
			}
		}
	}
	return words
}

func (d *dealing) colour(card, side int) string {
	return d.plan.Stunt.Colours[d.plan.Cards[card].Sides[side]].Name
}

// printed says whether the cards come out of the printer whole, in row order.
func (d *dealing) printed() bool { return d.plan.Stunt.Print.Placards == mosaic.FullColoured }

// making says how cards of two colours are put together; those that are printed come so out of the printer.
func (d *dealing) making() []string {
	if !twoColoured(d.plan) || d.plan.Stunt.Card.Kind == mosaic.Printed {
		return nil
	}
	if d.plan.Stunt.Print.Placards == mosaic.OnStock {
		return []string{"Make the cards of two colours before anything else: the two sheets that name the same seat and the same card are glued back to back, print outside, both arrows up. A colour on which black cannot be read has no print there: take a bare sheet of it. Keep every stack in row order."}
	}
	return []string{"Make the cards of two colours before anything else: a sheet of each colour glued back to back, as many of each card as its stack has. Cards that go wrong are made again; spares are not glued: they stay single sheets of one colour."}
}

// printedOrder says when labels go on, and what order printed cards keep; at is the step before which that belongs.
func (d *dealing) printedOrder() (steps []string, at int) {
	switch d.plan.Stunt.Print.Placards {
	case mosaic.OnStock:
		steps = []string{"The printed stacks stay in the order in which they were printed, the first row on top, and are dealt from the top: the next card of a stack is the next seat's, and its label names the row of the bag."}
		if labels, _ := d.plan.Sticking(); labels > 0 {
			steps = append([]string{"Stick the white labels on before dealing, a stack at a time and in their printed order, one on each card where their banner page says: then that stack too lies in row order."}, steps...)
		}
		return steps, 0
	case mosaic.FullColoured:
		return []string{"The printed cards lie in row order already, whatever their colours. Leave them so, in one stack a section, its first row on top: each bag takes its next cards from the top, and its line is the check."}, 0
	}
	return []string{"Now this row's labels go on, its slip first: one on each card where the slip says, from the top of the pile in the order in which they were printed; of cards that stay together, on the first. Where a label names another colour than its card, the pile is wrong."}, 3
}

func lastBag(rows []rowWork) int {
	last := -1
	for i := range rows {
		if rows[i].placards > 0 {
			last = i
		}
	}
	return last
}

// bag is one bag: its row, its cards in order, its count. The last one stays with the check after it.
func (d *dealing) bag(number int, row *rowWork, last bool) {
	const size, titleSize = 10.5, 11.5
	lines := wrapText("From the "+startEnd(d.plan, row)+": "+runWords(runsOf(d.plan, dealt(row)))+".", size, regular, d.width())
	count := wrapText("Check count: "+cardCount(d.plan, row.cards), size, bold, d.width()-28)
	height := 3 + lineHeight(titleSize) + float64(len(lines)+len(count))*lineHeight(size)
	if last {
		height += 2 + 2*lineHeight(sizeBody)
	}
	d.need(min(height, 60))
	d.y += lineHeight(titleSize)
	title := "Bag " + strconv.Itoa(number) + ": row " + row.name(d.plan)
	d.pen().text(d.left, d.y, sizeFor(title, bold, d.width(), titleSize), bold, title)
	for _, line := range lines {
		d.need(lineHeight(size))
		d.y += lineHeight(size)
		d.pen().text(d.left, d.y, size, regular, line)
	}
	for i, line := range count {
		d.need(lineHeight(size))
		d.y += lineHeight(size)
		d.pen().text(d.left, d.y, size, bold, line)
		if i == 0 {
			d.tick(d.right-24, d.y-capMM(size)/2)
			d.pen().text(d.right-24+tickSide+1.5, d.y, size, regular, "counted")
		}
	}
	d.y += 1.8
	d.pen().lineColour(grey)
	d.pen().lineWidth(0.12)
	d.pen().line(d.left, d.y, d.right, d.y)
	for c, n := range row.cards {
		d.remain[c] -= n
	}
}

// dealt are the seats that get cards, in laying order.
func dealt(row *rowWork) []place {
	var list []place
	for k, seat := range row.seats {
		if len(row.kits[k]) > 0 {
			list = append(list, place{seat, row.kits[k]})
		}
	}
	return list
}

// startEnd names the end at which the row is begun, and what lies beside it.
func startEnd(p *mosaic.Plan, row *rowWork) string {
	side, name := seating.Right, "RIGHT"
	if row.leftToRight(p) {
		side, name = seating.Left, "LEFT"
	}
	words := name + " end as the camera sees it"
	if n := neighbour(p.Stands, row.section, side); n != "" {
		words += " (" + n + ")"
	}
	return words
}

// check says what must be left of the stacks.
func (d *dealing) check(section string) {
	var parts []string
	left := 0
	for c, n := range d.remain {
		parts = append(parts, strconv.Itoa(n)+glue+d.plan.Cards[c].ID)
		left += n
	}
	text := "After section " + section + " the stacks hold " + strings.Join(parts, ", ") + " = " + plural(left, "card") + "."
	if d.printed() {
		text = "After section " + section + " its stack is used up, and the others hold " + strings.Join(parts, ", ") + " = " + plural(left, "card") + "."
	}
	d.y += 1.5
	lines := wrapText(text, sizeBody, bold, d.width()-28)
	d.need(float64(len(lines)) * lineHeight(sizeBody))
	d.tick(d.right-24, d.y+lineHeight(sizeBody)-capMM(sizeBody)/2)
	d.pen().text(d.right-24+tickSide+1.5, d.y+lineHeight(sizeBody), sizeBody, regular, "counted")
	d.lines(d.left, d.width()-28, text, sizeBody, bold)
	d.y += 2
}

// The bag labels: two columns, as many rows as fit. They are as high as the longest one needs.
const (
	leastBagLabel = 49.0
	bagLabelCols  = 2
	bagLabelName  = 34.0 // points
	bagLabelType  = 9.5
)

// bagWords are what stands below a label's row, line by line.
type bagWords struct {
	lines  []string
	weight []weight
}

func (d *dealing) bagWords(row *rowWork, width float64) (w bagWords) {
	section := &d.plan.Stands.Sections[row.section]
	for _, t := range []struct {
		text string
		w    weight
	}{
		{"Section " + section.Name + ", row " + section.Rows[row.row].Name, regular},
		{"Begin at the " + startEnd(d.plan, row) + ".", regular},
		{cardCount(d.plan, row.cards), bold},
	} {
		for _, line := range wrapText(t.text, bagLabelType, t.w, width) {
			w.lines, w.weight = append(w.lines, line), append(w.weight, t.w)
		}
	}
	return w
}

// bagHead is the height of a label above its words.
func bagHead(name string, width float64) float64 {
	_, down := faces()[bold].reach(name)
	return labelPad + capMM(bagLabelType) + capMM(bagLabelName) + 3.2 + max(1.2, down*sizeFor(name, bold, width, bagLabelName)/pointsPerMM)
}

// bagLabelHigh is the height of all labels, at most half a page's.
func (d *dealing) bagLabelHigh(width float64) float64 {
	high := leastBagLabel
	for _, section := range d.sections {
		for i := range section {
			if section[i].placards > 0 {
				high = max(high, bagHead(section[i].name(d.plan), width)+float64(len(d.bagWords(&section[i], width).lines))*lineHeight(bagLabelType)+bagSigns)
			}
		}
	}
	return min(high, (d.height-footerMargin-edgeMargin-8)/2)
}

// bagSigns is the room for who dealt and who counted, in millimetres.
const bagSigns = 13.0

// bagLabels fills pages with labels to cut out, in the order of the bags.
func (d *dealing) bagLabels() {
	width := (d.document.width - 2*edgeMargin) / bagLabelCols
	top, high := edgeMargin+8.0, d.bagLabelHigh(width-2*labelPad)
	rows := max(1, int((d.height-footerMargin-top)/high))
	n := 0
	for _, section := range d.sections {
		for i := range section {
			if section[i].placards == 0 {
				continue
			}
			at := n % (rows * bagLabelCols)
			if at == 0 {
				d.labelPage(top, width, high, rows)
			}
			n++
			d.bagLabel(edgeMargin+float64(at/rows)*width, top+float64(at%rows)*high, width, high, n, &section[i])
		}
	}
}

// labelPage starts a page and draws where to cut.
func (d *dealing) labelPage(top, width, high float64, rows int) {
	p := d.addPage()
	p.inkColour(black)
	p.text(d.left, edgeMargin+4.5, sizeSmall, regular, "Bag labels: cut along the dashes, one label on each row bag.")
	p.lineColour(grey)
	p.lineWidth(0.15)
	p.dashed(2, 1.5)
	for r := 0; r <= rows; r++ {
		y := top + float64(r)*high
		p.line(0, y, d.document.width, y)
	}
	for c := 1; c < bagLabelCols; c++ {
		p.line(edgeMargin+float64(c)*width, top, edgeMargin+float64(c)*width, top+float64(rows)*high)
	}
	p.solid()
}

// bagLabel is one label: the row as large as it goes, where it is begun, what is inside.
func (d *dealing) bagLabel(x, y, width, high float64, number int, row *rowWork) {
	p := d.pen()
	x, inner := x+labelPad, width-2*labelPad
	base := y + labelPad + capMM(bagLabelType)
	p.text(x, base, bagLabelType, bold, "ROW BAG")
	p.textRight(x+inner, base, bagLabelType, regular, "bag "+strconv.Itoa(number)+" of "+strconv.Itoa(d.bags))
	name := row.name(d.plan)
	p.text(x, base+capMM(bagLabelName)+3.2, sizeFor(name, bold, inner, bagLabelName), bold, name)
	base = y + bagHead(name, inner)
	words := d.bagWords(row, inner)
	for i, line := range words.lines {
		if base += lineHeight(bagLabelType); base > y+high-bagSigns+4.5 {
			break // a kit of very many kinds: the deal sheet has the whole count
		}
		p.text(x, base, bagLabelType, words.weight[i], line)
	}
	d.blank(x, y+high-6.2, inner*0.46, "dealt by")
	d.blank(x+inner*0.52, y+high-6.2, inner*0.48, "counted by")
}
