package sheets

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/stock"
	"everyseat/seating/say"
)

// tallied reads the lines of figures that begin with one of the names; – is none.
func tallied(t *testing.T, text string, names map[string]bool) map[string][]int {
	t.Helper()
	out := map[string][]int{}
	for _, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		for n := len(words) - 1; n > 0; n-- {
			name := strings.Join(words[:n], " ")
			if !names[name] {
				continue
			}
			var counts []int
			for _, w := range words[n:] {
				v, err := strconv.Atoi(strings.ReplaceAll(strings.ReplaceAll(w, "–", "0"), ",", ""))
				if err != nil {
					counts = nil
					break
				}
				counts = append(counts, v)
			}
			if counts != nil {
				out[name] = append(out[name], counts...)
			}
		}
	}
	return out
}

// The tally's lines are the hands counted anew: kind by row, section and in all, with their sums.
func TestTallyCountsTheHands(t *testing.T) {
	for _, name := range []string{"lantern", "two cards", "bonded", "many cues", "shirts"} {
		p := samples[name].plan(t)
		want, names := map[string][]int{}, map[string]bool{}
		all := make([]int, len(p.Cards)+1)
		for _, section := range p.Stands.Sections {
			sum := make([]int, len(p.Cards)+1)
			for _, row := range section.Rows {
				cards, ids := rowByHand(p, section.Name+"-"+row.Name)
				line := make([]int, len(p.Cards)+1)
				for c := range p.Cards {
					line[c] = cards[p.Cards[c].ID]
					line[len(p.Cards)] += line[c]
				}
				for c := range line {
					sum[c] += line[c]
					all[c] += line[c]
				}
				if len(ids) > 0 {
					want[section.Name+"-"+row.Name] = line
				}
			}
			if sum[len(p.Cards)] > 0 {
				want["Section "+section.Name] = sum
			}
		}
		want["All sections"] = all
		for n := range want {
			names[n] = true
		}
		got := tallied(t, judge(t, "pdftotext", "-raw", onPaper(t, "tally.pdf", p), "-"), names)
		for n, line := range want {
			if !slices.Equal(got[n], line) {
				t.Errorf("%s: %s counts %v, want %v", name, n, got[n], line)
			}
		}
	}
}

// What is to be bought is the plan's bill: sheets by colour, packs, money; and the spares that stand beside the
// sections are those that the bill pays for.
func TestTallyIsTheBill(t *testing.T) {
	p := inHall(t, nil)
	text := judge(t, "pdftotext", "-raw", onPaper(t, "tally.pdf", p), "-")
	bill := p.Bill
	spares := tallied(t, text, map[string]bool{"All spares": true})["All spares"]
	for _, l := range bill.Lines {
		c := p.Stunt.Colours[l.Colour]
		line := " " + strings.Join([]string{strconv.Itoa(l.Cards), strconv.Itoa(l.Spares), strconv.Itoa(l.Cards + l.Spares)}, " ") + " "
		if !strings.Contains(text, c.Name+line) {
			t.Errorf("%s has no line with%s", c.Name, line)
		}
		if spares[l.Colour] != l.Spares {
			t.Errorf("%s: %d spares beside the sections, %d on the bill", c.Name, spares[l.Colour], l.Spares)
		}
	}
	if cents := bill.GoodsCents; cents == 0 || !strings.Contains(text, strconv.Itoa(cents/100)+"."+strconv.Itoa(cents%100 + 100)[1:]+"\n") {
		t.Errorf("the sum %d does not stand on the sheet", cents)
	}
	s := hall()
	s.Cues, s.Colours[1].PriceCents = s.Cues[:1], 0
	unpriced, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	if text := saidOn(t, "tally.pdf", unpriced); !strings.Contains(text, "not known") {
		t.Error("a missing price is not said")
	}
	if stock.Spares(1) != 5 || stock.Spares(101) != 11 {
		t.Error("spares are not a tenth and five at least")
	}
}

// Where all sheets are in stock, the tally and the packet say in words that nothing is to be paid.
func TestNothingToBuy(t *testing.T) {
	s := hall()
	for i := range s.Colours {
		s.Colours[i].Sheets, s.Colours[i].Pack, s.Colours[i].PriceCents = 5000, 50, 1199
	}
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	if p.Bill.GoodsCents != 0 {
		t.Fatalf("the bill is %d", p.Bill.GoodsCents)
	}
	for file, want := range map[string]string{"tally.pdf": "nothing", "packet.pdf": "nothing to buy: all " + say.Thousands(p.Bill.Sheets) + " sheets"} {
		if text := saidOn(t, file, p); !strings.Contains(text, want) || strings.Contains(text, " 0.00") {
			t.Errorf("%s lacks %q or has a sum of nothing", file, want)
		}
	}
}
