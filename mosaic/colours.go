package mosaic

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/cases"
	"golang.org/x/text/language"
	"golang.org/x/text/unicode/norm"

	"everyseat/mosaic/artwork"
	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// Contrasts by WCAG: large text (success criterion 1.4.3), for letters in the stands;
// and usual text (the same, level AA), for a label on its card.
const (
	LeastContrast = 3
	labelContrast = 4.5
)

// Differences of card colours by CIEDE2000, in hundredths (ours, no source): under the
// first nobody tells two cards apart in a pile, under the second a camera may take
// one for the other, in shade or under coloured light.
const (
	tooClose    = 300
	Confusable  = 1000
	inHundredth = 100
)

// Differ is the CIEDE2000 difference in whole hundredths.
func Differ(a, b colour.Linear) int {
	return int(math.Round(colour.CIEDE2000(a.Lab(), b.Lab()) * inHundredth))
}

// checkApart refuses a colour that is given twice, or nearly.
func checkApart(colours []Colour) error {
	for i := range colours {
		for k := range i {
			a, b := &colours[i], &colours[k]
			what := ""
			switch hex := a.RGB.Hex(); {
			case a.RGB == b.RGB:
				what = fmt.Sprintf("%s and %s are one colour, %s", b.Name, a.Name, hex)
			case Differ(a.RGB.Linear(), b.RGB.Linear()) < tooClose:
				what = fmt.Sprintf("%s, %s, is too close to %s, %s, to be told apart", a.Name, hex, b.Name,
					b.RGB.Hex())
			default:
				continue
			}
			return &seating.Fault{Key: fmt.Sprintf("colour[%d].hex", i), What: what, Hint: "leave one of them out"}
		}
	}
	return nil
}

// mapped is what of makes of each.
func mapped[T, U any](all []T, of func(T) U) []U {
	out := make([]U, len(all))
	for i, v := range all {
		out[i] = of(v)
	}
	return out
}

// names are the names of colours of the palette.
func (m *maker) names(colours []int16) []string {
	return mapped(colours, func(c int16) string { return m.p.Stunt.Colours[c].Name })
}

func rgbs(colours []Colour) []colour.RGB {
	return mapped(colours, func(c Colour) colour.RGB { return c.RGB })
}

// White is light and nearly without colour; yellow is light, and its hue angle in
// CIELAB lies about that of sRGB yellow, 103 degrees (ours, no source).
const (
	paleLight, paleChroma = 88, 16
	yellowLight           = 70
	yellowChroma          = 35
	yellowFrom, yellowTo  = 75, 115
)

func whitish(l colour.Lab) bool {
	return l[0] >= paleLight && math.Hypot(l[1], l[2]) <= paleChroma
}

func yellowish(l colour.Lab) bool {
	hue := math.Atan2(l[2], l[1]) * 180 / math.Pi
	return l[0] >= yellowLight && math.Hypot(l[1], l[2]) >= yellowChroma && hue >= yellowFrom && hue <= yellowTo
}

// checkInk refuses white with yellow: no eye and no camera parts them from afar.
func checkInk(s *Stunt, c *Cue, key string) error {
	if c.Text == "" || c.Ground == Shirts {
		return nil
	}
	ink, ground := s.RGBOf(c.Ink), s.RGBOf(c.Ground)
	a, b := ink.Linear().Lab(), ground.Linear().Lab()
	return refuse(whitish(a) && yellowish(b) || yellowish(a) && whitish(b), key,
		fmt.Sprintf("%s on %s is white with yellow, which nobody can read (contrast %.1f to 1)",
			c.Ink, c.Ground, colour.Contrast(ink, ground)), "choose a dark colour for one of them")
}

// warnPaleLetters tells which texts have too little contrast, for usual eyes or for others.
func (m *maker) warnPaleLetters() {
	for i := range m.p.Stunt.Cues {
		cue := &m.p.Stunt.Cues[i]
		if cue.Text == "" || cue.Ground == Shirts {
			continue
		}
		const hard = " has a contrast of %.1f to 1; under %d to 1 letters are hard to read."
		ink, ground := m.p.Stunt.RGBOf(cue.Ink), m.p.Stunt.RGBOf(cue.Ground)
		if ratio := colour.Contrast(ink, ground); ratio < LeastContrast {
			m.warn("Cue %q: %s on %s"+hard, cue.Name, cue.Ink, cue.Ground, ratio, LeastContrast)
			continue
		}
		for _, v := range colour.Visions {
			ratio := colour.Contrast(v.See(ink.Linear()).RGB(), v.See(ground.Linear()).RGB())
			if ratio < LeastContrast {
				m.warn("Cue %q: for people with %s vision %s on %s"+hard,
					cue.Name, v, cue.Ink, cue.Ground, ratio, LeastContrast)
			}
		}
	}
}

// RGBOf is the colour of that name; black where there is none.
func (s *Stunt) RGBOf(name string) colour.RGB {
	if i := s.colourNamed(name); i >= 0 {
		return s.Colours[i].RGB
	}
	return colour.RGB{}
}

