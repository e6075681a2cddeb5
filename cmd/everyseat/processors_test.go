package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"everyseat/testdata/judges"
)

// TestProcessors builds the demo, and curved and turned stands seen from aside, once here and
// once as a program for another kind of processor (64-bit ARM, which fuses products with sums)
// under QEMU: every file has the same bytes.
func TestProcessors(t *testing.T) {
	arm, err := exec.LookPath("qemu-aarch64")
	if err != nil {
		judges.Missing(t, "qemu-aarch64 is not installed (Debian: qemu-user)")
	}
	dir := t.TempDir()
	here, there := filepath.Join(dir, "here"), filepath.Join(dir, "there")
	compile(t, here, "GOARCH="+runtime.GOARCH)
	compile(t, there, "GOARCH=arm64")
	for _, stunt := range []string{"demo", "testdata/curved"} {
		a, b := filepath.Join(dir, "a", stunt), filepath.Join(dir, "b", stunt)
		runs(t, here, "build", stunt, "--out", a)
		runs(t, arm, there, "build", stunt, "--out", b)
		files, err := filepath.Glob(filepath.Join(a, "*", "*"))
		if err != nil || len(files) < 10 {
			t.Fatalf("%s: only %d files were written (%v)", stunt, len(files), err)
		}
		sameFiles(t, a, b)
	}
}

func compile(t *testing.T, to, processor string) {
	t.Helper()
	c := exec.Command("go", "build", "-o", to, ".")
	c.Env = append(os.Environ(), "GOOS=linux", "CGO_ENABLED=0", processor)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", processor, err, out)
	}
}

func runs(t *testing.T, name string, args ...string) {
	t.Helper()
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
}

func sameFiles(t *testing.T, a, b string) {
	t.Helper()
	err := filepath.WalkDir(a, func(path string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		name, err := filepath.Rel(a, path)
		if err != nil {
			return err
		}
		want, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		got, err := os.ReadFile(filepath.Join(b, name))
		if err != nil {
			return err
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs between processors", name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
