package faces

// stroke is a line through lattice points: x from 0 at the left, y from 0 at the
// baseline to 6 at the top of a capital.
type stroke [][2]float64

type blockGlyph struct {
	wide    float64 // lattice columns between the outermost stroke middles; 4 for most letters
	strokes []stroke
}

func loop(x0, y0, x1, y1, cx, cy float64) stroke {
	return stroke{{x0 + cx, y1}, {x1 - cx, y1}, {x1, y1 - cy}, {x1, y0 + cy}, {x1 - cx, y0}, {x0 + cx, y0},
		{x0, y0 + cy}, {x0, y1 - cy}, {x0 + cx, y1}}
}

// blockGlyphs is the block face. Letters that few seats confuse are drawn apart:
// 5 has a short bar and a notch under it where S is smooth; D is square on the left, 0
// narrow and cut all round; J has a wide hook that turns up, 1 a flag and a foot; V comes to a
// point, Y keeps more than half its height as a stem; 9 and 3 differ by a closed side, 8 and 6 by an open
// upper right; H has upright legs and R a slanting one; B is square on the left
// where 8 is round; 2 is round above where Z is square.
var blockGlyphs = map[rune]blockGlyph{
	'A': {4, []stroke{{{0, 0}, {1.5, 6}, {2.5, 6}, {4, 0}}, {{.5, 1.9}, {3.5, 1.9}}}},
	'B': {4, []stroke{{{0, 0}, {0, 6}, {3, 6}, {3.8, 5.2}, {3.8, 3.9}, {3, 3.1}, {0, 3.1}}, {{3, 3.1}, {4, 2.3},
		{4, .8}, {3.1, 0}, {0, 0}}}},
	'C': {4, []stroke{{{4, 4.6}, {4, 5}, {3, 6}, {1, 6}, {0, 5}, {0, 1}, {1, 0}, {3, 0}, {4, 1}, {4, 1.4}}}},
	'D': {4, []stroke{{{0, 0}, {0, 6}, {2.6, 6}, {4, 4.6}, {4, 1.4}, {2.6, 0}, {0, 0}}}},
	'E': {3.7, []stroke{{{3.7, 6}, {0, 6}, {0, 0}, {3.7, 0}}, {{0, 3.1}, {3, 3.1}}}},
	'F': {3.7, []stroke{{{3.7, 6}, {0, 6}, {0, 0}}, {{0, 3}, {3, 3}}}},
	'G': {4, []stroke{{{4, 4.6}, {4, 5}, {3, 6}, {1, 6}, {0, 5}, {0, 1}, {1, 0}, {4, 0}, {4, 2.7}, {2.2, 2.7}}}},
	'H': {4, []stroke{{{0, 0}, {0, 6}}, {{4, 0}, {4, 6}}, {{0, 3}, {4, 3}}}},
	'I': {0, []stroke{{{0, 0}, {0, 6}}}},
	'J': {3.4, []stroke{{{1.4, 6}, {3.4, 6}, {3.4, 1}, {2.5, 0}, {.9, 0}, {0, 1}, {0, 1.8}}}},
	'K': {4, []stroke{{{0, 0}, {0, 6}}, {{4, 6}, {1, 3}, {4, 0}}, {{0, 3}, {1, 3}}}},
	'L': {3.6, []stroke{{{0, 6}, {0, 0}, {3.6, 0}}}},
	'M': {5.2, []stroke{{{0, 0}, {0, 6}, {2.6, 2.2}, {5.2, 6}, {5.2, 0}}}},
	'N': {4.3, []stroke{{{0, 0}, {0, 6}, {4.3, 0}, {4.3, 6}}}},
	'O': {4, []stroke{loop(0, 0, 4, 6, 1.1, 1.3)}},
	'P': {4, []stroke{{{0, 0}, {0, 6}, {3, 6}, {4, 5}, {4, 3.5}, {3, 2.5}, {0, 2.5}}}},
	'Q': {4, []stroke{loop(0, 0, 4, 6, 1.1, 1.3), {{2.4, 1.7}, {4.2, -.4}}}},
	'R': {4, []stroke{{{0, 0}, {0, 6}, {3, 6}, {4, 5}, {4, 3.8}, {3, 2.8}, {0, 2.8}}, {{1.9, 2.8}, {4, 0}}}},
	'S': {4, []stroke{{{4, 4.8}, {3, 6}, {1, 6}, {0, 5.1}, {0, 4}, {1, 3.2}, {3, 2.8}, {4, 2}, {4, .9}, {3, 0},
		{1, 0}, {0, 1.2}}}},
	'T': {4, []stroke{{{0, 6}, {4, 6}}, {{2, 6}, {2, 0}}}},
	'U': {4, []stroke{{{0, 6}, {0, 1}, {1, 0}, {3, 0}, {4, 1}, {4, 6}}}},
	'V': {4.2, []stroke{{{0, 6}, {2.1, 0}, {4.2, 6}}}},
	'W': {6, []stroke{{{0, 6}, {1.3, 0}, {3, 4.4}, {4.7, 0}, {6, 6}}}},
	'X': {4.2, []stroke{{{0, 0}, {4.2, 6}}, {{0, 6}, {4.2, 0}}}},
	'Y': {4.2, []stroke{{{0, 6}, {2.1, 3}, {4.2, 6}}, {{2.1, 3}, {2.1, 0}}}},
	'Z': {4, []stroke{{{0, 6}, {4, 6}, {0, 0}, {4, 0}}}},
	'0': {3.7, []stroke{loop(0, 0, 3.7, 6, 1.3, 1.8)}},
	'1': {2.8, []stroke{{{0, 4.7}, {1.4, 6}, {1.4, 0}}, {{0, 0}, {2.8, 0}}}},
	'2': {3.8, []stroke{{{0, 4.6}, {0, 5}, {1, 6}, {2.8, 6}, {3.8, 5}, {3.8, 4}, {0, 0}, {3.8, 0}}}},
	'3': {3.8, []stroke{{{0, 5}, {.9, 6}, {2.9, 6}, {3.7, 5.2}, {3.7, 4}, {2.8, 3.1}, {1.4, 3.1}}, {{2.8, 3.1},
		{3.8, 2.3}, {3.8, .9}, {2.9, 0}, {.9, 0}, {0, 1}}}},
	'4': {4, []stroke{{{3.1, 0}, {3.1, 6}, {0, 1.9}, {4, 1.9}}}},
	'5': {3.8, []stroke{{{3.6, 6}, {.2, 6}, {0, 3.4}, {2.8, 3.4}, {3.8, 2.5}, {3.8, .9}, {2.9, 0}, {.9, 0},
		{0, .9}}}},
	'6': {3.8, []stroke{{{3.4, 6}, {1.8, 6}, {0, 3.8}, {0, .9}, {.9, 0}, {2.9, 0}, {3.8, .9}, {3.8, 2.5},
		{2.9, 3.4}, {.3, 3.4}}}},
	'7': {3.8, []stroke{{{0, 6}, {3.8, 6}, {1.4, 0}}}},
	'8': {3.8, []stroke{loop(.15, 3.1, 3.65, 6, .8, .8), loop(0, 0, 3.8, 3.1, .8, .8)}},
	'9': {3.8, []stroke{{{.4, 0}, {2, 0}, {3.8, 2.2}, {3.8, 5.1}, {2.9, 6}, {.9, 6}, {0, 5.1}, {0, 3.5},
		{.9, 2.6}, {3.5, 2.6}}}},
	'&': {5.2, []stroke{{{5.2, 0}, {1.1, 4.2}, {1.1, 5.2}, {1.9, 6}, {3, 6}, {3.8, 5.2}, {3.8, 4.5}, {.9, 2.6},
		{0, 1.8}, {0, .8}, {.9, 0}, {2.6, 0}, {4.9, 2.6}}}},
	'!': {0, []stroke{{{0, 6}, {0, 2.3}}, {{0, 0}, {0, 0}}}},
	'?': {3.6, []stroke{{{0, 4.8}, {1, 6}, {2.6, 6}, {3.6, 5}, {3.6, 4.2}, {1.8, 2.8}, {1.8, 2.2}}, {{1.8, 0},
		{1.8, 0}}}},
	'.':  {0, []stroke{{{0, 0}, {0, 0}}}},
	'-':  {2, []stroke{{{0, 2.9}, {2, 2.9}}}},
	'+':  {3, []stroke{{{0, 2.9}, {3, 2.9}}, {{1.5, 1}, {1.5, 4.8}}}},
	'#':  {5.4, []stroke{{{1.4, 0}, {1.4, 6}}, {{4, 0}, {4, 6}}, {{0, 1.7}, {5.4, 1.7}}, {{0, 4.3}, {5.4, 4.3}}}},
	'\'': {0, []stroke{{{0, 6}, {0, 4.5}}}},
	'/':  {2.6, []stroke{{{0, 0}, {2.6, 6}}}},
	':':  {0, []stroke{{{0, .8}, {0, .8}}, {{0, 4.2}, {0, 4.2}}}},
}

