package pictures

import (
	"context"
	"errors"
	"io"
	"math"
	"runtime"
	"time"

	"stillair/gui/account"
	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/papers"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim/spread"
)

// chart is the chart of first-look after 40 minutes.
func chart(out io.Writer) error {
	e, err := flown("first-look", 40*time.Minute)
	if err != nil {
		return err
	}
	view := e.View()
	sheet, err := atlas.SheetOf(e.Plan(), &view, true)
	if err != nil {
		return err
	}
	w, h := picture.SheetSize(Wide)
	return drawn(out, w, h, func(s paint.Surface) { picture.ChartSheet(s, float64(w), float64(h), sheet) })
}

// linkage is the mechanism of a flight at a moment; revealed, with what is wrong.
func linkage(out io.Writer, flight string, at time.Duration, revealed bool) error {
	e, err := flown(flight, at)
	if err != nil {
		return err
	}
	view, plan := e.View(), e.Plan()
	story := chain.Story{View: &view, Now: e.Works(), Mechanism: plan.Mechanism, Held: e.Held()}
	var truth *picture.Truth
	if revealed {
		right := e.TrueWorks()
		story.Truth, story.Faults = &right, e.Faults()
		truth = atlas.TruthOf(e.Snapshot(), e.TrueTrack())
	}
	ground, err := chain.StripGround(plan)
	if err != nil {
		return err
	}
	l := picture.Linkage{Lit: picture.NoLink, Chosen: picture.NoLink, Run: 1}
	story.Picture(&l)
	story.Strip(&l, ground, truth)
	line := units.TimeText(view.Clock) + ", " + units.DateText(view.Clock)
	return drawn(out, Wide, picture.LinkagePage(Wide), func(s paint.Surface) {
		picture.DrawLinkagePage(s, Wide, plan.Title, line, &l)
	})
}

// debriefPage is the account of the flight with five causes of one error.
func debriefPage(out io.Writer) error {
	e, err := flown("every-mile", toEnd)
	if err != nil {
		return err
	}
	m := account.Gather(e)
	story, err := account.New(e.Plan(), m)
	if err != nil {
		return err
	}
	a, _ := story.At(m.Tick)
	line := a.When + ", " + units.DateText(a.Start)
	return drawn(out, Wide, picture.AccountPage(Wide), func(s paint.Surface) {
		picture.DrawAccountPage(s, Wide, e.Plan().Title, line, &a)
	})
}

// spreadFlights is how many flights the picture of a spread has.
const spreadFlights = 200

// spreadPage is the spread of the long flight by the common law.
func spreadPage(out io.Writer) error {
	plan, src, err := scenarios.Open("weather-triangle")
	if err != nil {
		return err
	}
	law, _ := spread.Preset(spread.Default)
	if src.Spread != nil {
		law = *src.Spread
	}
	r, err := spread.Run(context.Background(), spread.Job{
		Plan: plan, Law: law, Seed: plan.Seed, Every: 15 * time.Minute, Flights: spreadFlights, To: spreadFlights, Workers: runtime.NumCPU(),
	})
	if err != nil {
		return err
	}
	shown := atlas.SpreadOf(&spread.File{Head: spread.Head{Title: plan.Title}, Result: r})
	const k = float64(Wide) / picture.SpreadWidth
	h := int(math.Round(k * picture.SpreadHeight))
	return drawn(out, Wide, h, func(s paint.Surface) {
		z := look.SizeOf(picture.SpreadWidth*k, picture.SpreadHeight*k, 0.8)
		picture.DrawSpread(picture.NewBrush(s, look.Of(look.Paper), z), paint.R(0, 0, Wide, float64(h)), shown)
	})
}

// plottingSheet and logForm are papers on the screen.
func plottingSheet(out io.Writer) error {
	e, err := flown("weather-triangle", 0)
	if err != nil {
		return err
	}
	pages, err := papers.Sheets(e.Plan(), papers.A4, papers.SheetOrder{Latitude: 47 * units.Degree})
	if err != nil {
		return err
	}
	return paper(out, pages[1:]) // after the index
}

func logForm(out io.Writer) error {
	e, err := flown("first-look", 0)
	if err != nil {
		return err
	}
	pages, err := papers.Log(e.Plan(), papers.A4, papers.LogOrder{Filled: true})
	if err != nil {
		return err
	}
	return paper(out, pages)
}

// paper draws the first of some pages of A4.
func paper(out io.Writer, pages []papers.Page) error {
	if len(pages) == 0 {
		return errors.New("the paper has no page")
	}
	k := Wide / papers.A4.W
	h := int(math.Round(k * papers.A4.H))
	return drawn(out, Wide, h, func(s paint.Surface) {
		var path paint.Path
		s.Fill(path.Rect(paint.R(0, 0, Wide, float64(h))), look.Of(look.Paper).Card)
		papers.Draw(paint.NewScaled(s, k), papers.A4, pages[0])
	})
}
