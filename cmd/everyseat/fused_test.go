package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// onPaper are rooms that decide nothing and set what is told: what is left to fuse there are halves and doubles of
// millimetres, whose products are exact.
var onPaper = []string{"layouts/paper", "layouts/sheets"}

// fused is a product fused with a sum or a difference in the compiler's listing, and the line that it is of.
// Names: Arm Architecture Reference Manual for A-profile, C7 (FMADD, FMSUB, FNMADD, FNMSUB), with the Go
// assembler's S or D for the size.
var fused = regexp.MustCompile(`\(([^()]+\.go):(\d+)\)\tFN?M(?:ADD|SUB)[SD]\t`)

// TestNothingIsFused: the same sums on every processor. The Go compiler may join a product and a sum into one
// instruction, which rounds once where others round twice, unless the product is converted: float64(a*b) + c
// (The Go Programming Language Specification, Floating-point operators). It is asked for its listing for
// 64-bit ARM, where it fuses whatever it may.
func TestNothingIsFused(t *testing.T) {
	probe := filepath.Join(t.TempDir(), "probe.go")
	source := "package probe\n\nfunc F(a, b, c float64) float64 { return a*b + c }\n\nfunc R(a, b, c float64) float64 { return float64(a*b) + c }\n"
	if err := os.WriteFile(probe, []byte(source), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := fusedLines(t, "-gcflags=-S", probe); len(got) != 1 || !strings.HasSuffix(got[0], "probe.go:3") {
		t.Fatalf("of two sums, the first of them fused, the listing has %q", got)
	}
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range fusedLines(t, "-gcflags=everyseat/...=-S", "everyseat/...") {
		file, ours := strings.CutPrefix(at, filepath.ToSlash(root)+"/")
		if !ours {
			if file, ours = strings.CutPrefix(at, "everyseat/"); !ours { // as with -trimpath
				continue // of a library, inlined
			}
		}
		if slices.Contains(onPaper, file[:strings.LastIndexByte(file, '/')]) {
			continue
		}
		t.Errorf("%s: a product may be fused with a sum: write float64(a*b) + c", file)
	}
}

// fusedLines are the lines, as file:line, for which the compiler fuses products with sums.
func fusedLines(t *testing.T, args ...string) (lines []string) {
	t.Helper()
	c := exec.Command("go", append([]string{"build", "-o", os.DevNull}, args...)...)
	c.Env = append(os.Environ(), "GOOS=linux", "GOARCH=arm64", "CGO_ENABLED=0")
	listing, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %v\n%s", c.Args, err, listing[:min(len(listing), 2000)])
	}
	for line := range bytes.Lines(listing) {
		if m := fused.FindSubmatch(line); m != nil {
			lines = append(lines, string(m[1])+":"+string(m[2]))
		}
	}
	slices.Sort(lines)
	return slices.Compact(lines)
}
