package cli

import "testing"

func TestPaperFlag(t *testing.T) {
	for text, want := range map[string]paperFlag{"a4": "a4", "A4": "a4", "Letter": "letter"} {
		var f paperFlag
		if err := f.UnmarshalText([]byte(text)); err != nil || f != want {
			t.Errorf("%s: %q, %v", text, f, err)
		}
	}
	var f paperFlag
	if err := f.UnmarshalText([]byte("foolscap")); err == nil {
		t.Error("accepted")
	}
}
