package stuntfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"everyseat/seating"
)

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
	return Parse(path, text, func(name string) ([]byte, error) {
		data, err := readBeside(dir, name)
		return data, plainError(err)
	})
}

// readBeside reads a file of the folder; os.Root refuses links that lead out of it.
func readBeside(dir, name string) ([]byte, error) {
	folder, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer folder.Close()
	return readFile(folder.FS(), name, MaxBeside)
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
	var pe *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &seating.Fault{What: "there is no such file", Hint: "is the name spelled right, capitals too?"}
	case errors.Is(err, fs.ErrPermission):
		return &seating.Fault{What: "the file may not be read", Hint: "change its permissions, or copy it"}
	case errors.As(err, &pe):
		return &seating.Fault{What: "the file cannot be read: " + pe.Err.Error()}
	}
	return err
}

// besidePath is name as seen from where the stunt file's path is.
func besidePath(stunt, name string) string {
	return filepath.Join(filepath.Dir(stunt), filepath.FromSlash(name))
}

// unread is a cell that was not used, of the file that a key of a table names.
func (f *File) unread(table, key string, u seating.Unread) string {
	v := f.doc.root.byName[table].val.table.byName[key].val
	return fmt.Sprintf("%s: cell %s, %s: %s", besidePath(f.Path, v.text), u.Cell, strconv.Quote(u.Text), u.Why)
}
