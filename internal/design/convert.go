package design

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"rodwork/internal/diag"
)

// convert turns the parser's tree into nodes, with tight places.
func (rd *reader) convert(n ast.Node, depth int) *node {
	if depth > maxNesting {
		at := rd.tokenAt(n.GetToken())
		if !rd.deep {
			rd.add("nesting", at, "Nested too deep", fmt.Sprintf("Values may nest %d deep.", maxNesting), "")
		}
		rd.deep = true
		return &node{shape: absent, at: at}
	}
	switch n := n.(type) {
	case *ast.MappingNode:
		return rd.mapping(n, depth)
	case *ast.MappingValueNode:
		m := &node{shape: mapping}
		rd.entry(m, n, depth)
		m.at = m.entries[0].keyAt
		return m
	case *ast.SequenceNode:
		return rd.sequence(n, depth)
	case *ast.NullNode:
		return &node{shape: absent, at: rd.tokenAt(n.GetToken())}
	case *ast.StringNode:
		t := n.GetToken()
		return &node{shape: scalar, text: n.Value, at: rd.tokenAt(t),
			quoted: t.Type == token.SingleQuoteType || t.Type == token.DoubleQuoteType}
	}
	return &node{shape: scalar, text: n.GetToken().Value, at: rd.tokenAt(n.GetToken())}
}

func (rd *reader) mapping(n *ast.MappingNode, depth int) *node {
	m := &node{shape: mapping, flow: n.IsFlowStyle, at: rd.tokenAt(n.Start)}
	for _, v := range n.Values {
		rd.entry(m, v, depth)
	}
	if n.IsFlowStyle {
		m.at, m.end = rd.to(n.Start, n.End), tokenPos(n.End)
	} else if len(m.entries) > 0 {
		m.at = m.entries[0].keyAt
	}
	return m
}

func (rd *reader) entry(m *node, v *ast.MappingValueNode, depth int) {
	k := v.Key.GetToken()
	e := entry{key: k.Value, keyAt: rd.tokenAt(k), val: rd.convert(v.Value, depth+1)}
	if e.val.shape == absent {
		e.val.at = e.keyAt
	}
	if m.flow && strings.Contains(e.key, "\n") {
		e.key = strings.Join(strings.Fields(e.key), " ")
	}
	if first, dup := m.get(e.key); dup {
		rd.add("duplicate-key", e.keyAt, fmt.Sprintf("The key %q stands twice", clip(e.key)),
			fmt.Sprintf("It was written at line %d already.", first.keyAt.Start.Line), "")
		return
	}
	m.entries = append(m.entries, e)
}

func (rd *reader) sequence(n *ast.SequenceNode, depth int) *node {
	s := &node{shape: sequence, flow: n.IsFlowStyle, at: rd.tokenAt(n.Start)}
	for _, v := range n.Values {
		s.items = append(s.items, rd.convert(v, depth+1))
	}
	if n.IsFlowStyle {
		s.at, s.end = rd.to(n.Start, n.End), tokenPos(n.End)
	}
	return s
}

func tokenPos(t *token.Token) diag.Pos {
	if t == nil {
		return diag.Pos{}
	}
	return diag.Pos{Line: t.Position.Line, Col: t.Position.Column}
}

// to returns the range of a flow collection; one that runs over several lines
// is named by its opening bracket.
func (rd *reader) to(start, end *token.Token) diag.Range {
	r := rd.tokenAt(start)
	if end != nil && end.Position.Line == start.Position.Line {
		r.End.Col = end.Position.Column + 1
	}
	return r
}

// tokenAt returns the tight range of a token: of quoted text with its quotes,
// of a text over several lines its first.
func (rd *reader) tokenAt(t *token.Token) diag.Range {
	line, col := t.Position.Line, t.Position.Column
	switch t.Type {
	case token.SingleQuoteType, token.DoubleQuoteType:
		return rd.spot(line, col, rd.quoteEnd(line, col))
	case token.NullType, token.ImplicitNullType:
		return rd.spot(line, col, col+len([]rune(t.Value)))
	}
	text := []rune(firstLine(t.Value))
	if line <= len(rd.lines) { // a folded text's value is longer than its first line
		text = text[:min(len(text), max(1, len(rd.lines[line-1])-col+1))]
	}
	return rd.spot(line, col, col+len(text))
}

