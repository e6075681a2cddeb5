package layouts

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"everyseat/layouts/paper"
	"everyseat/layouts/sheets"
	"everyseat/layouts/tables"
	"everyseat/mosaic/brief"
	"everyseat/seating"
)

// Before is an earlier build, as it stands in its folder.
type Before struct {
	folder  string
	printed *brief.Printed
}

// Found gives the build in a folder whose plan has another code, nil where it has the same. Errors are *seating.Fault:
// there is none, or its plan cannot be read.
func Found(folder string, now brief.Code) (*Before, error) {
	path := filepath.Join(folder, "plan.json")
	file, err := os.Open(path)
	if err != nil {
		return nil, &seating.Fault{File: path, What: "there is no plan that can be opened",
			Hint: "name the folder of a whole build"}
	}
	defer file.Close()
	if code, ok := codeOf(file); ok && code == string(now) {
		return nil, nil
	}
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return nil, diskFault(path, err)
	}
	plan, err := tables.ReadPlan(file)
	if f, ok := errors.AsType[*seating.Fault](err); ok {
		f.File = path
	}
	if err != nil {
		return nil, err
	}
	return &Before{folder, plan.Printed()}, nil
}

// codeOf reads as much of a plan.json as says its code.
func codeOf(file io.Reader) (code string, ok bool) {
	tokens := json.NewDecoder(file)
	for range 10 {
		if t, err := tokens.Token(); err != nil {
			break
		} else if t == "code" {
			t, _ := tokens.Token()
			code, ok = t.(string)
			break
		}
	}
	return code, ok
}

// Write writes everything for a build that takes the place of this one: with changes.csv and sheets/changes.pdf, which
// say what is to be changed on the stands and what to print anew. They are given back too.
func (f *Before) Write(b *brief.Brief, sink Sink) (*brief.Changes, error) {
	c := brief.ChangesOf(b.Plan, b.Code, f.printed)
	anew := &reprint{Sink: sink, before: f, now: string(b.Code)}
	if err := Write(b, Options{}, anew); err != nil {
		return nil, err
	}
	slices.Sort(anew.changed)
	c.Anew = anew.changed
	return c, runAll([]job{
		{1, func() error { return sink.Put(Since[0], of(tables.Changes, c)) }},
		{1, func() error {
			return sink.Put(Since[1], func(w io.Writer) error { return sheets.Changes(w, b, c) })
		}},
	})
}

// reprint is a sink that finds out which pages were not printed before.
type reprint struct {
	Sink
	before *Before
	now    string

	mu      sync.Mutex
	changed []string
}

func (r *reprint) Put(name string, write func(io.Writer) error) error {
	if !strings.HasSuffix(name, ".pdf") {
		return r.Sink.Put(name, write)
	}
	return r.Sink.Put(name, func(w io.Writer) error {
		var file bytes.Buffer
		if err := write(io.MultiWriter(w, &file)); err != nil {
			return err
		}
		if pages := r.anew(name, file.Bytes()); pages != "" {
			r.mu.Lock()
			defer r.mu.Unlock()
			r.changed = append(r.changed, pages)
		}
		return nil
	})
}

// anew says which pages of a sheet are not among those of the build before; "" = all are.
func (r *reprint) anew(name string, file []byte) string {
	is, err := paper.Pages(file, r.now)
	if err != nil {
		return ""
	}
	had := map[paper.PageSum]bool{}
	if old, err := os.ReadFile(filepath.Join(r.before.folder, filepath.FromSlash(name))); err == nil {
		pages, _ := paper.Pages(old, r.before.printed.Code) // what cannot be read is printed anew
		for _, sum := range pages {
			had[sum] = true
		}
	}
	var changed []int
	for i, sum := range is {
		if !had[sum] {
			changed = append(changed, i+1)
		}
	}
	return brief.PagesAnew(path.Base(name), changed, len(is))
}
