package mosaic

import (
	"fmt"
	"sync"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// rowSight is what there is to say about rows that the camera does not see. It
// takes looks at the scene, so it is worked out once, when somebody asks.
type rowSight struct {
	once   sync.Once
	hidden []string // sentences: which rows are hidden, and what would show them
	vanish []string // rows that show now and would not with the card one step lower
}

func (p *Plan) rowSight() *rowSight {
	r := p.rows
	if r == nil {
		r = new(rowSight)
	}
	r.once.Do(func() {
		r.hidden = camera.HiddenReport(p.Scene, p.Marks[0].View, p.Marks[0].Sight)
		for i := range r.hidden {
			r.hidden[i] = sentence(r.hidden[i])
		}
		r.vanish = p.vanishLower()
	})
	return r
}

// halfSeen is the mean seen share under which a row counts as vanished.
const halfSeen = 0.5

func (p *Plan) vanishLower() []string {
	if p.Scene.Card.Held <= camera.Chest {
		return nil
	}
	lower := *p.Scene
	lower.Card.Held--
	before, after := p.Marks[0].Sight, lower.See(p.Marks[0].View)
	var out []string
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		var names []string
		for r := range sec.Rows {
			if p.rowSeen(&sec.Rows[r], before) >= halfSeen && p.rowSeen(&sec.Rows[r], after) < halfSeen {
				names = append(names, sec.Rows[r].Name)
			}
		}
		if len(names) > 0 {
			out = append(out, fmt.Sprintf("section %s, %s", sec.Name, rowList(names)))
		}
	}
	return out
}

// rowSeen is the mean seen share of a row's cards, 0 without cards.
func (p *Plan) rowSeen(row *seating.Row, sight *camera.Sight) float64 {
	var sum float64
	n := 0
	for s := row.First; s < row.Last; s++ {
		if p.Stands.Seats[s].Use == seating.UseCard {
			sum += float64(sight.Seen[s])
			n++
		}
	}
	return sum / float64(max(n, 1))
}

func rowList(names []string) string {
	const most = 4
	switch n := len(names); {
	case n == 1:
		return "row " + names[0]
	case n > most:
		return fmt.Sprintf("%d rows from %s to %s", n, names[0], names[n-1])
	}
	out := "rows "
	for i, name := range names {
		switch {
		case i == 0:
		case i == len(names)-1:
			out += " and "
		default:
			out += ", "
		}
		out += name
	}
	return out
}
