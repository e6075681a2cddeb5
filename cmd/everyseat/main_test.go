package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"everyseat": main})
}

// TestScripts runs the command line as people do. Beside testscript's own commands there are
//
//	refused CODE ARG…     everyseat ARG… ends with CODE and says so in one line with a hint, nothing else
//	replace FILE OLD NEW  changes a text that stands in the file once
//	sametree A B          both folders hold the same files with the same bytes
//	picture KIND FILE     writes an image: good, truncated or vast (in its header)
//	stopped DIR ARG…      everyseat ARG…, stopped while it writes into DIR, ends with 130 and says one line
//	disk KIND DIR         makes DIR a full or a read-only disk; condition: [disks]
func TestScripts(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("SURVEYS", filepath.Join(root, "testdata", "surveys"))
			env.Setenv("DEMO", filepath.Join(root, "cmd", "everyseat", "demo"))
			return nil
		},
		Condition: func(cond string) (bool, error) {
			switch cond {
			case "disks": // a disk of our own can be mounted
				return runtime.GOOS == "linux" && os.Getuid() == 0 && mounts(t), nil
			case "sealable": // permissions hold for whoever runs the test
				return runtime.GOOS != "windows" && os.Getuid() != 0, nil
			}
			return false, fmt.Errorf("unknown condition %q", cond)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"refused":  refused,
			"replace":  replace,
			"sametree": sameTree,
			"picture":  picture,
			"stopped":  stopped,
			"disk":     disk,
		},
	})
}

func refused(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: refused CODE ARG…")
	}
	err := ts.Exec("everyseat", args[1:]...)
	code := "0"
	if exit, ok := errors.AsType[*exec.ExitError](err); ok {
		code = string(rune('0' + exit.ExitCode()))
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if code != args[0] {
		ts.Fatalf("everyseat ended with %s, want %s", code, args[0])
	}
	if out := ts.ReadFile("stdout"); out != "" {
		ts.Fatalf("standard output should be empty:\n%s", out)
	}
	lines := strings.Split(strings.TrimSuffix(ts.ReadFile("stderr"), "\n"), "\n")
	for len(lines) > 0 && strings.HasPrefix(lines[0], "everyseat: warning: ") {
		lines = lines[1:]
	}
	if len(lines) != 2 || !strings.HasPrefix(lines[0], "everyseat: ") || !strings.HasPrefix(lines[1], "  hint: ") {
		ts.Fatalf("want one line and its hint, got %q", lines)
	}
	if strings.HasSuffix(lines[0], ".") || strings.Contains(lines[0], "goroutine") {
		ts.Fatalf("not how everyseat speaks: %q", lines[0])
	}
}

func stopped(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: stopped DIR ARG…")
	}
	program := ""
	for _, dir := range filepath.SplitList(ts.Getenv("PATH")) {
		if path := filepath.Join(dir, "everyseat"); program == "" {
			if _, err := os.Stat(path); err == nil {
				program = path
			}
		}
	}
	var said strings.Builder
	cmd := exec.Command(program, args[1:]...)
	cmd.Dir, cmd.Stderr = ts.MkAbs("."), &said
	cmd.Env = append(os.Environ(), "PATH="+ts.Getenv("PATH"))
	ts.Check(cmd.Start())
	parts := func() int {
		found, _ := filepath.Glob(filepath.Join(ts.MkAbs(args[0]), "*", ".part-*"))
		return len(found)
	}
	for tries := 0; parts() == 0; tries++ {
		if tries == 6000 {
			cmd.Process.Kill()
			ts.Fatalf("nothing is written within a minute")
		}
		time.Sleep(10 * time.Millisecond)
	}
	ts.Check(cmd.Process.Signal(os.Interrupt))
	cmd.Wait()
	if code := cmd.ProcessState.ExitCode(); code != exitStopped {
		ts.Fatalf("ended with %d:\n%s", code, said.String())
	}
	lines := strings.Split(strings.TrimSpace(said.String()), "\n")
	if last := lines[len(lines)-1]; last != "everyseat: stopped" {
		ts.Fatalf("it says %q", last)
	}
}

func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: replace FILE OLD NEW")
	}
	text := ts.ReadFile(args[0])
	unescape := strings.NewReplacer(`\n`, "\n", `\q`, `"`)
	before, after := unescape.Replace(args[1]), unescape.Replace(args[2])
	if n := strings.Count(text, before); n != 1 {
		ts.Fatalf("%q stands %d times in %s, want once", before, n, args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Replace(text, before, after, 1)), 0o666))
}

