package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
)

// lengths runs the 138 one-dimensional instances.
func lengths(o options) error {
	text, err := os.ReadFile(filepath.Join(o.data, "lengths", "small_set_proved.json"))
	if err != nil {
		return err
	}
	var ins []struct {
		Set, Name string
		Capacity  int64
		Items     [][2]int64
		Optimum   int
	}
	if err := json.Unmarshal(text, &ins); err != nil {
		return err
	}
	n, met, proved := map[string]int{}, map[string]int{}, map[string]int{}
	times := map[string][]time.Duration{}
	var sets []string
	for _, in := range ins {
		if !o.only.MatchString(in.Set + "/" + in.Name) {
			continue
		}
		p := sheet.StickProblem{Stick: in.Capacity}
		for _, q := range in.Items {
			p.Lengths = append(p.Lengths, sheet.Length{ID: fmt.Sprint(q[0]), Length: q[0], Copies: int(q[1])})
		}
		start := time.Now()
		a, err := pack.Sticks(context.Background(), p, o.effort)
		took := time.Since(start)
		if err == nil {
			err = verify.Sticks(p, a)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", in.Name, err)
		}
		if n[in.Set]++; n[in.Set] == 1 {
			sets = append(sets, in.Set)
		}
		times[in.Set] = append(times[in.Set], took)
		if len(a.Sticks) == in.Optimum {
			met[in.Set]++
		}
		if a.Proven {
			proved[in.Set]++
		}
		if o.verbose && (len(a.Sticks) != in.Optimum || !a.Proven || took > time.Second) {
			fmt.Printf("%s: %d, optimum %d, least %d, %v\n", in.Name, len(a.Sticks), in.Optimum, a.Least, took)
		}
	}
	fmt.Printf("Commit %s, effort %d.\n\n| set | instances | optimum met | proved | median | 95 %% | longest |\n|---|---|---|---|---|---|---|\n", commit(), o.effort)
	for _, s := range sets {
		slices.Sort(times[s])
		fmt.Printf("| %s | %d | %d | %d | %v | %v | %v |\n", s, n[s], met[s], proved[s], at(times[s], 50), at(times[s], 95), at(times[s], 100))
	}
	return nil
}
