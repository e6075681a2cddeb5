package mosaic

import (
	"fmt"
	"math/bits"
	"strings"
	"unicode"

	"golang.org/x/text/cases"
	"golang.org/x/text/language"
	"golang.org/x/text/unicode/norm"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// MostCards is how many cards one person can hold and find the right one of
// (common practice, no source).
const MostCards = 8

// handOut gives every seat the cards that show its colours, and counts what they take.
func (p *Plan) handOut() error {
	making := stock.Making(p.Stunt.Card.Kind)
	if err := p.checkHands(making); err != nil {
		return err
	}
	kit, err := p.kit(making)
	if err != nil {
		return err
	}
	p.bill, p.lacking, p.tight = kit.bill, kit.Lacking, kit.tight
	p.Figures = Figures{Cards: kit.Total, Changes: kit.Changes, LeastChanges: kit.LeastChanges, Most: kit.Most, Kinds: len(kit.Cards), LeastKinds: kit.LeastKinds}
	p.Cards = make([]Card, len(kit.Cards))
	turned := make([]bool, len(kit.Cards))
	for i, c := range kit.Cards {
		p.Cards[i], turned[i] = p.card(c)
	}
	p.Hands = make([][]Hold, len(kit.Hands))
	for i, hands := range kit.Hands {
		p.Hands[i] = make([]Hold, len(hands))
		for s, h := range hands {
			p.Hands[i][s] = Hold(h)
			if h.Card >= 0 && turned[h.Card] {
				p.Hands[i][s].Side = 1 - h.Side
			}
		}
	}
	return nil
}

// card is a card of the kit, with its lighter side as side A: the label is there, and white shows least on it.
func (p *Plan) card(c stock.Card) (card Card, turned bool) {
	ids, colours := ColourIDs(p.Stunt.Colours), p.Stunt.Colours
	card = Card{ID: ids[c.Sides[0]], Sides: c.Sides}
	if c.Plain() {
		return card, false
	}
	if light := func(k int16) float64 { return colour.Contrast(colours[k].RGB, colour.RGB{}) }; light(c.Sides[1]) > light(c.Sides[0]) {
		card.Sides[0], card.Sides[1], turned = c.Sides[1], c.Sides[0], true
	}
	card.ID = ids[card.Sides[0]] + "/" + ids[card.Sides[1]]
	return card, turned
}

// colours are the plan's colours by cue and seat.
func (p *Plan) colours() [][]int16 {
	all := make([][]int16, len(p.Cues))
	for i := range p.Cues {
		all[i] = p.Cues[i].Colours
	}
	return all
}

// sections are the seats' sections.
func (p *Plan) sections() []int {
	all := make([]int, len(p.Stands.Seats))
	for s := range all {
		all[s] = int(p.Stands.Seats[s].Section)
	}
	return all
}

// mostHeld is who holds most cards, how many, and of how many colours.
func (p *Plan) mostHeld(making stock.Making) (seat, cards, colours int) {
	for s := range p.Stands.Seats {
		n := bits.OnesCount64(p.own(s))
		held := n
		if making != stock.Sheet {
			held = (n + 1) / 2
		}
		if held > cards {
			seat, cards, colours = s, held, n
		}
	}
	return seat, cards, colours
}

// own are the colours that a seat ever shows, as bits.
func (p *Plan) own(seat int) (own uint64) {
	for i := range p.Cues {
		if c := p.Cues[i].Colours[seat]; c != None {
			own |= 1 << c
		}
	}
	return own
}

func (p *Plan) mostCards(making stock.Making) int {
	_, cards, _ := p.mostHeld(making)
	return cards
}

// checkHands refuses what no hands can serve.
func (p *Plan) checkHands(making stock.Making) error {
	at, most, colours := p.mostHeld(making)
	if most <= MostCards {
		return nil
	}
	hint := "show fewer colours on the same seats, or make two stunts of it"
	if making == stock.Sheet && (most+1)/2 <= MostCards {
		hint = fmt.Sprintf("write kind = %q under [card]: two colours on each card make it %d", Bonded, (most+1)/2)
	}
	return &seating.Fault{
		Key: "card.kind",
		What: fmt.Sprintf("the person on %s would hold %d cards for %d colours, and hands can serve %d",
			p.Stands.ID(at), most, colours, MostCards),
		Hint: hint,
	}
}

// longestID is the most runes that a colour's name gives to its id: paper has no room for more.
const longestID = 24

// ColourIDs makes ids of the colours' names for paper, tables and file names: letters of any script in capitals
// where the script has them, figures and single -, at most longestID runes, each once on every file system, large and
// small letters alike. Cards are called by them.
func ColourIDs(colours []Colour) []string {
	ids := make([]string, len(colours))
	taken := map[string]bool{}
	for i, c := range colours {
		id := plainCapitals(c.Name)
		if id == "" {
			id = fmt.Sprintf("COLOUR-%d", i+1)
		}
		ids[i] = id
		for n := 2; taken[idKey(ids[i])]; n++ {
			ids[i] = fmt.Sprintf("%s-%d", id, n)
		}
		taken[idKey(ids[i])] = true
	}
	return ids
}

// idKey is the same for ids that some file system takes for one.
func idKey(id string) string { return norm.NFKC.String(cases.Fold().String(id)) }

func plainCapitals(name string) string {
	var b strings.Builder
	n := 0
	for _, r := range norm.NFC.String(cases.Upper(language.Und).String(name)) {
		letter := unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.M, r) && n > 0
		switch {
		case n == longestID:
		case letter:
			b.WriteRune(r)
			n++
		case n > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
			n++
		}
	}
	return strings.Trim(b.String(), "-")
}
