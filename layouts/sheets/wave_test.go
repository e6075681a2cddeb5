package sheets

import (
	"encoding/csv"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"everyseat/layouts/tables"
	"everyseat/mosaic"
)

var afterUp = regexp.MustCompile(`Cue (\d) .*?(right at UP|(\d*½?) s after UP)(?:[:,] follow (?:the card at )?(your (right|left)|the row in front))?`)

// In a wave every label says when its seat goes up, to half a second, and whom to follow; the table of seats and the
// sheet are of one opinion, the neighbour who is followed goes up earlier, and the crew's papers name the wave.
func TestWavesAreSaid(t *testing.T) {
	s := hall()
	s.Cues = s.Cues[:1]
	for _, how := range []mosaic.Transition{mosaic.RightToLeft, mosaic.FromMiddle, mosaic.BottomToTop, mosaic.RowByRow} {
		s.Cues = append(s.Cues, mosaic.Cue{Text: "PIER", Transition: how, Takes: 4 * time.Second})
	}
	s.Cues[0].Transition, s.Cues[0].Takes = mosaic.LeftToRight, 4*time.Second
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	moments := momentsIn(t, p)
	labels := 0
	text := placardText(t, p)
	for seat, m := range moments {
		label, found := text[seat]
		if !found {
			t.Fatalf("seat %s has no label", seat)
		}
		labels++
		said := afterUp.FindAllStringSubmatch(label, -1)
		if len(said) != len(s.Cues) {
			t.Fatalf("seat %s: %d moments in %q", seat, len(said), label)
		}
		for _, a := range said {
			cue, _ := strconv.Atoi(a[1])
			got := 0.0
			if a[2] != "right at UP" {
				whole, half := strings.CutSuffix(a[3], "½")
				got, _ = strconv.ParseFloat("0"+whole, 64)
				if half {
					got += 0.5
				}
			}
			if want := m[cue-1]; math.Abs(got-want) > 0.3001 { // a quarter, and the table's tenths
				t.Errorf("seat %s, cue %d: the label says %g s after UP, the table %g", seat, cue, got, want)
			}
		}
	}
	if labels == 0 {
		t.Fatal("no label was read")
	}
	for name, want := range map[string]string{"runsheet.pdf": "cue 2 comes up as a wave from the RIGHT to the LEFT", "leaders.pdf": "row by row, from the front within 4 s"} {
		if !strings.Contains(saidOn(t, name, p), want) {
			t.Errorf("%s does not say %q", name, want)
		}
	}
}

// momentsIn are the seconds after UP of each seat with a card, cue by cue, as seats.csv has them.
func momentsIn(t *testing.T, p *mosaic.Plan) map[string][]float64 {
	t.Helper()
	var b strings.Builder
	if err := tables.Seats(&b, p); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]float64{}
	for _, row := range rows[1:] {
		var m []float64
		for i, head := range rows[0] {
			if strings.HasPrefix(head, "up_") && row[i] != "" {
				v, err := strconv.ParseFloat(row[i], 64)
				if err != nil {
					t.Fatal(err)
				}
				m = append(m, v)
			}
		}
		if len(m) > 0 {
			out[row[1]] = m
		}
	}
	if len(out) == 0 {
		t.Fatal(fmt.Sprint("no moments in ", rows[0]))
	}
	return out
}

// placardText is by seat what its label says.
func placardText(t *testing.T, p *mosaic.Plan) map[string]string {
	t.Helper()
	out := map[string]string{}
	dir, names := placardFiles(t, p)
	for _, name := range names {
		before := ""
		for _, line := range strings.Split(judge(t, "pdftotext", "-raw", filepath.Join(dir, name), "-"), "\n") {
			if ids := idsIn(line, sectionNames(p)); len(ids) > 0 {
				out[ids[0]], before = before, ""
				continue
			}
			before += line + " "
		}
	}
	return out
}
