package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
	"everyseat/seating/survey"
)

// newOptions are the flags of new, and the files that they name.
type newOptions struct {
	given                  func(flag string) bool
	table, title           string
	sections, rows, seats  int
	lengths                map[string]string // by flag, as they were typed
	texts, images, colours []string
	sheets, fronts         []string
	leaveOut               bool

	copies []copied
	survey *survey.Survey
}

// copied is a file that goes into the new folder under its base name.
type copied struct {
	name  string
	data  []byte
	there bool // it is in the folder already
}

func (o *newOptions) length(key, text string) error {
	_, err := seating.ParseLength(text)
	if f, ok := errors.AsType[*seating.Fault](err); ok {
		return fmt.Errorf("%s: %s", f.What, f.Hint)
	}
	o.lengths[key] = strings.TrimSpace(text)
	return err
}

// read checks the flags against each other and reads the files that they name.
func (o *newOptions) read(dir string) error {
	if o.sections < 1 || o.sections > seating.MaxSections {
		return &seating.Fault{What: fmt.Sprintf("--sections: %d sections cannot be", o.sections),
			Hint: fmt.Sprintf("write a number from 1 to %d", seating.MaxSections)}
	}
	options, err := o.surveyOptions()
	if err != nil {
		return err
	}
	if o.given("table") {
		for _, other := range []string{"sections", "rows", "seats"} {
			if o.given(other) {
				return usage("leave --"+other+" away: the table says it", "--table and --%s contradict", other)
			}
		}
		data, err := o.copy(dir, o.table)
		if err != nil {
			return err
		}
		if o.survey, err = survey.Read(o.table, data, options); err != nil {
			return err
		}
		var names []string
		for _, s := range o.survey.Sections {
			names = append(names, s.Name)
		}
		for _, said := range o.fronts {
			if name, _, one := strings.Cut(said, "="); one && !slices.Contains(names, strings.TrimSpace(name)) {
				return usage(seating.DidYouMean(name, names, "there are "),
					"--front: there is no section %q in the table", name)
			}
		}
	}
	for _, text := range o.texts {
		if strings.TrimSpace(strings.ReplaceAll(text, `\n`, "\n")) == "" {
			return usage(`write --text "WAVE", or leave --text away and write the cue in the file`,
				"--text is empty: a cue shows something")
		}
	}
	for _, name := range o.images {
		if _, err := o.copy(dir, name); err != nil {
			return err
		}
	}
	return nil
}

// surveyOptions are what --sheet and --front say of the table.
func (o *newOptions) surveyOptions() (survey.Options, error) {
	options := survey.Options{Sheets: o.sheets, LeaveOut: o.leaveOut, Fronts: map[string]survey.Front{}}
	for _, flag := range []string{"sheet", "front"} {
		if o.given(flag) && !o.given("table") {
			return options, usage("name it: --table FILE", "--%s speaks of a table", flag)
		}
	}
	for _, said := range o.fronts {
		section, end, one := strings.Cut(said, "=")
		if !one {
			section, end = "", said
		}
		i := slices.Index(survey.FrontWords[:], strings.TrimSpace(end))
		if i < 0 {
			return options, usage(`write --front "last line", or --front "WEST=last line" for one section`,
				"--front %q is neither %q nor %q", said, survey.FrontWords[0], survey.FrontWords[1])
		}
		if front := survey.FirstLine + survey.Front(i); one {
			options.Fronts[strings.TrimSpace(section)] = front
		} else {
			options.Front = front
		}
	}
	return options, nil
}

// copy reads a file that is to stand in dir. One that is there already must be the same.
func (o *newOptions) copy(dir, path string) ([]byte, error) {
	data, err := readInput(path)
	if err != nil {
		return nil, err
	}
	name := filepath.Base(path)
	there, err := os.ReadFile(filepath.Join(dir, name))
	if err == nil && !bytes.Equal(there, data) {
		return nil, fault(filepath.Join(dir, name), "another file of this name is there already", "rename one of them")
	}
	for _, c := range o.copies {
		if c.name == name && !bytes.Equal(c.data, data) {
			return nil, fault(path, "two files with this name would be copied", "rename one of them")
		}
	}
	if strings.EqualFold(name, stuntfile.Name) {
		return nil, fault(path, "this is a stunt file", "everyseat build "+path+" builds it")
	}
	o.copies = append(o.copies, copied{name, data, err == nil})
	return data, nil
}

