package main

import (
	"bytes"
	"embed"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"

	"github.com/spf13/cobra"

	"everyseat/layouts"
)

//go:embed demo
var demoFiles embed.FS

const demoAbout = `Writes a complete worked stunt into DIR (by default gullhaven) and builds it:
the Lantern Fair of Gullhaven, a made-up harbour town. Three sections of
bleachers hold up a word, and the floor in front of them is full of people who
sit low. Its stunt.toml is a commented example for your own; change it and type

  everyseat build gullhaven`

func newDemo(v *voice) *cobra.Command {
	return &cobra.Command{
		Use:     "demo [DIR]",
		Short:   "a complete worked stunt in a folder, built",
		Long:    demoAbout,
		Example: "  everyseat demo\n  everyseat demo /tmp/fair",
		Args:    atMostOne("DIR"),
		RunE:    func(_ *cobra.Command, args []string) error { return v.demo(append(args, "gullhaven")[0]) },
	}
}

func (v *voice) demo(dir string) error {
	names, err := fs.Glob(demoFiles, "demo/*")
	if err != nil {
		return err
	}
	// Whoever has changed the demo keeps the change: only files that are not there are written.
	folder, err := layouts.NewFolder(dir)
	if err != nil {
		return err
	}
	for _, name := range names {
		data, err := demoFiles.ReadFile(name)
		if err != nil {
			return err
		}
		name = path.Base(name)
		there, err := os.ReadFile(filepath.Join(dir, name))
		if err == nil && !bytes.Equal(there, data) {
			return fault(filepath.Join(dir, name), "this file is there already and differs from the demo's",
				"everyseat build "+dir+" builds it as it is; everyseat demo OTHER writes the demo elsewhere")
		}
		if err == nil {
			continue
		}
		if err := folder.Put(name, put(data)); err != nil {
			return err
		}
	}
	return v.build(dir, stuntFlags{}, nil, "")
}

func put(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}