// blockForms are further ways to draw some letters: 1 with a flag alone or with bars like
// I, I with bars, 3 with a flat top, narrow 0, long tails, middles that reach farther.
var blockForms = map[rune][]blockGlyph{
	'1': {
		{1.3, []stroke{{{0, 4.6}, {1.3, 6}, {1.3, 0}}}},
		{2.8, []stroke{{{.2, 6}, {1.4, 6}, {1.4, 0}}, {{0, 0}, {2.8, 0}}}},
	},
	'I': {{2.6, []stroke{{{1.3, 0}, {1.3, 6}}, {{0, 0}, {2.6, 0}}, {{0, 6}, {2.6, 6}}}}},
	'J': {
		{3.2, []stroke{{{3.2, 6}, {3.2, 1}, {2.3, 0}, {.9, 0}, {0, 1}, {0, 2}}}},
		{3.8, []stroke{{{.9, 6}, {3.8, 6}}, {{2.7, 6}, {2.7, .9}, {1.9, 0}, {.8, 0}, {0, .8}, {0, 1.6}}}},
	},
	'3': {{3.8, []stroke{{{0, 6}, {3.7, 6}, {1.7, 3.6}, {2.8, 3.5}, {3.8, 2.5}, {3.8, 1}, {2.8, 0}, {1, 0},
		{0, .9}}}}},
	'5': {{3.8, []stroke{{{3.8, 6}, {.3, 6}, {.3, 3}}, {{.3, 3.2}, {1.2, 3.7}, {2.8, 3.7}, {3.8, 2.7}, {3.8, 1},
		{2.8, 0}, {1, 0}, {0, .8}}}}},
	'6': {{3.8, []stroke{{{3.6, 5.1}, {2.8, 6}, {1, 6}, {0, 5}, {0, 1}, {1, 0}, {2.8, 0}, {3.8, 1}, {3.8, 2.4},
		{2.8, 3.4}, {0, 3.4}}}}},
	'9': {{3.8, []stroke{{{.2, .9}, {1, 0}, {2.8, 0}, {3.8, 1}, {3.8, 5}, {2.8, 6}, {1, 6}, {0, 5}, {0, 3.6},
		{1, 2.6}, {3.8, 2.6}}}}},
	'7': {{3.8, []stroke{{{0, 6}, {3.8, 6}, {1.9, 2.6}, {1.6, 0}}}}},
	'0': {
		{3, []stroke{loop(0, 0, 3, 6, 1.1, 1.7)}},
		{4, []stroke{loop(0, 0, 4, 6, .9, 1)}},
	},
	'O': {{4.6, []stroke{loop(0, 0, 4.6, 6, 1.5, 1.6)}}},
	'D': {{4, []stroke{{{0, 0}, {0, 6}, {3, 6}, {4, 5}, {4, 1}, {3, 0}, {0, 0}}}}},
	'Q': {{4.2, []stroke{loop(0, 0, 4, 6, 1.1, 1.3), {{2.2, 1.6}, {4.2, -1}}}}},
	'G': {{4, []stroke{{{4, 4.9}, {3, 6}, {1, 6}, {0, 5}, {0, 1}, {1, 0}, {3, 0}, {4, 1}, {4, 2.8}, {2.4, 2.8}}}}},
	'B': {{4, []stroke{{{0, 0}, {0, 6}, {2.6, 6}, {3.4, 5.3}, {3.4, 3.9}, {2.6, 3.3}, {0, 3.3}}, {{2.6, 3.3},
		{4, 2.4}, {4, .8}, {3.1, 0}, {0, 0}}}}},
	'M': {{5, []stroke{{{0, 0}, {0, 6}, {2.5, .8}, {5, 6}, {5, 0}}}}},
	'W': {{6, []stroke{{{0, 6}, {1.4, 0}, {3, 6}, {4.6, 0}, {6, 6}}}}},
	'Y': {{4.4, []stroke{{{0, 6}, {2.2, 2.4}, {4.4, 6}}, {{2.2, 2.4}, {2.2, 0}}}}},
	'2': {{3.8, []stroke{{{0, 5}, {1, 6}, {2.8, 6}, {3.8, 5}, {3.8, 3.8}, {2.8, 2.8}, {0, .6}, {0, 0}, {3.8, 0}}}}},
	'4': {{4, []stroke{{{2.9, 0}, {2.9, 6}}, {{2.5, 6}, {0, 2.2}, {0, 1.8}, {4, 1.8}}}}},
	'L': {{4.2, []stroke{{{0, 6}, {0, 0}, {4.2, 0}}}}},
	'K': {{4.2, []stroke{{{0, 0}, {0, 6}}, {{4.2, 6}, {0, 2.4}}, {{1.4, 3.4}, {4.2, 0}}}}},
}

