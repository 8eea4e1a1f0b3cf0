// Command bench-sheets runs the search for layouts over the public sets of the
// literature and prints what it finds beside the published values.
//
//	go run ./tools/bench-sheets -data DIR [-set bw] [-effort 100] [-out FILE]
//
// DIR holds the sets in their public form: rectangles/bw_mv_500/*.2bp,
// rectangles/silva2010/*.json, lengths/small_set_proved.json, and tables with
// the published values. They are not part of this repository, except for the
// subset that its tests use. Nothing of the tables reaches the search: they are
// read after it, to compare.
package main

import (
	"flag"
	"fmt"
	"os"
	"regexp"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "bench-sheets:", err)
		os.Exit(1)
	}
}

// options is what the command line says.
type options struct {
	data, set, out string
	effort         int
	bounds         bool // only the bounds
	only           *regexp.Regexp
	open           bool // only what our first layout does not prove
	verbose        bool
}

func run() error {
	var o options
	only := ""
	flag.StringVar(&o.data, "data", "", "folder of the public sets")
	flag.StringVar(&o.set, "set", "bw", "bw, silva or lengths")
	flag.StringVar(&o.out, "out", "", "write a table in Markdown to this file")
	flag.IntVar(&o.effort, "effort", 0, "units of effort for each instance")
	flag.BoolVar(&o.bounds, "bounds", false, "only prove bounds")
	flag.BoolVar(&o.open, "open", false, "only instances that a first layout leaves open; others count as they are")
	flag.BoolVar(&o.verbose, "v", false, "a line for each instance over the published value")
	flag.StringVar(&only, "only", "", "only instances whose name matches, such as '^7/40/'")
	flag.Parse()
	re, err := regexp.Compile(only)
	if err != nil {
		return err
	}
	o.only = re
	switch o.set {
	case "bw":
		return rectangles(o, readBerkeyMartello)
	case "silva":
		return rectangles(o, readSilva)
	case "lengths":
		return lengths(o)
	}
	return fmt.Errorf("no set %q", o.set)
}
