package chart

// nothing is the answer where there is nothing to draw.
func nothing(what string) Drawing {
	b := append([]byte(nil), `<p class="nothing">`...)
	b = appendEsc(b, what)
	return Drawing{HTML: HTML(append(b, `</p>`...))}
}

const nothingYet = "Nothing measured yet."

// wrapPlot puts a picture into the padding its axis words stand in.
func wrapPlot(class string, svg HTML) HTML {
	if class != "" {
		class = " " + class
	}
	return HTML(`<div class="plot` + class + `">` + string(svg) + `</div>`)
}

// keyEntry is a line of the key under a picture.
type keyEntry struct {
	day    int
	icon   string // markup
	words  string // not escaped
	narrow bool   // only below 640 px
}

// keyList writes the entries. If all are narrow the list itself is.
func keyList(es []keyEntry) HTML {
	if len(es) == 0 {
		return ""
	}
	all := true
	for _, e := range es {
		all = all && e.narrow
	}
	b := append([]byte(nil), `<ul class="key`...)
	if all {
		b = append(b, ` narrow`...)
	}
	b = append(b, `">`...)
	for _, e := range es {
		b = append(b, `<li`...)
		if e.narrow && !all {
			b = append(b, ` class="narrow"`...)
		}
		b = append(b, '>')
		b = append(b, e.icon...)
		b = append(b, `<span>`...)
		b = appendEsc(b, e.words)
		b = append(b, `</span></li>`...)
	}
	return HTML(append(b, `</ul>`...))
}
