package together

import (
	"sync/atomic"
	"testing"
)

// Every piece is done once, and by workers that share nothing (go test -race says so too).
func TestEveryPieceOnce(t *testing.T) {
	for _, n := range []int{0, 1, 1000} {
		done := make([]int, n)
		Until(n, func() *int { return new(int) }, func(own *int, i int) bool {
			*own++
			done[i]++
			return false
		})
		Each(n, func(i int) { done[i]++ })
		for i, times := range done {
			if times != 2 {
				t.Errorf("piece %d of %d was done %d times, want twice", i, n, times)
			}
		}
	}
}

// Pieces begin in order and none begins after one that is enough: those before it are all done, and of those after
// it only what had begun.
func TestEnough(t *testing.T) {
	const n, last = 100_000, 50
	var begun atomic.Int64
	done := make([]bool, n)
	Until(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) bool {
		begun.Add(1)
		done[i] = true
		return i >= last
	})
	for i := range last + 1 {
		if !done[i] {
			t.Errorf("piece %d is not done", i)
		}
	}
	if begun.Load() > n/2 {
		t.Errorf("%d of %d pieces begun after enough was said", begun.Load(), n)
	}
}

// What breaks in a piece breaks in who asked for it, where it can be caught, and ends the work.
func TestBreaks(t *testing.T) {
	defer func() {
		if what := recover(); what != "piece 7" {
			t.Errorf("broke with %v", what)
		}
	}()
	Each(1000, func(i int) {
		if i == 7 {
			panic("piece 7")
		}
	})
	t.Error("it did not break")
}
