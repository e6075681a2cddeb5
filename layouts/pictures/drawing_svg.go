package pictures

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
)

// writeSVG writes the drawing as SVG 1.1; it needs no font file: texts are held
// to the measured length, so that another sans serif takes the same room.
func (d *drawing) writeSVG(w io.Writer, title string) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %[1]s %[2]s" font-family="'Noto Sans', 'Helvetica Neue', Arial, sans-serif">
`, num(d.width), num(d.height))
	b.WriteString("<title>")
	escape(b, title)
	b.WriteString("</title>\n")
	fmt.Fprintf(b, "<rect width=\"%s\" height=\"%s\" fill=\"#ffffff\"/>\n", num(d.width), num(d.height))
	for i := range d.shapes {
		if s := &d.shapes[i]; s.text != nil {
			svgText(b, s)
		} else {
			svgPath(b, s)
		}
	}
	b.WriteString("</svg>\n")
	return b.Flush()
}

func svgPath(b *bufio.Writer, s *shape) {
	b.WriteString(`<path d="`)
	for i, p := range s.points {
		b.WriteByte("ML"[min(i, 1)])
		b.WriteString(num(p.x))
		b.WriteByte(' ')
		b.WriteString(num(p.y))
	}
	if !s.open {
		b.WriteByte('Z')
	}
	b.WriteString(`" fill="`)
	b.WriteString(paint(s.fill))
	b.WriteByte('"')
	if s.stroke != nil {
		fmt.Fprintf(b, ` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, paint(s.stroke), num(s.width))
	}
	if s.name == "" {
		b.WriteString("/>\n")
		return
	}
	b.WriteString("><title>")
	escape(b, s.name)
	b.WriteString("</title></path>\n")
}

func svgText(b *bufio.Writer, s *shape) {
	l, p := s.text, s.points[0]
	y := tenth(p.y + l.size*capital/2)
	fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" fill="%s"`, num(p.x), num(y), num(l.size), paint(&l.colour))
	if l.bold {
		b.WriteString(` font-weight="bold"`)
	}
	if l.anchor != atStart {
		fmt.Fprintf(b, ` text-anchor="%s"`, [...]string{"start", "middle", "end"}[l.anchor])
	}
	if l.turn != 0 {
		fmt.Fprintf(b, ` transform="rotate(%s %s %s)"`, num(tenth(l.turn*180/math.Pi)), num(p.x), num(p.y))
	}
	if len(l.words) > 2 {
		fmt.Fprintf(b, ` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(tenth(l.length())))
	}
	b.WriteByte('>')
	escape(b, l.words)
	b.WriteString("</text>\n")
}

// num is a number in the fewest signs.
func num(v float64) string {
	if v == 0 {
		return "0" // also for −0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func paint(c *rgb) string {
	if c == nil {
		return "none"
	}
	return c.hex()
}

// escape writes text; what XML cannot hold becomes U+FFFD. Errors stay in b until Flush.
func escape(b *bufio.Writer, s string) { _ = xml.EscapeText(b, []byte(s)) }
