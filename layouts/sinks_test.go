package layouts

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"

	"everyseat/seating"
	"everyseat/testdata/judges"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// inFolder lists all files under dir, the hidden ones too.
func inFolder(t *testing.T, dir string) []string {
	t.Helper()
	var names []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			name, _ := filepath.Rel(dir, path)
			names = append(names, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func TestFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "out")
	f, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, content := range []string{"first", "second"} {
		if err := f.Put("sheets/x.pdf", text(content)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(filepath.Join(dir, "sheets", "x.pdf")); err != nil || string(got) != content {
			t.Errorf("the file holds %q (%v), want %q", got, err, content)
		}
	}
	if got := inFolder(t, dir); !slices.Equal(got, []string{"sheets/x.pdf"}) {
		t.Errorf("the folder holds %v", got)
	}
}

// A file that fails half-way leaves no trace, and what stood there before stays.
func TestNothingHalfWritten(t *testing.T) {
	dir := t.TempDir()
	f, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Put("old.csv", text("old")); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken")
	half := func(w io.Writer) error {
		w.Write(bytes.Repeat([]byte("half"), 1<<16))
		return broken
	}
	for _, name := range []string{"old.csv", "new.csv"} {
		if err := f.Put(name, half); !errors.Is(err, broken) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if got := inFolder(t, dir); !slices.Equal(got, []string{"old.csv"}) {
		t.Errorf("the folder holds %v", got)
	}
	if got, _ := os.ReadFile(filepath.Join(dir, "old.csv")); string(got) != "old" {
		t.Errorf("the old file holds %q", got)
	}
}

// What a run left that was stopped half-way is no trouble.
func TestLeftOver(t *testing.T) {
	dir := t.TempDir()
	for n := range 3 {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf(".part-%d-%d", os.Getpid(), n+1)), nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	sink, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := sink.Put("a", text("x")); err != nil {
		t.Error(err)
	}
	if got := inFolder(t, dir); len(got) != 4 || got[3] != "a" {
		t.Errorf("the folder holds %v", got)
	}
}

// faultOf is the fault in err.
func faultOf(t *testing.T, err error) *seating.Fault {
	t.Helper()
	var f *seating.Fault
	if !errors.As(err, &f) {
		t.Fatalf("%v is no fault", err)
	}
	return f
}

// Files that are put together have their names all at once; what is dropped leaves nothing.
func TestFolderTogether(t *testing.T) {
	dir := t.TempDir()
	put := func(f *Folder, name, text string) error {
		return f.Put(name, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
	}
	open := func() *Folder {
		f, err := NewFolder(dir)
		if err != nil {
			t.Fatal(err)
		}
		f.Together()
		return f
	}
	f := open()
	if err := errors.Join(put(f, "a.csv", "old"), put(f, "sheets/b.pdf", "old")); err != nil {
		t.Fatal(err)
	}
	if got := inFolder(t, dir); slices.Contains(got, "a.csv") || len(got) != 2 {
		t.Errorf("before they are kept: %v", got)
	}
	if err := f.Keep(); err != nil {
		t.Fatal(err)
	}
	if got := inFolder(t, dir); !slices.Equal(got, []string{"a.csv", "sha256sums.txt", "sheets/b.pdf"}) {
		t.Errorf("kept: %v", got)
	}
	f = open()
	if err := put(f, "a.csv", "new"); err != nil {
		t.Fatal(err)
	}
	if err := f.Put("c.csv", func(w io.Writer) error { f.Drop(); return nil }); err != nil {
		if got := err.Error(); got != "stopped" {
			t.Error(got)
		}
	} else {
		t.Error("a file was put after all were dropped")
	}
	if err := put(f, "d.csv", "new"); err == nil {
		t.Error("a file was begun after all were dropped")
	}
	if got := inFolder(t, dir); !slices.Equal(got, []string{"a.csv", "sha256sums.txt", "sheets/b.pdf"}) {
		t.Errorf("dropped: %v", got)
	}
	if text, err := os.ReadFile(filepath.Join(dir, "a.csv")); err != nil || string(text) != "old" {
		t.Errorf("a.csv is %q, %v", text, err)
	}
}

// A set takes the place of what everyseat wrote, as it wrote it, and of nothing else. The list of it is what sha256sum
// checks (GNU coreutils).
func TestNeverOverAStrangersFile(t *testing.T) {
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	keep := func(files map[string]string, inputs ...string) (*Folder, error) {
		f, err := NewFolder(dir)
		if err != nil {
			t.Fatal(err)
		}
		f.Together(inputs...)
		for name, content := range files {
			if err := f.Put(name, text(content)); err != nil {
				t.Fatal(err)
			}
		}
		return f, f.Keep()
	}
	has := func(name, want string) {
		t.Helper()
		if got, err := os.ReadFile(path(name)); err != nil || string(got) != want {
			t.Errorf("%s holds %q (%v), want %q", name, got, err, want)
		}
	}
	write := func(name, content string) {
		if err := os.WriteFile(path(name), []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	refused := func(err error, want string) {
		t.Helper()
		f, ok := err.(*seating.Fault)
		if !ok || !strings.Contains(f.What, want) || f.Hint == "" {
			t.Errorf("got %v, want %q", err, want)
		}
		for _, name := range inFolder(t, dir) {
			if strings.Contains(name, ".part") {
				t.Errorf("%s is left", name)
			}
		}
	}

	write("seats.csv", "my own")
	_, err := keep(map[string]string{"seats.csv": "ours", "plan.json": "{}"})
	refused(err, "did not write")
	has("seats.csv", "my own")
	if _, err := os.Stat(path("plan.json")); err == nil {
		t.Error("a part of the set appeared")
	}
	write("seats.csv", "ours") // by chance the same: nothing is lost
	if _, err := keep(map[string]string{"seats.csv": "ours", "plan.json": "{}", "old.pdf": "old"}); err != nil {
		t.Fatal(err)
	}
	check := exec.Command("sha256sum", "--check", "--strict", Written)
	check.Dir = dir
	out, err := check.CombinedOutput()
	if missing := errors.Is(err, exec.ErrNotFound); missing {
		defer judges.Missing(t, "sha256sum is not installed") // the rest needs none
	} else if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	f, err := keep(map[string]string{"seats.csv": "newer", "plan.json": "{}"})
	if err != nil || !slices.Equal(f.Stale(), []string{"old.pdf"}) {
		t.Errorf("%v, stale: %v", err, f.Stale())
	}
	has("seats.csv", "newer")

	write("seats.csv", "newer, with a remark")
	write("old.pdf", "scribbled on")
	_, err = keep(map[string]string{"seats.csv": "newest"})
	refused(err, "somebody has changed this file")
	has("seats.csv", "newer, with a remark")
	os.Remove(path("seats.csv"))
	f, err = keep(map[string]string{"seats.csv": "newest"})
	if err != nil || !slices.Equal(f.Stale(), []string{"plan.json"}) {
		t.Errorf("%v, stale: %v", err, f.Stale())
	}

	_, err = keep(map[string]string{"seats.csv": "from itself"}, path("seats.csv"))
	refused(err, "this file is read")
	has("seats.csv", "newest")
}

func TestFolderFaults(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, err := NewFolder(file)
	if f := faultOf(t, err); f.File != file || !strings.Contains(f.What, "not a folder") || f.Hint == "" {
		t.Errorf("a file as the folder: %v", f)
	}
	_, err = NewFolder(filepath.Join(file, "out"))
	if f := faultOf(t, err); f.Hint == "" || strings.Contains(f.What, "mkdir") {
		t.Errorf("a folder under a file: %v", f)
	}
	sink, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(dir, "seats.csv"), 0o777); err != nil {
		t.Fatal(err)
	}
	if f := faultOf(t, sink.Put("seats.csv", text("x"))); !strings.Contains(f.What, "a folder stands") || f.Hint == "" {
		t.Errorf("a folder in the file's place: %v", f)
	}
	if f := faultOf(t, sink.Put("file/x.csv", text("x"))); f.Hint == "" {
		t.Errorf("a file in the folder's place: %v", f)
	}
	for _, name := range []string{"", ".", "..", "../x", "/x", "a//b", "a/../../b"} {
		if sink.Put(name, text("x")) == nil || NewMemory().Put(name, text("x")) == nil || NewZip(io.Discard).Put(name, text("x")) == nil {
			t.Errorf("the name %q was taken", name)
		}
	}
	if got := inFolder(t, dir); !slices.Equal(got, []string{"file"}) {
		t.Errorf("the folder holds %v", got)
	}
}

// A disk that is full says so: the kernel's own error, from a device that is always full.
func TestFullDisk(t *testing.T) {
	always, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		judges.Missing(t, "there is no /dev/full here")
	}
	defer always.Close()
	dir := t.TempDir()
	sink, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	err = sink.Put("plan.json", func(io.Writer) error {
		_, err := always.WriteString("x")
		return err
	})
	f := faultOf(t, err)
	if f.File != filepath.Join(dir, "plan.json") || !strings.Contains(f.What, "disk is full") || f.Hint == "" {
		t.Errorf("%v", f)
	}
	if got := inFolder(t, dir); len(got) != 0 {
		t.Errorf("the folder holds %v", got)
	}
}

// A folder where nobody may write, the kernel's own again. The administrator may write everywhere but in /sys.
func TestReadOnlyFolder(t *testing.T) {
	if runtime.GOOS == "windows" {
		judges.Missing(t, "folders have other rights here")
	}
	dir := t.TempDir()
	if os.Geteuid() == 0 {
		if dir = "/sys"; runtime.GOOS != "linux" {
			judges.Missing(t, "the administrator may write everywhere here")
		}
	} else if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	_, err := NewFolder(filepath.Join(dir, "everyseat-out"))
	if f := faultOf(t, err); f.Hint == "" || !strings.Contains(f.What, "may not write") && !strings.Contains(f.What, "read-only") {
		t.Errorf("%v", f)
	}
}

func TestDiskWords(t *testing.T) {
	for errno, want := range map[error]string{
		syscall.EROFS: "read-only", syscall.EDQUOT: "share of the disk", syscall.ENAMETOOLONG: "too long", syscall.ENOSPC: "full",
		syscall.EIO: "input/output error",
	} {
		if runtime.GOOS == "windows" && errno == syscall.EIO {
			continue
		}
		for _, err := range []error{
			&fs.PathError{Op: "open", Path: "/p/.part-1", Err: errno},
			&os.LinkError{Op: "rename", Old: "/p/.part-1", New: "/p/x", Err: errno},
		} {
			f := faultOf(t, diskFault("/p/x", fmt.Errorf("wrapped: %w", err)))
			if f.File != "/p/x" || !strings.Contains(f.What, want) || strings.Contains(f.Error(), ".part") {
				t.Errorf("%v gives %v, want %q", err, f, want)
			}
		}
	}
	other := errors.New("other")
	if diskFault("x", other) != other {
		t.Error("an error that is not the disk's was changed")
	}
}

func TestMemory(t *testing.T) {
	m := NewMemory()
	if err := errors.Join(m.Put("b", text("2")), m.Put("a", text("1")), m.Put("b", text("3"))); err != nil {
		t.Fatal(err)
	}
	if err := m.Put("c", func(w io.Writer) error { w.Write([]byte("x")); return io.ErrUnexpectedEOF }); err == nil {
		t.Error("the error was lost")
	}
	if !slices.Equal(m.Names(), []string{"a", "b"}) || string(m.File("b")) != "3" || m.File("c") != nil {
		t.Errorf("%v %q", m.Names(), m.File("b"))
	}
}

// The archive is the same in whichever order the files come, and another program opens it.
func TestZip(t *testing.T) {
	files := map[string]string{"seats.csv": strings.Repeat("A-1-1,", 5000), "pictures/map-1.png": "\x89PNG", "report.html": "", "sheets/placards-Б.pdf": "%PDF"}
	pack := func(names ...string) []byte {
		var b bytes.Buffer
		z := NewZip(&b)
		var wait sync.WaitGroup
		for _, n := range names {
			wait.Go(func() {
				if err := z.Put(n, text(files[n])); err != nil {
					t.Error(err)
				}
			})
		}
		wait.Wait()
		if err := z.Put("never", func(w io.Writer) error { w.Write([]byte("x")); return io.ErrUnexpectedEOF }); err == nil {
			t.Error("the error was lost")
		}
		if b.Len() > 0 {
			t.Error("something was written before Close")
		}
		if err := z.Close(); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	data := pack("seats.csv", "pictures/map-1.png", "report.html", "sheets/placards-Б.pdf")
	if !bytes.Equal(data, pack("sheets/placards-Б.pdf", "report.html", "seats.csv", "pictures/map-1.png")) {
		t.Error("the order of the files changes the archive")
	}
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.File) != len(files) {
		t.Errorf("%d files in the archive", len(r.File))
	}
	for _, f := range r.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(in) // checks the sum
		if err != nil || string(got) != files[f.Name] {
			t.Errorf("%s: %q (%v)", f.Name, got, err)
		}
	}
	python, err := exec.LookPath("python3")
	if err != nil {
		judges.Missing(t, "python3 is not installed")
	}
	path := filepath.Join(t.TempDir(), "x.zip")
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(python, "-m", "zipfile", "-t", path).CombinedOutput()
	if err != nil || strings.Contains(string(out), "corrupted") {
		t.Errorf("another program says: %s (%v)", out, err)
	}
}
