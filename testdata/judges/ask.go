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

// Ask gives jobs to a script of testdata/reader, a line of JSON each, in as many processes as there are processors,
// and gives the answers, a line each, in the jobs' order.
func Ask(tb testing.TB, name string, jobs []any) [][]byte {
	tb.Helper()
	path, err := script(name)
	if err != nil {
		tb.Fatal(err)
	}
	workers := min(runtime.GOMAXPROCS(0), max(len(jobs), 1))
	answers := make([][]byte, len(jobs))
	errs := make([]error, workers)
	together.Each(workers, func(w int) { errs[w] = ask(path, jobs, answers, w, workers) })
	if err := errors.Join(errs...); err != nil {
		tb.Fatal(err)
	}
	return answers
}

// ask does every so-manieth job, from the first given.
func ask(path string, jobs []any, answers [][]byte, first, step int) error {
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
	cmd := exec.Command("/usr/bin/python3", path)
	cmd.Stdin, cmd.Stderr = &in, &said
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1", "OMP_THREAD_LIMIT=1")
	out, err := cmd.Output()
	if err != nil {
		return fmt.Errorf("%s: %w\n%s", filepath.Base(path), err, said.String())
	}
	for k, line := range bytes.Split(bytes.TrimSpace(out), []byte("\n")) {
		if k < len(mine) {
			answers[mine[k]] = line
		}
	}
	return nil
}

// script finds a script of testdata/reader from wherever in the repository a test runs.
func script(name string) (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		path := filepath.Join(dir, "testdata", "reader", name)
		if _, err := os.Stat(path); err == nil {
			return path, nil
		}
		if dir == filepath.Dir(dir) {
			return "", fmt.Errorf("there is no testdata/reader/%s above this folder", name)
		}
		dir = filepath.Dir(dir)
	}
}
