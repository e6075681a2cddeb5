package lettering_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/testdata/judges"
)

var (
	study     = flag.Bool("study", false, "measure everything with the outside reader and print the table")
	studyDump = flag.String("study-dump", "", "write every case as a line of JSON to this file")
	studyOnly = flag.String("study-only", "", "only claims whose name contains this")
	studyEach = flag.Int("study-each", 1, "take every so-manieth case only")
	studyKeep = flag.String("study-keep", "", "keep plans and pictures in this folder")
	studyPeer = flag.Bool("study-peer", true, "read the other ways too: image tools', by hand")
	studyOff  = flag.Float64("study-off", 1, "error of hand, in shares of the usual one")
	studyMore = flag.Bool("study-more", true, "read our own camera picture, and levelled ones, too")
	studyDraw = flag.Int("study-draws", 1, "draw and read every case so many times, with other people and hands each time")
	studySet  = flag.String("study-set", "", "only this set: tune or held")

	// instead of the claims:
	studySeed  = flag.Uint64("study-draw", 0, "read stands, marks and messages drawn afresh from this seed")
	studyClass = flag.String("study-class", "", "only draws of this class: 6+ or 4 to 6")
	studyCount = flag.Int("study-cases", 60, "so many draws of a class")
	studyEyes  = flag.String("study-eyes", "", "write pictures for people to judge into this folder, the key beside it")
)

// judgePrograms skips where the outside programs are missing, or fails where they are required.
func judgePrograms(t *testing.T) {
	t.Helper()
	for _, p := range []string{"tesseract", "/usr/bin/python3"} {
		if _, err := exec.LookPath(p); err != nil {
			judges.Missing(t, p+" is not installed")
		}
	}
	if err := exec.Command("/usr/bin/python3", "-c", "import cv2, numpy").Run(); err != nil {
		judges.Missing(t, "python3-opencv is not installed")
	}
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
	Times                     int    // of all draws, read
	Known, Film               string // what the scene-text reader says: colours known, as filmed
	KnownOK, FilmOK           bool
	Own, Level                bool // read in our own camera picture; read after levelling

	place  *place
	layout *lettering.Layout
	claim  *claim
	eye    string // the file for people to judge
	plan   string
	Shot   string  `json:"shot"`
	CardPx float64 `json:"card_px"`
}

// plainText is what counts as the same to the reader.
func plainText(s string) string {
	return strings.NewReplacer("O", "0", "I", "1", " ", "").Replace(s)
}

// readAll draws and reads the layouts, some at a time: pictures are large.
func readAll(tb testing.TB, cases []*outcome, dir string, scene bool) {
	tb.Helper()
	const some = 64
	for i := 0; i < len(cases); i += some {
		batch := cases[i:min(i+some, len(cases))]
		for draw := *studyDraw - 1; draw >= 0; draw-- { // the first one last: it is what is told
			readSome(tb, batch, i+draw*100_000, dir, scene && draw == 0)
			for _, c := range batch {
				if c.OK {
					c.Times++
				}
			}
		}
	}
}

func readSome(tb testing.TB, cases []*outcome, first int, dir string, scene bool) {
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
		reads = append(reads, map[string]any{"picture": c.Shot, "ground": night.Hex(), "ink": gold.Hex(), "card_px": c.CardPx, "lines": 1, "corners": c.place.corners()})
		asked = append(asked, c)
	}
	judges.Ask(tb, "draw.py", draws)
	for i, a := range answers(tb, "read.py", reads) {
		c := asked[i]
		c.Readings, c.Read = a.Readings, a.text()
		c.OK = a.reads(c)
	}
	if scene {
		readScene(tb, asked)
	}
	if cases[0].claim.across != 0 && *studyMore {
		for i, a := range answers(tb, "level.py", reads) {
			asked[i].Level = a.reads(asked[i])
		}
	}
	if cases[0].claim.own && *studyMore {
		readOwn(tb, asked, reads)
	}
	for _, c := range asked {
		if *studyKeep == "" {
			os.Remove(c.Shot)
			os.Remove(c.plan)
		}
	}
}

// answer is what a reader makes of one picture.
type answer struct {
	Readings []string
	Text     *string // nil on a tie
}

func (a *answer) text() string {
	if a.Text == nil {
		return ""
	}
	return *a.Text
}

func (a *answer) reads(c *outcome) bool { return a.Text != nil && *a.Text == plainText(c.Text) }

func answers(tb testing.TB, name string, jobs []any) []answer {
	tb.Helper()
	out := make([]answer, len(jobs))
	for i, line := range judges.Ask(tb, name, jobs) {
		if err := json.Unmarshal(line, &out[i]); err != nil {
			tb.Fatalf("%s, job %d: %v: %s", name, i, err, line)
		}
	}
	return out
}

// readOwn reads our own camera pictures of held-out cases.
func readOwn(tb testing.TB, cases []*outcome, jobs []any) {
	tb.Helper()
	var asked []*outcome
	var reads []any
	for i, c := range cases {
		if !c.Held {
			continue
		}
		job := maps.Clone(jobs[i].(map[string]any))
		job["picture"] = c.Shot + "-own.png"
		c.place.ownPicture(tb, job["picture"].(string), c.layout.Ink)
		asked, reads = append(asked, c), append(reads, job)
	}
	for i, a := range answers(tb, "read.py", reads) {
		asked[i].Own = a.reads(asked[i])
		if *studyKeep == "" {
			os.Remove(reads[i].(map[string]any)["picture"].(string))
		}
	}
}

func (c *outcome) lay() {
	l, err := lettering.Fit([]*lettering.Field{c.place.field}, c.Text, options())
	if err != nil {
		c.Refused = err.Error()
		return
	}
	c.layout = l
	c.Seats, c.Rows = sizes(l)
	c.Face = l.Face
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
	return max(mid-half, 0), min(mid+half, 1)
}

// reading is one way to read a case.
type reading struct {
	name string
	ok   func(*outcome) bool
}

// readings are the outside ones, each in the outside drawing.
var readings = []reading{
	{"document OCR", func(c *outcome) bool { return c.OK }},
	{"scene, colours known", func(c *outcome) bool { return c.KnownOK }},
	{"scene, as filmed", func(c *outcome) bool { return c.FilmOK }},
}

// printRow prints columns in step with those above.
func printRow(what string, columns []string) {
	line := fmt.Sprintf("%-32s", what)
	for _, c := range columns {
		line += fmt.Sprintf("%-23s", c)
	}
	fmt.Println(strings.TrimRight(line, " "))
}

func printShares(what string, cases []*outcome, readings []reading) {
	var columns []string
	for _, r := range readings {
		columns = append(columns, share(cases, r.ok))
	}
	printRow("  "+what, columns)
}

func printHead(what string, readings []reading) {
	var columns []string
	for _, r := range readings {
		columns = append(columns, r.name)
	}
	fmt.Printf("\n%s\n", what)
	printRow("", columns)
}

func share(cases []*outcome, ok func(*outcome) bool) string {
	k, n := 0, len(cases)
	for _, c := range cases {
		if ok(c) {
			k++
		}
	}
	if n == 0 {
		return "   –"
	}
	lo, hi := wilson(k, n)
	return fmt.Sprintf("%3d/%-3d %3.0f %% (%2.0f–%2.0f)", k, n, 100*float64(k)/float64(n), 100*lo, 100*hi)
}

func those(cases []*outcome, keep func(*outcome) bool) []*outcome {
	var out []*outcome
	for _, c := range cases {
		if keep(c) {
			out = append(out, c)
		}
	}
	return out
}

// TestReads reads a small sample: a loose floor, well under what the study measures, that
// a real loss would break through.
func TestReads(t *testing.T) {
	judgePrograms(t)
	cases := studyCases(t, &claims[0], 12, "tune")
	readAll(t, cases, t.TempDir(), false)
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
	judges.SceneReader(t)
	if *studySeed != 0 {
		dump(t, readFresh(t, *studySeed))
		return
	}
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
		readAll(t, cases, dir, true)
		printClaim(cl, cases)
		if *studyPeer && cl.peer {
			printPeers(t, cases)
		}
		all = append(all, cases...)
	}
	for _, held := range []bool{false, true} {
		printVerdicts("verdicts, "+setName(held), those(all, func(c *outcome) bool { return c.Held == held }))
	}
	printLuck(all)
	dump(t, all)
}

// dump writes the cases to the file asked for.
func dump(t *testing.T, cases []*outcome) {
	t.Helper()
	if *studyDump == "" {
		return
	}
	var b bytes.Buffer
	for _, c := range cases {
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

func setName(held bool) string {
	if held {
		return "held out"
	}
	return "tuning"
}

// peer is another way to lay a message, by a script that knows nothing of the planner.
type peer struct {
	name, script string
	job          func(c *outcome) map[string]any
}

var peers = []peer{
	{"image tools' way, square", "imagetool.py", func(c *outcome) map[string]any {
		rows, sections := grid(c.place)
		return map[string]any{"text": c.Text, "rows": rows, "cols": total(sections), "wide": 1}
	}},
	{"image tools' way, seats wide", "imagetool.py", func(c *outcome) map[string]any {
		rows, sections := grid(c.place)
		return map[string]any{"text": c.Text, "rows": rows, "cols": total(sections), "wide": c.place.cellAspect()}
	}},
	{byHand, "byhand.py", func(c *outcome) map[string]any {
		rows, sections := grid(c.place)
		return map[string]any{"text": c.Text, "rows": rows, "sections": sections}
	}},
}

const byHand = "block letters by hand"

// printPeers reads every second held-out case laid in the peers' ways.
func printPeers(t *testing.T, cases []*outcome) {
	t.Helper()
	if _, err := exec.LookPath("convert"); err != nil {
		judges.Missing(t, "ImageMagick is not installed")
	}
	var some []*outcome
	for i, c := range cases {
		if c.Held && i%2 == 0 {
			some = append(some, c)
		}
	}
	printShares("the cases laid in other ways", some, readings)
	for _, p := range peers {
		laid := peerCases(t, some, p.name)
		readAll(t, laid, t.TempDir(), true)
		printShares(p.name, laid, readings)
	}
}

// peerCases lays the same messages in a peer's way: by a script, on the plain grid.
func peerCases(tb testing.TB, cases []*outcome, way string) []*outcome {
	tb.Helper()
	peer := peers[slices.IndexFunc(peers, func(p peer) bool { return p.name == way })]
	var jobs []any
	for _, c := range cases {
		jobs = append(jobs, peer.job(c))
	}
	var out []*outcome
	for i, line := range judges.Ask(tb, peer.script, jobs) {
		var picture []string
		if err := json.Unmarshal(line, &picture); err != nil {
			tb.Fatalf("%v: %s", err, line)
		}
		like := cases[i]
		c := &outcome{Text: like.Text, Kind: like.Kind, Held: like.Held, place: like.place, claim: &claim{name: way}}
		out = append(out, c)
		if picture == nil {
			c.Refused = "no room"
			continue
		}
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
	}
	return out
}

// grid is the rows of the stands and the seats of a row in each section.
func grid(p *place) (rows int, sections []int) {
	for _, s := range p.field.Seats {
		rows = max(rows, int(s.Row)+1)
		if s.Row == 0 {
			for len(sections) <= int(s.Section) {
				sections = append(sections, 0)
			}
			sections[s.Section]++
		}
	}
	return rows, sections
}

func total(counts []int) int {
	n := 0
	for _, c := range counts {
		n += c
	}
	return n
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
	for _, held := range []bool{false, true} {
		cases := those(cases, func(c *outcome) bool { return c.Held == held })
		if len(cases) == 0 {
			continue
		}
		columns := slices.Clone(readings)
		if held && cl.own && *studyMore {
			columns = append(columns, reading{"own picture", func(c *outcome) bool { return c.Own }})
		}
		if cl.across != 0 && *studyMore {
			columns = append(columns, reading{"levelled first", func(c *outcome) bool { return c.Level }})
		}
		printHead(cl.name+", "+setName(held), columns)
		row := func(what string, keep func(*outcome) bool) { printShares(what, those(cases, keep), columns) }
		row("all", func(*outcome) bool { return true })
		big := func(c *outcome) bool { return c.Seats >= 6 && c.Rows >= 10 }
		row("6+ seats, 10+ rows", big)
		row("5+ seats", func(c *outcome) bool { return c.Seats >= 5 })
		row("4 to 6 seats", func(c *outcome) bool { return c.Seats >= 4 && c.Seats < 6 })
		row("under 4 seats", func(c *outcome) bool { return c.Refused == "" && c.Seats < 4 })
		row("refused", func(c *outcome) bool { return c.Refused != "" })
		for _, kind := range []string{"word", "number", "code"} {
			row(kind+"s", func(c *outcome) bool { return c.Kind == kind })
			row(kind+"s, 6+ seats, 10+ rows", func(c *outcome) bool { return c.Kind == kind && big(c) })
		}
	}
}

// printVerdicts shows how much of all each verdict is called and what of it is read, and in how many of a hundred
// pairs of a read case and an unread one the read one has the higher score.
func printVerdicts(what string, cases []*outcome) {
	if len(cases) == 0 {
		return
	}
	printHead(what, slices.Concat([]reading{{name: "called, of all"}}, readings))
	for _, v := range []legibility.Verdict{legibility.Reads, legibility.Marginal, legibility.DoesNotRead} {
		called := func(c *outcome) bool { return c.Verdict == v }
		columns := []string{share(cases, called)}
		for _, r := range readings {
			columns = append(columns, share(those(cases, called), r.ok))
		}
		printRow("  "+string(v), columns)
	}
	calls, orders := []string{""}, []string{""}
	for _, r := range readings {
		read := those(cases, r.ok)
		calls = append(calls, share(read, func(c *outcome) bool { return c.Verdict == legibility.Reads }))
		right, pairs := 0.0, 0.0
		for _, a := range read {
			for _, b := range those(cases, func(c *outcome) bool { return !r.ok(c) }) {
				pairs++
				if a.Score > b.Score {
					right++
				} else if a.Score == b.Score {
					right += 0.5
				}
			}
		}
		orders = append(orders, fmt.Sprintf("%8s %3.0f %%", "", 100*right/max(pairs, 1)))
	}
	printRow("  of the read ones, called reads", calls)
	printRow("  ordered right by the score", orders)
}

// printLuck says how often the same plan is read and not read, by how people happen to hold their cards,
// and what a verdict would reach that had seen these very draws: more than any that must foretell.
func printLuck(cases []*outcome) {
	n := *studyDraw
	if n < 2 {
		return
	}
	plans, read := make([]int, n+1), 0
	for _, c := range cases {
		plans[c.Times]++
		read += c.Times
	}
	fmt.Printf("\n%d draws of each plan: read never, once, … always %v\n", n, plans)
	for reads := n/2 + 1; reads <= n; reads++ {
		called, right := 0, 0
		for k := reads; k <= n; k++ {
			called, right = called+plans[k], right+k*plans[k]
		}
		fails := n / 2
		below, wrong := 0, 0
		for k := range fails {
			below, wrong = below+plans[k], wrong+k*plans[k]
		}
		fmt.Printf("  called reads from %d of %d: read %.1f %%, of the read ones called %.1f %%; does not read under %d: read %.1f %%; marginal %.1f %%\n",
			reads, n, share100(right, n*called), share100(right, read), fails, share100(wrong, n*below), share100(len(cases)-called-below, len(cases)))
	}
}

func share100(k, n int) float64 { return 100 * float64(k) / math.Max(float64(n), 1) }
