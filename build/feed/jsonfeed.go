package feed

import (
	"bytes"
	"encoding/json"

	"wardian/build/address"
)

type jsonFeed struct {
	Version     string       `json:"version"`
	Title       string       `json:"title"`
	HomePageURL string       `json:"home_page_url"`
	FeedURL     string       `json:"feed_url"`
	Description string       `json:"description,omitempty"`
	Authors     []jsonAuthor `json:"authors"`
	Items       []jsonItem   `json:"items"`
}

type jsonAuthor struct {
	Name string `json:"name"`
}

type jsonItem struct {
	ID            string `json:"id"`
	URL           string `json:"url"`
	Title         string `json:"title"`
	ContentHTML   string `json:"content_html"` // one content is required, be it empty
	Summary       string `json:"summary,omitempty"`
	DatePublished string `json:"date_published"`
	DateModified  string `json:"date_modified,omitempty"`
}

// json writes the feed as JSON Feed 1.1 has it.
func (c channel) json() ([]byte, error) {
	f := jsonFeed{
		Version: "https://jsonfeed.org/version/1.1", Title: c.title, Description: c.about,
		HomePageURL: address.Absolute(c.site, address.Front()), FeedURL: address.Absolute(c.site, address.JSONFeed()),
		Authors: []jsonAuthor{{c.author}},
	}
	for _, i := range c.items {
		it := jsonItem{ID: i.page, URL: i.page, Title: i.title, ContentHTML: i.html, Summary: i.summary, DatePublished: stamp(i.published)}
		if i.updated.After(i.published) {
			it.DateModified = stamp(i.updated)
		}
		f.Items = append(f.Items, it)
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	if err := e.Encode(f); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
