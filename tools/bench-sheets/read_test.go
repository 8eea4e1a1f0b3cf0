package main

import "testing"

const one = `    1        PROBLEM CLASS
    2        N. OF ITEMS
    1    1   RELATIVE AND ABSOLUTE N. OF INSTANCE
   10   20   HBIN,WBIN
    9    5   H(I),W(I),I=1,...,N
    2    4
`

func TestParseClass(t *testing.T) {
	ins, err := parseClass(1, one+one)
	if err != nil || len(ins) != 2 {
		t.Fatalf("%d instances, %v", len(ins), err)
	}
	p := ins[1].problem
	if s := p.Stocks[0]; s.Length != 20 || s.Width != 10 {
		t.Errorf("a sheet of %d × %d, want 20 × 10: the height comes first", s.Length, s.Width)
	}
	if q := p.Parts[1]; q.Length != 4 || q.Width != 2 || ins[0].name != "1/2/1" {
		t.Errorf("%+v of %s", q, ins[0].name)
	}
	if _, err := parseClass(2, one); err == nil {
		t.Error("another class went through")
	}
	if _, err := parseClass(1, one[:len(one)-12]); err == nil {
		t.Error("half an instance went through")
	}
}

func FuzzParseClass(f *testing.F) {
	f.Add(one)
	f.Add("1 99999999999 1 1 10 10 3 3")
	f.Add("1 -4 1 1 10 10 3 3")
	f.Fuzz(func(_ *testing.T, text string) { _, _ = parseClass(1, text) })
}
