package fair

import (
	"context"
	"sync/atomic"
)

// EndsAfter is a context that ends when it has been asked so often whether it has.
func EndsAfter(asked int64) context.Context {
	c := &ending{Context: context.Background()}
	c.left.Store(asked)
	return c
}

type ending struct {
	context.Context
	left atomic.Int64
}

func (c *ending) Err() error {
	if c.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}
