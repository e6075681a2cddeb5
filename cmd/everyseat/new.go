package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"everyseat/layouts"
	"everyseat/mosaic"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
	"everyseat/seating/say"
)

const newAbout = `Writes a fresh stunt.toml into DIR: every key is there, with a line of plain words.
It builds as it stands; change what is not yours and build again. The flags fill
in what you know already; each has a sensible default.

With --table your own list of rows and seats comes in: CSV or XLSX, a line a row
(section, row, seats, missing …) or the stands drawn in cells, a cell a seat. It is
copied into DIR, and what could not be read is listed cell by cell. What may mean two
things is refused; where it is asked which row is in front, --front says it, and of a
workbook --sheet names the sheet.

Lengths carry their unit: --rise "9 5/8in", --back "20 m". Left and right, and the
order of sections, are as the camera sees the stands.`

const newExample = `  everyseat new ourfinale
  everyseat new ourfinale --table stands.csv --text GO --back "18 m" --height "3 m"
  everyseat new ourfinale --sections 3 --rows 10 --seats 15 --rise 8in --run 24in \
      --colour NAVY=#14284f:600 --colour CREAM=#fdf4dc --text HELLO --text BYE`

func newNew(v *voice) *cobra.Command {
	o := newOptions{lengths: map[string]string{}}
	cmd := &cobra.Command{
		Use:     "new DIR",
		Short:   "a fresh commented stunt, from flags or a table",
		Long:    newAbout,
		Example: newExample,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("everyseat new ourfinale", "new needs a DIR to write into")
			}
			return atMostOne("DIR")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			o.given = cmd.Flags().Changed
			return v.fresh(args[0], &o)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.table, "table", "", "`FILE` with your table of rows and seats, CSV or XLSX")
	f.StringArrayVar(&o.sheets, "sheet", nil, "`NAME` of the workbook's sheet that is read; again for another")
	f.StringArrayVar(&o.fronts, "front", nil,
		"`END` of the table's lines that is the front row: \"first line\", \"last line\", or \"SECTION=last "+
			"line\" for one section")
	f.BoolVar(&o.leaveOut, "leave-out", false,
		"leave out cells of the table that cannot be read and speak of rows or seats")
	f.IntVar(&o.sections, "sections", 3, "`N` sections side by side, without --table")
	f.IntVar(&o.rows, "rows", 10, "`N` rows in each section")
	f.IntVar(&o.seats, "seats", 15, "`N` seats in each row")
	length := func(key, about string) { f.Func(key, about, func(text string) error { return o.length(key, text) }) }
	length("rise", "`LENGTH` of one row's step up (default 9 5/8in)")
	length("run", "`LENGTH` of one row's depth (default 24in)")
	length("pitch", "`LENGTH` of bench for one person (default 20in)")
	length("aisle", "`LENGTH` of the gap between sections (default 4 ft)")
	f.StringArrayVar(&o.texts, "text", nil,
		"`TEXT` that the cards spell, \\n between lines; again for another cue (default WAVE)")
	f.StringArrayVar(&o.images, "image", nil,
		"`FILE` with an image to show, copied into DIR; again for another cue")
	length("back", "`LENGTH` from the front row to the lens (default: the stands fill the frame)")
	length("height", "`LENGTH` from the floor up to the lens (default 3 m)")
	length("across", "`LENGTH` from the middle to the lens, to the camera's right (default 0 m)")
	f.StringArrayVar(&o.colours, "colour", nil,
		"`NAME=#rrggbb[:SHEETS]`, the ground first, then the ink; again for each")
	f.StringVar(&o.title, "title", "", "`TEXT` that names the stunt on paper")
	return cmd
}

