package browser

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"rodwork/internal/cli"
	"rodwork/internal/noskip"
)

// demoPage writes the example's book and returns its page: by the program that
// RODWORK_BINARY names, as it would be given out, else by the code under test.
func demoPage(t *testing.T) string {
	t.Helper()
	data := t.TempDir()
	args := []string{"demo", "--data", data, "--no-browser"}
	if binary := os.Getenv("RODWORK_BINARY"); binary != "" {
		if out, err := exec.Command(binary, args...).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
	} else {
		var out, errs strings.Builder
		if status := cli.Main(args, strings.NewReader(""), &out, &errs); status != 0 {
			t.Fatalf("status %d: %s", status, errs.String())
		}
	}
	return filepath.Join(data, "example", "book.html")
}

// seen is what the browser said while a page was open.
type seen struct {
	mu       sync.Mutex
	requests []string
	trouble  []string
}

func (s *seen) listen(ev any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch ev := ev.(type) {
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(ev.Request.URL, "data:") {
			s.requests = append(s.requests, ev.Request.URL)
		}
	case *runtime.EventConsoleAPICalled:
		s.trouble = append(s.trouble, fmt.Sprintf("console %s", ev.Type))
	case *runtime.EventExceptionThrown:
		s.trouble = append(s.trouble, "exception: "+ev.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		if strings.Contains(ev.Entry.Text, "GL Driver Message (OpenGL, Performance") {
			return // taking a picture of a model makes the browser wait: that is no fault of the page
		}
		s.trouble = append(s.trouble, fmt.Sprintf("%s: %s", ev.Entry.Level, ev.Entry.Text))
	}
}

// inSpace are what a browser without a graphics card needs to draw in space.
var inSpace = []chromedp.ExecAllocatorOption{chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true)}

// open starts a browser that has only the page; the listener hears all of it.
func open(t *testing.T, s *seen, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	program := noskip.Program(t, "chromium", "chromium-browser", "google-chrome", "chrome")
	ctx, cancel := context.WithTimeout(context.Background(), 4*time.Minute)
	t.Cleanup(cancel)
	if len(more) == 0 {
		more = []chromedp.ExecAllocatorOption{chromedp.DisableGPU}
	}
	ctx, cancel = chromedp.NewExecAllocator(ctx, append(more,
		chromedp.ExecPath(program), chromedp.Headless, chromedp.NoSandbox,
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck,
		chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-dev-shm-usage", true))...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx, chromedp.WithListener(s.listen))
	t.Cleanup(cancel)
	return ctx
}

// The example's book opens from a file: it asks for nothing, says nothing on
// the console, and each of its figures has ink on it.
func TestBookOpensByItself(t *testing.T) {
	page := demoPage(t)
	var s seen
	ctx := open(t, &s)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate("file://"+page)); err != nil {
		t.Fatal(err)
	}
	title, err := chromedp.Run(ctx, chromedp.Title())
	if err != nil || !strings.Contains(title, "Choir sideboard") {
		t.Errorf("title %q, %v", title, err)
	}
	figures := count(t, ctx, drawnFigures)
	if figures < 5 {
		t.Errorf("only %d figures", figures)
	}
	for i := range figures {
		looksDrawn(t, ctx, i)
	}
	if n := count(t, ctx, "[src]:not([src^='data:']), link[href]"); n != 0 {
		t.Errorf("%d elements would fetch something", n)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.requests) != 1 || !strings.HasPrefix(s.requests[0], "file://") {
		t.Errorf("requests: %q; only the page itself is to be asked for", s.requests)
	}
	if len(s.trouble) > 0 {
		t.Errorf("the browser complains: %q", s.trouble)
	}
}

// drawnFigures are all but the one that a model stands for.
const drawnFigures = "figure:not(:has(> script)) svg"

func count(t *testing.T, ctx context.Context, selector string) int {
	t.Helper()
	n, err := chromedp.Run(ctx, chromedp.Evaluate[int](fmt.Sprintf("document.querySelectorAll(%q).length", selector)))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// box is where something stands in the window.
type box struct{ Left, Top, Right, Bottom float64 }

// looksDrawn scrolls to a figure, takes a picture of the window, and counts the
// pixels in the figure that are not of its commonest colour: a drawing of
// hairlines has at least one in five hundred.
func looksDrawn(t *testing.T, ctx context.Context, i int) {
	t.Helper()
	at, err := chromedp.Run(ctx, chromedp.Evaluate[box](fmt.Sprintf(`(() => {
		const s = document.querySelectorAll('`+drawnFigures+`')[%d];
		s.scrollIntoView({behavior: 'instant'});
		const r = s.getBoundingClientRect();
		return {Left: r.left, Top: r.top, Right: r.right, Bottom: r.bottom};
	})()`, i)))
	if err != nil {
		t.Fatal(err)
	}
	if at.Right-at.Left < 200 {
		t.Errorf("figure %d is %.0f px wide", i+1, at.Right-at.Left)
		return
	}
	shot, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatalf("figure %d: %v", i+1, err)
	}
	if share := ink(t, shot, at); share < 0.002 {
		t.Errorf("figure %d is blank: %.4f of it is drawn", i+1, share)
	}
}

// ink returns the share of pixels in the box that are not of its commonest colour.
func ink(t *testing.T, shot []byte, in box) float64 {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		t.Fatal(err)
	}
	field := image.Rect(int(in.Left), int(in.Top), int(in.Right), int(in.Bottom)).Intersect(img.Bounds())
	if field.Empty() {
		t.Errorf("the figure at %v is not in the window", in)
		return 0
	}
	colours := map[[3]uint32]int{}
	all, most := 0, 0
	for y := field.Min.Y; y < field.Max.Y; y++ {
		for x := field.Min.X; x < field.Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			key := [3]uint32{r, g, b}
			colours[key]++
			all++
			most = max(most, colours[key])
		}
	}
	return 1 - float64(most)/float64(all)
}

// On a narrow screen nothing is wider than the screen.
func TestBookFitsANarrowScreen(t *testing.T) {
	page := demoPage(t)
	var s seen
	ctx := open(t, &s)
	for _, width := range []int64{320, 390, 800} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800), chromedp.Navigate("file://"+page)); err != nil {
			t.Fatal(err)
		}
		wide, err := chromedp.Run(ctx, chromedp.Evaluate[int64]("document.documentElement.scrollWidth"))
		if err != nil {
			t.Fatal(err)
		}
		if wide > width {
			t.Errorf("at %d px the page is %d px wide", width, wide)
		}
	}
}
