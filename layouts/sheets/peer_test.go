package sheets

import (
	"bytes"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

// hundredThousand is 100,000 placards at 8 a sheet, in 50 sections of 2,000.
func hundredThousand() sample {
	names := make([]string, 50)
	for i := range names {
		names[i] = "S" + strconv.Itoa(i)
	}
	return sample{sections: names, rows: 40, seats: 50, perSheet: 8, plain: true, title: "x", cueName: "Glow"}
}

// BenchmarkCairoPeer prints 100,000 placards and has cairo draw the same labels in the same files, in turn in one
// run (testdata/paper/cairo_peer.c, which needs cc and libcairo2-dev). Look at the times that it reports, and at
// cairo/ours: how many times as long cairo takes, with what labels share recorded once, which is its best.
func BenchmarkCairoPeer(b *testing.B) {
	peer := buildCairoPeer(b)
	p := told(hundredThousand().plan(b))
	var ours, shared, bare time.Duration
	for b.Loop() {
		start := time.Now()
		if err := Placards(p, func(_ string, write func(io.Writer) error) error { return write(io.Discard) }); err != nil {
			b.Fatal(err)
		}
		ours += time.Since(start)
		shared += cairoTime(b, peer, "shared")
		bare += cairoTime(b, peer, "bare")
	}
	n := float64(b.N)
	b.ReportMetric(ours.Seconds()/n, "ours-s")
	b.ReportMetric(shared.Seconds()/n, "cairo-s")
	b.ReportMetric(bare.Seconds()/n, "cairo-bare-s")
	b.ReportMetric(shared.Seconds()/ours.Seconds(), "cairo/ours")
	b.ReportMetric(bare.Seconds()/ours.Seconds(), "cairo-bare/ours")
}

func buildCairoPeer(b *testing.B) string {
	b.Helper()
	flags, err := exec.Command("pkg-config", "--cflags", "--libs", "cairo").Output()
	if err != nil {
		b.Skip("libcairo2-dev is not installed")
	}
	peer := filepath.Join(b.TempDir(), "cairo_peer")
	args := append([]string{"-O2", "../../testdata/paper/cairo_peer.c", "-o", peer}, strings.Fields(string(flags))...)
	if out, err := exec.Command("cc", args...).CombinedOutput(); err != nil {
		b.Skipf("cc: %v\n%s", err, out)
	}
	return peer
}

func cairoTime(b *testing.B, peer, how string) time.Duration {
	b.Helper()
	out, err := exec.Command(peer, "100000", "8", "2000", how).Output()
	if err != nil {
		b.Fatal(err)
	}
	var s float64
	var size int64
	if _, err := fmt.Sscanf(string(out), "%f s %d bytes", &s, &size); err != nil || size < 1e6 {
		b.Fatalf("cairo says %q", out)
	}
	return time.Duration(s * float64(time.Second))
}

// A placard takes at most 500 bytes of its file, in small files and in large ones.
func TestPlacardBytes(t *testing.T) {
	const most = 500
	for name, s := range map[string]sample{
		"450 at 4 a sheet":  {sections: []string{"A", "B", "C"}, rows: 10, seats: 15, perSheet: 4, title: "x", cueName: "Glow"},
		"4000 at 8 a sheet": {sections: []string{"A", "B"}, rows: 40, seats: 50, perSheet: 8, title: "x", cueName: "Glow"},
	} {
		p := told(s.plan(t))
		size := 0
		if err := Placards(p, func(_ string, write func(io.Writer) error) error {
			var b bytes.Buffer
			err := write(&b)
			size += b.Len()
			return err
		}); err != nil {
			t.Fatal(err)
		}
		if n := len(wantIDs(p.Plan)); size > most*n {
			t.Errorf("%s: %d bytes a placard, at most %d", name, size/n, most)
		}
	}
}

// While one file is written no other is held, so that memory does not grow with the number of placards: what
// the heap holds at the end of a file is as much with ten files as with two.
func TestPlacardMemory(t *testing.T) {
	held := func(sections int) uint64 {
		s := hundredThousand()
		s.sections = s.sections[:sections]
		p := told(s.plan(t))
		var before, now runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		var most uint64
		open := 0
		err := Placards(p, func(_ string, write func(io.Writer) error) error {
			if open++; open > 2 {
				t.Errorf("%d files are open at once", open)
			}
			defer func() { open-- }()
			return write(writerFunc(func(b []byte) (int, error) {
				runtime.GC()
				runtime.ReadMemStats(&now)
				most = max(most, now.HeapAlloc-min(now.HeapAlloc, before.HeapAlloc))
				return len(b), nil
			}))
		})
		if err != nil || most == 0 {
			t.Fatalf("%v, %d bytes held", err, most)
		}
		return most
	}
	two, ten := held(2), held(10)
	if ten > two+two/4 {
		t.Errorf("%d KiB are held with ten files, and %d with two", ten>>10, two>>10)
	}
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(b []byte) (int, error) { return f(b) }
