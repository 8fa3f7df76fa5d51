package conduct

import (
	"strings"
	"time"
)

// TestColumns and TestRows are the squares of the touch test, as many either way, so that
// none is long on an upright screen.
const TestColumns, TestRows = 8, 8

// sequence is the keeper's: the first key is held, the others are pressed in their
// order meanwhile, the last of them when it has been held for heldFor at least.
type sequence struct {
	keys string
	held bool
	from time.Duration
	at   int // keys pressed
}

const heldFor = 2 * time.Second

// Key is a key of the keyboard that goes down or up, by its letter or figure.
func (m *Machine) Key(key string, down bool) {
	s := &m.sequence
	if len(key) != 1 || s.keys == "" {
		return
	}
	switch {
	case key == s.keys[:1]:
		if down != s.held {
			s.held, s.from, s.at = down, m.now, 1
		}
	case !down || !s.held:
	case s.at < len(s.keys) && key == s.keys[s.at:s.at+1]:
		s.at++
		if s.at == len(s.keys) && m.now-s.from >= heldFor {
			s.held = false
			m.Open()
		}
	default:
		s.at = 1
		if !strings.Contains(s.keys, key) {
			s.held = false
		}
	}
}

// Held says whether the keeper's first key is down: no other key acts meanwhile.
func (m *Machine) Held() bool { return m.sequence.held }

// Open opens the keeper's page.
func (m *Machine) Open() {
	if m.stage == Playing || m.stage == Cloud || m.stage == Parting || m.stage == Result {
		m.crew.Stop()
	}
	m.touched = m.now
	m.enter(Keeper)
}

// keeper is a touch on the keeper's page.
func (m *Machine) keeper(t Target) {
	switch t {
	case KeeperTest:
		m.tested = [TestColumns * TestRows]bool{}
		m.enter(Test)
	case KeeperWipe:
		m.enter(Wiping)
	case KeeperBack:
		m.sleep()
	case KeeperLeave:
		m.leaving = true
	}
}

// TouchAt is a touch at a place of the screen, in shares of its width and height: it
// answers the touch test.
func (m *Machine) TouchAt(x, y float64) {
	if m.stage != Test || x < 0 || x >= 1 || y < 0 || y >= 1 {
		return
	}
	m.touched = m.now
	if m.Untouched() == 0 {
		m.enter(Keeper)
		return
	}
	m.tested[int(y*TestRows)*TestColumns+int(x*TestColumns)] = true
}

// Tested says whether a square has answered.
func (m *Machine) Tested(column, row int) bool { return m.tested[row*TestColumns+column] }

// Untouched is how many squares have not.
func (m *Machine) Untouched() (n int) {
	for _, ok := range m.tested {
		if !ok {
			n++
		}
	}
	return n
}
