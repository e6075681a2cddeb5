// Package stuntfile reads and patches stunt.toml; it alone knows the file's
// keys. Start with Load; File.Set changes a file without touching its comments
// and order; Fresh gives a new one that teaches.
//
// Deliberately absent: writing a whole Stunt as TOML. The text belongs to the
// people who wrote it, and is only ever patched.
package stuntfile

import (
	"everyseat/mosaic"
	"everyseat/seating"
)

// Name is what a stunt file is called in its folder.
const Name = "stunt.toml"

// Sizes that are refused unread.
const (
	MaxBytes  = 1 << 20  // 1 MiB of stunt file
	MaxBeside = 64 << 20 // 64 MiB of image or table
)

// File is a stunt file as it stands on disk, with the stunt it describes.
type File struct {
	Path   string
	Text   []byte
	Stunt  *mosaic.Stunt
	Survey *seating.Survey // what the stands table said; nil without one

	doc      *document
	sections []int // by section of the stunt: which [[section]] speaks of it, or fromTable
	open     func(name string) ([]byte, error)
}

// Parse reads text; name is for errors, open reads the files it names: slash-separated, clean, and
// never outside the folder. Every error is a *seating.Fault with file, line and column.
func Parse(name string, text []byte, open func(name string) ([]byte, error)) (*File, error) {
	d, err := parse(name, text)
	if err != nil {
		return nil, err
	}
	f := &File{Path: name, Text: text, doc: d, open: open}
	r := &reader{f: f, d: d, open: open}
	f.Stunt = r.stunt()
	if err := r.first(); err != nil {
		return nil, err
	}
	return f, nil
}

// Warnings are plain sentences about what was read but could not be used.
func (f *File) Warnings() []string {
	var all []string
	if f.Survey != nil {
		for _, u := range f.Survey.Unread {
			all = append(all, f.unread("stands", "table", u))
		}
	}
	if roster := f.Stunt.People.Roster; roster != nil {
		for _, u := range roster.Unread {
			all = append(all, f.unread("people", "roster", u))
		}
	}
	return all
}
