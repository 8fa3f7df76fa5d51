package look

// The strings of flights that were written down.
const (
	Recorded        Key = "recorded"
	RecordTold      Key = "record_told"
	RecordCut       Key = "record_cut"
	RecordDamaged   Key = "record_damaged"
	RecordFlown     Key = "record_flown"
	ChooserKept     Key = "chooser_kept"
	ChooserKeptNote Key = "chooser_kept_note"
	RecordFailed    Key = "record_failed"
)
