package layouts

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
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

	mu      sync.Mutex
	seq     int
	dropped bool
	parts   []part          // files that do not have their own names yet
	written written         // of a set: what of the folder is ours; nil = files are no set
	inputs  []string        // of a set: what it is made from
	put     map[string]bool // names of the set's files
}

// part is a file under another name, and its sum.
type part struct{ now, path, name, sum string }

// Together makes the files a set: they wait, once they are whole, until Keep gives all of them their names. A disk
// that fills in between then leaves what was there before. The set is written down in Written, and takes the place of
// nothing else than what that lists; nor of the inputs, the paths of what it is made from.
func (f *Folder) Together(inputs ...string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.written, f.put, f.inputs = readWritten(f.path), map[string]bool{}, inputs
}

// Keep gives all files of the set their names. Errors are *seating.Fault; what has no name by then is removed, and
// nothing has one where a file of somebody's own stands in the way.
func (f *Folder) Keep() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	failed := f.strangers()
	if failed == nil { // whatever happens from here on, either content is ours
		both := maps.Clone(f.written)
		for _, p := range f.parts {
			both[p.name] = append(slices.Clone(both[p.name]), p.sum)
		}
		failed = f.list(both)
	}
	for _, p := range f.parts {
		if failed == nil {
			failed = f.name(p)
		} else {
			os.Remove(p.now)
		}
		f.put[p.name] = failed == nil
		f.written[p.name] = []string{p.sum}
	}
	f.parts = nil
	if failed != nil {
		return failed
	}
	maps.DeleteFunc(f.written, func(name string, _ []string) bool {
		_, err := os.Lstat(filepath.Join(f.path, filepath.FromSlash(name)))
		return err != nil
	})
	return f.list(f.written)
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
	sum := sha256.New()
	if err == nil {
		err = fill(file, sum, write)
	}
	return diskFault(p.path, f.done(file, hex.EncodeToString(sum.Sum(nil)), err))
}

// done gives a part that is whole its name, unless it has to wait, and removes one whose writing failed.
func (f *Folder) done(file *os.File, sum string, failed error) error {
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
	} else if f.written != nil {
		f.parts[i].sum = sum
		return nil
	} else {
		failed = f.name(f.parts[i])
	}
	if i >= 0 {
		f.parts = slices.Delete(f.parts, i, i+1)
	}
	return failed
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

// fill writes the file, sums it up and closes it.
func fill(file *os.File, sum io.Writer, write func(io.Writer) error) error {
	out := bufio.NewWriterSize(io.MultiWriter(file, sum), 1<<16)
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
		return &seating.Fault{What: fmt.Sprintf("%q cannot be the name of a file", name), Hint: "give it another name"}
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
	{fs.ErrNotExist, "there is no such folder", "name a folder that is there, or one to be made"},
	{syscall.ENOTDIR, "a part of this path is a file, not a folder", elsewhere},
	{syscall.ENAMETOOLONG, "the name is too long", "name a shorter folder for the output"},
}

// windowsDiskFull is ERROR_DISK_FULL; the number means nothing elsewhere.
const windowsDiskFull = syscall.Errno(112)

// diskFault says in plain words what the disk refused. Other errors pass, nil too.
func diskFault(path string, err error) error {
	fault := &seating.Fault{File: path, Hint: "name another folder"}
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
