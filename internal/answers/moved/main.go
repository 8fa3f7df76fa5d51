// Command moved holds where the shipped flights end against an older table of answers:
// that of a file, or of standard input for -. Without one it prints the table as it is
// now. The exit status is 1 if an answer has moved.
package main

import (
	"fmt"
	"io"
	"os"

	"stillair/internal/answers"
)

func main() {
	moved, err := run(os.Args[1:], os.Stdin, os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, "moved:", err)
		os.Exit(2)
	}
	if moved {
		os.Exit(1)
	}
}

// run says whether an answer has moved.
func run(args []string, in io.Reader, out io.Writer) (moved bool, err error) {
	now, err := answers.Worked()
	if err != nil {
		return false, err
	}
	if len(args) == 0 {
		return false, answers.Write(out, now)
	}
	if args[0] != "-" {
		f, err := os.Open(args[0])
		if err != nil {
			return false, err
		}
		defer f.Close()
		in = f
	}
	old, err := answers.Read(in)
	if err != nil {
		return false, err
	}
	for _, m := range answers.Moves(old, now) {
		fmt.Fprintln(out, m)
		moved = moved || m.Far()
	}
	return moved, nil
}
