// Package build takes a stunt file all the way: to its plan, its outlook and its brief. Start with Run.
package build

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/marks"
	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
)

// Options are what may be chosen.
type Options struct {
	Cue      int                // this one of the stunt's cues alone is planned, counted from 1; 0 = all
	Without  outlook.Part       // is not looked at; only outlook.Advice can be left out, the code needs the rest
	Progress func(doing string) // is told what is being done; may be nil
}

// Run plans the stunt of a file, foretells what may become of it and tells of both. It stops when ctx ends, with
// ctx's error; other errors are *seating.Fault with their place in the file.
func Run(ctx context.Context, file *stuntfile.File, o Options) (*brief.Brief, error) {
	progress := o.Progress
	if progress == nil {
		progress = func(string) {}
	}
	progress("planning …")
	plan, err := Plan(ctx, file, o.Cue)
	if err != nil {
		return nil, err
	}
	foretold, err := outlook.Of(ctx, plan, outlook.All&^o.Without, progress)
	if err != nil {
		return nil, err
	}
	return brief.Of(plan, foretold, file.Warnings()), nil
}

// Plan plans all cues of a file's stunt, or the one that is asked for, counted from 1. Errors are those of Run; where
// a text does not fit, or the camera stands wrong, they name what would do.
func Plan(ctx context.Context, file *stuntfile.File, cue int) (*mosaic.Plan, error) {
	stunt := *file.Stunt
	if cue > 0 {
		stunt.Cues = stunt.Cues[cue-1 : cue]
	}
	plan, err := mosaic.MakeContext(ctx, &stunt)
	if err == nil {
		return plan, nil
	}
	err = marks.Advise(&stunt, advice.Mend(ctx, &stunt, err))
	if ended := ctx.Err(); ended != nil { // what was measured until then says nothing
		return nil, ended
	}
	if f, ok := errors.AsType[*seating.Fault](err); ok && cue > 0 {
		if rest, ok := strings.CutPrefix(f.Key, "cue[0]"); ok {
			moved := *f
			moved.Key = fmt.Sprintf("cue[%d]%s", cue-1, rest)
			err = &moved
		}
	}
	return nil, file.Locate(err)
}
