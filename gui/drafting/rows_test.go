package drafting

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/scenarios/edit"
	"stillair/sim"
	"stillair/sim/fault"
)

// everyRow calls f for each row of each tab of a draft, with every table opened.
func everyRow(d *edit.Draft, f func(tab Tab, open string, r *Row)) {
	for tab := range Tabs {
		items := []string{""}
		for _, r := range Rows(d, tab, "") {
			if r.Kind == HeadRow {
				items = append(items, r.Item)
			}
		}
		for _, open := range items {
			for _, r := range Rows(d, tab, open) {
				f(tab, open, &r)
			}
		}
	}
}

// TestRowsThatAreTouchedAndLeft: what stands in a box, taken as it is, changes no byte;
// any other choice gives a flight that loads or is refused, and comes back by Undo.
func TestRowsThatAreTouchedAndLeft(t *testing.T) {
	values, chosen, refused := 0, 0, 0
	for _, f := range scenarios.Shipped() {
		d := shipped(t, f.Name)
		text := string(d.Text())
		everyRow(d, func(_ Tab, open string, r *Row) {
			require.NotEmpty(t, r.Label, "%s %s", f.Name, open)
			if r.Kind != ValueRow {
				return
			}
			require.NotEmpty(t, r.Value, "%s: %s", f.Name, r.Label)
			if r.Picks == nil {
				values++
				require.NotEmpty(t, r.Hint, "%s: %s", f.Name, r.Label)
				require.NoError(t, r.Take(d, r.Now), "%s: %s", f.Name, r.Label)
				require.Equal(t, text, string(d.Text()), "%s: %s", f.Name, r.Label)
				return
			}
			for _, p := range r.Picks {
				if err := r.Take(d, p.Value); err != nil {
					refused++
					require.Equal(t, text, string(d.Text()))
				}
				require.NoError(t, d.Wrong())
				if p.Now {
					require.False(t, d.CanUndo(), "%s: %s", f.Name, r.Label)
				}
				if d.CanUndo() {
					chosen++
					d.Undo()
				}
				require.Equal(t, text, string(d.Text()))
			}
		})
	}
	assert.Greater(t, values, 300)
	assert.Greater(t, chosen, 100)
	t.Logf("%d values, %d choices taken, %d refused", values, chosen, refused)
}

// row finds a row by the beginning of its label.
func row(t *testing.T, d *edit.Draft, tab Tab, open, label string) *Row {
	t.Helper()
	for _, r := range Rows(d, tab, open) {
		if r.Kind == ValueRow && strings.HasPrefix(r.Label, label) {
			return &r
		}
	}
	t.Fatalf("no row %q", label)
	return nil
}

func set(t *testing.T, d *edit.Draft, tab Tab, open, label, text string) {
	t.Helper()
	require.NoError(t, row(t, d, tab, open, label).Take(d, text))
}

func TestTypedValues(t *testing.T) {
	d := shipped(t, "slipping-drive")
	set(t, d, SettingsTab, "", "Title", `A "better" title`)
	set(t, d, SettingsTab, "", "True airspeed", "201,5")
	set(t, d, SettingsTab, "", "Wind set", "090/31")
	set(t, d, SettingsTab, "", "Counters", "Skerrow")
	set(t, d, SettingsTab, "", "Field", "-12.5")
	set(t, d, WeatherTab, "", "QNH", "990")
	set(t, d, RouteTab, "", "Date and time", "1958-01-02 0315Z")
	set(t, d, RouteTab, "leg[1]", "Calibrated airspeed", "150")
	set(t, d, RouteTab, "leg[2]", "Duration", "40")
	set(t, d, EventsTab, "fault[1]", "At", "0327Z")
	set(t, d, EventsTab, "fault[1]", "For", "")
	set(t, d, EventsTab, "fault[1]", "Slip", "0.25")
	p := d.Plan()
	require.NotNil(t, p)
	assert.Equal(t, `A "better" title`, p.Title)
	assert.InDelta(t, 201.5, p.Aircraft.Speed.Speed.Knots(), 1e-9)
	assert.Equal(t, "090/31", p.Setting.Wind.String())
	w, _ := scenarios.Waters("tern-islands")
	skerrow, _ := w.Place("Skerrow")
	require.NotNil(t, p.Setting.Counters)
	assert.Equal(t, skerrow.At.String(), p.Setting.Counters.String())
	assert.InDelta(t, -12.5, p.Field.Degrees(), 1e-9)
	assert.InDelta(t, 990, p.Air.QNH.Hectopascals(), 1e-9)
	assert.Equal(t, time.Date(1958, 1, 2, 3, 15, 0, 0, time.UTC), p.Start)
	assert.Equal(t, sim.HoldCAS, p.Legs[0].Speed.Kind)
	assert.Equal(t, sim.TicksOf(40*time.Minute), p.Legs[1].Ticks)
	require.Len(t, p.Faults, 1)
	assert.Equal(t, sim.TicksOf(12*time.Minute), p.Faults[0].At)
	assert.Zero(t, p.Faults[0].For)
	assert.Equal(t, []float64{0.25}, p.Faults[0].Params)
	set(t, d, SettingsTab, "", "Field", "")
	assert.Nil(t, d.Plan().Field)
	assert.NotContains(t, string(d.Text()), "[field]")
	set(t, d, RouteTab, "leg[1]", "True airspeed", "170")
	assert.Equal(t, sim.HoldTAS, d.Plan().Legs[0].Speed.Kind, "one speed takes the place of the other")
}

