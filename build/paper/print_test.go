package paper

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
)

// tool finds a program that looks at what is printed, or skips with a word; where
// everything must be checked, its lack fails the test.
func tool(t *testing.T, what string, names ...string) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("WARDIAN_CI") != "" {
		t.Fatalf("no %s on the path", names[0])
	}
	t.Skipf("no %s on the path: %s", names[0], what)
	return ""
}

// chromium sends a browser to a page, without a window.
func chromium(t *testing.T, page []byte, args ...string) []byte {
	t.Helper()
	browser := tool(t, "what is printed was not looked at in a browser", "chromium", "chromium-browser", "google-chrome")
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, page, 0o644))
	home, err := os.MkdirTemp("", "wardian-browser-") // may still be written to when the browser has ended
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(home) })
	all := append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--user-data-dir=" + home}, args...)
	out, err := exec.Command(browser, append(all, "file://"+file)...).Output()
	require.NoError(t, err)
	return out
}

// wideFonts, the harder case, stands for a reader's machine without any of the narrow fonts.
const wideFonts = `<style>:root { --measure: "DejaVu Sans", Arial, sans-serif; --voice: "DejaVu Serif", "Times New Roman", serif; font-stretch: normal }</style></head>`

// tooLarge writes into a page what on it is wider or higher than its room, but
// for the names and the last figures, which end in an ellipsis.
const tooLarge = `<script>
let out = []
const free = ["name", "last"]
for (const e of document.querySelectorAll(".half, .half *, .tag, .tag *, .page")) {
  if (free.some(c => e.classList.contains(c)) || e.closest("svg") || e.tagName == "B" && e.closest(".at")) continue
  if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0) out.push(e.className + " is too wide: " + e.textContent.trim().slice(0, 60))
  if (e.scrollHeight > e.clientHeight + 1 && e.clientHeight > 0) out.push(e.className + " is too high: " + e.textContent.trim().slice(0, 60))
}
for (const e of document.querySelectorAll(".remark")) if (e.clientHeight < 7) out.push("no room for a remark: " + e.clientHeight)
for (const e of document.querySelectorAll(".fill:not(.said)")) if (e.getBoundingClientRect().right > e.parentElement.getBoundingClientRect().right + 1) out.push("out of its row: " + e.textContent)
for (const e of document.querySelectorAll(".tag .came")) { const o = e.closest(".tag").getBoundingClientRect(); if (e.getBoundingClientRect().bottom > o.bottom) out.push("cut off: " + e.textContent) }
document.body.innerHTML = "<pre id=said>" + out.length + " " + out.join("\n") + "</pre>"
</script></body>`

func TestEverythingFitsItsPaper(t *testing.T) {
	c, on := at(t, 27, address26)
	for _, size := range []Size{A4, Letter} {
		sheets, err := Sheets(c, []*content.Place{c.Diary.Place("tote"), c.Diary.Place("shelf")}, on, size)
		require.NoError(t, err)
		labels, _, err := Labels(c, nil, on, size)
		require.NoError(t, err)
		for name, page := range map[string][]byte{"sheets": sheets, "labels": labels} {
			t.Run(name+" "+strconv.Itoa(int(size)), func(t *testing.T) {
				text := strings.Replace(string(page), "</head>", wideFonts, 1)
				text = strings.Replace(text, "</body>", tooLarge, 1)
				dom := chromium(t, []byte(text), "--dump-dom", "--window-size=1400,2000")
				said := regexp.MustCompile(`(?s)<pre id="said">(.*?)</pre>`).FindSubmatch(dom)
				require.NotNil(t, said)
				assert.Equal(t, "0", strings.TrimSpace(string(said[1])))
			})
		}
	}
}

// Two sheets lie on a page, and nothing runs over onto one of its own.
func TestPagesAsPrinted(t *testing.T) {
	c, on := at(t, 27, address26) // 26 plants in the tote are 6 sheets, and one on the shelf
	for _, want := range []struct {
		size                Size
		wide, high          float64 // points
		sheetPages, tagPage int
	}{
		{A4, 841.9, 595.3, 4, 2}, {Letter, 792, 612, 4, 2},
	} {
		sheets, err := Sheets(c, []*content.Place{c.Diary.Place("tote"), c.Diary.Place("shelf")}, on, want.size)
		require.NoError(t, err)
		labels, _, err := Labels(c, nil, on, want.size)
		require.NoError(t, err)
		for _, p := range []struct {
			page       []byte
			pages      int
			wide, high float64
		}{{sheets, want.sheetPages, want.wide, want.high}, {labels, want.tagPage, want.high, want.wide}} {
			file := filepath.Join(t.TempDir(), "out.pdf")
			chromium(t, p.page, "--no-pdf-header-footer", "--print-to-pdf="+file)
			pdf, err := os.ReadFile(file)
			require.NoError(t, err)
			boxes := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`).FindAllSubmatch(pdf, -1)
			require.Len(t, boxes, p.pages)
			for _, b := range boxes {
				wide, _ := strconv.ParseFloat(string(b[1]), 64)
				high, _ := strconv.ParseFloat(string(b[2]), 64)
				assert.InDelta(t, p.wide, wide, 1)
				assert.InDelta(t, p.high, high, 1)
			}
		}
	}
}

// A reader of another house (zbar) reads every code off the page as a dark screen
// shows it, which must be black on white all the same.
func TestCodesAreReadByAnother(t *testing.T) {
	reader := tool(t, "the QR codes were not read back", "zbarimg")
	c, on := at(t, 14, address26)
	page, plants, err := Labels(c, nil, on, A4)
	require.NoError(t, err)
	var want []string
	for _, l := range c.Lines {
		for _, p := range l.Parts {
			if p.Living() {
				want = append(want, "https://example.org/sill/specimens/"+p.Specimen.ID+".html")
			}
		}
	}
	require.Len(t, want, plants)
	shot := filepath.Join(t.TempDir(), "page.png")
	chromium(t, page, "--blink-settings=preferredColorScheme=0", "--force-device-scale-factor=2", "--window-size=1000,1300", "--screenshot="+shot)
	out, err := exec.Command(reader, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", shot).Output()
	require.NoError(t, err)
	got := strings.Fields(string(out))
	slices.Sort(got)
	slices.Sort(want)
	assert.Equal(t, want, got)
}
