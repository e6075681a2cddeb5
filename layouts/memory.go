package layouts

import (
	"bytes"
	"io"
	"slices"
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
	names := make([]string, 0, len(m.files))
	for name := range m.files {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// File is one file; nil where there is none.
func (m *Memory) File(name string) []byte {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.files[name]
}
