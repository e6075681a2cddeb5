package sheets

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// PerFile is how many placards one file holds at most.
const PerFile = 2000

// Margins of a placard sheet in millimetres: what a copier leaves white, and the footer.
const (
	edgeMargin   = 7.0
	footerMargin = 12.0
)

// mostPerSheet bounds [print] per_sheet.
const mostPerSheet = 12

// Check says whether the sheets of the plan can be printed, before anything is written:
// paper, placards a sheet, and every character. The error is a *seating.Fault.
func Check(p *mosaic.Plan) error {
	if err := checkType(p); err != nil {
		return err
	}
	_, err := newLabels(p)
	return err
}

// Placards puts placards-SECTION.pdf for every section that gets cards (or
// -1, -2 … over PerFile placards). Each file goes through the section in
// laying order: before every row a slip that says how many cards of each
// colour the row takes, then a placard for every seat that gets a card. Errors
// are *seating.Fault for what the stunt asks and cannot be printed.
func Placards(p *mosaic.Plan, put func(name string, write func(io.Writer) error) error) error {
	if err := checkType(p); err != nil {
		return err
	}
	l, err := newLabels(p)
	if err != nil {
		return err
	}
	for _, rows := range laid(p) {
		files := splitFiles(rows)
		base := "placards-" + seating.FileName(p.Stands.Sections[rows[0].section].Name)
		for i, part := range files {
			name := base + ".pdf"
			if len(files) > 1 {
				name = base + "-" + strconv.Itoa(i+1) + ".pdf"
			}
			if err := put(name, func(w io.Writer) error { return l.file(part, w) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// splitFiles shares the rows out over files of at most PerFile placards, whole rows where they fit.
func splitFiles(rows []rowWork) [][]rowWork {
	var files [][]rowWork
	room := 0
	for _, row := range rows {
		for _, piece := range splitRow(row) {
			if piece.placards > room || len(files) == 0 {
				files = append(files, nil)
				room = PerFile
			}
			files[len(files)-1] = append(files[len(files)-1], piece)
			room -= piece.placards
		}
	}
	// A section without any card needs no paper.
	if len(files) == 1 && room == PerFile {
		return nil
	}
	return files
}

// splitRow cuts a row of more than PerFile seats into pieces that fit a file each.
func splitRow(row rowWork) []rowWork {
	if row.placards <= PerFile {
		return []rowWork{row}
	}
	var pieces []rowWork
	for from := 0; from < len(row.seats); from += PerFile {
		to := min(from+PerFile, len(row.seats))
		piece := row
		piece.seats, piece.kits = row.seats[from:to], row.kits[from:to]
		piece.cards, piece.placards = make([]int, len(row.cards)), 0
		for _, kit := range piece.kits {
			for _, c := range kit {
				piece.cards[c]++
			}
			if len(kit) > 0 {
				piece.placards++
			}
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// labels is the design of the placards of one plan: everything that all of its files share.
type labels struct {
	plan    *mosaic.Plan
	paper   Paper
	columns int
	rows    int
	width   float64 // of one placard, millimetres
	height  float64
	letters []string

	body   float64 // type sizes, points
	words  float64
	idMost float64
	panel  float64 // width of the patches on the right, millimetres
	top    float64 // height of the part with the id and the patches
	across int     // columns of cues
	care   []string
}

const (
	labelPad    = 3.5  // between cut and print
	arrowWidth  = 11.0 // of the UP arrow
	leastIDRoom = 8.5  // millimetres of height that the id needs to be read at arm's length
	columnGap   = 4.0
	cueLeading  = 1.1 // of the line height
)

func newLabels(p *mosaic.Plan) (*labels, error) {
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return nil, err
	}
	n := p.Stunt.Print.PerSheet
	if n == 0 {
		n = 4
	}
	if n < 1 || n > mostPerSheet {
		return nil, &seating.Fault{Key: "print.per_sheet", What: fmt.Sprintf("%d placards a sheet cannot be printed", n),
			Hint: fmt.Sprintf("1 to %d; 4 is usual", mostPerSheet)}
	}
	l := &labels{plan: p, paper: paper, columns: 1, rows: n, letters: colourLetters(p.Stunt.Colours)}
	usable := paper.Height - edgeMargin - footerMargin
	if usable/float64(n) < 29 {
		l.columns, l.rows = 2, (n+1)/2
	}
	l.width = (paper.Width - 2*edgeMargin) / float64(l.columns)
	l.height = usable / float64(l.rows)
	return l, l.fit(n)
}

// fit shares the height of a placard out between the id, the seat in words, the cues and the care lines.
func (l *labels) fit(perSheet int) error {
	scale := min(l.height/64, l.width/200*1.8)
	inner := l.width - 2*labelPad
	l.panel = inner * 0.27
	cues := len(l.plan.Cues)
	// Names of cues stay whole in one column, so small type comes before more columns.
	for across := 1; across <= 3; across++ {
		least := [...]float64{1: 9.5, 2: 8.5, 3: 7}[across]
		for l.body = max(least, min(10.5*scale, 18)); l.body >= least; l.body -= 0.5 {
			l.words = l.body * 1.45
			l.care = wrapText(careWords(l.plan), l.body, regular, inner)
			l.across = across
			lines := (cues + across - 1) / across
			l.top = l.height - 2*labelPad - lineHeight(l.words) -
				float64(len(l.care))*lineHeight(l.body) - float64(lines)*lineHeight(l.body)*cueLeading
			if l.top >= max(leastIDRoom, l.height*0.3) || across == 3 && l.top >= leastIDRoom {
				l.top = min(l.top, 62)
				l.idMost = l.top * 0.8 / capHeight * pointsPerMM
				return nil
			}
		}
	}
	return &seating.Fault{Key: "print.per_sheet",
		What: fmt.Sprintf("a placard with %s has no room at %d a sheet", plural(cues, "cue"), perSheet),
		Hint: "fewer placards a sheet, or larger paper"}
}

func careWords(p *mosaic.Plan) string {
	return heldWords(p) + " Arrow up, this label towards you, the colour towards the camera." +
		" Lower it when you are told. Keep it for a second take. Do not throw it."
}

// file prints one file of placards.
func (l *labels) file(rows []rowWork, w io.Writer) error {
	section := &l.plan.Stands.Sections[rows[0].section]
	d := newDocument("Placards, section "+section.Name, l.paper.Width, l.paper.Height)
	s := &strip{labels: l, doc: d, pages: l.pages(rows), section: section.Name}
	for i := range rows {
		l.slip(s, &rows[i])
		for k, seat := range rows[i].seats {
			if len(rows[i].kits[k]) > 0 {
				l.placard(s, int(seat), rows[i].kits[k])
			}
		}
	}
	return d.write(w)
}

func (l *labels) perPage() int { return l.columns * l.rows }

func (l *labels) pages(rows []rowWork) int {
	n := 0
	for i := range rows {
		n += 1 + rows[i].placards
	}
	return (n + l.perPage() - 1) / l.perPage()
}

// strip deals out the places on the sheets one after the other: down a column, then the next.
type strip struct {
	labels  *labels
	doc     *document
	pages   int
	section string
	used    int
}

// next is the top left corner of the next place, and the pen of its page.
func (s *strip) next() (p *pen, x, y float64) {
	l := s.labels
	at := s.used % l.perPage()
	if at == 0 {
		l.sheet(s, s.doc.addPage())
	}
	s.used++
	return &s.doc.page, edgeMargin + float64(at/l.rows)*l.width, edgeMargin + float64(at%l.rows)*l.height
}

// sheet draws what a page has besides its placards: cut lines and footer.
func (l *labels) sheet(s *strip, p *pen) {
	cuts := s.doc.stamp("cuts", l.paper.Width, l.paper.Height, func(p *pen) { l.cuts(p) })
	s.doc.show(cuts, 0, 0)
	p.inkColour(black)
	s.doc.footer(l.plan, "Placards, section "+s.section, s.pages)
}

func (l *labels) cuts(p *pen) {
	p.lineColour(grey)
	p.lineWidth(0.15)
	p.dashed(2, 1.5)
	for r := 0; r <= l.rows; r++ {
		y := edgeMargin + float64(r)*l.height
		p.line(0, y, l.paper.Width, y)
	}
	for c := 1; c < l.columns; c++ {
		x := edgeMargin + float64(c)*l.width
		p.line(x, edgeMargin, x, edgeMargin+float64(l.rows)*l.height)
	}
	p.solid()
}

// placard is the label of one seat. What many seats share is a stamp.
func (l *labels) placard(s *strip, seat int, kit []int16) {
	p, x, y := s.next()
	shared := s.doc.stamp(l.showing(seat), l.width, l.height, func(p *pen) { l.shared(p, seat, kit) })
	s.doc.show(shared, x, y)

	st := l.plan.Stands
	id := st.ID(seat)
	left := x + labelPad + arrowWidth + 4
	room := l.width - 2*labelPad - arrowWidth - 8 - l.panel
	size := sizeFor(id, bold, room, l.idMost)
	p.text(left, y+labelPad+l.top/2+capMM(size)/2, size, bold, id)
	words := l.inWords(seat)
	inner := l.width - 2*labelPad
	size = max(sizeFor(words, regular, inner, l.words), l.body)
	p.text(x+labelPad, y+labelPad+l.top+lineHeight(l.words)*0.85, size, regular, shortenText(words, size, regular, inner))
}

// inWords is the seat in words.
func (l *labels) inWords(seat int) string {
	s := &l.plan.Stands.Seats[seat]
	section := &l.plan.Stands.Sections[s.Section]
	words := fmt.Sprintf("Section %s, row %s, seat %d", section.Name, section.Rows[s.Row].Name, s.Number)
	if s.For != "" {
		words += " (" + s.For + ")"
	}
	return words
}

// showing names what a seat shows cue by cue; seats that show the same share a stamp.
func (l *labels) showing(seat int) string {
	var b strings.Builder
	for cue := range l.plan.Hands {
		h := l.plan.Hands[cue][seat]
		fmt.Fprintf(&b, "%d.%d ", h.Card, h.Side)
	}
	return b.String()
}

// shared draws the arrow, the patches, the cues and the care lines.
func (l *labels) shared(p *pen, seat int, kit []int16) {
	p.inkColour(black)
	const up = 8.5 // points
	p.upArrow(labelPad, labelPad, arrowWidth, l.top-capMM(up)-2.2)
	p.textMiddle(labelPad+arrowWidth/2, labelPad+l.top-1, up, bold, "UP")
	l.patches(p, l.width-labelPad-l.panel, labelPad, kit)

	y := labelPad + l.top + lineHeight(l.words) + lineHeight(l.body)*0.95
	inner := l.width - 2*labelPad
	width := (inner - columnGap*float64(l.across-1)) / float64(l.across)
	lines := (len(l.plan.Cues) + l.across - 1) / l.across
	for cue := range l.plan.Cues {
		x := labelPad + float64(cue/lines)*(width+columnGap)
		l.cue(p, x, y+float64(cue%lines)*lineHeight(l.body)*cueLeading, width, seat, cue)
	}
	y += float64(lines-1)*lineHeight(l.body)*cueLeading + lineHeight(l.body)*cueLeading
	for i, line := range l.care {
		p.text(labelPad, y+float64(i)*lineHeight(l.body), l.body, regular, line)
	}
}

// patches shows the cards of the kit, each with its colours and its name.
func (l *labels) patches(p *pen, x, y float64, kit []int16) {
	const most = 4
	show := kit[:min(len(kit), most)]
	gap := 2.0
	w := (l.panel - gap*float64(len(show)-1)) / float64(len(show))
	caption := min(l.words, 15)
	h := l.top - lineHeight(caption)*0.9
	for i, c := range show {
		card := l.plan.Cards[c]
		cx := x + float64(i)*(w+gap)
		if card.Sides[0] == card.Sides[1] {
			l.patch(p, cx, y, w, h, card.Sides[0])
		} else {
			l.patch(p, cx, y, w/2, h, card.Sides[0])
			l.patch(p, cx+w/2, y, w/2, h, card.Sides[1])
		}
		size := sizeFor(card.ID, bold, w, caption)
		p.textMiddle(cx+w/2, y+l.top, size, bold, card.ID)
	}
}

func (l *labels) patch(p *pen, x, y, w, h float64, index int16) {
	p.swatch(x, y, w, h, int(index), l.plan.Stunt.Colours[index].RGB, l.letters[index])
}

// cue says what to do at one cue.
func (l *labels) cue(p *pen, x, y, width float64, seat, cue int) {
	c := &l.plan.Cues[cue]
	name := "Cue " + strconv.Itoa(cue+1)
	if len(l.plan.Cues) == 1 {
		name = "Cue"
	}
	if c.Name != "" {
		name += " " + c.Name
	}
	if c.At != "" {
		name += " (" + c.At + ")"
	}
	do := l.doWords(l.plan.Hands[cue][seat])
	room := width - textWidth(l.body, bold, do) - textWidth(l.body, regular, ":  ")
	name = shortenText(name, l.body, regular, max(room, 12)) + ": "
	p.text(x, y, l.body, regular, name)
	p.text(x+textWidth(l.body, regular, name), y, l.body, bold, do)
}

func (l *labels) doWords(h mosaic.Hold) string {
	if h.Card < 0 {
		return "show no card"
	}
	card := l.plan.Cards[h.Card]
	colour := l.plan.Stunt.Colours[card.Sides[h.Side]].Name
	if card.Sides[0] == card.Sides[1] {
		return "show " + colour
	}
	return "show " + colour + " (card " + card.ID + ", side " + sideName(h.Side) + ")"
}

// sideName is what paper and tables call a side of a card: A is the first colour of its name, B the second.
func sideName(side int8) string { return string(rune('A' + side)) }

// slip opens a row: how many cards of each colour, where to start, in which order, what stays empty.
func (l *labels) slip(s *strip, row *rowWork) {
	p, x, y := s.next()
	inner := l.width - 2*labelPad
	x += labelPad
	bar := capMM(l.words) * 2.1
	p.fillColour(black)
	p.filled(x, y+labelPad, inner, bar)
	p.inkColour(white)
	base := y + labelPad + bar/2 + capMM(l.words)/2
	after := plural(row.placards, "label") + " after this slip"
	p.textRight(x+inner-2, base, l.words, regular, after)
	name := "ROW " + row.name(l.plan)
	p.text(x+2, base, sizeFor(name, bold, inner-8-textWidth(l.words, regular, after), l.words), bold, name)
	p.inkColour(black)

	top := y + labelPad + bar
	room := l.height - 2*labelPad - bar
	size, lines := l.slipLines(row, inner, room)
	y = top + lineHeight(size)*0.4
	for _, line := range lines {
		y += lineHeight(line.size)
		p.text(x, y, line.size, line.weight, line.text)
	}
}

// slipLine is one line of a slip as it is printed.
type slipLine struct {
	text   string
	size   float64
	weight weight
}

// slipLines sets the slip as large as the place allows; what can be read on the row's
// strip too is left out where it does not fit.
func (l *labels) slipLines(row *rowWork, width, room float64) (size float64, lines []slipLine) {
	count := cardCount(l.plan, row.cards)
	rest := []string{"Nothing is laid in this row."}
	if row.placards > 0 {
		rest = []string{
			startWords(l.plan.Stunt.Laying.Pass, row.leftToRight(l.plan)) + " " + l.walk(row),
			labelWords(row) + l.inOrder(row) + ".",
			l.idle(row),
		}
	}
	for size = min(l.body*1.5, 16); ; size -= 0.5 {
		lines = lines[:0]
		for _, t := range wrapText(count, size*1.35, bold, width) {
			lines = append(lines, slipLine{t, size * 1.35, bold})
		}
		for _, words := range rest {
			for _, t := range wrapText(words, size, regular, width) {
				lines = append(lines, slipLine{t, size, regular})
			}
		}
		high := lineHeight(size) * 0.4
		for _, t := range lines {
			high += lineHeight(t.size)
		}
		if high <= room {
			return size, lines
		}
		if size <= 7 && len(rest) > 1 {
			rest = rest[:len(rest)-1]
			size = l.body
		}
	}
}

// inOrder is the row's runs in laying order; gaps are left out, see idle.
func (l *labels) inOrder(row *rowWork) string {
	var list []place
	for k, seat := range row.seats {
		if len(row.kits[k]) > 0 {
			list = append(list, place{seat, row.kits[k]})
		}
	}
	return runWords(runsOf(l.plan, list))
}

// walk names the first and the last seat that get a card.
func (l *labels) walk(row *rowWork) string {
	first, last := -1, -1
	for k := range row.seats {
		if len(row.kits[k]) > 0 {
			if first < 0 {
				first = k
			}
			last = k
		}
	}
	seats := l.plan.Stands.Seats
	return fmt.Sprintf("First seat %d, last seat %d.", seats[row.seats[first]].Number, seats[row.seats[last]].Number)
}

// idle lists the seats that get nothing, with the reason.
func (l *labels) idle(row *rowWork) string {
	var parts []string
	for k, seat := range row.seats {
		if len(row.kits[k]) == 0 {
			s := &l.plan.Stands.Seats[seat]
			parts = append(parts, fmt.Sprintf("%d (%s)", s.Number, idleWord(s)))
		}
	}
	missing := l.plan.Stands.Sections[row.section].Rows[row.row].Places - len(row.seats)
	words := ""
	if len(parts) > 0 {
		const most = 12
		more := ""
		if len(parts) > most {
			more = " and " + strconv.Itoa(len(parts)-most) + " more, see the row's strip"
			parts = parts[:most]
		}
		words = "Lay nothing on seat " + strings.Join(parts, ", ") + more + "."
	}
	if missing > 0 {
		words = strings.TrimSpace(words + " " + plural(missing, "place") + " in this row has no seat.")
	}
	return strings.Replace(words, "places in this row has", "places in this row have", 1)
}
