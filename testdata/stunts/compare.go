// Compare builds every stunt of this folder with two everyseat programs and says where what they write differs: see
// README.md.
package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

const (
	together = 2                // stunts at a time
	patience = 10 * time.Minute // for one command
)

// options are what the flags say.
type options struct {
	stunts, keep string
	only         *regexp.Regexp
	words        bool
	programs     [2]string // old and new
}

func main() {
	var o options
	only := ""
	flag.StringVar(&o.stunts, "stunts", filepath.Join("testdata", "stunts"), "`DIR` with the stunts")
	flag.StringVar(&o.keep, "keep", "", "`DIR` for OLD's outputs, found again while OLD and the stunt stay the same")
	flag.StringVar(&only, "only", "", "`REGEXP` of the stunts' names")
	flag.BoolVar(&o.words, "words", false, "let plans' codes and thousands' separators differ, and bytes of PDF and XLSX")
	flag.Usage = func() {
		fmt.Fprintln(os.Stderr, "usage: go run ./testdata/stunts [flags] OLD NEW")
		flag.PrintDefaults()
	}
	flag.Parse()
	if flag.NArg() != 2 {
		flag.Usage()
		os.Exit(2)
	}
	different, err := o.run(only)
	if err != nil {
		fmt.Fprintln(os.Stderr, "compare:", err)
		os.Exit(2)
	}
	if different {
		os.Exit(1)
	}
}

// outcome is what came of one stunt.
type outcome struct {
	files  int
	reused bool
	lines  []string // a line for each difference, and below it what differs
	err    error
}

func (o *options) run(only string) (different bool, err error) {
	if o.only, err = regexp.Compile(only); err != nil {
		return false, err
	}
	for i := range o.programs {
		if o.programs[i], err = filepath.Abs(flag.Arg(i)); err != nil {
			return false, err
		}
	}
	if _, err := exec.LookPath("pdftotext"); err != nil && o.words {
		return false, errors.New("-words compares the text of PDF files, and pdftotext (poppler-utils) is not here")
	}
	names, err := o.names()
	if err != nil {
		return false, err
	}
	scratch, err := os.MkdirTemp("", "stunts")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(scratch)
	began := time.Now()
	files, reused, differing := 0, 0, 0
	for i, out := range o.all(names, scratch) {
		if out.err != nil {
			return false, fmt.Errorf("%s: %w", names[i], out.err)
		}
		files += out.files
		if out.reused {
			reused++
		}
		if len(out.lines) > 0 {
			differing++
		}
		for _, line := range out.lines {
			fmt.Println(line)
		}
	}
	said := "no difference"
	if differing > 0 {
		said = fmt.Sprintf("%d of the stunts differ", differing)
	}
	fmt.Printf("%d stunts, %d files: %s (%s; old outputs of %d stunts found)\n",
		len(names), files, said, time.Since(began).Round(time.Second), reused)
	return differing > 0, nil
}

// names are the folders that -only lets through.
func (o *options) names() ([]string, error) {
	entries, err := os.ReadDir(o.stunts)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, e := range entries {
		if e.IsDir() && o.only.MatchString(e.Name()) {
			names = append(names, e.Name())
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("no stunt of that name is in %s", o.stunts)
	}
	return names, nil
}

// all compares the stunts, some at a time; outcomes are in the order of the names.
func (o *options) all(names []string, scratch string) []outcome {
	out := make([]outcome, len(names))
	next := make(chan int)
	var group sync.WaitGroup
	for range together {
		group.Go(func() {
			for i := range next {
				out[i] = o.stunt(names[i], filepath.Join(scratch, names[i]))
			}
		})
	}
	for i := range names {
		next <- i
	}
	close(next)
	group.Wait()
	return out
}

// stunt runs both programs over one stunt and compares.
func (o *options) stunt(name, scratch string) (out outcome) {
	folders := [2]string{filepath.Join(scratch, "old"), filepath.Join(scratch, "new")}
	defer os.RemoveAll(scratch)
	stamp := ""
	if o.keep != "" {
		folders[0] = filepath.Join(o.keep, name)
		want, err := o.fingerprint(name)
		if err != nil {
			return outcome{err: err}
		}
		stamp = folders[0] + ".made" // beside the folder: it is written when all is there
		made, _ := os.ReadFile(stamp)
		out.reused = string(made) == want
		if !out.reused {
			os.Remove(stamp)
			defer func() {
				if out.err == nil {
					out.err = os.WriteFile(stamp, []byte(want), 0o644)
				}
			}()
		}
	}
	for i, folder := range folders {
		if i == 0 && out.reused {
			continue
		}
		if out.err = o.make(name, o.programs[i], folder); out.err != nil {
			return out
		}
	}
	out.files, out.lines, out.err = o.compare(name, folders)
	return out
}

// fingerprint tells OLD and the stunt's files from others.
func (o *options) fingerprint(name string) (string, error) {
	sum := sha256.New()
	program, err := os.ReadFile(o.programs[0])
	if err != nil {
		return "", err
	}
	sum.Write(program)
	err = filepath.WalkDir(filepath.Join(o.stunts, name), func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		fmt.Fprintf(sum, "%q %q", path, data)
		return err
	})
	return fmt.Sprintf("%x\n", sum.Sum(nil)), err
}

