package look

// The strings of the twin.
const (
	TwinTitle         Key = "twin_title"
	TwinTitleNone     Key = "twin_title_none"
	TwinFaults        Key = "twin_faults"
	TwinFaultsName    Key = "twin_faults_name"
	TwinWithout       Key = "twin_without"
	TwinFaultName     Key = "twin_fault_name"
	TwinWind          Key = "twin_wind"
	TwinWindName      Key = "twin_wind_name"
	TwinVariation     Key = "twin_variation"
	TwinVariationName Key = "twin_variation_name"
	TwinNone          Key = "twin_none"
	TwinGap           Key = "twin_gap"
	TwinNoGap         Key = "twin_no_gap"
	TwinNorth         Key = "twin_north"
	TwinSouth         Key = "twin_south"
	TwinEast          Key = "twin_east"
	TwinWest          Key = "twin_west"
	TrayTwin          Key = "tray_twin"
	TrayTwinHint      Key = "tray_twin_hint"
	DoTwin            Key = "do_twin"
)
