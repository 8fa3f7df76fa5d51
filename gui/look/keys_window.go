package look

// The strings of the window round the Chart table.
const (
	StepBack      Key = "step_back"
	Restart       Key = "restart"
	Set           Key = "set"
	Cancel        Key = "cancel"
	WindAsk       Key = "wind_ask"
	WindAskHint   Key = "wind_ask_hint"
	VariationAsk  Key = "variation_ask"
	VariationHint Key = "variation_ask_hint"
	FollowsField  Key = "follows_field"
	RateHint      Key = "rate_hint"
	FlightEnded   Key = "flight_ended"
	WhyStill      Key = "why_still"
	WhyDrift      Key = "why_drift"
)
