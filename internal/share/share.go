// Package share makes the files by which a desktop knows the window: its icon, its
// entry in the menu, and the kind of file that a flight is. The names of the folders
// are those of the freedesktop.org specifications (icon theme, desktop entry, shared
// MIME info).
package share

import (
	"bytes"
	"io"
	"os"
	"path/filepath"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// Kind is the MIME type of a flight, Pattern how the names of flights end that are
// known by it.
const (
	Kind    = "application/x-stillair-flight"
	Pattern = "*.flight.toml"
)

// File is a file under the folder share of the place of installation.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Files are all of them.
func Files() []File {
	return []File{
		{"icons/hicolor/scalable/apps/stillair.svg", icon(paint.SVGFile)},
		{"icons/hicolor/256x256/apps/stillair.png", icon(paint.PNG)},
		{"applications/stillair.desktop", text(entry)},
		{"mime/packages/stillair.xml", text(kind)},
	}
}

// WriteAll writes them below a folder.
func WriteAll(dir string) error {
	for _, f := range Files() {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			return err
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			return err
		}
		if err := os.WriteFile(name, out.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return nil
}

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// The icon is the mark of the bar: a still-air cross in a ring on a brass line. Its
// line is 3.4 radii long and keeps a small edge.
const (
	iconSize = 256
	iconEdge = 8
)

func icon(f paint.Format) func(io.Writer) error {
	return func(w io.Writer) error {
		return paint.Export(w, f, iconSize, iconSize, look.Text(look.Stillair), func(s paint.Surface) {
			b := picture.NewBrush(s, look.Of(look.Paper), look.Size{Part: 1, Device: 1})
			b.Still(paint.Pt(iconSize/2, iconSize/2), (iconSize-2*iconEdge)/3.4)
		})
	}
}

const entry = `[Desktop Entry]
Type=Application
Version=1.1
Name=stillair
GenericName=Air-position integrator
Comment=A working air-position integrator, for teaching and display only
Exec=stillair %f
TryExec=stillair
Icon=stillair
Terminal=false
Categories=Education;Science;
Keywords=navigation;flight;air plot;dead reckoning;
MimeType=` + Kind + `;
`

const kind = `<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="` + Kind + `">
    <comment>stillair flight</comment>
    <sub-class-of type="text/plain"/>
    <generic-icon name="text-x-generic"/>
    <glob pattern="` + Pattern + `"/>
  </mime-type>
</mime-info>
`
