package cli

import (
	"strings"

	"github.com/alecthomas/kong"

	"rodwork/internal/diag"
)

// mend returns the command line that was most likely meant, or "" where it has
// no good guess: the nearest command for a misspelt one, the nearest flag of
// that command for a misspelt flag, and a command for a bare file.
func mend(app *kong.Application, args []string) string {
	fixed := append([]string{}, args...)
	changed := false
	var node *kong.Node
	for i, a := range args {
		if strings.HasPrefix(a, "-") {
			continue
		}
		node = child(app, a)
		if node == nil {
			near := nearestCommand(app, a)
			if near == "" {
				break
			}
			if strings.HasSuffix(a, ".yaml") || strings.HasSuffix(a, ".yml") {
				fixed = append([]string{"check"}, fixed...)
			} else {
				fixed[i] = near
			}
			node, changed = child(app, near), true
		}
		break
	}
	if node == nil {
		node = app.DefaultCmd
	}
	for i, a := range fixed {
		if better := nearestFlag(node, a); better != "" {
			fixed[i], changed = better, true
		}
	}
	if changed {
		return "did you mean: rodwork " + commandLine(fixed)
	}
	if node != nil && node != app.DefaultCmd {
		return "usage: " + usage(node)
	}
	return ""
}

func child(app *kong.Application, name string) *kong.Node {
	for _, c := range app.Children {
		if c.Name == name {
			return c
		}
	}
	return nil
}

// alike are words that people bring for what is called otherwise here.
var alike = map[string]string{
	"cutlist": "parts", "list": "parts", "layout": "sheets", "layouts": "sheets", "nest": "sheets",
	"kerfs": "bends", "assemble": "steps", "order": "steps", "cost": "buy", "shopping": "buy",
	"verify": "check", "lint": "check", "validate": "check", "build": "book", "make": "book",
	"csv": "export", "xlsx": "export", "glb": "export", "save": "export",
	"why": "explain", "init": "new", "create": "new", "edit": "set", "help": "--help",
}

func nearestCommand(app *kong.Application, word string) string {
	if strings.HasSuffix(word, ".yaml") || strings.HasSuffix(word, ".yml") {
		return "check"
	}
	if w, ok := alike[strings.ToLower(word)]; ok {
		return w
	}
	var names []string
	for _, c := range app.Children {
		names = append(names, c.Name)
	}
	return diag.Nearest(word, names)
}

// nearestFlag returns the flag that a misspelt one should have been, its value
// kept; "" for a right one, for none near, and for what is no flag.
func nearestFlag(n *kong.Node, arg string) string {
	if n == nil || !strings.HasPrefix(arg, "--") || arg == "--" {
		return ""
	}
	name, value, hasValue := strings.Cut(arg[2:], "=")
	known := []string{"help"}
	for _, f := range n.Flags {
		known = append(known, f.Name)
	}
	for _, k := range known {
		if k == name {
			return ""
		}
	}
	near := diag.Nearest(name, known)
	if near == "" {
		return ""
	}
	if hasValue {
		return "--" + near + "=" + value
	}
	return "--" + near
}

// commandLine quotes what a shell would split.
func commandLine(args []string) string {
	out := make([]string, len(args))
	for i, a := range args {
		if a == "" || strings.ContainsAny(a, " \t'\"\\$`*?;&|<>()") {
			a = "'" + strings.ReplaceAll(a, "'", `'\''`) + "'"
		}
		out[i] = a
	}
	return strings.Join(out, " ")
}
