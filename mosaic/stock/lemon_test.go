package stock

import (
	"bytes"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"everyseat/testdata/judges"
)

var update = flag.Bool("update", false, "make testdata/stock/lemon_costs.csv anew (needs g++ and Debian's liblemon-dev)")

const (
	lemonTable  = "../../testdata/stock/lemon_costs.csv"
	lemonSource = "../../testdata/stock/lemon_peer.cpp"
)

// lemonCases are fixed random problems, each with its row in the table.
func lemonCases() (names []string, problems []problem) {
	for seed := range uint64(400) {
		rng := numbers(seed + 5000)
		seats, colours := 1+rng.below(120), 2+rng.below(11)
		tight := rng.below(colours)
		shape := "random"
		p := randomProblem(seed, seats, colours, tight)
		switch seed % 5 {
		case 3:
			shape = "picture"
			p = pictureProblem(seed, seats, colours, tight)
		case 4: // all colours tight: some can be answered, some not
			shape, tight = "scarce", colours
			p = randomProblem(seed, seats, colours, tight)
			for c := range p.stock {
				p.stock[c] += rng.below(seats/2 + 1)
			}
		}
		names = append(names, fmt.Sprintf("%s,%d,%d,%d,%d", shape, seed, seats, colours, tight))
		problems = append(problems, p)
	}
	return names, problems
}

// lemon compiles the outside solver, or skips where it cannot.
func lemon(tb testing.TB) func(problems ...problem) []string {
	tb.Helper()
	compiler, err := exec.LookPath("g++")
	if err != nil {
		judges.Missing(tb, "g++ is missing")
	}
	if _, err := os.Stat("/usr/include/lemon/network_simplex.h"); err != nil {
		judges.Missing(tb, "LEMON (Debian package liblemon-dev) is missing")
	}
	program := filepath.Join(tb.TempDir(), "lemon_peer")
	if out, err := exec.Command(compiler, "-O2", "-w", "-o", program, lemonSource).CombinedOutput(); err != nil {
		tb.Fatalf("g++: %v\n%s", err, out)
	}
	return func(problems ...problem) []string {
		var in bytes.Buffer
		for _, p := range problems {
			in.WriteString(p.text())
		}
		cmd := exec.Command(program)
		cmd.Stdin = &in
		out, err := cmd.Output()
		if err != nil {
			tb.Fatal(err)
		}
		return strings.Split(strings.TrimSpace(string(out)), "\n")
	}
}

// The costs that LEMON's network simplex finds (Debian liblemon-dev 1.3.1), on 400 random
// problems of the shapes above; the table was made by `go test ./mosaic/stock -run LEMON -update`.
func TestAssignLEMON(t *testing.T) {
	names, problems := lemonCases()
	if *update {
		var b strings.Builder
		b.WriteString("shape,seed,seats,colours,tight,cost\n")
		for i, line := range lemon(t)(problems...) {
			cost, _, _ := strings.Cut(line, " ")
			fmt.Fprintf(&b, "%s,%s\n", names[i], cost)
		}
		if err := os.WriteFile(lemonTable, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(lemonTable)
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
	infeasible := 0
	for i, row := range rows[1:] {
		if name := strings.Join(row[:5], ","); name != names[i] {
			t.Fatalf("row %d is of %s, the case is %s", i+1, name, names[i])
		}
		_, total, err := solve(t, problems[i])
		got := strconv.FormatInt(total, 10)
		if short := new(Short); errors.As(err, &short) {
			got = "infeasible"
			infeasible++
		} else if err != nil {
			t.Fatal(err)
		}
		if got != row[5] {
			t.Errorf("%s: got %s, LEMON has %s", names[i], got, row[5])
		}
	}
	if infeasible == 0 || infeasible > len(names)/4 {
		t.Errorf("%d of %d cases cannot be answered: not a fair choice", infeasible, len(names))
	}
}

// BenchmarkAssign has 100,000 seats and 12 colours, six of them with six tenths of what
// is wanted, and beside it LEMON's network simplex on the same problem (its own
// clock, without reading the problem and starting).
func BenchmarkAssign(b *testing.B) {
	p := pictureProblem(1, 100_000, 12, 6)
	var cost int64
	b.Run("ours", func(b *testing.B) {
		for b.Loop() {
			var err error
			if _, cost, err = Assign(p.cost, p.stock); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("lemon", func(b *testing.B) {
		solver := lemon(b)
		var seconds float64
		for b.Loop() {
			answer := strings.Fields(solver(p)[0])
			if answer[0] != strconv.FormatInt(cost, 10) {
				b.Fatalf("LEMON has cost %s, ours is %d", answer[0], cost)
			}
			took, err := strconv.ParseFloat(answer[1], 64)
			if err != nil {
				b.Fatal(err)
			}
			seconds += took
		}
		b.ReportMetric(seconds*1e9/float64(b.N), "ns/op")
	})
}
