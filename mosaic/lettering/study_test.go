package lettering_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
)

var (
	study     = flag.Bool("study", false, "measure everything with the outside reader and print the table")
	studyDump = flag.String("study-dump", "", "write every case as a line of JSON to this file")
	studyOnly = flag.String("study-only", "", "only claims whose name contains this")
	studyEach = flag.Int("study-each", 1, "take every so-manieth case only")
	studyKeep = flag.String("study-keep", "", "keep plans and pictures in this folder")
	studyPeer = flag.Bool("study-peer", true, "read the image tools' way too")
	studyOff  = flag.Float64("study-off", 1, "error of hand, in shares of the usual one")
	studySet  = flag.String("study-set", "", "only this set: tune or held")
)

// judgePrograms skips where the outside programs are missing, or fails where they are required.
func judgePrograms(t *testing.T) {
	t.Helper()
	for _, p := range []string{"tesseract", "/usr/bin/python3"} {
		if _, err := exec.LookPath(p); err != nil {
			missing(t, p+" is not installed")
		}
	}
	if err := exec.Command("/usr/bin/python3", "-c", "import cv2, numpy").Run(); err != nil {
		missing(t, "python3-opencv is not installed")
	}
}

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("EVERYSEAT_JUDGES") == "required" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// Messages of two to six characters: words, numbers and codes; every third is held out.
var (
	studyWords = []string{
		"GO", "HI", "UP", "SEA", "BAY", "FOG", "TIDE", "PORT", "LAMP", "WAVE", "GULL", "QUAY", "HAVEN", "LIGHT", "NIGHT", "OCEAN",
		"SHORE", "WHARF", "ANCHOR", "HARBOR", "WINTER", "VOYAGE", "JETTY", "KELP", "EXTRA", "ZEBRA", "MIX", "JAM", "FUN", "CHEER",
	}
	studyNumbers = []string{"25", "38", "1947", "2026", "60", "912", "7350", "4816", "365", "88", "50", "1066", "2031", "94", "573", "6429"}
	studyCodes   = []string{
		"B7", "K9", "R2D", "X5S", "H8K", "JV3", "5D7", "Z2Y", "C3PT", "NF1X", "W4LT", "9BDV", "GH65", "Y0QK", "S8RJ2", "7XDVB", "M3HKZ",
		"PL5T9", "V1GQ6", "F2WN8", "D0CJ4", "KRYX7", "3ZSB5D", "8HTVJY", "Q6NMPL", "X9FD2K", "RW7C5H", "B4Z1GS", "T3VK8N",
	}
)

type message struct {
	text, kind string
	held       bool
}

func messages() []message {
	var out []message
	for _, l := range []struct {
		kind string
		all  []string
	}{{"word", studyWords}, {"number", studyNumbers}, {"code", studyCodes}} {
		for i, t := range l.all {
			out = append(out, message{t, l.kind, i%3 == 2})
		}
	}
	return out
}

type studyStands struct {
	name string
	spec seating.Spec
	held bool
}

func standsList() []studyStands {
	const cm = seating.Centimetre
	return []studyStands{
		{"one section, 12 rows of 36", bleachers(1, 12, 36, aisle, rise, run, pitch), false},
		{"two sections, 15 rows of 15", bleachers(2, 15, 15, aisle, rise, run, pitch), false},
		{"three sections, 20 rows of 15", bleachers(3, 20, 15, aisle, rise, run, pitch), false},
		{"three sections, 12 rows of 13", bleachers(3, 12, 13, aisle, rise, run, pitch), false},
		{"two sections, 14 rows of 24", bleachers(2, 14, 24, aisle, rise, run, pitch), false},
		{"three sections, 16 rows of 18", bleachers(3, 16, 18, aisle, rise, run, pitch), true},
		{"four sections, 16 rows of 11", bleachers(4, 16, 11, 120*cm, rise, run, pitch), true},
		{"two sections, 10 rows of 20, steep", bleachers(2, 10, 20, 42*seating.Inch, 16*seating.Inch, 33*seating.Inch, 22*seating.Inch), true},
	}
}

// claim is one way to look and what may go wrong.
type claim struct {
	name           string
	across, height float64
	backs          []float64 // the last one is held out
	empty, wrong   float64
}

