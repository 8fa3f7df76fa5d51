// Command make writes the pictures of the manual into a folder.
package main

import (
	"fmt"
	"os"

	"stillair/internal/pictures"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: make FOLDER")
		os.Exit(2)
	}
	if err := pictures.WriteAll(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
