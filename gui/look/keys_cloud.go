package look

// The strings of the cloud over the chart.
const (
	GapTowards Key = "gap_towards"
	GapNone    Key = "gap_none"
)
