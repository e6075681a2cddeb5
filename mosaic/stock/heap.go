package stock

// moveHeap is a binary heap with the least move on top. The standard heap goes
// through an interface, which takes most of the time here.
type moveHeap []move

func (h moveHeap) top() move {
	if len(h) == 0 {
		return noMove
	}
	return h[0]
}

// order makes a heap of entries in any order.
func (h moveHeap) order() {
	for i := len(h)/2 - 1; i >= 0; i-- {
		h.sink(i)
	}
}

func (h *moveHeap) push(m move) {
	*h = append(*h, m)
	a := *h
	i := len(a) - 1
	for i > 0 {
		up := (i - 1) / 2
		if a[up] <= m {
			break
		}
		a[i] = a[up]
		i = up
	}
	a[i] = m
}

func (h *moveHeap) pop() {
	a := *h
	last := len(a) - 1
	a[0] = a[last]
	*h = a[:last]
	if last > 0 {
		(*h).sink(0)
	}
}

func (h moveHeap) sink(i int) {
	m := h[i]
	for {
		down := 2*i + 1
		if down >= len(h) {
			break
		}
		if down+1 < len(h) && h[down+1] < h[down] {
			down++
		}
		if m <= h[down] {
			break
		}
		h[i] = h[down]
		i = down
	}
	h[i] = m
}
