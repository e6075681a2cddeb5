package stuntfile

import (
	"everyseat/mosaic"
	"everyseat/seating/people"
)

// people reads who comes: [people] with its roster, and every [[group]].
func (r *reader) people(s scope, to *mosaic.People) {
	p, _ := s.inner("people")
	r.roster(p, to)
	p.flag("names", &to.Names)
	p.text("held_by", &to.HeldBy)
	p.some("per_minute", &to.PerMinute)
	p.close()
	for _, g := range s.each("group") {
		to.Groups = append(to.Groups, r.group(g))
	}
}

// roster reads the file that the key names.
func (r *reader) roster(s scope, to *mosaic.People) {
	var name string
	if !s.text("roster", &name) {
		return
	}
	v := s.t.byName["roster"].val
	name, data, ok := r.file(v, "roster")
	if !ok {
		return
	}
	roster, err := people.Read(name, data)
	if err != nil {
		r.faultBeside(v.at.from, r.beside(err))
		return
	}
	to.Roster, to.RosterName = roster, name
}

func (r *reader) group(s scope) people.Party {
	var g people.Party
	s.text("name", &g.Name)
	s.some("people", &g.People)
	s.count("wheelchairs", &g.Wheelchairs)
	s.count("companions", &g.Companions)
	s.count("not_filmed", &g.Unfilmed)
	s.text("leader", &g.Leader)
	s.text("room", &g.Room)
	s.text("door", &g.Door)
	r.clock(s, "time", &g.Time)
	s.close()
	return g
}
