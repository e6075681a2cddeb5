package mosaic

import "everyseat/seating"

// CountRow totals one row: who could hold a card and never gets one, since the seat is painted
// without or stands before shirts, counts as a person without a card.
func (p *Plan) CountRow(section, row int) seating.Totals {
	t := p.Stands.CountRow(section, row)
	r := &p.Stands.Sections[section].Rows[row]
	for s := r.First; s < r.Last; s++ {
		if p.Stands.Seats[s].Use == seating.UseCard && !p.holds(s) {
			t.Cards--
			t.Persons++
		}
	}
	return t
}

// Count totals one section as CountRow does.
func (p *Plan) Count(section int) seating.Totals {
	var t seating.Totals
	for row := range p.Stands.Sections[section].Rows {
		t = t.Plus(p.CountRow(section, row))
	}
	return t
}

// CountAll totals all the stands as CountRow does.
func (p *Plan) CountAll() seating.Totals {
	var t seating.Totals
	for section := range p.Stands.Sections {
		t = t.Plus(p.Count(section))
	}
	return t
}

// holds says whether a seat shows a card at any cue.
func (p *Plan) holds(seat int) bool {
	for i := range p.Hands {
		if p.Hands[i][seat].Card >= 0 {
			return true
		}
	}
	return false
}
