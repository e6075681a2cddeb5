package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"everyseat/layouts"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/build"
	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
)

const buildAbout = `Plans the stunt and writes everything it is for. STUNT is a stunt.toml, or a
folder that holds one; without it, the folder you are in.

Into --out (by default the folder out beside the stunt file):

  report.html              the ten sentences that matter, the picture, cautions: read this first
  pictures/camera-1.png    what the film will show, a picture for each cue; rest.png is everybody resting
  pictures/cues.gif        the sequence at true speed: rest, every cue as it comes up and goes down, rest
  pictures/map-1.png .svg  the flat map, every seat
  pictures/light-1.png     the same with too much light, and with a crowd in dark clothes
  pictures/matter-1.png    which seats matter most, for each text
  sheets/                  placards by section in laying order, a strip for each row
  seats.csv, seats.xlsx    a line for each seat
  tally.xlsx               cards by row and section, spares, what to buy
  sheets/changes.pdf       only where another plan was there before: the swaps, a slip a row, and
                           what to print anew; changes.csv is the same for programs
  plan.json                the whole plan, for programs
  sha256sums.txt           what everyseat wrote: it writes over nothing else

A file appears whole or not at all, and the same stunt gives the same bytes. The summary
goes to standard output, warnings to standard error.`

const buildExample = `  everyseat build                        the stunt of this folder
  everyseat build ourfinale              another folder's, into ourfinale/out
  everyseat build --only pictures        only look at it, for a quick try
  everyseat build --cue 2 --out /tmp/two only the second cue, elsewhere`

func newBuild(v *voice) *cobra.Command {
	var o stuntFlags
	var only []string
	var since string
	cmd := onStunt(&cobra.Command{
		Use:     "build [STUNT]",
		Short:   "plan a stunt and write every output",
		Long:    buildAbout,
		Example: buildExample,
	}, &o, func(path string) error { return v.build(path, o, only, since) })
	f := cmd.Flags()
	f.StringSliceVar(&only, "only", nil,
		"`LIST` of what to write, commas between: "+strings.Join(layouts.Groups, ", "))
	f.StringVar(&since, "since", "",
		"`DIR` of the build that was printed, to say what has changed since (default: the one in --out)")
	f.IntVar(&o.cue, "cue", 0, "plan cue `N` alone, counted from 1")
	return cmd
}

// build plans the stunt at path and writes what it is for.
func (v *voice) build(path string, o stuntFlags, only []string, since string) error {
	options := layouts.Options{Only: only}
	if err := options.Check(); err != nil {
		f := err.(*seating.Fault)
		return usage(f.Hint, "--only: %s", f.What)
	}
	file, out, err := load(path, o.out)
	if err != nil {
		return err
	}
	b, err := v.brief(file, o.cue, 0)
	if err != nil {
		return err
	}
	if err := v.heed(warnings(file, b), o.strict); err != nil {
		return err
	}
	part := len(only) > 0
	before, err := layouts.Found(cmp.Or(since, out), b.Code)
	if since != "" && err != nil { // a first build has none before it
		return err
	}
	var changes *brief.Changes
	folder, err := v.fill(out, file.Inputs, func(sink layouts.Sink) (err error) {
		if before == nil || part {
			return layouts.Write(b, options, sink)
		}
		changes, err = before.Write(b, sink)
		return err
	})
	if err != nil {
		return file.Locate(err)
	}
	if !part || before != nil {
		v.leftOver(folder, out, part, before != nil)
	}
	v.seatless(file, b.Plan.Stands)
	v.summary(b, out, only)
	switch {
	case changes != nil:
		v.changes(changes, out)
	case since != "" && before == nil:
		v.say("\nnothing has changed since the build in %s", since)
	}
	return nil
}

// changes says what is not as it was printed.
func (v *voice) changes(c *brief.Changes, out string) {
	v.say("\n%s", c.Said)
	for _, sheet := range c.Anew {
		v.say("print anew: %s", sheet)
	}
	if len(c.Rows) > 0 {
		v.say("the swaps are in %s", filepath.Join(out, "sheets", "changes.pdf"))
	}
}

