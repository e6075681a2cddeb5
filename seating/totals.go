package seating

// Totals counts a section, a row or all the stands.
type Totals struct {
	Places   int // as surveyed, with the missing ones
	Missing  int // places that are not there
	Cards    int // people who hold a card
	Reserved int // places that stay empty
	Persons  int // people without a card
	Capacity int // people by the 18-inch rule on benches, one a place elsewhere
}

// People is how many sit there: with and without cards.
func (t Totals) People() int { return t.Cards + t.Persons }

// Count totals one section. Seats that a plan has dropped are in Places and Capacity alone.
func (s *Stands) Count(section int) Totals {
	var t Totals
	for row := range s.Sections[section].Rows {
		t = t.Plus(s.CountRow(section, row))
	}
	return t
}

// CountRow totals one row of a section.
func (s *Stands) CountRow(section, row int) Totals {
	r := &s.Sections[section].Rows[row]
	t := Totals{Places: r.Places, Missing: r.Places - (r.Last - r.First), Capacity: r.Capacity}
	for _, seat := range s.Seats[r.First:r.Last] {
		switch seat.Use {
		case UseCard:
			t.Cards++
		case UseReserved:
			t.Reserved++
		case UsePerson:
			t.Persons++
		}
	}
	return t
}

// CountAll totals all the stands.
func (s *Stands) CountAll() Totals {
	var t Totals
	for section := range s.Sections {
		t = t.Plus(s.Count(section))
	}
	return t
}

// Plus adds the counts of two parts of the stands.
func (t Totals) Plus(o Totals) Totals {
	return Totals{t.Places + o.Places, t.Missing + o.Missing, t.Cards + o.Cards, t.Reserved + o.Reserved, t.Persons + o.Persons, t.Capacity + o.Capacity}
}
