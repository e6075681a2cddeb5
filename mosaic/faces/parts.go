package faces

// split numbers the strokes that do not touch, from 1, by raster pixel (0 is ground), and finds those that are alike.
func (s *Shape) split() {
	s.once.Do(func() {
		s.labels = make([]uint8, s.Cols*rasterH)
		var boxes []partBox
		for i := range s.labels {
			if s.labels[i] == 0 && s.inked(i) && len(boxes) < 255 {
				boxes = append(boxes, s.flood(i, uint8(len(boxes)+1)))
			}
		}
		for a := 0; a < len(boxes) && len(s.twins) < 2; a++ {
			s.twins = nil
			for b := a; b < len(boxes); b++ {
				if boxes[a].solid() && boxes[b].solid() && boxes[a].like(&boxes[b]) {
					s.twins = append(s.twins, b+1)
				}
			}
		}
	})
}

// inked says whether half of a pixel is ink.
func (s *Shape) inked(i int) bool {
	x, y := i%s.Cols, i/s.Cols
	at := y*s.stride + x
	return 2*int(s.sums[at+s.stride+1]-s.sums[at+s.stride]-s.sums[at+1]+s.sums[at]) >= fullCell
}

// partBox is where a part lies in the raster, and how many of its pixels are inked.
type partBox struct{ left, top, right, bottom, pixels int }

func (b *partBox) wide() int { return b.right - b.left }
func (b *partBox) high() int { return b.bottom - b.top }

// solid says whether a part fills its box as a disc or a bar does (π/4).
func (b *partBox) solid() bool { return 4*b.pixels >= 3*b.wide()*b.high() }

func (b *partBox) like(c *partBox) bool {
	near := func(m, n int) bool { return 10*max(m-n, n-m) <= max(m, n, 10) }
	return near(b.wide(), c.wide()) && near(b.high(), c.high())
}

// flood numbers the part that a pixel belongs to.
func (s *Shape) flood(from int, n uint8) partBox {
	s.labels[from] = n
	b := partBox{left: s.Cols, top: rasterH}
	for todo := []int{from}; len(todo) > 0; b.pixels++ {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		x, y := i%s.Cols, i/s.Cols
		b.left, b.top, b.right, b.bottom = min(b.left, x), min(b.top, y), max(b.right, x+1), max(b.bottom, y+1)
		for v := max(y-1, 0); v <= min(y+1, rasterH-1); v++ {
			for u := max(x-1, 0); u <= min(x+1, s.Cols-1); u++ {
				if k := v*s.Cols + u; s.labels[k] == 0 && s.inked(k) {
					s.labels[k] = n
					todo = append(todo, k)
				}
			}
		}
	}
	return b
}

// Part is which of the strokes that do not touch fills most of a box, numbered from the top, from 1;
// 0 where none has a pixel there. The box is as Coverage's.
func (s *Shape) Part(x0, y0, x1, y1 int) int {
	s.split()
	var count [256]int
	best := 0
	for y := max(y0/Fine+roomUp, 0); y < min((y1+Fine-1)/Fine+roomUp, rasterH); y++ {
		for x := max(x0/Fine, 0); x < min((x1+Fine-1)/Fine, s.Cols); x++ {
			if l := s.labels[y*s.Cols+x]; l > 0 {
				count[l]++
				if count[l] > count[best] {
					best = int(l)
				}
			}
		}
	}
	return best
}

// Twins are parts that are alike, such as a colon's dots or the bars of an equals sign: filled boxes, one as
// large as the other but for a tenth. Nil where there are none.
func (s *Shape) Twins() []int {
	if s.split(); len(s.twins) < 2 {
		return nil
	}
	return s.twins
}