// What is refused is told with the range, in the loader's words and with its line.
func TestRefusedValues(t *testing.T) {
	d := shipped(t, "slipping-drive")
	text := string(d.Text())
	for _, c := range []struct {
		tab               Tab
		open, label, text string
		told              string
	}{
		{SettingsTab, "", "True airspeed", "30", "line 15: aircraft.tas_kt = 30: must be 40 to 450 kt"},
		{SettingsTab, "", "Heading", "north", "“north” is no number"},
		{SettingsTab, "", "Seed", "1.5", "“1.5” is no whole number"},
		{RouteTab, "leg[1]", "True heading", "361", "leg[1].heading_true_deg = 361: must be 0 to 360"},
		{RouteTab, "leg[1]", "Duration", "50h", "must be above 0, up to 48h"},
		{RouteTab, "", "Date and time", "today", "is no date and time"},
		{RouteTab, "", "Date and time", "1850-01-01 0000Z", "must be 1900-01-01T00:00:00Z to 2030"},
		{RouteTab, "", "Position", "Nowhere", "no place of these waters"},
		{WeatherTab, "air.wind[1]", "Wind", "265/251", "must be 0 to 250 kt"},
		{WeatherTab, "air.wind[1]", "Wind", "265", "is no wind"},
		{EventsTab, "fault[1]", "Slip", "2", "must be 0 to 1"},
		{EventsTab, "fault[1]", "At", "2575Z", "is no time"},
	} {
		r := row(t, d, c.tab, c.open, c.label)
		err := r.Check(d, c.text)
		assert.ErrorContains(t, err, c.told, "as it is typed: %s %s", c.label, c.text)
		assert.Equal(t, err, r.Take(d, c.text))
		assert.Equal(t, text, string(d.Text()))
	}
}

// What is typed is checked without being taken, and nothing is there to be undone.
func TestCheckedIsNotTaken(t *testing.T) {
	d := shipped(t, "slipping-drive")
	text := string(d.Text())
	r := row(t, d, WeatherTab, "air.wind[1]", "Wind")
	require.NoError(t, r.Check(d, "300/45"))
	assert.Equal(t, text, string(d.Text()))
	assert.False(t, d.CanUndo())
	require.NoError(t, r.Take(d, "300/45"))
	assert.True(t, d.CanUndo())
	require.NoError(t, r.Check(d, "310/45"))
	d.Undo()
	assert.True(t, d.CanRedo(), "a check takes nothing from what can be done again")
	require.NoError(t, r.Check(d, "310/45"))
	assert.True(t, d.CanRedo())
	assert.Equal(t, text, string(d.Text()))
}

// Another way to order a leg leads to the same turning point.
func TestSteeringByAnother(t *testing.T) {
	d := shipped(t, "slipping-drive")
	set(t, d, RouteTab, "leg[1]", "Flown by", "track_true_deg")
	assert.Equal(t, sim.TrackTrue, d.Plan().Legs[0].Steer)
	set(t, d, RouteTab, "leg[1]", "Flown by", "heading_true_deg")
	assert.InDelta(t, 60, d.Plan().Legs[0].Direction.Degrees(), 0.11, "back to the 060 of the file, to the rounding")
	assert.InDelta(t, 45*60, sim.TimeOf(d.Plan().Legs[0].Ticks).Seconds(), 2.1)
	set(t, d, RouteTab, "leg[1]", "Ends by", "distance_nm")
	assert.InDelta(t, 190*0.75, d.Plan().Legs[0].Distance.NM(), 0.11, "45 min at 190 kt")
	set(t, d, RouteTab, "leg[1]", "Flown by", "to")
	assert.Equal(t, sim.ToPlace, d.Plan().Legs[0].Steer)
}

