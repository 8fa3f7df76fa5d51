package export

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parts are the elements that an element may have within it, in this order: the
// schema of OGC KML 2.2 (07-147r2, ogckml22.xsd), as far as the files here go.
var parts = map[string][]string{
	"kml":           {"Document"},
	"Document":      {"name", "visibility", "open", "description", "TimeStamp", "TimeSpan", "styleUrl", "Style", "ExtendedData", "Folder", "Placemark"},
	"Folder":        {"name", "visibility", "open", "description", "TimeStamp", "TimeSpan", "styleUrl", "Style", "ExtendedData", "Folder", "Placemark"},
	"Placemark":     {"name", "visibility", "open", "description", "TimeStamp", "TimeSpan", "styleUrl", "Style", "ExtendedData", "Point", "LineString", "MultiGeometry"},
	"Style":         {"IconStyle", "LabelStyle", "LineStyle", "PolyStyle"},
	"LabelStyle":    {"color", "colorMode", "scale"},
	"LineStyle":     {"color", "colorMode", "width"},
	"TimeStamp":     {"when"},
	"TimeSpan":      {"begin", "end"},
	"ExtendedData":  {"Data"},
	"Data":          {"displayName", "value"},
	"Point":         {"extrude", "altitudeMode", "coordinates"},
	"LineString":    {"extrude", "tessellate", "altitudeMode", "coordinates"},
	"MultiGeometry": {"Point", "LineString", "MultiGeometry"},
}

// many may stand more than once.
var many = []string{"Style", "Folder", "Placemark", "Data", "Point", "LineString", "MultiGeometry"}

// element is one as it was read.
type element struct {
	name  string
	attrs map[string]string
	text  string
	kids  []*element
}

// readKML reads a document with encoding/xml and names the first thing that the
// schema does not allow.
func readKML(text string) (*element, error) {
	d := xml.NewDecoder(strings.NewReader(text))
	root := &element{}
	open := []*element{root}
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		here := open[len(open)-1]
		switch token := token.(type) {
		case xml.StartElement:
			if token.Name.Space != "http://www.opengis.net/kml/2.2" {
				return nil, fmt.Errorf("%s is of %q", token.Name.Local, token.Name.Space)
			}
			e := &element{name: token.Name.Local, attrs: map[string]string{}}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			here.kids = append(here.kids, e)
			open = append(open, e)
		case xml.EndElement:
			if err := here.check(); err != nil {
				return nil, err
			}
			open = open[:len(open)-1]
		case xml.CharData:
			here.text += string(token)
		}
	}
	if len(root.kids) != 1 || root.kids[0].name != "kml" {
		return nil, fmt.Errorf("the root is no kml")
	}
	return root.kids[0], nil
}

// check sees that the parts stand in the order of the schema.
func (e *element) check() error {
	order, ok := parts[e.name]
	if !ok {
		if len(e.kids) > 0 {
			return fmt.Errorf("%s has parts", e.name)
		}
		return nil
	}
	last := -1
	for _, k := range e.kids {
		i := slices.Index(order, k.name)
		if e.name == "Document" && k.name == "Placemark" || i < last || i < 0 || i == last && !slices.Contains(many, k.name) {
			return fmt.Errorf("%s in %s: out of its place", k.name, e.name)
		}
		last = i
	}
	if (e.name == "Point" || e.name == "LineString") && e.kid("coordinates") == nil {
		return fmt.Errorf("%s without coordinates", e.name)
	}
	return nil
}

func (e *element) kid(name string) *element {
	for _, k := range e.kids {
		if k.name == name {
			return k
		}
	}
	return nil
}

// all are those of a name, however deep.
func (e *element) all(name string) (out []*element) {
	for _, k := range e.kids {
		if k.name == name {
			out = append(out, k)
		}
		out = append(out, k.all(name)...)
	}
	return out
}

