package layouts

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
)

// Memory is a sink that keeps the files as bytes.
type Memory struct {
	mu    sync.Mutex
	files map[string][]byte
}

// NewMemory is an empty one.
func NewMemory() *Memory { return &Memory{files: map[string][]byte{}} }

// Put keeps one file; a second one of the same name takes its place.
func (m *Memory) Put(name string, write func(io.Writer) error) error {
	if err := checkName(name); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.files[name] = b.Bytes()
	return nil
}

// Names lists the files in alphabetical order.
func (m *Memory) Names() []string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.Sorted(maps.Keys(m.files))
}

// File is one file; nil where there is none.
func (m *Memory) File(name string) []byte {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.files[name]
}

// Zip is a sink that puts the files into one archive at Close, in alphabetical order and without dates, so that the
// archive's bytes depend on the files alone.
type Zip struct {
	*Memory
	out io.Writer
}

// NewZip packs into out; nothing is written before Close.
func NewZip(out io.Writer) *Zip { return &Zip{NewMemory(), out} }

// Close writes the archive.
func (z *Zip) Close() error {
	w := zip.NewWriter(z.out)
	for _, name := range z.Names() {
		header := zip.FileHeader{Name: name, Method: zip.Deflate}
		if slices.Contains([]string{".png", ".gif", ".xlsx"}, strings.ToLower(path.Ext(name))) {
			header.Method = zip.Store // packing again would gain nothing
		}
		f, err := w.CreateHeader(&header)
		if err != nil {
			return err
		}
		if _, err := f.Write(z.File(name)); err != nil {
			return err
		}
	}
	return w.Close()
}
