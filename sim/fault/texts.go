package fault

import (
	_ "embed"
	"sync"

	"github.com/pelletier/go-toml/v2"
)

// Text is an entry of the catalogue in plain words.
type Text struct {
	Breaks string `toml:"breaks"` // what is wrong
	Sees   string `toml:"sees"`   // what the crew see of it
	Told   string `toml:"told"`   // how it is told from what looks like it
	Remedy string `toml:"remedy"` // what to do, and what stays
	// Alike are up to three faults that it may be taken for.
	Alike []Alike `toml:"alike"`
}

// Alike is a fault that another may be taken for, by its id, and the one check that
// tells the two apart.
type Alike struct {
	ID    string `toml:"id" json:"id"`
	Check string `toml:"check" json:"check"`
}

//go:embed data/texts.toml
var textsTOML []byte

// texts reads the embedded file once; a bad one is a fault of the program.
var texts = sync.OnceValue(func() map[string]Text {
	m := map[string]Text{}
	if err := toml.Unmarshal(textsTOML, &m); err != nil {
		panic(err)
	}
	return m
})

// Text is the entry in plain words.
func (e *Entry) Text() Text { return texts()[e.ID] }