// quoteEnd returns the column behind the quote that closes the one at col, or
// that behind the line where it does not close there.
func (rd *reader) quoteEnd(line, col int) int {
	if line > len(rd.lines) {
		return col + 1
	}
	l := rd.lines[line-1]
	if i, ok := closingQuote(l, col-1); ok {
		return i + 2
	}
	return len(l) + 1
}

// closingQuote returns the index of the quote that closes the one at i.
func closingQuote(l []rune, i int) (int, bool) {
	if i < 0 || i >= len(l) {
		return i, false
	}
	q := l[i]
	for j := i + 1; j < len(l); j++ {
		switch {
		case q == '"' && l[j] == '\\':
			j++
		case l[j] != q:
		case q == '\'' && j+1 < len(l) && l[j+1] == q:
			j++
		default:
			return j, true
		}
	}
	return i, false
}

// brackets looks for a bracket or a quote that is not closed and says where it
// opens, which the parser can tell only from where it gave up.
func (rd *reader) brackets() (diag.Diagnostic, bool) {
	type open struct {
		r          rune
		line, col  int
		lineIndent int
	}
	var stack []open
	wrong := func(at diag.Range, what, detail string) (diag.Diagnostic, bool) {
		return diag.Diagnostic{Code: "yaml", At: at, Summary: what, Detail: detail, Offending: rd.textAt(at)}, true
	}
	for i, l := range rd.lines {
		indent := 0
		for indent < len(l) && l[indent] == ' ' {
			indent++
		}
		if indent == len(l) || l[indent] == '#' {
			continue
		}
		if n := len(stack); n > 0 && indent <= stack[n-1].lineIndent && l[indent] != '}' && l[indent] != ']' {
			o := stack[n-1]
			return wrong(rd.spot(o.line, o.col, o.col+1), "A bracket is not closed", fmt.Sprintf("The '%c' that opens here has no partner.", o.r))
		}
		last := rune(0) // that is no space, before j
		list := true    // nothing but dashes stands before j
		for j := indent; j < len(l); j++ {
			before := rune(' ')
			if j > 0 {
				before = l[j-1]
			}
			if j > indent && before != ' ' {
				last = before
			}
			list = list && (last == 0 || last == '-')
			value := last == 0 || last == ':' || last == '-' && list || len(stack) > 0 && strings.ContainsRune(",[{", last)
			switch r := l[j]; {
			case r == ':' && (j+1 == len(l) || l[j+1] == ' ') && (last == 0 || last == '-' && list || len(stack) > 0 && strings.ContainsRune(",{", last)):
				return wrong(rd.spot(i+1, j+1, j+2), "A key is missing", "Before this ':' a key should stand.")
			case r == '#' && before == ' ':
				j = len(l)
			case (r == '"' || r == '\'') && value && strings.ContainsRune(" [{,", before):
				end, ok := closingQuote(l, j)
				if !ok {
					return wrong(rd.spot(i+1, j+1, len(l)+1), "A quote is not closed", "A text in quotes ends on its own line, with the same quote.")
				}
				j, last = end, l[end]
			case (r == '{' || r == '[') && value:
				stack = append(stack, open{r, i + 1, j + 1, indent})
			case (r == '}' || r == ']') && len(stack) > 0:
				o := stack[len(stack)-1]
				if (o.r == '{') != (r == '}') {
					return wrong(rd.spot(i+1, j+1, j+2), "A bracket of the other kind", fmt.Sprintf("A '%c' was opened at column %d.", o.r, o.col))
				}
				stack = stack[:len(stack)-1]
			}
		}
	}
	if len(stack) > 0 {
		o := stack[len(stack)-1]
		return wrong(rd.spot(o.line, o.col, o.col+1), "A bracket is not closed", fmt.Sprintf("The '%c' that opens here has no partner.", o.r))
	}
	return diag.Diagnostic{}, false
}
