package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"everyseat/layouts"
	"everyseat/layouts/tables"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
)

const peopleAbout = `Seats a roster on the plan that was printed. STUNT is a stunt.toml, or a folder that
holds one; without it, the folder you are in.

The roster is a table (CSV or XLSX) with a line that names its columns:

  person, group, needs, may not be filmed     a line for each person, by name or code
  group, count                                or a line for each group, which is enough to begin with

needs is wheelchair or companion; room, door, time and leader may stand there too. Yes or no, a
tick or an x say who may not be filmed, or who may; ? or - say that it is not known, which keeps
them out. A column or a remark that speaks of being filmed in other words is refused, until it is
named so. Without --roster, the groups or the roster that the stunt file names are seated.

Into --out (by default the folder out beside the stunt file):

  people.csv               person, group, seat_id, block: it may hold names, keep it on this machine

Groups sit together, in the order of the roster, and are parted rather than that a letter has
nobody. Wheelchair and companion places go to those who need them, those of the message first.
Whoever may not be filmed sits where no camera sees them, or watches from beside it. Where seats
stay free, they are those that matter least: it says which, whether the message reads then, and
what to do where it does not.

It refuses when a seat shows or gets something else than the plan that was printed, and warns when
other paper has changed: sheets carry the plan's code.`

const peopleExample = "  everyseat people --roster classes.csv          " +
	`this folder's stunt, a roster of groups and counts
  everyseat people ourfinale --roster who.xlsx   another folder's, a roster of people
  everyseat people                               the groups that stunt.toml names`

func newPeople(v *voice) *cobra.Command {
	var o stuntFlags
	var plan, roster string
	cmd := onStunt(&cobra.Command{
		Use:     "people [STUNT]",
		Short:   "seat a roster on the printed plan",
		Long:    peopleAbout,
		Example: peopleExample,
	}, &o, func(path string) error { return v.people(path, o, plan, roster) })
	f := cmd.Flags()
	f.StringVar(&roster, "roster", "", "`FILE` of people or groups (default: what the stunt file names)")
	f.StringVar(&plan, "plan", "", "`FILE` of the printed plan (default: out/plan.json beside the stunt file)")
	return cmd
}

// people seats the roster of the stunt at path, or the one that the flags name.
func (v *voice) people(path string, o stuntFlags, printed, roster string) error {
	file, out, err := load(path, o.out)
	if err != nil {
		return err
	}
	printed = cmp.Or(printed, filepath.Join(filepath.Dir(file.Path), "out", "plan.json"))
	b, err := v.brief(file, 0, outlook.Advice)
	if err != nil {
		return err
	}
	plan, warnings, err := seat(file, b, roster)
	if err != nil {
		return err
	}
	differs, err := checkPrinted(printed, b)
	if err != nil {
		return err
	}
	if err := v.heed(append(warnings, differs...), o.strict); err != nil {
		return err
	}
	inputs := append(file.Inputs, roster)
	_, err = v.fill(out, inputs, func(sink layouts.Sink) error { return layouts.WritePeople(plan, plan.People, sink) })
	if err != nil {
		return err
	}
	v.seated(plan.People, b)
	few := b.Outlook.Few
	if roster != "" {
		few = outlook.FewOf(context.Background(), plan)
	}
	v.say("\n%s", cmp.Or(brief.FewWords(plan, few), b.Sentences[0].Text))
	v.say("\nwho sits where is in %s: keep it on this machine", filepath.Join(out, "people.csv"))
	if roster != "" {
		v.say("to print the calldown for them, have %[1]s beside the stunt file, "+
			"write roster = %[1]q under [people] and build again", filepath.Base(roster))
	}
	return nil
}

