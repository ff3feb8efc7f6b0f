package page

import "strings"

// tied are the words between two figures that a line must not end with: "13 of 23" and
// "34 to 83%" read wrongly where they part.
var tied = [...]string{" of ", " to "}

// tie puts no-break spaces into counts and ranges.
func tie(html string) string {
	for _, words := range tied {
		html = tieAt(html, words)
	}
	return html
}

func tieAt(html, words string) string {
	var b strings.Builder
	from, at := 0, 0
	for {
		n := strings.Index(html[at:], words)
		if n < 0 {
			break
		}
		n += at
		at = n + len(words) - 1 // the blank may begin the next: "3 of 4 of 5"
		if n == 0 || !isDigit(html[n-1]) || at+1 >= len(html) || !isDigit(html[at+1]) {
			continue
		}
		if from == 0 {
			b.Grow(len(html) + 512) // a no-break space is a byte longer than a blank
		}
		b.WriteString(html[from:n])
		b.WriteString("\u00a0" + words[1:len(words)-1] + "\u00a0")
		from = n + len(words)
		at = from
	}
	if from == 0 {
		return html
	}
	b.WriteString(html[from:])
	return b.String()
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
