package sheets

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/testdata/judges"
)

// The judges are other people's programs: qpdf, and poppler's pdftotext, pdfinfo, pdffonts and pdftoppm.
// Without them a test is skipped, or fails: see judges.Missing.

// need skips the test where a judge is missing.
func need(t testing.TB, names ...string) {
	t.Helper()
	for _, name := range names {
		if _, err := exec.LookPath(name); err == nil {
			continue
		}
		judges.Missing(t, name+" is not installed")
	}
}

// judge gives what the program prints.
func judge(t testing.TB, name string, args ...string) string {
	t.Helper()
	need(t, name)
	out, err := command(name, args...)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func command(name string, args ...string) (string, error) {
	var out, errs bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		return "", fmt.Errorf("%s %s: %v\n%s%s", name, strings.Join(args, " "), err, out.String(), errs.String())
	}
	return out.String(), nil
}

// files is everything that a plan prints, in the order in which it was put.
type files struct {
	names []string
	data  map[string][]byte
}

func (f *files) put(name string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if f.data == nil {
		f.data = map[string][]byte{}
	}
	f.names = append(f.names, name)
	f.data[name] = b.Bytes()
	return nil
}

// printAll makes the placards and strips of a plan.
func printAll(b *brief.Brief) (*files, error) {
	f := &files{}
	if err := Placards(b, f.put); err != nil {
		return nil, err
	}
	return f, f.put("rows.pdf", func(w io.Writer) error { return Rows(w, b) })
}

// into writes the files for the judges.
func (f *files) into(dir string) error {
	for name, data := range f.data {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			return err
		}
	}
	return nil
}

// reading is a sample's paper as poppler reads it, read once for all tests.
type reading struct {
	once     sync.Once
	err      error
	plan     *mosaic.Plan
	files    *files
	dir      string
	placards []string // text of each placard file, in the order of its drawing
	rows     string
}

// readBack prints a sample and reads it.
func readBack(t *testing.T, name string) *reading {
	t.Helper()
	need(t, "pdftotext")
	r := &readings[slices.Index(sampleNames, name)]
	r.once.Do(func() { r.err = r.read(samples[name].plan(t)) })
	if r.err != nil {
		t.Fatal(r.err)
	}
	return r
}

var (
	sampleNames = slices.Sorted(maps.Keys(samples))
	readings    = make([]reading, len(samples))
)

func (r *reading) read(p *mosaic.Plan) (err error) {
	r.plan = p
	if r.files, err = printAll(told(p)); err != nil {
		return err
	}
	if r.dir, err = os.MkdirTemp(paperDir, ""); err != nil {
		return err
	}
	if err := r.files.into(r.dir); err != nil {
		return err
	}
	for _, file := range r.files.placards() {
		text, err := command("pdftotext", "-raw", filepath.Join(r.dir, file), "-")
		if err != nil {
			return err
		}
		r.placards = append(r.placards, text)
	}
	r.rows, err = command("pdftotext", "-raw", filepath.Join(r.dir, "rows.pdf"), "-")
	return err
}

// paperDir holds what the judges read.
var paperDir string

func TestMain(m *testing.M) {
	var err error
	if paperDir, err = os.MkdirTemp("", "sheets"); err != nil {
		panic(err)
	}
	code := m.Run()
	os.RemoveAll(paperDir)
	os.Exit(code)
}

// placards lists the placard files.
func (f *files) placards() []string {
	var names []string
	for _, n := range f.names {
		if strings.HasPrefix(n, "placards-") {
			names = append(names, n)
		}
	}
	return names
}

// wantIDs are the ids of all seats that get a card, in laying order.
func wantIDs(p *mosaic.Plan) []string {
	var ids []string
	for _, seat := range p.Order {
		for cue := range p.Hands {
			if p.Hands[cue][seat].Card >= 0 {
				ids = append(ids, p.Stands.ID(int(seat)))
				break
			}
		}
	}
	return ids
}

// checkIDs says what is wrong with the ids that were read back.
func checkIDs(got, want []string) error {
	for i := range min(len(got), len(want)) {
		if got[i] != want[i] {
			return fmt.Errorf("placard %d is for seat %s, want %s", i+1, got[i], want[i])
		}
	}
	if len(got) != len(want) {
		return fmt.Errorf("%d placards, want %d", len(got), len(want))
	}
	return nil
}

// idsIn finds seat ids in text as a stranger would: SECTION-ROW-SEAT, alone on its line or between blanks.
func idsIn(text string, sections []string) []string {
	names := make([]string, len(sections))
	for i, s := range sections {
		names[i] = regexp.QuoteMeta(s)
	}
	id := regexp.MustCompile(`(?:^|\s)((?:` + strings.Join(names, "|") + `)-[^\s-]+-\d+)(?:\s|$)`)
	var ids []string
	for _, line := range strings.Split(text, "\n") {
		for _, m := range id.FindAllStringSubmatch(line, -1) {
			ids = append(ids, m[1])
		}
	}
	return ids
}

func sectionNames(p *mosaic.Plan) []string {
	var names []string
	for _, s := range p.Stands.Sections {
		names = append(names, s.Name)
	}
	return names
}

// words are one page's words and their boxes in points from the top left, as pdftotext -bbox gives them.
type words struct {
	width, height float64
	list          []word
}

type word struct {
	text           string
	x0, y0, x1, y1 float64
}

var (
	pageTag = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)">`)
	wordTag = regexp.MustCompile(`<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>`)
)

func pageWords(t testing.TB, file string) []words {
	t.Helper()
	var pages []words
	for _, line := range strings.Split(judge(t, "pdftotext", "-bbox", file, "-"), "\n") {
		if m := pageTag.FindStringSubmatch(line); m != nil {
			pages = append(pages, words{width: number(t, m[1]), height: number(t, m[2])})
		}
		if m := wordTag.FindStringSubmatch(line); m != nil {
			last := &pages[len(pages)-1]
			last.list = append(last.list, word{m[5], number(t, m[1]), number(t, m[2]), number(t, m[3]), number(t, m[4])})
		}
	}
	return pages
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
