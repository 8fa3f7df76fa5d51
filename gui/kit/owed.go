package kit

// The toolkit forgets after a while to which window an object belongs that has not
// changed, and until it next walks through its window a request to draw such an
// object anew goes nowhere (seen once in a window that had stood idle: a key kept its
// old word). So what was asked for and has not been drawn is asked for again, a few
// times: what is hidden is never drawn.
const (
	owedFrames = 60 // for which a request is remembered
	owedEvery  = 12 // frames after which it is repeated
)

// owes remembers that a picture has been asked for.
func (s *Screen) owes(p *Painted) {
	s.owing.Lock()
	defer s.owing.Unlock()
	if !p.listed {
		s.owed, p.listed = append(s.owed, p), true
	}
	p.owed = owedFrames
}

// Again asks anew for pictures that were asked for and have not come. It is called
// once a frame.
func (s *Screen) Again() {
	for _, p := range s.late() {
		p.raster.Refresh()
	}
}

// late counts a frame and gives those that are to be asked for again.
func (s *Screen) late() (again []*Painted) {
	s.owing.Lock()
	defer s.owing.Unlock()
	left := s.owed[:0]
	for _, p := range s.owed {
		if p.owed > 0 { // it has not come
			if p.owed--; p.owed%owedEvery == 0 {
				again = append(again, p)
			}
		}
		if p.listed = p.owed > 0; p.listed {
			left = append(left, p)
		}
	}
	clear(s.owed[len(left):])
	s.owed = left
	return again
}

// came notes that a picture has been drawn.
func (s *Screen) came(p *Painted) {
	s.owing.Lock()
	p.owed = 0
	s.owing.Unlock()
}
