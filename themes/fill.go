package themes

import (
	"errors"
	"fmt"
	"html/template"
	"io"
	"maps"
	"sync"
	text "text/template"
	"text/template/parse"
)

// Set is the templates of a site: the built-in ones, and a grower's own over
// them. Several pages may be filled at once.
//
// A template is a program, and one of a grower's own may never come to its end. So
// in a set with own ones every turn of a range and every call of a template is
// counted, and a page is given up where there are too many of them, or where it
// grows too long. (Counting is put into the trees; since it is of one page, each
// page that is filled at the same time has a copy of the set.)
type Set struct {
	own   []File
	plain *template.Template // without own templates
	free  sync.Pool          // of *filling, with them
}

// filling is one copy of a set.
type filling struct {
	templates *template.Template
	left      int
}

// Limits of a page with own templates: a page of ten thousand entries, which no
// diary has, stays below both.
const (
	mostTurns = 500_000
	mostBytes = 32 << 20
)

var (
	errTurns = errors.New("it comes to no end: more ranges are turned and templates called than a page can need")
	errBytes = fmt.Errorf("it comes to no end: the page grows beyond %d MiB", mostBytes>>20)
)

// NewSet lays own templates, which Check finds nothing wrong with, over the
// built-in ones. funcs has one for each of Functions.
func NewSet(funcs template.FuncMap, own []File) (*Set, error) {
	s := &Set{own: own}
	if len(own) == 0 {
		var err error
		if s.plain, err = template.New("").Funcs(funcs).ParseFS(files, "*.html"); err != nil {
			return nil, fmt.Errorf("read the templates: %w", err)
		}
		return s, nil
	}
	first, err := newFilling(funcs, own)
	if err != nil {
		return nil, err
	}
	s.free.New = func() any {
		f, err := newFilling(funcs, own)
		if err != nil {
			panic("themes: " + err.Error()) // the first copy was made of the same
		}
		return f
	}
	s.free.Put(first)
	return s, nil
}

func newFilling(funcs template.FuncMap, own []File) (*filling, error) {
	f := &filling{}
	set, faults := lay(withCount(funcs, f.turn), own)
	if faults != nil {
		return nil, faults[0]
	}
	f.templates = set
	return f, nil
}

// turn counts.
func (f *filling) turn() (string, error) {
	if f.left--; f.left < 0 {
		return "", errTurns
	}
	return "", nil
}

// Own says whether any template is a grower's own.
func (s *Set) Own() bool { return len(s.own) > 0 }

// ExecuteTemplate fills a template with data, as html/template does. An error that
// comes up with own templates is a *Fault.
func (s *Set) ExecuteTemplate(to io.Writer, name string, data any) error {
	if s.plain != nil {
		return s.plain.ExecuteTemplate(to, name, data)
	}
	f := s.free.Get().(*filling)
	defer s.free.Put(f)
	f.left = mostTurns
	err := f.templates.ExecuteTemplate(&bounded{to, 0}, name, data)
	switch {
	case errors.Is(err, errTurns), errors.Is(err, errBytes):
		return s.endless(err, f.templates, name)
	case err != nil:
		return Blame(s.own, err)
	}
	return nil
}

// endless is the fault of a template that comes to no end. It is told where the
// file begins in which it is defined.
func (s *Set) endless(err error, set *template.Template, name string) *Fault {
	what := errTurns
	if errors.Is(err, errBytes) {
		what = errBytes
	}
	var in text.ExecError
	if errors.As(err, &in) {
		name = in.Name
	}
	fault := &Fault{File: s.own[0].Name, Message: what.Error()}
	if t := set.Lookup(name); t != nil && t.Tree != nil {
		for _, f := range s.own {
			if f.Name == t.Tree.ParseName {
				fault.File = f.Name
			}
		}
	}
	return fault
}

// bounded refuses more than a page can hold.
type bounded struct {
	to   io.Writer
	size int
}

func (b *bounded) Write(p []byte) (int, error) {
	if b.size += len(p); b.size > mostBytes {
		return 0, errBytes
	}
	return b.to.Write(p)
}

// count is the name of the function that counts; no template's author would
// write it by chance.
const count = "oneMoreTurn"

func withCount(funcs template.FuncMap, turn func() (string, error)) template.FuncMap {
	m := maps.Clone(funcs)
	m[count] = turn
	return m
}

// turnNode calls it. As an assignment it writes nothing, and means nothing to
// escaping.
var turnNode = sync.OnceValue(func() parse.Node {
	t, err := template.New(count).Funcs(template.FuncMap{count: func() string { return "" }}).Parse("{{$_ := " + count + "}}")
	if err != nil {
		panic("themes: " + err.Error()) // our own text
	}
	return t.Tree.Root.Nodes[0]
})

// counted is a copy of a tree that counts its calls and the turns of its ranges.
func counted(tree *parse.Tree) *parse.Tree {
	c := tree.Copy()
	into(c.Root)
	c.Root.Nodes = append([]parse.Node{turnNode().Copy()}, c.Root.Nodes...)
	return c
}

func into(l *parse.ListNode) {
	if l == nil {
		return
	}
	for _, n := range l.Nodes {
		switch n := n.(type) {
		case *parse.RangeNode:
			into(n.List)
			into(n.ElseList)
			n.List.Nodes = append([]parse.Node{turnNode().Copy()}, n.List.Nodes...)
		case *parse.IfNode:
			into(n.List)
			into(n.ElseList)
		case *parse.WithNode:
			into(n.List)
			into(n.ElseList)
		}
	}
}
