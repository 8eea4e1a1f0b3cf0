package pack_test

import (
	"context"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
)

func sticks(t *rapid.T) sheet.StickProblem {
	p := sheet.StickProblem{
		Stick:   rapid.Int64Range(50, 300).Draw(t, "stick"),
		EndTrim: rapid.Int64Range(0, 10).Draw(t, "trim"),
		Kerf:    rapid.Int64Range(0, 5).Draw(t, "kerf"),
	}
	for range rapid.IntRange(1, 9).Draw(t, "lengths") {
		p.Lengths = append(p.Lengths, sheet.Length{
			Length: rapid.Int64Range(1, p.Usable()).Draw(t, "length"), Copies: rapid.IntRange(1, 2).Draw(t, "copies")})
	}
	return p
}

// fewest counts sticks by trying every way: each length on each stick.
func fewest(p sheet.StickProblem) int {
	var xs []int64
	for _, q := range p.Lengths {
		for range q.Copies {
			xs = append(xs, q.Length+p.Kerf)
		}
	}
	best := len(xs)
	var left []int64
	var try func(i int)
	try = func(i int) {
		if len(left) >= best {
			return
		}
		if i == len(xs) {
			best = len(left)
			return
		}
		for k := range left {
			if left[k] >= xs[i] {
				left[k] -= xs[i]
				try(i + 1)
				left[k] += xs[i]
			}
		}
		left = append(left, p.Usable()+p.Kerf-xs[i])
		try(i + 1)
		left = left[:len(left)-1]
	}
	try(0)
	return best
}

// TestFewLengths: of few lengths the least number is always found and proved.
func TestFewLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sticks(t)
		if len(p.Lengths) > 6 {
			p.Lengths = p.Lengths[:6]
		}
		a, err := pack.Sticks(context.Background(), p, 0)
		if err != nil {
			t.Fatal(err)
		}
		if err := verify.Sticks(p, a); err != nil {
			t.Fatal(err)
		}
		if want := fewest(p); len(a.Sticks) != want || !a.Proven || a.Least != want {
			t.Fatalf("%d sticks, least %d, proven %v; want %d", len(a.Sticks), a.Least, a.Proven, want)
		}
	})
}

// TestStickKerfIsInflation: lengths a hundred times as long, each and the stick
// less a kerf, have the same answers with the kerf as without one.
func TestStickKerfIsInflation(t *testing.T) {
	const scale, kerf = 100, 32
	for i, f := range lines(t, "lengths.txt") {
		if i%3 != 0 || f[0] == "hard28" {
			continue
		}
		plain, optimum := lengths(t, f)
		sawn := sheet.StickProblem{Stick: plain.Stick*scale - kerf, Kerf: kerf}
		for _, q := range plain.Lengths {
			q.Length = q.Length*scale - kerf
			sawn.Lengths = append(sawn.Lengths, q)
		}
		a, err := pack.Sticks(context.Background(), plain, 0)
		b, err2 := pack.Sticks(context.Background(), sawn, 0)
		if err := errors.Join(err, err2, verify.Sticks(sawn, b)); err != nil {
			t.Fatal(err)
		}
		if len(a.Sticks) != len(b.Sticks) || b.Least > optimum || len(b.Sticks) < optimum {
			t.Errorf("%s: %d sticks without a kerf, %d, at least %d, with one; the optimum is %d", f[1], len(a.Sticks), len(b.Sticks), b.Least, optimum)
		}
	}
}
