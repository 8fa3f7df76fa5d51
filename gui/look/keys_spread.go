package look

// The strings of the spread.
const (
	SpreadTitle       Key = "spread_title"
	SpreadTold        Key = "spread_told"
	SpreadGrowth      Key = "spread_growth"
	SpreadGrowthUnit  Key = "spread_growth_unit"
	SpreadMedian      Key = "spread_median"
	SpreadHalf        Key = "spread_half"
	SpreadMost        Key = "spread_most"
	SpreadForm        Key = "spread_form"
	SpreadShares      Key = "spread_shares"
	SpreadSharesUnit  Key = "spread_shares_unit"
	SpreadNoShares    Key = "spread_no_shares"
	SpreadEnd         Key = "spread_end"
	SpreadEndUnit     Key = "spread_end_unit"
	SpreadDots        Key = "spread_dots"
	SpreadDotsSome    Key = "spread_dots_some"
	SpreadEllipseHalf Key = "spread_ellipse_half"
	SpreadEllipseMost Key = "spread_ellipse_most"
	SpreadHours       Key = "spread_hours"
	SpreadWind        Key = "spread_wind"
	SpreadHeading     Key = "spread_heading"
	SpreadAirLog      Key = "spread_air_log"
	SpreadDrive       Key = "spread_drive"
	SpreadStart       Key = "spread_start"
	SpreadPercent     Key = "spread_percent"
)
