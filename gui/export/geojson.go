package export

import (
	"bytes"
	"encoding/json"
	"io"
	"time"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
)

// WriteGeoJSON writes a FeatureCollection as RFC 7946 has it: longitude first,
// WGS-84, lines cut at the 180th meridian. Each feature stands on a line of its
// own.
func WriteGeoJSON(w io.Writer, t Take) error {
	head, err := json.Marshal(struct {
		Type    string `json:"type"`
		Title   string `json:"title"`
		Start   string `json:"start"`
		End     string `json:"end"`
		Caution string `json:"caution"`
	}{"FeatureCollection", t.Title, stamp(t.Start), stamp(t.End), caution()})
	if err != nil {
		return err
	}
	var out bytes.Buffer
	out.Write(head[:len(head)-1])
	out.WriteString(",\"features\":[")
	first := true
	for i := range t.Things {
		f := featureOf(&t.Things[i])
		if f == nil {
			continue
		}
		text, err := f.MarshalJSON()
		if err != nil {
			return err
		}
		if !first {
			out.WriteByte(',')
		}
		first = false
		out.WriteByte('\n')
		out.Write(text)
	}
	out.WriteString("\n]}\n")
	_, err = out.WriteTo(w)
	return err
}

// featureOf is the feature of a thing, nil if nothing is left of it.
func featureOf(t *Thing) *geojson.Feature {
	g := geometryOf(t)
	if g == nil {
		return nil
	}
	f := geojson.NewFeature(g)
	f.Properties["kind"], f.Properties["name"] = string(t.Kind), t.Name
	if t.From.Equal(t.To) {
		f.Properties["time"] = stamp(t.From)
	} else {
		f.Properties["from"], f.Properties["to"] = stamp(t.From), stamp(t.To)
	}
	for _, fact := range t.Facts {
		f.Properties[fact.Name] = fact.Value
	}
	return f
}

func geometryOf(t *Thing) orb.Geometry {
	if t.Line == nil {
		return orb.Point(coordinateOf(t.Point))
	}
	parts := split(t.Line)
	lines := make(orb.MultiLineString, len(parts))
	for i, p := range parts {
		for _, c := range p {
			lines[i] = append(lines[i], orb.Point(c))
		}
	}
	switch len(lines) {
	case 0:
		return nil
	case 1:
		return lines[0]
	}
	return lines
}

// stamp is a time as RFC 3339 has it, to the millisecond.
func stamp(t time.Time) string { return t.UTC().Format("2006-01-02T15:04:05.999Z07:00") }