func sameTree(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: sametree A B")
	}
	a, b := readTree(ts, args[0]), readTree(ts, args[1])
	diff := ""
	for name := range a {
		if !bytes.Equal(a[name], b[name]) {
			diff = name
		}
	}
	for name := range b {
		if _, ok := a[name]; !ok {
			diff = name
		}
	}
	switch {
	case len(a) == 0:
		ts.Fatalf("%s is empty", args[0])
	case neg && diff == "":
		ts.Fatalf("%s and %s are the same", args[0], args[1])
	case !neg && diff != "":
		ts.Fatalf("%s differs between %s and %s", diff, args[0], args[1])
	}
}

func readTree(ts *testscript.TestScript, dir string) map[string][]byte {
	files := map[string][]byte{}
	root := ts.MkAbs(dir)
	ts.Check(filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		name, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		files[name], err = os.ReadFile(path)
		return err
	}))
	return files
}

func picture(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: picture KIND FILE")
	}
	img := image.NewPaletted(image.Rect(0, 0, 60, 30), color.Palette{color.Black, color.White})
	for i := range 60 * 30 {
		img.Pix[i] = uint8((i/10 + i/300) % 2)
	}
	var b bytes.Buffer
	ts.Check(png.Encode(&b, img))
	data := b.Bytes()
	switch args[0] {
	case "good":
	case "truncated":
		data = data[:len(data)/2]
	case "vast":
		data = vastPNG()
	default:
		ts.Fatalf("there is no picture %q", args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), data, 0o666))
}

// TestSpeaksPlainly: whatever breaks, people see one line that asks to report it.
func TestSpeaksPlainly(t *testing.T) {
	var said bytes.Buffer
	if code := run([]string{"help"}, nil, breaks{}, &said); code != exitFault {
		t.Errorf("exit code %d, want %d", code, exitFault)
	}
	want := "everyseat: something broke inside: out of paper\n  hint: this is a fault of everyseat: please report the command and the stunt file\n"
	if said.String() != want {
		t.Errorf("said %q, want %q", said.String(), want)
	}
}

// TestFullOutput: what cannot be said is a fault, though the work is done.
func TestFullOutput(t *testing.T) {
	var said bytes.Buffer
	if code := run([]string{"help"}, nil, full{}, &said); code != exitFault {
		t.Errorf("exit code %d, want %d", code, exitFault)
	}
	if want := "everyseat: standard output cannot be written: no space left"; !strings.HasPrefix(said.String(), want) {
		t.Errorf("said %q, want %q", said.String(), want)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

type breaks struct{}

func (breaks) Write([]byte) (int, error) { panic("out of\npaper") }

// TestProgressStaysOffPipes: what is no terminal sees no progress.
func TestProgressStaysOffPipes(t *testing.T) {
	var said bytes.Buffer
	v := &voice{out: io.Discard, err: &said}
	v.progress("planning")
	v.clear()
	if said.Len() > 0 {
		t.Errorf("said %q", said.String())
	}
}

// disk stands in for a full and for a read-only one. The superuser may write into any
// folder: only a disk of its own stops it.
func disk(ts *testscript.TestScript, neg bool, args []string) {
	options := map[string]string{"full": "size=64k", "read-only": "ro"}
	if neg || len(args) != 2 || options[args[0]] == "" {
		ts.Fatalf("usage: disk full|read-only DIR")
	}
	dir := ts.MkAbs(args[1])
	ts.Check(os.MkdirAll(dir, 0o777))
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", options[args[0]], "tmpfs", dir).CombinedOutput(); err != nil {
		ts.Fatalf("%v: %s", err, out)
	}
	ts.Defer(func() { exec.Command("umount", dir).Run() })
}

// mounts says whether this machine lets us mount a disk in memory.
func mounts(t *testing.T) bool {
	dir := t.TempDir()
	if exec.Command("mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", dir).Run() != nil {
		return false
	}
	return exec.Command("umount", dir).Run() == nil
}

// vastPNG is a picture whose header promises more pixels than any memory holds.
func vastPNG() []byte {
	var b bytes.Buffer
	b.WriteString("\x89PNG\r\n\x1a\n")
	chunk := func(kind string, data []byte) {
		body := append([]byte(kind), data...)
		b.Write(binary.BigEndian.AppendUint32(nil, uint32(len(data))))
		b.Write(body)
		b.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
	}
	size := binary.BigEndian.AppendUint32(nil, 1<<30)
	size = binary.BigEndian.AppendUint32(size, 1<<30)
	chunk("IHDR", append(size, 8, 2, 0, 0, 0)) // 8 bits, colour
	chunk("IDAT", []byte{0x78, 0x9c, 3, 0, 0, 0, 0, 1})
	chunk("IEND", nil)
	return b.Bytes()
}
