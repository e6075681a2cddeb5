package pictures

import (
	"bufio"
	"compress/lzw"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"io"
	"math"
	"math/bits"
	"slices"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// The moving picture.
const (
	movingSide = 960 // pixels of its longer side, at most
	// leastDelay is the shortest that a frame stands, in hundredths of a second: many programs
	// play anything shorter at a tenth of a second (common practice, no source).
	leastDelay = 2
	// calmDelay is the shortest in a sequence that flashes dangerously, so that the file
	// cannot: three changes a second make one flash and a half, and WCAG 2.3.1 bears three.
	calmDelay = 34
	// A wave has at most so many frames, and none stands shorter than waveDelay.
	waveFrames = 60
	waveDelay  = 6 // hundredths of a second
)

// Cues writes, as a GIF that plays again and again at true speed, the sequence as the camera
// sees it: rest from READY of the first cue, every cue as it comes up, stays and goes down, and
// three seconds of rest. Seats move at their own moments, in a wave to the nearest frame
// before; frames stand 6/100 s or longer, and a sixtieth of a slow wave. Of a sequence that
// flashes dangerously, which the crew has accepted, the changes faster than three a second are
// left out: whoever opens the file has accepted nothing.
//
// A view larger than 960 pixels is made smaller. Memory is that of one picture of the crowd
// and a small one a cue.
func Cues(w io.Writer, p *mosaic.Plan) error {
	if len(p.Cues) == 0 {
		return fmt.Errorf("a plan without cues has nothing to play")
	}
	m, err := newMoving(p)
	if err != nil {
		return err
	}
	return m.write(w)
}

// moving is the sequence while it is drawn.
type moving struct {
	plan   *mosaic.Plan
	view   *camera.View
	pal    *palette
	stills [][]uint8 // everybody resting, then a cue each
	frames []frame
	total  int // hundredths of a second
}

// rest is the still of everybody resting; cue q is still q + 1.
const rest = 0

// frame is one picture of the sequence: what was there, and what is coming up as far as step.
type frame struct {
	at       int // hundredths of a second from the beginning
	was, now int // stills
	step     uint8
	steps    []uint8 // by seat, from 1: the frame of a wave at which it moves; nil = all do at once
}

func newMoving(p *mosaic.Plan) (*moving, error) {
	v, err := viewOf(p, 0)
	if err != nil {
		return nil, err
	}
	m := &moving{plan: p, view: smaller(v, movingSide), pal: newPalette(emptyTone(p.Stunt.Outdoors))}
	m.timeline()
	film := newFilm(m.view) // for one still after the other
	for cue := rest - 1; cue < len(p.Cues); cue++ {
		s := studioOf(p, cue, film, m.pal)
		s.dress()
		m.stills = append(m.stills, s.film.develop(m.pal).Pix)
	}
	return m, nil
}

// smaller is the same view in fewer pixels.
func smaller(v *camera.View, side int) *camera.View {
	long := max(v.Width, v.Height)
	if long <= side {
		return v
	}
	out := *v
	part := float64(side) / float64(long)
	out.Width = max(1, int(math.Round(float64(v.Width)*part)))
	out.Height = max(1, int(math.Round(float64(v.Height)*part)))
	out.Focal = v.Focal * part
	out.Center = camera.Pixel{v.Center[0] * part, v.Center[1] * part}
	return &out
}

// timeline lists the frames. Times are rounded from the beginning on, so that they do not
// drift: no moment is off by more than half a hundredth, and the whole neither.
func (m *moving) timeline() {
	cues := m.plan.Cues
	begin := cues[0].Times.Ready
	at := func(t time.Duration) int { return int((t - begin + 5*time.Millisecond) / (10 * time.Millisecond)) }
	m.frames = []frame{{now: rest}}
	was := rest
	for q := range cues {
		t := &cues[q].Times
		m.wave(q, was, at)
		was = q + 1
		if q+1 == len(cues) || cues[q+1].Times.Up > t.Down {
			m.frames = append(m.frames, frame{at: at(t.Down), was: was, now: rest})
			was = rest
		}
	}
	m.total = at(begin + m.plan.Length())
	m.frames = m.long()
}

// wave adds the frames at which a cue comes up.
func (m *moving) wave(cue, was int, at func(time.Duration) int) {
	plan := &m.plan.Cues[cue]
	up := at(plan.Times.Up)
	if plan.Delay == nil {
		m.frames = append(m.frames, frame{at: up, was: was, now: cue + 1})
		return
	}
	seats := m.plan.Stands.Seats
	moments := make([]int, len(seats))
	var all []int
	for s := range seats {
		if seats[s].Use == seating.UseCard {
			moments[s] = at(m.plan.Moment(cue, s))
			all = append(all, moments[s])
		}
	}
	slices.Sort(all)
	starts := thinned(slices.Compact(all))
	steps := make([]uint8, len(seats))
	for s := range seats {
		if seats[s].Use == seating.UseCard {
			n, exact := slices.BinarySearch(starts, moments[s])
			if !exact {
				n-- // between two frames: the one before
			}
			steps[s] = uint8(n + 1)
		}
	}
	for n, start := range starts {
		f := frame{at: start, was: was, now: cue + 1, step: uint8(n + 1), steps: steps}
		if n+1 == len(starts) {
			f.steps = nil // everybody has moved
		}
		m.frames = append(m.frames, f)
	}
}

// thinned leaves out moments that follow another one too soon for a frame of their own.
func thinned(moments []int) []int {
	span := moments[len(moments)-1] - moments[0]
	apart := max(waveDelay, (span+waveFrames-2)/(waveFrames-1))
	out := moments[:1:1]
	for _, t := range moments[1:] {
		if t >= out[len(out)-1]+apart {
			out = append(out, t)
		}
	}
	return out
}

// long leaves out frames that would stand too short to be played; the one before stands on.
func (m *moving) long() []frame {
	least := leastDelay
	if m.plan.Flashing != "" {
		least = calmDelay
	}
	var out []frame
	for i, f := range m.frames {
		end := m.total
		if i+1 < len(m.frames) {
			end = m.frames[i+1].at
		}
		if i == 0 || end-f.at >= least {
			out = append(out, f)
		}
	}
	return out
}

// write plays the frames into a GIF.
func (m *moving) write(w io.Writer) error {
	g := newGIF(w, m.view.Width, m.view.Height, m.pal.colours())
	shown := make([]uint8, m.view.Width*m.view.Height) // what has been written
	next := slices.Clone(m.stills[rest])
	was, began := []uint8(nil), 0
	var wave turning
	for i := range m.frames {
		f := &m.frames[i]
		if i > 0 {
			wave = m.compose(next, f, wave)
			if slices.Equal(next, shown) {
				continue // the same picture stands on
			}
			m.show(g, was, shown, f.at-began)
			began = f.at
			was = append(was[:0], shown...)
		}
		copy(shown, next)
	}
	m.show(g, was, shown, m.total-began)
	return g.close()
}

// show writes what differs from what was there; nil = nothing was.
func (m *moving) show(g *gifWriter, was, now []uint8, hundredths int) {
	r := changed(was, now, m.view.Width, m.view.Height)
	pix := make([]uint8, 0, r.Dx()*r.Dy())
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			k := y*m.view.Width + x
			if was != nil && g.transparent && was[k] == now[k] {
				pix = append(pix, g.clear)
			} else {
				pix = append(pix, now[k])
			}
		}
	}
	g.frame(r, pix, hundredths)
}

