// Package look is the identity of stillair: colours, type, sizes, symbols and
// the words of the interface. It draws nothing and knows no toolkit.
//
// Colours come as a Palette of named tokens, one for each variant of the
// light: paper, night and lamp; the lamp has two more for its chart, lit by the
// pool of red light and outside it. Sizes are given for a window of 1080 lines
// and scaled by a Size. Every word shown stands in messages.toml.
package look
