package pictures

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
)

// sequence is three cues: at once, in a wave from left to right in the place of the first one,
// and after a rest row by row.
func sequence(tb testing.TB) *mosaic.Plan {
	p := painted(tb, hall(false), "GLOW", smallMark())
	ms := func(n int) time.Duration { return time.Duration(n) * time.Millisecond }
	p.Cues = []mosaic.CuePlan{
		{Name: "GLOW", Colours: paintText(p.Stands, "GLOW"), Times: mosaic.Times{Ready: ms(-4000), Up: 0, Full: ms(2000), Down: ms(9333)}},
		{Name: "the other way round", Colours: otherWayRound(paintText(p.Stands, "GLOW")), Times: mosaic.Times{Ready: ms(9333), Up: ms(9333), Full: ms(14333), Down: ms(20005)}},
		{Name: "LOFOL", Colours: paintText(p.Stands, "LOFOL"), Times: mosaic.Times{Ready: ms(20005), Up: ms(24005), Full: ms(28005), Down: ms(900_005)}},
	}
	p.Cues[1].Delay, p.Cues[2].Delay = make([]time.Duration, len(p.Stands.Seats)), make([]time.Duration, len(p.Stands.Seats))
	left, right := math.Inf(1), math.Inf(-1)
	for i := range p.Stands.Seats {
		left, right = min(left, p.Stands.Seats[i].Position[0]), max(right, p.Stands.Seats[i].Position[0])
	}
	for i := range p.Stands.Seats {
		s := &p.Stands.Seats[i]
		p.Cues[1].Delay[i] = ms(int(3000 * (s.Position[0] - left) / (right - left)))
		p.Cues[2].Delay[i] = ms(2000 * int(s.Row) / 11)
	}
	return p
}

// otherWayRound has ink for ground and ground for ink.
func otherWayRound(colours []int16) []int16 {
	for i, c := range colours {
		if c == 0 || c == 1 {
			colours[i] = 1 - c
		}
	}
	return colours
}

// played is the GIF as a program plays it: whole pictures, and when each begins.
type played struct {
	frames []*image.RGBA
	begins []time.Duration
	total  time.Duration
}

func play(t *testing.T, data []byte) played {
	t.Helper()
	g, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if g.LoopCount != 0 {
		t.Errorf("it ends after %d rounds", g.LoopCount)
	}
	var out played
	canvas := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	for i, f := range g.Image {
		if g.Disposal[i] != gif.DisposalNone {
			t.Errorf("frame %d does not stay", i)
		}
		draw.Draw(canvas, f.Rect, f, f.Rect.Min, draw.Over)
		whole := image.NewRGBA(canvas.Rect)
		copy(whole.Pix, canvas.Pix)
		out.frames = append(out.frames, whole)
		out.begins = append(out.begins, out.total)
		out.total += time.Duration(g.Delay[i]) * 10 * time.Millisecond
	}
	return out
}

// at is the picture that shows so long after the first cue's READY.
func (p *played) at(t time.Duration) *image.RGBA {
	k := 0
	for k+1 < len(p.begins) && p.begins[k+1] <= t {
		k++
	}
	return p.frames[k]
}

