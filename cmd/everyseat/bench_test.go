//go:build unix

package main

import (
	"io"
	"syscall"
	"testing"
	"time"
)

// BenchmarkDemo is the whole demo: its files written, the plan, every output on the
// disk, pictures at 3840×2160. cpu-ms/op counts all processors; the bar is 1000.
func BenchmarkDemo(b *testing.B) {
	b.Chdir(b.TempDir())
	begin := cpuTime(b)
	for b.Loop() {
		if code := run([]string{"demo"}, nil, io.Discard, io.Discard); code != exitDone {
			b.Fatalf("everyseat demo ended with %d", code)
		}
	}
	spent := cpuTime(b) - begin
	b.ReportMetric(float64(spent.Milliseconds())/float64(b.N), "cpu-ms/op")
}

// cpuTime is what this process has had of all processors.
func cpuTime(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
