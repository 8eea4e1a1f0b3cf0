// Rodwork turns the description of a piece of furniture into the rod that a
// joiner would set it out from: every part, cut, bend, joint and step, with
// where each number comes from.
package main

import (
	"os"

	"rodwork/internal/cli"
)

func main() { os.Exit(cli.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
