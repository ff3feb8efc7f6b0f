package format

// looked is what any entry under check-ins/ may hold.
var looked = []Key{
	{Name: "date", Value: Value{Kind: Moment}, Past: true, Required: true, Example: "2026-04-06", About: "The day of the look, with its time where it is known."},
	{Name: "place", Value: Value{Kind: ID, Of: "place"}, Example: "tote",
		About: "Where it is looked at. It may be left out, since it is known. A move has a key of its own, to."},
	{Name: "reading", Value: Value{Kind: Climate}, Example: "25.5 C 98%", About: "Temperature and humidity measured at the place."},
	{Name: "by", Value: Value{Kind: Text}, Default: "the grower", Example: "I.", About: "Who looked."},
}

// noted is what an entry, or a plant's line in a round, may hold besides what
// was seen of the plant.
var noted = []Key{
	{Name: "note", Value: Value{Kind: Text}, Example: `"smells sour"`, About: "A short public remark. Longer words go below the front matter."},
	{Name: "photos", Value: Value{Kind: List, Item: &photo, Single: true}, Example: "[2026/04/b26-03.jpg]",
		About: "Pictures, by their paths below photos/."},
}

var photo = Value{Kind: Photo, Keys: []Key{
	{Name: "file", Value: Value{Kind: Text}, Required: true, Example: "2026/04/b26-03.jpg", About: "The picture's path below photos/."},
	{Name: "alt", Value: Value{Kind: Text}, Example: `"three new roots on the cut"`, About: "What it shows, for those who can't see it."},
	{Name: "taken", Value: Value{Kind: Day}, Past: true, Default: "the entry's day", Example: "2026-04-05", About: "The day it was taken."},
}}

// Seen is what can be said of one plant in one look: in a check-in of its own, as
// a map on its line in a round, or beside specimens for all that a round speaks
// for.
var Seen = append([]Key{
	{Name: "to", Value: Value{Kind: ID, Of: "place"}, Example: "cabinet", About: "A move: from now on it stands there."},
	{Name: "medium", Value: Value{Kind: Text}, Example: "sphagnum moss", About: "What the roots are in from now on."},
	{Name: "roots", Value: Value{Kind: Map, Keys: []Key{
		{Name: "grade", Value: Value{Kind: Grade}, Example: "2", About: "0 none, 1 stubs, 2 few short, 3 several, 4 many, 5 fills the pot."},
		{Name: "longest", Value: Value{Kind: Length}, Example: "4 cm", About: "The longest root."},
		{Name: "mean", Value: Value{Kind: Length}, Example: "2 cm", About: "The mean length of a root."},
		{Name: "count", Value: Value{Kind: Count}, Example: "5", About: "How many roots."},
		{Name: "length", Value: Value{Kind: Length}, Example: "14 cm", About: "All roots together."},
		{Name: "new", Value: Value{Kind: YesNo}, Example: "yes", About: "A new root since the last look."},
		{Name: "cut", Value: Value{Kind: Share}, Example: "50%", About: "The share of root taken off. Figures beside it are after cutting."},
	}}, Example: "{grade: 2, longest: 4 cm}", About: "What was seen of the roots."},
	{Name: "leaves", Value: Value{Kind: Map, Keys: []Key{
		{Name: "count", Value: Value{Kind: Count}, Example: "2", About: "How many leaves."},
		{Name: "sizes", Value: Value{Kind: List, Item: &Value{Kind: Size}, Single: true}, Example: "[12x8 cm, 10x7 cm]", About: "Length and greatest width of each leaf measured."},
		{Name: "new", Value: Value{Kind: YesNo}, Example: "yes", About: "A new leaf since the last look."},
		{Name: "cut", Value: Value{Kind: Whole}, Example: "3", About: "Whole leaves cut off. Figures beside it are after cutting."},
		{Name: "dropped", Value: Value{Kind: Whole}, Example: "1", About: "Leaves the plant dropped."},
	}}, Example: "{count: 2, sizes: [12x8 cm, 10x7 cm]}", About: "What was seen of the leaves."},
	{Name: "turgor", Value: Value{Kind: Choice, Words: []Word{{"firm", "full of water"}, {"soft", "giving way"}, {"limp", "hanging"}}}, Example: "firm", About: "How full the leaves stand."},
	{Name: "resting", Value: Value{Kind: YesNo}, Example: "yes", About: "Leafless but alive, a rhizome or a corm: not lost. It lasts until a leaf is counted."},
	{Name: "rot", Value: Value{Kind: Choice, Words: []Word{
		{"none", "none, or none any more"}, {"roots", "at the roots"}, {"stem", "at the stem"}, {"growing point", "at the growing point"}}}, Example: "stem", About: "Where it rots. It lasts until none is written."},
	{Name: "pests", Value: Value{Kind: Text, Words: []Word{{"none", "none, or none any more"}}}, Example: "thrips", About: "What feeds on it. It lasts until none is written."},
	{Name: "soak", Value: Value{Kind: Hours}, Example: "24 h", About: "How long it was soaked, where no moves with times tell it."},
	{Name: "did", Value: Value{Kind: List, Single: true, Item: &Value{Kind: Text, Words: []Word{
		{"soaked", "stood in water"}, {"treated", "against rot or pests"}, {"potted", "put into a medium"}, {"aired", "the lid was off"}}}}, Example: "[soaked, treated, potted]",
		About: "What was done: free words, some with a meaning."},
	{Name: "outcome", Value: Value{Kind: Choice, Words: []Word{
		{"lost", "dead"}, {"established", "grows on its own roots"}, {"passed on", "sold or given away: followed no further"},
		{"alive after all", "takes an earlier loss back"}}}, Example: "established", About: "What became of it."},
	{Name: "cause", Value: Value{Kind: Cause, Words: causes}, Example: "rot", About: "Why it was lost: rot? for a doubt, [rot, cold] for two, other and words for anything else."},
	{Name: "cut-into", Value: Value{Kind: Table, Naming: "the ID of a section", Item: &Value{Kind: Choice, Words: Positions}}, Example: "{b26-03a: top, b26-03b: base}",
		About: "Sections made. Its own ID among them means that it lives on; else it is divided and ends here."},
	{Name: "arrival", Value: Value{Kind: YesNo}, Example: "yes", About: "This is the record of arrival: figures before any washing or cutting."},
	{Name: "quarantine-until", Value: Value{Kind: Day}, Example: "2026-05-20", About: "Quarantine counts again for this one, until then."},
	{Name: "last-good", Value: Value{Kind: Day}, Past: true, Example: "2026-04-02", About: "The last day it was seen well, where no check-in says so."},
}, noted...)

