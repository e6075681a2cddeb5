package brief

import (
	"fmt"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
)

// FewWords say how a plan fares with just the people who come, and what to do with them: a sentence or more, "" where
// no seat stays free.
func FewWords(p *mosaic.Plan, f *outlook.Few) string {
	t := &teller{Plan: p}
	return strings.Join(t.sayFew(f), " ")
}

// sayFew says which seats stay free, how the texts read then, and what helps where they do not.
func (t *teller) sayFew(f *outlook.Few) []string {
	if f == nil {
		return nil
	}
	out := []string{t.sayFree(f)}
	worst := worstOf(f.Cues)
	switch {
	case worst < 0:
		return out
	case !slices.ContainsFunc(f.Free, func(s int32) bool { return t.Stands.Seats[s].Use == seating.UseCard }):
		return append(out, "None of them has a card.")
	}
	out = append(out, fmt.Sprintf("With just those empty %s.", t.weakestReads(f.Cues)))
	if f.Cues[worst].Verdict == legibility.Reads {
		return out
	}
	if len(f.Moves) > 0 {
		out = append(out, fmt.Sprintf("Better: %s; then %s.", t.moveWords(f.Moves), t.weakestReads(f.Moved)))
	}
	if f.Enough > 0 {
		what := "It needs"
		if len(t.Cues) > 1 {
			what = "All texts together need"
		}
		out = append(out, fmt.Sprintf("%s about %s with a card to read, on the seats that matter most.", what,
			say.People(f.Enough)))
	}
	if len(f.Advice) > 0 { // else what is said of everybody there holds
		out = append(out, adviceWords(f.Advice, worst, " with as many people"))
	}
	return out
}

// fewFail says that a text fares worse with just the people who come than with everybody there, or is "".
func (t *teller) fewFail() string {
	if t.o.Few == nil {
		return ""
	}
	cues := t.o.Few.Cues
	worst := worstOf(cues)
	if worst < 0 || cues[worst].Verdict == legibility.Reads || cues[worst].Verdict == t.Cues[worst].Reading.Verdict {
		return ""
	}
	if t.o.Few.People == 0 {
		return fmt.Sprintf("But with nobody on the seats kept for wheelchairs and companions %s.",
			t.weakestReads(cues))
	}
	return fmt.Sprintf("But with just the people who come %s: what to do then is said next.", t.weakestReads(cues))
}

// worstOf is the text that reads worst, the first one of like ones; −1 where there is none.
func worstOf(cues []outlook.Trimmed) int {
	worst := -1
	for i := range cues {
		if cues[i].Verdict != "" && (worst < 0 || cues[i].Score < cues[worst].Score) {
			worst = i
		}
	}
	return worst
}

// weakestReads says how the text reads, of several the one that reads worst.
func (t *teller) weakestReads(cues []outlook.Trimmed) string {
	worst := worstOf(cues)
	what := say.Quoted(t.Cues[worst].Name)
	if slices.ContainsFunc(cues[worst+1:], func(c outlook.Trimmed) bool { return c.Verdict != "" }) || worst > 0 {
		what = "the worst text, " + what + ","
	}
	return fmt.Sprintf("%s %s (%.0f of 100)", what, cues[worst].Verdict.Says(), 100*cues[worst].Score)
}

// sayFree says who comes and which seats they leave free.
func (t *teller) sayFree(f *outlook.Few) string {
	var cards, bare, kept []int32
	for _, s := range f.Free {
		switch seat := &t.Stands.Seats[s]; {
		case seat.For != "":
			kept = append(kept, s)
		case seat.Use == seating.UseCard:
			cards = append(cards, s)
		default:
			bare = append(bare, s)
		}
	}
	var parts []string
	add := func(seats []int32, what string) {
		if len(seats) > 0 {
			parts = append(parts, fmt.Sprintf("%s %s (%s)", say.Count(len(seats), "seat"), what, t.whereShort(seats)))
		}
	}
	add(cards, "with a card")
	add(bare, "without a card")
	add(kept, "kept for wheelchairs and companions, for which nobody has asked yet")
	who := fmt.Sprintf("About %s are expected", say.People(f.People))
	switch {
	case f.Grouped:
		who = fmt.Sprintf("The groups have %s", say.People(f.People))
		if n := t.People.Aside(); n > 0 {
			who += fmt.Sprintf(", %s beside the camera not counted,", say.Thousands(n))
		}
	case len(cards)+len(bare) == 0:
		return fmt.Sprintf("Nobody has asked yet for the %s kept for wheelchairs and companions (%s): they stay free "+
			"until groups or a roster say who needs them.", say.Count(len(kept), "seat"), t.whereShort(kept))
	}
	words := fmt.Sprintf("%s for %s. Leave free those that matter least: %s.", who,
		say.Count(t.CountAll().People(), "seat"), say.List(parts))
	if t.People != nil && !f.Grouped {
		words += " Whoever of a group has one of those moves to where somebody stays away."
	}
	return words
}

// whereShort says where seats are: few of them one by one, many by section and rows.
func (t *teller) whereShort(seats []int32) string {
	const few = 6
	if len(seats) <= few {
		return t.idList(seats)
	}
	var parts []string
	section := func(a, b int32) bool { return t.Stands.Seats[a].Section == t.Stands.Seats[b].Section }
	all := Stretches(slices.Sorted(slices.Values(seats)), section)
	for _, own := range all {
		where := t.rowsShort(own)
		if len(all) > 1 {
			where = say.Thousands(len(own)) + " in " + where
		}
		parts = append(parts, where)
	}
	return strings.ReplaceAll(strings.Join(parts, "; "), say.Glue, " ")
}

// moveWords say who moves where, the largest groups of them first.
func (t *teller) moveWords(moves []mosaic.Move) string {
	const most = 5
	sorted := slices.Clone(moves)
	slices.SortStableFunc(sorted, func(a, b mosaic.Move) int { return len(b.From) - len(a.From) })
	var parts []string
	left := 0
	for i, m := range sorted {
		if i >= most {
			left += len(m.From)
			continue
		}
		parts = append(parts, fmt.Sprintf("%s of %s from %s to %s", say.Thousands(len(m.From)),
			t.People.Roster.Groups[m.Group].Name, t.whereShort(m.From), t.whereShort(m.To)))
	}
	if left > 0 {
		parts = append(parts, fmt.Sprintf("and %s of other groups", say.Thousands(left)))
	}
	return "move " + strings.Join(parts, ", ")
}

// seatAs is a seat's name, with what it is kept for.
func (t *teller) seatAs(s int32) string {
	id := t.Stands.ID(int(s))
	if seat := &t.Stands.Seats[s]; KeptMark(seat) != "" {
		return id + " (" + seat.For + " place)"
	}
	return id
}

// seatOf is a seat's name, with what it is kept for and whose it is.
func (t *teller) seatOf(s int32) string {
	seat := &t.Stands.Seats[s]
	var parts []string
	if KeptMark(seat) != "" {
		parts = append(parts, seat.For+" place")
	}
	switch {
	case t.People != nil && t.People.Person[s] != people.None:
		parts = append(parts, t.People.Roster.Groups[t.People.Roster.People[t.People.Person[s]].Group].Name)
	case t.People != nil:
		parts = append(parts, "free")
	case len(parts) > 0:
		parts = append(parts, "nobody has asked for it yet")
	}
	if len(parts) == 0 {
		return t.Stands.ID(int(s))
	}
	return t.Stands.ID(int(s)) + " (" + strings.Join(parts, ", ") + ")"
}
