package faces

import (
	"encoding/json"
	"os"
	"testing"
)

func TestDump(t *testing.T) {
	out := os.Getenv("DUMP")
	if out == "" {
		t.Skip()
	}
	type g struct {
		W int
		P []int
	}
	all := map[string]map[string]g{}
	one := func(s *Shape) g {
		r := g{W: s.Cols}
		for y := -roomUp; y < CapRows+roomDown; y++ {
			for x := range s.Cols {
				r.P = append(r.P, s.Coverage(x*Fine, y*Fine, (x+1)*Fine, (y+1)*Fine)*255/FullCover)
			}
		}
		return r
	}
	const signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
	for name, p := range map[string]Pen{
		"b18": {10, 10, 56}, "b22": {13, 11, 56}, "b26": {15, 12, 56},
	} {
		all[name] = map[string]g{}
		for _, r := range signs {
			all[name][string(r)] = one(Block(r, p))
		}
	}
	all["bold"] = map[string]g{}
	for _, r := range signs {
		all["bold"][string(r)] = one(Bold.Shape(r))
	}
	b, _ := json.Marshal(all)
	os.WriteFile(out, b, 0o644)
}
