package look

// The strings of flights that were written down.
const (
	Recorded      Key = "recorded"
	RecordTold    Key = "record_told"
	RecordCut     Key = "record_cut"
	RecordDamaged Key = "record_damaged"
	RecordFailed  Key = "record_failed"
)