// causes explains the words of Causes, in the same order.
var causes = []Word{
	{"rot", "it rotted"}, {"dried out", "it dried out"}, {"pests", "something fed on it"}, {"cold", "it was too cold"}, {"heat", "it was too hot"}, {"unknown", "nobody knows"},
}

// Positions tell which part of the parent a section is.
var Positions = []Word{
	{"top", "the top of the stem"}, {"middle", "a piece of the stem"}, {"base", "the foot with what roots it has"},
	{"offset", "a shoot from the foot"}, {"division", "a share of a clump"}, {"growing point", "a growing point alone"},
}

// Events are the listed events of a place note.
var Events = []Word{
	{"power cut", "no current"}, {"heat", "too hot"}, {"cold", "too cold"}, {"dried out", "the place ran dry"},
}

// happened is what befell a place.
var happened = []Key{
	{Name: "event", Value: Value{Kind: Text, Words: Events}, Example: "power cut", About: "What befell the place: power cut, heat, cold, dried out, or other words."},
	{Name: "since", Value: Value{Kind: Moment}, Past: true, Example: "2026-03-29 17:00", About: "When it began."},
}

// CheckIn is a file under check-ins/ that tells of one specimen.
var CheckIn = File{
	Name: "check-in", Path: "check-ins/**/*.md",
	About: "A dated look at one specimen. What it doesn't mention is unchanged or unknown, never zero.",
	Keys: with([]Key{
		{Name: "specimen", Value: Value{Kind: ID, Of: "specimen"}, Required: true, Example: "b26-03", About: "The specimen looked at."},
	}, looked, Seen),
}

// Round is a file under check-ins/ that tells of several specimens.
var Round = File{
	Name: "round", Path: "check-ins/**/*.md",
	About: "A look at several specimens at once. Keys beside specimens hold for all that the round speaks for, unless a specimen says otherwise.",
	Keys: with([]Key{
		{Name: "specimens", Value: Value{Kind: Table, Naming: "the ID of a specimen", Item: &Value{Kind: Plant, Keys: Seen}},
			Example: "{b26-01: new root, b26-04: {turgor: firm, pests: thrips}}",
			About:   "Each specimen's line: plain words, or a map of keys. An empty line is as if it weren't there."},
		{Name: "others", Value: Value{Kind: Choice, Words: []Word{
			{"same", "looked at, nothing to add"}, {"not seen", "there, but not looked at"}}}, Default: "they weren't looked at", Example: "same",
			About: "Every other living specimen at the place. Only with place."},
		{Name: "not-seen", Value: Value{Kind: List, Item: &Value{Kind: ID, Of: "specimen"}, Single: true}, Example: "[b26-10]",
			About: "Specimens that stood there but weren't looked at. Only with place."},
	}, looked, happened, without(Seen, "cut-into")),
}

// PlaceNote is a file under check-ins/ that tells of a place alone.
var PlaceNote = File{
	Name: "place note", Path: "check-ins/**/*.md",
	About: "A check-in of a place alone: a power cut, a heat wave. It is no look at any plant.",
	Keys:  with(looked, happened, noted),
}

// Entry joins the keys of the three kinds of entry, for reading a file before it
// is known which of them it is.
var Entry = func() []Key {
	out := append([]Key{}, CheckIn.Keys...)
	for _, more := range [][]Key{Round.Keys, PlaceNote.Keys} {
		for _, k := range more {
			if Find(out, k.Name) == nil {
				out = append(out, k)
			}
		}
	}
	Find(out, "specimen").Required = false
	return out
}()

// without leaves out keys by name.
func without(keys []Key, names ...string) []Key {
	var out []Key
	for _, k := range keys {
		keep := true
		for _, n := range names {
			keep = keep && k.Name != n
		}
		if keep {
			out = append(out, k)
		}
	}
	return out
}
