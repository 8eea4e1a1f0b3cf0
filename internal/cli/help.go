package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"
)

const purpose = "Rodwork computes the rod of a piece of furniture: from one text file that says what it is, every part, cut, bend, layout and step, each number with where it comes from."

// helpWidth is the number of columns that help is set in, whatever the
// terminal, so that the printed manual is the same text.
const helpWidth = 78

// The ways in which commands end, said at the end of their help.
const (
	exitOfPiece = `0  fine
1  done, but a finding says stop: don't cut yet
2  the piece or shop file could not be used, or the output not written`
	exitOfPlain = `0  fine
2  an argument was wrong, or the output could not be written`
)

// exitHelper is a command that says how it ends.
type exitHelper interface{ exits() string }

// printHelp is kong's printer of help; see writeHelp.
func printHelp(_ kong.HelpOptions, ctx *kong.Context) error {
	node := ctx.Selected()
	// Without a command kong selects the default one; a person who says only
	// --help wants to see what there is.
	if node == nil || len(ctx.Args) > 0 && !named(ctx.Args, node.Name) {
		writeAppHelp(ctx.Stdout, ctx.Model)
		return nil
	}
	writeHelp(ctx.Stdout, node)
	return nil
}

func named(args []string, name string) bool {
	for _, a := range args {
		if a == name {
			return true
		}
	}
	return false
}

// writeAppHelp prints what there is.
func writeAppHelp(w io.Writer, app *kong.Application) {
	fmt.Fprintf(w, "%s\n\nusage: rodwork [command] [flags]\n\ncommands:\n", wrap(app.Help, helpWidth))
	var rows [][2]string
	for _, c := range app.Children {
		if c.Hidden {
			continue
		}
		rows = append(rows, [2]string{c.Name, c.Help})
	}
	writeRows(w, rows)
	fmt.Fprintf(w, "\n%s\n", wrap("rodwork COMMAND --help tells more of each. rodwork alone opens the example as a page.", helpWidth))
	fmt.Fprintf(w, "\nexit status:\n%s\n", indent(exitOfPiece+"\n130 interrupted; nothing is left half written"))
}

// writeHelp prints one command: what it does, how it is called, how it ends.
func writeHelp(w io.Writer, n *kong.Node) {
	fmt.Fprintf(w, "%s\n\nusage: %s\n", wrap("rodwork "+n.Name+": "+n.Help, helpWidth), usage(n))
	if n.Detail != "" {
		fmt.Fprintf(w, "\n%s\n", paragraphs(n.Detail))
	}
	var rows [][2]string
	for _, p := range n.Positional {
		rows = append(rows, [2]string{argName(p), p.Help})
	}
	if len(rows) > 0 {
		fmt.Fprint(w, "\narguments:\n")
		writeRows(w, rows)
	}
	rows = nil
	for _, f := range n.Flags {
		if f.Hidden {
			continue
		}
		rows = append(rows, [2]string{flagName(f), f.Help})
	}
	rows = append(rows, [2]string{"-h, --help", "print this"})
	fmt.Fprint(w, "\nflags:\n")
	writeRows(w, rows)
	if e, ok := n.Target.Addr().Interface().(exitHelper); ok {
		fmt.Fprintf(w, "\nexit status:\n%s\n", indent(e.exits()))
	}
}

// usage is the command line in short: 'rodwork book FILE --out=DIR [flags]'.
func usage(n *kong.Node) string {
	parts := []string{"rodwork", n.Name}
	for _, p := range n.Positional {
		name := argName(p)
		if !p.Required {
			name = "[" + name + "]"
		}
		parts = append(parts, name)
	}
	optional := false
	for _, f := range n.Flags {
		switch {
		case f.Required:
			parts = append(parts, flagName(f)[len("-x, "):])
		case !f.Hidden:
			optional = true
		}
	}
	if optional {
		parts = append(parts, "[flags]")
	}
	return strings.Join(parts, " ")
}

func argName(p *kong.Value) string {
	name := strings.ToUpper(strings.ReplaceAll(p.Name, "-", " "))
	if p.Tag.PlaceHolder != "" {
		name = p.Tag.PlaceHolder
	}
	if p.IsCumulative() {
		name += " …"
	}
	return name
}

func flagName(f *kong.Flag) string {
	short := "    "
	if f.Short != 0 {
		short = "-" + string(f.Short) + ", "
	}
	name := short + "--" + f.Name
	if !f.IsBool() {
		place := f.PlaceHolder
		if place == "" {
			place = strings.ToUpper(f.Name)
		}
		name += "=" + place
	}
	return name
}

// writeRows prints names and what they are, in two columns.
func writeRows(w io.Writer, rows [][2]string) {
	wide := 0
	for _, r := range rows {
		wide = max(wide, len([]rune(r[0])))
	}
	wide = min(wide, 24)
	for _, r := range rows {
		text := strings.Split(wrap(r[1], helpWidth-wide-4), "\n")
		pad := wide - len([]rune(r[0]))
		first := "  " + r[0] + strings.Repeat(" ", max(pad, 0)) + "  "
		if pad < 0 {
			fmt.Fprintln(w, strings.TrimRight(first, " "))
			first = strings.Repeat(" ", wide+4)
		}
		for i, line := range text {
			if i > 0 {
				first = strings.Repeat(" ", wide+4)
			}
			fmt.Fprintln(w, strings.TrimRight(first+line, " "))
		}
	}
}

// paragraphs wraps a text paragraph by paragraph; indented ones stay as they are.
func paragraphs(text string) string {
	parts := strings.Split(strings.TrimSpace(text), "\n\n")
	for i, p := range parts {
		if !strings.HasPrefix(p, " ") {
			parts[i] = wrap(p, helpWidth)
		}
	}
	return strings.Join(parts, "\n\n")
}

// wrap breaks a text at spaces into lines of at most width columns.
func wrap(text string, width int) string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case len([]rune(line))+1+len([]rune(word)) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return strings.Join(append(lines, line), "\n")
}

func indent(text string) string { return "  " + strings.ReplaceAll(text, "\n", "\n  ") }