var claims = []claim{
	{"straight on", 0, 3, []float64{16, 20, 24}, 0, 0},
	{"8 % empty, 1 % wrong, camera before the middle", 0, 3, []float64{16, 20, 24}, 0.08, 0.01},
	{"7 m aside", 7, 3, []float64{16, 20, 24}, 0, 0},
	{"harsh: 7 m aside, 1.8 m high, 12 m back", 7, 1.8, []float64{12, 12, 12}, 0, 0},
}

// outcome is one case, read.
type outcome struct {
	Claim, Stands, Text, Kind string
	Held                      bool
	Back                      float64
	Refused                   string  `json:",omitempty"`
	Seats                     float64 // a letter
	Rows                      int
	Face                      string
	Score                     float64
	Verdict                   legibility.Verdict
	Letters                   []legibility.Letter
	Read                      string
	Readings                  []string
	OK                        bool

	place  *place
	layout *lettering.Layout
	claim  *claim
	plan   string
	Shot   string  `json:"shot"`
	CardPx float64 `json:"card_px"`
}

// plainText is what counts as the same to the reader.
func plainText(s string) string {
	return strings.NewReplacer("O", "0", "I", "1", " ", "").Replace(s)
}

func readerScript(tb testing.TB, name string) string {
	tb.Helper()
	p, err := filepath.Abs(filepath.Join("..", "..", "testdata", "reader", name))
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// script feeds jobs to a script in as many processes as there are processors.
func script(tb testing.TB, name string, jobs []any) [][]byte {
	tb.Helper()
	workers := runtime.GOMAXPROCS(0)
	answers := make([][]byte, len(jobs))
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			var in bytes.Buffer
			var mine []int
			for i := w; i < len(jobs); i += workers {
				line, err := json.Marshal(jobs[i])
				if err != nil {
					errs[w] = err
					return
				}
				in.Write(append(line, '\n'))
				mine = append(mine, i)
			}
			cmd := exec.Command("/usr/bin/python3", readerScript(tb, name))
			cmd.Stdin = &in
			cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
			var errOut bytes.Buffer
			cmd.Stderr = &errOut
			out, err := cmd.Output()
			if err != nil {
				errs[w] = fmt.Errorf("%s: %w\n%s", name, err, errOut.String())
				return
			}
			for k, line := range bytes.Split(bytes.TrimSpace(out), []byte("\n")) {
				if k < len(mine) {
					answers[mine[k]] = line
				}
			}
		}()
	}
	wg.Wait()
	if err := errors.Join(errs...); err != nil {
		tb.Fatal(err)
	}
	return answers
}

// readAll draws and reads the layouts, some at a time: pictures are large.
func readAll(tb testing.TB, cases []*outcome, dir string) {
	tb.Helper()
	const some = 64
	for i := 0; i < len(cases); i += some {
		readSome(tb, cases[i:min(i+some, len(cases))], i, dir)
	}
}

func readSome(tb testing.TB, cases []*outcome, first int, dir string) {
	tb.Helper()
	kind := ".bmp" // quick to write
	if *studyKeep != "" {
		kind = ".png"
	}
	var draws, reads []any
	var asked []*outcome
	for i, c := range cases {
		if c.Refused != "" {
			continue
		}
		c.plan = filepath.Join(dir, fmt.Sprintf("%05d.json", first+i))
		c.Shot = filepath.Join(dir, fmt.Sprintf("%05d-%s%s", first+i, c.Text, kind))
		c.place.planFile(tb, c.plan, c.layout.Ink)
		c.CardPx = c.place.cardPixels()
		draws = append(draws, map[string]any{"plan": c.plan, "picture": c.Shot, "seed": first + i + 1, "empty": c.claim.empty, "wrong": c.claim.wrong, "off": 0.05 * *studyOff, "roll": 8 * *studyOff})
		reads = append(reads, map[string]any{"picture": c.Shot, "ground": night.Hex(), "ink": gold.Hex(), "card_px": c.CardPx, "lines": 1})
		asked = append(asked, c)
	}
	script(tb, "draw.py", draws)
	for i, line := range script(tb, "read.py", reads) {
		var a struct {
			Readings []string
			Text     *string
		}
		if err := json.Unmarshal(line, &a); err != nil {
			tb.Fatalf("reading %d: %v: %s", i, err, line)
		}
		c := asked[i]
		c.Readings = a.Readings
		if a.Text != nil {
			c.Read = *a.Text
		}
		c.OK = a.Text != nil && c.Read == plainText(c.Text)
		if *studyKeep == "" {
			os.Remove(c.Shot)
			os.Remove(c.plan)
		}
	}
}

