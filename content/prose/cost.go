package prose

// What each of the parser's searches costs, told before it is made. The figures
// are bytes looked at, or steps of about the same length where something else is
// done for each byte; the factors are estimates, held to account by the times of
// the hostile texts in the tests.

import (
	"bytes"

	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// linkCost follows the parser's own steps: the destination behind "](", its
// title, or the label behind "][".
func linkCost(m *meter, line []byte, at int) int {
	if line[0] != ']' {
		return 0
	}
	if len(line) < 2 || line[1] != '(' {
		// A label of up to 999 characters is looked up, once its line is found by
		// counting from the block's last.
		return 300 + bytes.Count(m.body[at:at+m.rest(at)], []byte("\n"))
	}
	i := 2
	for i < len(line) && util.IsSpace(line[i]) {
		i++
	}
	if i < len(line) && line[i] == '<' {
		if end := bytes.IndexByte(line[i:], '>'); end >= 0 {
			i += end + 1
		} else {
			return len(line)
		}
	} else {
		for open := 0; i < len(line) && !util.IsSpace(line[i]); i++ {
			switch line[i] {
			case '\\':
				i++
			case '(':
				open++
			case ')':
				open--
			}
			if open < 0 {
				return i
			}
		}
	}
	for i < len(line) && util.IsSpace(line[i]) {
		i++
	}
	if i < len(line) {
		switch line[i] {
		case '"':
			i += m.to(at+i+1, `"`)
		case '\'':
			i += m.to(at+i+1, `'`)
		case '(':
			i += m.to(at+i+1, `()`)
		}
	}
	return i
}

// codeCost looks for the closing run of backticks, as the parser will.
func codeCost(m *meter, line []byte, at int) int {
	run := 0
	for run < len(line) && line[run] == '`' {
		run++
	}
	end := at + run + m.rest(at+run)
	for i := at + run; i < end; i++ {
		n := 0
		for i+n < end && m.body[i+n] == '`' {
			n++
		}
		if n == run {
			return i - at
		}
		i += n
	}
	return end - at
}

// htmlCost bounds the search for the end of a tag, a comment or the like.
func htmlCost(m *meter, line []byte, at int) int {
	if len(line) < 2 || !util.IsAlphaNumeric(line[1]) && line[1] != '/' {
		return 0 // goldmark remembers where these searches failed
	}
	return 8 * m.to(at+1, "<>") // by regular expression, rune by rune
}

// noteCost: every definition is compared with the label.
func noteCost(m *meter, line []byte, _ int) int {
	if len(line) > 2 && line[1] == '^' {
		return len(m.notes) + bytes.IndexByte(line, ']') + 1
	}
	return 0
}

// definitionsCost: the lines behind each definition of a link are moved up.
func definitionsCost(m *meter, lines *text.Segments) int {
	if lines.Len() == 0 {
		return 0
	}
	first := lines.At(0)
	if bytes.HasPrefix(bytes.TrimLeft(m.body[first.Start:first.Stop], " "), []byte("[")) {
		return lines.Len() * lines.Len() / 4
	}
	return 0
}

// tableCost: a table has its columns on every row, written or not.
func tableCost(m *meter, lines *text.Segments) int {
	cost := 0
	for i := range lines.Len() {
		at := lines.At(i)
		line := m.body[at.Start:at.Stop]
		if columns := bytes.Count(line, []byte("|")); columns > 0 && len(bytes.Trim(line, "|:- \t\r\n")) == 0 {
			cost += 64 * columns * (lines.Len() - i)
		}
		if escaped := bytes.Count(line, []byte(`\|`)); escaped > 0 {
			cost += 4 * escaped * lines.Len() * escaped
		}
	}
	return cost
}
