//go:build unix

package stuntfile

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestLoadRefusesLinksAndPipes: nothing outside the stunt's folder is read, and
// nothing waits for a pipe.
func TestLoadRefusesLinksAndPipes(t *testing.T) {
	dir := t.TempDir()
	outside := write(t, t.TempDir(), "secret.png", "secret")
	if err := os.Symlink(outside, filepath.Join(dir, "link.png")); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(filepath.Join(dir, "pipe.png"), 0o666); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"link.png": "stunt.toml:17:9: image = \"link.png\": the file cannot be read: path escapes",
		"pipe.png": "stunt.toml:17:9: image = \"pipe.png\": this is not a plain file",
	} {
		write(t, dir, "stunt.toml", withImage(name))
		if _, err := Load(dir); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want %q in it", name, err, want)
		}
	}
	// The stunt file itself may be a link: people keep their files where they like.
	elsewhere := write(t, t.TempDir(), "ours.toml", small)
	os.Remove(filepath.Join(dir, "stunt.toml"))
	if err := os.Symlink(elsewhere, filepath.Join(dir, "stunt.toml")); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(dir); err != nil {
		t.Errorf("a linked stunt file: %v", err)
	}
}
