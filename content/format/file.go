package format

// File is one kind of file, or of block, and the keys it may hold.
type File struct {
	Name  string // the word of the trade: "check-in"
	Path  string // where such files stand in the diary: "check-ins/**/*.md"
	About string // one or two sentences
	Keys  []Key
}

// Key is one key of a file or of a map within it.
type Key struct {
	Name     string
	Value    Value
	Required bool
	Past     bool   // a day that can't lie in the future
	Default  string // what holds where the key isn't written; "" where that is "unknown" or "unchanged"
	Example  string // a value as it stands in YAML, units included
	About    string // one or two plain sentences
}

// Value tells what may stand after a key.
type Value struct {
	Kind   Kind
	Words  []Word // of kind Choice: the words allowed; of kind Text: words that have a meaning
	Of     string // of kind ID: the name of the kind of file it is an ID of
	Keys   []Key  // of kind Map
	Item   *Value // of kinds List and Table: what each item is
	Naming string // of kind Table: what the free keys are: "an ID", "free words"
	Single bool   // of kind List: one item may stand alone, without brackets
}

// Word is one allowed word and what it means.
type Word struct{ Word, About string }

// Find gives the key with a name among keys, or nil.
func Find(keys []Key, name string) *Key {
	for i := range keys {
		if keys[i].Name == name {
			return &keys[i]
		}
	}
	return nil
}

// Names lists the names of keys, in the order of the table.
func Names(keys []Key) []string {
	out := make([]string, len(keys))
	for i := range keys {
		out[i] = keys[i].Name
	}
	return out
}

// Has says whether a word is among the words of a value.
func (v *Value) Has(word string) bool {
	for _, w := range v.Words {
		if w.Word == word {
			return true
		}
	}
	return false
}

// WordList lists the words of a value, in the order of the table.
func (v *Value) WordList() []string {
	out := make([]string, len(v.Words))
	for i, w := range v.Words {
		out[i] = w.Word
	}
	return out
}

// Files gives every kind of file, in the order in which help names them.
func Files() []*File {
	return []*File{&Diary, &Import, &Specimen, &CheckIn, &Round, &PlaceNote, &Place, &Update, &Season, &Plate, &Order}
}

// every is what any kind of file may carry besides its own keys.
var every = []Key{
	{Name: "unfinished", Value: Value{Kind: YesNo}, Default: "no", Example: "yes",
		About: "An entry not ready: checked like any other, shown only in the preview or with --unfinished."},
	{Name: "private", Value: Value{Kind: Anything}, Example: `{exporter: "the real name"}`,
		About: "Notes for the grower alone. Nothing under it is read, and it never reaches any output."},
	{Name: "amended", Value: Value{Kind: Table, Naming: "a day", Item: &Value{Kind: Text}},
		Example: `{2026-04-20: "stood in the cabinet, not the tote"}`,
		About:   "What was set right later, and on which day: shown under the entry, and on one page for all."},
}

// with joins lists of keys into one, those of every file at the end.
func with(lists ...[]Key) []Key {
	var out []Key
	for _, l := range lists {
		out = append(out, l...)
	}
	return append(out, every...)
}