// studyCases lays out everything a claim needs.
func studyCases(tb testing.TB, cl *claim, every int, set string) []*outcome {
	tb.Helper()
	var cases []*outcome
	n := 0
	for _, st := range standsList() {
		for b, back := range cl.backs {
			if b > 0 && back == cl.backs[0] {
				continue
			}
			var p *place
			for k, m := range messages() {
				// a case is held out when its words, stands and mark are; the tuning half has none of them
				held := m.held && st.held
				tune := !m.held && !st.held && (b < 2)
				if !held && !tune || held && set == "tune" || tune && set == "held" {
					continue
				}
				// one mark a message for each stands, in turn
				if len(cl.backs) == 3 && cl.backs[1] != cl.backs[0] && (tune && k%2 != b || held && (k/3)%2 == 1 && b != 2 || held && (k/3)%2 == 0 && b == 2) {
					continue
				}
				if n++; n%every != 0 {
					continue
				}
				if p == nil {
					p = look(tb, st.name, st.spec, mark(cl.across, back, cl.height))
				}
				cases = append(cases, &outcome{Claim: cl.name, Stands: st.name, Text: m.text, Kind: m.kind, Held: held, Back: back, place: p, claim: cl})
			}
		}
	}
	var wg sync.WaitGroup
	next := make(chan *outcome)
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for c := range next {
				c.lay()
			}
		}()
	}
	for _, c := range cases {
		next <- c
	}
	close(next)
	wg.Wait()
	return cases
}

func (c *outcome) lay() {
	l, err := lettering.Fit([]*lettering.Field{c.place.field}, c.Text, options())
	if err != nil {
		c.Refused = err.Error()
		return
	}
	c.layout = l
	c.Seats, c.Rows = sizes(l)
	c.Face, c.Score = l.Face, l.Score
	r := legibility.Judge([]*lettering.Field{c.place.field}, 0, l.Ink, l.Glyphs(), options())
	c.Score, c.Verdict, c.Letters = r.Score, r.Verdict, r.Letters
}

// wilson is the 95 % interval of a share (E. B. Wilson 1927; MEMORY).
func wilson(k, n int) (lo, hi float64) {
	if n == 0 {
		return 0, 1
	}
	const z = 1.959964
	p, m := float64(k)/float64(n), float64(n)
	mid := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return mid - half, mid + half
}

func share(cases []*outcome, keep func(*outcome) bool) string {
	k, n := 0, 0
	for _, c := range cases {
		if keep(c) {
			n++
			if c.OK {
				k++
			}
		}
	}
	if n == 0 {
		return "        –        "
	}
	lo, hi := wilson(k, n)
	return fmt.Sprintf("%3d/%-3d %3.0f %% (%2.0f–%2.0f)", k, n, 100*float64(k)/float64(n), 100*lo, 100*hi)
}

// TestReads reads a small sample: a loose floor, well under what the study measures, that
// a real loss would break through.
func TestReads(t *testing.T) {
	judgePrograms(t)
	cases := studyCases(t, &claims[0], 12, "tune")
	readAll(t, cases, t.TempDir())
	n, seats := 0, 0
	for _, c := range cases {
		if c.OK {
			n++
		}
		if c.Refused == "" {
			seats++
		}
	}
	t.Logf("%d of %d read, %d laid", n, len(cases), seats)
	if len(cases) < 16 || n*100 < 45*len(cases) {
		t.Errorf("the outside reader reads %d of %d, want 45 %%", n, len(cases))
	}
}