// make copies the stunt to folder/stunt and runs every command beside it. What commands say is kept in the folder
// too: 1.out, 1.err, 1.status …
func (o *options) make(name, program, folder string) error {
	if err := os.RemoveAll(folder); err != nil {
		return err
	}
	if err := os.CopyFS(filepath.Join(folder, "stunt"), os.DirFS(filepath.Join(o.stunts, name))); err != nil {
		return err
	}
	list, err := commands(filepath.Join(folder, "stunt"))
	if err != nil {
		return err
	}
	for i, words := range list {
		said := filepath.Join(folder, fmt.Sprintf("%d %s", i+1, strings.Trim(words[0], "-")))
		if err := runOne(program, folder, words, said); err != nil {
			return err
		}
	}
	return nil
}

var hasPeople = regexp.MustCompile(`(?m)^(\[\[group\]\]|roster *=)`)

// commands are all verbs that write, and what the file commands says beyond them.
func commands(stunt string) ([][]string, error) {
	var list [][]string
	text, err := os.ReadFile(filepath.Join(stunt, "stunt.toml"))
	switch {
	case err == nil:
		list = append(list, []string{"build", "stunt"}, []string{"marks", "stunt"})
		if hasPeople.Match(text) {
			list = append(list, []string{"people", "stunt"})
		}
	case !errors.Is(err, fs.ErrNotExist):
		return nil, err
	}
	more, err := os.ReadFile(filepath.Join(stunt, "commands"))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for line := range strings.Lines(string(more)) {
		if words := strings.Fields(line); len(words) > 0 {
			list = append(list, words)
		}
	}
	if len(list) == 0 {
		return nil, errors.New("neither stunt.toml nor commands is there")
	}
	return list, nil
}

// runOne runs one command; that it fails is an outcome like others, that it cannot be run is an error.
func runOne(program, folder string, words []string, said string) error {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	var out, errs bytes.Buffer
	c := exec.CommandContext(ctx, program, words...)
	c.Dir, c.Stdout, c.Stderr = folder, &out, &errs
	err := c.Run()
	if ctx.Err() != nil {
		return fmt.Errorf("%s: not done after %s", strings.Join(words, " "), patience)
	}
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return err
	}
	for _, f := range []struct {
		ending string
		data   []byte
	}{{".out", out.Bytes()}, {".err", errs.Bytes()}, {".status", []byte(strconv.Itoa(c.ProcessState.ExitCode()) + "\n")}} {
		if err := os.WriteFile(said+f.ending, f.data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// compare looks at every file of two folders.
func (o *options) compare(name string, folders [2]string) (files int, lines []string, err error) {
	var sides [2]side
	for i := range sides {
		if sides[i], err = newSide(folders[i]); err != nil {
			return 0, nil, err
		}
	}
	all := slices.Concat(sides[0].files, sides[1].files)
	slices.Sort(all)
	all = slices.Compact(all)
	for _, file := range all {
		what, err := o.difference(file, sides)
		if err != nil {
			return 0, nil, fmt.Errorf("%s: %w", file, err)
		}
		if what != "" {
			lines = append(lines, name+"/"+filepath.ToSlash(file)+": "+what)
		}
	}
	return len(all), lines, nil
}

// side is one program's folder.
type side struct {
	dir   string
	files []string
	codes *regexp.Regexp // of the plans made there; nil = none
}

var planCode = regexp.MustCompile(`"code":"([^"]+)"`)

func newSide(dir string) (s side, err error) {
	s.dir = dir
	var codes []string
	err = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		s.files = append(s.files, name)
		if err == nil && filepath.Base(path) == "plan.json" {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if m := planCode.FindSubmatch(data); m != nil {
				codes = append(codes, regexp.QuoteMeta(string(m[1])))
			}
		}
		return err
	})
	if len(codes) > 0 {
		s.codes = regexp.MustCompile(strings.Join(codes, "|"))
	}
	return s, err
}

// difference says how a file differs on the two sides, or "".
func (o *options) difference(name string, sides [2]side) (string, error) {
	var data [2][]byte
	for i, s := range sides {
		if !slices.Contains(s.files, name) {
			return "only " + []string{"new", "old"}[i] + " writes it", nil
		}
		var err error
		if data[i], err = os.ReadFile(filepath.Join(s.dir, name)); err != nil {
			return "", err
		}
	}
	if bytes.Equal(data[0], data[1]) {
		return "", nil
	}
	k := kindOf(name)
	if k == picture {
		return pictures(data, o.words && printsCode.MatchString(name) && codesDiffer(sides)), nil
	}
	var texts [2]string
	for i := range texts {
		var err error
		if texts[i], err = k.text(data[i], o.words, sides[i].codes); err != nil {
			return "", err
		}
	}
	switch {
	case texts[0] != texts[1]:
		return "differs" + textDifference(texts), nil
	case o.words && k != other:
		return "", nil
	}
	said := fmt.Sprintf("bytes differ (%d and %d of them)", len(data[0]), len(data[1]))
	if k == paper {
		said += ", though the words and what is drawn are the same: words may stand elsewhere"
	}
	return said, nil
}

// codesDiffer says that both sides made plans, whose codes differ.
func codesDiffer(sides [2]side) bool {
	a, b := sides[0].codes, sides[1].codes
	return a != nil && b != nil && a.String() != b.String()
}
