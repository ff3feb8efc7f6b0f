package format

import "strings"

// Phrase is one of the closed phrases of plain words: what a plant's line in a
// round may say without a map.
type Phrase struct {
	Written string   // how it is written: "leaves N [LxW ...]"
	Leads   []string // the words it opens with; more than one where they are alike
	Key     string   // the key that says the same in a map, a dot between levels
	Example string
	About   string
}

// Phrases are all of them, in the order in which help lists them. Content reads
// a line by this table; a test there fails where a phrase of it isn't read.
var Phrases = []Phrase{
	{"same", []string{"same"}, "same", "same",
		"Looked at, nothing to add. It stands alone, or before a remark."},
	{"firm", []string{"firm"}, "turgor", "firm", "The leaves are full."},
	{"soft", []string{"soft"}, "turgor", "soft", "The leaves give way."},
	{"limp", []string{"limp"}, "turgor", "limp", "The leaves hang."},
	{"resting", []string{"resting"}, "resting", "resting", "Leafless but alive, until a leaf is counted."},
	{"new root", []string{"new root"}, "roots.new", "new root", "A root that wasn't there at the last look."},
	{"new leaf", []string{"new leaf", "new leaves"}, "leaves.new", "new leaf", "A leaf that wasn't there at the last look."},
	{"leaves N [LxW ...]", []string{"leaves", "leaf"}, "leaves.count", "leaves 3 13x6 12x6",
		"How many leaves there are, and the length and width of those measured."},
	{"dropped N", []string{"dropped"}, "leaves.dropped", "dropped 1", "Leaves that fell since the last look."},
	{"cut N leaves", []string{"cut"}, "leaves.cut", "cut 3 leaves", "Whole leaves cut off. Counts beside it are those after cutting."},
	{"cut N% roots", []string{"cut"}, "roots.cut", "cut 50% roots", "The share of root cut off."},
	{"roots GRADE [longest L] [mean L] [count N] [length L]", []string{"roots"}, "roots.grade", "roots 2 longest 4 cm count 5",
		"The grade, 0 none to 5 fills the pot, and what was measured. length is all roots together."},
	{"rot WHERE", []string{"rot"}, "rot", "rot stem", "Rot at the roots, the stem or the growing point, until no rot."},
	{"no rot", []string{"no rot"}, "rot", "no rot", "Rot was looked for and not found."},
	{"pests WORDS", []string{"pests"}, "pests", "pests thrips", "Which pests, until no pests."},
	{"no pests", []string{"no pests"}, "pests", "no pests", "Pests were looked for and not found."},
	{"to PLACE", []string{"to"}, "to", "to cabinet", "A move: from now on it stands there."},
	{"medium WORDS", []string{"medium"}, "medium", "medium sphagnum moss", "What the roots are in."},
	{"lost [CAUSE]", []string{"lost"}, "outcome", "lost rot?",
		"Found dead. The cause, where it is known: one of the listed words, two with and between, or other WORDS; a question mark for a doubt."},
	{"established", []string{"established"}, "outcome", "established", "Growing as if it had never travelled."},
	{"passed on", []string{"passed on"}, "outcome", "passed on", "Sold or given away: followed no further."},
	{"alive after all", []string{"alive after all"}, "outcome", "alive after all", "Takes an earlier loss back."},
}

// RotWhere are the parts of a plant at which rot is told apart.
var RotWhere = []string{"roots", "stem", "growing point"}

// Causes are the causes of loss that have a word of their own.
var Causes = []string{"rot", "dried out", "pests", "cold", "heat", "unknown"}

// PhraseLeads lists the words with which phrases of a number of words' lead
// open: one word ("leaves"), two ("new root") or three ("alive after all").
func PhraseLeads(words int) []string {
	var out []string
	for _, p := range Phrases {
		for _, lead := range p.Leads {
			if strings.Count(lead, " ") == words-1 && (len(out) == 0 || out[len(out)-1] != lead) {
				out = append(out, lead)
			}
		}
	}
	return out
}
