package themes

import (
	"bytes"
	"cmp"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"
	"text/template/parse"
)

// A grower's own templates are laid over the built-in ones: a file takes the
// place of the built-in file of its name, template for template, so that what it
// doesn't define stays built in, and a file written for an older version misses
// as little as can be.
//
// They are html/template: what is filled in is escaped for the place where it
// stands, and the only functions are those that the built-in ones have, none of
// which reads a file or the network.

// File is a file of a grower's own look.
type File struct {
	Name string // in style/
	Text []byte
}

// Fault is what is wrong with an own template: where it stands, in bytes of its
// file, and what.
type Fault struct {
	File       string
	Start, End int
	Message    string // lower case, no full stop
}

func (f *Fault) Error() string { return f.File + ": " + f.Message }

// Names are the names of the built-in templates' files, which are those that own
// ones may have: one a kind of page. "frame.html" is the frame, the others define
// what stands in it.
func Names() []string {
	names, err := fs.Glob(files, "*.html")
	if err != nil {
		panic("themes: " + err.Error()) // a pattern of our own
	}
	return names
}

// Functions are the names of what templates can call beside Go's own. Whoever
// fills templates has one for each.
func Functions() []string { return []string{"day", "inWords", "name", "short", "table", "upper"} }

// most ranges may stand in one another: escaping takes twice the time for each.
const mostRanges = 6

// unfilled stands for functions where nothing is filled in.
var unfilled = sync.OnceValue(func() template.FuncMap {
	m := template.FuncMap{}
	for _, name := range Functions() {
		m[name] = func(...any) (string, error) { return "", nil }
	}
	return m
})

// builtIn are the built-in templates' trees by the names under which they are
// defined, and the names that each file defines. Nothing changes the trees.
var builtIn = sync.OnceValue(func() (b struct {
	trees   map[string]*parse.Tree
	defined map[string][]string
}) {
	b.trees, b.defined = map[string]*parse.Tree{}, map[string][]string{}
	for _, name := range Names() {
		text, err := files.ReadFile(name)
		if err != nil {
			panic("themes: " + err.Error()) // embedded: can't be missing
		}
		trees, fault := read(File{name, text}, builtInName+name)
		if fault != nil {
			panic("themes: " + fault.Error()) // our own, which the tests read
		}
		for at, tree := range trees {
			b.trees[at] = tree
			b.defined[name] = append(b.defined[name], at)
		}
		slices.Sort(b.defined[name])
	}
	return b
})

// mark opens files that some editors write.
const mark = "\xef\xbb\xbf"

// builtInName stands before the names of built-in files where Go tells of an
// error, so that they aren't taken for own ones.
const builtInName = "built-in "

// read parses a file, and gives its templates by name. Errors tell of it as said.
func read(f File, said string) (map[string]*parse.Tree, *Fault) {
	text := string(f.Text)
	if strings.HasPrefix(text, mark) {
		text = "   " + text[len(mark):] // as long, so that places stay
	}
	t, err := template.New(said).Funcs(unfilled()).Parse(text)
	if err != nil {
		return nil, unread(f, text, err)
	}
	trees := map[string]*parse.Tree{}
	for _, d := range t.Templates() {
		if d.Tree == nil || d.Tree.Root == nil {
			continue
		}
		if at, deep := tooDeep(d.Tree.Root, 0); deep {
			return nil, &Fault{f.Name, int(at), int(at), fmt.Sprintf("more than %d ranges stand in one another", mostRanges)}
		}
		switch {
		case d.Name() != said:
			trees[d.Name()] = d.Tree
		case !parse.IsEmptyTree(d.Tree.Root):
			trees[f.Name] = d.Tree // what stands outside of any define: the frame alone is filled so
		}
	}
	return trees, nil
}

