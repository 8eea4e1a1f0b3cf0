package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strings"
	"time"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/bound"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
)

// tally is the sum over a class in one way of lying.
type tally struct {
	class                               string
	way                                 int
	n, ours, best, least, refer, proved int
	times                               []time.Duration
}

func (t *tally) add(u tally) {
	t.n, t.ours, t.best, t.least, t.refer, t.proved = t.n+u.n, t.ours+u.ours, t.best+u.best, t.least+u.least, t.refer+u.refer, t.proved+u.proved
	t.times = append(t.times, u.times...)
}

// rectangles runs a set both ways and prints a table.
func rectangles(o options, read func(string) ([]instance, error)) error {
	ins, err := read(o.data)
	if err != nil {
		return err
	}
	var ts []*tally
	for way := range 2 {
		var t *tally
		for _, in := range ins {
			if !o.only.MatchString(in.name) || way == 1 && in.best[1] == 0 {
				continue
			}
			if t == nil || t.class != in.class {
				t = &tally{class: in.class, way: way}
				ts = append(ts, t)
			}
			if err := t.one(o, in); err != nil {
				return fmt.Errorf("%s: %w", in.name, err)
			}
		}
	}
	return write(o, ts)
}

// turning returns the problem with all parts free to turn.
func turning(p sheet.Problem) sheet.Problem {
	p.Parts = slices.Clone(p.Parts)
	for i := range p.Parts {
		p.Parts[i].Grain = sheet.Free
	}
	return p
}

func (t *tally) one(o options, in instance) error {
	p := in.problem
	if t.way == 1 {
		p = turning(p)
	}
	start := time.Now()
	var a sheet.Answer
	var err error
	if o.bounds {
		a.Proof = bound.Sheets(p, 0, o.effort)
		a.Full = a.Proof.Least
	} else {
		if a, err = pack.Solve(context.Background(), p, 0); err == nil && !(o.open && a.Proven) {
			start = time.Now()
			a, err = pack.Solve(context.Background(), p, o.effort)
		}
		if err != nil {
			return err
		}
	}
	took := time.Since(start)
	if !o.bounds {
		if err := verify.Sheets(p, a); err != nil {
			return err
		}
	}
	u := tally{n: 1, ours: a.Full, best: in.best[t.way], least: a.Proof.Least, refer: in.bound[t.way], times: []time.Duration{took}}
	if a.Proven {
		u.proved = 1
	}
	t.add(u)
	if o.verbose && (a.Full > in.best[t.way] || a.Proof.Least < in.bound[t.way]) {
		fmt.Printf("%s way %d: %d, published %d, bound %d, reference bound %d, %v\n", in.name, t.way, a.Full, in.best[t.way], a.Proof.Least, in.bound[t.way], took)
	}
	if a.Full < in.bound[t.way] || a.Proof.Least > in.best[t.way] {
		fmt.Printf("%s way %d: WRONG: %d, bound %d; published %d, bound %d\n", in.name, t.way, a.Full, a.Proof.Least, in.best[t.way], in.bound[t.way])
	}
	return nil
}

func write(o options, ts []*tally) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Commit %s, %s, GOMAXPROCS %d, effort %d.\n\n", commit(), runtime.Version(), runtime.GOMAXPROCS(0), o.effort)
	b.WriteString("| class | parts lie | instances | ours | published | our bound | reference bound | proved | median | 95 % | longest |\n|---|---|---|---|---|---|---|---|---|---|---|\n")
	for way, name := range []string{"as drawn", "either way"} {
		all := &tally{class: "all", way: way}
		for _, t := range append(ts, all) {
			if t.way != way || t.n == 0 && t != all {
				continue
			}
			if t != all {
				all.add(*t)
			}
			if t.n == 0 {
				continue
			}
			slices.Sort(t.times)
			fmt.Fprintf(&b, "| %s | %s | %d | %d | %d | %d | %d | %d | %v | %v | %v |\n", t.class, name, t.n, t.ours, t.best, t.least, t.refer, t.proved,
				at(t.times, 50), at(t.times, 95), at(t.times, 100))
		}
	}
	fmt.Print(b.String())
	if o.out == "" {
		return nil
	}
	return os.WriteFile(o.out, []byte(b.String()), 0o644)
}

func at(sorted []time.Duration, percent int) time.Duration {
	return sorted[min(len(sorted)*percent/100, len(sorted)-1)].Round(100 * time.Microsecond)
}

func commit() string {
	out, err := exec.Command("git", "rev-parse", "--short", "HEAD").Output()
	if err != nil {
		return "unknown"
	}
	return strings.TrimSpace(string(out))
}
