// Command make writes the desktop's files below a folder.
package main

import (
	"fmt"
	"os"

	"stillair/internal/share"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: make FOLDER")
		os.Exit(2)
	}
	if err := share.WriteAll(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
