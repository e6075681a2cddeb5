//go:build unix

package pictures

import (
	"syscall"
	"testing"
)

// reportCPU makes the benchmark say how much processor time an operation took,
// which other programs on the machine disturb less than the clock.
func reportCPU(b *testing.B) {
	start := cpuNow()
	b.Cleanup(func() {
		b.ReportMetric(float64(cpuNow()-start)/1e6/float64(b.N), "cpu-ms/op")
	})
}

// cpuNow is the user and system time of this process in nanoseconds.
func cpuNow() int64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return u.Utime.Nano() + u.Stime.Nano()
}
