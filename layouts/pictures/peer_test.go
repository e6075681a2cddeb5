package pictures

import (
	"bufio"
	"cmp"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// BenchmarkPeer lets OpenCV's fillConvexPoly draw the polygons of BenchmarkDraw,
// smoothed, far ones first: no depth buffer, so what crosses or is long comes out
// in the wrong order. The clock of this benchmark says nothing; look at peer-ms/op.
func BenchmarkPeer(b *testing.B) {
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import cv2").Run(); err != nil {
		b.Skip("no OpenCV for ", python)
	}
	p := painted(b, hall(true), "GLOW", testMark())
	s := studioOf(p, 0, newFilm(p.Marks[0].View), newPalette(emptyTone(p.Stunt.Outdoors)))
	s.dress()
	path := filepath.Join(b.TempDir(), "polygons")
	if err := writePolygons(path, s.film, s.pal); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		out, err := exec.Command(python, "testdata/peer/opencv.py", path, "3840", "2160", "5").Output()
		if err != nil {
			b.Fatal(err)
		}
		ms, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(ms, "peer-ms/op")
	}
}

func writePolygons(path string, f *film, pal *palette) error {
	order := make([]int, len(f.faces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(f.faces[i].farthest, f.faces[k].farthest) })
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	w := bufio.NewWriter(file)
	for _, i := range order {
		fc := &f.faces[i]
		c := pal.entries[fc.colour]
		fmt.Fprint(w, c[0], " ", c[1], " ", c[2])
		for _, p := range f.corners[fc.first:][:fc.corners] {
			fmt.Fprint(w, " ", p.x, " ", p.y)
		}
		fmt.Fprintln(w)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return file.Close()
}
