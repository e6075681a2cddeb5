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
	"syscall"

	"everyseat/seating"
)

// Folder is a sink on disk. Each file is written beside its place under another name and then
// renamed, so that it appears whole or not at all; after Together, so does the whole set.
type Folder struct {
	path string
	put  sync.Map // names of the files that are whole

	mu       sync.Mutex
	seq      int
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

const elsewhere = "name another folder for the output"

// NewFolder makes the folder where there is none. A path that is something
// else, or that cannot be made, is a *seating.Fault.
func NewFolder(path string) (*Folder, error) {
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		return nil, &seating.Fault{File: path, What: "this is a file, not a folder", Hint: elsewhere}
	}
	if err := os.MkdirAll(path, 0o777); err != nil {
		return nil, diskFault(path, err)
	}
	return &Folder{path: path}, nil
}

// errDropped ends what is written to a folder after Drop.
var errDropped = errors.New("stopped")

// Put writes one file. Errors of the disk are *seating.Fault with the file's name.
func (f *Folder) Put(name string, write func(io.Writer) error) error {
	if err := checkName(name); err != nil {
		return err
	}
	p := part{path: filepath.Join(f.path, filepath.FromSlash(name)), name: name}
	if info, err := os.Lstat(p.path); err == nil && info.IsDir() {
		return &seating.Fault{
			File: p.path, What: "a folder stands where this file belongs", Hint: "move it away, or " + elsewhere,
		}
	}
	dir := filepath.Dir(p.path)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return diskFault(dir, err)
	}
	file, err := f.create(dir, p)
	if err == nil {
		err = fill(file, write)
	}
	return diskFault(p.path, f.done(file, err))
}

// done gives a part that is whole its name, unless it has to wait, and removes one whose writing failed.
func (f *Folder) done(file *os.File, failed error) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if file == nil {
		return failed
	}
	i := slices.IndexFunc(f.parts, func(p part) bool { return p.now == file.Name() })
	if failed != nil {
		os.Remove(file.Name())
	} else if i < 0 {
		return errDropped
	} else if f.together {
		return nil
	} else {
		failed = f.name(f.parts[i])
	}
	if i >= 0 {
		f.parts = slices.Delete(f.parts, i, i+1)
	}
	return failed
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

// maxLeftOver bounds the search for a free name.
const maxLeftOver = 1000

// create makes a new file with a short name, which fits wherever the final name does. A
// name that is taken is one that a run before left when it was stopped.
func (f *Folder) create(dir string, p part) (file *os.File, err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.dropped {
		return nil, errDropped
	}
	for range maxLeftOver {
		f.seq++
		p.now = filepath.Join(dir, fmt.Sprintf(".part-%d-%d", os.Getpid(), f.seq))
		file, err = os.OpenFile(p.now, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			break
		}
	}
	if err == nil {
		f.parts = append(f.parts, p)
	}
	return file, err
}

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

// refusals are what disks refuse, and how to mend it.
var refusals = []struct {
	err        error
	what, hint string
}{
	{syscall.ENOSPC, "the disk is full", "make room, or name a folder on another disk"},
	{windowsDiskFull, "the disk is full", "make room, or name a folder on another disk"},
	{syscall.EDQUOT, "your share of the disk is used up", "make room, or name a folder on another disk"},
	{syscall.EROFS, "the disk is read-only", "name a folder that you may write to"},
	{fs.ErrPermission, "you may not write here", "name a folder that you may write to"},
	{syscall.ENOTDIR, "a part of this path is a file, not a folder", elsewhere},
	{syscall.ENAMETOOLONG, "the name is too long", "name a shorter folder for the output"},
}

// windowsDiskFull is ERROR_DISK_FULL; the number means nothing elsewhere.
const windowsDiskFull = syscall.Errno(112)

// diskFault says in plain words what the disk refused. Other errors pass, nil too.
func diskFault(path string, err error) error {
	fault := &seating.Fault{File: path}
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		fault.What = at.Err.Error()
	} else if link, ok := errors.AsType[*os.LinkError](err); ok {
		fault.What = link.Err.Error()
	} else {
		return err
	}
	for _, r := range refusals {
		if errors.Is(err, r.err) {
			fault.What, fault.Hint = r.what, r.hint
			break
		}
	}
	fault.What = "cannot be written: " + fault.What
	return fault
}
