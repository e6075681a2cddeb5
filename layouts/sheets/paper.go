package sheets

import (
	"strings"

	"everyseat/seating"
)

// Paper is a sheet size in millimetres, upright.
type Paper struct {
	Name          string
	Width, Height float64
}

// Papers are the sizes a printer is asked for: ISO 216 A3 to A5, and the
// customary inch sizes (Letter is ANSI A, Tabloid ANSI B).
var Papers = []Paper{
	{"Letter", 215.9, 279.4},
	{"Legal", 215.9, 355.6},
	{"Tabloid", 279.4, 431.8},
	{"A4", 210, 297},
	{"A3", 297, 420},
	{"A5", 148, 210},
}

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
