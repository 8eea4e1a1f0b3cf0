package browser

import (
	"context"
	"os"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"rodwork/internal/noskip"
)

// shared is one browser for all stories of the served page. Each story has a
// profile and a window of its own in it, so that none sees what another left.
var shared struct {
	once sync.Once
	ctx  context.Context
	end  []context.CancelFunc
	err  error
}

func TestMain(m *testing.M) {
	code := m.Run()
	for i := len(shared.end) - 1; i >= 0; i-- {
		shared.end[i]()
	}
	os.Exit(code)
}

// openShared opens a window of the shared browser; the listener hears all of it.
func openShared(t *testing.T, s *seen) context.Context {
	t.Helper()
	program := noskip.Program(t, "chromium", "chromium-browser", "google-chrome", "chrome")
	shared.once.Do(func() {
		ctx, end := chromedp.NewExecAllocator(context.Background(),
			chromedp.ExecPath(program), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU,
			chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck,
			chromedp.Flag("disable-background-networking", true),
			chromedp.Flag("disable-component-update", true),
			chromedp.Flag("disable-dev-shm-usage", true))
		shared.end = append(shared.end, end)
		ctx, end = chromedp.NewContext(ctx)
		shared.end = append(shared.end, end)
		shared.ctx, shared.err = ctx, chromedp.Do(ctx)
	})
	if shared.err != nil {
		t.Fatal(shared.err)
	}
	ctx, cancel := context.WithTimeout(shared.ctx, 4*time.Minute)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx, chromedp.WithNewBrowserContext(), chromedp.WithListener(s.listen))
	t.Cleanup(cancel)
	return ctx
}
