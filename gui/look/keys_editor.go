package look

// Words of the flight editor.
const (
	DraftUnheld  Key = "draft_unheld"
	DraftTooNear Key = "draft_too_near"
	DraftNotYet  Key = "draft_not_yet"
	DraftLastLeg Key = "draft_last_leg"
)
