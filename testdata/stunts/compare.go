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
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
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
	words        bool
	programs     [2]string // old and new
}

func main() {
	var o options
	flag.StringVar(&o.stunts, "stunts", filepath.Join("testdata", "stunts"), "`DIR` with the stunts")
	flag.StringVar(&o.keep, "keep", "", "`DIR` for OLD's outputs, found again while OLD and the stunt stay the same")
	only := flag.String("only", "", "`REGEXP` of the stunts' names")
	flag.BoolVar(&o.words, "words", false,
		"let plans' codes and thousands' separators differ, and bytes of PDF and XLSX")
	flag.Usage = func() {
		fmt.Fprintln(os.Stderr, "usage: go run ./testdata/stunts [flags] OLD NEW")
		flag.PrintDefaults()
	}
	flag.Parse()
	if flag.NArg() != 2 {
		flag.Usage()
		os.Exit(2)
	}
	different, err := o.run(*only)
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
	for i := range o.programs {
		if o.programs[i], err = filepath.Abs(flag.Arg(i)); err != nil {
			return false, err
		}
	}
	if _, err := exec.LookPath("pdftotext"); err != nil && o.words {
		return false, errors.New("-words compares the text of PDF files, and pdftotext (poppler-utils) is not here")
	}
	wanted, err := regexp.Compile(only)
	if err != nil {
		return false, err
	}
	entries, err := os.ReadDir(o.stunts)
	if err != nil {
		return false, err
	}
	entries = slices.DeleteFunc(entries, func(e fs.DirEntry) bool {
		return !e.IsDir() || !wanted.MatchString(e.Name())
	})
	if len(entries) == 0 {
		return false, fmt.Errorf("no stunt of that name is in %s", o.stunts)
	}
	scratch, err := os.MkdirTemp("", "stunts")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(scratch)
	began := time.Now()
	outcomes := make([]outcome, len(entries))
	free := make(chan bool, together)
	var group sync.WaitGroup
	for i, e := range entries {
		group.Go(func() {
			free <- true
			outcomes[i] = o.stunt(e.Name(), filepath.Join(scratch, e.Name()))
			<-free
		})
	}
	group.Wait()
	files, reused, said := 0, 0, "no difference"
	for i, out := range outcomes {
		if out.err != nil {
			return false, fmt.Errorf("%s: %w", entries[i].Name(), out.err)
		}
		files += out.files
		if out.reused {
			reused++
		}
		if len(out.lines) > 0 {
			different, said = true, "some of the stunts differ"
			fmt.Println(strings.Join(out.lines, "\n"))
		}
	}
	fmt.Printf("%d stunts, %d files: %s (%s; old outputs of %d stunts found)\n",
		len(entries), files, said, time.Since(began).Round(time.Second), reused)
	return different, nil
}

// stunt runs both programs over one stunt and compares.
func (o *options) stunt(name, scratch string) (out outcome) {
	defer os.RemoveAll(scratch)
	source, old, made := filepath.Join(o.stunts, name), filepath.Join(scratch, "old"), filepath.Join(scratch, "new")
	if o.keep != "" {
		old = filepath.Join(o.keep, name)
	}
	stunt, err := read(source)
	if err != nil {
		return outcome{err: err}
	}
	program, err := os.ReadFile(o.programs[0])
	if err != nil {
		return outcome{err: err}
	}
	sum := sha256.New() // tells OLD and the stunt's files from others
	sum.Write(program)
	for _, file := range slices.Sorted(maps.Keys(stunt)) {
		fmt.Fprintf(sum, "%q %q", filepath.Join(source, file), stunt[file])
	}
	print, stamp := fmt.Sprintf("%x\n", sum.Sum(nil)), old+".made" // beside the folder: written when all is there
	kept, _ := os.ReadFile(stamp)
	if out.reused = string(kept) == print; !out.reused {
		os.Remove(stamp)
		if err := stunt.make(o.programs[0], source, old); err != nil {
			return outcome{err: err}
		}
		if err := os.WriteFile(stamp, []byte(print), 0o644); err != nil {
			return outcome{err: err}
		}
	}
	if err := stunt.make(o.programs[1], source, made); err != nil {
		return outcome{err: err}
	}
	out.files, out.lines, out.err = o.compare(name, old, made)
	return out
}

// folder is the files in a folder by name.
type folder map[string][]byte

func read(dir string) (folder, error) {
	f := folder{}
	return f, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err == nil {
			f[name], err = os.ReadFile(path)
		}
		return err
	})
}

var hasPeople = regexp.MustCompile(`(?m)^(\[\[group\]\]|roster *=)`)

// make copies the stunt from its source to dir/stunt and runs beside it all verbs that write, and what the file
// commands says beyond them. What commands say is kept in dir too: 1 build.out, 1 build.err, 1 build.status …
func (f folder) make(program, source, dir string) error {
	var list []string
	if text, ok := f["stunt.toml"]; ok {
		list = append(list, "build stunt", "marks stunt")
		if hasPeople.Match(text) {
			list = append(list, "people stunt")
		}
	}
	for line := range strings.Lines(string(f["commands"])) {
		if strings.TrimSpace(line) != "" {
			list = append(list, line)
		}
	}
	if len(list) == 0 {
		return errors.New("neither stunt.toml nor commands is there")
	}
	if err := os.RemoveAll(dir); err != nil {
		return err
	}
	if err := os.CopyFS(filepath.Join(dir, "stunt"), os.DirFS(source)); err != nil {
		return err
	}
	for i, line := range list {
		words := strings.Fields(line)
		said := filepath.Join(dir, fmt.Sprintf("%d %s", i+1, strings.Trim(words[0], "-")))
		if err := runOne(program, dir, words, said); err != nil {
			return err
		}
	}
	return nil
}

// runOne runs one command; that it fails is an outcome like others, that it cannot be run is an error.
func runOne(program, dir string, words []string, said string) error {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	var out, errs bytes.Buffer
	c := exec.CommandContext(ctx, program, words...)
	c.Dir, c.Stdout, c.Stderr = dir, &out, &errs
	err := c.Run()
	if ctx.Err() != nil {
		return fmt.Errorf("%s: not done after %s", strings.Join(words, " "), patience)
	}
	if _, failed := errors.AsType[*exec.ExitError](err); err != nil && !failed {
		return err
	}
	return errors.Join(
		os.WriteFile(said+".out", out.Bytes(), 0o644),
		os.WriteFile(said+".err", errs.Bytes(), 0o644),
		os.WriteFile(said+".status", fmt.Appendln(nil, c.ProcessState.ExitCode()), 0o644),
	)
}

// compare looks at every file of two folders.
func (o *options) compare(name, old, made string) (files int, lines []string, err error) {
	all := folder{}
	var sides [2]side
	for i, dir := range []string{old, made} {
		if sides[i].files, err = read(dir); err != nil {
			return 0, nil, err
		}
		maps.Copy(all, sides[i].files)
		sides[i].words, sides[i].codes = o.words, codesOf(sides[i].files)
	}
	for _, file := range slices.Sorted(maps.Keys(all)) {
		what, err := difference(file, sides)
		if err != nil {
			return 0, nil, fmt.Errorf("%s: %w", file, err)
		}
		if what != "" {
			lines = append(lines, name+"/"+filepath.ToSlash(file)+": "+what)
		}
	}
	return len(all), lines, nil
}
