package look

// The words of the navigation log in the window.
const (
	LogWord      Key = "log_word"
	LogHint      Key = "log_hint"
	DoLog        Key = "do_log"
	LogShort     Key = "log_short"
	LogShortHint Key = "log_short_hint"
	LogHand      Key = "log_hand"
	LogHandHint  Key = "log_hand_hint"
	LogCheck     Key = "log_check"
	LogCheckHint Key = "log_check_hint"
	LogCheckNot  Key = "log_check_not"
	LogNotByHand Key = "log_not_by_hand"
	LogByItself  Key = "log_by_itself"
	LogByHand    Key = "log_by_hand"
	LogKept      Key = "log_kept"
	LogShould    Key = "log_should"
	LogWrite     Key = "log_write"
	LogTooLong   Key = "log_too_long"
)
