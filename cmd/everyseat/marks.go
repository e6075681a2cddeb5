package main

import (
	"errors"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"everyseat/layouts"
	"everyseat/mosaic/marks"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
)

const marksAbout = `Says where the camera can stand: how far it may stray from the tape cross with
the plan as it is, and where to put the cross if everything were planned anew. STUNT is a
stunt.toml, or a folder that holds one; without it, the folder you are in.

Into --out (by default the folder out beside the stunt file):

  pictures/marks.png       the map, from above
  marks.csv                every place with its scores, 0 to 1: those at the cross and those
                           planned anew are what a build gives, the others come from a
                           quicker look and may be a few hundredths off

The camera stands inside [room] walls, or where [room] camera = [...] allows it, such as
{ name = "gallery", left = "-4 m", right = "4 m", near = "-21 m", far = "-20 m", heights = ["4.5 m"] }.
Without these it stands on the floor before the stands. No cross is put into a lane.

The summary goes to standard output, warnings to standard error.`

const marksExample = `  everyseat marks                        at the stunt's own height, and at 1.6 m and 3 m
  everyseat marks --height 2m            at another height
  everyseat marks ourfinale --walk       the camera walks from [camera] over every [[mark]]`

func newMarks(v *voice) *cobra.Command {
	var o stuntFlags
	var heights []string
	var walk bool
	cmd := onStunt(&cobra.Command{
		Use:     "marks [STUNT]",
		Short:   "where the camera can stand: map and best mark",
		Long:    marksAbout,
		Example: marksExample,
	}, &o, func(path string) error { return v.marks(path, o, heights, walk) })
	f := cmd.Flags()
	f.IntVar(&o.cue, "cue", 0, "read cue `N` alone, counted from 1")
	f.StringArrayVar(&heights, "height", nil,
		"`L` of the lens above the floor, may be repeated; the first gets the finest map")
	f.BoolVar(&walk, "walk", false, "the camera walks over the marks in order")
	return cmd
}

// marks maps where the camera of the stunt at path can stand.
func (v *voice) marks(path string, o stuntFlags, typed []string, walk bool) error {
	heights, err := lensHeights(typed)
	if err != nil {
		return err
	}
	file, out, err := load(path, o.out)
	if err != nil {
		return err
	}
	b, err := v.brief(file, o.cue, outlook.Advice)
	if err != nil {
		return err
	}
	shown := -1
	progress := func(done, of int) {
		if percent := 100 * done / max(of, 1); percent > shown {
			shown = percent
			v.progress(fmt.Sprintf("looking from every place: %d %%", percent))
		}
	}
	walk = walk || b.Plan.Stunt.Walks
	m, err := marks.Search(b.Plan, marks.Options{Heights: heights, Walk: walk, Progress: progress})
	if err != nil {
		return file.Locate(err)
	}
	if err := v.heed(m.Warnings, o.strict); err != nil {
		return err
	}
	_, err = v.fill(out, file.Inputs, func(sink layouts.Sink) error { return layouts.WriteMarks(m, b.Code, sink) })
	if err != nil {
		return err
	}
	for _, line := range m.Sentences() {
		v.say("%s", line)
	}
	v.say("\nthe map is %s", filepath.Join(out, "pictures", "marks.png"))
	return nil
}

func lensHeights(texts []string) ([]seating.Length, error) {
	var out []seating.Length
	for _, text := range texts {
		l, err := seating.ParseLength(text)
		if f, ok := errors.AsType[*seating.Fault](err); ok {
			return nil, usage(f.Hint, "--height: %s", f.What)
		}
		if l < marks.LowestLens || l > marks.HighestLens {
			return nil, usage("measure from the floor to the lens, like 1.6 m",
				"--height: no lens is %s above the floor", text)
		}
		out = append(out, l)
	}
	return out, nil
}
