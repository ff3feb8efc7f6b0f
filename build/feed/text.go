package feed

import (
	"fmt"
	"html"
	"strings"

	"wardian/build/address"
	"wardian/content"
	"wardian/content/prose"
)

// text makes HTML of one letter that can be read far from its page.
type text struct {
	diary    *content.Diary
	update   *content.Update
	page     string
	pictures Pictures
}

func (t text) html() string {
	words := t.update.Words.HTML(prose.Renderer{Link: t.link, Image: t.image, Plate: t.plate})
	// Footnotes call each other by anchors. Of the HTML of prose, only a tag
	// holds a bare quotation mark, so that this meets nothing else.
	return strings.ReplaceAll(words, `href="#`, `href="`+html.EscapeString(t.page)+`#`)
}

func (t text) absolute(sitePath string) string {
	return address.Absolute(t.diary.Settings.Address, sitePath)
}

func (t text) link(dest string) (string, bool) {
	to, ok := address.Resolve(t.diary, dest)
	switch {
	case !ok:
		return "", false
	case to.Picture != "":
		path, _, _, shown := t.shown(to.Picture)
		return t.absolute(path), shown
	}
	return t.absolute(to.Path) + to.Fragment, true
}

func (t text) shown(picture string) (sitePath string, width, height int, ok bool) {
	if t.pictures == nil {
		return "", 0, 0, false
	}
	return t.pictures(picture)
}

func (t text) image(dest, alt string) string {
	to, ok := address.Resolve(t.diary, dest)
	if !ok || to.Picture == "" {
		return ""
	}
	path, width, height, ok := t.shown(to.Picture)
	if !ok {
		words := "A picture is on the page"
		if alt != "" {
			words += ": " + alt
		}
		return t.onPage(words)
	}
	return fmt.Sprintf("<p><img src=\"%s\" alt=\"%s\" width=\"%d\" height=\"%d\"></p>\n", html.EscapeString(t.absolute(path)), html.EscapeString(alt), width, height)
}

func (t text) plate(i int) string {
	if i < len(t.update.Plates) && t.update.Plates[i].Show == "table" {
		return t.onPage("The table is on the page")
	}
	return t.onPage("The drawing is on the page")
}

func (t text) onPage(words string) string {
	return `<p><a href="` + html.EscapeString(t.page) + `">` + html.EscapeString(words) + "</a></p>\n"
}
