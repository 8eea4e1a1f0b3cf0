package say

import "testing"

func TestF(t *testing.T) {
	s := F("The shell is one strip of {}, {} thick, with {} kerfs.", Choice("birch ply 18", "stock.shell"), Len(17.7, 1), 30)
	if len(s) != 7 || s[1].Text != "birch ply 18" || !s[1].Strong || s[3].Q.V != 17.7 || s[5].Q.V != 30 {
		t.Errorf("%+v", s)
	}
}

func TestFPanicsOnABrokenPromise(t *testing.T) {
	for _, f := range []func(){
		func() { F("{} {}", "one") }, func() { F("{}", "one", "two") }, func() { F("{}", 1.5) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			f()
		}()
	}
}
