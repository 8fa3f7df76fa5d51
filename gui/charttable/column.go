package charttable

// Shut shuts the card that lies over the instruments, or lets the cover on it
// fall, and says whether there was anything to do.
func (t *Table) Shut() bool {
	switch {
	case t.CloseCounters():
	case t.BreakageOpen():
		t.ToggleBreakage()
	case t.TwinOpen():
		t.ToggleTwin()
	case t.CurvesOpen():
		t.curves.shut()
	case t.PinsOn():
		t.PinMode(false)
	default:
		return false
	}
	return true
}

// clearColumn shuts whatever lies over the instruments: another card is to lie
// there.
func (t *Table) clearColumn() {
	for t.Shut() {
	}
}
