package web

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"rodwork/examples"
)

// again opens the same files as a later start of the program does.
func again(t *testing.T, d *paper, log *[]byte) *Session {
	t.Helper()
	s, err := Open(t.Context(), Config{Load: d.load, Save: d.save, Token: testToken, Host: testHost,
		Recall:   func() ([]byte, error) { return *log, nil },
		Remember: func(b []byte) error { *log = b; return nil }})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What was changed before the program ended can be taken back after it, and put
// in again; what was changed on the disk in between can be taken back too.
func TestTakingBackOutlivesTheProgram(t *testing.T) {
	d := &paper{}
	d.piece, d.shop = examples.Main()
	var log []byte
	s := again(t, d, &log)
	post(t, s, "/edit", request{Base: 1, Path: "sizes.width", Text: "1500"})
	post(t, s, "/edit", request{Base: 2, Path: "sizes.width", Text: "1510"})
	post(t, s, "/undo", request{Base: 3})
	s = again(t, d, &log)
	if code, a, _ := post(t, s, "/redo", request{Base: 1}); code != 200 || !d.has("width: 1510") || !a.Undo {
		t.Fatalf("redo: %d", code)
	}
	s = again(t, d, &log)
	post(t, s, "/undo", request{Base: 1})
	if code, a, _ := post(t, s, "/undo", request{Base: 2}); code != 200 || !d.has("width: 1460") || a.Undo {
		t.Fatalf("undo: %d", code)
	}
	d.replace("width: 1460", "width: 1444")
	s = again(t, d, &log)
	if code, a, _ := post(t, s, "/undo", request{Base: 1}); code != 200 || !d.has("width: 1460") || a.Undo {
		t.Errorf("what an editor wrote meanwhile: %d, %v", code, a.Undo)
	}
}

// A log that cannot be read is left alone, with a word.
func TestABrokenLog(t *testing.T) {
	s, _ := start(t)
	for _, bad := range []string{"{", "[]", `{"rodwork":2}`, `{"rodwork":1,"texts":["a"],"now":[0,1]}`, `{"rodwork":1,"texts":["a"],"now":[0,0],"past":[[-1,0]]}`,
		strings.Repeat("x", 3*mostPast+1)} {
		s.word, s.past = "", nil
		s.cfg.Recall = func() ([]byte, error) { return []byte(bad), nil }
		s.recall()
		if s.word == "" || len(s.past) != 0 {
			t.Errorf("%.40s: %q, %d", bad, s.word, len(s.past))
		}
	}
	s.past = nil
	s.cfg.Remember = func([]byte) error { return errors.New("the disk is full") }
	if code, a, _ := post(t, s, "/edit", request{Base: 1, Path: "sizes.width", Text: "1500"}); code != 200 || !strings.Contains(a.Word, "full") || !a.Undo {
		t.Errorf("%d %q", code, a.Word)
	}
}

// A log holds each text once, and stays bounded by leaving the oldest out.
func TestTheLogIsBounded(t *testing.T) {
	var past []texts
	for i := range most {
		past = append(past, texts{strings.Repeat(string(rune('a'+i%26)), 60_000+i), "shop"})
	}
	now := texts{"now", "shop"}
	b, err := pack(now, past, nil)
	if err != nil || len(b) > mostPast+100_000 {
		t.Fatal(len(b), err)
	}
	is, got, _, err := unpack(b)
	if err != nil || is != now || len(got) == 0 || !slices.Equal(got, past[len(past)-len(got):]) {
		t.Errorf("%d left, %v", len(got), err)
	}
	if _, err := pack(texts{strings.Repeat("x", mostPast+1), ""}, nil, nil); err == nil {
		t.Error("kept a text without bound")
	}
}

func FuzzUnpack(f *testing.F) {
	b, _ := pack(texts{"a", "b"}, []texts{{"c", "b"}}, []texts{{"a", "d"}})
	f.Add(b)
	f.Fuzz(func(t *testing.T, b []byte) {
		now, past, future, err := unpack(b)
		if err != nil {
			return
		}
		again, err := pack(now, past, future)
		if err != nil {
			return
		}
		if is, _, _, err := unpack(again); err != nil || is != now {
			t.Error(err)
		}
	})
}