// readInput reads a file that the command line names, up to the size that stuntfile takes.
func readInput(path string) ([]byte, error) {
	info, err := os.Stat(path)
	var data []byte
	if err == nil && info.Mode().IsRegular() && info.Size() <= stuntfile.MaxBeside {
		data, err = os.ReadFile(path)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fault(path, "there is no such file", "look how the name is spelled, capitals too")
	case err != nil:
		return nil, fault(path, "the file cannot be read: "+plainCause(err),
			"copy it into a folder of your own and name that")
	case !info.Mode().IsRegular():
		return nil, fault(path, "this is not a plain file", "name a file, not a folder or a device")
	case info.Size() > stuntfile.MaxBeside:
		return nil, fault(path, fmt.Sprintf("the file is larger than %d MiB", stuntfile.MaxBeside>>20),
			"make it smaller")
	}
	return data, nil
}

func fault(path, what, hint string) error { return &seating.Fault{File: path, What: what, Hint: hint} }

// plainCause is what the system said, without the path that stands before it anyway.
func plainCause(err error) string {
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		return at.Err.Error()
	}
	return err.Error()
}

// stunt is the fresh file with the flags filled in.
func (o *newOptions) stunt(path string) (*stuntfile.File, error) {
	template := stuntfile.Fresh()
	if o.survey != nil { // the line that would show the key
		template = regexp.MustCompile(`(?m)^# table = .*\n`).ReplaceAll(template, nil)
	}
	fresh, err := stuntfile.Parse(path, template, func(name string) ([]byte, error) {
		for _, c := range o.copies {
			if c.name == name {
				return c.data, nil
			}
		}
		return nil, fs.ErrNotExist
	})
	if err != nil {
		return nil, err
	}
	var e edits
	e.flag = "--title"
	if o.title != "" {
		e.set("title", o.title)
	}
	e.flag = ""
	if o.survey != nil {
		o.tableEdits(&e)
	} else {
		for i := range o.sections {
			name := string(rune('A' + i))
			if i >= 26 {
				name = "S" + strconv.Itoa(i+1)
			}
			pairs := stuntfile.Pairs{
				{Key: "name", Value: name}, {Key: "rows", Value: o.rows}, {Key: "seats", Value: o.seats},
			}
			e.table("section", i, 1, append(pairs, o.steps(i > 0)...))
		}
	}
	for _, key := range []string{"back", "across", "height"} {
		if text, given := o.lengths[key]; given {
			e.flag = "--" + key
			e.set("camera."+key, text)
		}
	}
	if err := o.colourEdits(&e); err != nil {
		return nil, err
	}
	e.flag = "--text"
	for i, t := range o.texts {
		e.set(fmt.Sprintf("cue[%d].text", i), strings.ReplaceAll(t, `\n`, "\n"))
	}
	e.flag = "--image"
	for i, name := range o.images {
		e.set(fmt.Sprintf("cue[%d].image", len(o.texts)+i), filepath.Base(name))
	}
	if len(o.texts) == 0 && len(o.images) > 0 {
		e.set("cue[0].text", nil)
	}
	return e.made(fresh)
}

// edits turn the fresh file into the one that the flags ask for.
type edits struct {
	flag string // that the next ones come from; "" = several
	all  []stuntfile.Edit
	from []string // by edit: its flag
}

func (e *edits) set(key string, to any) {
	e.all, e.from = append(e.all, stuntfile.Edit{Key: key, Value: to}), append(e.from, e.flag)
}

// made is the file with the edits made, flag after flag: what is wrong is one of the flag, not of a line that
// nobody has written yet.
func (e *edits) made(file *stuntfile.File) (*stuntfile.File, error) {
	for at := 0; at < len(e.all); {
		to := at + 1
		for to < len(e.all) && e.from[to] == e.from[at] {
			to++
		}
		next, err := file.Set(e.all[at:to]...)
		if f, ok := errors.AsType[*seating.Fault](err); ok {
			key, _, _ := strings.Cut(f.What, " ")
			flag := cmp.Or(e.from[at], "--"+strings.TrimSuffix(key, ":"))
			return nil, fault("", flag+": "+f.What, f.Hint)
		} else if err != nil {
			return nil, err
		}
		file, at = next, to
	}
	if err := mosaic.CheckColours(file.Stunt.Colours); err != nil {
		f, _ := errors.AsType[*seating.Fault](err)
		return nil, fault("", "--colour: "+f.What, f.Hint)
	}
	return file, nil
}

