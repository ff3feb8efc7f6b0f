package chart

// nothing is the answer where there is nothing to draw.
func nothing(what string) Drawing {
	b := append([]byte(nil), `<p class="nothing">`...)
	b = appendEsc(b, what)
	return Drawing{HTML: HTML(append(b, `</p>`...))}
}

const nothingYet = "Nothing measured yet."

// keyEntry is a line of the key under a picture.
type keyEntry struct {
	day   int
	icon  string // markup
	words string // not escaped
	until string // "wide" or "broad": not needed from that width on
}

// keyList writes the entries. If none is needed from 640 px on, nor is the list.
func keyList(class string, es []keyEntry) HTML {
	if len(es) == 0 {
		return ""
	}
	all := es[0].until
	for _, e := range es {
		if e.until != all {
			all = ""
		}
	}
	b := append(make([]byte, 0, 256*len(es)), `<ul class="key`...)
	if class != "" {
		b = append(append(b, ' '), class...)
	}
	if all != "" {
		b = append(append(b, ' '), untilClass(all)...)
	}
	b = append(b, `">`...)
	for _, e := range es {
		b = append(b, `<li`...)
		if e.until != "" && all == "" {
			b = append(b, ` class="`+untilClass(e.until)+`"`...)
		}
		b = append(b, '>')
		b = append(b, e.icon...)
		b = append(b, `<span>`...)
		b = appendEsc(b, e.words)
		b = append(b, `</span></li>`...)
	}
	return HTML(append(b, `</ul>`...))
}

// untilClass hides what is drawn from a width on.
func untilClass(from string) string {
	if from == "broad" {
		return "unbroad"
	}
	return "narrow"
}
