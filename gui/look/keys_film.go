package look

// The strings of films.
const (
	FilmGroundHint Key = "film_ground_hint"
)
