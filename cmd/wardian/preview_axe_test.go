package main

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// axeOn asks axe-core (version 4.14) for what WCAG 2.2 AA holds against the page
// at hand, and for its own advice, narrow and light, then wide and dark.
func axeOn(b *browsing, script, what string) {
	b.t.Helper()
	const run = `axe.run(document, {runOnly: {type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}).then(r => ({
		Passes: r.passes.length,
		Violations: r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | "))}))`
	for _, w := range []struct {
		width  int64
		scheme string
	}{{320, "light"}, {390, "dark"}, {1280, "light"}, {1280, "dark"}} {
		require.NoError(b.t, chromedp.Do(b.ctx, chromedp.EmulateViewport(w.width, 900), chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
			_, err := cdp.Call(ctx, to, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
				Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: w.scheme}},
			})
			return err
		})))
		require.NoError(b.t, chromedp.Do(b.ctx, chromedp.Evaluate[chromedp.Void](script)))
		found, err := chromedp.Run(b.ctx, chromedp.Evaluate[struct {
			Passes     int
			Violations []string
		}](run, chromedp.EvalAwaitPromise))
		require.NoError(b.t, err)
		assert.Empty(b.t, found.Violations, "%s at %d px, %s", what, w.width, w.scheme)
		assert.Greater(b.t, found.Passes, 10, what)
		// Nothing that the preview lays over a page is wider than the page.
		assert.LessOrEqual(b.t, ask[float64](b, "document.documentElement.scrollWidth"), float64(w.width), "%s at %d px", what, w.width)
	}
}

// What the preview adds to a page holds to what the page holds to: the slip with
// errors and with warnings, marks, what is gone, and the pages of its own.
func TestAxeFindsNothingOnAPreviewedPage(t *testing.T) {
	if racing {
		t.Skip("a browser does the work here: it is done without the race detector")
	}
	file := os.Getenv("WARDIAN_AXE")
	if file == "" {
		if os.Getenv("WARDIAN_CI") != "" {
			t.Fatal("WARDIAN_AXE says nowhere where axe-core lies")
		}
		t.Skip("WARDIAN_AXE is not set: previewed pages were not checked with axe-core")
	}
	script, err := os.ReadFile(file)
	require.NoError(t, err)
	b := browser(t)
	p := startPreview(t, exampleCopy(t), 0)

	b.visit(p.address + "specimens/v26-01a.html")
	b.is(slipText + ".includes('2 warnings')")
	axeOn(b, string(script), "a page under warnings")
	ask[bool](b, "document.querySelector('#preview-slip details').open = true")
	axeOn(b, string(script), "with the warnings open")

	readings := filepath.Join(p.dir, "readings", "cabinet-2025-autumn.csv")
	require.NoError(t, os.Rename(readings, readings+".away")) // it has the warnings
	p.edit(round, replacing("place: sill", "plaice: sill"))
	b.is("document.querySelector('#preview-slip mark')?.textContent == 'plaice'")
	axeOn(b, string(script), "a page under an error")

	require.NoError(t, os.Rename(readings+".away", readings))
	p.edit(round, replacing("plaice: sill", "place: sill"))
	b.is("!document.querySelector('#preview-slip .error')")
	b.visit(p.address + "updates/what-a-plant-costs.html")
	axeOn(b, string(script), "an unfinished letter")
	require.NoError(t, os.Remove(filepath.Join(p.dir, "updates", "what-a-plant-costs.md")))
	b.is(slipText + ".includes('no such page any more')")
	axeOn(b, string(script), "a page that is gone")
	b.visit(p.address + "updates/what-a-plant-costs.html")
	b.is("document.querySelector('[data-preview-bare]')")
	axeOn(b, string(script), "no such page")
}