func (v *voice) fresh(dir string, o *newOptions) error {
	path := filepath.Join(dir, stuntfile.Name)
	if _, err := os.Lstat(path); err == nil {
		return fault(path, "this file is there already", "change it, or name another folder")
	}
	if err := o.read(dir); err != nil {
		return err
	}
	file, err := o.stunt(path)
	if err != nil {
		return err
	}
	stands, err := seating.Build(file.Stunt.Stands)
	if err != nil {
		v.unread(o, file) // what was not read may be why
		return o.flagFault(err)
	}
	if !o.given("back") {
		back := stuntfile.Edit{Key: "camera.back", Value: backFor(stands, file.Stunt.Camera.Across)}
		if file, err = file.Set(back); err != nil {
			return err
		}
	}
	if err := o.checkImages(file.Stunt); err != nil {
		return err
	}
	if err := o.write(dir, file); err != nil {
		return err
	}
	v.unread(o, file)
	v.heed(stands.Warnings, false)
	v.seatless(file, stands)
	v.counted(stands)
	v.say("wrote %s: read it, change what is not yours, then type: everyseat build %s", path, dir)
	return nil
}

// checkImages opens the images as build will, so that no stunt is written that cannot show them.
func (o *newOptions) checkImages(stunt *mosaic.Stunt) error {
	if len(o.images) == 0 {
		return nil
	}
	_, err := mosaic.Make(stunt)
	f, ok := errors.AsType[*seating.Fault](err)
	if !ok || !strings.HasSuffix(f.Key, ".image") {
		return nil // what else is wrong is mended in the file
	}
	return fault(strings.Join(o.images, ", "), f.What, f.Hint)
}

// write puts the copied files and then the stunt file into the folder.
func (o *newOptions) write(dir string, file *stuntfile.File) error {
	folder, err := layouts.NewFolder(dir)
	if err != nil {
		return err
	}
	for _, c := range o.copies {
		if !c.there {
			if err := folder.Put(c.name, put(c.data)); err != nil {
				return err
			}
		}
	}
	return folder.Put(stuntfile.Name, put(file.Text))
}

// unread lists what of the table could not be used, and what was taken for granted.
func (v *voice) unread(o *newOptions, file *stuntfile.File) {
	if o.survey == nil {
		return
	}
	v.heed(append(file.Warnings(), named(o.table, o.survey.Notes)...), false)
}

// seatless says first which rows of the table have no seats that could be read, and none from elsewhere.
func (v *voice) seatless(file *stuntfile.File, s *seating.Stands) {
	if file.Survey == nil {
		return
	}
	empty := slices.DeleteFunc(slices.Clone(file.Survey.Empty), func(id string) bool {
		section, row, _ := strings.Cut(id, "-")
		i, err := s.SectionNamed(section)
		if err != nil {
			return false
		}
		at, _, err := s.RowsIn(i, seating.RowRange{From: row, To: row})
		return err == nil && s.Sections[i].Rows[at].First < s.Sections[i].Rows[at].Last
	})
	if len(empty) == 0 {
		return
	}
	have := "have"
	if len(empty) == 1 {
		have = "has"
	}
	v.say("%s %s no seats: %s", say.Count(len(empty), "row"), have, say.FirstFew(empty))
}

// counted says what was counted, for comparison with the crew's own count.
func (v *voice) counted(s *seating.Stands) {
	for i, sec := range s.Sections {
		t := s.Count(i)
		missing := ""
		if t.Missing > 0 {
			missing = fmt.Sprintf(" (%d missing)", t.Missing)
		}
		v.say("section %s: %s, %s%s", sec.Name, say.Count(len(sec.Rows), "row"),
			say.Count(t.Places-t.Missing, "seat"), missing)
	}
	v.say("together: %s in %s", say.Count(len(s.Seats), "seat"), say.Count(len(s.Sections), "section"))
}

// flagFault turns a fault of stands that nobody has written yet into one of the flag, or of the table.
func (o *newOptions) flagFault(err error) error {
	f, ok := errors.AsType[*seating.Fault](err)
	if !ok {
		return err
	}
	if key := f.Key[strings.LastIndex(f.Key, ".")+1:]; o.given(key) {
		return fault("", "--"+key+": "+f.What, f.Hint)
	}
	return fault(o.table, f.What, f.Hint)
}