func cuesGIF(t *testing.T, p *mosaic.Plan) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Cues(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The frames' delays add up to the plan's own times, as the standard library and ImageMagick
// read them, though one cue stays for a quarter of an hour.
func TestCuesTrueSpeed(t *testing.T) {
	p := sequence(t)
	p.Marks[0].View = smaller(p.Marks[0].View, 320)
	data := cuesGIF(t, p)
	want := p.Cues[2].Times.Down + mosaic.RestAfter - p.Cues[0].Times.Ready // 907.005 s
	film := play(t, data)
	if off := film.total - want; off.Abs() > 5*time.Millisecond {
		t.Errorf("it lasts %v, the plan %v", film.total, want)
	}
	if !bytes.Equal(data, cuesGIF(t, p)) {
		t.Error("the same plan gives two files")
	}
	identify := judge(t, "identify")
	path := filepath.Join(t.TempDir(), "cues.gif")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(identify, "-format", "%T\n", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	sum, frames := 0, strings.Fields(string(out))
	for _, f := range frames {
		n, err := strconv.Atoi(f)
		if err != nil {
			t.Fatal(err)
		}
		sum += n
	}
	if len(frames) != len(film.frames) || time.Duration(sum)*10*time.Millisecond != film.total {
		t.Errorf("ImageMagick reads %d frames and %d hundredths, the standard library %d and %v", len(frames), sum, len(film.frames), film.total)
	}
}

// ImageMagick puts the frames together to the same pictures.
func TestCuesPlayedOutside(t *testing.T) {
	convert := judge(t, "convert")
	p := sequence(t)
	p.Marks[0].View = smaller(p.Marks[0].View, 320)
	data := cuesGIF(t, p)
	film := play(t, data)
	path := filepath.Join(t.TempDir(), "cues.gif")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(convert, path, "-coalesce", filepath.Join(filepath.Dir(path), "%d.png")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, n := range []int{0, 1, 12, len(film.frames) - 1} {
		file, err := os.Open(filepath.Join(filepath.Dir(path), strconv.Itoa(n)+".png"))
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(file)
		file.Close()
		if err != nil {
			t.Fatal(err)
		}
		off := 0
		for y := range film.frames[n].Rect.Dy() {
			for x := range film.frames[n].Rect.Dx() {
				if color.RGBAModel.Convert(img.At(x, y)) != film.frames[n].At(x, y) {
					off++
				}
			}
		}
		if off > 0 {
			t.Errorf("frame %d: %d pixels differ", n, off)
		}
	}
}

// While a cue stays, every card that is seen well has the colour that the still has at its
// middle; while everybody rests there is no more ink than in the still of everybody resting.
func TestCuesShowTheCues(t *testing.T) {
	p := sequence(t)
	film := play(t, cuesGIF(t, p))
	v := p.Marks[0].View
	small := smaller(v, movingSide)
	begin := p.Cues[0].Times.Ready
	hands := p.Scene.Shaken(handSeed, p.Stunt.Card.HandHeight.Metres(), p.Stunt.Card.HandSideways.Metres(), p.Stunt.Card.HandTilt*math.Pi/180)
	sight := hands.See(v)
	inkOf := func(img image.Image) float64 {
		left, right := inkSides(img, rgb(testColours[1].RGB))
		return float64(left+right) / float64(img.Bounds().Dx()*img.Bounds().Dy())
	}
	up, atRest := 0.0, inkOf(filmed(t, p, -1))
	for q := range p.Cues {
		still := filmed(t, p, q)
		got := film.at((p.Cues[q].Times.Full+p.Cues[q].Times.Down)/2 - begin)
		if q == 0 {
			up = inkOf(got)
		}
		checked, wrong := 0, 0
		for i := range p.Stands.Seats {
			if sight.Seen[i] < 0.8 || p.Cues[q].Colours[i] == mosaic.None || sight.Pixels[i] < 60 {
				continue
			}
			quad, _ := hands.CardQuad(i)
			c := rgb(testColours[p.Cues[q].Colours[i]].RGB)
			if cornersShow(still, v, &quad, c) {
				checked++
				if !cornersShow(got, small, &quad, c) {
					wrong++
				}
			}
		}
		if checked < 100 || wrong*50 > checked { // a corner's sample may fall on a card's edge
			t.Errorf("cue %d: %d of %d cards do not have the still's colour", q, wrong, checked)
		}
	}
	rests := map[string]time.Duration{"before": -time.Second, "between": 22 * time.Second, "after": p.Cues[2].Times.Down + time.Second}
	for when, at := range rests {
		if rest := inkOf(film.at(at - begin)); math.Abs(rest-atRest) > up/10 || rest > up/3 {
			t.Errorf("%s: %.4f of the picture is ink, %.4f of rest.png, %.4f with the cards up", when, rest, atRest, up)
		}
	}
	if first, last := film.frames[0], film.frames[len(film.frames)-1]; !bytes.Equal(first.Pix, last.Pix) {
		t.Error("it does not end as it begins")
	}
}

// In a wave every seat moves at its own moment: a fifth of a second before, it still shows what
// it showed, and then what comes.
func TestCuesWave(t *testing.T) {
	p := sequence(t)
	film := play(t, cuesGIF(t, p))
	v := p.Marks[0].View
	small := smaller(v, movingSide)
	hands := p.Scene.Shaken(handSeed, p.Stunt.Card.HandHeight.Metres(), p.Stunt.Card.HandSideways.Metres(), p.Stunt.Card.HandTilt*math.Pi/180)
	sight := hands.See(v)
	checked, wrong := 0, 0
	for i := range p.Stands.Seats {
		was, now := p.Cues[0].Colours[i], p.Cues[1].Colours[i]
		if was == mosaic.None || now == mosaic.None || was == now || sight.Seen[i] < 0.8 || sight.Pixels[i] < 60 {
			continue
		}
		quad, _ := hands.CardQuad(i)
		shows := func(at time.Duration, c int16) bool {
			return cornersShow(film.at(at-p.Cues[0].Times.Ready), small, &quad, rgb(testColours[c].RGB))
		}
		moment, fifth := p.Moment(1, i), 200*time.Millisecond
		if !shows(9*time.Second, was) || !shows(20*time.Second, now) {
			continue // too small to be judged
		}
		checked++
		if !shows(moment-fifth, was) || !shows(moment+fifth, now) || shows(moment-fifth, now) || shows(moment+fifth, was) {
			wrong++
		}
	}
	if checked < 40 || wrong > 0 {
		t.Errorf("%d of %d cards do not turn at their moment", wrong, checked)
	}
}

// A sequence that flashes is not played so that the file flashes: no picture is replaced within
// a third of a second (WCAG 2.3.1 bears three flashes, six changes, in a second; SEEN).
func TestCuesDoNotFlash(t *testing.T) {
	p := painted(t, hall(false), "GLOW", smallMark())
	p.Marks[0].View = smaller(p.Marks[0].View, 320)
	p.Flashing = "Cues flash. It may cause seizures: warn everybody before."
	p.Cues = nil
	white, navy := make([]int16, len(p.Stands.Seats)), make([]int16, len(p.Stands.Seats))
	for i := range white {
		white[i], navy[i] = 1, 0
	}
	for n := range 30 {
		up := time.Duration(n) * 100 * time.Millisecond
		c := [][]int16{white, navy}[n%2]
		p.Cues = append(p.Cues, mosaic.CuePlan{Colours: c, Times: mosaic.Times{Ready: up - 4*time.Second, Up: up, Full: up, Down: up + 100*time.Millisecond}})
	}
	film := play(t, cuesGIF(t, p))
	if want := 10 * time.Second; film.total != want {
		t.Errorf("it lasts %v, want %v", film.total, want)
	}
	for i := 1; i < len(film.begins); i++ {
		if d := film.begins[i] - film.begins[i-1]; d*3 < time.Second {
			t.Errorf("frame %d stands %v", i-1, d)
		}
	}
	p.Flashing = ""
	if n := len(play(t, cuesGIF(t, p)).frames); n < 30 {
		t.Errorf("without that warning there are %d frames of 30 cues", n)
	}
}

// Every palette entry may be taken: then nothing is transparent, and pixels are written anew.
func TestGIFOfFullPalettes(t *testing.T) {
	for _, n := range []int{1, 2, 3, 4, 127, 128, 255, 256} {
		colours := make(color.Palette, n)
		for i := range colours {
			colours[i] = color.RGBA{uint8(i), uint8(255 - i), 9, 255}
		}
		var b bytes.Buffer
		g := newGIF(&b, 300, 2, colours)
		first, second := make([]uint8, 600), make([]uint8, 600)
		for k := range first {
			first[k], second[k] = uint8(k%n), uint8(k%n)
		}
		second[301], second[402] = uint8(n-1), 0
		m := &moving{view: level(300, 2, 50)}
		m.show(g, nil, first, 70_000)
		m.show(g, first, second, 5)
		if err := g.close(); err != nil {
			t.Fatal(err)
		}
		film := play(t, b.Bytes())
		if film.total != 700050*time.Millisecond {
			t.Errorf("%d colours: %v", n, film.total)
		}
		for i, want := range map[int][]uint8{0: first, len(film.frames) - 1: second} {
			for k, c := range want {
				if got := film.frames[i].At(k%300, k/300); got != colours[c] {
					t.Fatalf("%d colours, frame %d, pixel %d: %v, want %v", n, i, k, got, colours[c])
				}
			}
		}
	}
}

// An error of the writer comes back.
func TestCuesNowhereToWrite(t *testing.T) {
	if err := Cues(failing{}, sequence(t)); err == nil {
		t.Error("no error")
	}
	if err := Cues(io.Discard, &mosaic.Plan{Stands: &seating.Stands{}}); err == nil {
		t.Error("no error without cues")
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrShortWrite }
