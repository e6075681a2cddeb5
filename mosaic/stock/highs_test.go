package stock

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"everyseat/testdata/judges"
)

const (
	highsCues   = "../../testdata/stock/highs_cues.csv"
	highsKits   = "../../testdata/stock/highs_kits.csv"
	highsSource = "../../testdata/stock/highs_peer.py"
)

// highs starts the outside solver of integer programs, or skips where it is missing.
func highs(tb testing.TB) func(problems ...any) [][]string {
	tb.Helper()
	const python = "/usr/bin/python3" // Debian's, which has Debian's scipy
	if err := exec.Command(python, "-c", "import scipy.optimize").Run(); err != nil {
		judges.Missing(tb, "scipy with HiGHS (Debian package python3-scipy) is missing")
	}
	return func(problems ...any) [][]string {
		var in, out, problem bytes.Buffer
		for _, p := range problems {
			if err := json.NewEncoder(&in).Encode(p); err != nil {
				tb.Fatal(err)
			}
		}
		cmd := exec.Command(python, highsSource)
		cmd.Stdin, cmd.Stdout, cmd.Stderr = &in, &out, &problem
		if err := cmd.Run(); err != nil {
			tb.Fatalf("%v\n%s", err, problem.String())
		}
		var answers [][]string
		for line := range strings.Lines(out.String()) {
			answers = append(answers, strings.Fields(line))
		}
		return answers
	}
}

// cueProblem is what HiGHS reads: every seat takes part in every cue.
type cueProblem struct {
	Stock   []int       `json:"stock"`
	Cost    [][][]int32 `json:"cost"`
	Relaxed bool        `json:"relaxed"`
}

func newCueProblem(cues []Cue, stock []int) cueProblem {
	p := cueProblem{Stock: stock}
	k := len(stock)
	for _, cue := range cues {
		var rows [][]int32
		for i := range cue.Seats {
			rows = append(rows, cue.Cost[i*k:(i+1)*k])
		}
		p.Cost = append(p.Cost, rows)
	}
	return p
}

type kitProblem struct {
	Sequence []int16 `json:"sequence"`
}

// table compares the rows of a committed table with what the names say, or makes it anew.
func table(t *testing.T, path, head string, names []string, answers func() [][]string) [][]string {
	t.Helper()
	if *update {
		var b strings.Builder
		fmt.Fprintln(&b, head)
		for i, answer := range answers() {
			fmt.Fprintf(&b, "%s,%s,%s\n", names[i], answer[0], answer[1])
		}
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != len(names)+1 {
		t.Fatalf("the table has %d rows, there are %d cases", len(rows)-1, len(names))
	}
	for i, row := range rows[1:] {
		if n := len(row) - 2; strings.Join(row[:n], ",") != names[i] {
			t.Fatalf("row %d is of %v, the case is %s", i+1, row[:n], names[i])
		}
	}
	return rows[1:]
}

func figures(t *testing.T, row []string) (first, second int64) {
	t.Helper()
	var err error
	if first, err = strconv.ParseInt(row[len(row)-2], 10, 64); err == nil {
		second, err = strconv.ParseInt(row[len(row)-1], 10, 64)
	}
	if err != nil {
		t.Fatal(err)
	}
	return first, second
}

// The optima over several cues that HiGHS finds as integer programs (Debian python3-scipy
// 1.10.1), 20 to 60 seats, 2 to 4 cues, 4 to 6 colours of which 3 are scarce. No answer costs
// less, no bound is above, and in all the answers come near. HiGHS is exact to a millionth.
// The table was made by `go test ./mosaic/stock -run HiGHS -update`.
func TestAssignCuesHiGHS(t *testing.T) {
	var names []string
	var problems []any
	var got []*Colours
	for seed := range uint64(40) {
		seats, n, colours := 20+int(seed), 2+int(seed%3), 4+int(seed%3)
		cues, stock := scarceCues(seed+900, seats, n, colours, 3)
		answer, err := AssignCues(cues, seats, stock, nil)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		recount(t, cues, stock, answer)
		names = append(names, fmt.Sprintf("%d,%d,%d,%d", seed, seats, n, colours))
		problems, got = append(problems, newCueProblem(cues, stock)), append(got, answer)
	}
	rows := table(t, highsCues, "seed,seats,cues,colours,least,linear", names, func() [][]string { return highs(t)(problems...) })
	var ours, bound, optimum, linear int64
	for i, row := range rows {
		least, relaxed := figures(t, row)
		near := least/1_000_000 + 1
		if got[i].Cost < least-near || got[i].Least > least+near {
			t.Errorf("%s: cost %d, at least %d; HiGHS has %d", names[i], got[i].Cost, got[i].Least, least)
		}
		ours, bound, optimum, linear = ours+got[i].Cost, bound+got[i].Least, optimum+least, linear+relaxed
	}
	percent := func(n int64) float64 { return 100 * float64(n) / float64(optimum) }
	t.Logf("of the optima: ours %.2f %%, our bounds %.2f %%, linear programs %.2f %%", percent(ours), percent(bound), percent(linear))
	if percent(ours) > 103 || percent(bound) < 97 {
		t.Error("in all too far from the optima")
	}
}

// kitCases are long sequences in up to seven colours.
func kitCases() (names []string, sequences [][]int16) {
	for seed := range 60 {
		rng := numbers(seed + 77)
		seq := make([]int16, 8+rng.below(9))
		for q := range seq {
			seq[q] = int16(rng.below(4+seed%5)) + None
		}
		names = append(names, fmt.Sprintf("%d,%d", seed, len(seq)))
		sequences = append(sequences, seq)
	}
	return names, sequences
}

// The fewest cards and changes of 60 sequences of 8 to 16 cues in 3 to 7 colours, as HiGHS finds them.
func TestKitHiGHS(t *testing.T) {
	names, sequences := kitCases()
	rows := table(t, highsKits, "seed,cues,cards,changes", names, func() [][]string { return highs(t)(kitProblems(sequences)...) })
	for i, row := range rows {
		cards, changes := figures(t, row)
		if k := mustKit(t, Bonded, sequences[i]); int64(k.Total) != cards || int64(k.Changes) != changes {
			t.Errorf("%v: %d cards, %d changes; HiGHS has %d, %d", sequences[i], k.Total, k.Changes, cards, changes)
		}
	}
}

func kitProblems(sequences [][]int16) []any {
	out := make([]any, len(sequences))
	for i, seq := range sequences {
		out[i] = kitProblem{seq}
	}
	return out
}

// seconds adds up one column of the solver's own clock.
func seconds(tb testing.TB, answers [][]string, column int) float64 {
	var sum float64
	for _, a := range answers {
		took, err := strconv.ParseFloat(a[column], 64)
		if err != nil {
			tb.Fatal(err)
		}
		sum += took
	}
	return sum
}

// BenchmarkAssignCuesPeers has three cues on so many seats, six colours of which three are scarce:
// ours, HiGHS to the optimum and its linear program alone (its own clock).
func BenchmarkAssignCuesPeers(b *testing.B) {
	for _, seats := range []int{60, 450} {
		cues, stock := scarceCues(7, seats, 3, 6, 3)
		var got *Colours
		b.Run(fmt.Sprintf("%d/ours", seats), func(b *testing.B) {
			for b.Loop() {
				var err error
				if got, err = AssignCues(cues, seats, stock, nil); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(100*float64(got.Cost-got.Least)/float64(got.Least), "%gap")
		})
		peer := func(name string, relaxed bool) {
			b.Run(fmt.Sprintf("%d/%s", seats, name), func(b *testing.B) {
				solver, p := highs(b), newCueProblem(cues, stock)
				p.Relaxed = relaxed
				var took, least float64
				for b.Loop() {
					answers := solver(p)
					took += seconds(b, answers, 2)
					least = seconds(b, answers, 0)
				}
				b.ReportMetric(took*1e9/float64(b.N), "ns/op")
				b.ReportMetric(100*(float64(got.Cost)-least)/least, "%ours-over")
			})
		}
		peer("highs", false)
		peer("highs-linear", true)
	}
}

// BenchmarkKitPeer has ten cues in six random colours on 45 seats: ours, and HiGHS person by person (its
// own clock), which finds cards and changes but does not look for few kinds.
func BenchmarkKitPeer(b *testing.B) {
	cues := randomCues(10, 45, 6)
	b.Run("ours", func(b *testing.B) { benchmarkKit(b, cues) })
	b.Run("highs", func(b *testing.B) {
		sequences := make([][]int16, 45)
		for _, colours := range cues {
			for s, c := range colours {
				sequences[s] = append(sequences[s], c)
			}
		}
		solver := highs(b)
		var took float64
		for b.Loop() {
			took += seconds(b, solver(kitProblems(sequences)...), 2)
		}
		b.ReportMetric(took*1e9/float64(b.N), "ns/op")
	})
}
