package share

import (
	"bytes"
	"encoding/xml"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const top = "../.."

// made is a file as it is written.
func made(t *testing.T, name string) []byte {
	for _, f := range Files() {
		if f.Name == name {
			var out bytes.Buffer
			require.NoError(t, f.Write(&out))
			return out.Bytes()
		}
	}
	t.Fatalf("%s is not written", name)
	return nil
}

func TestIcons(t *testing.T) {
	im, err := png.Decode(bytes.NewReader(made(t, "icons/hicolor/256x256/apps/stillair.png")))
	require.NoError(t, err)
	assert.Equal(t, 256, im.Bounds().Dx())
	assert.Equal(t, 256, im.Bounds().Dy())
	_, _, _, corner := im.At(2, 2).RGBA()
	_, _, _, edge := im.At(1, 128).RGBA()
	_, _, _, middle := im.At(128, 128).RGBA()
	assert.Zero(t, corner, "the mark stands on nothing")
	assert.Zero(t, edge, "it is not cut off")
	assert.Equal(t, uint32(0xffff), middle)
	assert.NoError(t, xml.Unmarshal(made(t, "icons/hicolor/scalable/apps/stillair.svg"), &struct{}{}))
}

// The entry and the kind of file speak of the same type and of the icon that is written.
func TestEntryAndKindAgree(t *testing.T) {
	assert.Contains(t, string(made(t, "applications/stillair.desktop")), "MimeType="+Kind+";\n")
	assert.Contains(t, string(made(t, "applications/stillair.desktop")), "Icon=stillair\n")
	var info struct {
		Type struct {
			Name string `xml:"type,attr"`
			Glob struct {
				Pattern string `xml:"pattern,attr"`
			} `xml:"glob"`
		} `xml:"mime-type"`
	}
	require.NoError(t, xml.Unmarshal(made(t, "mime/packages/stillair.xml"), &info))
	assert.Equal(t, Kind, info.Type.Name)
	assert.Equal(t, "*.flight.toml", info.Type.Glob.Pattern)
}

// The desktop's own tools, where they are installed, have no complaint.
func TestDesktopTools(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteAll(dir))
	ran := 0
	for _, tool := range [][]string{
		{"desktop-file-validate", filepath.Join(dir, "applications", "stillair.desktop")},
		{"update-mime-database", filepath.Join(dir, "mime")},
	} {
		if _, err := exec.LookPath(tool[0]); err != nil {
			continue
		}
		ran++
		out, err := exec.Command(tool[0], tool[1:]...).CombinedOutput()
		assert.NoError(t, err, string(out))
		assert.NotContains(t, string(out), "error")
	}
	if ran == 0 {
		t.Skip("neither desktop-file-validate nor update-mime-database is installed")
	}
}

// installed are the parts that need no C compiler: mode and, of a link, target.
var installed = map[string]string{
	"bin/reckon":                                           "-rwxr-xr-x",
	"bin/stillair-reckon":                                  "reckon",
	"share/man/man1/reckon.1":                              "-rw-r--r--",
	"share/man/man1/stillair-reckon.1":                     "reckon.1",
	"share/bash-completion/completions/reckon":             "-rw-r--r--",
	"share/fish/vendor_completions.d/reckon.fish":          "-rw-r--r--",
	"share/bash-completion/completions/stillair-reckon":    "reckon",
	"share/fish/vendor_completions.d/stillair-reckon.fish": "reckon.fish",
	"share/zsh/site-functions/_reckon":                     "-rw-r--r--",
	"share/applications/stillair.desktop":                  "-rw-r--r--",
	"share/mime/packages/stillair.xml":                     "-rw-r--r--",
	"share/icons/hicolor/scalable/apps/stillair.svg":       "-rw-r--r--",
	"share/icons/hicolor/256x256/apps/stillair.png":        "-rw-r--r--",
}

// stood is what stands under a folder: a mode, or where a link leads to.
func stood(t *testing.T, root string) map[string]string {
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		at, _ := filepath.Rel(root, name)
		all[at] = info.Mode().String()
		if info.Mode()&fs.ModeSymlink != 0 {
			all[at], err = os.Readlink(name)
		}
		return err
	}))
	return all
}

func runMake(t *testing.T, words ...string) string {
	cmd := exec.Command("make", append([]string{"-C", top, "--no-print-directory"}, words...)...)
	cmd.Env = append(os.Environ(), "MAKEFLAGS=", "NO_INSTALL=1")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// What needs no C compiler is installed where it belongs, works, and goes again.
func TestMakeInstall(t *testing.T) {
	if _, err := exec.LookPath("make"); err != nil {
		t.Skip("make is not installed")
	}
	build, dest := t.TempDir(), t.TempDir()
	where := []string{"BUILD=" + build, "DESTDIR=" + dest, "PREFIX=/opt/still air"}
	runMake(t, append([]string{"install-reckon", "install-desktop"}, where...)...)
	root := filepath.Join(dest, "opt", "still air")
	assert.Equal(t, installed, stood(t, root))
	out, err := exec.Command(filepath.Join(root, "bin", "stillair-reckon"), "list").Output()
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(out), "first-look "))
	page, err := os.ReadFile(filepath.Join(root, "share", "man", "man1", "reckon.1"))
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(page, []byte(".TH RECKON 1")))
	runMake(t, append([]string{"uninstall"}, where...)...)
	assert.Empty(t, stood(t, root))
}

// All that the whole of it installs is taken away again: the two lists agree.
func TestUninstallNamesAll(t *testing.T) {
	script, err := os.ReadFile(filepath.Join(top, ".ci", "install"))
	require.NoError(t, err)
	lists := strings.Join(regexp.MustCompile(`(?s)(?:desktop|others)='[^']*'`).FindAllString(string(script), -1), "\n")
	for name := range installed {
		assert.Contains(t, lists, strings.TrimPrefix(name, "share/"))
	}
	assert.Contains(t, lists, "bin/stillair ")
}
