package seating

import (
	"fmt"
	"math"
)

// Positions across are whole half-nanometres until the last step, since a seat's
// middle and a row's middle halve lengths; the last step divides once.

// across2 is where a row begins, in half-nanometres to the right of the middle
// of the front row. Rows of a curved section are measured along their arcs.
func (d *draft) across2(row int) Length {
	front, w := d.frontWidth(), d.width(row)
	switch d.spec.Align {
	case AlignLeft:
		return -front
	case AlignRight:
		return front - 2*w
	}
	return -w
}

// frontWidth is the length that rows line up with: the front row's, or the widest where nobody sits in front.
func (d *draft) frontWidth() Length {
	if w := d.width(0); w > 0 {
		return w
	}
	most := Length(0)
	for r := range d.places {
		most = max(most, d.width(r))
	}
	return most
}

// middle2 is the middle of a place, in half-nanometres along the row from the
// row's beginning. What whole pitches leave of a bench is shared by its two ends.
func (d *draft) middle2(row, place int) Length {
	left := d.width(row) - Length(d.places[row])*d.spec.Pitch
	return left + Length(2*place+1)*d.spec.Pitch
}

// seatLine2 is how far the line of a row's positions lies behind the front edge, in half-nanometres.
func (d *draft) seatLine2(row int) Length { return 2*d.fronts[row] + d.spec.Run }

// local is the place of s half-nanometres to the right of the middle along
// row's line, at depth2 half-nanometres behind the front edge, and the turn there.
func (d *draft) local(row int, s2, depth2 Length) (x, y, turn float64) {
	x, y = halves(s2), halves(depth2)
	if d.spec.Radius == 0 {
		return x, y, 0
	}
	own := halves(2*d.spec.Radius + d.seatLine2(row))
	angle := d.startAngle(row) + x/own
	at := halves(2*d.spec.Radius + depth2)
	return at * math.Sin(angle), float64(at*math.Cos(angle)) - d.spec.Radius.Metres(), -angle
}

// startAngle turns a row so that its end lies on the ray through the front row's
// end: the same length along an arc is another angle there.
func (d *draft) startAngle(row int) float64 {
	if d.spec.Align == AlignCentre {
		return 0
	}
	own := halves(2*d.spec.Radius + d.seatLine2(row))
	front := halves(2*d.spec.Radius + d.seatLine2(0))
	half := halves(d.frontWidth())
	if d.spec.Align == AlignRight {
		half = -half
	}
	return half/own - half/front
}

func halves(l Length) float64 { return float64(l) / float64(2*Metre) }

// checkCurve refuses curves whose rows would cross themselves or their centre.
func (d *draft) checkCurve() error {
	if d.spec.Radius == 0 {
		return nil
	}
	least := d.spec.Radius
	if least < 0 { // the back row's back edge is nearest to the centre
		least = -least - d.depth()
	}
	if least < minRadius {
		return d.fault("radius", fmt.Sprintf("every row needs a radius of %v or more", minRadius),
			"a radius of %v is too small for rows %v deep", d.spec.Radius, d.depth())
	}
	for r := range d.places {
		if around := 2 * math.Pi * math.Abs(halves(2*d.spec.Radius+d.seatLine2(r))); d.width(r).Metres() > around {
			return d.fault("radius", "make the radius larger or the row shorter",
				"row %s is %v long and would overlap itself at a radius of %v",
				d.names[r], d.width(r), d.spec.Radius+d.fronts[r])
		}
	}
	return nil
}

// extent2 is how far the section reaches to the left (negative) and right of the
// middle of its front row, unturned, in half-nanometres.
func (d *draft) extent2() (left, right Length) {
	for r := range d.places {
		a := d.across2(r)
		b := a + 2*d.width(r)
		if d.spec.Radius != 0 {
			a, b = d.arcExtent2(r, a, b)
		}
		left, right = min(left, a), max(right, b)
	}
	return left, right
}

// arcExtent2 is the reach of one curved row, rounded outward to micrometres so
// that every processor lays sections side by side alike.
func (d *draft) arcExtent2(row int, a, b Length) (left, right Length) {
	lo, hi := math.Inf(1), math.Inf(-1)
	own, start := halves(2*d.spec.Radius+d.seatLine2(row)), d.startAngle(row)
	from, to := start+halves(a)/own, start+halves(b)/own
	from, to = min(from, to), max(from, to)
	for _, behind := range []Length{d.fronts[row], d.fronts[row] + d.spec.Run} {
		r := (d.spec.Radius + behind).Metres()
		angles := []float64{from, to}
		for quarter := -7; quarter <= 7; quarter += 2 { // where an arc turns back
			if at := float64(quarter) * math.Pi / 2; from < at && at < to {
				angles = append(angles, at)
			}
		}
		for _, at := range angles {
			x := r * math.Sin(at)
			lo, hi = min(lo, x), max(hi, x)
		}
	}
	// A thousandth of a micrometre of slack, so that noise in the last bit rounds nothing up.
	return Length(math.Floor(float64(lo*1e6)+1e-3)) * 2000, Length(math.Ceil(float64(hi*1e6)-1e-3)) * 2000
}

// sincos is exact at quarter turns.
func sincos(degrees float64) (sin, cos float64) {
	switch q := math.Mod(math.Mod(degrees, 360)+360, 360); q {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	default:
		return math.Sincos(q * math.Pi / 180)
	}
}
