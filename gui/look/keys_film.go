package look

// The strings of films and of the data that is taken away.
const (
	FilmGroundHint      Key = "film_ground_hint"
	ExportAirTrack      Key = "export_air_track"
	ExportGroundTrack   Key = "export_ground_track"
	ExportTrueTrack     Key = "export_true_track"
	ExportMark          Key = "export_mark"
	ExportMarks         Key = "export_marks"
	ExportAction        Key = "export_action"
	ExportActions       Key = "export_actions"
	ExportPositionLine  Key = "export_position_line"
	ExportPositionLines Key = "export_position_lines"
	ExportFix           Key = "export_fix"
	ExportFixes         Key = "export_fixes"
	ExportLegBegun      Key = "export_leg_begun"
	ExportTurnEnded     Key = "export_turn_ended"
	ExportFlightEnded   Key = "export_flight_ended"
)
