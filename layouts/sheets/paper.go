package sheets

import (
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Paper is a sheet size in millimetres, upright.
type Paper struct {
	Name          string
	Width, Height float64
}

// Papers are mosaic.PaperSizes.
var Papers = func() []Paper {
	list := make([]Paper, len(mosaic.PaperSizes))
	for i, s := range mosaic.PaperSizes {
		list[i] = Paper{s.Name, millimetres(s.Width), millimetres(s.Height)}
	}
	return list
}()

// LookUpPaper finds a size by its name, large or small letters alike; "" is
// Letter. The error is a *seating.Fault.
func LookUpPaper(name string) (Paper, error) {
	if name == "" {
		return Papers[0], nil
	}
	names := make([]string, 0, len(Papers))
	for _, p := range Papers {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
		names = append(names, p.Name)
	}
	return Paper{}, &seating.Fault{
		Key:  "print.paper",
		What: "paper \"" + name + "\" is not known",
		Hint: "one of " + strings.Join(names, ", "),
	}
}
