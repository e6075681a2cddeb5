package layouts

import (
	"context"
	"net/url"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"everyseat/testdata/judges"
)

// A browser that opens report.html from the disk shows every picture, finds nothing wrong, and need not be scrolled
// sideways: on a desk, and on a telephone.
func TestReportInABrowser(t *testing.T) {
	chromium, err := exec.LookPath("chromium")
	if err != nil {
		judges.Missing(t, "chromium is not installed")
	}
	dir := t.TempDir()
	folder, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := Write(told(t, plan(t)), Options{Only: []string{OnlyReport, OnlyPictures}}, folder); err != nil {
		t.Fatal(err)
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU)
	ctx, stop := chromedp.NewExecAllocator(t.Context(), options...)
	defer stop()
	ctx, stop = context.WithTimeout(ctx, time.Minute)
	defer stop()
	ctx, stop = chromedp.NewContext(ctx)
	defer stop()
	page := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(dir, "report.html"))}
	for _, width := range []int64{1280, 360} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800), chromedp.Navigate(page.String())); err != nil {
			t.Fatal(err)
		}
		// What moves is only shown to whoever asks for it.
		found, err := chromedp.Run(ctx, chromedp.Evaluate[[]int](`(async () => {
			const details = document.querySelector("details"), moving = details.querySelector("img");
			const closed = moving.checkVisibility();
			details.open = true;
			moving.scrollIntoView();
			await Promise.allSettled([...document.images].map(i => i.decode()));
			return [
				document.images.length,
				[...document.images].filter(i => !i.complete || i.naturalWidth === 0).length,
				document.documentElement.scrollWidth, closed ? 1 : 0];
		})()`, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		if found[3] != 0 {
			t.Error("the sequence plays before anybody asks for it")
		}
		pictures, broken, wide := found[0], found[1], found[2]
		if pictures != 10 || broken > 0 {
			t.Errorf("%d pictures, %d of them not shown", pictures, broken)
		}
		if int64(wide) > width {
			t.Errorf("the page is %d pixels wide in a window of %d", wide, width)
		}
	}
}
