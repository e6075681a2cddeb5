package sheets

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
)

var spareTitle = regexp.MustCompile(`SPARE (\S+), section ([^\s.]+)`)

// Printed cards have their spares on paper: as many of each colour for each section as tally.pdf says are kept, and
// as the bill pays for.
func TestSpareCards(t *testing.T) {
	for _, tiled := range []bool{false, true} {
		s := hall()
		s.Card.Kind, s.Print.Placards = mosaic.Printed, mosaic.FullColoured
		if tiled {
			s.Card.Width, s.Card.Height, s.Print.Tile = 2*s.Card.Width, 2*s.Card.Height, true
		}
		p, err := mosaic.Make(s)
		if err != nil {
			t.Fatal(err)
		}
		dir, names := placardFiles(t, p)
		if names[len(names)-1] != "spares.pdf" {
			t.Fatalf("files %v", names)
		}
		file := filepath.Join(dir, "spares.pdf")
		judge(t, "qpdf", "--check", file)
		found := map[[2]string]int{}
		for _, m := range spareTitle.FindAllStringSubmatch(strings.Join(strings.Fields(judge(t, "pdftotext", "-raw", file, "-")), " "), -1) {
			found[[2]string{m[2], m[1]}]++
		}
		kept := map[string]bool{}
		for k := range p.Stands.Sections {
			kept[p.Stands.Sections[k].Name] = true
		}
		_, text, _ := strings.Cut(judge(t, "pdftotext", "-raw", onPaper(t, "tally.pdf", p), "-"), "Spares to keep beside each section")
		text, _, _ = strings.Cut(text, "Cards in people's hands")
		total := 0
		for section, counts := range tallied(t, text, kept) {
			for c, n := range counts {
				// A piece's note names its spare too: four pieces a card, and its label once.
				times := 1
				if tiled {
					times += p.SheetsPerCard()
				}
				if got := found[[2]string{section, p.Stunt.Colours[c].Name}]; got != n*times {
					t.Errorf("tiled %v: section %s has %d spares of %s, its tally says %d", tiled, section, got/times, p.Stunt.Colours[c].Name, n)
				}
				total += n
			}
		}
		if total != p.Bill.Spares || total == 0 {
			t.Errorf("tiled %v: %d spares, the bill has %d", tiled, total, p.Bill.Spares)
		}
	}
}

// The sheets in people's hands, counted seat by seat, are those of the table of what to buy, however the cards are made;
// spoiled ones and spares come on top, and the cards to make are all of them.
func TestInHandsAreInHands(t *testing.T) {
	for _, making := range []mosaic.CardKind{mosaic.Sheet, mosaic.Bonded, mosaic.Printed} {
		s := hall()
		s.Card.Kind = making
		if making == mosaic.Printed {
			s.Print.Placards = mosaic.FullColoured
		}
		p, err := mosaic.Make(s)
		if err != nil {
			t.Fatal(err)
		}
		held, cards := map[int]int{}, 0
		var kit []int16
		for seat := range p.Stands.Seats {
			kit = p.CardsOf(kit[:0], int32(seat))
			cards += len(kit)
			for _, c := range kit {
				sides := p.Cards[c].Sides
				held[int(sides[0])]++
				if sides[1] != sides[0] {
					held[int(sides[1])]++
				}
			}
		}
		if making == mosaic.Printed {
			held = map[int]int{-1: cards}
		}
		text := judge(t, "pdftotext", "-raw", onPaper(t, "tally.pdf", p), "-")
		b := p.Bill
		for _, l := range b.Lines {
			name := "white card to print on"
			if l.Colour >= 0 {
				name = p.Stunt.Colours[l.Colour].Name
			}
			m := regexp.MustCompile(regexp.QuoteMeta(name) + ` ([\d,]+) `).FindStringSubmatch(text)
			if m == nil || strings.ReplaceAll(m[1], ",", "") != strconv.Itoa(held[l.Colour]) {
				t.Errorf("%s: %d of %s are in hands, the tally says %v", making, held[l.Colour], name, m)
			}
		}
		if b.Cards != cards+b.Spoiled+b.Spares {
			t.Errorf("%s: %d cards to make, %d in hands, %d spoiled, %d spare", making, b.Cards, cards, b.Spoiled, b.Spares)
		}
		if b.Minutes > 0 && !strings.Contains(strings.Join(strings.Fields(text), " "), fmt.Sprintf("Make cards %d cards", b.Cards)) {
			t.Errorf("%s: the hours do not make %d cards", making, b.Cards)
		}
	}
}
