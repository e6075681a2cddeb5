package layouts

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
	"path"
	"slices"
	"strings"
	"sync"
)

// Zip is a sink that packs the files into one archive. It packs at once and
// writes at Close, in alphabetical order and without dates, so that the
// archive's bytes depend on the files alone.
type Zip struct {
	mu      sync.Mutex
	out     io.Writer
	entries []zipEntry
}

type zipEntry struct {
	header zip.FileHeader
	packed []byte
}

// NewZip packs into out; nothing is written before Close.
func NewZip(out io.Writer) *Zip { return &Zip{out: out} }

// Put packs one file; a second one of the same name takes its place.
func (z *Zip) Put(name string, write func(io.Writer) error) error {
	if err := checkName(name); err != nil {
		return err
	}
	e := zipEntry{header: zip.FileHeader{Name: name, Method: zip.Deflate}}
	if packedAlready(name) {
		e.header.Method = zip.Store
	}
	if err := e.pack(write); err != nil {
		return err
	}
	z.mu.Lock()
	defer z.mu.Unlock()
	z.entries = slices.DeleteFunc(z.entries, func(o zipEntry) bool { return o.header.Name == name })
	z.entries = append(z.entries, e)
	return nil
}

// packedAlready says whether packing again would gain nothing.
func packedAlready(name string) bool {
	switch strings.ToLower(path.Ext(name)) {
	case ".png", ".gif", ".xlsx":
		return true
	}
	return false
}

func (e *zipEntry) pack(write func(io.Writer) error) error {
	var packed bytes.Buffer
	var out io.Writer = &packed
	var squeeze *flate.Writer
	if e.header.Method == zip.Deflate {
		var err error
		if squeeze, err = flate.NewWriter(&packed, flate.BestSpeed); err != nil {
			return err
		}
		out = squeeze
	}
	sum := crc32.NewIEEE()
	size := &counter{}
	if err := write(io.MultiWriter(out, sum, size)); err != nil {
		return err
	}
	if squeeze != nil {
		if err := squeeze.Close(); err != nil {
			return err
		}
	}
	e.packed = packed.Bytes()
	e.header.CRC32 = sum.Sum32()
	e.header.UncompressedSize64 = size.n
	e.header.CompressedSize64 = uint64(len(e.packed))
	return nil
}

type counter struct{ n uint64 }

func (c *counter) Write(b []byte) (int, error) {
	c.n += uint64(len(b))
	return len(b), nil
}

// Close writes the archive.
func (z *Zip) Close() error {
	z.mu.Lock()
	defer z.mu.Unlock()
	slices.SortFunc(z.entries, func(a, b zipEntry) int { return strings.Compare(a.header.Name, b.header.Name) })
	w := zip.NewWriter(z.out)
	for i := range z.entries {
		e := &z.entries[i]
		f, err := w.CreateRaw(&e.header)
		if err != nil {
			return err
		}
		if _, err := f.Write(e.packed); err != nil {
			return err
		}
	}
	return w.Close()
}
