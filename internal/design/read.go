package design

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"rodwork/internal/diag"
)

// Bounds of a document.
const (
	maxBytes   = 1 << 20
	maxNesting = 32
	// maxTokens bounds the words and marks of a file, some twenty times what a
	// large piece needs: the parser takes a time that grows with their square.
	maxTokens = 20_000
)

// reader turns the bytes of one document into nodes.
type reader struct {
	file  string
	lines [][]rune
	out   diag.List
	deep  bool // too deep, and told
}

// readTree reads a document. The node is nil if it cannot be read at all.
func readTree(file string, src []byte) (*node, diag.List) {
	rd := &reader{file: file}
	if !rd.checkBytes(src) {
		return nil, rd.out
	}
	rd.lines = splitLines(src)
	if !rd.checkText() {
		return nil, rd.out
	}
	tokens := lexer.Tokenize(string(src))
	if !rd.checkTokens(tokens) {
		return nil, rd.out
	}
	f := rd.parse(tokens)
	if f == nil {
		return nil, rd.out
	}
	root := &node{shape: absent, at: rd.spot(1, 1, 1)}
	if len(f.Docs) > 0 && f.Docs[0].Body != nil {
		root = rd.convert(f.Docs[0].Body, 0)
	}
	if root.shape == absent || root.shape == scalar {
		rd.add("not-a-file", root.at, "This is no list of keys", "The file should begin with 'rodwork: 1', and have one key to a line.", "rodwork: 1")
		return nil, rd.out
	}
	return root, rd.out
}

func splitLines(src []byte) [][]rune {
	var out [][]rune
	for _, l := range strings.Split(string(src), "\n") {
		out = append(out, []rune(strings.TrimRight(l, "\r")))
	}
	return out
}

func (rd *reader) spot(line, from, to int) diag.Range {
	return diag.Range{File: rd.file, Start: diag.Pos{Line: line, Col: from}, End: diag.Pos{Line: line, Col: max(to, from+1)}}
}

func (rd *reader) add(code string, at diag.Range, summary, detail, expected string) *diag.Diagnostic {
	rd.out = append(rd.out, diag.Diagnostic{Code: code, At: at, Summary: summary, Detail: detail, Expected: expected,
		Offending: rd.textAt(at)})
	return &rd.out[len(rd.out)-1]
}

// textAt returns what stands at a range of one line.
func (rd *reader) textAt(at diag.Range) string { return textIn(rd.lines, at) }

func textIn(lines [][]rune, at diag.Range) string {
	if at.Start.Line < 1 || at.Start.Line > len(lines) {
		return ""
	}
	l := lines[at.Start.Line-1]
	from, to := min(at.Start.Col-1, len(l)), len(l)
	if at.End.Line == at.Start.Line {
		to = min(at.End.Col-1, len(l))
	}
	if from < 0 || to < from {
		return ""
	}
	return clip(string(l[from:to]))
}

func (rd *reader) checkBytes(src []byte) bool {
	if len(src) > maxBytes {
		rd.add("file-too-large", rd.spot(1, 1, 2), "The file is too large",
			fmt.Sprintf("It has %d bytes; a file may have %d.", len(src), maxBytes), "")
		return false
	}
	if !utf8.Valid(src) {
		line := 1
		for len(src) > 0 {
			r, n := utf8.DecodeRune(src)
			if r == utf8.RuneError && n == 1 {
				break
			}
			if r == '\n' {
				line++
			}
			src = src[n:]
		}
		rd.add("encoding", rd.spot(line, 1, 2), "The file is not UTF-8", "A letter on this line cannot be read. Save the file as UTF-8.", "")
		return false
	}
	if len(bytes.TrimSpace(src)) == 0 {
		rd.add("empty-file", rd.spot(1, 1, 2), "The file is empty", "It should begin with 'rodwork: 1'.", "rodwork: 1")
		return false
	}
	return true
}

// checkText refuses tabs and control letters: YAML forbids tabs as indents, and
// elsewhere they make columns lie.
func (rd *reader) checkText() bool {
	for i, l := range rd.lines {
		for j, r := range l {
			switch {
			case r == '\t':
				if d := rd.add("tab", rd.spot(i+1, j+1, j+2), "A tab", "Indent with spaces: a tab has no width that all editors agree on.", "spaces"); d != nil {
					d.Mend = &diag.Edit{At: d.At, New: "  "}
				}
			case unicode.IsControl(r) || r == '\ufeff' && (i > 0 || j > 0) || r == '\u2028' || r == '\u2029' || r == '\u0085':
				rd.add("control-letter", rd.spot(i+1, j+1, j+2), "A letter that cannot be seen", fmt.Sprintf("U+%04X stands here; take it out.", r), "")
			default:
				continue
			}
			break
		}
		if len(rd.out) >= 20 {
			break
		}
	}
	return len(rd.out) == 0
}