// turning says at which step of a wave each pixel turns.
type turning struct {
	was, now int
	pixels   []uint8
}

// compose puts a frame together: what comes up, where whoever is seen there has moved.
func (m *moving) compose(to []uint8, f *frame, wave turning) turning {
	was, now := m.stills[f.was], m.stills[f.now]
	if f.steps == nil {
		copy(to, now)
		return wave
	}
	if wave.pixels == nil || wave.was != f.was || wave.now != f.now {
		wave = turning{f.was, f.now, m.turns(f)}
	}
	for k, step := range wave.pixels {
		if step != 0 && step <= f.step {
			to[k] = now[k]
		} else {
			to[k] = was[k]
		}
	}
	return wave
}

// turns are the steps at which pixels turn: that of whoever is seen there afterwards, or
// before, where nobody is then; 0 where nobody moves.
func (m *moving) turns(f *frame) []uint8 {
	film := newFilm(m.view)
	of := func(still int) []uint8 {
		s := studioOf(m.plan, still-1, film, m.pal)
		s.film.marked, s.marks = true, f.steps
		s.dress()
		return s.film.developMarks()
	}
	out := of(f.now)
	for k, step := range of(f.was) {
		if out[k] == 0 {
			out[k] = step
		}
	}
	return out
}

// longestDelay is what one frame can stand, in hundredths of a second.
const longestDelay = 1<<16 - 1

// gifWriter writes a GIF that plays for ever (GIF89a specification, W3C copy), frame by frame, so
// that no more than one is in memory. All frames share one palette, and each holds only the
// rectangle in which anything changes, what does not change in it being transparent.
type gifWriter struct {
	out         *bufio.Writer
	err         error
	width       int
	clear       uint8 // the transparent entry, where there is room for one
	transparent bool
	bits        int // of a palette entry, at least 2
}

