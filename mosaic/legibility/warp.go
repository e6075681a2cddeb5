package legibility

import (
	"math"
)

// Warp takes places in the camera's picture to a Canvas. The zero Lines keeps
// the picture as it is but for scale; with lines, every upright slice of the picture is
// stretched so that two lines that run along the rows become level.
type Warp struct {
	Scale  float64 // canvas pixels a picture pixel
	U0, V0 float64 // the picture's place of the canvas origin
	step   float64 // picture pixels between entries of the tables
	x      []float64
	top    []float64 // v of the upper line
	high   []float64 // height between the lines
	height float64   // of the canvas between the lines
}

// Straight is the warp that only scales, made to fit the field.
func Straight(f *Field) Warp {
	u0, v0, u1, v1 := bounds(f)
	w := Warp{U0: u0, V0: v0}
	w.Scale = scaleFor(f, u1-u0, v1-v0)
	return w
}

func scaleFor(f *Field, width, height float64) float64 {
	var pitches []float64
	for i := range f.Seats {
		if s := &f.Seats[i]; s.Pixels > 0 {
			pitches = append(pitches, (s.Cell[1][0]+s.Cell[2][0]-s.Cell[0][0]-s.Cell[3][0])/2)
		}
	}
	return min(pitchPixels/max(median(pitches), 1e-6), maxHeight/max(height, 1e-6), maxWidth/max(width, 1e-6))
}

func bounds(f *Field) (u0, v0, u1, v1 float64) {
	u0, v0, u1, v1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := range f.Seats {
		s := &f.Seats[i]
		if s.Pixels <= 0 {
			continue
		}
		for _, c := range s.Cell {
			u0, v0, u1, v1 = min(u0, c[0]), min(v0, c[1]), max(u1, c[0]), max(v1, c[1])
		}
	}
	if u0 > u1 {
		return 0, 0, 1, 1
	}
	return u0, v0, u1, v1
}

// AlongRows is the warp that levels the rows: top and bottom give the v of the
// two lines at any u.
func AlongRows(f *Field, top, bottom func(u float64) float64) Warp {
	u0, v0, u1, _ := bounds(f)
	const n = 256
	w := Warp{U0: u0, V0: v0, step: max((u1-u0)/n, 1e-9)}
	mean := 0.0
	for i := range n + 1 {
		u := u0 + float64(float64(i)*w.step)
		t := top(u)
		h := max(bottom(u)-t, 1)
		w.top, w.high = append(w.top, t), append(w.high, h)
		mean += float64(h / (n + 1))
	}
	w.Scale = scaleFor(f, u1-u0, mean)
	w.height = mean * w.Scale
	x := 0.0
	for i := range n + 1 {
		w.x = append(w.x, x)
		x += float64(w.step * w.height / w.high[i])
	}
	return w
}

func (w *Warp) at(u float64) (i int, f float64) {
	t := (u - w.U0) / w.step
	i = min(max(int(math.Floor(t)), 0), len(w.x)-2)
	return i, t - float64(i)
}

// between is a table's value f of the way from entry i to the next.
func between(table []float64, i int, f float64) float64 {
	return table[i] + float64(f*(table[i+1]-table[i]))
}

// Map is the canvas place of a picture place.
func (w *Warp) Map(u, v float64) (x, y float64) {
	if w.x == nil {
		return (u - w.U0) * w.Scale, (v - w.V0) * w.Scale
	}
	i, f := w.at(u)
	return between(w.x, i, f), (v - between(w.top, i, f)) / max(between(w.high, i, f), 1) * w.height
}

// Unmap is the picture place of a canvas place.
func (w *Warp) Unmap(x, y float64) (u, v float64) {
	if w.x == nil {
		return x/w.Scale + w.U0, y/w.Scale + w.V0
	}
	i := 0
	for i < len(w.x)-2 && w.x[i+1] < x {
		i++
	}
	f := (x - w.x[i]) / (w.x[i+1] - w.x[i])
	high := max(between(w.high, i, f), 1)
	return w.U0 + float64((float64(i)+f)*w.step), between(w.top, i, f) + float64(y*high/w.height)
}

// ScaleAt is how many canvas pixels a picture pixel takes at u.
func (w *Warp) ScaleAt(u float64) float64 {
	if w.x == nil {
		return w.Scale
	}
	i, f := w.at(u)
	return w.height / max(between(w.high, i, f), 1)
}

// Box is the picture's box around a canvas box: means of its slanting sides.
func (w *Warp) Box(b [4]float64) [4]float64 {
	l, t := w.Unmap(b[0], b[1])
	r, t2 := w.Unmap(b[2], b[1])
	_, d := w.Unmap(b[0], b[3])
	_, d2 := w.Unmap(b[2], b[3])
	return [4]float64{l, (t + t2) / 2, r, (d + d2) / 2}
}

// BoxIn is the canvas box of a picture's box.
func (w *Warp) BoxIn(b [4]float64) [4]float64 {
	x0, _ := w.Map(b[0], b[1])
	x1, _ := w.Map(b[2], b[1])
	_, y0 := w.Map((b[0]+b[2])/2, b[1])
	_, y1 := w.Map((b[0]+b[2])/2, b[3])
	return [4]float64{x0, y0, x1, y1}
}

