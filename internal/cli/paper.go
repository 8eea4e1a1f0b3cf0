package cli

import (
	"encoding"
	"fmt"
	"strings"

	"rodwork/internal/book/pdf"
)

// paperFlag is a pdf.Paper as a flag.
type paperFlag pdf.Paper

var _ encoding.TextUnmarshaler = (*paperFlag)(nil)

// UnmarshalText accepts a4 and letter, in any case.
func (f *paperFlag) UnmarshalText(text []byte) error {
	switch w := pdf.Paper(strings.ToLower(string(text))); w {
	case pdf.A4, pdf.Letter:
		*f = paperFlag(w)
		return nil
	}
	return fmt.Errorf("%q is neither a4 nor letter", text)
}