func TestTheKMLReaderCanRefuse(t *testing.T) {
	wrap := func(s string) string {
		return `<kml xmlns="http://www.opengis.net/kml/2.2"><Document>` + s + `</Document></kml>`
	}
	for _, bad := range []string{
		"<kml/>", wrap("<name>a"), wrap("<open>1</open><name>a</name>"), wrap("<name>a</name><name>b</name>"),
		wrap("<Folder><Placemark><Point/></Placemark></Folder>"), wrap("<Folder><Placemark><Point><coordinates>1,2</coordinates></Point><name>a</name></Placemark></Folder>"),
		wrap("<Wheel/>"),
	} {
		_, err := readKML(bad)
		assert.Error(t, err, bad)
	}
	_, err := readKML(wrap("<name>a</name><open>1</open>"))
	assert.NoError(t, err)
}

// TestKML: read by the schema's order of elements alone, it holds what the GeoJSON
// holds, place for place.
func TestKML(t *testing.T) {
	e := fly(t, "30")
	geo, text, _ := files(t, e, true)
	root, err := readKML(text)
	require.NoError(t, err)
	document := root.kid("Document")
	assert.Equal(t, "Over & <back>", document.kid("name").text)
	styles := map[string]bool{}
	for _, s := range document.all("Style") {
		styles["#"+s.attrs["id"]] = true
		for _, c := range s.all("color") {
			assert.Regexp(t, "^[0-9a-f]{8}$", c.text)
		}
	}
	byKind := map[string][][][2]float64{}
	for _, p := range document.all("Placemark") {
		kind := p.kid("styleUrl").text
		assert.True(t, styles[kind], kind)
		var lines [][2]float64
		for _, c := range p.all("coordinates") {
			lines = append(lines, tuples(t, c.text)...)
		}
		byKind[kind[1:]] = append(byKind[kind[1:]], lines)
		for _, x := range append(p.all("when"), append(p.all("begin"), p.all("end")...)...) {
			assert.Regexp(t, `^1957-08-14T(01|02):\d\d:\d\dZ$`, x.text)
		}
	}
	features, rule := readGeoJSON(geo)
	require.Empty(t, rule)
	seen := map[string]int{}
	for _, f := range features {
		kind := f.Properties["kind"].(string)
		i := seen[kind]
		seen[kind]++
		require.Greater(t, len(byKind[kind]), i, kind)
		assert.Equal(t, flat(t, f), byKind[kind][i], "%s %d", kind, i)
	}
	for kind, all := range byKind {
		assert.Equal(t, seen[kind], len(all), kind)
	}
	assert.Len(t, seen, 7, "all kinds")

	for _, d := range document.all("Data") {
		assert.NotEmpty(t, d.attrs["name"])
		require.NotNil(t, d.kid("value"))
	}
}

// tuples reads longitude,latitude[,height] apart by blanks (section 16.9 of the
// standard).
func tuples(t *testing.T, text string) (out [][2]float64) {
	for _, tuple := range strings.Fields(text) {
		f := strings.Split(tuple, ",")
		require.GreaterOrEqual(t, len(f), 2)
		lon, err := strconv.ParseFloat(f[0], 64)
		require.NoError(t, err)
		lat, err := strconv.ParseFloat(f[1], 64)
		require.NoError(t, err)
		require.True(t, lon >= -180 && lon <= 180 && lat >= -90 && lat <= 90, tuple)
		out = append(out, [2]float64{lon, lat})
	}
	return out
}

// flat are all places of a feature.
func flat(t *testing.T, f feature) (out [][2]float64) {
	switch f.Geometry.Type {
	case "Point":
		var p [2]float64
		require.NoError(t, json.Unmarshal(f.Geometry.Coordinates, &p))
		return [][2]float64{p}
	case "LineString":
		require.NoError(t, json.Unmarshal(f.Geometry.Coordinates, &out))
		return out
	}
	var lines [][][2]float64
	require.NoError(t, json.Unmarshal(f.Geometry.Coordinates, &lines))
	for _, l := range lines {
		out = append(out, l...)
	}
	return out
}
