package look

// The words inside and round the eyepieces of the navigator's aids.
const (
	EyepieceLeft   Key = "eyepiece_left"
	EyepieceRight  Key = "eyepiece_right"
	EyepieceMaster Key = "eyepiece_master"
)
