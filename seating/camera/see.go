package camera

import (
	"math"
	"slices"

	"everyseat/seating/together"
)

// Limits of the work.
const (
	bandSamples  = 4 << 20 // samples a band at most: 32 MiB a worker
	leastBands   = 2
	mostBands    = 96
	edgeOn       = 0.1 // cards flatter than this do not ask for finer samples; about 6 degrees
	personTall   = 1.4 // metres, to choose how high bands are
	sampleMargin = 1.3 // a card's samples scatter about their mean number
)

// seeing is one run of the depth buffer.
type seeing struct {
	*Scene
	view    *View
	sight   *Sight
	samples float64
	cards   []card
	reaches []reach // of items
	bands   []band
	tiles   *tiles // where the wanted cards are; nil = everywhere
}

// card is what a run keeps of a seat's card.
type card struct {
	box    box
	size   float64 // square pixels
	share  float64 // of it that is in the picture
	flat   float64
	wanted bool // to be counted: in front of the lens and partly in the picture
}

// reach is the box in the picture in which an item may draw; empty where nowhere.
type reach [4]float32

// band is some rows of the picture with their own sampling.
type band struct {
	top, bottom float64
	grid
	pieces []piece // of cards that lie in more than one band
}

// piece is what one band counted of a card.
type piece struct {
	seat       int32
	won, alone int64
	weight     int64    // of a sample: finer bands count less each
	wonAt      [2]int64 // sums of twice the samples' places, minus the card's first
	aloneAt    [2]int64
	hits       []hit
	scale      float64
	corner     Pixel
}

// hit counts the samples of a card that something else wins.
type hit struct {
	tag   uint32
	count int64
}

// see looks for the cards in wanted, or all of them.
func (s *Scene) see(v *View, samples int, wanted []bool) *Sight {
	n := len(s.Stands.Seats)
	r := &seeing{
		Scene: s, view: v, sight: newSight(n), samples: float64(samples),
		cards: make([]card, n), reaches: make([]reach, s.items()),
	}
	inChunks(n, func(seat int) { r.shoot(seat, wanted == nil || wanted[seat]) })
	window, ok := r.window()
	if !ok {
		return r.sight
	}
	r.divide(window)
	if wanted != nil {
		r.tiles = &tiles{window: window}
		for i := range r.cards {
			if c := &r.cards[i]; c.wanted {
				first, last := r.tiles.around(c.box)
				for y := first[1]; y <= last[1]; y++ {
					for x := first[0]; x <= last[0]; x++ {
						r.tiles.marked[y][x] = true
					}
				}
			}
		}
	}
	inChunks(len(r.reaches), func(item int) { r.reaches[item] = r.reachOf(item) })
	together.Until(len(r.bands), func() *canvas { return &canvas{view: v} }, func(c *canvas, i int) bool {
		r.drawBand(c, &r.bands[i], window)
		return false
	})
	r.join()
	return r.sight
}

// inChunks does 0 … n−1 on all processors, so many at once that taking them costs nothing.
func inChunks(n int, do func(i int)) {
	const chunk = 2048
	together.Each((n+chunk-1)/chunk, func(k int) {
		for i := k * chunk; i < min(n, (k+1)*chunk); i++ {
			do(i)
		}
	})
}

// shoot fills in what does not depend on what hides a card.
func (r *seeing) shoot(seat int, wanted bool) {
	q, ok := r.CardQuad(seat)
	if !ok {
		return
	}
	t := r.view.quad(q)
	r.sight.Corners[seat] = t.corners
	r.sight.Behind[seat] = t.depth < near || !t.front
	if t.depth < near {
		return
	}
	c := card{box: t.box(), flat: t.flat, share: 1}
	c.size, r.sight.Centre[seat] = area(t.corners[:])
	r.sight.InFrame[seat] = c.box.inside(r.view.Width, r.view.Height)
	if !r.sight.InFrame[seat] && c.size > 0 {
		in, middle := area(r.view.inFrame(t.corners[:]))
		c.share = in / c.size
		if in > 0 {
			r.sight.Centre[seat] = middle
		}
	}
	c.wanted = wanted && t.front && c.size > 0 && c.share > 0
	r.cards[seat] = c
}

