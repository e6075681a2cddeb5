package stuntfile

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func write(t *testing.T, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestLoad(t *testing.T) {
	dir := t.TempDir()
	text := strings.Replace(small, `text = "HI"`, `image = "pictures/a.png"`, 1)
	path := write(t, dir, "stunt.toml", text)
	write(t, dir, "pictures/a.png", "PNG")
	for _, p := range []string{dir, path} {
		f, err := Load(p)
		if err != nil {
			t.Fatal(err)
		}
		if f.Path != path || string(f.Stunt.Cues[0].Image) != "PNG" {
			t.Errorf("%s: path %s, image %q", p, f.Path, f.Stunt.Cues[0].Image)
		}
	}
}

// withImage is the small stunt showing an image.
func withImage(name string) string {
	return strings.Replace(small, `text = "HI"`, `image = "`+name+`"`, 1)
}

func TestLoadRefuses(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o777); err != nil {
		t.Fatal(err)
	}
	large := filepath.Join(dir, "large.png")
	if err := os.WriteFile(large, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(large, MaxBeside+1); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, text, want string }{
		{"none.toml", "", "there is no such file (hint: everyseat new"},
		{"folder.toml", withImage("folder"), "folder.toml:17:9: image = \"folder\": this is not a plain file"},
		{"large.toml", withImage("large.png"), "large.toml:17:9: image = \"large.png\": the file is larger than 64 MiB"},
		{"huge.toml", small + strings.Repeat("#\n", MaxBytes/2), "the file is larger than 1 MiB"},
	} {
		path := filepath.Join(dir, c.name)
		if c.text != "" {
			write(t, dir, c.name, c.text)
		}
		_, err := Load(path)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q in it", c.name, err, c.want)
		}
	}
	if _, err := Load(filepath.Join(dir, "nowhere", "stunt.toml")); err == nil || !strings.Contains(err.Error(), "no such file") {
		t.Errorf("a missing folder: got %v", err)
	}
}
