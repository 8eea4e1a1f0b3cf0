package cli

import (
	"fmt"
	"runtime/debug"
)

type versionCmd struct{}

// Help tells more of the command.
func (*versionCmd) Help() string {
	return `Prints the version that this program was built from, and the Go that built it.`
}

func (*versionCmd) exits() string { return exitOfPlain }

// Run prints the version.
func (*versionCmd) Run(s *session) error {
	_, err := fmt.Fprintln(s.out, versionText(debug.ReadBuildInfo()))
	return err
}

func versionText(info *debug.BuildInfo, ok bool) string {
	if !ok {
		return "rodwork, of unknown version"
	}
	version, commit := info.Main.Version, ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = ", commit " + s.Value[:min(12, len(s.Value))]
		case s.Key == "vcs.modified" && s.Value == "true":
			commit += " with changes"
		}
	}
	if version == "" || version == "(devel)" {
		version = "of a working tree"
	}
	return fmt.Sprintf("rodwork %s%s (%s)", version, commit, info.GoVersion)
}