// window is the part of the picture that holds all wanted cards.
func (r *seeing) window() (b box, ok bool) {
	b = emptyBox()
	for i := range r.cards {
		if c := &r.cards[i]; c.wanted {
			b = b.with(c.box)
		}
	}
	b[0], b[1] = math.Max(b[0], 0), math.Max(b[1], 0)
	b[2], b[3] = math.Min(b[2], float64(r.view.Width)), math.Min(b[3], float64(r.view.Height))
	return b, b[0] < b[2] && b[1] < b[3]
}

// divide cuts the window into bands, about three people high each or as low as memory
// asks, and gives each the sampling that its smallest card asks for.
func (r *seeing) divide(window box) {
	high, count, least := 0.0, 0, math.Inf(1)
	for i := range r.cards {
		if c := &r.cards[i]; c.wanted {
			high += c.box[3] - c.box[1]
			count++
			if c.flat >= edgeOn {
				least = math.Min(least, c.size)
			}
		}
	}
	height := window[3] - window[1]
	tall := high / float64(count) * personTall / math.Max(0.01, r.Card.Height.Metres())
	samples := (window[2] - window[0]) * height * r.samples * sampleMargin / least
	n := int(math.Min(mostBands, math.Max(leastBands,
		math.Max(height/math.Max(1, 3*tall), float64(samples/bandSamples)+1))))
	step := height / float64(n)
	r.bands = make([]band, n)
	smallest := make([]float64, n)
	for i := range smallest {
		smallest[i] = math.Inf(1)
		r.bands[i].top = window[1] + float64(step*float64(i))
		r.bands[i].bottom = window[1] + float64(step*float64(i+1))
	}
	r.bands[n-1].bottom = window[3]
	for i := range r.cards {
		if c := &r.cards[i]; c.wanted && c.flat >= edgeOn {
			first, last := r.bandsOf(c.box[1], c.box[3])
			for b := first; b < last; b++ {
				smallest[b] = math.Min(smallest[b], c.size)
			}
		}
	}
	for i := range r.bands {
		r.bands[i].sample(window, r.samples*sampleMargin/smallest[i])
	}
}

// sample sets the band's grid to about so many samples a square pixel, in steps of 1/32 each way.
func (b *band) sample(window box, perPixel float64) {
	width, height := window[2]-window[0], b.bottom-b.top
	perPixel = math.Min(perPixel, bandSamples/math.Max(1, float64(width*height)))
	b.scale = math.Max(1, math.Ceil(math.Sqrt(perPixel)*32)) / 32
	b.corner = Pixel{window[0], b.top}
	b.width, b.height = int(float64(width*b.scale)+0.5), int(float64(height*b.scale)+0.5)
}

// bandsOf is the range of bands that lie between two heights of the picture.
func (r *seeing) bandsOf(top, bottom float64) (first, last int) {
	for first < len(r.bands) && r.bands[first].bottom <= top {
		first++
	}
	for last = first; last < len(r.bands) && r.bands[last].top < bottom; last++ {
	}
	return first, last
}

// reachOf finds where an item may draw. For people a box around them is enough.
func (r *seeing) reachOf(item int) reach {
	if item < len(r.Stands.Seats) && r.occupied(item) {
		return r.personBox(item).outward()
	}
	return r.drawnReach(item)
}

// drawnReach draws the item to see where.
func (r *seeing) drawnReach(item int) reach {
	b := emptyBox()
	c := canvas{view: r.view}
	brush := brush{fn: func(p *Polygon) {
		if p.Part == PartFloor {
			return // nothing is under the floor
		}
		c.toCamera(p.Points)
		for i := range c.n {
			b.add(r.view.onPicture(c.points[i]))
		}
	}}
	brush.item(r.Scene, item, &r.view.Position)
	return b.outward()
}