// colourNamed is the palette index of a name, −1 where there is none.
func (s *Stunt) colourNamed(name string) int {
	return slices.IndexFunc(s.Colours, func(c Colour) bool { return c.Name == name })
}

// warnAlike names colours of one cue that a camera may confuse, or colour-blind people.
func (m *maker) warnAlike() {
	p := m.p
	used := p.UsedTogether()
	var camera, eyes []string
	for i := range p.Stunt.Colours {
		for k := range i {
			if !used[i][k] {
				continue
			}
			a, b := &p.Stunt.Colours[k], &p.Stunt.Colours[i]
			pair := a.Name + " and " + b.Name
			if Differ(a.RGB.Linear(), b.RGB.Linear()) < Confusable {
				camera = append(camera, pair)
				continue
			}
			for _, v := range colour.Visions {
				if Differ(v.See(a.RGB.Linear()), v.See(b.RGB.Linear())) < Confusable {
					eyes = append(eyes, fmt.Sprintf("%s (%s)", pair, v))
				}
			}
		}
	}
	if len(camera) > 0 {
		m.warn("A camera may take these colours for each other: %s.", strings.Join(camera, ", "))
	}
	if len(eyes) > 0 {
		m.warn("Colour-blind people may take these colours for each other: %s.", strings.Join(eyes, ", "))
	}
}

// UsedTogether says which colours show at the same cue.
func (p *Plan) UsedTogether() [][]bool {
	n := len(p.Stunt.Colours)
	out := make([][]bool, n)
	for i := range out {
		out[i] = make([]bool, n)
	}
	for q := range p.Cues {
		shown := make([]bool, n)
		for _, c := range p.Cues[q].Colours {
			if c != None {
				shown[c] = true
			}
		}
		for i := range shown {
			for k := range shown {
				out[i][k] = out[i][k] || shown[i] && shown[k]
			}
		}
	}
	return out
}

// WhiteLabel says whether black print cannot be read on a card of this colour, so that
// its label has to be white.
func (s *Stunt) WhiteLabel(colourIndex int) bool {
	c := &s.Colours[colourIndex]
	if c.DarkestInk == "white" {
		return true
	}
	return colour.Contrast(c.RGB, colour.RGB{}) < labelContrast
}

// ColourLetters gives every colour of the palette one sign of its own, the same on all papers and pictures: a letter
// of its name where that goes, else a number.
func ColourLetters(colours []Colour) []string {
	taken := map[string]bool{}
	return mapped(colours, func(c Colour) string {
		sign := ""
		for _, r := range norm.NFC.String(c.Name) {
			if s := string(unicode.ToUpper(r)); sign == "" && unicode.IsLetter(r) && !taken[s] {
				sign = s
			}
		}
		for n := 1; sign == "" || taken[sign]; n++ {
			sign = strconv.Itoa(n)
		}
		taken[sign] = true
		return sign
	})
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

// suggestCards is how many colours are suggested.
const suggestCards = 4

// UsualStock are colours in which card can be had nearly everywhere, by plain names; the
// shades are ours (no source) and to be replaced by those of the cards at hand.
var UsualStock = []Colour{
	{Name: "white", RGB: colour.RGB{255, 255, 255}}, {Name: "black", RGB: colour.RGB{26, 26, 26}},
	{Name: "grey", RGB: colour.RGB{140, 140, 140}}, {Name: "cream", RGB: colour.RGB{251, 241, 216}},
	{Name: "yellow", RGB: colour.RGB{250, 214, 40}}, {Name: "orange", RGB: colour.RGB{232, 134, 44}},
	{Name: "red", RGB: colour.RGB{200, 30, 44}}, {Name: "pink", RGB: colour.RGB{244, 154, 180}},
	{Name: "purple", RGB: colour.RGB{98, 54, 140}}, {Name: "navy", RGB: colour.RGB{22, 41, 77}},
	{Name: "blue", RGB: colour.RGB{30, 90, 180}}, {Name: "sky", RGB: colour.RGB{108, 182, 230}},
	{Name: "green", RGB: colour.RGB{28, 140, 74}}, {Name: "brown", RGB: colour.RGB{110, 70, 40}},
}

// noColours says that there are none, and which would serve the stunt's first image.
func noColours(cues []Cue) error {
	f := &seating.Fault{
		Key: "colour", What: "there are no card colours",
		Hint: `add a [[colour]] with name = "blue" and hex = "#1f4e9c"; the first is the ground, the second the ink`,
	}
	first := slices.IndexFunc(cues, func(c Cue) bool { return c.Image != nil })
	if first < 0 {
		return f
	}
	if image, fault := artwork.Open(imageName(&cues[first]), cues[first].Image); fault == nil {
		var names []string
		for _, c := range image.Suggest(rgbs(UsualStock), suggestCards) {
			names = append(names, UsualStock[c].Name+" "+UsualStock[c].RGB.Hex())
		}
		f.Hint = fmt.Sprintf("add a [[colour]] for each; these of the usual card colours would serve %s best: %s",
			imageName(&cues[first]), strings.Join(names, ", "))
	}
	return f
}