func TestWindsByHeightAndTime(t *testing.T) {
	d := shipped(t, "slipping-drive")
	changes, made, err := AddLevel(d, "air.wind[1]")
	do(t, d)(changes, err)
	assert.Equal(t, "air.wind[2]", made)
	winds := d.Plan().Air.Winds
	require.Len(t, winds, 2)
	assert.InDelta(t, 8000, winds[0].Base.Feet(), 1e-6, "the flight begins at 8000 ft")
	assert.InDelta(t, 13000, winds[1].Base.Feet(), 1e-6)
	changes, made, err = AddTime(d, made)
	do(t, d)(changes, err)
	assert.Equal(t, "air.wind[3]", made)
	winds = d.Plan().Air.Winds
	require.Len(t, winds, 4)
	assert.Equal(t, sim.TicksOf(40*time.Minute), winds[0].Until, "80 minutes parted in the middle")
	assert.Equal(t, winds[0].Until, winds[2].From)
	assert.Equal(t, winds[1].Base, winds[3].Base)
	set(t, d, WeatherTab, "air.wind[4]", "Wind", "310/45")
	assert.Equal(t, "310/45", d.Plan().Air.Winds[3].Wind.String())
	for d.CanUndo() {
		d.Undo()
	}
	assert.Equal(t, string(shipped(t, "slipping-drive").Text()), string(d.Text()))
	d = calm(t, "[[leg]]\nheading_true_deg = 0\nduration = \"10m\"\n")
	changes, _, err = AddLevel(d, "")
	do(t, d)(changes, err)
	assert.Equal(t, "270/20", d.Plan().Air.Winds[0].Wind.String())
}

// TestEveryFaultCanBeAdded: every entry of the catalogue that a flight may order is added,
// its rows show and keep its defaults, and it is moved in time and taken out again.
func TestEveryFaultCanBeAdded(t *testing.T) {
	d := shipped(t, "first-look")
	text := string(d.Text())
	added := 0
	for _, pick := range NewFaults(d) {
		if pick.Title {
			continue
		}
		made, err := AddFault(d, pick.Value)
		if err != nil {
			assert.Equal(t, "wind-clock-not-reset", pick.Value, "%v", err)
			assert.ErrorContains(t, err, "mechanism.ground")
			continue
		}
		added++
		e, _ := fault.Lookup(pick.Value)
		rows := Rows(d, EventsTab, made)
		for _, p := range e.Params {
			found := false
			for _, r := range rows {
				found = found || r.Label == plainName(p.Name, p.Unit)
			}
			assert.True(t, found, "%s.%s", pick.Value, p.Name)
		}
		_, err = MoveEvent(d, made, 7*time.Minute+10*time.Second)
		require.NoError(t, err)
		last := d.Plan().Faults[len(d.Plan().Faults)-1]
		assert.Equal(t, sim.TicksOf(7*time.Minute), last.At, "to half a minute")
		require.NoError(t, d.Do(edit.Remove(made)))
		for d.CanUndo() {
			d.Undo()
		}
		require.Equal(t, text, string(d.Text()))
	}
	assert.Greater(t, added, 40)
}

func TestEveryActionCanBeAdded(t *testing.T) {
	for _, a := range actions {
		d := shipped(t, "first-look")
		if a.key == "throw_lever" {
			_, err := AddAction(d, a.key)
			assert.ErrorContains(t, err, "there is no lever")
			set(t, d, SettingsTab, "", "Longitude drums", "lever")
		}
		before := len(d.Plan().Crew)
		made, err := AddAction(d, a.key)
		require.NoError(t, err, a.key)
		assert.Len(t, d.Plan().Crew, before+1)
		assert.NotEmpty(t, Rows(d, EventsTab, made))
	}
	d := shipped(t, "first-look")
	made, err := AddAction(d, "set_wind")
	require.NoError(t, err)
	set(t, d, EventsTab, made, "Wind", "301/17")
	found := false
	for _, c := range d.Plan().Crew {
		found = found || c.Action.Kind == aboard.SetWind && c.Action.Wind.String() == "301/17"
	}
	assert.True(t, found)
	made, err = AddAction(d, "set_variation_deg")
	require.NoError(t, err)
	set(t, d, EventsTab, made, "Variation", "")
	v, _ := d.Get(made + ".set_variation_deg")
	assert.Equal(t, `"true-to-field"`, v.String())
}

