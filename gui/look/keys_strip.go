package look

// The strings of the time strip.
const (
	StepHint     Key = "step_hint"
	StepBackHint Key = "step_back_hint"
	RestartHint  Key = "restart_hint"
	SlowerHint   Key = "slower_hint"
	FasterHint   Key = "faster_hint"
	SlowestRate  Key = "slowest_rate"
	FastestRate  Key = "fastest_rate"
	RatesHint    Key = "rates_hint"
	RateTap      Key = "rate_tap"

	MarkCounters        Key = "mark_counters"
	MarkWind            Key = "mark_wind"
	MarkVariation       Key = "mark_variation"
	MarkField           Key = "mark_field"
	MarkLever           Key = "mark_lever"
	MarkSlewLatitude    Key = "mark_slew_latitude"
	MarkSlewLongitude   Key = "mark_slew_longitude"
	MarkStaticNormal    Key = "mark_static_normal"
	MarkStaticAlternate Key = "mark_static_alternate"
	MarkOther           Key = "mark_other"
	MarkTold            Key = "mark_told"
	MarkAhead           Key = "mark_ahead"
	MarkBefore          Key = "mark_before"

	MomentTold    Key = "moment_told"
	MomentAsk     Key = "moment_ask"
	MomentAskHint Key = "moment_ask_hint"
	MomentTooLong Key = "moment_too_long"
	MomentsFull   Key = "moments_full"
)
