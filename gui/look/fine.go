package look

// Fine says whether a picture has so many pixels that more may be shown on its
// chart: from 3072 by 1728 on.
func (s Size) Fine() bool { return s.Part >= 1.6 }