// seat gives the plan with its groups on its seats, or those of the roster at path.
func seat(file *stuntfile.File, b *brief.Brief, path string) (*mosaic.Plan, []string, error) {
	plan := b.Plan
	if path == "" {
		if plan.People == nil {
			return nil, nil, usage("write --roster FILE, or [[group]] tables into "+file.Path,
				"whom to seat is not said")
		}
		var warnings []string
		if r := plan.Stunt.People.Roster; r != nil {
			warnings = append(file.Warnings(), named(plan.Stunt.People.RosterName, r.Notes)...)
		}
		return plan, append(warnings, plan.PeopleWarnings(plan.People)...), nil
	}
	data, err := readInput(path)
	if err != nil {
		return nil, nil, err
	}
	roster, err := people.Read(path, data)
	if err != nil {
		return nil, nil, err
	}
	warnings := named(path, roster.Notes)
	for _, u := range roster.Unread {
		warnings = append(warnings, u.In(path))
	}
	plan, err = plan.Seating(roster)
	if f, ok := err.(*seating.Fault); ok {
		return nil, nil, fault(path, f.What, f.Hint)
	}
	if missing := notIn(file.Stunt.People.Groups, roster); len(missing) > 0 {
		warnings = append(warnings,
			fmt.Sprintf("%s: groups of the stunt file are not in it: %s", path, strings.Join(missing, ", ")))
	}
	return plan, append(warnings, plan.PeopleWarnings(plan.People)...), nil
}

func named(name string, notes []string) (out []string) {
	for _, n := range notes {
		out = append(out, name+": "+n)
	}
	return out
}

// notIn are the names of the parties that a roster does not have.
func notIn(parties []people.Party, roster *people.Roster) []string {
	has := map[string]bool{}
	for i := range roster.Groups {
		has[strings.ToLower(roster.Groups[i].Name)] = true
	}
	var out []string
	for _, p := range parties {
		if !has[strings.ToLower(p.Name)] {
			out = append(out, p.Name)
		}
	}
	return out
}

// seated sums up who sits where, for people.
func (v *voice) seated(s *people.Seated, b *brief.Brief) {
	r := s.Roster
	all := b.Plan.Stands.CountAll().People()
	v.say("%s in %s on plan %s; %s of %d stay free", say.People(len(r.People)), say.Count(len(r.Groups), "group"),
		b.Code, say.Count(all-len(r.People)+s.Aside(), "seat"), all)
	parted := 0
	for _, n := range s.Parts {
		if n > 1 {
			parted++
		}
	}
	if parted == 0 {
		v.say("every group sits together in one section")
	} else {
		v.say("%s %s parted: no section holds them whole, or the message needs people where they would be missing",
			say.Count(parted, "group"), say.Are(parted))
	}
	wheelchairs := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Wheelchair })
	companions := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Companion })
	if wheelchairs+companions > 0 {
		v.say("wheelchair places: %d, companion places: %d", wheelchairs, companions-s.Crowded)
	}
	for _, u := range r.Understood {
		v.say("%s", u)
	}
	if n := r.Count(-1, func(p *people.Person) bool { return p.Unfilmed }); n > 0 {
		v.say("not to be filmed: %d, of them %d on seats out of the camera's sight and %d beside the camera",
			n, n-s.Aside(), s.Aside())
	} else {
		v.say("nobody is named who may not be filmed")
	}
}

// checkPrinted refuses to work on a stunt whose seats have changed since its plan was printed, and warns where other
// paper has: path is the plan.json of the build whose paper is in people's hands.
func checkPrinted(path string, now *brief.Brief) (warnings []string, err error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fault(path, "there is no printed plan", "everyseat build writes it; --plan FILE names another one")
	}
	if err != nil {
		return nil, fault(path, "the plan cannot be read: "+plainCause(err), "--plan FILE names another one")
	}
	defer file.Close()
	printed, err := tables.ReadPlan(file)
	if f, ok := errors.AsType[*seating.Fault](err); ok {
		return nil, fault(path, f.What, f.Hint)
	}
	if err != nil {
		return nil, err
	}
	how, lie := now.Code.Differs(printed.Code)
	what := fmt.Sprintf("this is plan %s, and the stunt as it is now makes plan %s: %s", printed.Code, now.Code, how)
	switch {
	case !lie:
		return nil, fault(path, what, "put the stunt file back as it was, or build and print anew")
	case how != "":
		return []string{path + ": " + what + "; its labels may lie, build and print the rest anew"}, nil
	}
	return nil, nil
}