// accentLow is the lowest stroke of an accent.
const accentLow = 1

// accents of the block face, around the middle of the letter, y in lattice rows of their own.
var blockAccents = map[rune][]stroke{
	'´': {{{-.3, 1.1}, {.9, 2}}},
	'`': {{{.3, 1.1}, {-.9, 2}}},
	'^': {{{-1, 1.1}, {0, 2}, {1, 1.1}}},
	'~': {{{-1.4, 1.2}, {-.5, 1.8}, {.5, 1.2}, {1.4, 1.8}}},
	'¨': {{{-1.1, 1.5}, {-1.1, 1.5}}, {{1.1, 1.5}, {1.1, 1.5}}},
	'°': {loop(-.7, 1, .7, 2, .3, .3)},
}

var accented = map[rune][2]rune{
	'Á': {'A', '´'}, 'À': {'A', '`'}, 'Â': {'A', '^'}, 'Ã': {'A', '~'}, 'Ä': {'A', '¨'}, 'Å': {'A', '°'},
	'É': {'E', '´'}, 'È': {'E', '`'}, 'Ê': {'E', '^'}, 'Ë': {'E', '¨'},
	'Í': {'I', '´'}, 'Ì': {'I', '`'}, 'Î': {'I', '^'}, 'Ï': {'I', '¨'},
	'Ó': {'O', '´'}, 'Ò': {'O', '`'}, 'Ô': {'O', '^'}, 'Õ': {'O', '~'}, 'Ö': {'O', '¨'},
	'Ú': {'U', '´'}, 'Ù': {'U', '`'}, 'Û': {'U', '^'}, 'Ü': {'U', '¨'},
	'Ñ': {'N', '~'}, 'Ý': {'Y', '´'},
}

