package flights

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRecentKeepsTheNewestEightFirst(t *testing.T) {
	file := filepath.Join(t.TempDir(), "of", "mine", "recent.json")
	r := OpenRecent(file)
	assert.Empty(t, r.Paths())
	assert.Empty(t, r.Folder())
	var want []string
	for i := range 11 {
		path := filepath.Join("/flights", fmt.Sprintf("f%d.toml", i))
		r.Add(path)
		want = append([]string{path}, want...)
	}
	assert.Equal(t, want[:8], r.Paths())
	r.Add("/flights/./f5.toml")
	want = []string{"/flights/f5.toml", "/flights/f10.toml", "/flights/f9.toml", "/flights/f8.toml", "/flights/f7.toml", "/flights/f6.toml", "/flights/f4.toml", "/flights/f3.toml"}
	assert.Equal(t, want, r.Paths(), "a file used again comes first and stands once")
	assert.Equal(t, want, OpenRecent(file).Paths(), "the list outlives the program")
	assert.Equal(t, "/flights", r.Folder())
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing half written is left")
}

func TestADamagedListIsAnEmptyOne(t *testing.T) {
	for name, text := range map[string]string{
		"empty": "", "cut": `{"files":["/a.to`, "another": `[1,2]`, "no list": `{"files":7}`, "null": "null",
		"relative": `{"files":["a.toml","../b.toml",""]}`, "huge": `{"files":["/` + strings.Repeat("x", 2<<20) + `"]}`,
	} {
		file := filepath.Join(t.TempDir(), "recent.json")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		r := OpenRecent(file)
		assert.Empty(t, r.Paths(), name)
		r.Add("/b.toml")
		assert.Equal(t, []string{"/b.toml"}, OpenRecent(file).Paths(), "%s: it mends", name)
	}
}

func TestALongListIsCut(t *testing.T) {
	file := filepath.Join(t.TempDir(), "recent.json")
	var list recentList
	for i := range 20 {
		list.Files = append(list.Files, fmt.Sprintf("/%d.toml", i))
	}
	text, err := json.Marshal(list)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, text, 0o644))
	assert.Equal(t, list.Files[:8], OpenRecent(file).Paths())
}

func TestAListThatCannotBeKeptLastsAsLongAsTheProgram(t *testing.T) {
	folder := t.TempDir()
	blocked := filepath.Join(folder, "file")
	require.NoError(t, os.WriteFile(blocked, nil, 0o644))
	for _, file := range []string{"", filepath.Join(blocked, "recent.json"), folder} {
		r := OpenRecent(file)
		r.Add("/a.toml")
		assert.Equal(t, []string{"/a.toml"}, r.Paths(), file)
		assert.Empty(t, OpenRecent(file).Paths(), file)
	}
}

func TestTheListIsKeptInTheUsersFolder(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", "/somewhere")
	t.Setenv("HOME", "/home/x")
	assert.Equal(t, "recent.json", filepath.Base(RecentFile()))
	assert.Equal(t, "stillair", filepath.Base(filepath.Dir(RecentFile())))
}
