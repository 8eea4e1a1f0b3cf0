package cli

import (
	"bytes"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rodwork/internal/diag"
)

func TestShopName(t *testing.T) {
	tests := []struct{ src, want string }{
		{"shop: shop.yaml\n", "shop.yaml"},
		{"rodwork: 1\nshop: ../main/shop.yaml   # mine\n", "../main/shop.yaml"},
		{"shop: 'my shop.yaml'\r\n", "my shop.yaml"},
		{"shop:\n", ""},
		{"rodwork: 1\n", ""},
		{"stock:\n  shop: no.yaml\n", ""},
		{"shopping: no.yaml\n", ""},
		{"# shop: no.yaml\n", ""},
		{"note: |\n  shop: no.yaml\n", ""},
	}
	for _, tt := range tests {
		got, at, ok := shopName("f", []byte(tt.src))
		if got != tt.want || ok != (tt.want != "") {
			t.Errorf("%q: %q, %v", tt.src, got, ok)
		}
		if ok {
			line := []rune(strings.Split(tt.src, "\n")[at.Start.Line-1])
			if text := string(line[at.Start.Col-1 : at.End.Col-1]); text != tt.want {
				t.Errorf("%q: its range holds %q", tt.src, text)
			}
		}
	}
}

func FuzzShopName(f *testing.F) {
	f.Add([]byte("shop: ä/shop.yaml # x"))
	f.Add([]byte("shop: ''"))
	f.Fuzz(func(t *testing.T, src []byte) {
		name, at, ok := shopName("f", src)
		if ok && (name == "" || at.Start.Line < 1 || !at.Start.Before(at.End)) {
			t.Errorf("%q at %v", name, at)
		}
	})
}

func TestAStrangersShopNameIsNotRead(t *testing.T) {
	for _, name := range []string{"/etc/shadow.yaml", `\\host\share.yaml`, `C:\shop.yaml`, "https://x/shop.yaml", "../../.ssh/id", "shop"} {
		if badShopName(name) == "" {
			t.Errorf("%q would be read", name)
		}
	}
	for _, name := range []string{"shop.yaml", "../main/shop.yaml", "shop.YML"} {
		if why := badShopName(name); why != "" {
			t.Errorf("%q: %s", name, why)
		}
	}
}

func TestMend(t *testing.T) {
	tests := []struct {
		args []string
		want string
	}{
		{[]string{"chek", "a.yaml"}, "did you mean: rodwork check a.yaml"},
		{[]string{"Parts", "a.yaml", "--jsn"}, "did you mean: rodwork parts a.yaml --json"},
		{[]string{"book", "a.yaml", "--ouput=x y"}, "did you mean: rodwork book a.yaml '--out=x y'"},
		{[]string{"a.yaml"}, "did you mean: rodwork check a.yaml"},
		{[]string{"--jsonn", "buy", "a.yaml"}, "did you mean: rodwork --json buy a.yaml"},
		{[]string{"--no-browsr"}, "did you mean: rodwork --no-browser"},
		{[]string{"order", "a.yaml"}, "did you mean: rodwork steps a.yaml"},
		{[]string{"book", "a.yaml"}, "usage: rodwork book FILE --out=DIR [flags]"},
		{[]string{"zzzzzz"}, ""},
		{[]string{"help"}, "did you mean: rodwork --help"},
	}
	var g grammar
	p := newParser(&g, &session{world: world{out: new(bytes.Buffer), err: new(bytes.Buffer)}})
	for _, tt := range tests {
		if got := mend(p.Model, tt.args); got != tt.want {
			t.Errorf("mend(%q) = %q, want %q", tt.args, got, tt.want)
		}
	}
}

func TestDataFolder(t *testing.T) {
	env := func(pairs ...string) func(string) string {
		m := map[string]string{}
		for i := 0; i < len(pairs); i += 2 {
			m[pairs[i]] = pairs[i+1]
		}
		return func(k string) string { return m[k] }
	}
	tests := []struct {
		system string
		env    func(string) string
		want   string
	}{
		{"linux", env("HOME", "/h"), "/h/.local/share/rodwork"},
		{"linux", env("HOME", "/h", "XDG_DATA_HOME", "/x"), "/x/rodwork"},
		{"linux", env("HOME", "/h", "XDG_DATA_HOME", "relative"), "/h/.local/share/rodwork"},
		{"darwin", env("HOME", "/h"), "/h/Library/Application Support/rodwork"},
		{"windows", env("LocalAppData", "/l"), "/l/rodwork"},
		{"linux", env(), ""},
	}
	for _, tt := range tests {
		got, err := dataFolder(tt.env, tt.system)
		if got != tt.want || (err != nil) != (tt.want == "") {
			t.Errorf("%s: %q, %v; want %q", tt.system, got, err, tt.want)
		}
	}
}

func TestOpenerNeedsADisplay(t *testing.T) {
	none := func(string) string { return "" }
	display := func(k string) string { return map[string]string{"DISPLAY": ":0"}[k] }
	if opener("linux", none) != nil {
		t.Error("opens without a display")
	}
	if d := cmp.Diff([]string{"xdg-open"}, opener("linux", display)); d != "" {
		t.Error(d)
	}
	if opener("darwin", func(string) string { return "x" }) != nil {
		t.Error("opens on someone else's desk")
	}
}

func TestVersionText(t *testing.T) {
	info := &debug.BuildInfo{GoVersion: "go1.26", Main: debug.Module{Version: "v0.1.0"}, Settings: []debug.BuildSetting{
		{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "true"}}}
	if got := versionText(info, true); got != "rodwork v0.1.0, commit 0123456789ab with changes (go1.26)" {
		t.Error(got)
	}
	if got := versionText(nil, false); got != "rodwork, of unknown version" {
		t.Error(got)
	}
}

func TestUnitsFlag(t *testing.T) {
	var f systemFlag
	if err := f.UnmarshalText([]byte("in")); err != nil || f != "in" {
		t.Errorf("%q, %v", f, err)
	}
	if err := f.UnmarshalText([]byte("inchs")); err == nil || !strings.Contains(err.Error(), "did you mean in?") {
		t.Errorf("%v", err)
	}
	if err := f.UnmarshalText([]byte("parsec")); err == nil {
		t.Error("accepted")
	}
}

func TestUnknownNamesTheNearest(t *testing.T) {
	if err := unknown("rule", "BEND-O1", []string{"SHELF-01", "BEND-01"}); !strings.Contains(err.Error(), `"BEND-01"`) {
		t.Error(err)
	}
	if err := unknown("rule", "zzzzzzzz", []string{"SHELF-01"}); !strings.Contains(err.Error(), "there are: SHELF-01") {
		t.Error(err)
	}
}

func TestWriteFailureIsTold(t *testing.T) {
	w := &stickyWriter{w: broken{}}
	if _, err := w.Write([]byte("x")); err == nil {
		t.Error("no error")
	}
	if _, err := w.Write([]byte("y")); err == nil || w.err == nil {
		t.Error("the error is forgotten")
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errSaid }

func TestRemarkOfAShop(t *testing.T) {
	d := shopRemark("x.yaml", diag.Range{File: "f"}, "there is no file x.yaml")
	if d.Detail != "There is no file x.yaml." || d.Severity != diag.Error {
		t.Errorf("%+v", d)
	}
}
