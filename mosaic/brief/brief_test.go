package brief

import (
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"everyseat/mosaic"
	"everyseat/mosaic/outlook"
	"everyseat/testdata/fair"
)

// whole lets plans and briefs be compared with all that they hold.
var whole = cmp.Exporter(func(reflect.Type) bool { return true })

// Two who read the same plan at once, to its last word, change nothing of it and are told the same as who reads it
// alone.
func TestReadingChangesNothing(t *testing.T) {
	read := func(p *mosaic.Plan) *Brief {
		o, err := outlook.Of(t.Context(), p, outlook.All, func(string) {})
		if err != nil {
			t.Error(err)
		}
		return Of(p, o, nil)
	}
	p := fair.Plan(t, fair.Crowded())
	var all [2]*Brief
	var wait sync.WaitGroup
	for i := range all {
		wait.Go(func() { all[i] = read(p) })
	}
	wait.Wait()
	fresh := fair.Plan(t, fair.Crowded())
	if d := cmp.Diff(fresh, p, whole); d != "" {
		t.Errorf("the plan was changed: %s", d)
	}
	alone := read(fresh)
	for i := range all {
		if d := cmp.Diff(alone, all[i], whole); d != "" {
			t.Errorf("reader %d of two: %s", i+1, d)
		}
	}
	o := all[0].Outlook
	Of(p, o, []string{"The roster could not be read."})
	if d := cmp.Diff(alone.Outlook, o, whole); d != "" {
		t.Errorf("telling of an outlook changed it: %s", d)
	}
}

// What could not be read comes first, then what the plan warns of, then what its marks do.
func TestWarningsAreTold(t *testing.T) {
	s := fair.Crowded()
	s.Camera.Height = 0            // warned of by the plan
	s.Camera.Lens.FieldOfView = 14 // it sees one section only
	s.Cues[1].On = []string{"B"}
	s.Cues = s.Cues[1:]
	all := tells(t, s, outlook.All&^outlook.Advice)
	got := Of(all.Plan, all.o, []string{"The roster could not be read."}).Warnings
	if len(all.Plan.Warnings) == 0 || len(all.o.Marks) == 0 {
		t.Fatalf("%q and %+v: ask for both", all.Plan.Warnings, all.o.Marks)
	}
	want := slices.Concat([]string{"The roster could not be read."}, all.Plan.Warnings)
	for _, c := range all.o.Marks {
		want = append(want, c.Text)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// Whatever is asked for, what is told of it are plain sentences.
func TestTellAnything(t *testing.T) {
	told := 0
	rapid.Check(t, func(r *rapid.T) {
		p, err := mosaic.Make(fair.Any(r))
		if err != nil {
			return
		}
		o, err := outlook.Of(t.Context(), p, ofSentences, func(string) {})
		if err != nil {
			r.Fatal(err)
		}
		told++
		for _, s := range Of(p, o, nil).Sentences {
			if strings.Contains(s.Text, "NaN") || strings.Contains(s.Text, "%!") || !strings.HasSuffix(s.Text, ".") {
				r.Errorf("%s: %q", s.About, s.Text)
			}
		}
	})
	if told < 3 { // about one of ten can be
		t.Errorf("only %d stunts could be planned", told)
	}
}
