package brief

import (
	"strings"
	"testing"
	"time"

	"everyseat/mosaic"
	"everyseat/testdata/fair"
)

// Every row with cards has one helper, rows in laying order, and no way of cutting that order into as many parts
// ends earlier: the linear partition problem by dynamic programming (S. Skiena, The Algorithm Design Manual, 2nd ed.,
// section 8.5; the recurrence from memory).
func TestHelpersShareTheRows(t *testing.T) {
	turned, uneven := fair.Stunt(), fair.Crowded()
	turned.Laying.Serpentine, turned.Laying.FromBack = true, true
	uneven.Stands.Sections[0].Seats = []int{12, 3, 1, 12, 12, 5, 12, 12, 9, 12, 2, 12}
	uneven.Stands.Sections[0].Missing = nil
	for name, stunt := range map[string]*mosaic.Stunt{"fair": fair.Stunt(), "turned": turned, "crowded": fair.Crowded(), "uneven": uneven} {
		p := fair.Plan(t, stunt)
		for helpers := 1; helpers <= 9; helpers++ {
			sections := Rows(p)
			var order []string
			var times []int
			for _, rows := range sections {
				for i := range rows {
					if rows[i].Placards > 0 {
						order = append(order, rows[i].Name)
						times = append(times, int(rowTime(p, &rows[i])/time.Second))
					}
				}
			}
			var got []string
			longest := 0
			list := shareOut(p, sections, helpers)
			for _, s := range list {
				for _, row := range s.rows {
					got = append(got, row.Name)
				}
				longest = max(longest, int(s.took/time.Second))
			}
			if strings.Join(got, " ") != strings.Join(order, " ") || len(list) > helpers {
				t.Errorf("%s, %d helpers: %d have %v, want %v", name, helpers, len(list), got, order)
			}
			if best := partition(times, helpers); longest != best {
				t.Errorf("%s, %d helpers: the longest takes %d s, %d would do", name, helpers, longest, best)
			}
		}
	}
}

func partition(times []int, parts int) int {
	const never = 1 << 40
	best := make([]int, len(times)+1) // of the first i times in so many parts
	for i := range best[1:] {
		best[i+1] = never
	}
	for range parts {
		next := make([]int, len(best))
		for i := 1; i < len(best); i++ {
			next[i] = best[i]
			for j, sum := i-1, 0; j >= 0; j-- {
				sum += times[j]
				next[i] = min(next[i], max(best[j], sum))
			}
		}
		best = next
	}
	return best[len(times)]
}
