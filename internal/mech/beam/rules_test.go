package beam

import "testing"

func TestRulesAreComplete(t *testing.T) {
	ids := map[string]bool{}
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
		if ids[r.ID] {
			t.Errorf("%s twice", r.ID)
		}
		ids[r.ID] = true
	}
}
