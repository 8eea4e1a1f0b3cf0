package outdir

import (
	"fmt"
	"slices"
	"strings"
)

// longest is the number of bytes that a made name has at most, its extension
// aside; long enough to read, short enough for every file system and for a
// folder deep down in a synchronised tree.
const longest = 72

// latin writes the letters of the trade's European languages in ASCII.
var latin = strings.NewReplacer(
	"ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "å", "a",
	"à", "a", "á", "a", "â", "a", "ã", "a", "ç", "c", "č", "c", "ć", "c", "ď", "d", "đ", "d", "ð", "d",
	"è", "e", "é", "e", "ê", "e", "ë", "e", "ě", "e", "ę", "e", "ą", "a",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ı", "i", "ł", "l", "ñ", "n", "ň", "n", "ń", "n",
	"ò", "o", "ó", "o", "ô", "o", "õ", "o", "ő", "o", "ř", "r", "š", "s", "ś", "s", "ş", "s",
	"ť", "t", "þ", "th", "ù", "u", "ú", "u", "û", "u", "ů", "u", "ű", "u",
	"ý", "y", "ÿ", "y", "ž", "z", "ź", "z", "ż", "z",
	"½", "-1-2", "¼", "-1-4", "¾", "-3-4", "×", "x", "⌀", "dia",
)

// Slug returns the text in lower-case ASCII letters, digits and single hyphens,
// at most longest bytes; "part" where nothing is left of it.
func Slug(text string) string {
	var b strings.Builder
	for _, r := range latin.Replace(strings.ToLower(text)) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= longest {
			break
		}
	}
	s := strings.Trim(b.String(), "-")
	if s == "" {
		return "part"
	}
	return s
}

// Name returns the name of the file about the numbered part, figure or sheet:
// '03-divider-between-hymns-and-desk.svg'. A number below 1 is left away; ext
// is written with its dot.
func Name(number int, title, ext string) string {
	s := Slug(title)
	if number > 0 {
		s = fmt.Sprintf("%02d-%s", number, s)
	} else if reserved(s) {
		s += "-file"
	}
	return s + ext
}

// Names gives out names and makes each one new: a second 'shelf.svg' becomes
// 'shelf-2.svg'. The zero Names has given out none.
type Names struct{ taken map[string]bool }

// Name is [Name], made unique.
func (n *Names) Name(number int, title, ext string) string {
	if n.taken == nil {
		n.taken = map[string]bool{}
	}
	name := Name(number, title, ext)
	for i := 2; n.taken[strings.ToLower(name)]; i++ {
		name = Name(number, fmt.Sprintf("%s-%d", clip(Slug(title), longest-6), i), ext)
	}
	n.taken[strings.ToLower(name)] = true
	return name
}

func clip(s string, n int) string {
	if len(s) > n {
		return strings.TrimRight(s[:n], "-")
	}
	return s
}

// reserved tells whether the name before its first dot is one that Windows
// keeps for a device, whatever the extension.
func reserved(name string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	switch stem {
	case "con", "prn", "aux", "nul", "conin$", "conout$":
		return true
	}
	if len(stem) == 4 && (strings.HasPrefix(stem, "com") || strings.HasPrefix(stem, "lpt")) {
		return stem[3] >= '0' && stem[3] <= '9'
	}
	return false
}

// CheckName returns an error that says why a name is not one for a file in the
// folder: it must be a plain ASCII name that every system takes.
func CheckName(name string) error {
	switch {
	case name == "":
		return fmt.Errorf("a file without a name")
	case len(name) > 120:
		return fmt.Errorf("name %.20q… is longer than 120 bytes", name)
	case name[0] == '.' || name[0] == '-':
		return fmt.Errorf("name %q begins with %q", name, name[:1])
	case strings.HasSuffix(name, "."):
		return fmt.Errorf("name %q ends with a dot", name)
	case reserved(name):
		return fmt.Errorf("name %q is reserved on Windows", name)
	}
	for _, r := range name {
		ok := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' ||
			r == '-' || r == '_' || r == '.'
		if !ok {
			return fmt.Errorf("name %q has %q in it", name, r)
		}
	}
	return nil
}

// checkPath returns an error that says why a name is not one for a file in the
// folder, or for one in a folder of it: "templates/15-door.svg".
func checkPath(name string) error {
	parts := strings.Split(name, "/")
	if len(parts) > 2 {
		return fmt.Errorf("name %q is more than one folder deep", name)
	}
	for _, p := range parts {
		if err := CheckName(p); err != nil {
			return err
		}
	}
	return nil
}

// folderOf returns the folder of the folder that a file is in, "" for none.
func folderOf(name string) string {
	folder, _, ok := strings.Cut(name, "/")
	if !ok {
		return ""
	}
	return folder
}

// foldersOf lists the folders that the files are in, sorted.
func foldersOf(files []File) []string {
	var out []string
	for _, f := range files {
		if sub := folderOf(f.Name); sub != "" && !slices.Contains(out, sub) {
			out = append(out, sub)
		}
	}
	slices.Sort(out)
	return out
}

// checkNames wants every name to be good and no two alike but for capitals, be
// they files or folders.
func checkNames(files []File) error {
	seen := map[string]string{strings.ToLower(ManifestName): ManifestName}
	add := func(name string) error {
		key := strings.ToLower(name)
		if other, dup := seen[key]; dup {
			return fmt.Errorf("names %q and %q are the same on some systems", other, name)
		}
		seen[key] = name
		return nil
	}
	for _, f := range files {
		if err := checkPath(f.Name); err != nil {
			return err
		}
		if err := add(f.Name); err != nil {
			return err
		}
	}
	for _, sub := range foldersOf(files) {
		if err := add(sub); err != nil {
			return err
		}
	}
	return nil
}
