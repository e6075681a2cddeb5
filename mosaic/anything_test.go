package mosaic_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/testdata/fair"
)

// Whatever is asked for, there is a plan in which everything adds up, or one clear line.
func TestMakeAnything(t *testing.T) {
	made, refused := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		p, err := mosaic.Make(fair.Any(r))
		if err != nil {
			var f *seating.Fault
			if !errors.As(err, &f) || f.Key == "" || f.What == "" || strings.Contains(f.Error(), "\n") {
				r.Fatalf("no plain fault with its key: %v", err)
			}
			refused++
			return
		}
		made++
		mosaic.CheckLedger(r, p)
		mosaic.CheckStock(r, p)
	})
	t.Logf("%d made, %d refused", made, refused)
	if made < 10 {
		t.Errorf("only %d stunts could be planned", made)
	}
}
