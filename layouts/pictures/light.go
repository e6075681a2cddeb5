package pictures

import (
	"image"
	"image/color"
	"io"
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

const (
	// lightSide is how wide and how high the sheet of the four pictures is, in pixels, at most.
	lightSide = 1600
	// lightHead is the strip above each with its name, in pixels.
	lightHead = 34
	// lightAround is how much is shown round the text's cards, in parts of their height.
	lightAround = 0.2
)

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

// Light writes, as PNG, four pictures of the cards that carry a cue's text and of what is close
// round them, as large as they go on a square sheet: as Camera has it, with one and with two
// stops too much light (each channel that is full stays full, as colour.Linear.Exposed says),
// and before a crowd in mosaic.DarkClothes.
func Light(w io.Writer, p *mosaic.Plan, cue int) error {
	if _, err := viewOf(p, cue); err != nil {
		return err
	}
	l := layLight(p, cue)
	crowd := shootWith(p, cue, l.view, false)
	dark := shootWith(p, cue, l.view, true)
	for i := range lightPanels {
		l.shots[i] = crowd
		if lightPanels[i].dark {
			l.shots[i] = dark
		}
	}
	// The colours that the figures speak of come out exact.
	exact := []rgb{{255, 255, 255}, lightWords}
	for i := range p.Stunt.Colours {
		for _, panel := range lightPanels {
			exact = append(exact, exposed(rgb(p.Stunt.Colours[i].RGB), panel.stops))
		}
	}
	return writePaletted(w, l.sheet(exact[:min(len(exact), maxColours/2)]))
}

// lightSheet is the four pictures, in one column or two.
type lightSheet struct {
	view    *camera.View // of each
	columns int
	shots   [len(lightPanels)]*image.Paletted // in the right light
}

// layLight finds the part of the frame to show, and in how many columns it is largest: no larger than it is.
func layLight(p *mosaic.Plan, cue int) *lightSheet {
	v := p.Marks[0].View
	part := aroundText(p, cue)
	size := part.Size()
	best := &lightSheet{}
	wide, high := 0, 0
	for _, columns := range []int{2, 1} {
		most := lightSide*columns/len(lightPanels) - lightHead
		x := min(size.X, lightSide/columns)
		y := (size.Y*x + size.X/2) / size.X
		if y > most {
			x, y = (size.X*most+size.Y/2)/size.Y, most
		}
		if x = max(x, 1); x > wide {
			wide, high, best.columns = x, max(y, 1), columns
		}
	}
	k := float64(wide) / float64(size.X)
	best.view = &camera.View{
		Name: v.Name, Position: v.Position, Rotation: v.Rotation, Focal: v.Focal * k, Width: wide, Height: high,
		Center: camera.Pixel{(v.Center[0] - float64(part.Min.X)) * k, (v.Center[1] - float64(part.Min.Y)) * k},
	}
	return best
}

// aroundText is the part of the frame that holds the cards of a cue's text, or all cards, and a little more.
func aroundText(p *mosaic.Plan, cue int) image.Rectangle {
	v, sight := p.Marks[0].View, p.Marks[0].Sight
	seats := slices.Clip(p.Cues[cue].Field)
	if len(seats) == 0 {
		for i := range p.Stands.Seats {
			if p.Stands.Seats[i].Use == seating.UseCard {
				seats = append(seats, int32(i))
			}
		}
	}
	cards := nothing()
	for _, s := range seats {
		if !sight.Behind[s] {
			for _, c := range sight.Corners[s] {
				cards.hold(spot{c[0], c[1]})
			}
		}
	}
	frame := image.Rect(0, 0, v.Width, v.Height)
	more := float64((cards.y1 - cards.y0) * lightAround)
	within := func(at float64) int { return int(math.Min(maxSide, math.Max(0, whole(at)))) }
	part := image.Rect(within(cards.x0-more), within(cards.y0-more), within(cards.x1+more), within(cards.y1+more))
	if part = part.Intersect(frame); part.Empty() || cards.x0 > cards.x1 {
		return frame
	}
	return part
}

// at is where a picture lies on the sheet.
func (l *lightSheet) at(i int) image.Rectangle {
	x, y := i%l.columns*l.view.Width, i/l.columns*(l.view.Height+lightHead)+lightHead
	return image.Rect(x, y, x+l.view.Width, y+l.view.Height)
}

// sheet puts the four together: some colours come out exact, the others the better the more there is of them.
func (l *lightSheet) sheet(exact []rgb) *image.Paletted {
	rows := len(lightPanels) / l.columns
	heads := blankPage(l.columns*l.view.Width, rows*lightHead) // one below the other
	var names drawing
	for i := range lightPanels {
		at := spot{float64(i%l.columns*l.view.Width) + 10, float64(i/l.columns*lightHead) + lightHead/2}
		names.write(at, lettering{words: lightPanels[i].name, size: 20, bold: true, colour: lightWords})
	}
	names.onto(heads)
	uses := coloursOf(heads)
	var by [len(lightPanels)][]rgb
	for i, panel := range lightPanels {
		for _, c := range l.shots[i].Palette {
			c := c.(color.RGBA)
			by[i] = append(by[i], exposed(rgb{c.R, c.G, c.B}, panel.stops))
		}
		var pixels [maxColours]int
		for _, k := range l.shots[i].Pix {
			pixels[k]++
		}
		for k, c := range by[i] {
			if pixels[k] > 0 {
				uses[c] += pixels[k]
			}
		}
	}
	pal := paletteFor(exact, uses)
	out := image.NewPaletted(image.Rect(0, 0, heads.Rect.Dx(), rows*(l.view.Height+lightHead)), pal.colours())
	for r := range rows {
		strip := heads.SubImage(image.Rect(0, r*lightHead, heads.Rect.Dx(), (r+1)*lightHead)).(*image.RGBA)
		below := image.Rect(0, r*(l.view.Height+lightHead), heads.Rect.Dx(), out.Rect.Dy())
		pal.paint(out.SubImage(below).(*image.Paletted), strip)
	}
	for i := range lightPanels {
		pal.copyInto(out, l.at(i).Min, l.shots[i], by[i])
	}
	return out
}

func exposed(c rgb, stops float64) rgb {
	if stops == 0 {
		return c
	}
	return rgb(colour.RGB(c).Linear().Exposed(stops).RGB())
}

var lightWords = rgb{0x20, 0x20, 0x20}
