package sheets

import (
	"math"
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

// size is the same sheet in exact lengths.
func (p Paper) size() mosaic.PaperSize {
	return mosaic.PaperSize{Name: p.Name, Width: seating.Length(math.Round(p.Width * float64(seating.Millimetre))), Height: seating.Length(math.Round(p.Height * float64(seating.Millimetre)))}
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
