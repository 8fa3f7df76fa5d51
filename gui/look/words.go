package look

import (
	_ "embed"
	"fmt"
	"sync"
	"sync/atomic"
	"unicode"
	"unicode/utf8"

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

// spoken are strings that stand in other words.
var spoken atomic.Pointer[map[Key]string]

// Speak has some strings of the interface stand in other words, those of another
// language, until it is called again; nil: none. What is already drawn stays.
func Speak(words map[Key]string) { spoken.Store(&words) }

// Text is the string for a key.
func Text(k Key) string {
	if words := spoken.Load(); words != nil {
		if s, ok := (*words)[k]; ok {
			return s
		}
	}
	s, ok := catalogue()[k]
	if !ok {
		return "?" + string(k) // seen at once; a test allows no such key
	}
	return s
}

// Textf is the string for a key with its places filled in.
func Textf(k Key, args ...any) string { return fmt.Sprintf(Text(k), args...) }

// Capital begins words with a capital.
func Capital(words string) string { return began(words, unicode.ToUpper) }

// Lower begins words without one, to stand within a sentence.
func Lower(words string) string { return began(words, unicode.ToLower) }

func began(words string, with func(rune) rune) string {
	first, n := utf8.DecodeRuneInString(words)
	if n == 0 {
		return words
	}
	return string(with(first)) + words[n:]
}
