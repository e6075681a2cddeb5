package pictures

import (
	"bufio"
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"io"
	"math"
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
	v, err := viewOf(p, 0)
	if err != nil {
		return err
	}
	m := &moving{plan: p, view: smaller(v, movingSide), pal: newPalette(emptyTone(p.Stunt.Outdoors))}
	m.timeline()
	film := newFilm(m.view) // for one still after the other
	for cue := rest - 1; cue < len(p.Cues); cue++ {
		s := studioOf(p, cue, film, m.pal)
		s.dress()
		m.stills = append(m.stills, s.film.develop(m.pal).Pix)
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
	wave     *wave // nil = all move at once
}

// wave says, counted from 1, at which of its frames a seat moves, and from its first frame on, at which a pixel turns.
type wave struct{ seats, pixels []uint8 }

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
	w := &wave{seats: make([]uint8, len(seats))}
	for s := range seats {
		if seats[s].Use == seating.UseCard {
			n, exact := slices.BinarySearch(starts, moments[s])
			if !exact {
				n-- // between two frames: the one before
			}
			w.seats[s] = uint8(n + 1)
		}
	}
	for n, start := range starts {
		f := frame{at: start, was: was, now: cue + 1, step: uint8(n + 1), wave: w}
		if n+1 == len(starts) {
			f.wave = nil // everybody has moved
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
	for i := range m.frames {
		f := &m.frames[i]
		if i > 0 {
			m.compose(next, f)
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
	wide := m.view.Width
	img := image.NewPaletted(image.Rect(0, 0, wide, m.view.Height), g.palette)
	if was != nil {
		img = image.NewPaletted(changed(was, now, wide), g.palette)
	}
	for i := range img.Pix {
		k := (img.Rect.Min.Y+i/img.Stride)*wide + img.Rect.Min.X + i%img.Stride
		if img.Pix[i] = now[k]; was != nil && g.transparent && was[k] == now[k] {
			img.Pix[i] = uint8(len(g.palette) - 1)
		}
	}
	g.show(img, hundredths)
}

// changed is the smallest rectangle outside which both pictures are alike; they are not alike.
func changed(was, now []uint8, width int) (r image.Rectangle) {
	for k, c := range now {
		if c != was[k] {
			r = r.Union(image.Rect(k%width, k/width, k%width+1, k/width+1))
		}
	}
	return r
}

// compose puts a frame together: what comes up, where whoever is seen there has moved.
func (m *moving) compose(to []uint8, f *frame) {
	was, now := m.stills[f.was], m.stills[f.now]
	if f.wave == nil {
		copy(to, now)
		return
	}
	if f.wave.pixels == nil {
		f.wave.pixels = m.turns(f)
	}
	for k, step := range f.wave.pixels {
		to[k] = was[k]
		if step != 0 && step <= f.step {
			to[k] = now[k]
		}
	}
}

// turns are the steps at which pixels turn: that of whoever is seen there afterwards, or
// before, where nobody is then; 0 where nobody moves.
func (m *moving) turns(f *frame) []uint8 {
	film := newFilm(m.view)
	of := func(still int) []uint8 {
		s := studioOf(m.plan, still-1, film, m.pal)
		s.film.marked, s.marks = true, f.wave.seats
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

// gifWriter writes a GIF that plays for ever, frame by frame, so that no more than one is in memory: the library makes
// each a file of its own, out of which it is taken. All frames share one palette, and each holds only the rectangle in
// which anything changes, what does not change in it being transparent.
type gifWriter struct {
	out         *bufio.Writer // errors stay in it until Flush
	err         error
	size        image.Point
	palette     color.Palette // with the transparent entry at its end, where there is room for one
	transparent bool
	begun       bool
}

func newGIF(w io.Writer, width, height int, colours color.Palette) *gifWriter {
	g := &gifWriter{out: bufio.NewWriter(w), size: image.Pt(width, height), palette: colours}
	if g.transparent = len(colours) < maxColours; g.transparent {
		g.palette = append(g.palette, color.RGBA{})
	}
	return g
}

// show shows a picture for so many hundredths of a second.
func (g *gifWriter) show(img *image.Paletted, hundredths int) {
	g.picture(img, min(hundredths, longestDelay))
	for hundredths -= longestDelay; hundredths > 0; hundredths -= longestDelay {
		// The picture stands longer than one frame can: its first pixel once more.
		first := image.Rectangle{img.Rect.Min, img.Rect.Min.Add(image.Pt(1, 1))}
		g.picture(img.SubImage(first).(*image.Paletted), min(hundredths, longestDelay))
	}
}

func (g *gifWriter) picture(img *image.Paletted, hundredths int) {
	var whole bytes.Buffer
	err := gif.EncodeAll(&whole, &gif.GIF{
		Image: []*image.Paletted{img}, Delay: []int{hundredths}, Disposal: []byte{gif.DisposalNone},
		Config: image.Config{ColorModel: g.palette, Width: g.size.X, Height: g.size.Y},
	})
	if g.err = cmp.Or(g.err, err); g.err != nil {
		return
	}
	file := whole.Bytes()
	head := 13 + 3<<(file[10]&7+1) // bytes before the frame, the palette at their end (GIF89a specification, W3C copy)
	if !g.begun {
		file[10] |= 7 << 4 // eight bits a channel, which the library leaves out
		g.out.Write(file[:head])
		g.out.WriteString("\x21\xff\x0bNETSCAPE2.0\x03\x01\x00\x00\x00") // again and again
		g.begun = true
	}
	g.out.Write(file[head : len(file)-1])
}

// close ends the file; what went wrong first is said here.
func (g *gifWriter) close() error {
	g.out.WriteByte(';')
	return cmp.Or(g.err, g.out.Flush())
}
