package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"everyseat/layouts/tables"
	"everyseat/mosaic"
	"everyseat/seating"
)

// checkPrinted refuses to work on a stunt that has changed since its plan was printed: path is the
// plan.json of the build whose paper is in people's hands.
func checkPrinted(path string, now *mosaic.Plan) error {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return &seating.Fault{File: path, What: "there is no printed plan", Hint: "everyseat build writes it; --plan FILE names another one"}
	}
	if err != nil {
		return &seating.Fault{File: path, What: "the plan cannot be read: " + plainCause(err), Hint: "--plan FILE names another one"}
	}
	defer file.Close()
	printed, err := tables.ReadPlan(file)
	if err != nil {
		if f, ok := errors.AsType[*seating.Fault](err); ok {
			return &seating.Fault{File: path, What: f.What, Hint: f.Hint}
		}
		return err
	}
	if printed.Code != now.Code {
		return &seating.Fault{File: path, What: fmt.Sprintf("this is plan %s, and the stunt as it is now makes plan %s", printed.Code, now.Code),
			Hint: "put the stunt file back as it was, or build and print anew"}
	}
	return nil
}
