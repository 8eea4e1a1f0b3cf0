package frame

import "testing"

func TestRulesAreComplete(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}
