package feed

import (
	"encoding/xml"

	"wardian/build/address"
)

type atomFeed struct {
	XMLName   xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	ID        string      `xml:"id"`
	Title     string      `xml:"title"`
	Subtitle  string      `xml:"subtitle,omitempty"`
	Updated   string      `xml:"updated"`
	Author    atomAuthor  `xml:"author"`
	Links     []atomLink  `xml:"link"`
	Rights    string      `xml:"rights,omitempty"`
	Generator string      `xml:"generator"`
	Entries   []atomEntry `xml:"entry"`
}

type atomAuthor struct {
	Name string `xml:"name"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr"`
	Href string `xml:"href,attr"`
}

type atomEntry struct {
	ID        string    `xml:"id"`
	Title     string    `xml:"title"`
	Link      atomLink  `xml:"link"`
	Published string    `xml:"published"`
	Updated   string    `xml:"updated"`
	Summary   string    `xml:"summary,omitempty"`
	Content   *atomText `xml:"content"`
}

type atomText struct {
	Type string `xml:"type,attr"`
	Text string `xml:",chardata"`
}

// atom writes the feed as RFC 4287 has it.
func (c channel) atom() ([]byte, error) {
	f := atomFeed{
		ID: c.site, Title: c.title, Subtitle: c.about, Updated: stamp(c.updated), Author: atomAuthor{c.author}, Rights: c.rights, Generator: "Wardian",
		Links: []atomLink{
			{Rel: "self", Type: "application/atom+xml", Href: address.Absolute(c.site, address.Atom())},
			{Rel: "alternate", Type: "text/html", Href: address.Absolute(c.site, address.Front())},
		},
	}
	for _, i := range c.items {
		e := atomEntry{
			ID: i.page, Title: i.title, Link: atomLink{Rel: "alternate", Type: "text/html", Href: i.page},
			Published: stamp(i.published), Updated: stamp(i.updated), Summary: i.summary,
		}
		if i.html != "" {
			e.Content = &atomText{Type: "html", Text: i.html}
		}
		f.Entries = append(f.Entries, e)
	}
	out, err := xml.MarshalIndent(f, "", " ")
	if err != nil {
		return nil, err
	}
	return append(append([]byte(xml.Header), out...), '\n'), nil
}
