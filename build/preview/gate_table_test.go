package preview

import (
	"bufio"
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Host × Origin × Sec-Fetch-Site × method × path, each row's answer pinned in a
// file that a reader can go through: as TestWhoMayRead, but with nothing reckoned.
// No answer lets another site read it, a refusal included.
func TestWhoMayReadRowByRow(t *testing.T) {
	_, handler := showing(Reading{Site: fixed{"index.html": small, "specimens/p-1.html": small, "look/style-0.css": "a{}"}})
	file, err := os.Open("testdata/gate.tsv")
	require.NoError(t, err)
	defer file.Close()
	answers := map[int]int{}
	for scan := bufio.NewScanner(file); scan.Scan(); {
		line := scan.Text()
		if strings.HasPrefix(line, "#") {
			continue
		}
		row := strings.Split(line, "\t")
		require.Len(t, row, 6, line)
		want, err := strconv.Atoi(row[0])
		require.NoError(t, err, line)
		answers[want]++
		r := httptest.NewRequest(http.MethodGet, "http://placeholder/", nil)
		u, err := url.ParseRequestURI(row[3]) // as the standard library's server does
		require.NoError(t, err, line)
		// A stream that were let in by mistake would stay open.
		ctx, gone := context.WithTimeout(t.Context(), 10*time.Second)
		defer gone()
		r = r.WithContext(ctx)
		r.Method, r.URL, r.Host = row[1], u, strings.TrimPrefix(row[2], "(none)")
		for i, key := range []string{"Origin", "Sec-Fetch-Site"} {
			if row[4+i] != "-" {
				r.Header.Set(key, row[4+i])
			}
		}
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		assert.Equal(t, want, w.Code, line)
		for key := range w.Header() {
			assert.False(t, strings.HasPrefix(key, "Access-Control-"), "%s: %s", line, key)
		}
		assert.Equal(t, "same-origin", w.Header().Get("Cross-Origin-Resource-Policy"), line)
		if want == http.StatusForbidden || want == http.StatusMethodNotAllowed {
			assert.NotContains(t, w.Body.String(), "words", line)
			assert.NotContains(t, w.Body.String(), "data:", line)
		}
	}
	rows := 0
	for _, n := range answers {
		rows += n
	}
	assert.GreaterOrEqual(t, rows, 100)
	assert.Greater(t, answers[http.StatusForbidden], 50)
	assert.Greater(t, answers[http.StatusOK], 15)
	t.Logf("%d rows: %v", rows, answers)
}