// Base is the letter without its accent; ok is false for letters without one.
func Base(r rune) (base rune, ok bool) {
	a, ok := accented[r]
	if !ok {
		return r, false
	}
	return a[0], true
}

// Known reports whether the faces have the letter.
func Known(r rune) bool {
	base, _ := Base(r)
	_, ok := blockGlyphs[base]
	return ok
}

// Pen is the stroke of the block face: how wide upright strokes and how high level
// ones are, and how wide a letter of four columns is, in raster columns and rows; Form is
// which way to draw the letter, 0 the usual one.
type Pen struct{ Across, Up, Wide, Form int }

type blockKey struct {
	r rune
	p Pen
}

// blocks hold about 20 kB each; a plan looks at a few thousand, a Fit at a few hundred.
var blocks = Memo[blockKey, *Shape]{Half: 1024}

// Block is the letter in the block face, or nil where it has none.
func Block(r rune, p Pen) *Shape {
	p.Across = min(max(p.Across, 2), CapRows)
	p.Up = min(max(p.Up, 2), CapRows/4)
	p.Wide = min(max(p.Wide, 2*p.Across), 4*CapRows)
	return blocks.Of(blockKey{r, p}, func() *Shape { return drawBlock(r, p) })
}

func drawBlock(r rune, p Pen) *Shape {
	base, hasAccent := Base(r)
	g, ok := blockGlyphs[base]
	if !ok || p.Form > len(blockForms[base]) {
		return nil
	}
	if p.Form > 0 {
		g = blockForms[base][p.Form-1]
	}
	unit := float64(float64(p.Wide-p.Across) / 4) // a lattice column in raster columns
	cols := int(float64(g.wide*unit)+.5) + p.Across
	shift := 0.0
	if hasAccent && g.wide < 2 { // an accent is wider than an I
		shift = 1 - float64(g.wide/2)
		cols = int(2*unit+.5) + p.Across
	}
	polys := sweeps(p, unit, float64(CapRows-p.Up)/6, g.strokes, shift, 0)
	if hasAccent {
		p.Up = min(p.Up, accentPen)
		middle, lift := float64(g.wide/2)+shift, float64(CapRows+accentGround)/accentRow-accentLow
		polys = append(polys, sweeps(p, unit, accentRow, blockAccents[accented[r][1]], middle, lift)...)
	}
	return raster(polys, cols)
}

