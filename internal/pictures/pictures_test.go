package pictures

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const manual = "../../docs"

// The files of the manual are those of the list, no wider and no heavier than is said,
// and something is to be seen in each.
func TestPicturesOfTheManual(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(manual, "pictures", "*"))
	require.NoError(t, err)
	var names, want []string
	for _, p := range All() {
		want = append(want, p.Name)
	}
	bytes := 0
	for _, f := range files {
		names = append(names, filepath.Base(f))
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		bytes += len(data)
		seen(t, data)
	}
	assert.ElementsMatch(t, want, names, "make pictures")
	assert.Less(t, bytes, Together)
}

// seen sees that a picture decodes, is not too wide and has more than a few colours.
func seen(t *testing.T, data []byte) {
	t.Helper()
	im, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	b := im.Bounds()
	assert.LessOrEqual(t, b.Dx(), Wide)
	colours := map[[3]uint32]bool{}
	for y := b.Min.Y; y < b.Max.Y; y += 3 {
		for x := b.Min.X; x < b.Max.X; x += 3 {
			r, g, bl, _ := im.At(x, y).RGBA()
			colours[[3]uint32{r, g, bl}] = true
		}
	}
	assert.Greater(t, len(colours), 30)
}

var shownPicture = regexp.MustCompile(`!\[[^\]]+\]\(([^)]+)\)`)

// Every picture is shown in the manual, once; the manual shows none that is not there.
func TestTheManualShowsEachPictureOnce(t *testing.T) {
	pages, err := filepath.Glob(filepath.Join(manual, "*.md"))
	require.NoError(t, err)
	require.NotEmpty(t, pages)
	shown := map[string]int{}
	for _, page := range pages {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		for _, m := range shownPicture.FindAllStringSubmatch(string(text), -1) {
			shown[m[1]]++
		}
	}
	want := map[string]int{}
	for _, p := range All() {
		want["pictures/"+p.Name] = 1
	}
	assert.Equal(t, want, shown)
}

// The same source gives the same bytes.
func TestPicturesAreTheSameEachTime(t *testing.T) {
	for _, p := range All() {
		switch p.Name {
		case "eyepieces.png", "calculator.png": // quick ones; nothing in the others draws by chance either
			var a, b bytes.Buffer
			require.NoError(t, p.Make(&a))
			require.NoError(t, p.Make(&b))
			assert.True(t, bytes.Equal(a.Bytes(), b.Bytes()), p.Name)
			seen(t, a.Bytes())
		}
	}
}