func newGIF(w io.Writer, width, height int, colours color.Palette) *gifWriter {
	g := &gifWriter{
		out: bufio.NewWriter(w), width: width, clear: uint8(len(colours)), transparent: len(colours) < maxColours,
	}
	g.bits = max(2, bits.Len(uint(min(len(colours)+1, maxColours)-1)))
	g.put([]byte("GIF89a"))
	g.words(width, height)
	g.put([]byte{0x80 | 7<<4 | byte(g.bits-1), 0, 0}) // a palette for all, 8 bits a channel
	table := make([]byte, 3<<g.bits)
	for i, c := range colours {
		r, gr, b, _ := c.RGBA()
		table[3*i], table[3*i+1], table[3*i+2] = uint8(r>>8), uint8(gr>>8), uint8(b>>8)
	}
	g.put(table)
	g.put([]byte("\x21\xff\x0bNETSCAPE2.0\x03\x01\x00\x00\x00")) // again and again
	return g
}

func (g *gifWriter) put(data []byte) {
	if g.err == nil {
		_, g.err = g.out.Write(data)
	}
}

func (g *gifWriter) words(values ...int) {
	for _, v := range values {
		g.put(binary.LittleEndian.AppendUint16(nil, uint16(v)))
	}
}

// frame shows the pixels of a rectangle, row by row, for so many hundredths of a second.
func (g *gifWriter) frame(r image.Rectangle, pix []uint8, hundredths int) {
	g.picture(r, pix, min(hundredths, longestDelay))
	for hundredths -= longestDelay; hundredths > 0; hundredths -= longestDelay {
		// The picture stands longer than one frame can: its first pixel once more.
		g.picture(image.Rectangle{r.Min, r.Min.Add(image.Pt(1, 1))}, pix[:1], min(hundredths, longestDelay))
	}
}

func (g *gifWriter) picture(r image.Rectangle, pix []uint8, hundredths int) {
	const keep = 1 << 2 // the frame stays where the next one says nothing
	control := []byte{0x21, 0xf9, 4, keep, 0, 0, 0, 0}
	binary.LittleEndian.PutUint16(control[4:], uint16(hundredths))
	if g.transparent {
		control[3] |= 1
		control[6] = g.clear
	}
	g.put(control)
	g.put([]byte{0x2c})
	g.words(r.Min.X, r.Min.Y, r.Dx(), r.Dy())
	g.put([]byte{0, byte(g.bits)})
	if g.err != nil {
		return
	}
	blocks := &subBlocks{out: g.out}
	packed := lzw.NewWriter(blocks, lzw.LSB, g.bits)
	_, err := packed.Write(pix)
	if err == nil {
		err = packed.Close()
	}
	if err == nil {
		err = blocks.end()
	}
	g.err = err
}

// close ends the file; what went wrong first is said here.
func (g *gifWriter) close() error {
	g.put([]byte{0x3b})
	if g.err != nil {
		return g.err
	}
	return g.out.Flush()
}

// subBlocks cuts data into blocks of at most 255 bytes, each with its length before it.
type subBlocks struct {
	out  *bufio.Writer
	held [256]byte // the length, then the bytes
	n    int
}

func (b *subBlocks) WriteByte(c byte) error {
	b.n++
	b.held[b.n] = c
	if b.n < len(b.held)-1 {
		return nil
	}
	return b.flush()
}

func (b *subBlocks) Write(data []byte) (int, error) {
	for i, c := range data {
		if err := b.WriteByte(c); err != nil {
			return i, err
		}
	}
	return len(data), nil
}

// Flush is asked for by the packer, which then takes no buffer of its own; blocks end when they are full.
func (b *subBlocks) Flush() error { return nil }

func (b *subBlocks) flush() error {
	b.held[0] = byte(b.n)
	_, err := b.out.Write(b.held[:b.n+1])
	b.n = 0
	return err
}

// end writes what is left and the block without bytes that ends the data.
func (b *subBlocks) end() error {
	if b.n > 0 {
		if err := b.flush(); err != nil {
			return err
		}
	}
	return b.out.WriteByte(0)
}

// changed is the smallest rectangle outside which both pictures are alike; it is never empty,
// and everything where nothing was before.
func changed(was, now []uint8, width, height int) image.Rectangle {
	if was == nil {
		return image.Rect(0, 0, width, height)
	}
	r := image.Rectangle{image.Pt(width, height), image.Point{}}
	for y := range height {
		a, b := was[y*width:][:width], now[y*width:][:width]
		if slices.Equal(a, b) {
			continue
		}
		left, right := 0, width
		for a[left] == b[left] {
			left++
		}
		for a[right-1] == b[right-1] {
			right--
		}
		r.Min.X, r.Max.X = min(r.Min.X, left), max(r.Max.X, right)
		r.Min.Y, r.Max.Y = min(r.Min.Y, y), y+1
	}
	if r.Empty() {
		return image.Rect(0, 0, 1, 1)
	}
	return r
}
