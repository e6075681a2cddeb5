// Package stuntfile reads and patches stunt.toml; it alone knows the file's
// keys. Start with Load; File.Set changes a file without touching its comments
// and order; Fresh gives a new one that teaches.
//
// Deliberately absent: writing a whole Stunt as TOML. The text belongs to the
// people who wrote it, and is only ever patched.
package stuntfile

import (
	_ "embed" // the fresh file
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/survey"
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
	Survey *survey.Survey // what the stands table said; nil without one
	Inputs []string       // paths of all files that Load read, Path first

	doc      *document
	ordered  string // what must be known of the order of sections, or ""
	sections []int  // by section of the stunt: which [[section]] speaks of it, or fromTable
	open     func(name string) ([]byte, error)
}

//go:embed fresh.toml
var freshText []byte

// Fresh is a new stunt file whose comments teach; it builds as it stands.
func Fresh() []byte { return slices.Clone(freshText) }

// Load reads path (a file, or a folder that holds stunt.toml) and the files it
// names beside it. Every error is a *seating.Fault with file and line.
func Load(path string) (*File, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		path = filepath.Join(path, Name)
	}
	switch strings.ToLower(filepath.Ext(path)) {
	case ".csv", ".tsv", ".xlsx", ".ods", ".txt":
		return nil, &seating.Fault{File: path, What: "this is a table, and a stunt file is wanted: " + Name,
			Hint: fmt.Sprintf("everyseat new DIR --table %s writes one; then build DIR", path)}
	}
	dir, base := filepath.Split(path)
	if dir == "" {
		dir = "."
	}
	text, err := readFile(os.DirFS(dir), base, MaxBytes)
	if err != nil {
		f := &seating.Fault{File: path}
		f.What, f.Hint = words(plainError(err))
		if errors.Is(err, fs.ErrNotExist) {
			f.Hint = "everyseat new DIR writes a fresh stunt.toml, everyseat demo DIR a complete example"
		}
		return nil, f
	}
	inputs := []string{path}
	file, err := Parse(path, text, func(name string) ([]byte, error) {
		inputs = append(inputs, filepath.Join(dir, filepath.FromSlash(name)))
		folder, err := os.OpenRoot(dir) // which refuses links that lead out of it
		if err != nil {
			return nil, plainError(err)
		}
		defer folder.Close()
		data, err := readFile(folder.FS(), name, MaxBeside)
		return data, plainError(err)
	})
	if err != nil {
		return nil, err
	}
	file.Inputs = inputs
	return file, nil
}

// readFile reads a whole plain file of at most limit bytes.
func readFile(folder fs.FS, name string, limit int64) ([]byte, error) {
	info, err := fs.Stat(folder, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &seating.Fault{What: "this is not a plain file", Hint: "name a file, not a folder or a device"}
	}
	large := &seating.Fault{What: fmt.Sprintf("the file is larger than %d MiB", limit>>20), Hint: "make it smaller"}
	if info.Size() > limit {
		return nil, large
	}
	file, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, limit+1))
	if err == nil && int64(len(data)) > limit {
		err = large
	}
	return data, err
}

// plainError says in plain words why a file cannot be read.
func plainError(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &seating.Fault{What: "there is no such file", Hint: "look how the name is spelled, capitals too, " +
			"and put the file beside the stunt file"}
	case errors.Is(err, fs.ErrPermission):
		return &seating.Fault{What: "the file may not be read", Hint: "change its permissions, or copy it"}
	}
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		return &seating.Fault{What: "the file cannot be read: " + at.Err.Error(),
			Hint: "copy it into a folder of your own"}
	}
	return err
}

// Parse reads text; name is for errors, open reads the files it names: slash-separated, clean, and
// never outside the folder. Every error is a *seating.Fault with file, line and column.
func Parse(name string, text []byte, open func(name string) ([]byte, error)) (*File, error) {
	d, err := parse(name, text)
	if err != nil {
		return nil, err
	}
	f := &File{Path: name, Text: text, doc: d, open: open}
	r := &reader{f: f}
	f.Stunt = r.stunt()
	if err := r.first(); err != nil {
		return nil, err
	}
	return f, nil
}

// reader makes a file's stunt of its document.
type reader struct {
	f       *File
	entered []scope // every table that is read
	faults  []placed
}

// placed is a fault and where it stands. What is absent comes last: more often than not a
// misspelt key is why. Lines are counted for the one that is said, since a hostile file has many.
type placed struct {
	at         int
	absent     bool
	what, hint string
	beside     *seating.Fault // of a file beside the stunt file, instead
}

func (r *reader) faultAt(at int, what, hint string) {
	r.faults = append(r.faults, placed{at: at, what: what, hint: hint})
}

// first is the fault that stands first in the text, or nil.
func (r *reader) first() error {
	if len(r.faults) == 0 {
		return nil
	}
	best := r.faults[0]
	for _, p := range r.faults[1:] {
		if best.absent && !p.absent || best.absent == p.absent && p.at < best.at {
			best = p
		}
	}
	if best.beside != nil {
		return best.beside
	}
	return r.f.doc.fault(best.at, best.what, best.hint)
}

// Warnings are plain sentences about what was read but could not be used.
func (f *File) Warnings() []string {
	var all []string
	path := func(table, key string) string {
		return besidePath(f.Path, f.doc.root.byName[table].val.table.byName[key].val.text)
	}
	if f.Survey != nil {
		for _, u := range f.Survey.Unread {
			all = append(all, u.In(path("stands", "table")))
		}
	}
	if f.ordered != "" {
		all = append(all, f.ordered)
	}
	if roster := f.Stunt.People.Roster; roster != nil {
		for _, u := range roster.Unread {
			all = append(all, u.In(path("people", "roster")))
		}
	}
	return all
}

// besidePath is name as seen from where the stunt file's path is.
func besidePath(stunt, name string) string {
	return filepath.Join(filepath.Dir(stunt), filepath.FromSlash(name))
}
