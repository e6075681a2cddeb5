package legibility

import "math"

// Carry finds the box in another canvas of the same seats: the affine map that suits the
// seats in the box best takes it over, and slanting sides become their means. It is
// empty where the other canvas sees too few of the seats.
func Carry(from, to *Canvas, box [4]float64) [4]float64 {
	var n, sx, sy, sxx, sxy, syy float64 // moments of the seats' places, from the box's corner
	var u, v [3]float64                  // sums of the other place, times 1, x, y
	m := 0.1 * (box[3] - box[1])
	for _, i := range from.Between(box[0]-m, box[2]+m) {
		p, q := &from.Places[i], &to.Places[i]
		if q.Weight == 0 || p.Y < box[1]-m || p.Y > box[3]+m {
			continue
		}
		x, y := p.X-box[0], p.Y-box[1]
		n, sx, sy, sxx, sxy, syy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y, syy+y*y
		u[0], u[1], u[2] = u[0]+q.X, u[1]+q.X*x, u[2]+q.X*y
		v[0], v[1], v[2] = v[0]+q.Y, v[1]+q.Y*x, v[2]+q.Y*y
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
	return [4]float64{
		cu[0] + cu[2]*h/2, cv[0] + cv[1]*w/2,
		cu[0] + cu[1]*w + cu[2]*h/2, cv[0] + cv[1]*w/2 + cv[2]*h,
	}
}

func det3(a [3][3]float64) float64 {
	return a[0][0]*(a[1][1]*a[2][2]-a[1][2]*a[2][1]) - a[0][1]*(a[1][0]*a[2][2]-a[1][2]*a[2][0]) + a[0][2]*(a[1][0]*a[2][1]-a[1][1]*a[2][0])
}