// How accents of the block face are drawn above the capitals, in raster rows: strokes no higher than
// this, a lattice row so high, and so much ground below, however thick the letter's own strokes are.
const (
	accentPen    = 8
	accentRow    = 8
	accentGround = 4
)

// sweeps are the areas of a rectangular pen that moves along the lines of strokes; unit and up are a lattice column
// and row in raster columns and rows.
func sweeps(p Pen, unit, up float64, strokes []stroke, dx, dy float64) (polys [][]point) {
	at := func(q [2]float64) point {
		return point{int((q[0]+dx)*unit*256) + p.Across*128, CapRows*256 - int((q[1]+dy)*up*256) - p.Up*128}
	}
	w, h := p.Across*128, p.Up*128
	for _, st := range strokes {
		for i := 0; i+1 < len(st); i++ {
			u, v := at(st[i]), at(st[i+1])
			if u.x > v.x {
				u, v = v, u
			}
			if u.y <= v.y { // runs down to the right
				polys = append(polys, []point{{u.x - w, u.y - h}, {u.x + w, u.y - h}, {v.x + w, v.y - h},
					{v.x + w, v.y + h}, {v.x - w, v.y + h}, {u.x - w, u.y + h}})
			} else {
				polys = append(polys, []point{{u.x - w, u.y + h}, {u.x - w, u.y - h}, {v.x - w, v.y - h},
					{v.x + w, v.y - h}, {v.x + w, v.y + h}, {u.x + w, u.y + h}})
			}
		}
	}
	return polys
}
