package look

// The words of timing in the drift sight, and of homing by the loop.
const (
	DriftTime      Key = "drift_time"
	DriftTimeAgain Key = "drift_time_again"
	DriftStop      Key = "drift_stop"
	DriftTimeHint  Key = "drift_time_hint"
	DriftTiming    Key = "drift_timing"
	DriftTimed     Key = "drift_timed"
	LoopSenseHint  Key = "loop_sense_hint"
	LoopHome       Key = "loop_home"
	LoopHomeHint   Key = "loop_home_hint"
	LoopAthwart    Key = "loop_athwart"
	LoopToldHome   Key = "loop_told_home"
	NeedleDead     Key = "needle_dead"
	NeedleLeft     Key = "needle_left"
	NeedleRight    Key = "needle_right"
	NeedleAhead    Key = "needle_ahead"
	HomingOn       Key = "homing_on"
	PlotTimed      Key = "plot_timed"
	PlotWindByTime Key = "plot_wind_by_time"
	PlotByTime     Key = "plot_by_time"
	AidStands      Key = "aid_stands"
	AidPointed     Key = "aid_pointed"
	PaperTimed     Key = "paper_timed"
)
