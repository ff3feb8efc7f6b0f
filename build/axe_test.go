package build_test

import (
	"context"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kindsOfPage is one page of each kind. (axe-core takes seconds for a page, so it
// isn't sent to all that are measured.)
var kindsOfPage = []string{
	"index.html", "imports/index.html", "imports/2026-spring-c.html", "specimens/index.html", "specimens/v26-01.html", "specimens/v26-09.html",
	"seasons/index.html", "seasons/2025-autumn.html", "compare/index.html", "compare/genus.html", "compare/leaves-cut.html", "places/index.html", "places/jar.html", "updates/index.html", "updates/the-first-twelve-weeks.html",
	"amendments/index.html", "method/index.html", "data/index.html",
}

// axeRun asks axe-core for what WCAG 2.2 AA holds against a page, and for its own
// advice.
const axeRun = `axe.run(document, {runOnly: {type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}).then(r => ({
	Passes: r.passes.length,
	Violations: r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | "))}))`

type axeFound struct {
	Passes     int
	Violations []string
}

// axe gives a browser and axe-core's script, which .ci/run fetches and names; or it
// skips the test with a word.
func axe(t *testing.T) (ctx context.Context, script string) {
	t.Helper()
	file := os.Getenv("WARDIAN_AXE")
	if file == "" {
		if required() {
			t.Fatal("WARDIAN_AXE says nowhere where axe-core lies")
		}
		t.Skip("WARDIAN_AXE is not set: pages were not checked with axe-core")
	}
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	return browser(t), string(data)
}

func runAxe(t *testing.T, ctx context.Context, script string) axeFound {
	t.Helper()
	require.NoError(t, chromedp.Do(ctx, chromedp.Evaluate[chromedp.Void](script)))
	found, err := chromedp.Run(ctx, chromedp.Evaluate[axeFound](axeRun, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	return found
}

func TestAxeFindsNothing(t *testing.T) {
	ctx, script := axe(t)
	site, err := standing()
	require.NoError(t, err)
	for _, page := range kindsOfPage {
		for _, w := range []struct {
			width  int64
			scheme string
		}{{320, "light"}, {1280, "dark"}} {
			window(t, ctx, w.width, "screen", w.scheme)
			visit(t, ctx, fileURL(filepath.Join(site, page)))
			found := runAxe(t, ctx, script)
			assert.Empty(t, found.Violations, "%s at %d px, %s", page, w.width, w.scheme)
			assert.Greater(t, found.Passes, 10, page)
		}
	}
}

func TestAxeSeesFaults(t *testing.T) {
	ctx, script := axe(t)
	visit(t, ctx, "data:text/html;charset=utf-8,"+url.PathEscape(`<!doctype html><title>t</title><h1>One</h1><img src="x.jpg"><p style="color:#999;background:#fff">pale</p>`))
	said := strings.Join(runAxe(t, ctx, script).Violations, "\n")
	for _, rule := range []string{"image-alt:", "color-contrast:", "html-has-lang:"} {
		assert.Contains(t, said, rule)
	}
}