// table sets keys of table i of a list, of which the fresh file has so many; further ones are added whole.
func (e *edits) table(list string, i, fresh int, pairs stuntfile.Pairs) {
	key := fmt.Sprintf("%s[%d]", list, i)
	if i >= fresh {
		e.set(key, pairs)
		return
	}
	for _, p := range pairs {
		e.set(key+"."+p.Key, p.Value)
	}
}

// steps are the lengths that all sections share; all or only the given ones.
func (o *newOptions) steps(all bool) stuntfile.Pairs {
	var pairs stuntfile.Pairs
	for _, fresh := range []struct{ key, standard string }{
		{"pitch", "20in"}, {"rise", "9 5/8in"}, {"run", "24in"}, {"aisle", "4 ft"},
	} {
		if text, given := o.lengths[fresh.key]; given || all {
			pairs = append(pairs, stuntfile.Pair{Key: fresh.key, Value: cmp.Or(text, fresh.standard)})
		}
	}
	return pairs
}

// tableEdits leave the rows and seats to the table; the fresh section with its comments
// speaks of the table's first one.
func (o *newOptions) tableEdits(e *edits) {
	e.set("stands.table", o.copies[0].name)
	switch len(o.sheets) {
	case 0:
	case 1:
		e.set("stands.sheet", o.sheets[0])
	default:
		e.set("stands.sheet", o.sheets)
	}
	options, _ := o.surveyOptions() // read before
	if options.LeaveOut {
		e.set("stands.unread", "left out")
	}
	if options.Front != survey.FrontUnsaid {
		e.set("stands.front", survey.FrontWords[options.Front-survey.FirstLine])
	}
	if len(o.survey.Sections) > 0 {
		e.set("section[0].name", o.survey.Sections[0].Name)
	}
	for _, key := range []string{"kind", "rows", "seats", "pitch", "rise", "run", "aisle"} {
		e.set("section[0]."+key, nil)
	}
	given := o.steps(false)
	if len(given) == 0 && len(options.Fronts) == 0 {
		return
	}
	for i, sec := range o.survey.Sections {
		pairs := append(stuntfile.Pairs{{Key: "name", Value: sec.Name}}, given...)
		if front := options.Fronts[sec.Name]; front != survey.FrontUnsaid {
			pairs = append(pairs, stuntfile.Pair{Key: "front", Value: survey.FrontWords[front-survey.FirstLine]})
		}
		e.table("section", i, 1, pairs)
	}
}

// backFor is how far back the lens (65 degrees wide, as the fresh file has it)
// sees the stands with a margin of one part in twenty, in whole metres.
func backFor(s *seating.Stands, across seating.Length) string {
	halfWidth := 0.0
	for _, seat := range s.Seats {
		halfWidth = max(halfWidth, math.Abs(seat.Position[0]-across.Metres()))
	}
	const tangent = 0.63707 // of half of 65 degrees
	back := math.Ceil(1.05 * (halfWidth + 0.5) / tangent)
	return fmt.Sprintf("%.0f m", min(max(back, 6), 500))
}

func (o *newOptions) colourEdits(e *edits) error {
	const hint = `write --colour "NAVY=#14284f:600" --colour "CREAM=#fdf4dc": the ground first, then the ink; ` +
		`sheets may be left out`
	if len(o.colours) == 1 {
		return usage(hint, "one --colour alone shows nothing")
	}
	for i, c := range o.colours {
		name, rest, ok := strings.Cut(c, "=")
		hex, sheets, limited := strings.Cut(rest, ":")
		if _, err := colour.ParseHex(hex); !ok || name == "" || err != nil {
			return usage(hint, "--colour %q is not NAME=#rrggbb[:SHEETS]", c)
		}
		pairs := stuntfile.Pairs{{Key: "name", Value: name}, {Key: "hex", Value: hex}}
		if limited {
			n, err := strconv.Atoi(sheets)
			if err != nil || n < 0 {
				return usage(hint, "--colour %q: %q is not a number of sheets", c, sheets)
			}
			pairs = append(pairs, stuntfile.Pair{Key: "sheets", Value: n})
		}
		e.flag = fmt.Sprintf("--colour %q", c)
		e.table("colour", i, 2, pairs)
	}
	return nil
}
