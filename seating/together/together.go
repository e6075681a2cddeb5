// Package together does pieces of work on all processors at once. Pieces are taken by index, each once, and put
// their results by index, so that what comes out does not depend on how many processors there are.
package together

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
)

// Each does the pieces 0 … n−1.
func Each(n int, do func(i int)) {
	Until(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) bool {
		do(i)
		return false
	})
}

// Until is Each where every worker has something of its own, and no further piece begins once one says that it is
// enough.
func Until[Own any](n int, begin func() Own, do func(own Own, i int) (enough bool)) {
	var next atomic.Int64
	var stopped atomic.Bool
	var broke atomic.Value
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			defer func() {
				if what := recover(); what != nil {
					stopped.Store(true)
					broke.CompareAndSwap(nil, fmt.Sprint(what))
				}
			}()
			own := begin()
			for i := int(next.Add(1)) - 1; i < n && !stopped.Load(); i = int(next.Add(1)) - 1 {
				if do(own, i) {
					stopped.Store(true)
				}
			}
		})
	}
	wait.Wait()
	if what := broke.Load(); what != nil {
		panic(what)
	}
}