// tooDeep finds a range that stands in too many others.
func tooDeep(n parse.Node, ranges int) (parse.Pos, bool) {
	var lists []*parse.ListNode
	switch n := n.(type) {
	case *parse.ListNode:
		if n == nil {
			return 0, false
		}
		for _, m := range n.Nodes {
			if at, deep := tooDeep(m, ranges); deep {
				return at, true
			}
		}
		return 0, false
	case *parse.RangeNode:
		if ranges++; ranges > mostRanges {
			return n.Position(), true
		}
		lists = []*parse.ListNode{n.List, n.ElseList}
	case *parse.IfNode:
		lists = []*parse.ListNode{n.List, n.ElseList}
	case *parse.WithNode:
		lists = []*parse.ListNode{n.List, n.ElseList}
	}
	for _, l := range lists {
		if at, deep := tooDeep(l, ranges); deep {
			return at, true
		}
	}
	return 0, false
}

// lay makes one set of the built-in templates and own ones over them. Of two own
// files that define one name the later in order counts.
func lay(funcs template.FuncMap, own []File) (*template.Template, []*Fault) {
	var faults []*Fault
	over := map[string]*parse.Tree{}
	for _, f := range own {
		trees, fault := read(f, f.Name)
		if fault == nil {
			fault = unused(f, trees)
		}
		if fault != nil {
			faults = append(faults, fault)
			continue
		}
		for name, tree := range trees {
			over[name] = tree
		}
	}
	if faults != nil {
		return nil, faults
	}
	set := template.New("").Funcs(funcs)
	for _, trees := range []map[string]*parse.Tree{builtIn().trees, over} {
		for name, tree := range trees {
			if trees[name] == over[name] || over[name] == nil {
				if _, err := set.AddParseTree(name, counted(tree)); err != nil {
					panic("themes: " + err.Error()) // only a set that was filled refuses
				}
			}
		}
	}
	return set, nil
}

// unused is the fault of a file that takes no template's place: nothing would
// show that it was read.
func unused(f File, trees map[string]*parse.Tree) *Fault {
	names := builtIn().defined[f.Name]
	for _, name := range names {
		if trees[name] != nil {
			return nil
		}
	}
	if slices.Contains(names, f.Name) {
		return &Fault{f.Name, 0, 0, "there is nothing in this template"}
	}
	name := strings.TrimSuffix(f.Name, path.Ext(f.Name))
	if !slices.Contains(names, name) {
		name = names[0]
	}
	return &Fault{f.Name, 0, 0, fmt.Sprintf("nothing of this file is used: it has no {{define %q}}", name)}
}

// Check reads own templates as they are read for a site, and escapes all without
// filling any. What they are filled with is seen when a page is made.
func Check(own []File) []*Fault {
	if len(own) == 0 {
		return nil
	}
	set, faults := lay(withCount(unfilled(), func() (string, error) { return "", nil }), own)
	if faults != nil {
		return faults
	}
	if err := escape(set); err != nil {
		return []*Fault{Blame(own, err)}
	}
	return nil
}

// escape has html/template escape every template that the built-in set has, by
// calling each where it is never reached: escaping follows calls, filling
// doesn't.
func escape(set *template.Template) error {
	var calls []*template.Template
	names := sorted(builtIn().trees)
	// Own ones first: what breaks one of them breaks those that call it, too.
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(rank(set, a), rank(set, b)) })
	for _, name := range names {
		at := set.Lookup(name).Tree.ParseName + calling + name
		t, err := set.New(at).Parse(fmt.Sprintf("{{if false}}{{template %q}}{{end}}", name))
		if err != nil {
			panic("themes: " + err.Error()) // our own text
		}
		calls = append(calls, t)
	}
	for _, t := range calls {
		if err := t.Execute(io.Discard, nil); err != nil {
			return err
		}
	}
	return nil
}

// calling parts file and template in the names of calls.
const calling = "/"

// rank is 0 for an own template.
func rank(set *template.Template, name string) int {
	if strings.HasPrefix(set.Lookup(name).Tree.ParseName, builtInName) {
		return 1
	}
	return 0
}

func sorted(trees map[string]*parse.Tree) []string {
	names := make([]string, 0, len(trees))
	for name := range trees {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// StyleWith is the site's style sheet with own ones behind the built-in ones, in
// the order given, as they were written: where both speak of the same, the later
// counts.
func StyleWith(own []File) []byte {
	out := slices.Clone(Style())
	for _, f := range own {
		out = append(append(out, '\n'), bytes.TrimPrefix(f.Text, []byte(mark))...)
	}
	return out
}
