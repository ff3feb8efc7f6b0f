package format

// Code is one kind of finding.
type Code struct {
	Name    string // lower-case words with hyphens, never changed once given
	Title   string // what is wrong, in half a line, lower case, no full stop
	Warning bool   // worth a look; the site is built all the same
	About   string // plain sentences: why it matters and how to mend it
	Wrong   string // files that have the fault, laid over a small sound diary: txtar
	Right   string // the same files, mended
}

// Codes gives every code in the order in which help lists them.
func Codes() []Code {
	var out []Code
	for _, part := range [][]Code{folderCodes, headerCodes, trapCodes, keyCodes, valueCodes, referenceCodes, proseCodes, logCodes, listCodes, wordCodes, storyCodes} {
		out = append(out, part...)
	}
	return out
}

var byName = func() map[string]*Code {
	all := Codes()
	m := make(map[string]*Code, len(all))
	for i := range all {
		if m[all[i].Name] != nil {
			panic("format: code " + all[i].Name + " stands twice in the table")
		}
		m[all[i].Name] = &all[i]
	}
	return m
}()

// CodeOf gives the code with a name. It panics where there is none, since a
// finding with a code that help can't explain is a fault of the program's own.
func CodeOf(name string) *Code {
	if c := byName[name]; c != nil {
		return c
	}
	panic("format: no code " + name)
}

// Explained says whether there is a code with a name.
func Explained(name string) bool { return byName[name] != nil }
