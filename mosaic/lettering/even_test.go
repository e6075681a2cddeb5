package lettering_test

import (
	"math"
	"testing"
)

// evenTexts are set on three sections, where aisles make it hard to space letters evenly.
var evenTexts = []string{"BELL", "LAMP", "PORT", "WIND", "GALE", "FISH", "2027", "TIDE", "HAVEN", "HARBOR"}

// gaps are the spaces between the letters' inks in the picture, in seats, and how far
// the line stands off the middle.
func (p *place) gaps(boxes [][4]float64) (gaps []float64, off float64) {
	seat := p.field.Seats[0].Cell[1][0] - p.field.Seats[0].Cell[0][0]
	for k := 1; k < len(boxes); k++ {
		gaps = append(gaps, (boxes[k][0]-boxes[k-1][2])/seat)
	}
	return gaps, ((boxes[0][0]+boxes[len(boxes)-1][2])/2 - p.field.Width/2) / seat
}

func deviation(v []float64) float64 {
	var sum, squares float64
	for _, x := range v {
		sum, squares = sum+x, squares+x*x
	}
	n := float64(max(len(v), 1))
	return math.Sqrt(max(0, squares/n-sum/n*(sum/n)))
}

// TestEven prints how far the gaps of a line differ and how far off the middle it is (-v), and
// holds them to 0.7 and 0.75 seats in the mean (ours, no source): letters keep to sections,
// so that no line is quite even.
func TestEven(t *testing.T) {
	spec := bleachers(3, 13, 10, aisle, rise, run, pitch)
	spec.Sections[1].Seats = []int{16}
	p := look(t, "10, 16 and 10 seats", spec, mark(0, 20, 3))
	var ragged, middle float64
	for _, text := range evenTexts {
		l := fit(t, p, text)
		var boxes [][4]float64
		for _, b := range l.Letters {
			boxes = append(boxes, b.Box)
		}
		gaps, off := p.gaps(boxes)
		t.Logf("%-7s gaps %.1f, differ by %.2f seats; %+.1f off the middle", text, gaps, deviation(gaps), off)
		ragged += deviation(gaps) / float64(len(evenTexts))
		middle += math.Abs(off) / float64(len(evenTexts))
	}
	t.Logf("in the mean the gaps differ by %.2f seats, and lines stand %.2f off the middle", ragged, middle)
	if ragged > 0.7 || middle > 0.75 {
		t.Errorf("gaps differ by %.2f seats, lines stand %.2f off the middle", ragged, middle)
	}
}
