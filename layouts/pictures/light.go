package pictures

import (
	"image"
	"image/color"
	"io"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
)

// lightWide is how wide each of the four pictures is, in pixels, at most.
const lightWide = 640

// lightHead is the strip above each with its name, in pixels.
const lightHead = 34

// lightPanel is one way to record a cue.
type lightPanel struct {
	name  string
	stops float64
	dark  bool
}

var lightPanels = [...]lightPanel{
	{name: "In the right light"}, {name: "One stop too much light", stops: 1},
	{name: "Two stops too much light", stops: 2}, {name: "A crowd in dark clothes", dark: true},
}

// Light writes, as PNG, four small pictures of a cue: as Camera has it, with one and with two
// stops too much light (each channel that is full stays full, as colour.Linear.Exposed says),
// and before a crowd in mosaic.DarkClothes.
func Light(w io.Writer, p *mosaic.Plan, cue int) error {
	var all *image.RGBA
	wide, high := 0, 0
	for i := range lightPanels {
		l := &lightPanels[i]
		img, err := l.record(p, cue)
		if err != nil {
			return err
		}
		if all == nil {
			wide, high = smallSize(img.Rect)
			all = blankPage(2*wide, 2*(high+lightHead))
			for k := range lightPanels {
				lightTitle(all, k, wide, high)
			}
		}
		at := lightAt(i, wide, high)
		shrinkInto(all, at, img)
	}
	return writePaletted(w, reduce(all, exactLights(p)))
}

// lightAt is where a picture of the four lies.
func lightAt(i, wide, high int) image.Rectangle {
	x, y := i%2*wide, i/2*(high+lightHead)+lightHead
	return image.Rect(x, y, x+wide, y+high)
}

// record draws the cue and exposes every colour of its palette.
func (l *lightPanel) record(p *mosaic.Plan, cue int) (*image.Paletted, error) {
	img, err := shootIn(p, cue, l.dark)
	if err != nil {
		return nil, err
	}
	for k, c := range img.Palette {
		c := c.(color.RGBA)
		img.Palette[k] = exposed(rgb{c.R, c.G, c.B}, l.stops).opaque()
	}
	return img, nil
}

func exposed(c rgb, stops float64) rgb {
	if stops == 0 {
		return c
	}
	return rgb(colour.RGB(c).Linear().Exposed(stops).RGB())
}

// exactLights are the colours that the figures speak of: they come out exact.
func exactLights(p *mosaic.Plan) []rgb {
	out := []rgb{{255, 255, 255}, lightWords}
	for i := range p.Stunt.Colours {
		for _, l := range lightPanels {
			out = append(out, exposed(rgb(p.Stunt.Colours[i].RGB), l.stops))
		}
	}
	return out[:min(len(out), maxColours/2)]
}

var lightWords = rgb{0x20, 0x20, 0x20}

// lightTitle writes the name above a picture.
func lightTitle(to *image.RGBA, i, wide, high int) {
	at := lightAt(i, wide, high)
	d := &drawing{}
	d.write(spot{float64(at.Min.X) + 10, float64(at.Min.Y) - lightHead/2}, lettering{words: lightPanels[i].name, size: 20, bold: true, colour: lightWords})
	d.onto(to)
}

// smallSize is the size of a picture no wider than lightWide.
func smallSize(r image.Rectangle) (wide, high int) {
	wide = min(r.Dx(), lightWide)
	return wide, max(1, (r.Dy()*wide+r.Dx()/2)/r.Dx())
}

// shrinkInto fills a part of a picture with the mean of what falls on each pixel, in linear light.
func shrinkInto(to *image.RGBA, at image.Rectangle, from *image.Paletted) {
	var linear [maxColours][3]int
	for k, c := range from.Palette {
		c := c.(color.RGBA)
		linear[k] = [3]int{int(toLinear[c.R]), int(toLinear[c.G]), int(toLinear[c.B])}
	}
	w, h := from.Rect.Dx(), from.Rect.Dy()
	for y := range at.Dy() {
		y0, y1 := y*h/at.Dy(), max((y+1)*h/at.Dy(), y*h/at.Dy()+1)
		for x := range at.Dx() {
			x0, x1 := x*w/at.Dx(), max((x+1)*w/at.Dx(), x*w/at.Dx()+1)
			first := from.Pix[y0*from.Stride+x0]
			var sum [3]int
			same := true
			for v := y0; v < y1; v++ {
				for _, k := range from.Pix[v*from.Stride+x0 : v*from.Stride+x1] {
					same = same && k == first
					for c := range sum {
						sum[c] += linear[k][c]
					}
				}
			}
			n := (y1 - y0) * (x1 - x0)
			pixel := from.Palette[first].(color.RGBA)
			if !same {
				pixel = rgb{toSRGB[sum[0]/n], toSRGB[sum[1]/n], toSRGB[sum[2]/n]}.opaque()
			}
			to.SetRGBA(at.Min.X+x, at.Min.Y+y, pixel)
		}
	}
}
