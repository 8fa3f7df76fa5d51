package look

import (
	_ "embed"
	"fmt"
	"sync"

	"github.com/pelletier/go-toml/v2"
)

// Key names one string of the interface. All of them stand in messages.toml; a
// test compares the two lists.
type Key string

//go:embed messages.toml
var messages []byte

var catalogue = sync.OnceValue(func() map[Key]string {
	words := map[Key]string{}
	if err := toml.Unmarshal(messages, &words); err != nil {
		panic(fmt.Sprintf("messages.toml: %v", err)) // an embedded file that a test reads
	}
	return words
})

// Text is the string for a key.
func Text(k Key) string {
	s, ok := catalogue()[k]
	if !ok {
		return "?" + string(k) // seen at once; a test allows no such key
	}
	return s
}

// Textf is the string for a key with its places filled in.
func Textf(k Key, args ...any) string { return fmt.Sprintf(Text(k), args...) }
