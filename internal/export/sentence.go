package export

import (
	"strings"

	"rodwork/internal/say"
	"rodwork/internal/units"
)

// Text prints a sentence as plain text, in the given units.
func Text(s say.Sentence, sys units.System) string {
	var b strings.Builder
	for _, sp := range s {
		switch {
		case sp.Q == nil:
			b.WriteString(sp.Text)
		case sp.Q.Bare:
			b.WriteString(units.FormatBare(sp.Q.V, sp.Q.Dim, sys, sp.Q.Decimals))
		default:
			b.WriteString(units.Format(sp.Q.V, sp.Q.Dim, sys, sp.Q.Decimals))
		}
	}
	return b.String()
}
