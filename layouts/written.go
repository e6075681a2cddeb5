package layouts

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"everyseat/seating"
)

// Written is the list that a set of files leaves in its folder: what everyseat wrote there, a line a file, as
// sha256sum writes and checks them (GNU coreutils). What it does not list, or what is no more as it lists it, is
// somebody's own.
const Written = "sha256sums.txt"

// maxWritten bounds the list that is read.
const maxWritten = 16 << 20

// written is by name the sums that a file of ours may have.
type written map[string][]string

// readWritten reads the list of a folder; lines that are none are left out, so that their files are nobody's.
func readWritten(folder string) written {
	w := written{}
	file, err := os.Open(filepath.Join(folder, Written))
	if err != nil {
		return w
	}
	defer file.Close()
	for lines := bufio.NewScanner(io.LimitReader(file, maxWritten)); lines.Scan(); {
		if sum, name, ok := strings.Cut(lines.Text(), "  "); ok && len(sum) == hex.EncodedLen(sha256.Size) {
			w[name] = append(w[name], sum)
		}
	}
	return w
}

func (w written) bytes() []byte {
	var list bytes.Buffer
	for _, name := range slices.Sorted(maps.Keys(w)) {
		for _, sum := range w[name] {
			fmt.Fprintf(&list, "%s  %s\n", sum, name)
		}
	}
	return list.Bytes()
}

// holds says whether the file of that name in the folder is one that everyseat wrote, and as it wrote it; with sums,
// whether it has one of these.
func (w written) holds(folder, name string, sums ...string) bool {
	sum, err := sumOf(filepath.Join(folder, filepath.FromSlash(name)))
	return err == nil && (slices.Contains(w[name], sum) || slices.Contains(sums, sum))
}

// sumOf is the SHA-256 sum of a plain file in hex.
func sumOf(path string) (string, error) {
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return "", fs.ErrInvalid // a pipe would never end
	}
	file, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer file.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, file); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// strangers refuses to write over files that are not ours, or that somebody changed since.
func (f *Folder) strangers() error {
	var names, changed []string
	for _, p := range f.parts {
		for _, input := range f.inputs {
			if same(p.path, input) {
				return &seating.Fault{File: input, What: "this file is read, and would be written over: " + p.name +
					" is a file of the output", Hint: "move it out of the folder of output, or " + elsewhere}
			}
		}
		if _, err := os.Lstat(p.path); err != nil || f.written.holds(f.path, p.name, p.sum) {
			continue
		}
		if f.written[p.name] != nil {
			changed = append(changed, p.name)
		}
		names = append(names, p.name)
	}
	if len(names) == 0 {
		return nil
	}
	slices.Sort(names)
	what := "everyseat did not write this file and does not write over it"
	if slices.Contains(changed, names[0]) {
		what = "somebody has changed this file since everyseat wrote it"
	}
	if n := len(names) - 1; n > 0 {
		what += fmt.Sprintf("; %d more are like it: %s", n, strings.Join(names[1:], ", "))
	}
	return &seating.Fault{File: filepath.Join(f.path, filepath.FromSlash(names[0])), What: what,
		Hint: "move it away or give it another name if it is worth keeping, delete it if not, or " + elsewhere}
}

// same says whether two paths lead to one file.
func same(a, b string) bool {
	at, err := os.Stat(a)
	if err != nil {
		return false
	}
	bt, err := os.Stat(b)
	return err == nil && os.SameFile(at, bt)
}

// list writes down what the folder holds of ours, beside what it held before.
func (f *Folder) list(w written) error {
	now := filepath.Join(f.path, fmt.Sprintf(".part-%d-list", os.Getpid()))
	err := os.WriteFile(now, w.bytes(), 0o666)
	if err == nil {
		err = os.Rename(now, filepath.Join(f.path, Written))
	}
	if err != nil {
		os.Remove(now)
	}
	return diskFault(filepath.Join(f.path, Written), err)
}

// Stale lists, by name, what an earlier set left in the folder, unchanged since: it belongs to another one.
func (f *Folder) Stale() []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	var stale []string
	for name := range f.written {
		if !f.put[name] && f.written.holds(f.path, name) {
			stale = append(stale, name)
		}
	}
	slices.Sort(stale)
	return stale
}