func TestReachTakesTheNearest(t *testing.T) {
	p := shipped(t, "first-look").Plan()
	w, _ := scenarios.Waters(p.Waters)
	for _, place := range w.Places {
		got, ok := Reach(p, place.At, units.NM/100)
		require.True(t, ok)
		assert.Equal(t, place.At, got.At)
	}
	_, ok := Reach(p, units.At(10, 10), 100*units.NM)
	assert.False(t, ok)
}

func TestANewFlightCanBeFlown(t *testing.T) {
	d := New("new", `A "new" flight`)
	require.NoError(t, d.Wrong())
	assert.Equal(t, `A "new" flight`, d.Plan().Title)
	r := Drawn(d.Plan())
	require.Len(t, r.Points, 2)
	assert.Equal(t, "0930Z", r.Points[0].Label)
	assert.Equal(t, "A 1000Z", r.Points[1].Label)
	assert.Equal(t, "060T  90.0 NM  30 min", r.Points[1].Words, "half an hour at 180 kt, calm")
	assert.NotEmpty(t, placeName(d.Plan(), d.Plan().Aircraft.Position))
	assert.Greater(t, len(Shown(d.Plan())), 2)
	assert.Empty(t, Drawn(nil).Points)
}

// The notation is that of the trade: three figures and the letter of the north.
func TestDirectionsAreWrittenAsTheTradeDoes(t *testing.T) {
	d := calm(t, "[[leg]]\nheading_magnetic_deg = 5\nduration = \"10m\"\n[[leg]]\nheading_compass_deg = 54.8\nduration = \"10m\"\n[[leg]]\ntrack_true_deg = 268.0\nduration = \"10m\"\n")
	assert.Equal(t, "005M", row(t, d, RouteTab, "leg[1]", "Magnetic").Value)
	assert.Equal(t, "054.8C", row(t, d, RouteTab, "leg[2]", "Compass").Value)
	assert.Equal(t, "268T", row(t, d, RouteTab, "leg[3]", "Track").Value)
	assert.Equal(t, "268.0", row(t, d, RouteTab, "leg[3]", "Track").Now, "the box has what the file has")
	assert.Equal(t, "000T", row(t, d, SettingsTab, "", "Heading").Value)
}

// Moments stand in order of time whatever is done to them, for each has a digit.
func TestMomentsStayInOrder(t *testing.T) {
	d := shipped(t, "slipping-drive") // moments at 9m50s, 25m, 45m, 1h
	made, err := AddMoment(d)
	require.NoError(t, err)
	assert.Equal(t, "moment[3]", made, "in the middle, 40 min")
	moved, err := MoveEvent(d, made, 50*time.Minute)
	require.NoError(t, err)
	assert.Equal(t, "moment[4]", moved)
	set(t, d, EventsTab, moved, "Name", "Look here")
	set(t, d, EventsTab, moved, "At", "2220Z")
	var names []string
	for i, m := range d.Plan().Moments {
		names = append(names, m.Name)
		if i > 0 {
			assert.Greater(t, m.At, d.Plan().Moments[i-1].At)
		}
	}
	assert.Equal(t, []string{"Look here", "Just before it slips", "A tenth of the miles slips", "Eight miles behind", "Tightened"}, names)
	_, err = MoveEvent(d, "moment[1]", 45*time.Minute)
	assert.ErrorContains(t, err, "must be later than the moment before it")
	assert.Contains(t, string(d.Text()), "# Tightened at the hour.", "its comment is still there")
}

// A file that cannot be flown shows the keys that it has, to be put right one by one.
func TestABadFileShowsItsKeys(t *testing.T) {
	text := string(shipped(t, "slipping-drive").Text())
	text = strings.Replace(text, "heading_true_deg = 85\nduration = \"35m\"", "to = \"Skerow\"\ntas_kt = 1900", 1)
	text = strings.Replace(text, "duration = \"45m\"", "distance_nm = -3", 1)
	d, err := edit.New("bad", []byte(text))
	require.NoError(t, err)
	require.Len(t, Problems(d.Wrong()), 3)
	set(t, d, RouteTab, "leg[1]", "Air miles", "30")
	set(t, d, RouteTab, "leg[2]", "True airspeed", "")
	require.ErrorContains(t, d.Wrong(), "did you mean Skerrow?")
	set(t, d, RouteTab, "leg[2]", "Place", "Skerrow")
	require.NoError(t, d.Wrong())
	assert.Equal(t, "Skerrow", d.Plan().Legs[1].Place)
}