// TestStudy prints the whole table: go test ./mosaic/lettering -run TestStudy -study -v -timeout 1h
func TestStudy(t *testing.T) {
	if !*study {
		t.Skip("run with -study")
	}
	judgePrograms(t)
	var all []*outcome
	for i := range claims {
		cl := &claims[i]
		if !strings.Contains(cl.name, *studyOnly) {
			continue
		}
		dir := t.TempDir()
		if *studyKeep != "" {
			dir = filepath.Join(*studyKeep, fmt.Sprint(i))
			if err := os.MkdirAll(dir, 0o755); err != nil {
				t.Fatal(err)
			}
		}
		cases := studyCases(t, cl, *studyEach, *studySet)
		readAll(t, cases, dir)
		printClaim(cl, cases)
		if *studyPeer {
			peers := peerCases(t, cases)
			readAll(t, peers, t.TempDir())
			for _, held := range []bool{false, true} {
				fmt.Printf("  %-9s %-28s %s\n", setName(held), "image tools' way, all", share(peers, func(c *outcome) bool { return c.Held == held }))
			}
		}
		all = append(all, cases...)
	}
	printVerdicts(all)
	if *studyDump != "" {
		var b bytes.Buffer
		for _, c := range all {
			line, err := json.Marshal(c)
			if err != nil {
				t.Fatal(err)
			}
			b.Write(append(line, '\n'))
		}
		if err := os.WriteFile(*studyDump, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func setName(held bool) string {
	if held {
		return "held out"
	}
	return "tuning"
}

// peerCases lays the same messages as image tools do: by a script, on the plain grid.
func peerCases(tb testing.TB, cases []*outcome) []*outcome {
	tb.Helper()
	if _, err := exec.LookPath("convert"); err != nil {
		fmt.Println("  ImageMagick is not installed: no comparison with the image tools' way")
		return nil
	}
	var jobs []any
	for _, c := range cases {
		rows, cols := grid(c.place)
		jobs = append(jobs, map[string]any{"text": c.Text, "rows": rows, "cols": cols})
	}
	var out []*outcome
	for i, line := range script(tb, "imagetool.py", jobs) {
		var picture []string
		if err := json.Unmarshal(line, &picture); err != nil {
			tb.Fatalf("%v: %s", err, line)
		}
		c := *cases[i]
		c.Refused, c.OK = "", false
		c.layout = &lettering.Layout{Ink: make([]bool, len(c.place.field.Seats))}
		at, row := 0, int32(-1)
		for k, s := range rowOrder(c.place) {
			seat := c.place.field.Seats[s]
			if k == 0 || seat.Row != row {
				at, row = 0, seat.Row
			}
			c.layout.Ink[s] = picture[len(picture)-1-int(row)][at] == '#'
			at++
		}
		out = append(out, &c)
	}
	return out
}

// grid is the rows of the stands and the seats of a row over all sections.
func grid(p *place) (rows, cols int) {
	for _, s := range p.field.Seats {
		rows = max(rows, int(s.Row)+1)
		if s.Row == 0 {
			cols++
		}
	}
	return rows, cols
}

// rowOrder lists the field's seats row by row over all sections, left to right.
func rowOrder(p *place) []int {
	order := make([]int, len(p.field.Seats))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(p.field.Seats[a].Row - p.field.Seats[b].Row) })
	return order
}

func printClaim(cl *claim, cases []*outcome) {
	fmt.Printf("\n%s\n", cl.name)
	for _, held := range []bool{false, true} {
		name := setName(held)
		row := func(what string, keep func(*outcome) bool) {
			fmt.Printf("  %-9s %-28s %s\n", name, what, share(cases, func(c *outcome) bool { return c.Held == held && keep(c) }))
		}
		row("all", func(*outcome) bool { return true })
		row("6+ seats, 10+ rows", func(c *outcome) bool { return c.Seats >= 6 && c.Rows >= 10 })
		row("5+ seats", func(c *outcome) bool { return c.Seats >= 5 })
		row("4 to 6 seats", func(c *outcome) bool { return c.Seats >= 4 && c.Seats < 6 })
		row("under 4 seats", func(c *outcome) bool { return c.Refused == "" && c.Seats < 4 })
		row("refused", func(c *outcome) bool { return c.Refused != "" })
		for _, kind := range []string{"word", "number", "code"} {
			row(kind+"s", func(c *outcome) bool { return c.Kind == kind })
		}
		for _, f := range []string{"bold", "medium", "block", "broad block"} {
			row("face "+f, func(c *outcome) bool { return c.Face == f })
		}
	}
}

func printVerdicts(cases []*outcome) {
	fmt.Printf("\nverdicts against the reader\n")
	for _, held := range []bool{false, true} {
		read, called := 0, 0
		for _, v := range []legibility.Verdict{legibility.Reads, legibility.Marginal, legibility.DoesNotRead} {
			fmt.Printf("  held out %-5v %-14s %s\n", held, v, share(cases, func(c *outcome) bool { return c.Held == held && c.Verdict == v }))
		}
		for _, c := range cases {
			if c.Held == held && c.OK {
				read++
				if c.Verdict == legibility.Reads {
					called++
				}
			}
		}
		fmt.Printf("  held out %-5v of the %d read, called reads: %d\n", held, read, called)
	}
}
