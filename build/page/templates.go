package page

import (
	"errors"
	"html/template"
	"sync"

	"wardian/build/said"
	"wardian/build/taxon"
	"wardian/content"
	"wardian/themes"
)

// functions are what templates can call, one for each of themes.Functions. None
// reads a file or the network.
var functions = template.FuncMap{
	"name": taxon.Name, "short": taxon.ShortName, "upper": said.Upper, "inWords": said.InWords, "day": dayWord, "table": tableHTML,
}

// builtIn templates are read once: they are part of the program.
var builtIn = sync.OnceValues(func() (*themes.Set, error) { return themes.NewSet(functions, nil) })

// templates are the built-in templates with a diary's own over them.
func templates(style content.Style) (*themes.Set, error) {
	if len(style.Templates) == 0 {
		return builtIn()
	}
	return themes.NewSet(functions, content.Own(style.Templates))
}

// faulty is how fill gets out of a page whose own template can't be filled: parts
// of pages are set where no error can be returned. A template that is built in,
// filled with what is ours, never fails, and that it does is a panic like any.
func faulty(err error) any {
	var fault *themes.Fault
	if errors.As(err, &fault) {
		return fault
	}
	return "page: " + err.Error()
}

// withFaults gives pages that tell a fault of an own template as their error.
func withFaults(pages []Page) []Page {
	for i, p := range pages {
		pages[i].Make = func() (data []byte, err error) {
			defer func() {
				switch said := recover().(type) {
				case nil:
				case *themes.Fault:
					data, err = nil, said
				default:
					panic(said)
				}
			}()
			return p.Make()
		}
	}
	return pages
}