func (b box) outward() reach {
	const far = 1e9
	return reach{
		float32(max(b[0]-1, -far)), float32(max(b[1]-1, -far)),
		float32(min(b[2]+1, far)), float32(min(b[3]+1, far)),
	}
}

// personBox is a box in the picture around everything a person is and holds, whichever way it turns; without bounds
// where it reaches behind the near plane, empty where all of it is there.
func (r *seeing) personBox(seat int) box {
	g := r.figureAt(seat)
	h := &r.hands
	w, tall := float64(r.Card.Width.Metres()/2), float64(r.Card.Height.Metres()/2)
	card := w + tall + 0.1 + float64(6*(h.sideways+h.height))
	side := math.Max(float64(g.breadth/2)+0.15, card)
	back, front := 0.3, math.Max(0.7, cardReach+card)
	top := math.Max(g.crown, r.heldAt(&g)+card) + 0.05
	if !r.holds(seat) {
		side, top = math.Max(0.45, g.breadth/2), g.crown+0.05
	} else {
		back = math.Max(back, card-cardReach)
	}
	b, before := emptyBox(), 0
	for _, across := range [2]float64{-side, side} {
		for _, ahead := range [2]float64{-back, front} {
			for _, up := range [2]float64{-0.05, top} {
				if at, depth := r.view.Project(g.at(across, ahead, up)); depth >= near {
					b.add(at)
					before++
				}
			}
		}
	}
	if before > 0 && before < 8 {
		return box{math.Inf(-1), math.Inf(-1), math.Inf(1), math.Inf(1)}
	}
	return b
}

// drawBand draws everything in the band and counts its cards.
func (r *seeing) drawBand(c *canvas, b *band, window box) {
	c.begin(b.grid)
	brush := brush{fn: func(p *Polygon) {
		if p.Part != PartFloor && c.place(p.Points) {
			c.draw(tagOf(p.Owner, p.Part))
		}
	}}
	for item := range r.reaches {
		t := &r.reaches[item]
		if float64(t[3]) < b.top || float64(t[1]) > b.bottom ||
			float64(t[2]) < window[0] || float64(t[0]) > window[2] {
			continue
		}
		if r.tiles != nil && !r.tiles.touch(t) {
			continue
		}
		brush.item(r.Scene, item, &r.view.Position)
	}
	var hits []hit
	for seat := range r.cards {
		card := &r.cards[seat]
		if !card.wanted || card.box[3] <= b.top || card.box[1] >= b.bottom {
			continue
		}
		p := piece{seat: int32(seat), scale: b.scale, corner: b.corner, hits: hits[:0]}
		p.weight = int64((1 << 24) / float64(b.scale*b.scale))
		q, _ := r.CardQuad(seat)
		if c.place(q[:]) {
			c.count(&p)
		}
		hits = p.hits
		if card.box[1] >= b.top && card.box[3] <= b.bottom {
			r.finish(p)
			continue
		}
		p.hits = slices.Clone(p.hits)
		b.pieces = append(b.pieces, p)
	}
}

// count adds up the samples of the placed card.
func (c *canvas) count(p *piece) {
	own := uint32(tagOf(p.seat, PartCard))
	last := -1 // the hit that the sample before belonged to
	for row := c.top; row < c.bottom; row++ {
		left, right := int(c.left[row]), int(c.right[row])
		if left >= right {
			continue
		}
		won := int64(0)
		for i, key := range c.depth[row*c.width+left : row*c.width+right] {
			tag := uint32(key)
			if tag == own {
				won++
				p.wonAt[0] += int64(2*(left+i) + 1)
				continue
			}
			if last < 0 || p.hits[last].tag != tag {
				last = p.find(tag)
			}
			p.hits[last].count++
		}
		n := int64(right - left)
		p.won += won
		p.alone += n
		p.wonAt[1] += won * int64(2*row+1)
		p.aloneAt[0] += n * int64(left+right)
		p.aloneAt[1] += n * int64(2*row+1)
	}
}

// find is the index of the tag among the hits, added where it is new.
func (p *piece) find(tag uint32) int {
	for i := range p.hits {
		if p.hits[i].tag == tag {
			return i
		}
	}
	p.hits = append(p.hits, hit{tag: tag})
	return len(p.hits) - 1
}