// refused are the marks of YAML that these files do without: each would let a
// value stand somewhere else than where it is read.
var refused = map[token.Type][2]string{
	token.AnchorType:     {"anchor", "An anchor"},
	token.AliasType:      {"alias", "An alias"},
	token.TagType:        {"tag", "A tag"},
	token.MergeKeyType:   {"merge-key", "A merge key"},
	token.DirectiveType:  {"directive", "A directive"},
	token.MappingKeyType: {"question-mark", "A key after '?'"},
	token.LiteralType:    {"block-text", "A text in a block"},
	token.FoldedType:     {"block-text", "A text in a block"},
}

func (rd *reader) checkTokens(tokens token.Tokens) bool {
	if len(tokens) > maxTokens {
		t := tokens[maxTokens]
		rd.add("file-too-large", rd.spot(t.Position.Line, t.Position.Column, t.Position.Column+1), "The file has too many values",
			fmt.Sprintf("Up to here it has %d words and marks, and no more are read.", maxTokens), "")
		return false
	}
	depth, dashes, dashLine, headers := 0, 0, 0, 0
	for i, t := range tokens {
		at := rd.spot(t.Position.Line, t.Position.Column, t.Position.Column+1)
		if w, bad := refused[t.Type]; bad {
			rd.add(w[0], rd.refusedAt(t, tokens, i), w[1], "These files do without it: write the value where it belongs. If a text begins with this mark, put it in quotes.", "")
			if len(rd.out) >= 20 {
				return false
			}
		}
		switch t.Type {
		case token.DocumentHeaderType:
			if headers++; headers > 1 || i > 0 && tokens[i-1].Type != token.CommentType {
				rd.add("several-documents", at, "A second document", "A file holds one piece; '---' begins another.", "")
				return false
			}
		case token.MappingStartType, token.SequenceStartType:
			depth++
		case token.MappingEndType, token.SequenceEndType:
			depth--
		case token.SequenceEntryType:
			if t.Position.Line != dashLine {
				dashes, dashLine = 0, t.Position.Line
			}
			dashes++
		}
		if depth > maxNesting || dashes > maxNesting {
			rd.add("nesting", at, "Nested too deep", fmt.Sprintf("Brackets and lists may nest %d deep.", maxNesting), "")
			return false
		}
	}
	return len(rd.out) == 0
}

func (rd *reader) refusedAt(t *token.Token, tokens token.Tokens, i int) diag.Range {
	n := len([]rune(t.Value))
	if (t.Type == token.AnchorType || t.Type == token.AliasType) && i+1 < len(tokens) && tokens[i+1].Position.Line == t.Position.Line {
		n += len([]rune(tokens[i+1].Value))
	}
	return rd.spot(t.Position.Line, t.Position.Column, t.Position.Column+max(1, n))
}

// located is what the parser's errors of form have.
type located interface {
	GetToken() *token.Token
	GetMessage() string
}

func (rd *reader) parse(tokens token.Tokens) (f *ast.File) {
	defer func() {
		if e := recover(); e != nil { // the parser is not ours: what it cannot take is the file's fault
			f = nil
			rd.add("yaml", rd.spot(1, 1, 2), "The file cannot be read as YAML", "Its brackets, quotes or indents do not go together.", "")
		}
	}()
	if d, bad := rd.brackets(); bad {
		rd.out = append(rd.out, d)
		return nil
	}
	f, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err == nil {
		return f
	}
	at, msg := rd.spot(1, 1, 2), "its brackets, quotes or indents do not go together"
	var l located
	if errors.As(err, &l) {
		msg = l.GetMessage()
		if t := l.GetToken(); t != nil {
			at = rd.spot(t.Position.Line, t.Position.Column, t.Position.Column+len([]rune(firstLine(t.Value))))
		}
	}
	rd.add("yaml", at, "The file cannot be read as YAML", "The form is broken here: "+msg+".", "")
	return nil
}

func firstLine(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	return s
}
