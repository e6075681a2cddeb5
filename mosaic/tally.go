package mosaic

// Spares are kept back so that lost and torn cards are no trouble: a tenth, and at
// least five of a colour a section (common practice, no source).
const (
	sparePerTen   = 1
	spareAtLeast  = 5
	spareDivision = 10
)

// need is how many sheets of one colour the stunt takes.
type need struct {
	cards  int // in people's hands
	spares int
}

// sheetsNeeded counts sheets by colour. A person needs one sheet of each colour
// that the seat shows at any cue.
func (p *Plan) sheetsNeeded() []need {
	needs := make([]need, len(p.Stunt.Colours))
	inSection := make([]int, len(needs))
	shown := make([]int, len(needs)) // seat+1 that was counted last
	for k := range p.Stands.Sections {
		clear(inSection)
		sec := &p.Stands.Sections[k]
		for s := sec.First; s < sec.Last; s++ {
			for i := range p.Hands {
				h := p.Hands[i][s]
				if h.Card < 0 {
					continue
				}
				if c := p.Cards[h.Card].Sides[h.Side]; shown[c] != s+1 {
					shown[c] = s + 1
					inSection[c]++
				}
			}
		}
		for c, n := range inSection {
			if n > 0 {
				needs[c].cards += n
				needs[c].spares += max(spareAtLeast, (n*sparePerTen+spareDivision-1)/spareDivision)
			}
		}
	}
	return needs
}

// packs is how many packs hold so many sheets; 0 where packs are not known.
func packs(sheets, pack int) int {
	if pack <= 0 {
		return 0
	}
	return (sheets + pack - 1) / pack
}
