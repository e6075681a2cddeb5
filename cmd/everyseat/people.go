package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"everyseat/layouts"
	"everyseat/mosaic"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
	"everyseat/seating/people"
)

const peopleAbout = `Seats a roster on the plan that was printed. STUNT is a stunt.toml, or a folder that
holds one; without it, the folder you are in.

The roster is a table (CSV or XLSX) with a line that names its columns:

  person, group, needs, may not be filmed     a line for each person, by name or code
  group, count                                or a line for each group, which is enough to begin with

needs is wheelchair or companion; room, door, time and leader may stand there too. Without
--roster, the groups or the roster that the stunt file names are seated.

Into --out (by default the folder out beside the stunt file):

  people.csv               person, group, seat_id, block: it may hold names, keep it on this machine

Groups sit together, in the order of the roster. Wheelchair and companion places go to those who
need them. Whoever may not be filmed sits where no camera sees them, or watches from beside it.
Where seats stay free, they are those that matter least for the picture.

It refuses when the stunt has changed since the plan was printed: sheets carry the plan's code.`

const peopleExample = `  everyseat people --roster classes.csv          this folder's stunt, a roster of groups and counts
  everyseat people ourfinale --roster who.xlsx   another folder's, a roster of people
  everyseat people                               the groups that stunt.toml names`

// peopleOptions are the flags of people.
type peopleOptions struct {
	out, plan, roster string
	strict            bool
}

func newPeople(v *voice) *cobra.Command {
	var o peopleOptions
	cmd := &cobra.Command{
		Use:     "people [STUNT]",
		Short:   "seat a roster on the printed plan",
		Long:    peopleAbout,
		Example: peopleExample,
		Args:    atMost(1, "one STUNT"),
		RunE:    func(_ *cobra.Command, args []string) error { return v.people(stuntOf(args), o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.roster, "roster", "", "`FILE` of people or groups (default: what the stunt file names)")
	f.StringVar(&o.plan, "plan", "", "`FILE` of the printed plan (default: out/plan.json beside the stunt file)")
	f.StringVar(&o.out, "out", "", "`DIR` to write into (default: out beside the stunt file)")
	f.BoolVar(&o.strict, "strict", false, "warnings count as faults: write nothing, exit 1")
	return cmd
}

// people seats the roster of the stunt at path, or the one that the flags name.
func (v *voice) people(path string, o peopleOptions) error {
	file, out, err := load(path, o.out)
	if err != nil {
		return err
	}
	if o.plan == "" {
		o.plan = beside(file, "out", "plan.json")
	}
	v.progress("planning …")
	plan, seated, warnings, err := o.seat(file)
	if err != nil {
		return err
	}
	if err := checkPrinted(o.plan, plan); err != nil {
		return err
	}
	for _, w := range warnings {
		v.warn("%s", w)
	}
	if o.strict && len(warnings) > 0 {
		return errStrict
	}
	if _, err := v.fill(out, func(sink layouts.Sink) error { return layouts.WritePeople(plan, seated, sink) }); err != nil {
		return err
	}
	v.seated(seated, plan)
	v.say("\nwho sits where is in %s: keep it on this machine", filepath.Join(out, "people.csv"))
	if o.roster != "" && plan.People == nil {
		v.say("to print the calldown for them, have %s beside the stunt file, write roster = %q under [people] and build again", filepath.Base(o.roster), filepath.Base(o.roster))
	}
	return nil
}

// seat plans the stunt and seats its groups, or those of the roster that the flag names.
func (o *peopleOptions) seat(file *stuntfile.File) (*mosaic.Plan, *people.Seated, []string, error) {
	if o.roster == "" {
		plan, err := makePlan(file, 0)
		if err != nil {
			return nil, nil, nil, err
		}
		if plan.People == nil {
			return nil, nil, nil, usage("write --roster FILE, or [[group]] tables into "+file.Path, "whom to seat is not said")
		}
		var warnings []string
		if r := plan.Stunt.People.Roster; r != nil {
			warnings = append(file.Warnings(), named(plan.Stunt.People.RosterName, r.Notes)...)
		}
		return plan, plan.People, append(warnings, plan.PeopleWarnings(plan.People)...), nil
	}
	data, err := readInput(o.roster)
	if err != nil {
		return nil, nil, nil, err
	}
	roster, err := people.Read(o.roster, data)
	if err != nil {
		return nil, nil, nil, err
	}
	parties := file.Stunt.People.Groups
	file.Stunt.People = mosaic.People{} // the flag's roster takes the place of the file's
	plan, err := makePlan(file, 0)
	if err != nil {
		return nil, nil, nil, err
	}
	warnings := named(o.roster, roster.Notes)
	for _, u := range roster.Unread {
		warnings = append(warnings, fmt.Sprintf("%s: cell %s, %q: %s", o.roster, u.Cell, u.Text, u.Why))
	}
	seated, err := plan.Seat(roster)
	if f, ok := err.(*seating.Fault); ok {
		return nil, nil, nil, &seating.Fault{File: o.roster, What: f.What, Hint: f.Hint}
	}
	if missing := notIn(parties, roster); len(missing) > 0 {
		warnings = append(warnings, fmt.Sprintf("%s: groups of the stunt file are not in it: %s", o.roster, strings.Join(missing, ", ")))
	}
	return plan, seated, append(warnings, plan.PeopleWarnings(seated)...), nil
}

func named(name string, notes []string) []string {
	out := make([]string, len(notes))
	for i, n := range notes {
		out[i] = name + ": " + n
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
func (v *voice) seated(s *people.Seated, p *mosaic.Plan) {
	r := s.Roster
	all := p.Stands.CountAll().People()
	v.say("%s in %s on plan %s; %s of %d stay free", headcount(len(r.People)), count(len(r.Groups), "group"), p.Code, count(all-len(r.People)+s.Aside(), "seat"), all)
	parted := 0
	for _, n := range s.Parts {
		if n > 1 {
			parted++
		}
	}
	if parted == 0 {
		v.say("every group sits together in one section")
	} else {
		v.say("%s parted, since no section holds them whole", are(parted, "group"))
	}
	wheelchairs := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Wheelchair })
	companions := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Companion })
	if wheelchairs+companions > 0 {
		v.say("wheelchair places: %d, companion places: %d", wheelchairs, companions-s.Crowded)
	}
	if n := r.Count(-1, func(p *people.Person) bool { return p.Unfilmed }); n > 0 {
		v.say("not to be filmed: %d, of them %d on seats out of the camera's sight and %d beside the camera", n, n-s.Aside(), s.Aside())
	}
}

func headcount(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}

func are(n int, what string) string {
	if n == 1 {
		return "1 " + what + " is"
	}
	return fmt.Sprintf("%d %ss are", n, what)
}
