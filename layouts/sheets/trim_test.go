package sheets

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

var (
	trimSentence = regexp.MustCompile(`If few come[^:]*: (.*?)\.`)
	trimPart     = regexp.MustCompile(`at (\d+) % (?:seats? |also )([\d–, ]+)`)
)

// rowsSaid is rows.pdf read back, in the order of drawing.
func rowsSaid(t *testing.T, p *mosaic.Plan) string {
	t.Helper()
	var b bytes.Buffer
	if err := Rows(&b, told(p)); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "rows.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	return judge(t, "pdftotext", "-raw", path, "-")
}

// readTrim gives by row, from the words of its strip, the seat numbers that drop out at each share.
func readTrim(t *testing.T, text string) map[string]map[int][]int {
	t.Helper()
	rows := map[string]map[int][]int{}
	row := ""
	var part []string
	flush := func() {
		all := strings.Join(part, " ")
		for _, m := range trimSentence.FindAllStringSubmatch(all, -1) {
			for _, s := range trimPart.FindAllStringSubmatch(m[1], -1) {
				share, _ := strconv.Atoi(s[1])
				if rows[row] == nil {
					rows[row] = map[int][]int{}
				}
				rows[row][share] = append(rows[row][share], numbersIn(t, s[2])...)
			}
		}
		part = nil
	}
	for _, line := range strings.Split(text, "\n") {
		if m := rowTitle.FindStringSubmatch(line); m != nil {
			flush()
			row = m[1]
		}
		part = append(part, line)
	}
	flush()
	return rows
}

// numbersIn expands "1–3, 7".
func numbersIn(t *testing.T, text string) (list []int) {
	t.Helper()
	for _, part := range strings.Split(strings.TrimSpace(text), ",") {
		a, b, whole := strings.Cut(strings.TrimSpace(part), "–")
		if !whole {
			b = a
		}
		from, to := int(number(t, a)), int(number(t, b))
		step := 1
		if to < from {
			step = -1
		}
		for n := from; n != to+step; n += step {
			list = append(list, n)
		}
	}
	return list
}

// Whoever leaves empty what the strips name, share by share, leaves as many seats empty as the share asks for;
// no seat is named twice, so that what is empty at one share is empty at every smaller one; and the boxes
// under the seats say the same as the words.
func TestTrimOnStrips(t *testing.T) {
	need(t, "pdftotext")
	for _, name := range []string{"lantern", "from back", "serpentine"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			checkTrim(t, samples[name].plan(t))
		})
	}
	t.Run("hall", func(t *testing.T) { checkTrim(t, inHall(t, nil)) })
}

func checkTrim(t *testing.T, p *mosaic.Plan) {
	text := rowsSaid(t, p)
	rows := readTrim(t, text)
	all, gone := 0, map[int]int{}
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		for _, row := range sec.Rows {
			var numbers []int // that exist and hold a card
			for s := row.First; s < row.Last; s++ {
				if p.Stands.Seats[s].Use == seating.UseCard {
					all++
					numbers = append(numbers, int(p.Stands.Seats[s].Number))
				}
			}
			seen := map[int]bool{}
			for share, list := range rows[sec.Name+"-"+row.Name] {
				for _, n := range list {
					if seen[n] || !slices.Contains(numbers, n) {
						t.Errorf("row %s-%s: seat %d at %d %% is named twice or is none", sec.Name, row.Name, n, share)
					}
					seen[n] = true
					for _, s := range mosaic.TrimShares {
						if s <= share {
							gone[s]++
						}
					}
				}
			}
		}
	}
	for _, share := range mosaic.TrimShares {
		if want := all * (100 - share) / 100; gone[share] != want || want == 0 {
			t.Errorf("at %d %% the strips leave %d of %d seats empty, want %d", share, gone[share], all, want)
		}
	}
	boxes := 0
	for _, line := range strings.Split(text, "\n") {
		if m := strings.Fields(line); len(m) > 0 && !slices.ContainsFunc(m, func(w string) bool { return w != "90" && w != "80" && w != "70" }) {
			boxes += len(m)
		}
	}
	if boxes != gone[70] {
		t.Errorf("%d boxes for %d seats", boxes, gone[70])
	}
}

// The sentence names the end at which a stack is handed in when the cards are passed, and what is done
// with the cards of empty seats.
func TestTrimWhenPassing(t *testing.T) {
	need(t, "pdftotext")
	for _, pass := range []bool{false, true} {
		p := samples["lantern"].plan(t)
		p.Stunt.Laying.Pass = pass
		text := strings.Join(strings.Fields(rowsSaid(t, p)), " ")
		for _, words := range []string{"HAND IN HERE: ", "comes out of the stack before it is handed in."} {
			if strings.Contains(text, words) != pass {
				t.Errorf("passing %v: %q on the strips: %v", pass, words, !pass)
			}
		}
		for _, words := range []string{"From the LEFT end as the camera sees it", "From the RIGHT end as the camera sees it"} {
			if !strings.Contains(text, words) {
				t.Errorf("passing %v: no %q", pass, words)
			}
		}
	}
}

// The strips' heads and the run sheet say whether the message still reads after the trim, at every share, with the score that
// the plan gives it.
func TestTrimSaysWhetherItReads(t *testing.T) {
	p := inHall(t, nil)
	strips := strings.Join(strings.Fields(rowsSaid(t, p)), " ")
	day := strings.Join(strings.Fields(saidOn(t, "runsheet.pdf", p)), " ")
	told := told(p)
	said := regexp.MustCompile(`at (\d+(?: and \d+)*) (?:it|the weakest, cue (\d)[^;]*?,) (reads|is marginal|does not read) \((\d+) of 100\)`)
	for name, text := range map[string]string{"strips": strips, "run sheet": day} {
		got := map[string]string{} // by share
		for _, m := range said.FindAllStringSubmatch(text, -1) {
			for _, share := range strings.Split(m[1], " and ") {
				got[share] = m[3] + " " + m[4]
			}
		}
		for i, share := range mosaic.TrimShares {
			least := 101.0
			verdict := ""
			for cue := range p.Cues {
				if by := told.Outlook.Cues[cue].Trimmed; by != nil && by[i].Score*100 < least {
					least, verdict = by[i].Score*100, strings.Replace(string(by[i].Verdict), "marginal", "is marginal", 1)
				}
			}
			if want := fmt.Sprintf("%s %.0f", verdict, least); got[strconv.Itoa(share)] != want {
				t.Errorf("%s: %q at %d, want %q", name, got[strconv.Itoa(share)], share, want)
			}
		}
	}
	if text := rowsSaid(t, samples["lantern"].plan(t)); strings.Contains(text, "The message then") {
		t.Error("a plan without a text is said to read")
	}
}
