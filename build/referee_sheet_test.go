package build_test

import (
	"context"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var onePage = regexp.MustCompile(`/Type\s*/Page\b`)

// sheets prints the page that a browser shows and counts the sheets; sizes in inches.
func sheets(t *testing.T, ctx context.Context, width, height float64) int {
	t.Helper()
	var printed []byte
	require.NoError(t, chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
		result, err := cdp.Call(ctx, to, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: width, PaperHeight: height})
		printed = result.Data
		return err
	})))
	return len(onePage.FindAll(printed, -1))
}

// A season's reckoning stands on one sheet of paper, A4 or letter, so that it can be
// kept in the box with the labels. (Pages of imports take several: were a sheet's count
// always 1, this would show it.)
func TestASeasonsReckoningIsOneSheet(t *testing.T) {
	ctx := browser(t)
	site, err := standing()
	require.NoError(t, err)
	paper := map[string][2]float64{"A4": {8.27, 11.69}, "letter": {8.5, 11}}
	pages, err := filepath.Glob(filepath.Join(site, "seasons", "2*.html"))
	require.NoError(t, err)
	require.Len(t, pages, 3)
	for _, file := range pages {
		visit(t, ctx, fileURL(file))
		for name, size := range paper {
			assert.Equal(t, 1, sheets(t, ctx, size[0], size[1]), "%s on %s", filepath.Base(file), name)
		}
	}
	visit(t, ctx, fileURL(filepath.Join(site, "imports", "2025-autumn-b.html")))
	assert.Greater(t, sheets(t, ctx, paper["A4"][0], paper["A4"][1]), 1)
}

// A table whose rows are stacked on a phone is a table on paper, and as wide as the
// sheet at most.
func TestStackedTablesAreTablesOnPaper(t *testing.T) {
	ctx := browser(t)
	site, err := standing()
	require.NoError(t, err)
	const wide = `[...document.querySelectorAll("table.stacked")].map(e => getComputedStyle(e).display + (e.scrollWidth > e.parentElement.clientWidth + 1 ? ", wider than the sheet" : ""))`
	for _, name := range []string{"compare/index.html", "compare/genus.html", "compare/packing.html", "seasons/index.html", "seasons/2026-spring.html", "imports/2026-spring-c.html"} {
		visit(t, ctx, fileURL(filepath.Join(site, filepath.FromSlash(name))))
		window(t, ctx, 680, "print", "light") // A4 less its margins
		found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](wide))
		require.NoError(t, err)
		require.NotEmpty(t, found, name)
		for _, display := range found {
			assert.Equal(t, "table", display, name)
		}
		window(t, ctx, 360, "screen", "light")
		found, err = chromedp.Run(ctx, chromedp.Evaluate[[]string](wide))
		require.NoError(t, err)
		assert.Equal(t, "block", found[0], "%s on a phone", name)
	}
}
