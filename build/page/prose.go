package page

import (
	"bytes"
	"html/template"

	"wardian/build/address"
	"wardian/content"
	"wardian/content/prose"
)

// renderer fills the gaps of the diary's Markdown for one page.
func (v view) renderer(lower int) prose.Renderer {
	return prose.Renderer{
		Lower: lower,
		Link: func(dest string) (string, bool) {
			to, ok := address.Resolve(v.s.Diary, dest)
			if !ok {
				return "", false
			}
			if made, ok := v.s.Pictures[to.Picture]; ok {
				return v.Href(made.Path), true
			}
			if to.Path == "" {
				return "", false
			}
			return v.Href(to.Path) + to.Fragment, true
		},
		Image: func(dest, alt string) string {
			to, ok := address.Resolve(v.s.Diary, dest)
			if !ok {
				return ""
			}
			f, ok := v.shown(content.Photo{Path: to.Picture, Alt: alt}, alt)
			if !ok {
				return ""
			}
			f.Later = true
			return v.fill("figure", f)
		},
	}
}

// fill sets a part of a page with a template of its own. It panics where that
// fails (see faulty).
func (v view) fill(name string, data any) string {
	out := buffers.Get().(*bytes.Buffer)
	defer buffers.Put(out)
	out.Reset()
	if err := v.s.templates.ExecuteTemplate(out, name, data); err != nil {
		panic(faulty(err))
	}
	return out.String()
}

// words sets a section of an entry's body.
func (v view) words(s *prose.Section, lower int) template.HTML {
	return template.HTML(s.HTML(v.renderer(lower)))
}

// body sets a whole body.
func (v view) body(d *prose.Document, lower int) template.HTML {
	return template.HTML(d.HTML(v.renderer(lower)))
}
