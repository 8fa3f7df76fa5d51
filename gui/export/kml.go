package export

import (
	"fmt"
	"image/color"
	"io"

	"github.com/twpayne/go-kml/v3"

	"stillair/gui/look"
)

// caution stands in every file that may be laid over a map.
func caution() string { return look.Text(look.Caution) }

// WriteKML writes a document as OGC KML 2.2 has it (07-147r2): a folder for each
// kind of thing, times, and what is known of each thing as its data.
func WriteKML(w io.Writer, t Take) error {
	document := kml.Document(kml.Name(t.Title), kml.Open(true), kml.Description(caution()))
	for _, k := range Kinds() {
		document.Append(styleOf(k))
	}
	for _, k := range Kinds() {
		folder := kml.Folder(kml.Name(look.Text(folderWords[k])))
		for i := range t.Things {
			if p := placemarkOf(&t.Things[i]); t.Things[i].Kind == k && p != nil {
				folder.Append(p)
			}
		}
		if len(folder.Children) > 1 {
			document.Append(folder)
		}
	}
	return kml.KML(document).WriteIndent(w, "", " ")
}

var folderWords = map[Kind]look.Key{
	AirTrack: look.ExportAirTrack, GroundTrack: look.ExportGroundTrack, TrueTrack: look.ExportTrueTrack,
	Mark: look.ExportMarks, Action: look.ExportActions, PositionLine: look.ExportPositionLines, Fix: look.ExportFixes,
}

// placemarkOf is the placemark of a thing, nil if nothing is left of it. The order
// of its parts is that of the schema.
func placemarkOf(t *Thing) *kml.PlacemarkElement {
	p := kml.Placemark(kml.Name(t.Name))
	if t.From.Equal(t.To) {
		p.Append(kml.TimeStamp(kml.When(t.From.UTC())))
	} else {
		p.Append(kml.TimeSpan(kml.Begin(t.From.UTC()), kml.End(t.To.UTC())))
	}
	p.Append(kml.StyleURL("#" + string(t.Kind)))
	if len(t.Facts) > 0 {
		data := kml.ExtendedData()
		for _, f := range t.Facts {
			data.Append(kml.Data(f.Name, kml.Value(fmt.Sprint(f.Value))))
		}
		p.Append(data)
	}
	if t.Line == nil {
		return p.Append(kml.Point(coordinates(coordinateOf(t.Point))))
	}
	parts := split(t.Line)
	if len(parts) == 0 {
		return nil
	}
	lines := make([]kml.Element, len(parts))
	for i, part := range parts {
		lines[i] = kml.LineString(kml.Tessellate(true), coordinates(part...))
	}
	if len(lines) == 1 {
		return p.Append(lines[0])
	}
	return p.Append(kml.MultiGeometry(lines...))
}

func coordinates(all ...coordinate) kml.CoordinatesElement {
	out := make([]kml.Coordinate, len(all))
	for i, c := range all {
		out[i] = kml.Coordinate{Lon: c[0], Lat: c[1]}
	}
	return kml.Coordinates(out...)
}

// styleOf is how a kind of thing is drawn: in the colours of the chart.
func styleOf(k Kind) kml.Element {
	p := look.Of(look.Paper)
	line := func(l look.LineKind) kml.Element {
		return kml.LineStyle(kml.Color(look.Lines[l].Colour(p)), kml.Width(look.Lines[l].Width))
	}
	label := func(c color.NRGBA) kml.Element { return kml.LabelStyle(kml.Color(c)) }
	switch k {
	case AirTrack:
		return kml.SharedStyle(string(k), line(look.AirPlot))
	case GroundTrack:
		return kml.SharedStyle(string(k), line(look.GroundTrack))
	case TrueTrack:
		return kml.SharedStyle(string(k), line(look.TrueTrack))
	case PositionLine:
		return kml.SharedStyle(string(k), line(look.PositionLine))
	case Fix:
		return kml.SharedStyle(string(k), label(p.Ink))
	}
	return kml.SharedStyle(string(k), label(p.Ink2))
}