// join finishes the cards that lie in more than one band.
func (r *seeing) join() {
	var all []piece
	for i := range r.bands {
		all = append(all, r.bands[i].pieces...)
	}
	slices.SortStableFunc(all, func(a, b piece) int { return int(a.seat) - int(b.seat) })
	for pieces := range runs(all, func(a, b piece) bool { return a.seat == b.seat }) {
		r.finish(pieces...)
	}
}

// finish turns what was counted of a card into what the view sees of it.
func (r *seeing) finish(pieces ...piece) {
	seat := pieces[0].seat
	card := &r.cards[seat]
	won, alone := int64(0), int64(0)
	var wonAt, aloneAt Pixel
	for i := range pieces {
		p := &pieces[i]
		won += p.won * p.weight
		alone += p.alone * p.weight
		for axis := range 2 {
			sum := func(n, at int64) float64 {
				return float64(float64(p.weight) * (float64(p.corner[axis]*float64(n)) + float64(at)/(2*p.scale)))
			}
			wonAt[axis] += sum(p.won, p.wonAt[axis])
			aloneAt[axis] += sum(p.alone, p.aloneAt[axis])
		}
	}
	if alone > 0 {
		share := float64(won) / float64(alone) * card.share
		r.sight.Seen[seat] = float32(share)
		r.sight.Pixels[seat] = float32(share * card.size)
	}
	if won > 0 && won < alone {
		// The samples say how far what is seen is off the middle; the middle itself is exact.
		for axis := range 2 {
			r.sight.Centre[seat][axis] += wonAt[axis]/float64(won) - aloneAt[axis]/float64(alone)
		}
	}
	r.sight.Hider[seat], r.sight.HiderOf[seat] = hider(pieces)
}

// hider is the part that hides most, and of its owners the one that does; ties go
// to the part and the seat that come first.
func hider(pieces []piece) (part int8, owner int32) {
	var all piece // weighed
	for i := range pieces {
		for _, h := range pieces[i].hits {
			all.hits[all.find(h.tag)].count += h.count * pieces[i].weight
		}
	}
	var parts [PartBox + 1]int64
	for _, h := range all.hits {
		if _, p := untag(h.tag); p <= PartBox { // else nothing is there: the card is too thin for the buffer
			parts[p] += h.count
		}
	}
	best := Part(0)
	for p := range parts {
		if parts[p] > parts[best] {
			best = Part(p)
		}
	}
	if parts[best] == 0 {
		return -1, -1
	}
	owner = -1
	most := int64(-1)
	for _, h := range all.hits {
		// As unsigned numbers nobody, −1, comes last.
		if o, p := untag(h.tag); p == best && (h.count > most || h.count == most && uint32(o) < uint32(owner)) {
			owner, most = o, h.count
		}
	}
	return int8(best), owner
}

const tilesAcross = 128

// tiles marks where in the window wanted cards lie, so that a look at a few cards of
// many need not draw what is nowhere near them.
type tiles struct {
	window box
	marked [tilesAcross][tilesAcross]bool
}

// around is the tiles that a box touches, those at the border for what lies beyond it.
func (t *tiles) around(b box) (first, last [2]int) {
	for axis := range 2 {
		size := (t.window[axis+2] - t.window[axis]) / tilesAcross
		first[axis] = min(index((b[axis]-t.window[axis])/size-0.5, tilesAcross), tilesAcross-1)
		last[axis] = min(index((b[axis+2]-t.window[axis])/size-0.5, tilesAcross), tilesAcross-1)
	}
	return first, last
}

// touch says whether an item may draw over a marked tile.
func (t *tiles) touch(s *reach) bool {
	first, last := t.around(box{float64(s[0]), float64(s[1]), float64(s[2]), float64(s[3])})
	for y := first[1]; y <= last[1]; y++ {
		for x := first[0]; x <= last[0]; x++ {
			if t.marked[y][x] {
				return true
			}
		}
	}
	return false
}
