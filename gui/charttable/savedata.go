package charttable

import (
	"io"
	"path/filepath"
	"time"

	"stillair/gui/export"
	"stillair/gui/look"
	"stillair/sim"
)

// dataEvery is the flight time between two rows of the data.
const dataEvery = time.Minute

// writers write the data of a flight, by the ending of the file.
var writers = map[string]func(w io.Writer, e *sim.Engine, reveal bool) error{
	".csv": func(w io.Writer, e *sim.Engine, reveal bool) error { return export.WriteCSV(w, e, dataEvery, reveal) },
	".geojson": func(w io.Writer, e *sim.Engine, reveal bool) error {
		return export.WriteGeoJSON(w, export.Gather(e, reveal))
	},
	".kml": func(w io.Writer, e *sim.Engine, reveal bool) error {
		return export.WriteKML(w, export.Gather(e, reveal))
	},
}

// SaveData asks where to and saves the flight, as far as it has been flown, as data:
// with the truth if it is shown now.
func (t *Table) SaveData() {
	name := fileName(t.plan.Title) + ".csv"
	t.askWhere(look.DataTitle, look.TheData, name, []string{".csv", ".geojson", ".kml"}, t.saveData)
}

// saveData writes out of the way of the window.
func (t *Table) saveData(name string) {
	write, ok := writers[filepath.Ext(name)]
	if !ok {
		dropEmpty(name)
		t.warn(look.Textf(look.DataEnding, filepath.Base(name)))
		return
	}
	reveal := t.moment.Revealed != nil
	t.helm.Aside(func(e *sim.Engine, _ int) {
		err := replaceFile(name, func(w io.Writer) error { return write(w, e, reveal) })
		t.screen.Later(func() { t.saved(name, err) })
	})
}
