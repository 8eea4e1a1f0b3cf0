package design

import (
	"fmt"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
)

// habit is what the shop does where a piece file is silent, or, where the shop
// file is silent too, what the program takes, with the reason.
type habit struct {
	num  trace.Num
	word string
	at   diag.Range // zero for a rule of the program
	rule bool
	why  string
}

// num returns a written number.
func (r *rec) num(key string) (trace.Num, bool) {
	if r == nil {
		return trace.Num{}, false
	}
	s := r.vals[key]
	if s == nil || !s.ok {
		return trace.Num{}, false
	}
	return s.val.Num, true
}

// maybe returns a written number, nil where there is none.
func (r *rec) maybe(key string) *trace.Num {
	n, ok := r.num(key)
	if !ok {
		return nil
	}
	return &n
}

// must returns a written number; 0 where it is missing, which was reported.
func (r *rec) must(key string) trace.Num {
	n, _ := r.num(key)
	return n
}

// numOr returns a number, written or filled in, and books what filled it in.
func (r *rec) numOr(key string) trace.Num {
	if n, ok := r.num(key); ok {
		return n
	}
	f := r.obj.field(key)
	path := join(r.path, key)
	if h, ok := r.d.habits[f.habit]; f.habit != "" && ok {
		in := trace.Input{Kind: trace.Habit, Path: path, At: h.at,
			Text: fmt.Sprintf("habit '%s' of the shop: %s", f.habit, printed(h.num.V, f.dim))}
		if h.rule {
			in.Kind, in.Text = trace.Rule, h.why
		}
		return r.d.led.Own(h.num, in)
	}
	if f.own == nil {
		return trace.Num{}
	}
	return r.d.led.Var(f.own.v, trace.Input{Kind: trace.Rule, Path: path, Text: f.own.why, At: placeOf(r.d.places, r.path)})
}

// whole returns a count, written or filled in.
func (r *rec) whole(key string) int {
	if n, ok := r.num(key); ok {
		return int(n.V)
	}
	if f := r.obj.field(key); f.own != nil || f.habit != "" {
		return int(r.numOr(key).V)
	}
	return 0
}

// word returns a written word, or "" where none or a wrong one is written.
func (r *rec) word(key string) string {
	if r == nil {
		return ""
	}
	s := r.vals[key]
	if s == nil || !s.ok || s.n.shape != scalar {
		return ""
	}
	return s.n.text
}

// wordOr returns a word, written or filled in, and books what filled it in.
func (r *rec) wordOr(key string) string {
	if r.vals[key] != nil {
		return r.word(key)
	}
	f := r.obj.field(key)
	in := trace.Input{Kind: trace.Habit, Path: join(r.path, key)}
	w := ""
	if h, ok := r.d.habits[f.habit]; f.habit != "" && ok {
		w, in.At, in.Text = h.word, h.at, fmt.Sprintf("habit '%s' of the shop: %s", f.habit, h.word)
		if h.rule {
			in.Kind, in.Text = trace.Rule, h.word+": "+h.why
		}
	} else if f.own != nil {
		w, in.Kind, in.Text = f.own.word, trace.Rule, f.own.word+": "+f.own.why
		in.At = placeOf(r.d.places, r.path)
	}
	if w != "" {
		r.d.led.Var(0, in)
	}
	return w
}

// said reports whether one of the words that may stand instead of a quantity is
// written there.
func (r *rec) said(key, word string) bool {
	s := r.vals[key]
	return s != nil && s.n.shape == scalar && s.n.text == word
}

// strings returns the texts of a list.
func (r *rec) strings(key string) []string {
	var out []string
	if s := r.vals[key]; s != nil {
		for _, it := range s.items {
			if it.ok {
				out = append(out, it.n.text)
			}
		}
	}
	return out
}

// nums returns the numbers of a list.
func (r *rec) nums(key string) []trace.Num {
	var out []trace.Num
	if s := r.vals[key]; s != nil {
		for _, it := range s.items {
			if it.ok {
				out = append(out, it.val.Num)
			}
		}
	}
	return out
}

// sub returns an object behind a key, or nil.
func (r *rec) sub(key string) *rec {
	if r == nil {
		return nil
	}
	return r.subs[key]
}

// where returns the place of a key's value, or of the object.
func (r *rec) where(key string) diag.Range {
	if s := r.vals[key]; s != nil {
		return s.n.at
	}
	return r.at
}

// fill books the habits of a shop file: those that it has, and the program's
// own for the others.
func (d *decoder) fill(o *object, r *rec, path string) {
	for i := range o.fields {
		f := &o.fields[i]
		if f.kind == anObject {
			d.fill(f.sub, r.sub(f.key), join(path, f.key))
			continue
		}
		h := habit{rule: true}
		if f.own != nil {
			h.why, h.word = f.own.why, f.own.word
		}
		number := f.kind == aQuantity || f.kind == aCount
		written := r != nil && r.vals[f.key] != nil && r.vals[f.key].ok
		switch {
		case written && number:
			h = habit{num: r.vals[f.key].val.Num, at: r.vals[f.key].n.at}
		case written:
			h = habit{word: r.word(f.key), at: r.vals[f.key].n.at}
		case number && f.own != nil:
			h.num = d.led.Var(f.own.v, trace.Input{Kind: trace.Rule, Path: join(path, f.key), Text: f.own.why})
		case f.own == nil:
			continue
		}
		d.habits[f.key] = h
	}
}
