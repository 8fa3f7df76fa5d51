package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim/spread"
)

// write writes what was flown into the files that are wanted, and the table.
func (o spreadOut) write(s streams, f *spread.File) error {
	if o.Out != "" {
		write := f.Write
		if filepath.Ext(o.Out) == ".csv" {
			write = func(w io.Writer) error { return writeMoments(w, f) }
		}
		if err := toFile(o.Out, write); err != nil {
			return err
		}
	}
	if len(f.Flights) == 0 {
		fmt.Fprintln(s.err, "no flight was flown: there is nothing to show")
		return nil
	}
	if o.Plot != "" {
		if err := writeSpreadPlot(o.Plot, f); err != nil {
			return err
		}
	}
	writeSpreadTable(s.out, f)
	return nil
}

// writeSpreadTable prints how the error grows.
func writeSpreadTable(w io.Writer, f *spread.File) {
	fmt.Fprintf(w, "%s: %d of %d flights, errors drawn: %s, seed %d\n", f.Title, len(f.Flights), f.Asked, f.Law.Name, f.Seed)
	fmt.Fprintf(w, "ground position, indicated minus true, NM\n\n")
	const row = "%8s %7s %7s %7s %7s  %-24s %s\n"
	fmt.Fprintf(w, row, "", "", "median", "holds", "holds", "ellipse of 95 %", "greatest part")
	fmt.Fprintf(w, row, "time", "flights", "miss", "half", "95 %", "half axes, bearing", "of the variance")
	k := spread.Scale(0.95)
	for _, m := range f.Moments() {
		clock := clockText(m.At)
		if m.End {
			clock = "end"
		}
		axes := fmt.Sprintf("%.1f by %.1f, %s", k*m.Axes.Major, k*m.Axes.Minor, axisText(m.Axes.BearingDeg))
		fmt.Fprintf(w, row, clock, strconv.Itoa(m.N), tenth(m.Miss), tenth(m.R50), tenth(m.R95), axes, partText(&m))
	}
	writeLaw(w, &f.Law)
}

// writeLaw prints what was drawn.
func writeLaw(w io.Writer, l *spread.Law) {
	whose := "as the flight says"
	if _, preset := spread.Preset(l.Name); preset {
		whose = "invented: nobody measured them"
	}
	fmt.Fprintf(w, "\nstandard deviations (%s):\n", whose)
	for _, t := range spread.Terms() {
		f := t.Fact()
		if l.Sigma[t] == 0 {
			continue
		}
		says := f.Says
		if t == spread.Wander {
			says += fmt.Sprintf(", remembered for %v", l.WanderTime)
		}
		fmt.Fprintf(w, "%8v %-3s %s\n", l.Sigma[t], f.Unit, says)
	}
}

// clockText is a time as h:mm, with seconds where there are any.
func clockText(d time.Duration) string {
	text := fmt.Sprintf("%d:%02d", int(d.Hours()), int(d.Minutes())%60)
	if s := int(d.Seconds()) % 60; s != 0 {
		text += fmt.Sprintf(":%02d", s)
	}
	return text
}

func tenth(x float64) string { return fmt.Sprintf("%.1f", x) }

// axisText is the bearing of an axis, 000T to 179T.
func axisText(deg float64) string { return fmt.Sprintf("%03dT", int(math.Round(deg))%180) }

func partText(m *spread.Moment) string {
	l, ok := m.Dominant()
	if !ok {
		return "-"
	}
	return fmt.Sprintf("%s %.0f %%", look.Text(atlas.SpreadLink(l)), 100*m.Links()[l])
}

// writeMoments writes a row for each time.
func writeMoments(w io.Writer, f *spread.File) error {
	out := csv.NewWriter(w)
	header := []string{"elapsed_s", "end", "flights", "mean_north_nm", "mean_east_nm", "cov_nn_nm2", "cov_ee_nm2", "cov_ne_nm2", "median_miss_nm",
		"r50_nm", "r95_nm", "ellipse_major_nm", "ellipse_minor_nm", "ellipse_bearing_deg", "closed_form_major_nm", "closed_form_minor_nm"}
	for _, t := range spread.Terms() {
		header = append(header, "share_"+t.String())
	}
	if err := out.Write(header); err != nil {
		return err
	}
	for _, m := range f.Moments() {
		g := m.Growth.Ellipse()
		figures := []float64{m.Mean.North, m.Mean.East, m.Cov.NN, m.Cov.EE, m.Cov.NE, m.Miss, m.R50, m.R95,
			m.Axes.Major, m.Axes.Minor, m.Axes.BearingDeg, g.Major, g.Minor}
		row := []string{shortest(m.At.Seconds()), strconv.FormatBool(m.End), strconv.Itoa(m.N)}
		for _, x := range append(figures, m.Share[:]...) {
			row = append(row, shortest(x))
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func shortest(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// writeSpreadPlot draws the picture of the spread.
func writeSpreadPlot(name string, f *spread.File) error {
	return draw(name, func(out io.Writer, format paint.Format) error {
		return atlas.WriteSpread(out, format, atlas.SpreadOf(f))
	})
}

// progress says on standard error how far it is and how long it will take: over
// itself on a terminal, else a line now and then.
type progress struct {
	w            io.Writer
	what         string
	terminal     bool
	began, spoke time.Time
	now          func() time.Time
}

func newProgress(w io.Writer) *progress {
	p := &progress{w: w, what: "flights flown", now: time.Now}
	if f, ok := w.(*os.File); ok {
		info, err := f.Stat()
		p.terminal = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	p.began = p.now()
	p.spoke = p.began
	return p
}

// told is called after each flight.
func (p *progress) told(done, total int) {
	now, pause, end := p.now(), 10*time.Second, "\n"
	if p.terminal {
		pause, end = time.Second/4, "    \r"
	}
	if now.Sub(p.spoke) < pause {
		return
	}
	p.spoke = now
	left := time.Duration(float64(now.Sub(p.began)) * float64(total-done) / float64(done))
	fmt.Fprintf(p.w, "%d of %d %s, %v left%s", done, total, p.what, left.Round(time.Second), end)
}

// end leaves the line of the progress.
func (p *progress) end() {
	if p.terminal && p.spoke != p.began {
		fmt.Fprintln(p.w)
	}
}
