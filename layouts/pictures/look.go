package pictures

import (
	"everyseat/mosaic"
)

// tint is one tone in three lights, as palette entries.
type tint struct{ light, plain, dim uint8 }

// look is everything that people and things may wear in one picture.
type look struct {
	cards                        []tint
	skin, hair, shirts, trousers []tint
	lips                         []uint8 // by skin
	gap, shoe, iris, paper       uint8
	step, bench, box, rail       tint
	pillar                       tint
	nosing, under                uint8
	shadow                       [2]uint8 // on the floor, dark and half dark
}

func newLook(pal *palette, p *mosaic.Plan) look {
	three := func(c rgb, light, dim int) tint {
		return tint{pal.of(shade(c, light)), pal.of(c), pal.of(shade(c, dim))}
	}
	all := func(cs []rgb, light, dim int) []tint {
		out := make([]tint, len(cs))
		for i, c := range cs {
			out[i] = three(c, light, dim)
		}
		return out
	}
	l := look{}
	// Cards come first: whatever else runs out of room, they are exact.
	for _, c := range p.Stunt.Colours {
		l.cards = append(l.cards, three(rgb(c.RGB), 103, 95))
	}
	l.paper = pal.of(rgb{0xff, 0xff, 0xff})
	l.skin = all(skinTones, 104, 87)
	for _, c := range skinTones {
		l.lips = append(l.lips, pal.of(between(shade(c, 75), rgb{0xa0, 0x40, 0x40}, 1, 4)))
	}
	l.hair = all(hairTones, 128, 80)
	l.shirts = all(shirtsFor(p.Stunt.Colours), 108, 86)
	l.trousers = all(trouserTones, 118, 78)
	l.gap, l.shoe, l.iris = pal.of(rgb{0x1d, 0x1e, 0x21}), pal.of(shoeTone), pal.of(rgb{0x2a, 0x22, 0x20})
	l.step = three(rgb{0x8f, 0x8d, 0x88}, 112, 72)
	l.bench = three(rgb{0xa8, 0x84, 0x5c}, 114, 74)
	l.box = three(rgb{0x86, 0x80, 0x78}, 112, 78)
	l.rail = three(rgb{0x6c, 0x72, 0x78}, 120, 76)
	l.pillar = three(between(wallLow, wallHigh, 1, 2), 103, 88)
	floor := woodFar
	if p.Stunt.Outdoors {
		floor = between(grassNear, grassFar, 1, 2)
	}
	l.shadow = [2]uint8{pal.of(shade(floor, 66)), pal.of(shade(floor, 83))}
	l.nosing, l.under = pal.of(rgb{0xc2, 0xbe, 0xb2}), pal.of(rgb{0x3d, 0x3c, 0x3b})
	return l
}

// darken dresses everybody alike in dark clothes.
func (l *look) darken(pal *palette) {
	c := rgb(mosaic.DarkClothes)
	dark := tint{pal.of(shade(c, 108)), pal.of(c), pal.of(shade(c, 86))}
	for i := range l.shirts {
		l.shirts[i] = dark
	}
	for i := range l.trousers {
		l.trousers[i] = dark
	}
}

// person is how somebody looks: always the same on the same seat.
type person struct {
	seat                  int32
	skin, hair            tint
	shirt, trousers       tint
	lips                  uint8
	long, beard, bareArms bool
	behind                bool    // seen from behind
	kneels                bool    // on the knees: no shoes are seen
	fine                  bool    // large enough in the picture for details
	collar                float64 // where it ends, of the height from shoulder to neck
	fringe                float64 // where the hair ends, of half the head's height below its middle
	skull                 skull   // of the head last drawn
}

func (l *look) person(seat int32) person {
	d := diceOf(seat)
	w := person{seat: seat}
	k := d.roll(len(l.skin))
	w.skin, w.lips = l.skin[k], l.lips[k]
	w.hair = l.hair[l.hairFor(k, &d)]
	w.shirt = l.shirts[d.roll(len(l.shirts))]
	w.trousers = l.trousers[d.roll(len(l.trousers))]
	w.long = d.roll(100) < 46
	w.beard = !w.long && d.roll(100) < 22
	w.bareArms = d.roll(100) < 30
	w.collar = 0.3 - float64(d.roll(30))/100
	w.fringe = -0.42 + float64(d.roll(22))/100
	if d.roll(100) < 6 { // a cap, or a scarf with long hair's shape
		w.hair = l.shirts[d.roll(len(l.shirts))]
	}
	return w
}

// hairFor keeps fair and red hair to the lighter half of the skins, where it is common.
func (l *look) hairFor(skin int, d *dice) int {
	if d.roll(100) < 9 {
		return len(l.hair) - 1 // grey
	}
	if skin < len(l.skin)/2 {
		return 1 + d.roll(len(l.hair)-2)
	}
	return d.roll(3)
}
