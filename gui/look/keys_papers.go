package look

// The words of the papers: sheets.
const (
	PaperSheetOf     Key = "paper_sheet_of"
	PaperSheetTitle  Key = "paper_sheet_title"
	PaperMercator    Key = "paper_mercator"
	PaperScaleAt     Key = "paper_scale_at"
	PaperVariation   Key = "paper_variation"
	PaperOfYear      Key = "paper_of_year"
	PaperBarCheck    Key = "paper_bar_check"
	PaperBarMeans    Key = "paper_bar_means"
	PaperMillimetres Key = "paper_millimetres"
	PaperKeyAir      Key = "paper_key_air"
	PaperKeyDR       Key = "paper_key_dr"
	PaperKeyFix      Key = "paper_key_fix"
	PaperKeyHeading  Key = "paper_key_heading"
	PaperKeyTrack    Key = "paper_key_track"
	PaperKeyWind     Key = "paper_key_wind"
	PaperKeyLine     Key = "paper_key_line"
	PaperKeyMoved    Key = "paper_key_moved"
)
