package charttable

import (
	"slices"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// tray is the row of tools for a lecture, over the upper edge of the chart.
type tray struct {
	table *Table
	open  bool
	paper *panel
	keys  []*kit.Key // those of the view, then those the window handed in
	place box

	cloud, part, pins, broken, twin, curves, lattice, plan, moment, save *kit.Key

	tools [toolCount]*kit.Key
}

func newTray(t *Table) *tray {
	y := &tray{table: t}
	y.paper = newPanel(t.screen, func(*paint.Raster, float64, float64, look.Size) {})
	y.cloud = y.key(look.TrayCloud, look.TrayCloudHint, look.DoCloud, func() {
		laid, _ := t.Cloud()
		t.LayCloud(!laid)
	})
	y.part = y.key(look.TrayPart, look.TrayPartHint, look.DoBreakCloud, t.BreakCloud)
	y.pins = y.key(look.TrayPins, look.TrayPinsHint, look.DoPins, func() { t.PinMode(!t.PinsOn()) })
	y.broken = y.key(look.TrayBreak, look.TrayBreakHint, look.DoBreak, t.ToggleBreakage)
	y.twin = y.key(look.TrayTwin, look.TrayTwinHint, look.DoTwin, t.ToggleTwin)
	y.curves = y.key(look.TrayCurves, look.TrayCurvesHint, look.DoCurves, t.ToggleStarCurves)
	y.lattice = y.key(look.TrayLattice, look.TrayLatticeHint, look.DoLattice, t.ToggleLattice)
	for i, words := range [toolCount][2]look.Key{
		{look.TrayRule, look.TrayRuleHint}, {look.TrayProtractor, look.TrayProtractorHint}, {look.TrayDividers, look.TrayDividersHint},
	} {
		y.tools[i] = y.key(words[0], words[1], look.DoPlot, func() { t.layTool(tool(i)) })
	}
	y.plan = y.key(look.TrayPlan, look.TrayPlanHint, look.DoHidePlan, func() { t.HidePlan(!t.screen.HidePlan) })
	y.moment = y.key(look.TrayMoment, look.TrayMomentHint, look.DoNameMoment, t.NameMoment)
	y.save = y.key(look.TraySave, look.TraySaveHint, look.DoSave, t.SaveChart)
	y.keys = []*kit.Key{y.cloud, y.part, y.pins, y.broken, y.twin, y.curves, y.lattice, y.tools[rule], y.tools[protractor], y.tools[dividers], y.plan, y.moment, y.save}
	return y
}

func (y *tray) key(word, hint, does look.Key, press func()) *kit.Key {
	k := kit.NewKey(y.table.screen, look.Text(word), kit.NoSign, kit.Target, press)
	k.Hint = y.table.hint(hint, does)
	return k
}

// hint is what a key does and, in brackets, the key of the keyboard that does
// the same, as the help sheet has it.
func (t *Table) hint(words, does look.Key) string {
	for _, d := range t.Deeds() {
		if d.Does == does {
			return look.Text(words) + " (" + d.Label + ")"
		}
	}
	return look.Text(words)
}

// ToggleTray opens or shuts the tools for a lecture.
func (t *Table) ToggleTray() {
	t.tray.open = !t.tray.open
	t.tray.apply()
	t.content.Refresh()
}

// TrayOpen says whether the tools are to be seen.
func (t *Table) TrayOpen() bool { return t.tray.open }

// AddTools adds keys of the window's to the tools.
func (t *Table) AddTools(keys ...*kit.Key) {
	t.tray.keys = append(t.tray.keys, keys...)
	for _, k := range keys {
		t.content.Add(k)
	}
	t.tray.apply()
	t.content.Refresh()
}

// HidePlan takes what is planned off the chart, or brings it back.
func (t *Table) HidePlan(hidden bool) {
	t.screen.HidePlan = hidden
	t.tray.apply()
	t.Repaint()
}

func (y *tray) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{y.paper}
	for _, k := range y.keys {
		all = append(all, k)
	}
	return all
}

// apply shows what is on.
func (y *tray) apply() {
	show(y.open, y.objects()...)
	for _, k := range y.keys {
		if y.rests(k) {
			show(false, k)
		}
	}
	choose := func(k *kit.Key, on bool) { k.Set(k.Word, k.Sign, on) }
	laid, broken := y.table.Cloud()
	choose(y.cloud, laid)
	choose(y.part, broken)
	if laid {
		y.part.Forbid("")
	} else {
		y.part.Forbid(look.Text(look.NoCloud))
	}
	choose(y.pins, y.table.PinsOn())
	choose(y.broken, y.table.BreakageOpen())
	choose(y.twin, y.table.TwinOpen())
	stars, lattice := y.table.Overlay()
	choose(y.curves, stars)
	choose(y.lattice, lattice)
	if !y.table.curves.hasChain {
		y.lattice.Forbid(look.Text(look.NoChain))
	}
	for i, k := range y.tools {
		choose(k, y.table.tools.laid[i])
	}
	choose(y.plan, y.table.screen.HidePlan)
	y.lay(y.place)
}

// rests says whether a tool has nothing to do: it is of the chart, which is out of
// sight.
func (y *tray) rests(k *kit.Key) bool {
	return y.table.standing == StageAlone && (slices.Contains(y.tools[:], k) || k == y.cloud || k == y.part || k == y.pins || k == y.curves || k == y.lattice)
}

// The tray, units.
const (
	trayPad  = 6
	trayEdge = 22 // from the edge of the chart's card: inside the frame
	trayGap  = 4
)

// lay puts the tray along the upper edge of the chart: in one row, or in as
// many as the words need.
func (y *tray) lay(chart box) {
	y.place = chart
	if chart.w == 0 || len(y.keys) == 0 {
		return
	}
	rows := y.rows(chart.w - 2*trayPad - 2*trayEdge)
	wide := float32(0)
	for i, row := range rows {
		x := chart.x + trayEdge + trayPad
		for _, k := range row {
			w := k.Needs()
			box{x, chart.y + trayEdge + trayPad + float32(i)*(kit.Target+trayGap), w, kit.Target}.put(k)
			x += w + trayGap
		}
		wide = max(wide, x-trayGap-chart.x-trayEdge+trayPad)
	}
	tall := float32(len(rows))*(kit.Target+trayGap) - trayGap + 2*trayPad
	box{chart.x + trayEdge, chart.y + trayEdge, wide, tall}.put(y.paper)
}

// rows shares the keys out to rows no wider than w.
func (y *tray) rows(w float32) (rows [][]*kit.Key) {
	used := w + 1
	for _, k := range y.keys {
		if y.rests(k) {
			continue
		}
		wide := k.Needs() + trayGap
		if used+wide-trayGap > w {
			rows, used = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], k)
		used += wide
	}
	return rows
}
