package layouts

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"syscall"

	"everyseat/seating"
)

// Folder is a sink on disk. Each file is written beside its place under another name and then
// renamed, so that it appears whole or not at all; after Together, so does the whole set.
type Folder struct {
	path string
	seq  atomic.Int64
	put  sync.Map // names of the files that are whole

	mu       sync.Mutex
	together bool
	dropped  bool
	parts    []part // files that do not have their own names yet
}

// part is a file under another name.
type part struct{ now, path, name string }

// Together makes the files wait, once they are whole, until Keep gives all of them their names: a disk
// that fills in between then leaves what was there before.
func (f *Folder) Together() {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.together = true
}

// Keep gives all files that wait their names. Errors are *seating.Fault; what has no name by then is removed.
func (f *Folder) Keep() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	var failed error
	for _, p := range f.parts {
		if failed == nil {
			failed = f.name(p)
		} else {
			os.Remove(p.now)
		}
	}
	f.parts = nil
	return failed
}

// Drop removes what does not have its name yet; nothing more can be put. It may be called at any time.
func (f *Folder) Drop() {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, p := range f.parts {
		os.Remove(p.now)
	}
	f.parts, f.dropped = nil, true
}

// name gives a whole file its name.
func (f *Folder) name(p part) error {
	if err := os.Rename(p.now, p.path); err != nil {
		os.Remove(p.now)
		return diskFault(p.path, err)
	}
	f.put.Store(p.name, nil)
	return nil
}

// NewFolder makes the folder where there is none. A path that is something
// else, or that cannot be made, is a *seating.Fault.
func NewFolder(path string) (*Folder, error) {
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		return nil, &seating.Fault{File: path, What: "this is a file, not a folder", Hint: "name another folder for the output"}
	}
	if err := os.MkdirAll(path, 0o777); err != nil {
		return nil, diskFault(path, err)
	}
	return &Folder{path: path}, nil
}

// Put writes one file. Errors of the disk are *seating.Fault with the file's name.
func (f *Folder) Put(name string, write func(io.Writer) error) error {
	if err := checkName(name); err != nil {
		return err
	}
	path := filepath.Join(f.path, filepath.FromSlash(name))
	if info, err := os.Lstat(path); err == nil && info.IsDir() {
		return &seating.Fault{File: path, What: "a folder stands where this file belongs", Hint: "move it away, or name another folder for the output"}
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return diskFault(filepath.Dir(path), err)
	}
	file, err := f.create(part{path: path, name: name})
	if err != nil {
		return diskFault(path, err)
	}
	if err := fill(file, write); err != nil {
		f.done(file.Name())
		os.Remove(file.Name())
		return diskFault(path, err)
	}
	if f.waits() {
		return nil
	}
	if p, ok := f.done(file.Name()); ok {
		return f.name(p)
	}
	return errDropped
}

// errDropped ends what is written to a folder after Drop.
var errDropped = errors.New("stopped")

// waits says whether whole files keep their other names for now.
func (f *Folder) waits() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.together && !f.dropped
}

// done takes a part off the list; ok is false where it was dropped.
func (f *Folder) done(now string) (p part, ok bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	i := slices.IndexFunc(f.parts, func(p part) bool { return p.now == now })
	if i < 0 {
		return part{}, false
	}
	p = f.parts[i]
	f.parts = slices.Delete(f.parts, i, i+1)
	return p, true
}

// Others lists, by name, the files of one of the folder's own folders ("sheets", "" for itself) that were
// not put by this sink: a build before left them, or somebody's hand.
func (f *Folder) Others(dir string) []string {
	entries, err := os.ReadDir(filepath.Join(f.path, filepath.FromSlash(dir)))
	if err != nil {
		return nil // nothing there, or nothing that anybody may see
	}
	var others []string
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		if _, ours := f.put.Load(name); !ours && !e.IsDir() {
			others = append(others, name)
		}
	}
	return others
}

// create makes a new file with a short name, which fits wherever the final name does. A
// name that is taken is one that a run before left when it was stopped.
func (f *Folder) create(p part) (*os.File, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.dropped {
		return nil, errDropped
	}
	dir := filepath.Dir(p.path)
	for range maxLeftOver {
		name := filepath.Join(dir, fmt.Sprintf(".part-%d-%d", os.Getpid(), f.seq.Add(1)))
		file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil {
			p.now = name
			f.parts = append(f.parts, p)
		}
		return file, err
	}
	return nil, &fs.PathError{Op: "open", Path: dir, Err: fs.ErrExist}
}

// maxLeftOver bounds the search for a free name.
const maxLeftOver = 1000

// fill writes the file and closes it.
func fill(file *os.File, write func(io.Writer) error) error {
	out := bufio.NewWriterSize(file, 1<<16)
	err := write(out)
	if err == nil {
		err = out.Flush()
	}
	if closing := file.Close(); err == nil {
		err = closing
	}
	return err
}

// checkName refuses names that lead out of the sink.
func checkName(name string) error {
	if name == "." || !fs.ValidPath(name) {
		return &seating.Fault{What: fmt.Sprintf("%q cannot be the name of a file", name)}
	}
	return nil
}

// diskFault says in plain words what the disk refused. Other errors pass, nil too.
func diskFault(path string, err error) error {
	cause := diskCause(err)
	if cause == nil {
		return err
	}
	fault := &seating.Fault{File: path, What: "cannot be written: " + cause.Error()}
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, windowsDiskFull):
		fault.What, fault.Hint = "cannot be written: the disk is full", "make room, or name a folder on another disk"
	case errors.Is(err, syscall.EDQUOT):
		fault.What, fault.Hint = "cannot be written: your share of the disk is used up", "make room, or name a folder on another disk"
	case errors.Is(err, syscall.EROFS):
		fault.What, fault.Hint = "cannot be written: the disk is read-only", "name a folder that you may write to"
	case errors.Is(err, fs.ErrPermission):
		fault.What, fault.Hint = "cannot be written: you may not write here", "name a folder that you may write to"
	case errors.Is(err, syscall.ENOTDIR):
		fault.What, fault.Hint = "cannot be written: a part of this path is a file, not a folder", "name another folder for the output"
	case errors.Is(err, syscall.ENAMETOOLONG):
		fault.What, fault.Hint = "cannot be written: the name is too long", "name a shorter folder for the output"
	}
	return fault
}

// windowsDiskFull is ERROR_DISK_FULL; the number means nothing elsewhere.
const windowsDiskFull = syscall.Errno(112)

// diskCause is what the system said; nil where err is not the disk's.
func diskCause(err error) error {
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		return at.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		return link.Err
	}
	return nil
}