// Warps are the ways to look at a field: as the picture is and, where the rows slant, levelled along them.
func Warps(f *Field) []Warp {
	out := []Warp{Straight(f)}
	top, bottom, ok := rowLines(f)
	if !ok {
		return out
	}
	u0, _, u1, _ := bounds(f)
	line := func(l [2]float64) func(float64) float64 {
		return func(u float64) float64 { return l[0] + float64(l[1]*u) }
	}
	t, b := line(top), line(bottom)
	high := min(b(u0)-t(u0), b(u1)-t(u1))
	slant := max(math.Abs(t(u1)-t(u0)), math.Abs(b(u1)-b(u0)))
	if high <= 0 || slant < 0.04*high {
		return out
	}
	return append(out, AlongRows(f, t, b))
}

// rowLines fits lines (v = l[0] + l[1]·u) to the upper edges of the back row and
// the lower edges of the front row; ok is false where the rows are no lines.
func rowLines(f *Field) (top, bottom [2]float64, ok bool) {
	back := map[int32]int32{}
	front := map[int32]int32{}
	for i := range f.Seats {
		s := &f.Seats[i]
		if s.Pixels <= 0 {
			continue
		}
		if r, seen := back[s.Section]; !seen || s.Row > r {
			back[s.Section] = s.Row
		}
		if r, seen := front[s.Section]; !seen || s.Row < r {
			front[s.Section] = s.Row
		}
	}
	var tu, tv, bu, bv []float64
	high := 0.0
	for i := range f.Seats {
		s := &f.Seats[i]
		if s.Pixels <= 0 {
			continue
		}
		high = max(high, s.Cell[3][1]-s.Cell[0][1])
		if s.Row == back[s.Section] {
			tu, tv = append(tu, s.Cell[0][0], s.Cell[1][0]), append(tv, s.Cell[0][1], s.Cell[1][1])
		}
		if s.Row == front[s.Section] {
			bu, bv = append(bu, s.Cell[3][0], s.Cell[2][0]), append(bv, s.Cell[3][1], s.Cell[2][1])
		}
	}
	var et, eb float64
	top, et = regress(tu, tv)
	bottom, eb = regress(bu, bv)
	return top, bottom, len(tu) > 2 && len(bu) > 2 && max(et, eb) < high/2
}

// regress fits a line by least squares and gives the largest distance from it.
func regress(u, v []float64) (line [2]float64, worst float64) {
	n := float64(len(u))
	var su, sv, suu, suv float64
	for i := range u {
		su += u[i]
		sv += v[i]
	}
	su, sv = su/max(n, 1), sv/max(n, 1)
	for i := range u {
		suu += float64((u[i] - su) * (u[i] - su))
		suv += float64((u[i] - su) * (v[i] - sv))
	}
	line[1] = suv / max(suu, 1e-9)
	line[0] = sv - float64(line[1]*su)
	for i := range u {
		worst = max(worst, math.Abs(v[i]-line[0]-float64(line[1]*u[i])))
	}
	return line, worst
}

// Carry finds the box in another canvas of the same seats: the affine map that suits the
// seats in the box best takes it over, and slanting sides become their means. It is
// empty where the other canvas sees too few of the seats.
func Carry(from, to *Canvas, box [4]float64) [4]float64 {
	var n, sx, sy, sxx, sxy, syy float64 // moments of the seats' places, from the box's corner
	var u, v [3]float64                  // sums of the other place, times 1, x, y
	m := float64(0.1 * (box[3] - box[1]))
	for _, i := range from.Between(box[0]-m, box[2]+m) {
		p, q := &from.Places[i], &to.Places[i]
		if q.Weight == 0 || p.Y < box[1]-m || p.Y > box[3]+m {
			continue
		}
		x, y := p.X-box[0], p.Y-box[1]
		n, sx, sy, sxx, sxy, syy = n+1, sx+x, sy+y, sxx+float64(x*x), sxy+float64(x*y), syy+float64(y*y)
		u[0], u[1], u[2] = u[0]+q.X, u[1]+float64(q.X*x), u[2]+float64(q.X*y)
		v[0], v[1], v[2] = v[0]+q.Y, v[1]+float64(q.Y*x), v[2]+float64(q.Y*y)
	}
	a := [3][3]float64{{n, sx, sy}, {sx, sxx, sxy}, {sy, sxy, syy}}
	d := det3(a)
	if n < 4 || math.Abs(d) < 1e-9 {
		return [4]float64{}
	}
	solve := func(b [3]float64) (c [3]float64) { // Cramer's rule
		for k := range 3 {
			t := a
			for r := range 3 {
				t[r][k] = b[r]
			}
			c[k] = det3(t) / d
		}
		return c
	}
	cu, cv := solve(u), solve(v)
	w, h := box[2]-box[0], box[3]-box[1]
	lean, rise := float64(cu[2]*h/2), float64(cv[1]*w/2)
	return [4]float64{cu[0] + lean, cv[0] + rise, cu[0] + float64(cu[1]*w) + lean, cv[0] + rise + float64(cv[2]*h)}
}

func det3(a [3][3]float64) float64 {
	minor := func(i, j int) float64 { return float64(a[1][i]*a[2][j]) - float64(a[1][j]*a[2][i]) }
	return float64(a[0][0]*minor(1, 2)) - float64(a[0][1]*minor(0, 2)) + float64(a[0][2]*minor(0, 1))
}