// leftOver names what stands in the folder and is not of this build: another plan's, or of cues and
// sections that are gone. Other: it is another plan than the one before.
func (v *voice) leftOver(folder *layouts.Folder, out string, part, other bool) {
	names := slices.DeleteFunc(folder.Stale(), func(name string) bool {
		return slices.Contains(layouts.Apart, name) || !other && slices.Contains(layouts.Since, name)
	})
	if len(names) == 0 {
		return
	}
	const most = 6
	said := strings.Join(names[:min(most, len(names))], ", ")
	if n := len(names) - most; n > 0 {
		said += fmt.Sprintf(" and %d more", n)
	}
	what, do := "is not of this build", "throw it away, and every print of it"
	if part {
		what, do = "is of a plan before", "print nothing before a whole build"
	}
	v.warn("in %s this %s: %s; %s", out, what, said, do)
}

// fill writes a set of files into the folder out: all of them appear, or none. Inputs are what it is made from.
func (v *voice) fill(out string, inputs []string, write func(layouts.Sink) error) (*layouts.Folder, error) {
	_, missing := os.Stat(out)
	folder, err := layouts.NewFolder(out)
	undo := func() {
		if folder != nil {
			folder.Drop()
		}
		if missing != nil {
			removeEmpty(out)
		}
	}
	v.whenStopped(undo)
	if err == nil {
		folder.Together(inputs...)
		err = write(watched{folder, v})
	}
	if err == nil {
		err = folder.Keep()
	}
	v.whenStopped(nil)
	if err != nil {
		undo()
		return nil, err
	}
	return folder, nil
}

// removeEmpty removes the folders that a failed build has left without a file.
func removeEmpty(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if e.IsDir() {
			removeEmpty(filepath.Join(dir, e.Name()))
		}
	}
	os.Remove(dir) // refuses where something is in it
}

// brief plans a file's stunt and tells of it; where that fails, what could not be read may be why and
// is said first.
func (v *voice) brief(file *stuntfile.File, cue int, without outlook.Part) (*brief.Brief, error) {
	if n := len(file.Stunt.Cues); cue > n {
		return nil, usage("cues count from 1", "there is no cue %d: %s has %d", cue, file.Path, n)
	}
	b, err := build.Run(context.Background(), file, build.Options{Cue: cue, Without: without, Progress: v.progress})
	if err != nil {
		v.heed(file.Warnings(), false)
	}
	return b, err
}

// warnings are those of the brief; what is wrong with a mark is said where it stands in the file.
func warnings(file *stuntfile.File, b *brief.Brief) []string {
	marks := b.Outlook.Marks
	all := slices.Clone(b.Warnings[:len(b.Warnings)-len(marks)])
	for _, c := range marks {
		at := c.Key
		if f, ok := errors.AsType[*seating.Fault](file.Locate(&seating.Fault{Key: c.Key})); ok {
			at = f.Where()
		}
		all = append(all, at+": "+c.Text)
	}
	return all
}

// summary is for people; the files are for programs.
func (v *voice) summary(b *brief.Brief, out string, only []string) {
	for i, s := range b.Sentences {
		v.say("%2d. %s: %s", i+1, s.About, s.Text)
	}
	if len(only) > 0 && !slices.Contains(only, "report") {
		// An older report may stand there: nobody is sent to it.
		v.say("\nplan %s: written into %s are its %s alone; print nothing before a whole build",
			b.Code, out, strings.Join(only, " and "))
		return
	}
	v.say("\nplan %s is in %s; open %s first", b.Code, out, filepath.Join(out, "report.html"))
}

// load reads the stunt at path and says which folder is written into: the one that --out names, or
// out beside the stunt file.
func load(path, out string) (*stuntfile.File, string, error) {
	file, err := stuntfile.Load(path)
	if err != nil {
		return nil, "", err
	}
	own := filepath.Dir(file.Path)
	if out == "" {
		out = filepath.Join(own, "out")
	}
	there, err := os.Stat(out)
	stunts, serr := os.Stat(own)
	if err == nil && serr == nil && os.SameFile(there, stunts) {
		return nil, "", usage("leave --out away to write into the folder out beside it",
			"--out is the stunt's own folder")
	}
	return file, out, nil
}

// watched is a sink that shows which file is being written.
type watched struct {
	sink layouts.Sink
	v    *voice
}

func (w watched) Put(name string, write func(io.Writer) error) error {
	w.v.progress("writing " + name)
	return w.sink.Put(name, write)
}
