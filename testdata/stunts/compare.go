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

// What the flags say.
var (
	stunts   = flag.String("stunts", filepath.Join("testdata", "stunts"), "`DIR` with the stunts")
	keep     = flag.String("keep", "", "`DIR` for OLD's outputs, found again while OLD and the stunt stay the same")
	only     = flag.String("only", "", "`REGEXP` of the stunts' names")
	words    = flag.Bool("words", false, "let codes of plans, thousands' separators, and bytes of PDF and XLSX differ")
	programs [2]string // old and new
)

// scratch is the folder for what is not kept.
var scratch string

// must ends the program where it cannot compare.
func must[T any](v T, err error) T {
	if err != nil {
		os.RemoveAll(scratch)
		fmt.Fprintln(os.Stderr, "compare:", err)
		os.Exit(2)
	}
	return v
}

func check(err error) { must(0, err) }

func main() {
	flag.Usage = func() {
		fmt.Fprintln(os.Stderr, "usage: go run ./testdata/stunts [flags] OLD NEW")
		flag.PrintDefaults()
	}
	flag.Parse()
	if flag.NArg() != 2 {
		flag.Usage()
		os.Exit(2)
	}
	for i := range programs {
		programs[i] = must(filepath.Abs(flag.Arg(i)))
	}
	if *words { // texts of PDF files are compared
		must(exec.LookPath("pdftotext"))
	}
	wanted := must(regexp.Compile(*only))
	entries := slices.DeleteFunc(must(os.ReadDir(*stunts)), func(e fs.DirEntry) bool {
		return !e.IsDir() || !wanted.MatchString(e.Name())
	})
	if len(entries) == 0 {
		check(fmt.Errorf("no stunt of that name is in %s", *stunts))
	}
	scratch = must(os.MkdirTemp("", "stunts"))
	began := time.Now()
	outcomes := make([]outcome, len(entries))
	free := make(chan bool, together)
	var group sync.WaitGroup
	for i, e := range entries {
		group.Go(func() {
			free <- true
			outcomes[i] = compare(e.Name())
			<-free
		})
	}
	group.Wait()
	os.RemoveAll(scratch)
	files, reused, status, said := 0, 0, 0, "no difference"
	for _, out := range outcomes {
		files += out.files
		if out.reused {
			reused++
		}
		if len(out.lines) > 0 {
			status, said = 1, "some of the stunts differ"
			fmt.Println(strings.Join(out.lines, "\n"))
		}
	}
	fmt.Printf("%d stunts, %d files: %s (%s; old outputs of %d stunts found)\n",
		len(entries), files, said, time.Since(began).Round(time.Second), reused)
	os.Exit(status)
}

// outcome is what came of one stunt.
type outcome struct {
	files  int
	reused bool
	lines  []string // a line for each difference, and below it what differs
}

// compare runs both programs over one stunt and looks at every file of the two folders.
func compare(name string) (out outcome) {
	source, own := filepath.Join(*stunts, name), filepath.Join(scratch, name)
	old, made := filepath.Join(own, "old"), filepath.Join(own, "new")
	if *keep != "" {
		old = filepath.Join(*keep, name)
	}
	stunt := read(source)
	sum := sha256.New() // tells OLD and the stunt's files from others
	sum.Write(must(os.ReadFile(programs[0])))
	for _, file := range slices.Sorted(maps.Keys(stunt)) {
		fmt.Fprintf(sum, "%q %q", filepath.Join(source, file), stunt[file])
	}
	print, stamp := fmt.Sprintf("%x\n", sum.Sum(nil)), old+".made" // beside the folder: written when all is there
	kept, _ := os.ReadFile(stamp)
	if out.reused = string(kept) == print; !out.reused {
		os.Remove(stamp)
		stunt.make(programs[0], source, old)
		check(os.WriteFile(stamp, []byte(print), 0o644))
	}
	stunt.make(programs[1], source, made)
	sides := [2]*side{newSide(read(old)), newSide(read(made))}
	all := maps.Clone(sides[0].files)
	maps.Copy(all, sides[1].files)
	for _, file := range slices.Sorted(maps.Keys(all)) {
		if what := difference(file, sides); what != "" {
			out.lines = append(out.lines, name+"/"+filepath.ToSlash(file)+": "+what)
		}
	}
	out.files = len(all)
	check(os.RemoveAll(own))
	return out
}

// folder is the files in a folder by name.
type folder map[string][]byte

func read(dir string) folder {
	f := folder{}
	check(filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			f[must(filepath.Rel(dir, path))] = must(os.ReadFile(path))
		}
		return err
	}))
	return f
}

var hasPeople = regexp.MustCompile(`(?m)^(\[\[group\]\]|roster *=)`)

// make copies the stunt from its source to dir/stunt and runs beside it all verbs that write, and what the file
// commands says beyond them. What commands say is kept in dir too: 1 build.out, 1 build.err, 1 build.status …
func (f folder) make(program, source, dir string) {
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
		check(fmt.Errorf("neither stunt.toml nor commands is in %s", source))
	}
	check(os.RemoveAll(dir))
	check(os.CopyFS(filepath.Join(dir, "stunt"), os.DirFS(source)))
	for i, line := range list {
		args := strings.Fields(line)
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		var out, errs bytes.Buffer
		c := exec.CommandContext(ctx, program, args...)
		c.Dir, c.Stdout, c.Stderr = dir, &out, &errs
		err := c.Run()
		if ctx.Err() != nil {
			check(fmt.Errorf("%s in %s: not done after %s", line, dir, patience))
		}
		cancel()
		if _, failed := errors.AsType[*exec.ExitError](err); !failed { // that it fails is an outcome like others
			check(err)
		}
		said := filepath.Join(dir, fmt.Sprintf("%d %s", i+1, strings.Trim(args[0], "-")))
		check(os.WriteFile(said+".out", out.Bytes(), 0o644))
		check(os.WriteFile(said+".err", errs.Bytes(), 0o644))
		check(os.WriteFile(said+".status", fmt.Appendln(nil, c.ProcessState.ExitCode()), 0o644))
	}
}
